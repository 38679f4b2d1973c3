/// Which candidates are worth judging, and what a leg is judged to cost.
#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <iterator>
#include <queue>

#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"
#include "lodeway/route/legs/under_wires.hpp"
#include "lodeway/route/legs/wades.hpp"

namespace lodeway::route {

namespace {

// All *practice*. With what lies on a best way what is so little over it, as a share, is judged, so
// many at a time, until all that lies on the best is judged. What is far over is looked at once the
// best is known.
constexpr double far_over = 0.05, judged_over = 0.005, on_best = 1e-9;
constexpr int most_rounds = 40;
constexpr std::size_t a_round = 60;

constexpr double never = no_limit;
// Legs that leave the lines are looked for from where a way leads, by the figures so far, that is
// no farther over the best; and from where a way might lead that takes at most so many times the
// least time.
constexpr double looked_over = 0.1, most_detour = 1.1;

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
    if (!figures.fix_at_end && i + 1 == step.points.size()) {
      // nothing to see: there by the count alone
      certainty = candidate.arc.to == last()
                      ? figures.carried.set_right() *
                            numeric::disc_probability(figures.carried.total(), 0, 0,
                                                  judge.habits().near_enough_m)
                      : 0;
    }
    carried = figures.carried;
    all.seconds +=
        60 * nothing_leads_counts *
            (figures.minutes + (1 - certainty) * figures.recovery_minutes) +
        leg_costs_s + wading_s(seeking_.cutting, leg.course);
    all.loss -= std::log(std::max(certainty, 1e-9));
    all.loss -=
        seeking_.wishes.keep_off_weight * std::log(std::max(1 - figures.hazard_probability, 1e-9));
    all.hazard = std::max(all.hazard, figures.hazard_probability);
  }
  candidate.arc.cost = all;
}

/// Where no way is known within the limits: of the stands in `left` those from which a leg may join
/// what leads to the end to what is reached from the start. Looked at is the smaller of the two.
/// None: no way keeps the limits.
std::vector<std::uint32_t> LegGraph::may_join(BothWays& ways, const Limits& within,
                                              const std::vector<std::uint32_t>& left) const {
  const auto& have = *have_;
  const auto there = ways.seconds(places(), false),
             back = ways.seconds(places(), true);
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

/// Stops that may matter and are known only to cost no less: worked out; which, of those along lines?
std::vector<std::uint32_t> LegGraph::work_out_stops(const std::vector<double>& over,
                                                    double at_most) {
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
  return now;
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
  using Group = BothWays::Group;
  const auto in = [](auto... groups) { return (static_cast<unsigned>(groups) | ...); };
  const auto& have = *have_;
  const auto wanted = [&](const Candidate& c) { return !left_out_ || !left_out_(c.step); };
  // Of what was gathered hundreds of thousands are looked at and some hundreds kept: only these are
  // copied.
  struct Looked {
    const Candidate* made;
    std::uint32_t leg;
  };
  std::vector<Looked> lines;  // met beside the lines and gone along from there
  std::vector<Looked> open, far;
  std::deque<Candidate> rounds;  // ways round what bars
  std::vector<Candidate> known;
  Limits within = limits_of(seeking_.wishes);
  BothWays ways(first(), last(), within, seeking_.parallel);
  const auto loosen = [&] { ways.limit(within = {}); };
  std::vector<std::uint32_t> along(have.along.size(), nothing);  // their legs, where wanted
  for (std::size_t i = 0; i < along.size(); ++i) {
    if (wanted(have.along[i])) along[i] = ways.add(have.along[i].arc, Group::line);
  }

  std::vector<std::uint32_t> left;  // stands that were not looked from
  for (std::uint32_t i = 0; i < have.stands.size(); ++i) left.push_back(i);
  const auto worked_out = [&](const std::vector<double>& over) {
    const auto stops = work_out_stops(over, looked_over);
    for (const auto i : stops) {
      if (along[i] != nothing) ways.cost(along[i], have.along[i].arc.cost);
    }
    return !stops.empty();
  };
  bool stopped = false;
  /// Looks from every stand that may matter; is there more now?
  const auto look = [&] {
    bool more = false;
    for (;;) {
      if (stopped) return false;
      const auto over = ways.over_all(places());
      const bool leads = !over.empty();
      stopped = seeking_.stopped();
      if (leads && worked_out(over)) continue;
      std::vector<std::uint32_t> now, later;
      for (const auto i : left) {
        const bool may =
            (leads && over[have.stands[i].place] <= looked_over) || have.detour[i] <= most_detour;
        (may ? now : later).push_back(i);
      }
      if (now.empty() && !leads) {
        now = may_join(ways, within, left);
        std::erase_if(later, [&](std::uint32_t i) { return std::ranges::binary_search(now, i); });
      }
      if (now.empty()) {
        const auto sort_out = [&](std::uint32_t leg, const Arc& a) {
          const bool near = !leads || (over[a.from] <= looked_over && over[a.to] <= looked_over);
          ways.group(leg, near ? Group::near_line : Group::line);
        };
        for (std::size_t i = 0; i < along.size(); ++i) {
          if (along[i] != nothing) sort_out(along[i], have.along[i].arc);
        }
        for (const auto& c : lines) sort_out(c.leg, c.made->arc);
        return more;
      }
      left = std::move(later);
      stopped = !look_from(now);
      for (const auto i : now) {
        for (const auto& c : have.from_stand[i]) {
          if (!wanted(c)) continue;
          const bool on_line = c.step.points.empty();
          (on_line ? lines : open)
              .push_back({&c, ways.add(c.arc, on_line ? Group::line : Group::open)});
        }
      }
      more = true;
    }
  };
  bool leads = false;
  const auto excess = [&](double at_most) {
    leads = ways.search(in(Group::near_line, Group::known, Group::open), at_most);
    std::vector<double> out;
    for (const auto& c : open) out.push_back(ways.over(c.made->arc));
    return out;
  };

  (void)look();
  auto over = excess(far_over);
  if (!leads) {
    loosen();
    (void)look();
    over = excess(far_over);
  }
  if (!leads || stopped) return false;
  std::vector<Looked> near;
  for (std::size_t i = 0; i < open.size(); ++i) {
    if (over[i] > far_over) ways.group(open[i].leg, Group::far);
    (over[i] <= far_over ? near : far).push_back(open[i]);
  }
  open = std::move(near);
  bool all_known = false;  // on the best ways
  for (int turn = 0; turn < most_rounds; ++turn) {
    over = excess(judged_over);
    if (stopped || seeking_.stopped()) return false;
    std::vector<std::uint32_t> next;
    bool best_known = true;
    for (std::uint32_t i = 0; leads && i < open.size(); ++i) {
      if (over[i] <= judged_over) next.push_back(i);
      if (over[i] <= on_best) best_known = false;
    }
    if (best_known) {  // not so far, now that the best is known
      bool more = !far.empty();
      for (const auto& c : far) ways.group(c.leg, Group::open);
      open.insert(open.end(), far.begin(), far.end());
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
      return open[i].made->step.what != Step::What::round && ++judged > a_round;
    });
    // The ways round, or the one leg with what it is judged to cost.
    std::vector<std::vector<Candidate>> found(next.size());
    seeking_.parallel.for_each_block(next.size(), [&](std::size_t k) {
      const auto& asked = *open[next[k]].made;
      found[k] = asked.step.what == Step::What::round ? this->round(asked) : std::vector{asked};
      if (asked.step.what != Step::What::round) judge(found[k][0]);
    });
    for (std::size_t k = 0; k < next.size(); ++k) {
      const auto& [made, leg] = open[next[k]];
      const bool is_known = made->step.what != Step::What::round;
      ways.group(leg, is_known ? Group::known : Group::gone);
      if (!is_known) continue;
      ways.cost(leg, found[k][0].arc.cost);
      known.push_back(std::move(found[k][0]));
      found[k].clear();
    }
    std::ranges::sort(next, std::greater{});
    for (const auto i : next) {
      open[i] = open.back();
      open.pop_back();
    }
    for (auto& more : found) {
      for (auto& c : more) {
        rounds.push_back(std::move(c));
        open.push_back({&rounds.back(), ways.add(rounds.back().arc, Group::open)});
      }
    }
  }
  const auto judged_only = in(Group::near_line, Group::line, Group::known);
  if (!leads) return false;
  if (!all_known) {  // what was judged until the rounds were used up may not lead: then wider round
    ways.limit({});
    if (!ways.search(in(Group::near_line, Group::known), 0)) return false;
    ways.limit(within);
  }
  // Of what leads along lines so much is kept as may be on a way that none other beats.
  bool any = false;
  do {
    if (seeking_.stopped()) return false;
    any = ways.search(judged_only, looked_over);
    over = ways.over(places());
  } while (any && worked_out(over));
  const auto keep = [&](const Candidate& c) {
    return !any || (over[c.arc.from] <= looked_over && over[c.arc.to] <= looked_over);
  };
  for (const auto& c : have.along) {
    if (wanted(c) && keep(c)) candidates.push_back(c);
  }
  for (const auto& c : lines) {
    if (keep(*c.made)) candidates.push_back(*c.made);
  }
  std::ranges::move(known, std::back_inserter(candidates));
  return true;
}

}  // namespace lodeway::route
