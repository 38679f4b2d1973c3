#include "lodeway/route/escape/escape_judge.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/reckoning/judge/drill_room.hpp"
#include "lodeway/result/overloaded.hpp"
#include "lodeway/route/escape/snow_slopes.hpp"
#include "lodeway/terrain/profile.hpp"

namespace lodeway::route {

namespace {
using reckoning::Drift;
using walking::Leg;
using walking::LegKind;

/// What the party does not know of its place where it leaves the way.
Drift error_at(const reckoning::Judge& judge, const LeftAt& place) {
  const auto& legs = place.way->legs;
  auto out = judge.at_fix();
  if (place.done > 0 && !legs[place.done - 1].judged.fix_at_end)
    out = Drift(judge.errors(), judge.declination_sigma(), legs[place.done - 1].judged.at_end);
  if (place.done > 0 && legs[place.done - 1].course.kind == LegKind::along)
    out.come_by(reckoning::arm_come_by(legs[place.done - 1].course.line));
  if (place.part_m <= 0) return out;
  out.come_by({});
  const auto& leg = legs[place.done];
  if (leg.course.kind == LegKind::bearing) {
    out.add_leg(earth::grid_bearing(leg.course.line.front(), place.at), place.part_m);
    return out;
  }
  double since = 0;  // what was ticked off last
  for (const auto& tick : leg.ticks)
    if (tick.counted_from() && tick.at_m < place.part_m) since = std::max(since, tick.at_m);
  const double along = reckoning::handrail_sigma_m(judge.errors(), place.part_m - since);
  const double side = judge.habits().fix_sigma_m;
  out.reset(
      numeric::covariance_along(mapdata::direction_at(leg.course.line, place.part_m).in_radians(),
                                along * along + side * side, side * side));
  return out;
}
}  // namespace

double rise_m(const terrain::Elevation& heights, const std::vector<Leg>& legs) {
  double first = std::numeric_limits<double>::quiet_NaN(), highest = first;
  for (const auto& leg : legs) {
    for (const auto& p : terrain::profile(heights, leg.course.line).points) {
      if (std::isnan(p.height_m)) return std::numeric_limits<double>::infinity();
      if (std::isnan(first)) first = highest = p.height_m;
      highest = std::max(highest, p.height_m);
    }
  }
  return std::isnan(first) ? 0 : highest - first;
}

/// As the card tells it: who has not found the end goes past the count no farther than what lies
/// beyond allows. Fewer come onto it, and fewer find a mark that lies farther on than counted.
reckoning::Weighed EscapeJudge::as_told(const reckoning::Judge& judge, const Leg& leg,
                                        reckoning::Weighed m) const {
  using namespace reckoning;
  if (leg.course.kind != LegKind::bearing || nothing_to_see(m.end)) return m;
  const auto room = drill_room(hazards_, judge.guides(), leg, m, 0);
  const double on = may_go_on_m(room.ahead_m, m);
  const auto goes_on_less = [&](auto& end) {
    if (on >= end.beyond_m) return false;
    end.beyond_m = on;
    return true;
  };
  const bool less = std::visit(
      result::overloaded{
          [](const OnNeedle&) { return false; }, [](const ByHandrail&) { return false; },
          [&](AtLine& end) { return goes_on_less(end); },
          [&](AtMark& end) {
            if (!goes_on_less(end)) return false;
            auto at_last = m.spread;
            at_last.along_sigma_m = std::sqrt(end.growth.along_m2(m.length_m + on));
            m.certainty = end.set_right * end.mark.recognised *
                          sees_before_giving_up(at_last, 0, end.mark.seen_from_m, on) *
                          (1 - m.decoy_probability);
            return true;
          }},
      m.end);
  if (less) m.hazard_probability = hazard_probability(hazards_, walk_of(m, judge.guides()));
  return m;
}

/// Does a cliff or steep band lie straight on, as far as a party may be that goes as far as it may
/// and has counted two sigmas too little?
bool EscapeJudge::drop_ahead(const reckoning::Approach& way) const {
  constexpr double sigmas = 2;
  const double far = reckoning::beyond_m(way.end) + sigmas * way.spread.along_sigma_m;
  const auto met = cover_.first_bar(way.aim, earth::step(way.aim, way.bearing, far)).bar;
  return met == walking::Bar::cliff || met == walking::Bar::steep;
}

EscapeCandidate EscapeJudge::judged(const std::vector<Leg>& legs, const LeftAt& place,
                                    std::string to, bool on_the_card) const {
  EscapeCandidate candidate{{}, on_the_card, 0, false};
  auto& out = candidate.route;
  out.to = std::move(to);
  std::vector<Drift> carried;
  for (const auto& teller : tellers_) carried.push_back(error_at(teller.judge(), place));
  double dry = 1;
  for (const auto& leg : legs) {
    reckoning::JudgedLeg worst;
    const bool last = &leg == &legs.back();
    for (std::size_t i = 0; i < carried.size(); ++i) {
      const auto& judge = tellers_[i].judge();
      auto model = as_told(judge, leg, judge.weigh(leg, carried[i]));
      if (last)  // safe ground ends the route: nobody goes on past it
        model = judge.as_end_of_way(leg, std::move(model));
      else if (leg.course.kind == LegKind::bearing)
        candidate.to_a_drop = candidate.to_a_drop || drop_ahead(model);
      auto said = tellers_[i].judged(leg, model);
      if (i == 0) {
        worst = {leg, std::move(said)};
        continue;
      }
      const double hazard = std::max(worst.judged.hazard_probability, said.hazard_probability);
      if (said.certainty < worst.judged.certainty) worst.judged = std::move(said);
      worst.judged.hazard_probability = hazard;
    }
    out.minutes += worst.judged.minutes;
    out.minutes_slow += worst.judged.minutes_slow;
    out.certainty *= worst.judged.certainty;
    dry *= 1 - worst.judged.hazard_probability;
    out.legs.push_back(std::move(worst));
  }
  out.hazard_probability = 1 - dry;
  out.snow_slope = snow_slopes_ != nullptr && over_snow_slope(*snow_slopes_, legs);
  return candidate;
}

}  // namespace lodeway::route
