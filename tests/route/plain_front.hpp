#pragma once
/// Random graphs of whole-number costs, and two plain judges of the search over time and certainty:
/// label correcting without bounds or order, and every way one by one.
#include <algorithm>
#include <cmath>
#include <deque>
#include <set>

#include "lodeway/numeric/random.hpp"
#include "lodeway/route/front/front.hpp"

namespace lodeway::route {

using Figures = std::vector<std::pair<double, double>>;  ///< seconds ascending, loss

inline std::uint32_t below(numeric::Random& r, std::size_t n) {
  return static_cast<std::uint32_t>(r.uniform() * static_cast<double>(n));
}

/// A graph with places in the plane. Arcs at turns cost more the more is carried along them, in
/// whole numbers; a chain has few turns, and none that carries too much.
struct RandomGraph {
  std::vector<Arc> arcs;
  std::vector<std::uint8_t> turns;
  std::vector<earth::GridPoint> at;
  int most_turns = 2;
  reckoning::Errors errors{.bearing_sigma = 0.05,
                           .sighting_sigma = 0.03,
                           .distance_sigma = 0.06,
                           .compass_sigma = 0.04,
                           .stride_sigma = 0.03};

  RandomGraph(numeric::Random& r, std::size_t places, std::size_t arc_count, double turn_share,
              std::size_t highest) {
    for (std::size_t p = 0; p < places; ++p) {
      at.push_back({1000 * r.uniform(), 1000 * r.uniform()});
      turns.push_back(p > 1 && r.uniform() < turn_share);
    }
    const auto figure = [&] { return static_cast<double>(below(r, highest + 1)); };
    for (std::size_t a = 0; a < arc_count; ++a) {
      Arc arc{below(r, places), below(r, places), {figure(), figure(), figure()}, false};
      // Quick legs are less sure, mostly: that makes the fronts long.
      if (r.uniform() < 0.7) arc.cost.loss = static_cast<double>(highest) - arc.cost.seconds;
      const bool turn = turns[arc.from] != 0 || turns[arc.to] != 0;
      if (turn && arc.from == arc.to) continue;
      arc.asks = turn || r.uniform() < 0.1 * turn_share;
      arcs.push_back(arc);
    }
  }

  [[nodiscard]] std::optional<Asked> ask(std::uint32_t index, const Carried* carried) const {
    const Arc& arc = arcs[index];
    Carried next{carried ? carried->drift : reckoning::Drift(errors, 0.01, {25, 0, 25}),
                 carried ? carried->turns + 1 : 1};
    const auto d = at[arc.to] - at[arc.from];
    next.drift.add_leg(earth::grid_bearing({0, 0}, {d.east_m, d.north_m}), std::hypot(d.east_m, d.north_m));
    const auto spread = next.drift.total();
    if (spread.trace() > 25000) return std::nullopt;
    Asked asked{{arc.cost.seconds + std::floor(spread.xx / 1000),
                 arc.cost.loss + std::floor(spread.trace() / 500),
                 arc.cost.hazard + std::floor(spread.along(0.7) / 2000)},
                {}};
    if (turns[arc.to] != 0) {
      if (next.turns > most_turns) return std::nullopt;
      asked.carried = next;
    }
    return asked;
  }

  [[nodiscard]] FrontProblem problem(Limits limits = {}) const {
    FrontProblem p;
    p.places = at.size();
    p.arcs = arcs;
    p.turns = turns;
    p.from = 0;
    p.to = 1;
    p.limits = limits;
    p.ask = [this](std::uint32_t a, const Carried* c) { return ask(a, c); };
    return p;
  }
};

/// The step over an arc, or nothing where it is refused or a leg's limits are not kept.
inline std::optional<Asked> step_over(const FrontProblem& p, std::uint32_t a, const Carried* c) {
  const Arc& arc = p.arcs[a];
  const auto step = arc.asks ? p.ask(a, c) : Asked{arc.cost, {}};
  const Limits& l = p.limits;
  if (step && (step->cost.seconds > l.leg_seconds || step->cost.loss > l.leg_loss ||
               step->cost.hazard > l.leg_hazard)) {
    return std::nullopt;
  }
  return step;
}

/// Only what no other beats in both.
inline Figures front_of(const std::vector<LegCost>& all) {
  std::set<std::pair<double, double>> sorted;
  for (const auto& c : all) sorted.emplace(c.seconds, c.loss);
  Figures front;
  for (const auto& f : sorted) {
    if (front.empty() || f.second < front.back().second) front.push_back(f);
  }
  return front;
}

/// Label correcting, first in first out, all three costs compared, no bounds. At a turn nothing is
/// compared at all.
inline Figures plain_front(const FrontProblem& p) {
  struct Plain {
    LegCost cost;
    std::uint32_t place;
    std::optional<Carried> carried;
  };
  std::vector<std::vector<LegCost>> kept(p.places);
  std::vector<std::vector<std::uint32_t>> out(p.places);
  for (std::uint32_t a = 0; a < p.arcs.size(); ++a) out[p.arcs[a].from].push_back(a);
  const auto beats = [](const LegCost& a, const LegCost& b) {
    return a.seconds <= b.seconds && a.loss <= b.loss && a.hazard <= b.hazard;
  };
  std::deque<Plain> queue{{{}, p.from, {}}};
  kept[p.from].push_back({});
  for (; !queue.empty(); queue.pop_front()) {
    const Plain now = queue.front();
    const bool stale = !now.carried && std::ranges::none_of(kept[now.place], [&](const auto& k) {
      return beats(k, now.cost) && beats(now.cost, k);
    });
    if (stale) continue;
    for (const auto a : out[now.place]) {
      const auto step = step_over(p, a, now.carried ? &*now.carried : nullptr);
      if (!step) continue;
      const std::uint32_t to = p.arcs[a].to;
      const LegCost cost{now.cost.seconds + step->cost.seconds, now.cost.loss + step->cost.loss,
                         now.cost.hazard + step->cost.hazard};
      if (cost.seconds > p.limits.seconds || cost.hazard > p.limits.hazard) continue;
      if (!step->carried) {
        auto& at = kept[to];
        if (std::ranges::any_of(at, [&](const auto& k) { return beats(k, cost); })) continue;
        std::erase_if(at, [&](const auto& k) { return beats(cost, k); });
        at.push_back(cost);
      }
      queue.push_back({cost, to, step->carried});
    }
  }
  return front_of(kept[p.to]);
}

/// Every way that comes to no fix twice, one by one.
inline Figures every_way(const FrontProblem& p) {
  std::vector<LegCost> ends;
  std::vector<bool> on_way(p.places, false);
  const std::function<void(std::uint32_t, LegCost, const Carried*)> walk =
      [&](std::uint32_t place, LegCost cost, const Carried* carried) {
        if (cost.seconds > p.limits.seconds || cost.hazard > p.limits.hazard) return;
        if (place == p.to) return ends.push_back(cost);
        on_way[place] = carried == nullptr;
        for (std::uint32_t a = 0; a < p.arcs.size(); ++a) {
          if (p.arcs[a].from != place || on_way[p.arcs[a].to]) continue;
          if (const auto step = step_over(p, a, carried)) {
            walk(p.arcs[a].to,
                 {cost.seconds + step->cost.seconds, cost.loss + step->cost.loss,
                  cost.hazard + step->cost.hazard},
                 step->carried ? &*step->carried : nullptr);
          }
        }
        on_way[place] = false;
      };
  walk(p.from, {}, nullptr);
  return front_of(ends);
}

}  // namespace lodeway::route
