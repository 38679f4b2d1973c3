/// A leg along a line: keeping it, forks, its end; and what happens beside it.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/walkers/detail/walker.hpp"

namespace lodeway::walkers::detail {

using sight::ChanceOf;

namespace {
constexpr double degree = std::numbers::pi / 180;
GridPoint turned(GridPoint v, double radians) {
  const double s = std::sin(radians), c = std::cos(radians);
  return {v.east_m * c + v.north_m * s, v.north_m * c - v.east_m * s};
}
}  // namespace

/// From where it stands, beside the line or on it; it believes to have come `counted_m`.
Came Walker::along(const ReadyLeg& leg, double counted_m) {
  const auto& m = leg.card->model;
  const auto& e = world_.errors(air());
  length_error_ = e.distance_sigma * random_.normal();
  const Surface surface{static_cast<std::uint8_t>(leg.card->leg.course.followed.kind), true};
  OnLeg on;
  const auto came = [&](Off off) {
    return off == Off::ended ? ended_by_count(leg) : off == Off::over ? Came::over : Came::lost;
  };
  if (const Off off = onto_line(leg, on); off != Off::rejoined) return came(off);
  on.counted_m = counted_m;
  const double length = leg.length_m();
  const double rate =  // of coming off the line, for each metre
      -std::log(std::max(chance(ChanceOf::stay, leg.followed), 1e-6)) / 1000;
  const bool marked = reckoning::mark_of(m.end) != nullptr;
  const bool knows = marked && luck(own(leg.end_known[static_cast<std::size_t>(air())]));
  std::size_t fork = 0;
  const auto next_fork = [&] {
    while (fork < leg.forks.size() && leg.forks[fork].at_m < on.at_m + 0.01) ++fork;
  };
  std::size_t like = 0;  // by along_m
  next_fork();
  if (!leg.forks.empty() && leg.forks.front().at_m < 3 && on.at_m < 3) fork = 0;
  while (!over()) {
    if (fork < leg.forks.size() && on.at_m >= leg.forks[fork].at_m - 0.01) {
      const Fork& f = leg.forks[fork++];
      const bool end_in_sight =
          knows && length - f.at_m <= leg.end_seen_m[static_cast<std::size_t>(air())];
      if (end_in_sight) continue;  // who sees where it goes to takes no other arm
      if (const int arm = takes_arm(leg, f, false); arm >= 0) {
        const Off off = wrong_arm(leg, f.arms[static_cast<std::size_t>(arm)].way, 0, on);
        if (off != Off::rejoined) return came(off);
        next_fork();
        continue;
      }
    }
    while (like < leg.alike.size() && leg.alike[like].place.along_m < on.at_m - 0.01) ++like;
    if (like < leg.alike.size() && on.at_m >= leg.alike[like].place.along_m - 0.01) {
      const std::size_t met = like++;
      const bool end_in_sight = knows && length - leg.alike[met].place.along_m <=
                                             leg.end_seen_m[static_cast<std::size_t>(air())];
      const double sd = std::hypot(start_sd_m_,
                                   since_sure_m_ * std::hypot(e.distance_sigma, e.stride_sigma));
      if (!end_in_sight && taken_for_end(leg, met, on.counted_m, length, sd)) {
        went_wrong(Wrong::mistaken);
        sure(m.to);  // so it thinks
        return Came::there;
      }
    }
    double to = std::min(on.at_m + step_m, length);
    if (like < leg.alike.size()) to = std::min(to, leg.alike[like].place.along_m);
    if (fork < leg.forks.size()) to = std::min(to, leg.forks[fork].at_m);
    if (!marked) to = std::min(to, on.at_m + std::max(length - on.counted_m, 0.0) * counts());
    const double by = to - on.at_m, came_from = on.at_m;
    if (by > 0) {
      if (luck(rate * by)) {
        const Off off = off_line(leg, on);
        if (off != Off::rejoined) return came(off);
        next_fork();
        continue;
      }
      on.at_m = to;
      on.counted_m += by / counts();
      step(leg.place(to), leg.place(std::min(on.counted_m, length)), surface, true);
    }
    if (!marked && on.counted_m >= length - 0.5) return over() ? Came::over : ended_by_count(leg);
    if (on.at_m >= length - 0.01) {
      if (over()) return Came::over;
      if (marked && (knows || !leg.past_end)) {
        sure(m.to);
        return Came::there;
      }
      if (!leg.past_end) return ended_by_count(leg);
      return past_end(leg, on);
    }
    const GridPoint there = leg.ahead(on.at_m), expected = leg.ahead(on.counted_m);
    look(&there, &expected);
    if (!leg.card->leg.ticks.empty()) {
      ticked_at_ = -1;
      check_ticks(leg, on.counted_m, std::max(0.1 * on.counted_m, 20.0),
                  Stretch{came_from, on.at_m});
      if (ticked_at_ >= 0) on.counted_m = ticked_at_;
    }
    if (noticed_) {  // for nothing: it is on its line, and sees that it is
      noticed_ = false;
      doubt_score_ = 0;
      wait(0.5 * doubt_);
    }
  }
  return Came::over;
}

/// The end has nothing to know it by, or is not known: where the count says.
Came Walker::ended_by_count(const ReadyLeg& leg) {
  const double walked = leg.length_m();
  sure(leg.card->model.to);
  start_sd_m_ = std::max(start_sd_m_, 0.05 * walked);
  return Came::there;
}

/// It believes that it stands where the line begins.
Walker::Off Walker::onto_line(const ReadyLeg& leg, OnLeg& on) {
  const auto& line = leg.card->leg.course.line;
  const auto near = nearest_on(line, leg.at, at_);
  const double seen = std::max(leg.line_seen_m[static_cast<std::size_t>(air())], 15.0);
  if (near.away_m <= seen + there_m) {
    on.at_m = near.along_m;
    if (near.away_m > 0.01) walk_open(leg.place(near.along_m), line.front());
    return over() ? Off::over : Off::rejoined;
  }
  // a line of a like kind that stands there is taken for it
  const GridPoint wanted = leg.ahead(0);
  for (const auto& touched : world_.net().touch(at_, seen + there_m)) {
    if (landmarks::looks_alike(world_.kind_of(touched.edge), leg.card->leg.course.followed.kind) <=
        0)
      continue;
    const GridPoint along = unit(world_.on_edge(touched.edge, touched.along_m + 10) -
                                 world_.on_edge(touched.edge, touched.along_m - 10));
    const double c = mapdata::dot(along, wanted);
    if (std::abs(c) < 0.7) continue;
    walk_open(touched.at, line.front());
    if (over()) return Off::over;
    const bool forward = c > 0;
    return wrong_arm(
        leg, {touched.edge, forward},
        forward ? touched.along_m : world_.net().edges()[touched.edge].length_m - touched.along_m,
        on);
  }
  went_wrong(Wrong::no_line);
  knows_lost(true);
  return Off::lost;
}

/// The arm that it takes for the right one; -1: the right one.
int Walker::takes_arm(const ReadyLeg& leg, const Fork& fork, bool surely_looks) {
  const double looks = surely_looks ? 1 : own(world_.setting(sight::Setting::fork_attention));
  const double fails = 1 - chance(ChanceOf::branch, leg.followed);
  const double guess = fork.arms_weight / (fork.arms_weight + fork.onward);
  const double wrong = std::min(looks * fails * 2 + (1 - looks), 1.0) * guess;
  double pick = random_.uniform();
  if (pick >= wrong) return -1;
  pick *= fork.arms_weight / wrong;
  for (std::size_t k = 0; k < fork.arms.size(); ++k) {
    pick -= fork.arms[k].weight;
    if (pick < 0) return static_cast<int>(k);
  }
  return static_cast<int>(fork.arms.size()) - 1;
}

/// Back along its own trail to where that begins.
void Walker::retrace(Surface surface) {
  const auto trail = std::move(trail_);
  trail_.clear();
  keeps_trail_ = false;
  for (std::size_t k = trail.size(); k-- > 0 && !over();) go(trail[k], believed_, true, surface);
}

void Walker::edge_step(const ReadyLeg& leg, Way1 way, double& on_edge, double by, OnLeg& on) {
  const double length = world_.net().edges()[way.edge].length_m;
  on_edge += by;
  on.counted_m += by / counts();
  const GridPoint there = world_.on_edge(way.edge, way.forward ? on_edge : length - on_edge);
  const GridPoint ahead = unit(there - at_);
  step(there, leg.place(std::min(on.counted_m, leg.length_m())),
       {static_cast<std::uint8_t>(world_.kind_of(way.edge)), true}, true);
  const GridPoint expected = leg.ahead(on.counted_m);
  look(&ahead, &expected);
}

/// The way out of an edge's end that turns least; nothing: the line ends.
std::optional<Way1> Walker::straight_on(Way1 way) const {
  const auto edges = world_.net().edges();
  const auto& edge = edges[way.edge];
  const std::uint32_t n = way.forward ? edge.to : edge.from;
  const GridPoint here = world_.net().nodes()[n].at;
  const double l = edge.length_m;
  const GridPoint come = unit(here - world_.on_edge(way.edge, way.forward ? l - 20 : 20));
  std::optional<Way1> best;
  double straightest = -0.2;  // sharper than some 100 degrees is no way on
  for (const std::uint32_t e : world_.net().nodes()[n].edges) {
    for (const bool forward : {true, false}) {
      if ((forward ? edges[e].from : edges[e].to) != n) continue;
      if (e == way.edge && forward != way.forward) continue;
      if (landmarks::looks_alike(world_.kind_of(e), world_.kind_of(way.edge)) <= 0) continue;
      const double m = std::min(20.0, edges[e].length_m);
      const GridPoint go = unit(world_.on_edge(e, forward ? m : edges[e].length_m - m) - here);
      if (const double c = mapdata::dot(come, go); c > straightest) {
        straightest = c;
        best = Way1{e, forward};
      }
    }
  }
  return best;
}

/// On another line than the card's, taken for it until something contradicts that.
Walker::Off Walker::wrong_arm(const ReadyLeg& leg, Way1 way, double on_edge, OnLeg& on) {
  const auto& m = leg.card->model;
  const bool marked = reckoning::mark_of(m.end) != nullptr;
  const OnLeg before = on;
  const GridPoint fork = at_;
  trail_.assign(1, at_);
  keeps_trail_ = true;
  const double most = leg.length_m() + (marked ? std::max(reckoning::beyond_m(m.end), 50.0) : 0);
  while (!over()) {
    const auto& edge = world_.net().edges()[way.edge];
    const double by = std::min(step_m, edge.length_m - on_edge);
    if (by > 0.01) edge_step(leg, way, on_edge, by, on);
    if (over()) return Off::over;
    if (!leg.card->leg.ticks.empty()) {
      ticked_at_ = -1;
      check_ticks(leg, on.counted_m, std::max(0.1 * on.counted_m, 20.0), std::nullopt);
    }
    if (on.counted_m >= most) {
      if (!marked) {  // stands where it believes the end to be
        went_wrong(Wrong::wrong_branch);
        keeps_trail_ = false;
        return Off::ended;
      }
      noticed_ = true;
    }
    if (!noticed_ && on_edge >= edge.length_m - 0.01) {
      const auto next = straight_on(way);
      if (!next) {
        noticed_ = true;  // it ends
      } else {
        way = *next;
        on_edge = 0;
        if (const Shared* s = leg.shares(way.edge)) {
          const bool with = (s->to_m > s->from_m) == way.forward;
          const double at = way.forward ? s->from_m : s->to_m;
          if (with && at > -1 && at < leg.length_m()) {
            on.at_m = std::max(at, 0.0);
            keeps_trail_ = false;
            go(leg.place(on.at_m), believed_, true,
               {static_cast<std::uint8_t>(world_.kind_of(way.edge)), true});
            return over() ? Off::over : Off::rejoined;
          }
        }
      }
    }
    if (!noticed_) continue;
    went_wrong(Wrong::wrong_branch);
    knows_lost(true);
    wait(doubt_);
    const Surface surface{static_cast<std::uint8_t>(world_.kind_of(way.edge)), true};
    retrace(surface);
    if (over()) return Off::over;
    if (earth::grid_distance_m(fork, leg.place(before.at_m)) > there_m) return Off::lost;
    on = before;
    sure(leg.place(on.at_m));
    return Off::rejoined;
  }
  return Off::over;
}

/// Comes off the line and goes on beside it, farther and farther, until it sees that there is none.
Walker::Off Walker::off_line(const ReadyLeg& leg, OnLeg& on) {
  const auto& line = leg.card->leg.course.line;
  const GridPoint start = at_;
  const double off = std::max(std::abs(25 * random_.normal()), 8.0) * (luck(0.5) ? 1 : -1);
  const GridPoint way = turned(leg.ahead(on.at_m), off * degree);
  const double sees_none =
      std::min(own(world_.perception().attention) * step_m / world_.perception().look_every_m, 1.0);
  double gone = 0;
  while (!over()) {
    GridPoint thought = step_m * way;
    const GridPoint d = round_barred(thought, thought);
    on.counted_m += step_m / counts();
    step(at_ + d, leg.place(std::min(on.counted_m, leg.length_m())), world_.surface(at_ + d),
         false);
    if (over()) return Off::over;
    gone += step_m;
    const auto near = nearest_on(line, leg.at, at_);
    const auto back_on = [&] {
      on.at_m = near.along_m;
      walk_open(leg.place(near.along_m), believed_);
      return over() ? Off::over : Off::rejoined;
    };
    if (gone > 40 && near.away_m < 8 && luck(chance(ChanceOf::notice, leg.followed)))
      return back_on();
    world_.lines_met(trail_from_, at_, met_);
    for (const LineMet& met : met_) {  // one that runs beside its own is taken for it
      const double alike = landmarks::looks_alike(world_.kind_of(met.edge),
                                                  leg.card->leg.course.followed.kind);
      if (alike <= 0 || leg.shares(met.edge) != nullptr) continue;
      const GridPoint along = unit(world_.on_edge(met.edge, met.along_m + 10) -
                                   world_.on_edge(met.edge, met.along_m - 10));
      const double c = mapdata::dot(along, leg.ahead(on.at_m));
      if (std::abs(c) < 0.7 || !luck(alike * chance(ChanceOf::notice, leg.followed))) continue;
      const double length = world_.net().edges()[met.edge].length_m;
      return wrong_arm(leg, {met.edge, c > 0}, c > 0 ? met.along_m : length - met.along_m, on);
    }
    look(nullptr, nullptr);
    if (!noticed_ && gone < 1500 && !luck(sees_none)) continue;
    noticed_ = false;
    const double seen = leg.line_seen_m[static_cast<std::size_t>(air())];
    if (near.away_m <= seen) {
      wait(2);
      return back_on();
    }
    went_wrong(Wrong::left_line);
    knows_lost(true);
    wait(doubt_);
    // back on the back bearing, as well as it can
    const double sd = world_.errors(air()).bearing_sigma * gone + 5;
    walk_open(start + GridPoint{sd * random_.normal(), sd * random_.normal()}, start);
    if (over()) return Off::over;
    const auto now = nearest_on(line, leg.at, at_);
    if (now.away_m > seen + 20) return Off::lost;
    on.at_m = now.along_m;
    walk_open(leg.place(on.at_m), leg.place(on.at_m));
    if (over()) return Off::over;
    on.counted_m = on.at_m;
    sure(leg.place(on.at_m));
    return Off::rejoined;
  }
  return Off::over;
}

/// Not known for what it is: on along the line, until the count and its margin are used up.
Came Walker::past_end(const ReadyLeg& leg, OnLeg& on) {
  const auto& m = leg.card->model;
  const bool marked = reckoning::mark_of(m.end) != nullptr;
  const double most = leg.length_m() + (marked ? std::max(reckoning::beyond_m(m.end), 30.0) : 0);
  trail_.assign(1, at_);
  keeps_trail_ = true;
  Way1 way = *leg.past_end;
  double on_edge = leg.past_end_m;
  while (!over() && on.counted_m < most - 0.5) {
    const double length = world_.net().edges()[way.edge].length_m;
    const double by = std::min({step_m, length - on_edge, (most - on.counted_m) * counts()});
    if (by > 0.01) edge_step(leg, way, on_edge, by, on);
    if (noticed_) break;
    if (on_edge < length - 0.01) continue;
    const auto next = straight_on(way);
    if (!next) break;
    way = *next;
    on_edge = 0;
  }
  if (over()) return Came::over;
  if (!marked) {
    keeps_trail_ = false;
    return ended_by_count(leg);
  }
  noticed_ = false;
  went_wrong(Wrong::overshot);
  knows_lost(true);
  wait(doubt_);
  retrace({static_cast<std::uint8_t>(world_.kind_of(way.edge)), true});
  if (over()) return Came::over;
  if (luck(own(leg.end_known[static_cast<std::size_t>(air())]))) {
    sure(m.to);
    return Came::there;
  }
  return Came::lost;
}

}  // namespace lodeway::walkers::detail
