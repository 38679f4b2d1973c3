#include "lodeway/trip/schedule.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lodeway::trip {

namespace {

constexpr double same_place_m = 1.0;
/// A rest that falls due so shortly before a leg's end is taken there. Practice.
constexpr double put_off_min = 10;
/// Who ends no further than this from the start is back. Practice: a car park's length.
constexpr double back_within_m = 250;

Clock clock(double minutes) { return Clock{std::lround(minutes)}; }
double in_minutes(Clock c) { return static_cast<double>(c.count()); }

/// The last moments at the end of one leg.
struct TurnAt {
  Clock turn{};
  double back_min = 0;
  double margin_min = 0;  ///< from the planned arrival there
};

/// Minutes from each leg's end back to the start by the slow day, rests in them.
std::vector<double> slow_back(const Trip& trip, const SlowDay& slow,
                              const std::vector<double>& back_minutes) {
  std::vector<double> out;
  for (const double back : back_minutes)
    out.push_back(back * slow.slowness + rests_on_the_way_back(trip.request.party, back));
  return out;
}

/// Who is at a leg's end by its time may go on or go back, and is home by the limit either way; who
/// is not goes back, and is: only where back is no longer than on. Of the places that the party can
/// know the one that leaves most time from the plan, about half way round; a place that the leader
/// named counts double, for it is in everybody's head (*practice*).
void set_turn_round(Schedule& s, const Trip& trip, const reckoning::JudgedWay& way,
                    const std::vector<std::optional<double>>& on, const std::vector<double>& back,
                    Clock limit) {
  const auto own = legs_that_reach(trip.request, way);
  std::optional<TurnAt> best;
  double most = 0;
  for (std::size_t k = 0; k + 1 < way.legs.size(); ++k) {
    if (!way.legs[k].judged.fix_at_end) continue;
    if (!on[k] || back[k] > *on[k]) continue;  // nobody turns who would sooner be through
    const auto turn = clock(std::floor(in_minutes(limit) - *on[k]));
    const TurnAt at{turn, back[k], in_minutes(turn - s.legs[k].arrive)};
    const bool named = std::ranges::find(own, static_cast<int>(k)) != own.end();
    const double worth = named && at.margin_min > 0 ? 2 * at.margin_min : at.margin_min;
    if (best && worth <= most) continue;
    best = at;
    most = worth;
    s.turn_round_leg = static_cast<int>(k);
  }
  if (!best || best->turn <= s.start) {  // too late before the party sets out; that is said
    s.turn_round_leg = -1;
    s.turn_before_start = best.has_value();
    return;
  }
  s.turn_round_back_min = best->back_min;
  s.turn_round = best->turn;
}

}  // namespace

bool planned_for_night(const Trip& trip) {
  return trip.request.party.visibility == mapdata::Visibility::night;
}

bool held_to_daylight(const Trip& trip, const Daylight& daylight) {
  return !planned_for_night(trip) && daylight.dusk && trip.start < *daylight.dusk;
}

std::vector<int> legs_that_reach(const walking::Request& request, const reckoning::JudgedWay& way) {
  std::vector<int> out;
  std::size_t leg = 0;
  for (std::size_t p = 1; p < request.points.size(); ++p) {
    auto k = leg;
    while (k < way.legs.size() && earth::grid_distance_m(way.legs[k].course.line.back(),
                                                         request.points[p].at) > same_place_m) {
      ++k;
    }
    out.push_back(k < way.legs.size() ? static_cast<int>(k) : -1);
    if (k < way.legs.size()) leg = k + 1;
  }
  return out;
}

std::vector<double> stays_of(const walking::Request& request, const reckoning::JudgedWay& way) {
  std::vector<double> out(way.legs.size());
  const auto reached = legs_that_reach(request, way);
  for (std::size_t p = 0; p < reached.size(); ++p) {
    if (reached[p] >= 0) out[static_cast<std::size_t>(reached[p])] = request.points[p + 1].stay_min;
  }
  return out;
}

double rests_on_the_way_back(const walking::Party& party, double minutes) {
  if (party.rest_every_min <= 0) return 0;
  return party.rest_min * std::max(0.0, std::ceil(minutes / party.rest_every_min) - 1);
}

std::vector<Rests> rests_of(const walking::Request& request, const reckoning::JudgedWay& way) {
  std::vector<double> minutes;
  for (const auto& leg : way.legs) minutes.push_back(leg.judged.minutes);
  return rests_of(request.party, minutes, stays_of(request, way));
}

std::vector<Rests> rests_of(const walking::Party& party, std::span<const double> minutes,
                            std::span<const double> stays) {
  std::vector<Rests> out(minutes.size());
  for (std::size_t k = 0; k < out.size(); ++k) out[k].after_min = stays[k];
  if (party.rest_every_min <= 0 || party.rest_min <= 0) return out;
  double since_rest = 0;
  for (std::size_t k = 0; k < minutes.size(); ++k) {
    double left = minutes[k];
    for (double to_rest = party.rest_every_min - since_rest; left - to_rest > put_off_min;
         to_rest = party.rest_every_min) {
      left -= std::max(to_rest, 0.0);
      since_rest = 0;
      out[k].within_min += party.rest_min;
    }
    since_rest += left;
    const bool last = k + 1 == minutes.size();
    if (!last && out[k].after_min < party.rest_min &&
        since_rest >= party.rest_every_min - put_off_min) {
      out[k].after_min = party.rest_min;
    }
    if (out[k].after_min >= party.rest_min) since_rest = 0;
  }
  return out;
}

Schedule make_schedule(const Trip& trip, const reckoning::JudgedWay& way, const Daylight& daylight,
                       const std::vector<double>& back_minutes, const SlowDay& slow) {
  assert(!way.legs.empty() && back_minutes.size() == way.legs.size());
  assert(slow.arrive.size() == way.legs.size() && slow.on.size() == way.legs.size());
  const auto rests = rests_of(trip.request, way);
  Schedule s;
  s.start = trip.start;
  s.zone = trip.zone;
  s.one_way = earth::grid_distance_m(way.legs.front().course.line.front(),
                                     way.legs.back().course.line.back()) > back_within_m;
  double now = in_minutes(trip.start);
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    LegTimes t;
    t.leave = clock(now);
    now += way.legs[k].judged.minutes + rests[k].within_min;
    t.arrive = clock(now);
    t.arrive_slow = clock(in_minutes(s.start) + slow.arrive[k]);
    t.rest_min = rests[k].after_min;
    t.rest_within_min = rests[k].within_min;
    s.legs.push_back(t);
    now += rests[k].after_min;
  }
  s.end = s.legs.back().arrive;
  if (slow.end) {
    s.end_slow = clock(std::ceil(in_minutes(s.start) + *slow.end));
    s.act_by = clock(std::ceil(in_minutes(*s.end_slow) + drill_minutes));
  }
  if (slow.middle) s.end_half = clock(in_minutes(s.start) + *slow.middle);
  s.never_home = slow.never_home;
  s.rehearsed = slow.walkers;
  if (daylight.set) s.to_sunset_min = in_minutes(*daylight.set - s.end);
  if (daylight.dusk) {
    s.to_dusk_min = in_minutes(*daylight.dusk - s.end);
    // Before first light nobody sets out who has not planned for the night: then there is none.
    if (held_to_daylight(trip, daylight) && s.end_slow) {
      const auto latest = trip.start + (*daylight.dusk - *s.end_slow);
      if (!daylight.dawn || latest >= *daylight.dawn) s.latest_start = latest;
    }
  }
  // One rule: nobody who obeys the card is called for, nor out after the last light by surprise.
  std::optional<Clock> limit = s.end_slow;
  if (held_to_daylight(trip, daylight))
    limit = limit ? std::min(*limit, *daylight.dusk) : *daylight.dusk;
  if (limit) set_turn_round(s, trip, way, slow.on, slow_back(trip, slow, back_minutes), *limit);
  return s;
}

}  // namespace lodeway::trip
