#include "lodeway/landmarks/handrails.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/landmarks/detail/gather.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::landmarks {

namespace {
using mapdata::Side;
constexpr double beside_m = 150, look_m = 10;

/// Where an edge lies on its handrail.
struct OnRail {
  std::uint32_t rail = 0;
  std::size_t place = 0;  ///< in the chain
};

/// Of one fix on one handrail: the nearest place so far.
struct Nearest {
  std::uint32_t rail;
  double at_m, away_m;
};

/// The side to which lines leave that are not the handrail's own.
Side side_of_arms(const Fixes& fixes, const std::vector<OnRail>& rail_of, std::uint32_t rail,
                  const Fix& fix, GridPoint direction) {
  int left = 0, right = 0;
  for (const auto& on : fix.on) {
    if (rail_of[on.edge].rail == rail) continue;
    const auto& edge = fixes.network().edges()[on.edge];
    const mapdata::Measured line(edge.points);
    for (const double step : {-look_m, look_m}) {
      const double to = std::clamp(on.along_m + step, 0.0, line.length_m());
      if (std::abs(to - on.along_m) < 0.5 * look_m) continue;  // it ends here
      (mapdata::cross(direction, line.at(to) - fix.at) > 0 ? left : right) += 1;
    }
  }
  return left > 0 && right == 0 ? Side::left : right > 0 && left == 0 ? Side::right : Side::none;
}

}  // namespace

std::vector<Handrail> handrails(const Fixes& fixes, const mapdata::MapData& map) {
  const auto& net = fixes.network();
  std::vector<Handrail> out;
  std::vector<OnRail> rail_of(net.edges().size());
  for (auto& chain : net.chains(map.lines)) {
    Handrail h;
    const auto& label = map.lines[net.edges()[chain.edges.front()].line].label;
    h.kind = label.kind;
    h.name = label.name;
    h.points = net.points_of(chain);
    for (std::size_t i = 0; i < chain.edges.size(); ++i) {
      rail_of[chain.edges[i]] = {static_cast<std::uint32_t>(out.size()), i};
      h.edge_at_m.push_back(h.length_m);
      h.length_m += net.edges()[chain.edges[i]].length_m;
    }
    h.chain = std::move(chain);
    out.push_back(std::move(h));
  }
  std::vector<mapdata::Measured> lines;
  for (const auto& h : out) lines.emplace_back(h.points);
  for (std::uint32_t i = 0; i < fixes.all().size(); ++i) {
    const Fix& fix = fixes[i];
    const double reach =
        std::clamp(*std::ranges::max_element(fix.seen_from_m), on_line_m, beside_m);
    std::vector<Nearest> near;
    for (const auto& t : net.touch(fix.at, reach)) {
      const auto [rail, place] = rail_of[t.edge];
      const auto same = std::ranges::find(near, rail, &Nearest::rail);
      if (same != near.end()) continue;  // nearest first
      const double along =
          out[rail].chain.backwards[place] ? net.edges()[t.edge].length_m - t.along_m : t.along_m;
      near.push_back({rail, out[rail].edge_at_m[place] + along, t.away_m});
    }
    for (const auto& n : near) {
      Handrail& h = out[n.rail];
      const bool ring = h.chain.nodes.front() == h.chain.nodes.back();
      if (!ring && n.away_m <= on_line_m && n.at_m < on_line_m)
        h.first_fix = i;
      else if (!ring && n.away_m <= on_line_m && n.at_m > h.length_m - on_line_m)
        h.last_fix = i;
      if (!ring && (n.at_m < on_line_m || n.at_m > h.length_m - on_line_m)) continue;
      const auto& line = lines[n.rail];
      const auto direction =
          line.at(std::min(n.at_m + look_m, h.length_m)) - line.at(std::max(n.at_m - look_m, 0.0));
      const Side side = n.away_m <= on_line_m ? side_of_arms(fixes, rail_of, n.rail, fix, direction)
                        : mapdata::cross(direction, fix.at - line.at(n.at_m)) > 0 ? Side::left
                                                                                  : Side::right;
      h.ticks.push_back({i, n.at_m, n.away_m, side});
    }
  }
  for (auto& h : out) std::ranges::stable_sort(h.ticks, {}, &TickOff::at_m);
  return out;
}

}  // namespace lodeway::landmarks
