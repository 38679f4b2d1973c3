#include "lodeway/tasks/ground.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "lodeway/io/elevation/elevation.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/io/osm/osm.hpp"
#include "lodeway/io/vector/features.hpp"
#include "lodeway/tasks/derive.hpp"
#include "lodeway/tasks/io_progress.hpp"

namespace lodeway::tasks {

namespace {

namespace files = std::filesystem;

Result<void> check_out(const BuildRequest& request) {
  if (files::path(request.out).extension() != ".gpkg") {
    return fail(FaultCode::bad_input, request.out + ": expected a name that ends in .gpkg");
  }
  for (const auto* list : {&request.elevation, &request.features}) {
    for (const std::string& file : *list) {
      std::error_code error;
      if (files::equivalent(file, request.out, error)) {
        return fail(FaultCode::bad_input,
                    request.out + ": expected another file than those that are read");
      }
    }
  }
  return io::can_be_written(request.out);
}

/// "FILE=TEXT" to its file; then "TEXT" to every source without one. A FILE= that is not among the
/// sources is taken as part of the text: licences may hold '='.
void give(std::vector<mapdata::Source>& sources, const std::vector<std::string>& texts,
          std::string mapdata::Source::* field) {
  std::vector<std::string> for_all;
  for (const std::string& text : texts) {
    const auto equals = text.find('=');
    bool named = false;
    for (mapdata::Source& s : sources) {
      if (equals == std::string::npos || s.file != text.substr(0, equals)) continue;
      s.*field = text.substr(equals + 1);
      named = true;
    }
    if (!named) for_all.push_back(text);
  }
  for (mapdata::Source& s : sources) {
    if ((s.*field).empty() && !for_all.empty())
      s.*field = fmt::format("{}", fmt::join(for_all, "; "));
  }
}

template <class T>
void append(std::vector<T>& to, std::vector<T>&& from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

}  // namespace

Result<GroundSummary> build_ground(const BuildRequest& request, Progress* progress) {
  if (const auto good = check_out(request); !good) return std::unexpected(good.error());
  const io::Progress tell = io_progress(progress);
  io::KindRules rules = io::built_in_rules();
  if (!request.kinds.empty()) {
    auto own = io::read_kind_rules(request.kinds);
    if (!own) return std::unexpected(own.error());
    rules = std::move(*own);
  }
  auto heights =
      io::read_elevation({request.elevation, request.crs, request.cell_m, request.bounds}, tell);
  if (!heights) return std::unexpected(heights.error());
  walking::Ground ground;
  ground.name = request.name.empty() ? files::path(request.out).stem().string() : request.name;
  ground.grid = heights->grid;
  ground.elevation = std::move(heights->heights);
  ground.kinds = rules.table();
  ground.sources = std::move(heights->sources);
  std::vector<std::string> remarks = std::move(heights->remarks);
  const io::FeatureRequest features{ground.grid, ground.elevation.frame(), &rules, tell};
  for (const std::string& file : request.features) {
    auto read = io::is_osm(file) ? io::read_osm(file, features) : io::read_features(file, features);
    if (!read) return std::unexpected(read.error());
    append(ground.map.points, std::move(read->map.points));
    append(ground.map.lines, std::move(read->map.lines));
    append(ground.map.areas, std::move(read->map.areas));
    ground.sources.push_back(std::move(read->source));
    append(remarks, std::move(read->remarks));
  }
  derive_edges(ground);
  if (const auto derived = derive_from_relief(ground, progress); !derived) {
    return std::unexpected(derived.error());
  }
  give(ground.sources, request.licences, &mapdata::Source::licence);
  give(ground.sources, request.attributions, &mapdata::Source::attribution);
  if (!tell(-1, "writing " + request.out))
    return fail(FaultCode::cancelled, "stopped; nothing was written");
  if (const auto saved = io::save_ground(ground, request.out); !saved)
    return std::unexpected(saved.error());
  GroundSummary summary = summarise(ground);
  summary.remarks = std::move(remarks);
  return summary;
}

Result<GroundSummary> show_ground(const std::string& path, Progress* progress) {
  const auto ground = io::open_ground(path, io_progress(progress));
  if (!ground) return std::unexpected(ground.error());
  return summarise(*ground);
}

}  // namespace lodeway::tasks
