/// Blind drops: what height, fall and steepness alone leave open decides how hard one is.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::learn::detail {

namespace {
constexpr int tries = 60;
constexpr double reach_m = 1200, clear_m = 150, off_road_m = 60, step_m = 30, easy_m = 150,
                 hard_m = 300;
// What a party reads off standing there [practice]: height from an altimeter, fall with the
// compass, steepness by eye.
constexpr double height_sd_m = 15, fall_sd_deg = 20, slope_sd_deg = 4;

/// Radius of the disc as large as the ground that holds nine tenths of the posterior.
double radius_left(const TrainingGround& g, const Drop& drop) {
  std::vector<double> weights;
  const auto& z = g.ground().elevation;
  double total = 0;
  for (double e = -reach_m; e <= reach_m; e += step_m) {
    for (double n = -reach_m; n <= reach_m; n += step_m) {
      if (e * e + n * n > reach_m * reach_m) continue;
      const GridPoint p{drop.sure.east_m + e, drop.sure.north_m + n};
      const double height = terrain::height_at(z, p);
      const auto gradient = terrain::gradient_at(z, p);
      const double slope = terrain::slope_deg(gradient);
      if (!std::isfinite(height) || !std::isfinite(slope)) continue;
      const double dh = (height - drop.height_m) / height_sd_m,
                   ds = (slope - drop.slope_deg) / slope_sd_deg;
      // On nearly level ground the fall says little.
      const double fall_sd = std::hypot(fall_sd_deg, 100 / std::max(drop.slope_deg, 1.0));
      const double df = (terrain::fall_line(gradient) - drop.falls).in_degrees() / fall_sd;
      const double w = std::exp(-0.5 * (dh * dh + ds * ds + df * df));
      total += w;
      weights.push_back(w);
    }
  }
  std::ranges::sort(weights, std::ranges::greater{});
  double sum = 0;
  std::size_t cells = 0;
  while (cells < weights.size() && sum < 0.9 * total) sum += weights[cells++];
  return std::sqrt(static_cast<double>(cells) * step_m * step_m / std::numbers::pi);
}
}  // namespace

void make_drops(const TrainingGround& g, numeric::Random random, TrainingDay& day) {
  const auto& z = g.ground().elevation;
  std::vector<std::uint32_t> sure;
  for (const auto i : g.fixes().near(day.from, g.rules().within_m)) {
    const auto& fix = g.fixes()[i];
    if (fix.recognised[0] >= 0.95 && on_map_piece(day.from, fix.at)) sure.push_back(i);
  }
  // Near the day's start first.
  const auto far = std::ranges::stable_partition(sure, [&](auto i) {
    return earth::grid_distance_m(g.fixes()[i].at, day.from) < 0.4 * g.rules().within_m;
  });
  const std::size_t near_count = sure.size() - far.size();
  std::optional<Drop> easy, middle, hard;
  for (int i = 0; i < tries && !sure.empty() && !(easy && middle && hard); ++i) {
    const bool near = i < tries / 2 && near_count > 0;
    const auto& from = g.fixes()[sure[pick(near ? near_count : sure.size(), random)]];
    Drop d;
    d.sure = from.at;
    d.sure_words = landmarks::words(from, day.language);
    d.at = place_within(from.at, 0.7 * reach_m, random);
    if (d.sure_words.empty() || g.clear_m(d.at) < clear_m || !on_map_piece(day.from, d.at) ||
        g.to_road_m(d.at, off_road_m, Roads::all))
      continue;
    const auto gradient = terrain::gradient_at(z, d.at);
    d.height_m = terrain::height_at(z, d.at);
    d.slope_deg = terrain::slope_deg(gradient);
    if (!std::isfinite(d.height_m) || !std::isfinite(d.slope_deg)) continue;
    d.falls = terrain::fall_line(gradient);
    d.radius_m = radius_left(g, d);
    auto& slot = d.radius_m <= easy_m ? easy : d.radius_m > hard_m ? hard : middle;
    if (!slot) slot = d;
  }
  for (auto* slot : {&easy, &middle, &hard}) {
    if (*slot) day.drops.push_back(**slot);
  }
  if (day.drops.size() < 3) {
    day.missing.push_back(units::said(
        day.language,
        "Blind drops: {} of an easy, a middle and a hard one found within {:.0f} m, {:.0f} m from "
        "ground to keep off and {:.0f} m from roads.",
        "Wo sind wir: {} von je einem leichten, mittleren und schweren Ort gefunden innerhalb von "
        "{:.0f} m, {:.0f} m von zu meidendem Gelände und {:.0f} m von Straßen.",
        day.drops.size(), g.rules().within_m, clear_m, off_road_m));
  }
}

}  // namespace lodeway::learn::detail
