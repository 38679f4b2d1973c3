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

// All *practice*. With what lies on a best way what is so little over it, as a share, is judged, so
// many at a time, until all that lies on the best is judged. What is far over is looked at once the
// best is known.
constexpr double far_over = 0.05, judged_over = 0.005, on_best = 1e-9, slack_s = 600;
constexpr int most_rounds = 40;
constexpr std::size_t a_round = 60;

constexpr double never = no_limit, rounding = 1e-9;
// Legs that leave the lines are looked for from where a way leads, by the figures so far, that is
// no farther over the best; and from where a way might lead that takes at most so many times the
// least time.
constexpr double looked_over = 0.1, most_detour = 1.1;

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
    if (const auto stop = around.stop_beyond(
            leg.course.line[1], earth::grid_bearing(leg.course.line[0], leg.course.line[1]), -1)) {
      leg.stop.emplace();
      leg.stop->beyond_m = stop->beyond_m;
    }
    const auto figures = judge.assess(leg, carried);
    double certainty = figures.certainty;
    if (figures.end == reckoning::EndKind::turn && i + 1 == step.points.size()) {
      // nothing to see: there by the count alone
      certainty = candidate.arc.to == last()
                      ? figures.carried.set_right() *
                            numeric::disc_probability(figures.carried.total(), 0, 0,
                                                  judge.habits().near_enough_m)
                      : 0;
    }
    carried = figures.carried;
    all.seconds +=
        60 * (figures.minutes + (1 - certainty) * figures.recovery_minutes) + leg_costs_s;
    all.loss -= std::log(std::max(certainty, 1e-9));
    all.loss -=
        seeking_.wishes.keep_off_weight * std::log(std::max(1 - figures.hazard_probability, 1e-9));
    all.hazard = std::max(all.hazard, figures.hazard_probability);
  }
  candidate.arc.cost = all;
}

/// The least times and prices out from the start and back to the end, as far as ways go that are
/// `at_most` over the best, as a share. False where none leads.
bool LegGraph::reach_both_ways(const Arcs& all, const Limits& within, double at_most,
                               std::array<BothWays, prices_s.size()>& out) const {
  auto arcs = all;
  std::erase_if(arcs, [&](const Arc* a) { return !keeps(within, a->cost); });
  const Net forth(places(), arcs, false), back(places(), arcs, true);
  std::array<bool, prices_s.size()> leads{};
  seeking_.parallel.for_each_block(prices_s.size(), [&](std::size_t k) {
    // Back from the end first, as far as may matter once the start is met; then out from the start
    // to what lies so near to the best way.
    auto& both = out[k];
    double bound = never;
    both.back = back.least(
        last(), prices_s[k],
        [&](double least, std::uint32_t place) {
          if (place == first()) bound = (least + at_most * (least + slack_s)) * (1 + rounding);
          return least <= bound;
        },
        [](double, std::uint32_t) { return true; });
    leads[k] = bound < never;
    if (!leads[k]) return;
    both.there = forth.least(
        first(), prices_s[k], [](double, std::uint32_t) { return true; },
        [&](double least, std::uint32_t place) { return least + both.back[place] <= bound; });
    both.best = both.there[last()];
  });
  return leads[0];
}

/// Of each open candidate, how far the best way over it is above the best of all, as a share: the
/// least over the prices of certainty, from time alone to certainty nearly alone. `within`: of a
/// leg; what breaks them is endlessly far. Over `at_most` it may be told as more than it is. Empty:
/// no way leads.
std::vector<double> LegGraph::excess(const Arcs& known, const std::vector<Candidate>& open,
                                     const Limits& within, double at_most, bool& leads) const {
  auto arcs = known;
  for (const auto& candidate : open) arcs.push_back(&candidate.arc);
  std::array<BothWays, prices_s.size()> ways;
  std::vector<double> out(open.size(), never);
  leads = reach_both_ways(arcs, within, at_most, ways);
  if (!leads) return out;
  for (std::size_t i = 0; i < open.size(); ++i) {
    const auto& a = open[i].arc;
    if (!keeps(within, a.cost)) continue;
    for (std::size_t k = 0; k < prices_s.size(); ++k) {
      const double sum =
          ways[k].there[a.from] + a.cost.seconds + prices_s[k] * a.cost.loss + ways[k].back[a.to];
      out[i] = std::min(out[i], (sum - ways[k].best) / (ways[k].best + slack_s));
    }
  }
  return out;
}

/// The same of each place; empty where no way leads.
std::vector<double> LegGraph::excess_over(const Arcs& arcs, const Limits& within,
                                          double at_most) const {
  std::array<BothWays, prices_s.size()> ways;
  if (!reach_both_ways(arcs, within, at_most, ways)) return {};
  std::vector<double> out(places(), never);
  for (const auto& by_price : ways) {
    for (std::size_t i = 0; i < out.size(); ++i) {
      out[i] = std::min(out[i], (by_price.there[i] + by_price.back[i] - by_price.best) /
                                    (by_price.best + slack_s));
    }
  }
  return out;
}

/// Where no way is known within the limits: of the stands in `left` those from which a leg may join
/// what leads to the end to what is reached from the start. Looked at is the smaller of the two.
/// None: no way keeps the limits.
std::vector<std::uint32_t> LegGraph::may_join(const Arcs& all, const Limits& within,
                                              const std::vector<std::uint32_t>& left) const {
  const auto& have = *have_;
  auto arcs = all;
  std::erase_if(arcs, [&](const Arc* a) { return !keeps(within, a->cost); });
  const auto always = [](double, std::uint32_t) { return true; };
  const auto there = Net(places(), arcs, false).least(first(), 0, always, always),
             back = Net(places(), arcs, true).least(last(), 0, always, always);
  const auto met = [](const std::vector<double>& reached) {
    return std::ranges::count_if(reached, [](double s) { return s < never; });
  };
  std::vector<std::uint32_t> out;
  if (met(there) <= met(back)) {
    std::ranges::copy_if(left, std::back_inserter(out),
                         [&](std::uint32_t i) { return there[have.stands[i].place] < never; });
    return out;
  }
  std::vector<char> near(have.stands.size(), 0);
  const auto keeps_at = [&](double chance) {
    return -std::log(std::max(chance, 1e-3)) <= within.leg_loss;
  };
  const auto mark = [&](const std::vector<std::uint32_t>& fixes) {
    for (const auto f : fixes) {
      if (have.stand_of[f] != nothing) near[have.stand_of[f]] = 1;
    }
  };
  for (const auto& stand : have.stands) {
    if (back[stand.place] < never && keeps_at(likely(stand, 1))) {
      mark(seeking_.lines.fix_places.near(stand.at, stand.most_m));
      if (earth::grid_distance_m(stand.at, from_.at) <= stand.most_m)
        near[have.stand_of[first()]] = 1;
    }
  }
  for (const auto piece : have.live_pieces) {
    const auto kind = seeking_.lines.label(2 * piece).kind;
    if ((back[run_place(2 * piece)] < never || back[run_place(2 * piece + 1)] < never) &&
        keeps_at(seeking_.judge.guides().noticed(kind))) {
      mark(seeking_.lines.fix_places.near_line(seeking_.lines.pieces[piece].points,
                                               Lines::enter_reach_m));
      near[have.stand_of[first()]] = 1;
    }
  }
  std::ranges::copy_if(left, std::back_inserter(out),
                       [&](std::uint32_t i) { return near[i] != 0; });
  return out;
}

/// Stops that may matter and are known only to cost no less: worked out; were there any?
bool LegGraph::work_out_stops(const std::vector<double>& over, double at_most) {
  auto& have = *have_;
  std::vector<std::uint32_t> now, later;
  for (const auto i : have.guessed_stops) {
    const auto& arc = have.along[i].arc;
    (over[arc.from] <= at_most && over[arc.to] <= at_most ? now : later).push_back(i);
  }
  have.guessed_stops = std::move(later);
  seeking_.parallel.for_each_block(now.size(), [&](std::size_t k) {
    auto& arc = have.along[now[k]].arc;
    const auto run = arc.from - first_ - 2;
    const double since = since_m(run, seeking_.lines.pieces[run / 2].length_m);
    arc.cost = stop_cost(run, since, have.stands[have.stand_of[arc.to]]);
  });
  return !now.empty();
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
bool LegGraph::judge_best(std::vector<Candidate>& candidates) {
  const auto& have = *have_;
  const auto wanted = [&](const Candidate& c) { return !left_out_ || !left_out_(c.step); };
  std::vector<Candidate> lines;  // met beside the lines and gone along from there
  std::vector<Candidate> known, open, far;
  Limits within = limits_of(seeking_.wishes);
  const auto loosen = [&] { within = {}; };

  std::vector<std::uint32_t> left;  // stands that were not looked from
  for (std::uint32_t i = 0; i < have.stands.size(); ++i) left.push_back(i);
  Arcs near_lines;  // those that may matter
  const auto all_lines = [&] {
    Arcs all;
    for (const auto& c : have.along) {
      if (wanted(c)) all.push_back(&c.arc);
    }
    for (const auto& c : lines) all.push_back(&c.arc);
    return all;
  };
  const auto arcs = [&] {
    auto all = near_lines;
    for (const auto& c : known) all.push_back(&c.arc);
    return all;
  };
  /// Looks from every stand that may matter; is there more now?
  const auto look = [&] {
    bool more = false;
    for (;;) {
      auto all = all_lines();
      for (const auto& c : known) all.push_back(&c.arc);
      for (const auto& c : open) all.push_back(&c.arc);
      const auto over = excess_over(all, within, looked_over);
      const bool leads = !over.empty();
      if (leads && work_out_stops(over, looked_over)) continue;
      std::vector<std::uint32_t> now, later;
      for (const auto i : left) {
        const bool may =
            (leads && over[have.stands[i].place] <= looked_over) || have.detour[i] <= most_detour;
        (may ? now : later).push_back(i);
      }
      if (now.empty() && !leads) {
        now = may_join(all, within, left);
        std::erase_if(later, [&](std::uint32_t i) { return std::ranges::binary_search(now, i); });
      }
      if (now.empty()) {
        near_lines = all_lines();
        std::erase_if(near_lines, [&](const Arc* a) {
          return leads && (over[a->from] > looked_over || over[a->to] > looked_over);
        });
        return more;
      }
      left = std::move(later);
      look_from(now);
      for (const auto i : now) {
        for (const auto& c : have.from_stand[i]) {
          if (wanted(c)) (c.step.points.empty() ? lines : open).push_back(c);
        }
      }
      more = true;
    }
  };

  bool leads = false;
  (void)look();
  auto over = excess(arcs(), open, within, far_over, leads);
  if (!leads) {
    loosen();
    (void)look();
    over = excess(arcs(), open, within, far_over, leads);
  }
  if (!leads) return false;
  std::vector<Candidate> near;
  for (std::size_t i = 0; i < open.size(); ++i)
    (over[i] <= far_over ? near : far).push_back(std::move(open[i]));
  open = std::move(near);
  bool all_known = false;  // on the best ways
  for (int turn = 0; turn < most_rounds; ++turn) {
    over = excess(arcs(), open, within, judged_over, leads);
    std::vector<std::uint32_t> next;
    bool best_known = true;
    for (std::uint32_t i = 0; leads && i < open.size(); ++i) {
      if (over[i] <= judged_over) next.push_back(i);
      if (over[i] <= on_best) best_known = false;
    }
    if (best_known) {  // not so far, now that the best is known
      bool more = !far.empty();
      std::ranges::move(far, std::back_inserter(open));
      far.clear();
      if (look()) more = true;
      if (more) continue;
    }
    if (!leads && within.leg_loss < no_limit) {
      loosen();  // no way keeps the limits
      (void)look();
      continue;
    }
    all_known = best_known;
    if (all_known) break;
    std::ranges::stable_sort(next, {}, [&](std::uint32_t i) { return over[i]; });
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
  if (!leads || (!all_known && excess_over(arcs(), {}, 0).empty())) return false;
  // Of what leads along lines so much is kept as may be on a way that none other beats.
  std::vector<double> over_all;
  do {
    auto all = all_lines();
    for (const auto& c : known) all.push_back(&c.arc);
    over_all = excess_over(all, within, looked_over);
  } while (!over_all.empty() && work_out_stops(over_all, looked_over));
  const auto keep = [&](const Candidate& c) {
    return over_all.empty() ||
           (over_all[c.arc.from] <= looked_over && over_all[c.arc.to] <= looked_over);
  };
  for (const auto& c : have.along) {
    if (wanted(c) && keep(c)) candidates.push_back(c);
  }
  std::ranges::copy_if(lines, std::back_inserter(candidates), keep);
  std::ranges::move(known, std::back_inserter(candidates));
  return true;
}

}  // namespace lodeway::route
