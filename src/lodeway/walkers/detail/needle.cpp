/// A leg on the needle: to a mark, to a line, or to a turn by the count.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/landmarks/tick_reach.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/walkers/detail/walker.hpp"

namespace lodeway::walkers::detail {

using sight::ChanceOf;

namespace {
constexpr double degree = std::numbers::pi / 180;
constexpr double least_tick_reach_m = 20;  // *practice*: in any air a thing is seen from here

GridPoint turned(GridPoint v, double radians) {
  const double s = std::sin(radians), c = std::cos(radians);
  return {v.east_m * c + v.north_m * s, v.north_m * c - v.east_m * s};
}
bool is_line(mapdata::Kind kind) { return kind <= mapdata::Kind::aerialway; }
}  // namespace

Came Walker::needle(const Aim& aim) {
  const auto& e = world_.errors(air());
  bool gross = false;
  if (!aim.goes_on) {
    bearing_error_ = e.bearing_sigma * random_.normal();
    length_error_ = e.distance_sigma * random_.normal();
    gross = luck(world_.setting(sight::Setting::gross_error));
    if (gross) {
      const auto& t = request_.truth;
      const double by =
          t.gross_least_deg + (t.gross_most_deg - t.gross_least_deg) * random_.uniform();
      bearing_error_ += (luck(0.5) ? 1 : -1) * by * degree;
    }
  }
  believed_ = aim.from;
  const GridPoint straight = unit(aim.to - aim.from);
  const double length = earth::grid_distance_m(aim.from, aim.to),
               give_up = length + (aim.looks_for == LooksFor::nothing ? 0 : aim.beyond_m);
  const double sight = aim.seen_m > 0 ? seen_today(aim.seen_m) : 0;
  const auto* to_line = aim.looks_for == LooksFor::line
                            ? std::get_if<reckoning::AtLine>(&aim.leg->card->model.end)
                            : nullptr;
  const std::size_t alikes = aim.leg != nullptr ? aim.leg->alike.size() : 0;
  std::vector<bool> looked(alikes, false);
  bool had_in_sight = false, line_looked = false;
  double left = 0, turn = 0, scale = 1, walked = 0;
  for (int guard = 0; guard < 4000 && !over(); ++guard) {
    const double along = mapdata::dot(believed_ - aim.from, straight);
    if (along >= give_up - 0.5 || walked > 3 * give_up + 600) break;
    if (left <= 0) {
      left = std::min(e.sighting_every_m, std::max(length, 10.0));
      turn = compass_ + bearing_error_ + std::clamp(e.sighting_sigma * random_.normal(), -1.5, 1.5);
      scale = std::max(
          1 + stride_ + length_error_ + e.distance_random * random_.normal() / std::sqrt(left),
          0.2);
    }
    const double counted = std::min({step_m, left, give_up - along});
    // back to the plan's end after a detour; near it the card's own direction
    const GridPoint want = along < length - 60 ? unit(aim.to - believed_) : straight;
    left -= counted;
    GridPoint thought = counted * want;
    const GridPoint on = counted * scale * turned(want, turn);
    if (to_line != nullptr && !line_looked &&
        walked >= to_line->place.leaving_m) {  // the bank of what it may not enter
      double there = 0;
      if (const auto bank = to_the_bank(on);
          bank && !std::isnan(aim.leg->target.meets(at_, at_ + on, there))) {
        line_looked = true;
        if (luck(chance(ChanceOf::notice, aim.leg->target_kind))) {
          step(at_ + *bank * on, believed_ + *bank * thought, world_.surface(at_ + *bank * on),
               false);
          return over() ? Came::over : on_target(aim, *to_line, there);
        }
      }
    }
    const GridPoint d = round_barred(on, thought);
    const GridPoint from = at_, to = at_ + d, thought_from = believed_;
    const auto step_to = [&](double t) {
      const GridPoint there = from + t * d;
      step(there, thought_from + t * thought, world_.surface(there), false);
    };
    // what comes first on this step
    double best = 2, on_line_m = 0;
    int what = -1;  // -1: nothing, 0: the end, 1: the line, 2 + k: something alike
    if (aim.looks_for == LooksFor::mark && sight > 0 && !had_in_sight) {
      const double t = reckoning::enters(from, to, aim.end, sight);
      if (t < best) best = t, what = 0;
    }
    if (to_line != nullptr && !line_looked) {
      double there = 0;
      const double t = aim.leg->target.meets(from, to, there);
      if (t < best && walked + t * counted >= to_line->place.leaving_m)
        best = t, what = 1, on_line_m = there;
    }
    for (std::size_t k = 0; k < alikes; ++k) {
      if (looked[k]) continue;
      const Lookalike& like = aim.leg->alike[k];
      const auto* mark = like.mark();
      double there = 0;
      const double t = mark == nullptr ? like.line.meets(from, to, there)
                                       : reckoning::enters(from, to, mark->at, mark->seen_from_m);
      if (t < best) best = t, what = 2 + static_cast<int>(k);
    }
    if (what == 0) {
      had_in_sight = true;
      if (luck(own(aim.end_known))) {
        step_to(best);
        walk_open(aim.end, aim.end);
        if (over()) return Came::over;
        return arrive(aim);
      }
    } else if (what == 1) {
      line_looked = true;  // who overlooks it once goes over it
      if (luck(chance(ChanceOf::notice, aim.leg->target_kind))) {
        step_to(best);
        return over() ? Came::over : on_target(aim, *to_line, on_line_m);
      }
    } else if (what >= 2) {
      const auto k = static_cast<std::size_t>(what - 2);
      looked[k] = true;
      const Lookalike& like = aim.leg->alike[k];
      const auto* mark = like.mark();
      const double ahead =
          mark == nullptr ? 0 : mapdata::dot(mark->at - (from + best * d), unit(d));
      const double at = along + best * counted + ahead;
      if (taken_for_end(*aim.leg, k, at, length, spread_m())) {
        step_to(best);
        went_wrong(Wrong::mistaken);
        if (mark != nullptr) walk_open(mark->at, aim.end);
        if (over()) return Came::over;
        believed_ = aim.end;
        sure(aim.end);  // so it thinks
        return Came::there;
      }
    }
    step_to(1);
    walked += counted;
    look(nullptr, nullptr);
    if (aim.leg != nullptr && !aim.leg->card->leg.ticks.empty()) {
      check_ticks(*aim.leg, mapdata::dot(believed_ - aim.from, straight), spread_m(), std::nullopt);
    }
    if (noticed_) {
      went_wrong(gross ? Wrong::wrong_bearing : Wrong::doubted);
      knows_lost(true);
      return Came::lost;
    }
  }
  if (over()) return Came::over;
  if (aim.looks_for == LooksFor::nothing) {
    believed_ = aim.end;
    return Came::there;
  }
  went_wrong(gross ? Wrong::wrong_bearing : had_in_sight ? Wrong::not_known : Wrong::missed);
  return search(aim);
}

/// Something like the end, met by a count that is off by `sd_m`: taken for it by who notices it and
/// whose count fits, but where the lie of a line tells. Who minds what the card warns of takes it for
/// the end only where the count is nearer to the end than to it.
bool Walker::taken_for_end(const ReadyLeg& leg, std::size_t k, double counted_m, double length_m,
                           double sd_m) {
  const Lookalike& like = leg.alike[k];
  const double off = std::abs(counted_m - length_m);
  // the count is trusted within what it was wrong by before, so differently by each party
  const double trusts = std::max(0.3, 1.2 + 0.4 * random_.normal()) * sd_m + 20;
  const double attention = own(world_.perception().attention);
  const bool lie_tells =
      like.mark() == nullptr && like.lie_apart_deg() > 25 && luck(attention);
  const bool warned = leg.told_alike == k && luck(attention) &&
                      std::abs(counted_m - like.place.along_m) <= off;
  return luck(like.place.looks_alike * chance(ChanceOf::notice, like.kind)) && off < trusts &&
         !lie_tells && !warned;
}

/// Knows the end and stands at it.
Came Walker::arrive(const Aim& aim) {
  sure(aim.end);
  return Came::there;
}

/// Has met the line: along it to the end.
Came Walker::on_target(const Aim& aim, const reckoning::AtLine& end, double at) {
  const ReadyLeg& leg = *aim.leg;
  const auto& line = world_.judge().guides().line(end.place.line);
  const Surface surface{static_cast<std::uint8_t>(line.label.kind), true};
  if (!end.mark) {  // nothing marks the place: the count has to do
    sure(aim.end);
    start_sd_m_ = std::max(end.line_sigma_m, start_sd_m_);
    return Came::there;
  }
  const double sight = std::max(seen_today(leg.end_seen_m[static_cast<std::size_t>(air())]), 10.0);
  const double target = end.place.along_m;
  double way = end.offset_m > 0 ? -1 : end.offset_m < 0 ? 1 : luck(0.5) ? 1 : -1;
  double far = std::abs(end.offset_m) +
               world_.judge().habits().wrong_way_sigmas * std::max(end.line_sigma_m, 20.0);
  // what lies on the line may allow less, or only to go where the mark is seen
  const bool bounded = end.follows_m < search_m(end, world_.judge().habits()) - 0.5,
             not_past = bounded && end.follows_m < std::abs(end.offset_m);
  if (bounded) far = end.follows_m;
  double length = leg.target_at.back();
  bool passed = false;
  for (int phase = 0; phase < 2 && !over(); ++phase) {
    double gone = 0;
    bool looked = false;
    while (!over()) {
      if (!looked && std::abs(at - target) <= sight) {
        looked = true;
        passed = true;
        if (luck(own(leg.end_known[static_cast<std::size_t>(air())]))) {
          while (!over() && std::abs(at - target) > 0.5) {
            const double by = std::clamp(target - at, -step_m, step_m);
            at += by;
            step(place_on(line.points, leg.target_at, at), believed_, surface, true);
          }
          if (over()) return Came::over;
          if (earth::grid_distance_m(at_, aim.end) < 40) go(aim.end, aim.end, true, surface);
          return over() ? Came::over : arrive(aim);
        }
      }
      // a step ends where the mark comes in sight, and at the line's end
      const double ahead = way * (target - at);
      double by = std::min({step_m, far - gone, way > 0 ? length - at : at});
      if (!looked && ahead > sight) by = std::min(by, ahead - sight + 0.6);
      if (by < 0.5) break;
      at += way * by;
      gone += by;
      step(place_on(line.points, leg.target_at, at), believed_, surface, true);
    }
    if (over()) return Came::over;
    went_wrong(passed ? Wrong::not_known : Wrong::wrong_side);
    wait(0.5 * doubt_);
    way = -way;
    far = not_past ? gone : 2 * far;  // back to where it met the line, or past it
  }
  if (over()) return Came::over;
  knows_lost(true);
  return Came::lost;
}

/// The short search about where the count says that the end is.
Came Walker::search(const Aim& aim) {
  wait(0.5 * doubt_);
  if (over()) return Came::over;
  const double sight = aim.seen_m > 0 ? seen_today(aim.seen_m) : 0;
  const auto sees = [&](GridPoint from) {
    const double reach = std::max(sight, aim.top ? 30.0 : 0.0);
    return reach > 0 && !std::isnan(reckoning::enters(from, at_, aim.end, reach)) &&
           luck(own(aim.end_known));
  };
  const auto found = [&] {
    walk_open(aim.end, aim.end);
    return over() ? Came::over : arrive(aim);
  };
  if (aim.looks_for == LooksFor::mark && luck(own(world_.setting(sight::Setting::search_at_end)))) {
    if (aim.top) {
      const GridPoint from = at_;
      go_up();
      if (!over() && sees(from)) return found();
    } else if (sight > 0) {
      const double apart = std::clamp(1.5 * sight, 30.0, 120.0);
      GridPoint way = unit(aim.to - aim.from);
      for (int k = 0; k < 8 && !over(); ++k) {
        double left = (k / 2 + 1) * apart;
        while (left > 0.5 && !over()) {
          const double by = std::min(left, step_m);
          GridPoint thought = by * way;
          const GridPoint from = at_, d = round_barred(by * turned(way, compass_), thought);
          step(at_ + d, believed_ + thought, world_.surface(at_ + d), false);
          if (!over() && sees(from)) return found();
          left -= by;
        }
        way = turned(way, 90 * degree);
      }
    }
  }
  if (over()) return Came::over;
  knows_lost(true);
  return Came::lost;
}

/// Uphill until it is up.
void Walker::go_up() {
  for (int k = 0; k < 24 && !over(); ++k) {
    const auto cell = world_.planes().cell(at_);
    if (!cell || world_.planes().slope_deg(*cell) < 2) return;
    const double up = (world_.planes().fall_deg(*cell) + 180) * degree;
    GridPoint thought = 20 * GridPoint{std::sin(up), std::cos(up)};
    const GridPoint d = round_barred(thought, thought);
    const double next = world_.height(at_ + d);
    if (!(next > height_)) return;
    step(at_ + d, believed_ + thought, world_.surface(at_ + d), false);
  }
}

/// Things to be ticked off: passed in truth, or overdue by the count. A thing beside the way is
/// ticked off when it is abreast (`own_line`: what was walked of the leg's own line; none off it),
/// a line where it is crossed, if that fits the count as well as like things must. What is overdue
/// speaks against the believed place by as much as it would have been noticed on the right way: by
/// its own chance, and from as far aside as the party may be. What fits the count, from when on a
/// thing is overdue and how much that speaks: *practice*.
void Walker::check_ticks(const ReadyLeg& leg, double counted, double sd,
                         const std::optional<Stretch>& own_line) {
  const auto& ticks = leg.card->leg.ticks;
  const bool needle = leg.card->leg.course.kind == walking::LegKind::bearing;
  const double about = needle ? 2.5 * sd + 20 : 3 * sd + 80;
  bool lines_read = false;
  for (std::size_t k = 0; k < ticks.size(); ++k) {
    if (ticked_[k] || !tick_looked_[k] || !ticks[k].counted_from()) continue;
    const auto& tick = ticks[k];
    const double tick_at = leg.tick_scale * tick.at_m;
    const bool crossed = is_line(tick.kind) && needle;
    const double reach =
        std::clamp(world_.ground()
                       .kinds[tick.kind]
                       .seen_from_m[static_cast<std::size_t>(world_.visibility(air()))],
                   least_tick_reach_m, landmarks::tick_reach_m);
    if (std::abs(counted - tick_at) < about) {
      bool passed = false;
      if (crossed) {
        if (!lines_read) {
          world_.lines_met(trail_from_, at_, met_);
          lines_read = true;
        }
        passed = std::ranges::any_of(
            met_, [&](const LineMet& m) { return world_.kind_of(m.edge) == tick.kind; });
      } else if (own_line) {
        passed = own_line->from_m < tick_at && tick_at <= own_line->to_m;
      } else {
        passed = earth::grid_distance_m(at_, tick.at) < reach + 0.5 * step_m &&
                 mapdata::dot(tick.at - at_, at_ - trail_from_) <= 0;
      }
      if (passed && luck(chance(ChanceOf::notice, sight::class_of(tick.kind)))) {
        ticked_[k] = true;
        ticked_at_ = tick_at;
        since_sure_m_ *= 0.5;
        doubt_score_ = std::max(0.0, doubt_score_ - 1);
        if (needle)
          believed_ = believed_ + (tick_at - counted) * unit(leg.card->leg.course.line.back() -
                                                             leg.card->leg.course.line.front());
        return;
      }
    }
    if (counted > tick_at + 2.5 * sd + 60) {
      ticked_[k] = true;
      const double noticed = chance(ChanceOf::notice, sight::class_of(tick.kind)),
                   in_reach = crossed || !needle
                                  ? 1
                                  : 2 * numeric::normal_cdf(reach / std::max(sd, 1.0)) - 1;
      contradicts(1.2 * noticed * in_reach);
    }
  }
}

}  // namespace lodeway::walkers::detail
