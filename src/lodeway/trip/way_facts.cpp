#include "lodeway/trip/way_facts.hpp"

#include <algorithm>

#include "lodeway/trip/kept_told.hpp"
#include "lodeway/trip/schedule.hpp"

namespace lodeway::trip {

namespace {

using mapdata::Kind;

constexpr double at_ford_m = 15;

bool water_known(const mapdata::MapData& map) {
  const auto is_water = [](Kind kind) {
    return kind == Kind::river || kind == Kind::stream || kind == Kind::lake || kind == Kind::sea;
  };
  const auto known = [&](const auto& feature) {
    return is_water(feature.label.kind) && feature.label.origin != mapdata::Origin::from_relief;
  };
  return std::ranges::any_of(map.lines, known) || std::ranges::any_of(map.areas, known);
}

/// Of the fords that the leg tells: rivers, and what the map has as a ford.
int wades_of(const PlannedLeg& leg, const mapdata::MapData& map) {
  const auto marked = [&](earth::GridPoint at) {
    return std::ranges::any_of(map.points, [&](const auto& point) {
      return point.label.kind == Kind::ford && earth::grid_distance_m(at, point.at) <= at_ford_m;
    });
  };
  return static_cast<int>(std::ranges::count_if(leg.fords, [&](const Ford& told) {
    return told.kind == Kind::river || marked(told.at);
  }));
}

}  // namespace

Limits limits_of(const Trip& trip) {
  return {trip.most_keep_off, trip.least_kept, trip.min_certainty, trip.light_margin_min};
}

WayFacts facts_of(const Plan& plan, const walking::Ground& ground) {
  WayFacts out;
  double spared = 1;
  for (const auto& leg : plan.way.legs) {
    LegFacts facts;
    // of a turn on the way 1: what it costs is the next leg's
    facts.kept = kept_told(leg.judged);
    facts.keep_off = leg.judged.hazard_probability;
    facts.no_heights = leg.figures.touches_void;
    facts.wades = wades_of(leg, ground.map);
    spared *= 1 - facts.keep_off;
    out.legs.push_back(facts);
  }
  out.keep_off = 1 - spared;
  const auto& s = plan.schedule;
  // Who did not plan for the night is in the dark after last light, also by setting out after it,
  // and before first light.
  if (!planned_for_night(plan.trip)) {
    const auto& day = plan.daylight;
    if (day.dusk && s.end_slow)
      out.slow_to_dark_min = static_cast<double>((*day.dusk - *s.end_slow).count());
    if (day.dawn) out.start_to_light_min = static_cast<double>((*day.dawn - s.start).count());
  }
  out.never_home = s.never_home;
  if (s.turn_round && s.turn_round_leg >= 0) {
    const auto there = s.legs[static_cast<std::size_t>(s.turn_round_leg)].arrive;
    out.turn_round_to_there_min = static_cast<double>((there - *s.turn_round).count());
  }
  out.no_compass = plan.norths.zone != magnetic::Zone::normal;
  out.water_unknown = !water_known(ground.map);
  return out;
}

}  // namespace lodeway::trip
