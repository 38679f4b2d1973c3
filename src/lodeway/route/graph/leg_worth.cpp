/// Which candidates are worth judging, and what a leg is judged to cost.
#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <queue>

#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"

namespace lodeway::route {

namespace {

// All *practice*. What lies on a way that is best at one of these prices of certainty is judged
// (seconds for a loss of 1: half an hour is what an unsure party spends on getting lost; the
// highest is that of the surest way) ...
constexpr std::array<double, 5> prices_s{0, 1800, 7200, 28800, most_price_s};
// ... and with it what is so little over the best, as a share, so many at a time, until all that
// lies on the best is judged. What is far over is looked at once the best is known.
constexpr double far_over = 0.05, judged_over = 0.005, on_best = 1e-9, slack_s = 600;
constexpr int most_rounds = 40;
constexpr std::size_t a_round = 60;

constexpr double never = no_limit, rounding = 1e-9;

bool keeps(const Limits& limits, const LegCost& cost) {
  return cost.loss <= limits.leg_loss && cost.hazard <= limits.leg_hazard;
}

/// The arcs by one of their ends, packed for searching again and again.
class Net {
 public:
  Net(std::size_t places, const std::vector<const Arc*>& arcs, bool backwards)
      : start_(places + 1, 0), legs_(arcs.size()) {
    const auto tail = [&](const Arc& a) { return backwards ? a.to : a.from; };
    for (const auto* a : arcs) ++start_[tail(*a) + 1];
    for (std::size_t i = 0; i < places; ++i) start_[i + 1] += start_[i];
    auto next = start_;
    for (const auto* a : arcs) {
      legs_[next[tail(*a)]++] = {a->cost.seconds, a->cost.loss, backwards ? a->from : a->to};
    }
  }
  /// The least seconds, with so many more for a loss of 1, from a place to every other; the most
  /// where it matters, and in what matters, say the two that are asked:
  /// `goes_on(least, place)` as each is settled, `counts(least, place)` before one is noted.
  template <class GoesOn, class Counts>
  [[nodiscard]] std::vector<double> least(std::uint32_t from, double price_s, GoesOn&& goes_on,
                                          Counts&& counts) const {
    std::vector<double> out(start_.size() - 1, never);
    using Item = std::pair<double, std::uint32_t>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
    out[from] = 0;
    heap.emplace(0, from);
    while (!heap.empty()) {
      const auto [d, n] = heap.top();
      heap.pop();
      if (d > out[n]) continue;
      if (!goes_on(d, n)) break;
      for (auto k = start_[n]; k < start_[n + 1]; ++k) {
        const auto& leg = legs_[k];
        const double sum = d + leg.seconds + price_s * leg.loss;
        if (sum < out[leg.to] && counts(sum, leg.to)) {
          out[leg.to] = sum;
          heap.emplace(sum, leg.to);
        }
      }
    }
    return out;
  }

 private:
  struct Leg {
    double seconds, loss;
    std::uint32_t to;
  };
  std::vector<std::uint32_t> start_;
  std::vector<Leg> legs_;
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
    walking::Leg leg;
    leg.course.line = {step.points[i - 1], step.points[i]};
    leg.figures.length_m = earth::grid_distance_m(leg.course.line[0], leg.course.line[1]);
    leg.figures.minutes = line_s(leg.course.line, 1.0) / 60;
    if (const auto stop =
            around.stop_beyond(leg.course.line[1],
                               earth::grid_bearing(leg.course.line[0], leg.course.line[1]), -1)) {
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
    all.seconds +=
        60 * (figures.minutes + (1 - certainty) * figures.recovery_minutes) + leg_costs_s;
    all.loss -= std::log(std::max(certainty, 1e-9));
    all.loss -= seeking_.wishes.keep_off_weight *
                std::log(std::max(1 - figures.hazard_probability, 1e-9));
    all.hazard = std::max(all.hazard, figures.hazard_probability);
  }
  candidate.arc.cost = all;
}

/// Of each candidate, those of `known` first, how far the best way over it is above the best of
/// all, as a share: the least over the prices of certainty, from time alone to certainty nearly
/// alone. `within`: of a leg; what breaks them is endlessly far. Over `at_most` it may be told as
/// more than it is. Empty: no way leads.
std::vector<double> LegGraph::excess(const std::vector<Candidate>& known,
                                     const std::vector<Candidate>& open, const Limits& within,
                                     double at_most) const {
  std::vector<const Arc*> arcs;
  for (const auto* some : {&known, &open}) {
    for (const auto& candidate : *some) arcs.push_back(&candidate.arc);
  }
  const auto all = arcs;
  std::erase_if(arcs, [&](const Arc* a) { return !keeps(within, a->cost); });
  const Net out(places(), arcs, false), in(places(), arcs, true);
  std::vector<std::vector<double>> by_price(prices_s.size());
  seeking_.parallel.for_each_block(prices_s.size(), [&](std::size_t k) {
    // Back from the end first, as far as may matter once the start is met; then out from the start
    // to what lies so near to the best way.
    double bound = never;
    const auto far_enough = [&](double best) {
      return (best + at_most * (best + slack_s)) * (1 + rounding);
    };
    const auto back = in.least(
        last(), prices_s[k],
        [&](double least, std::uint32_t place) {
          if (place == first()) bound = far_enough(least);
          return least <= bound;
        },
        [](double, std::uint32_t) { return true; });
    if (bound >= never) return;
    const auto there = out.least(
        first(), prices_s[k], [](double, std::uint32_t) { return true; },
        [&](double least, std::uint32_t place) { return least + back[place] <= bound; });
    const double best = there[last()];
    for (const auto* a : all) {
      const double sum =
          there[a->from] + a->cost.seconds + prices_s[k] * a->cost.loss + back[a->to];
      by_price[k].push_back(keeps(within, a->cost) ? (sum - best) / (best + slack_s) : never);
    }
  });
  auto least = std::move(by_price[0]);
  for (std::size_t k = 1; k < by_price.size() && !least.empty(); ++k) {
    for (std::size_t i = 0; i < least.size(); ++i) least[i] = std::min(least[i], by_price[k][i]);
  }
  return least;
}

Limits limits_of(const Wishes& wishes) {
  Limits out;
  out.leg_loss = -std::log(std::clamp(wishes.min_certainty - chance_rounding, 1e-6, 1.0));
  out.leg_hazard = wishes.most_hazard;
  return out;
}

/// What a barred candidate turns out to be: the ways round, guessed; nothing when there are none.
std::vector<LegGraph::Candidate> LegGraph::round(const Candidate& candidate) const {
  std::vector<Candidate> out;
  for (auto& points : gone_round(candidate.step.points.front(), candidate.step.points.back())) {
    const auto cost = guess(line_s(points, 1.0), points.size() - 1, candidate.likely);
    out.push_back({{candidate.arc.from, candidate.arc.to, cost},
                   {Step::What::legs, nothing, 0, 0, std::move(points)},
                   candidate.likely});
  }
  return out;
}

/// Judges what lies on the best ways by the figures so far, again and again, for judged legs are
/// dearer than guessed ones and others come to be the best; what never is one of them is dropped.
/// Ways within the limits where there are any, else all.
/// (Evaluating only the edges of the best way so far: Dellin & Srinivasa 2016.)
bool LegGraph::judge_best(std::vector<Candidate>& candidates) const {
  std::vector<Candidate> known, open, near, far;
  for (auto& c : candidates) (c.step.points.empty() ? known : open).push_back(std::move(c));
  Limits within = limits_of(seeking_.wishes);
  const auto loosen = [&] { within = {}; };
  auto over = excess(known, open, within, far_over);
  if (over.empty()) {
    loosen();
    over = excess(known, open, within, far_over);
  }
  if (over.empty()) return false;
  for (std::size_t i = 0; i < open.size(); ++i) {
    (over[known.size() + i] <= far_over ? near : far).push_back(std::move(open[i]));
  }
  open = std::move(near);
  bool all_known = false;  // on the best ways
  for (int turn = 0; turn < most_rounds; ++turn) {
    over = excess(known, open, within, judged_over);
    std::vector<std::uint32_t> next;
    bool best_known = true;
    for (std::uint32_t i = 0; !over.empty() && i < open.size(); ++i) {
      const double by = over[known.size() + i];
      if (by <= judged_over) next.push_back(i);
      if (by <= on_best) best_known = false;
    }
    if (best_known && !far.empty()) {
      std::ranges::move(far, std::back_inserter(open));  // not so far, now that the best is known
      far.clear();
      continue;
    }
    if (over.empty() && within.leg_loss < no_limit) {
      loosen();  // no way keeps the limits
      continue;
    }
    all_known = best_known;
    if (all_known) break;
    std::ranges::stable_sort(next, {}, [&](std::uint32_t i) { return over[known.size() + i]; });
    std::size_t judged = 0;
    std::erase_if(next, [&](std::uint32_t i) {
      return open[i].step.what != Step::What::round && ++judged > a_round;
    });
    std::vector<std::vector<Candidate>> found(next.size());
    seeking_.parallel.for_each_block(next.size(), [&](std::size_t k) {
      auto& asked = open[next[k]];
      if (asked.step.what == Step::What::round)
        found[k] = this->round(asked);
      else
        judge(asked);
    });
    for (const auto i : next) {
      if (open[i].step.what != Step::What::round) known.push_back(std::move(open[i]));
    }
    std::ranges::sort(next, std::greater{});
    for (const auto i : next) {
      if (i + 1 < open.size()) open[i] = std::move(open.back());
      open.pop_back();
    }
    for (auto& more : found) std::ranges::move(more, std::back_inserter(open));
  }
  // what was judged until the rounds were used up may not lead: then wider round
  if (over.empty() || (!all_known && excess(known, {}, {}, 0).empty())) return false;
  candidates = std::move(known);
  return true;
}

}  // namespace lodeway::route
