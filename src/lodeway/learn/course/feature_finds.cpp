/// Small things to be found, half of them from a sure place near by.
#include <algorithm>
#include <cmath>
#include <optional>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::learn::detail {

namespace {
constexpr double most_seen_m = 60, least_known = 0.5, most_known = 0.95, sure_known = 0.95,
                 near_m = 250, far_m = 600, least_m = 80, like_m = 200;
constexpr double leave_m = 40;  ///< of the way, to leave the road that it begins at
constexpr double at_water_m = 15;
constexpr int wanted = 10;
// Two of each difficulty [practice].
constexpr double steps[] = {0.05, 0.1, 0.2, 0.35, 0.5, 0.8};

/// Comes into sight and knows it: a practised party, no search counted.
double difficulty_of(double length_m, double seen_m, double known) {
  const auto spread = reckoning::single_leg_spread(reckoning::errors_of({}), length_m);
  const numeric::Covariance c{spread.cross_m2, 0, spread.along_m2};
  return 1 - known * numeric::disc_probability(c, 0, 0, seen_m);
}
}  // namespace

void make_features(const TrainingGround& g, numeric::Random random, TrainingDay& day) {
  std::vector<FeatureFind> found;
  int small = 0, unsafe = 0;
  for (const auto i : g.fixes().near(day.from, g.rules().within_m)) {
    const auto& fix = g.fixes()[i];
    const double seen = fix.seen_from_m[0], known = fix.recognised[0];
    if (!(seen > 5 && seen <= most_seen_m && known >= least_known && known <= most_known)) continue;
    const auto words = landmarks::words(fix, day.language);
    if (words.empty() || !on_map_piece(day.from, fix.at)) continue;
    ++small;
    const auto beside = g.fixes().near(fix.at, like_m);
    const bool like = std::ranges::any_of(
        beside, [&](auto k) { return k != i && g.fixes()[k].kind == fix.kind; });
    for (const auto k : g.fixes().near(fix.at, far_m)) {
      const auto& from = g.fixes()[k];
      const double length = earth::grid_distance_m(from.at, fix.at);
      if (from.recognised[0] < sure_known || length < least_m || !on_map_piece(day.from, from.at))
        continue;
      // A junction of roads is a sure place too; from there the way leads off.
      if (!g.safe_leg(from.at, fix.at) || g.meets_road(from.at, fix.at, leave_m)) {
        ++unsafe;
        continue;
      }
      FeatureFind one;
      one.from = from.at;
      one.from_words = landmarks::words(from, day.language);
      if (one.from_words.empty()) continue;
      one.at = fix.at;
      one.words = words;
      one.kind = fix.kind;
      one.bearing = earth::grid_bearing(one.from, one.at);
      one.length_m = length;
      one.seen_from_m = seen;
      one.known = known;
      one.attack_point = length < near_m;
      one.like_near = like;
      one.road = g.meets_road(from.at, fix.at, 0, Roads::all);
      one.difficulty = difficulty_of(length, seen, known);
      found.push_back(std::move(one));
    }
  }
  for (std::size_t i = found.size(); i > 1; --i) std::swap(found[i - 1], found[pick(i, random)]);
  // Those near the start first: a half day is for exercises, not for going to them.
  std::ranges::stable_partition(found, [&](const auto& f) {
    return earth::grid_distance_m(day.from, f.at) <= 0.5 * g.rules().within_m;
  });
  // Of each difficulty one from a near place and one from afar, then whatever there is; each thing
  // once.
  const auto take = [&](double from, double to, std::optional<bool> attack, int most) {
    for (const auto& f : found) {
      if (most == 0) return;
      const bool far = std::ranges::all_of(
          day.features, [&](const auto& o) { return earth::grid_distance_m(o.at, f.at) > 100; });
      if (f.difficulty < from || f.difficulty >= to || !far ||
          attack.value_or(f.attack_point) != f.attack_point)
        continue;
      day.features.push_back(f);
      --most;
    }
  };
  for (std::size_t s = 0; s + 1 < std::size(steps); ++s) {
    const auto before = static_cast<int>(day.features.size());
    take(steps[s], steps[s + 1], true, 1);
    take(steps[s], steps[s + 1], false, 1);
    take(steps[s], steps[s + 1], {}, before + 2 - static_cast<int>(day.features.size()));
  }
  take(steps[0], steps[std::size(steps) - 1], {}, wanted - static_cast<int>(day.features.size()));
  for (auto& one : day.features) {
    for (double s = 0; one.road && one.road_words.empty() && s <= one.length_m; s += 5) {
      if (const auto road =
              g.road_near(earth::step(one.from, one.bearing, s), g.rules().off_road_m, Roads::all))
        one.road_words = road_words(g, *road, day.language);
    }
    for (const auto& met :
         g.surroundings().along({one.from, one.at}, -1, mapdata::Visibility::clear))
      one.water |= is_stream(met.kind) && met.meeting == landmarks::Meeting::crosses;
    // One that ends at water is searched for along it.
    for (const auto& near : g.surroundings().lines().near(one.at, at_water_m))
      one.water |= is_stream(g.ground().map.lines[near.ref.line].label.kind);
  }
  std::ranges::stable_sort(day.features, {}, &FeatureFind::difficulty);
  if (static_cast<int>(day.features.size()) < wanted) {
    day.missing.push_back(units::said(
        day.language,
        "Features: {} of {} found. {} small things lie within {:.0f} m; {} ways to them come too "
        "near to ground to keep off or to a road.",
        "Merkmale: {} von {} gefunden. {} kleine Merkmale liegen innerhalb von {:.0f} m; {} Wege "
        "dorthin kommen zu meidendem Gelände oder einer Straße zu nahe.",
        day.features.size(), wanted, small, g.rules().within_m, unsafe));
  }
}

}  // namespace lodeway::learn::detail
