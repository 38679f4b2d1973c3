/// Open legs of some 400 m to a hidden peg.
#include <algorithm>
#include <cmath>
#include <map>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/terrain/profile.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/terrain/visibility.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::learn::detail {

namespace {

constexpr int tries = 4000, wanted = 4, enough_candidates = 20;
constexpr double length_m = 400, length_more_m = 30, most_climb_m = 40, most_median_deg = 15,
                 apart_deg = 60, catch_from_m = 50, catch_to_m = 200, peg_high_m = 0.5;

enum class Against : unsigned char {
  hurts,
  steep,
  climbs,
  seen,
  line,
  nothing_catches,
  off_piece,
  road
};
const char* words_of(Against a, units::Language l) {
  switch (a) {
    case Against::hurts:
      return units::in(
          l, "ground to keep off lies within three times a beginner pair's usual miss and 60 m",
          "zu meidendes Gelände liegt näher als das Dreifache dessen, was ein "
          "Anfängerpaar gewöhnlich danebenliegt, und 60 m");
    case Against::steep:
      return units::in(l, "the ground is steeper than 15° for half of the way",
                       "das Gelände ist auf der halben Strecke steiler als 15°");
    case Against::climbs:
      return units::in(l, "they climb or fall more than 40 m",
                       "sie steigen oder fallen mehr als 40 m");
    case Against::seen:
      return units::in(l, "the peg is seen from the start", "man sieht den Pflock vom Start");
    case Against::line:
      return units::in(l, "a line can be followed", "man kann einer Linie folgen");
    case Against::nothing_catches:
      return units::in(l, "no catching feature lies 50 to 200 m beyond, right across",
                       "keine Auffanglinie liegt 50 bis 200 m dahinter, in ganzer Breite");
    case Against::off_piece:
      return units::in(l, "they leave the map piece", "sie verlassen das Kartenstück");
    case Against::road:
      return units::in(l, "a main road, a road of unknown traffic or a railway lies on the way",
                       "eine Hauptstraße, eine Straße mit unbekanntem Verkehr oder eine Bahn liegt "
                       "auf dem Weg");
  }
  return "";
}

/// A line that leads runs beside most of the way, within 30 m and 25 degrees.
bool can_follow(const landmarks::Surroundings& around, const mapdata::KindTable& kinds,
                GridPoint from, units::GridBearing bearing, double length) {
  int beside = 0;
  for (double s = 20; s < length; s += 40) {
    for (const auto& near : around.lines().near(earth::step(from, bearing, s), 30)) {
      const auto& line = around.map().lines[near.ref.line];
      if (!kinds[line.label.kind].leads) continue;
      const auto a = line.points[near.ref.segment], b = line.points[near.ref.segment + 1];
      const double turn = std::abs(
          std::remainder(earth::grid_bearing(a, b).in_degrees() - bearing.in_degrees(), 180.0));
      if (turn < 25) {
        ++beside;
        break;
      }
    }
  }
  return beside >= 3;
}

struct Judged {
  BearingCourse course;
  std::optional<Against> against;
};

Judged judge(const TrainingGround& g, const TrainingDay& day, GridPoint from,
             units::GridBearing bearing, double length) {
  Judged out;
  auto& c = out.course;
  c.from = from;
  c.bearing = bearing;
  c.length_m = length;
  c.peg = earth::step(from, bearing, length);
  const auto no = [&](Against a) {
    out.against = a;
    return out;
  };
  if (!g.safe_leg(from, c.peg)) return no(Against::hurts);
  if (!on_map_piece(day.from, from) || !on_map_piece(day.from, c.peg))
    return no(Against::off_piece);
  if (g.meets_road(from, c.peg)) return no(Against::road);
  const auto& heights = g.ground().elevation;
  std::vector<double> slopes;
  for (double s = 0; s <= length; s += 20) {
    const double d = terrain::slope_deg_at(heights, earth::step(from, bearing, s));
    slopes.push_back(std::isfinite(d) ? d : 90);
  }
  std::ranges::nth_element(slopes, slopes.begin() + static_cast<std::ptrdiff_t>(slopes.size() / 2));
  c.median_slope_deg = slopes[slopes.size() / 2];
  if (c.median_slope_deg > most_median_deg) return no(Against::steep);
  const auto profile = terrain::profile(heights, {from, c.peg});
  c.climb_m = profile.ascent_m;
  c.descent_m = profile.descent_m;
  if (c.climb_m > most_climb_m || c.descent_m > most_climb_m) return no(Against::climbs);
  const auto& around = g.surroundings();
  if (can_follow(around, g.ground().kinds, from, bearing, length)) return no(Against::line);
  const auto spread = reckoning::single_leg_spread(g.novice(), length);
  c.cross_sigma_m = std::sqrt(spread.cross_m2);
  c.along_sigma_m = std::sqrt(spread.along_m2);
  // Straight on and from both flanks: who has drifted is to be stopped too.
  const auto right = units::GridBearing::degrees(bearing.in_degrees() + 90);
  for (const double off : {0.0, -2 * c.cross_sigma_m, 2 * c.cross_sigma_m}) {
    const auto start = earth::step(c.peg, right, off);
    const auto stop = around.stop_beyond(start, bearing, -1, catch_to_m + 2 * c.cross_sigma_m);
    if (!stop || (off == 0 && (stop->beyond_m < catch_from_m || stop->beyond_m > catch_to_m)))
      return no(Against::nothing_catches);
    if (off != 0) continue;
    c.catches = landmarks::thing(stop->kind, stop->name, day.language);
    c.catches_beyond_m = stop->beyond_m;
    c.road_catches = stop->kind == mapdata::Kind::road || stop->kind == mapdata::Kind::railway;
  }
  if (terrain::sees(heights, from, c.peg, {.eye_m = 1.6, .target_m = peg_high_m}) !=
      terrain::Seen::hidden)
    return no(Against::seen);
  // Who drifts may come to a road that the line keeps off.
  const double reach = g.corridor(length).half_m;
  for (double s = 0; s <= length; s += 40) {
    const auto road = g.road_near(earth::step(from, bearing, s), reach, Roads::all);
    if (!road || road->distance_m >= c.road_beside_m.value_or(HUGE_VAL)) continue;
    c.road_beside_m = road->distance_m;
    c.road_words = road_words(g, *road, day.language);
  }
  c.may_plant = true;
  for (double s = 0; s <= length && c.may_plant; s += 50)
    c.may_plant = g.clear_m(earth::step(from, bearing, s)) >= g.rules().planted_clear_m;
  return out;
}

}  // namespace

void make_bearings(const TrainingGround& g, numeric::Random random, TrainingDay& day) {
  std::map<Against, int> reasons;
  std::vector<BearingCourse> good;
  for (int i = 0; i < tries && static_cast<int>(good.size()) < enough_candidates; ++i) {
    // Near the start first: a half day is for exercises, not for going to them.
    const double within_m = g.rules().within_m * (i < tries / 2 ? 0.5 : 1);
    const auto from = place_within(day.from, within_m, random);
    const auto bearing = units::GridBearing::degrees(360 * random.uniform());
    const double length = length_m + length_more_m * (2 * random.uniform() - 1);
    auto judged = judge(g, day, from, bearing, length);
    if (judged.against) {
      ++reasons[*judged.against];
    } else {
      good.push_back(std::move(judged.course));
    }
  }
  std::ranges::stable_sort(good, {},
                           [&](const auto& c) { return earth::grid_distance_m(day.from, c.from); });
  for (auto& c : good) {
    if (static_cast<int>(day.bearings.size()) == wanted) break;
    const bool apart = std::ranges::all_of(day.bearings, [&](const auto& other) {
      return std::abs((other.bearing - c.bearing).in_degrees()) >= apart_deg;
    });
    if (!apart) continue;
    for (const auto& met :
         g.surroundings().along({c.from, c.peg}, -1, mapdata::Visibility::clear)) {
      if (met.meeting != landmarks::Meeting::crosses) continue;
      c.crosses.push_back(landmarks::thing(met.kind, met.name, day.language));
      c.water |= is_stream(met.kind);
    }
    day.bearings.push_back(std::move(c));
  }
  if (static_cast<int>(day.bearings.size()) == wanted) return;
  const auto most = std::ranges::max_element(reasons, {}, [](const auto& r) { return r.second; });
  std::size_t tried = good.size();
  for (const auto& [why, n] : reasons) tried += static_cast<std::size_t>(n);
  const auto l = day.language;
  day.missing.push_back(units::said(
      l,
      "Bearing courses: {} of {} found. Of {} places and directions tried {} are good; most often "
      "{}.",
      "Kompassläufe: {} von {} gefunden. Von {} versuchten Orten und Richtungen taugen {}; meist "
      "gilt: {}.",
      day.bearings.size(), wanted, tried, good.size(),
      most == reasons.end() ? units::in(l, "nothing was against them", "nichts sprach dagegen")
                            : words_of(most->first, l)));
}

}  // namespace lodeway::learn::detail
