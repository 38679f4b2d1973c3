// GeoJSON through the collector and the clipper. FEATURES_NAME: the file's name, which says its kind.
#include <unistd.h>

#include <cmath>

#include "fuzz/fuzz.hpp"
#include "lodeway/io/osm/osm.hpp"
#include "lodeway/io/vector/features.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::File file(FEATURES_NAME);
  static const io::FeatureRequest request{
      *earth::MapGrid::from_text("EPSG:32629"), {480000, 6060000, 10, 500, 500}, {}, {}};
  static const int first_free = [] {
    const int fd = dup(STDIN_FILENO);
    close(fd);
    return fd;
  }();
  io::FeatureRequest own = request;
  own.rules = &io::built_in_rules();
  // Endless reading is ended: a fuzzer's time is for other inputs.
  int looks = 0;
  own.progress = [&](double, std::string_view) { return ++looks < 100000; };
  const auto& path = file.holding({reinterpret_cast<const char*>(data), size});
  const auto read = io::is_osm(path) ? io::read_osm(path, own) : io::read_features(path, own);
  if (!read) {
    // libosmium leaves a PBF file open that it refuses; else its reader soon ends, here it reads on.
    if (path.ends_with(".pbf")) close_range(static_cast<unsigned>(first_free), ~0U, 0);
    return fuzz::must_be_a_line(read.error().what), 0;
  }
  const auto& f = own.frame;
  const auto inside = [&](earth::GridPoint at) {
    constexpr double slack_m = 1e-3;
    fuzz::must(at.east_m >= f.west_m - slack_m && at.east_m <= f.east_m() + slack_m &&
               at.north_m >= f.south_m() - slack_m && at.north_m <= f.north_m + slack_m);
  };
  for (const auto& p : read->map.points) inside(p.at);
  for (const auto& line : read->map.lines)
    for (const auto& at : line.points) inside(at);
  for (const auto& area : read->map.areas) {
    for (const auto& at : area.outer) inside(at);
    for (const auto& hole : area.holes)
      for (const auto& at : hole) inside(at);
  }
  return 0;
}
