// A recorded track and a route.
#include "fuzz/fuzz.hpp"
#include "lodeway/io/gpx/gpx.hpp"
#include "lodeway/io/gpx/gpx_track.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::File file("track.gpx");
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto& path = file.holding(bytes);
  if (const auto marks = io::read_gpx(path); !marks) fuzz::must_be_a_line(marks.error().what);
  const auto track = io::read_gpx_track(path);
  if (!track) fuzz::must_be_a_line(track.error().what);
  const auto same = io::gpx_track_of_bytes(bytes, "track.gpx");
  fuzz::must(same.has_value() == track.has_value());
  return 0;
}
