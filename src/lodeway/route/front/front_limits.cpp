#include "lodeway/route/front/front_limits.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace lodeway::route {

namespace {

constexpr std::array all_limits{Limit::seconds, Limit::hazard, Limit::leg_seconds, Limit::leg_loss,
                                Limit::leg_hazard};

double& value(Limits& l, Limit which) {
  const std::array<double*, 5> by{&l.seconds, &l.hazard, &l.leg_seconds, &l.leg_loss,
                                  &l.leg_hazard};
  return *by[static_cast<std::size_t>(which)];
}

/// What a way needs of a limit, and which of its legs most.
struct Need {
  double value = 0;
  std::uint32_t arc = 0;
};

/// The costs of a way's legs, asked again.
std::vector<LegCost> leg_costs(const FrontProblem& p, const FrontWay& way) {
  std::vector<LegCost> costs;
  std::optional<Carried> carried;
  for (const auto a : way.arcs) {
    if (!p.arcs[a].asks) {
      costs.push_back(p.arcs[a].cost);
      carried.reset();
      continue;
    }
    const auto asked = p.ask(a, carried ? &*carried : nullptr);
    costs.push_back(asked ? asked->cost : p.arcs[a].cost);
    const bool turn = !p.turns.empty() && p.turns[p.arcs[a].to] != 0;
    carried = turn && asked ? asked->carried : std::nullopt;
  }
  return costs;
}

Need need_of(const FrontProblem& p, const FrontWay& way, Limit which) {
  if (which == Limit::seconds) return {way.cost.seconds, 0};
  if (which == Limit::hazard) return {way.cost.hazard, 0};
  const auto figure = which == Limit::leg_seconds ? &LegCost::seconds
                      : which == Limit::leg_loss  ? &LegCost::loss
                                                  : &LegCost::hazard;
  Need most;
  const auto costs = leg_costs(p, way);
  for (std::size_t k = 0; k < costs.size(); ++k) {
    if (costs[k].*figure > most.value || k == 0) most = {costs[k].*figure, way.arcs[k]};
  }
  return most;
}

/// The quickest way within the limits, if there is one.
Result<std::optional<FrontWay>> quickest(FrontProblem p) {
  p.least_gain = 1e300;  // no second one is worth having
  auto front = find_front(p);
  if (!front) return std::unexpected(front.error());
  if (front->ways.empty()) return std::optional<FrontWay>{};
  return std::optional{std::move(front->ways.front())};
}

/// The way of least hazard: hazard and loss change places.
Result<std::optional<FrontWay>> least_hazard(const FrontProblem& problem) {
  const auto turned = [](LegCost c) {
    std::swap(c.loss, c.hazard);
    return c;
  };
  std::vector<Arc> arcs(problem.arcs.begin(), problem.arcs.end());
  for (auto& a : arcs) a.cost = turned(a.cost);
  FrontProblem p = problem;
  p.arcs = arcs;
  p.least_gain = 0;
  p.limits.hazard = no_limit;  // of the loss: a way as a whole has no limit to it
  std::swap(p.limits.leg_loss, p.limits.leg_hazard);
  if (problem.ask) {
    p.ask = [&](std::uint32_t a, const Carried* c) {
      auto asked = problem.ask(a, c);
      if (asked) asked->cost = turned(asked->cost);
      return asked;
    };
  }
  auto front = find_front(p);
  if (!front) return std::unexpected(front.error());
  if (front->ways.empty()) return std::optional<FrontWay>{};
  front->ways.back().cost = turned(front->ways.back().cost);
  return std::optional{std::move(front->ways.back())};
}

/// The way that needs least of one limit, all others kept.
Result<std::optional<FrontWay>> least_of(const FrontProblem& problem, Limit which) {
  FrontProblem p = problem;
  double& limit = value(p.limits, which);
  double too_low = limit;
  limit = no_limit;
  if (which == Limit::hazard) return least_hazard(p);
  auto best = quickest(p);
  if (which == Limit::seconds || !best || !*best) return best;
  // Halving between what is too little and what the best so far needs.
  double enough = need_of(p, **best, which).value;
  while (enough - too_low > 1e-3 * enough) {
    limit = 0.5 * (too_low + enough);
    if (limit <= too_low || limit >= enough) break;
    auto way = quickest(p);
    if (!way) return way;
    if (*way) {
      enough = need_of(p, **way, which).value;
      best = std::move(way);
    } else {
      too_low = limit;
    }
  }
  return best;
}

}  // namespace

Result<std::optional<NearestWay>> nearest_to_limits(const FrontProblem& problem) {
  std::optional<NearestWay> nearest;
  double least = no_limit;
  const auto miss = [&](const FrontWay& way, Limit which, Limits& limits) {
    const Need need = need_of(problem, way, which);
    double& limit = value(limits, which);
    const MissedLimit missed{which, limit, need.value, need.arc};
    limit = std::max(limit, need.value);
    return missed;
  };
  for (const auto which : all_limits) {
    Limits limits = problem.limits;
    if (value(limits, which) == no_limit) continue;
    auto way = least_of(problem, which);
    if (!way) return std::unexpected(way.error());
    if (!*way) continue;
    const auto missed = miss(**way, which, limits);
    const double by = missed.wanted > 0 ? missed.needed / missed.wanted : 1e300;
    if (by < least) {
      least = by;
      nearest = NearestWay{*std::move(*way), {missed}, limits};
    }
  }
  if (nearest) return nearest;
  FrontProblem free = problem;
  free.limits = {};
  auto way = quickest(free);
  if (!way) return std::unexpected(way.error());
  if (!*way) return nearest;
  nearest = NearestWay{*std::move(*way), {}, problem.limits};
  for (const auto which : all_limits) {
    const auto missed = miss(nearest->way, which, nearest->limits);
    if (missed.needed > missed.wanted) nearest->missed.push_back(missed);
  }
  return nearest;
}

}  // namespace lodeway::route
