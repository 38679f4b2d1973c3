/// Legs that leave the lines: which are worth looking at, and what they cost.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <queue>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/reckoning/point_target.hpp"
#include "lodeway/route/leg_graph.hpp"
#include "lodeway/route/open_stretch.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Leg;

// All *practice*:
constexpr double least_leg_m = 80;     // no bearing is set for less
constexpr int sectors = 16;
constexpr std::size_t a_sector = 2;    // the best so many of a sector, and the nearest sure one
constexpr double sure_enough = 0.9, hopeless = 0.4;
constexpr double enter_reach_m = 900;  // a line is made for from so far
constexpr std::size_t most_entries = 6;
constexpr double at_fix_m = 40;        // a line met so near a fix is met at the fix
constexpr double box_step_m = 60, most_box_m = 480, keep_off_m = 40;
constexpr std::size_t most_boxed = 1;  // of a sector's targets
// Candidates are kept that lie on a way at most so much over the best, at one of these prices of
// certainty (seconds for a loss of 1: half an hour is what an unsure party spends on getting lost).
constexpr std::array<double, 4> prices_s{0, 1800, 7200, 36000};
constexpr double most_over = 0.35, judged_over = 0.12, slack_s = 600;
constexpr int most_rounds = 6;
constexpr std::size_t a_round = 200;

constexpr double never = no_limit;

/// The candidates by one of their ends.
class Net {
 public:
  Net(std::size_t places, const std::vector<const Arc*>& arcs, bool backwards)
      : arcs_(arcs), backwards_(backwards), start_(places + 1, 0), by_(arcs.size()) {
    for (const auto* a : arcs) ++start_[tail(*a) + 1];
    for (std::size_t i = 0; i < places; ++i) start_[i + 1] += start_[i];
    auto next = start_;
    for (std::uint32_t i = 0; i < arcs.size(); ++i) by_[next[tail(*arcs[i])]++] = i;
  }
  /// The least sum of `prices` from a place to every other.
  [[nodiscard]] std::vector<double> least(std::uint32_t from,
                                          const std::vector<double>& prices) const {
    std::vector<double> out(start_.size() - 1, never);
    using Item = std::pair<double, std::uint32_t>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
    out[from] = 0;
    heap.emplace(0, from);
    while (!heap.empty()) {
      const auto [d, n] = heap.top();
      heap.pop();
      if (d > out[n]) continue;
      for (auto k = start_[n]; k < start_[n + 1]; ++k) {
        const Arc& a = *arcs_[by_[k]];
        const auto m = backwards_ ? a.from : a.to;
        if (const double sum = d + prices[by_[k]]; sum < out[m]) {
          out[m] = sum;
          heap.emplace(sum, m);
        }
      }
    }
    return out;
  }

 private:
  [[nodiscard]] std::uint32_t tail(const Arc& a) const { return backwards_ ? a.to : a.from; }
  const std::vector<const Arc*>& arcs_;
  bool backwards_;
  std::vector<std::uint32_t> start_, by_;
};

}  // namespace

/// A guess, before a leg is judged, of how surely a stand is found from so far.
double LegGraph::likely(const Stand& to, double length_m) const {
  const auto spread = reckoning::single_leg_spread(seeking_.judge.errors(), length_m);
  const double sigma = std::sqrt(spread.cross_m2);
  double best = to.marked ? to.recognised * reckoning::passes_within(sigma, 0, to.seen_from_m) : 0;
  if (to.line_known > 0) {
    best = std::max(best, to.line_known * (to.marked ? 0.95 * to.recognised
                                                     : reckoning::passes_within(sigma, 0, 50)));
  }
  return best;
}

void LegGraph::bearings_from(const Stand& stand, std::vector<Candidate>& out) const {
  const auto& c = seeking_.cutting;
  const double most_m = c.request.party.max_leg_m;
  struct Target {
    const Stand* stand;
    double length_m, likely, worth;
  };
  std::array<std::vector<Target>, sectors> by_sector;
  const auto consider = [&](const Stand& to, bool wanted) {
    const double length = earth::grid_distance_m(stand.at, to.at);
    if (length > most_m || to.place == stand.place || (length < least_leg_m && !wanted)) return;
    if (length < 1) return;
    const double chance = likely(to, length);
    if (chance < hopeless && !wanted) return;
    const double angle =
        std::atan2(to.at.east_m - stand.at.east_m, to.at.north_m - stand.at.north_m);
    const auto sector = static_cast<std::size_t>(
        std::clamp(static_cast<int>((angle + std::numbers::pi) / (2 * std::numbers::pi) * sectors),
                   0, sectors - 1));
    const double worth = wanted ? never : length * std::pow(chance, 4);
    by_sector[sector].push_back({&to, length, chance, worth});
  };
  for (const auto f : seeking_.lines.fix_places.near(stand.at, most_m)) {
    if (stand_of_[f] != nothing) consider(stands_[stand_of_[f]], false);
  }
  consider(stands_[stand_of_[last()]], true);
  const std::size_t most = stand.place == first() ? 3 * a_sector : a_sector;
  for (auto& targets : by_sector) {
    std::ranges::stable_sort(targets, std::greater{}, &Target::worth);
    std::size_t taken = 0;
    const Target* near = nullptr;
    for (const auto& t : targets) {
      if (t.likely >= sure_enough && (near == nullptr || t.length_m < near->length_m)) near = &t;
    }
    std::size_t boxed = 0;
    for (const auto& t : targets) {
      if (t.worth < never && taken >= most && &t != near) continue;
      auto around = std::vector<std::vector<GridPoint>>{{stand.at, t.stand->at}};
      if (!c.prepared.cover.clear(stand.at, t.stand->at)) {
        if (boxed >= most_boxed && t.worth < never) continue;
        ++boxed;
        around = gone_round(stand.at, t.stand->at,
                            c.prepared.cover.first_bar(stand.at, t.stand->at).at);
      }
      if (around.empty()) continue;
      ++taken;
      for (auto& points : around) {
        const double s = line_s(points, 1.0) + static_cast<double>(points.size() - 1) * leg_costs_s;
        out.push_back({{stand.place, t.stand->place,
                        {s, -std::log(std::max(t.likely, 1e-3)), 0}},
                       {Step::What::legs, nothing, 0, 0, std::move(points)}});
      }
    }
  }
}

/// A dog-leg round what bars the straight leg, on either side of it, as narrow as will do.
std::vector<std::vector<GridPoint>> LegGraph::gone_round(GridPoint a, GridPoint b,
                                                         GridPoint bar) const {
  const auto& cover = seeking_.cutting.prepared.cover;
  std::vector<std::vector<GridPoint>> out;
  const double length = earth::grid_distance_m(a, b);
  const GridPoint on = (1 / length) * (b - a), right{on.north_m, -on.east_m};
  const auto clear = [&](GridPoint p, GridPoint q) {
    return cover.clear(p, q);
  };
  const double into = mapdata::dot(bar - a, on);
  for (const double side : {1.0, -1.0}) {
    bool found = false;
    for (double off = box_step_m; off <= std::min(most_box_m, 0.6 * length) && !found;
         off += box_step_m) {
      for (const double further : {0.5 * off, 1.5 * off}) {
        const auto turn = a + std::min(into + further, 0.9 * length) * on + side * off * right;
        if (cover.bar_at(turn) != walking::Bar::none || !clear(a, turn) || !clear(turn, b)) continue;
        // a little more than is needed, for the party will not walk quite straight
        const auto wider = turn + side * keep_off_m * right;
        const bool room = cover.bar_at(wider) == walking::Bar::none && clear(a, wider) && clear(wider, b);
        out.push_back({a, room ? wider : turn, b});
        found = true;
        break;
      }
    }
  }
  return out;
}

void LegGraph::entries_from(const Stand& stand, std::vector<Candidate>& out) const {
  const auto& c = seeking_.cutting;
  const auto& lines = seeking_.lines;
  std::size_t taken = 0;
  const auto touched = lines.fixes.network().touch(
      stand.at, std::min(enter_reach_m, c.request.party.max_leg_m));
  for (const auto& on : touched) {
    if (taken >= most_entries) break;
    if (on.away_m < least_leg_m && stand.place != first()) continue;
    if (on.away_m < beside_line_m) continue;
    for (const auto piece : lines.pieces_of_edge[on.edge]) {
      const auto& p = lines.pieces[piece];
      const double along = on.along_m - p.from_m;
      if (along < at_fix_m || along > p.length_m - at_fix_m) continue;
      if (!run_costs_[2 * piece].open && !run_costs_[2 * piece + 1].open) continue;
      if (!c.prepared.cover.clear(stand.at, on.at)) continue;
      ++taken;
      const double s = line_s({stand.at, on.at}, 1.0);
      for (const auto run : {2 * piece, 2 * piece + 1}) {
        if (!run_costs_[run].open) continue;
        const double here = run % 2 == 0 ? along : p.length_m - along;
        const double share = 1 - here / p.length_m;
        out.push_back({{stand.place, run_place(run),
                        {s + share * run_costs_[run].seconds + 2 * leg_costs_s,
                         share * run_costs_[run].loss, 0}},
                       {Step::What::enter, run, here, p.length_m, {stand.at, on.at}}});
      }
    }
  }
}

void LegGraph::judge(Candidate& candidate) const {
  auto& step = candidate.step;
  if (step.points.size() < 2) return;
  const auto& judge = seeking_.judge;
  const auto& around = seeking_.cutting.around;
  auto carried = judge.at_fix();
  LegCost all;
  for (std::size_t i = 1; i < step.points.size(); ++i) {
    Leg leg;
    leg.line = {step.points[i - 1], step.points[i]};
    leg.length_m = earth::grid_distance_m(leg.line[0], leg.line[1]);
    leg.minutes = line_s(leg.line, 1.0) / 60;
    if (const auto stop = around.stop_beyond(leg.line[1], earth::grid_bearing(leg.line[0], leg.line[1]), -1)) {
      leg.stop.emplace();
      leg.stop->beyond_m = stop->beyond_m;
    }
    const auto figures = judge.assess(leg, carried);
    double certainty = figures.certainty;
    if (figures.end == reckoning::EndKind::turn && i + 1 == step.points.size()) {
      // nothing to see: there by the count alone
      certainty = candidate.arc.to == last()
                      ? numeric::disc_probability(figures.carried.total(), 0, 0,
                                                  judge.habits().near_enough_m)
                      : 0;
    }
    carried = figures.carried;
    all.seconds += 60 * (figures.minutes + (1 - certainty) * figures.recovery_minutes) + leg_costs_s;
    all.loss -= std::log(std::max(certainty, 1e-9));
    all.hazard = std::max(all.hazard, figures.hazard_probability);
  }
  if (step.what == Step::What::enter) {
    const auto run = run_cost(step.run, step.from_m, step.to_m);
    all.seconds += run.seconds + leg_costs_s;
    all.loss += run.loss;
  }
  candidate.arc.cost = all;
}

/// Of each candidate, how far the best way over it is above the best of all, as a share: the least
/// over the prices of certainty, from time alone to certainty nearly alone. Empty: no way leads.
std::vector<double> LegGraph::excess(const std::vector<Candidate>& candidates) const {
  std::vector<const Arc*> arcs;
  for (const auto& candidate : candidates) arcs.push_back(&candidate.arc);
  const Net out(places(), arcs, false), in(places(), arcs, true);
  std::vector<std::vector<double>> by_price(prices_s.size());
  seeking_.parallel.for_each_block(prices_s.size(), [&](std::size_t k) {
    std::vector<double> prices(arcs.size());
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      prices[i] = arcs[i]->cost.seconds + prices_s[k] * arcs[i]->cost.loss;
    }
    const auto there = out.least(first(), prices), back = in.least(last(), prices);
    if (there[last()] >= never) return;
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      by_price[k].push_back((there[arcs[i]->from] + prices[i] + back[arcs[i]->to]) /
                                (there[last()] + slack_s) -
                            1);
    }
  });
  auto least = std::move(by_price[0]);
  for (std::size_t k = 1; k < by_price.size() && !least.empty(); ++k) {
    for (std::size_t i = 0; i < least.size(); ++i) least[i] = std::min(least[i], by_price[k][i]);
  }
  return least;
}

/// Judges what lies on a way near the best by the figures so far, again and again, for judged legs
/// are dearer than guessed ones and others come near; what is never near is dropped.
bool LegGraph::judge_best(std::vector<Candidate>& candidates) const {
  const auto guessed = excess(candidates);
  if (guessed.empty()) return false;
  std::vector<Candidate> near;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (guessed[i] <= most_over) near.push_back(std::move(candidates[i]));
  }
  candidates = std::move(near);
  std::vector<std::uint8_t> known(candidates.size());
  for (std::size_t i = 0; i < candidates.size(); ++i) known[i] = candidates[i].step.points.empty();
  for (int round = 0; round < most_rounds; ++round) {
    const auto over = excess(candidates);
    std::vector<std::uint32_t> next;
    for (std::uint32_t i = 0; i < over.size(); ++i) {
      if (known[i] == 0 && over[i] <= judged_over) next.push_back(i);
    }
    if (next.empty()) break;
    std::ranges::stable_sort(next, {}, [&](std::uint32_t i) { return over[i]; });
    if (next.size() > a_round) next.resize(a_round);
    seeking_.parallel.for_each_block(next.size(), [&](std::size_t k) {
      judge(candidates[next[k]]);
      known[next[k]] = 1;
    });
  }
  std::vector<Candidate> kept;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (known[i] != 0) kept.push_back(std::move(candidates[i]));
  }
  candidates = std::move(kept);
  return true;
}

void LegGraph::add_way(const std::vector<Leg>& legs) {
  Candidate whole{{first(), last(), {}}, {Step::What::legs, nothing, 0, 0, {}}};
  for (const auto& leg : legs) {
    if (leg.kind != walking::LegKind::bearing) return;
    if (whole.step.points.empty()) whole.step.points.push_back(leg.line.front());
    whole.step.points.push_back(leg.line.back());
    whole.arc.cost.seconds += line_s(leg.line, 1.0) + leg_costs_s;
  }
  extra_.push_back(std::move(whole));
}

}  // namespace lodeway::route
