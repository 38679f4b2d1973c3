#include "lodeway/walking/barred_beside.hpp"

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::walking {

std::vector<BarBeside> barred_beside(const Cover& cover, const std::vector<earth::GridPoint>& line,
                                     double reach_m) {
  constexpr double each_m = 25;
  std::vector<BarBeside> out;
  if (line.size() < 2) return out;
  const auto& frame = cover.frame();
  const auto bars = [&](earth::GridPoint p) {
    if (!frame.contains(p)) return Bar::none;
    const auto [row, col] = frame.cell_of(p);
    const Bar bar = cover.bar(row, col);
    return bar == Bar::outside || bar == Bar::void_height ? Bar::none : bar;
  };
  const mapdata::Measured measured(line);
  for (const auto side : {mapdata::Side::left, mapdata::Side::right}) {
    BarBeside nearest{Bar::none, side, reach_m, 0};
    for (double at = 0; at <= measured.length_m(); at += each_m) {
      const auto here = measured.at(at);
      const auto on = measured.at(std::min(at + 1, measured.length_m())),
                 back = measured.at(std::max(at - 1, 0.0));
      const auto ahead = on - back;
      const double length = mapdata::length_of(ahead);
      if (!(length > 0)) continue;
      const double turn = side == mapdata::Side::left ? 1 : -1;
      const earth::GridPoint aside{-turn * ahead.north_m / length, turn * ahead.east_m / length};
      for (double away = frame.cell_m; away < nearest.distance_m; away += 0.7 * frame.cell_m) {
        const Bar bar = bars(here + away * aside);
        if (bar == Bar::none) continue;
        nearest = {bar, side, away, at};
        break;
      }
    }
    if (nearest.bar != Bar::none) out.push_back(nearest);
  }
  return out;
}

}  // namespace lodeway::walking
