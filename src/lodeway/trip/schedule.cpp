#include "lodeway/trip/schedule.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lodeway::trip {

namespace {

constexpr double same_place_m = 1.0;
/// Who ends no further than this from the start is back. Practice: a car park's length.
constexpr double back_within_m = 250;

Clock clock(double minutes) { return Clock{std::lround(minutes)}; }
double in_minutes(Clock c) { return static_cast<double>(c.count()); }

/// Where going back and going on cost most nearly the same: before it the way back is the shorter.
/// Only where the party can know that it is there: not at a turn without a fix, if there is
/// another place.
int turning_leg(const reckoning::JudgedWay& way, const std::vector<double>& on,
                const std::vector<double>& back) {
  for (const bool any : {false, true}) {
    int best = -1;
    double least = 0;
    for (std::size_t k = 0; k + 1 < on.size(); ++k) {
      if (!any && !way.legs[k].judged.fix_at_end) continue;
      const double longer = std::max(on[k], back[k]);
      if (best < 0 || longer < least) {
        best = static_cast<int>(k);
        least = longer;
      }
    }
    if (best >= 0) return best;
  }
  return -1;
}

void set_turn_round(Schedule& s, const reckoning::JudgedWay& way, const std::vector<double>& rests,
                    const Daylight& daylight, const std::vector<double>& back_minutes) {
  const auto limit = daylight.set ? daylight.set : daylight.dusk;
  if (!limit || way.legs.size() < 2) return;
  double middle = 0, slow = 0;
  for (const auto& leg : way.legs) {
    middle += leg.judged.minutes;
    slow += leg.judged.minutes_slow;
  }
  const double slowness = middle > 0 ? slow / middle : 1;
  std::vector<double> on(way.legs.size()), back(way.legs.size());
  double rest_on = 0, slow_on = 0;
  for (std::size_t k = way.legs.size(); k-- > 0;) {
    on[k] = slow_on + rest_on;
    back[k] = back_minutes[k] * slowness;
    slow_on += way.legs[k].judged.minutes_slow;
    rest_on += k > 0 ? rests[k - 1] : 0;
  }
  const int k = turning_leg(way, on, back);
  if (k < 0) return;
  const auto i = static_cast<std::size_t>(k);
  const auto turn = clock(std::floor(in_minutes(*limit) - std::max(on[i], back[i])));
  if (turn <= s.start) return;  // too late before the party sets out; the warnings say so
  s.turn_round_leg = k;
  s.turn_round_back_min = back[i];
  s.turn_round = turn;
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

std::vector<double> rests_after(const walking::Request& request, const reckoning::JudgedWay& way) {
  std::vector<double> out(way.legs.size(), 0.0);
  const auto reached = legs_that_reach(request, way);
  for (std::size_t p = 0; p < reached.size(); ++p) {
    if (reached[p] >= 0) out[static_cast<std::size_t>(reached[p])] = request.points[p + 1].stay_min;
  }
  const auto& party = request.party;
  if (party.rest_every_min <= 0 || party.rest_min <= 0) return out;
  double since_rest = 0;
  for (std::size_t k = 0; k + 1 < way.legs.size(); ++k) {
    since_rest += way.legs[k].judged.minutes;
    if (out[k] < party.rest_min && since_rest >= party.rest_every_min) out[k] = party.rest_min;
    if (out[k] >= party.rest_min) since_rest = 0;
  }
  return out;
}

Schedule make_schedule(const Trip& trip, const reckoning::JudgedWay& way, const Daylight& daylight,
                       const std::vector<double>& back_minutes) {
  assert(!way.legs.empty() && back_minutes.size() == way.legs.size());
  const auto rests = rests_after(trip.request, way);
  Schedule s;
  s.start = trip.start;
  s.zone = trip.zone;
  s.one_way = earth::grid_distance_m(way.legs.front().course.line.front(),
                                     way.legs.back().course.line.back()) > back_within_m;
  double now = in_minutes(trip.start), slow = now;
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    LegTimes t;
    t.leave = clock(now);
    now += way.legs[k].judged.minutes;
    slow += way.legs[k].judged.minutes_slow;
    t.arrive = clock(now);
    t.arrive_slow = clock(slow);
    t.rest_min = rests[k];
    s.legs.push_back(t);
    now += rests[k];
    slow += rests[k];
  }
  s.end = s.legs.back().arrive;
  s.end_slow = s.legs.back().arrive_slow;
  s.act_by = clock(std::ceil(in_minutes(s.end_slow) + drill_minutes));
  if (daylight.set) s.to_sunset_min = in_minutes(*daylight.set - s.end);
  if (daylight.dusk) {
    s.to_dusk_min = in_minutes(*daylight.dusk - s.end);
    if (held_to_daylight(trip, daylight))
      s.latest_start = trip.start + (*daylight.dusk - s.end_slow);
  }
  if (held_to_daylight(trip, daylight)) set_turn_round(s, way, rests, daylight, back_minutes);
  return s;
}

}  // namespace lodeway::trip
