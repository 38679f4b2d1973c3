#include "lodeway/trip/crossed_bars.hpp"

#include <algorithm>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::trip {

namespace {

using mapdata::Kind;

constexpr double one_crossing_m = 60, on_it_m = 2;  // *practice*

bool bars(Kind kind) { return kind == Kind::forbidden || kind == Kind::railway; }

}  // namespace

std::vector<std::vector<CrossedBar>> crossed_bars(const reckoning::JudgedWay& way,
                                                  const walking::Ground& ground) {
  std::vector<mapdata::LineFeature> barring, bridges;
  for (const auto& line : ground.map.lines) {
    if (line.tunnel) continue;
    if (bars(line.label.kind)) barring.push_back(line);
    if (line.bridge && walking::is_path(line.label.kind)) bridges.push_back(line);
  }
  std::vector<std::vector<CrossedBar>> out(way.legs.size());
  if (barring.empty()) return out;
  const mapdata::LineIndex index(barring), over(bridges);
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    const auto& leg = way.legs[k];
    const auto& line = leg.course.line;
    const double whole = mapdata::length_m(line);
    const double scale = whole > 0 ? leg.figures.length_m / whole : 1;
    double at = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double piece = earth::grid_distance_m(line[i - 1], line[i]);
      for (const auto& met : index.crossings(line[i - 1], line[i])) {
        const auto& what = barring[met.ref.line];
        if (what.label.kind == leg.course.followed.kind) continue;
        const auto how = !over.near(met.at, on_it_m).empty() ? CrossedHow::over
                         : what.bridge                       ? CrossedHow::under
                                                             : CrossedHow::unknown;
        out[k].push_back({(at + met.at_fraction * piece) * scale, what.label.kind, how});
      }
      at += piece;
    }
    std::ranges::stable_sort(out[k], {}, &CrossedBar::at_m);
    std::vector<CrossedBar> apart;
    for (const auto& bar : out[k]) {
      if (apart.empty() || bar.kind != apart.back().kind ||
          bar.at_m - apart.back().at_m > one_crossing_m)
        apart.push_back(bar);
    }
    out[k] = std::move(apart);
  }
  return out;
}

}  // namespace lodeway::trip
