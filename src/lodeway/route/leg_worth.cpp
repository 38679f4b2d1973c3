/// Which candidates are worth judging, and what a leg is judged to cost.
#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <queue>

#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/route/leg_graph.hpp"
#include "lodeway/route/open_stretch.hpp"

namespace lodeway::route {

namespace {

using walking::Leg;

// All *practice*. What lies on a way that is best at one of these prices of certainty is judged
// (seconds for a loss of 1: half an hour is what an unsure party spends on getting lost) ...
constexpr std::array<double, 4> prices_s{0, 1800, 7200, 36000};
// ... or so little over the best, as a share, so many at a time, until nothing unjudged is left
// there; what is by its guess far over is not looked at.
constexpr double most_over = 0.15, judged_over = 0.005, slack_s = 600;
constexpr int most_rounds = 40;
constexpr std::size_t a_round = 60;

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

/// Of each candidate, those of `known` first, how far the best way over it is above the best of all, as a share: the least
/// over the prices of certainty, from time alone to certainty nearly alone. Empty: no way leads.
std::vector<double> LegGraph::excess(const std::vector<Candidate>& known,
                                     const std::vector<Candidate>& open) const {
  std::vector<const Arc*> arcs;
  for (const auto& candidate : known) arcs.push_back(&candidate.arc);
  for (const auto& candidate : open) arcs.push_back(&candidate.arc);
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

/// What a candidate turns out to be: itself with its cost, or the ways round what bars it; nothing
/// when there are none.
std::vector<LegGraph::Candidate> LegGraph::judged(const Candidate& candidate) const {
  std::vector<Candidate> out;
  if (candidate.step.what != Step::What::round) {
    out.push_back(candidate);
  } else {
    for (auto& points : gone_round(candidate.step.points.front(), candidate.step.points.back())) {
      out.push_back({candidate.arc, {Step::What::legs, nothing, 0, 0, std::move(points)}});
    }
  }
  for (auto& one : out) judge(one);
  return out;
}

/// Judges what lies on the best ways by the figures so far, again and again, for judged legs are
/// dearer than guessed ones and others come to be the best; what never is one of them is dropped.
/// (Evaluating only the edges of the best way so far: Dellin & Srinivasa 2016.)
bool LegGraph::judge_best(std::vector<Candidate>& candidates) const {
  std::vector<Candidate> known, open;
  for (auto& c : candidates) (c.step.points.empty() ? known : open).push_back(std::move(c));
  auto over = excess(known, open);
  if (over.empty()) return false;
  std::size_t kept = 0;
  for (std::size_t i = 0; i < open.size(); ++i) {
    if (over[known.size() + i] <= most_over) std::swap(open[kept++], open[i]);
  }
  open.resize(kept);
  for (int round = 0; round < most_rounds; ++round) {
    over = excess(known, open);
    if (over.empty()) return false;
    std::vector<std::uint32_t> next;
    for (std::uint32_t i = 0; i < open.size(); ++i) {
      if (over[known.size() + i] <= judged_over) next.push_back(i);
    }
    if (next.empty()) break;
    std::ranges::stable_sort(next, {}, [&](std::uint32_t i) { return over[known.size() + i]; });
    if (next.size() > a_round) next.resize(a_round);
    std::vector<std::vector<Candidate>> found(next.size());
    seeking_.parallel.for_each_block(
        next.size(), [&](std::size_t k) { found[k] = judged(open[next[k]]); });
    for (auto& more : found) std::ranges::move(more, std::back_inserter(known));
    std::ranges::sort(next, std::greater{});
    for (const auto i : next) open.erase(open.begin() + i);
  }
  candidates = std::move(known);
  return true;
}

}  // namespace lodeway::route
