/// Small things to be found, half of them from a sure place near by.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::learn::detail {

namespace {
constexpr double most_seen_m = 60, least_known = 0.5, most_known = 0.95, sure_known = 0.95,
                 near_m = 250, far_m = 600, least_m = 80;
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
  const auto fixes = g.fixes().all();
  const auto near = g.fixes().near(day.from, g.rules().within_m);
  std::vector<FeatureFind> found;
  int small = 0, unsafe = 0;
  for (const auto i : near) {
    const auto& fix = fixes[i];
    const double seen = fix.seen_from_m[0], known = fix.recognised[0];
    if (!(seen > 5 && seen <= most_seen_m && known >= least_known && known <= most_known)) continue;
    ++small;
    const FeatureFind* best = nullptr;
    FeatureFind one;
    // From a near place every other time, so that both sorts come up.
    const bool attack = small % 2 == 0;
    double best_m = far_m;
    for (const auto k : g.fixes().near(fix.at, attack ? near_m : far_m)) {
      const auto& from = fixes[k];
      const double length = earth::grid_distance_m(from.at, fix.at);
      if (from.recognised[0] < sure_known || length < (attack ? least_m : near_m) ||
          length >= best_m)
        continue;
      if (!g.safe_leg(from.at, fix.at)) {
        ++unsafe;
        continue;
      }
      one.from = from.at;
      one.from_words = landmarks::words(from, units::Language::english);
      best_m = length;
      best = &one;
    }
    if (best == nullptr) continue;
    one.at = fix.at;
    one.words = landmarks::words(fix, units::Language::english);
    one.kind = fix.kind;
    one.bearing = earth::grid_bearing(one.from, one.at);
    one.length_m = best_m;
    one.seen_from_m = seen;
    one.known = known;
    one.attack_point = attack;
    one.difficulty = difficulty_of(best_m, seen, known);
    if (one.words.empty() || one.from_words.empty()) continue;
    found.push_back(std::move(one));
  }
  for (std::size_t i = found.size(); i > 1; --i) std::swap(found[i - 1], found[pick(i, random)]);
  for (std::size_t s = 0; s + 1 < std::size(steps); ++s) {
    int taken = 0;
    for (auto& f : found) {
      if (taken == 2) break;
      const bool far = std::ranges::all_of(
          day.features, [&](const auto& o) { return earth::grid_distance_m(o.at, f.at) > 100; });
      if (f.difficulty < steps[s] || f.difficulty >= steps[s + 1] || !far) continue;
      day.features.push_back(f);
      ++taken;
    }
  }
  if (day.features.size() < 10) {
    day.missing.push_back(
        fmt::format("Features: {} of 10 found. {} small things lie within {:.0f} m; {} ways to "
                    "them come too near "
                    "to ground to keep off.",
                    day.features.size(), small, g.rules().within_m, unsafe));
  }
}

}  // namespace lodeway::learn::detail
