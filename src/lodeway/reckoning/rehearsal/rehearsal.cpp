#include "lodeway/reckoning/rehearsal/rehearsal.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "lodeway/numeric/statistics.hpp"
#include "lodeway/reckoning/rehearsal/rehearsed_walk.hpp"
#include "lodeway/terrain/profile.hpp"
#include "lodeway/walking/time_model.hpp"

namespace lodeway::reckoning {

namespace {
constexpr std::size_t most_blocks = 64;
constexpr std::size_t least_block = 256;
static_assert(most_trails <= least_block);
constexpr double most_stray_cells = 400000;

/// Cells over the way and its surroundings, as fine as the ground's, or coarser to stay small.
terrain::Frame stray_frame(const walking::Way& way, double cell) {
  constexpr double inf = std::numeric_limits<double>::infinity(), margin = 500;
  double west = inf, south = inf, east = -inf, north = -inf;
  for (const auto& leg : way.legs) {
    for (const GridPoint p : leg.course.line) {
      west = std::min(west, p.east_m - margin);
      east = std::max(east, p.east_m + margin);
      south = std::min(south, p.north_m - margin);
      north = std::max(north, p.north_m + margin);
    }
  }
  while ((east - west) * (north - south) / (cell * cell) > most_stray_cells) cell *= 2;
  west = std::floor(west / cell) * cell;
  north = std::ceil(north / cell) * cell;
  return {west, north, cell, static_cast<int>(std::ceil((north - south) / cell)),
          static_cast<int>(std::ceil((east - west) / cell))};
}

std::vector<float> pace_table(const walking::Party& party, double ground_factor) {
  std::vector<float> table(pace_entries);
  const double centre = walking::bands_of(party).centre;
  for (int i = 0; i < pace_entries; ++i) {
    table[static_cast<std::size_t>(i)] = static_cast<float>(centre * walking::pace_s_per_m(
        party.model, pace_slope(i), false, party.flat_speed_kmh, std::max(ground_factor, 0.05)));
  }
  return table;
}

template <class T>
void quantiles(std::vector<T>& values, double& p10, double& p50, double& p90) {
  std::erase_if(values, [](T v) { return std::isnan(v); });
  if (values.empty()) return;
  std::ranges::sort(values);
  const std::vector<double> sorted(values.begin(), values.end());
  p10 = numeric::sorted_quantile(sorted, 0.1);
  p50 = numeric::sorted_quantile(sorted, 0.5);
  p90 = numeric::sorted_quantile(sorted, 0.9);
}

void join(Rehearsal& all, const std::vector<Tally>& tallies) {
  std::size_t kept = 0, hazard = 0, back = 0, off = 0;
  for (const Tally& t : tallies) {
    if (t.legs.empty()) continue;  // not run: the whole was stopped
    kept += t.kept_all;
    hazard += t.hazard;
    back += t.turned_back;
    off += t.off_ground;
    for (std::size_t l = 0; l < all.legs.size(); ++l) {
      all.legs[l].walkers += t.legs[l].walkers;
      all.legs[l].kept += t.legs[l].kept;
      all.legs[l].walkers_on_course += t.legs[l].walkers_on_course;
      all.legs[l].kept_on_course += t.legs[l].kept_on_course;
      all.legs[l].hazard += t.legs[l].hazard;
      for (std::size_t k = 0; k < loss_count; ++k) all.legs[l].lost[k] += t.legs[l].lost[k];
    }
    for (std::size_t c = 0; c < t.strayed.size(); ++c)
      all.strayed.cells()[c] += static_cast<float>(t.strayed[c]);
  }
  const auto n = static_cast<double>(all.walkers);
  for (float& c : all.strayed.cells()) c /= static_cast<float>(n);
  all.certainty = static_cast<double>(kept) / n;
  all.certainty_error = numeric::share_error(kept, all.walkers);
  all.hazard_share = static_cast<double>(hazard) / n;
  all.hazard_error = numeric::share_error(hazard, all.walkers);
  all.turned_back_share = static_cast<double>(back) / n;
  all.off_ground_share = static_cast<double>(off) / n;
}
}  // namespace

std::string_view loss_words(Loss loss) {
  constexpr std::array<std::string_view, loss_count> words{"walked past it",
                                                           "turned the wrong way at the line",
                                                           "did not know it for what it was",
                                                           "took something else for it",
                                                           "lost the line",
                                                           "went on past the end"};
  return words[static_cast<std::size_t>(loss)];
}

Result<Rehearsal> rehearse(const walking::Ground& ground, const Judge& judge,
                           const walking::Way& given, const RehearsalRequest& request,
                           numeric::Parallel& parallel) {
  if (request.walkers == 0)
    return fail(FaultCode::bad_input, "walkers: expected at least 1, got 0");
  if (request.walkers > most_walkers) {
    return fail(FaultCode::too_large,
                fmt::format("walkers: expected at most {}, got {}", most_walkers, request.walkers));
  }
  if (given.legs.empty()) return fail(FaultCode::bad_input, "way: expected at least one leg");
  for (std::size_t i = 0; i < given.legs.size(); ++i) {
    if (given.legs[i].course.line.size() < 2 || !(mapdata::length_m(given.legs[i].course.line) > 0)) {
      return fail(
          FaultCode::bad_input,
          fmt::format("leg {}: expected a line of two places or more that are apart", i + 1));
    }
  }
  std::vector<Weighed> models;
  Drift carried = judge.at_fix();
  Rehearsal all;
  all.walkers = request.walkers;
  all.expected = 1;
  Stage stage{ground,
              judge,
              given.legs,
              {},
              {},
              {},
              {},
              stray_frame(given, std::max(ground.elevation.frame().cell_m, 1.0)),
              request.seed,
              std::min({request.trails, request.walkers, most_trails})};
  for (const auto& leg : given.legs) {
    models.push_back(judge.weigh(leg, carried));
    if (&leg == &given.legs.back()) models.back() = judge.as_end_of_way(leg, models.back());
    stage.card_minutes.push_back(walked(leg, models.back()).minutes);
    stage.pace.push_back(pace_table(judge.party(), leg.course.ground_factor));
    RehearsedLeg& row = all.legs.emplace_back();
    row.rehearsed = !terrain::profile(ground.elevation, leg.course.line).touches_void;
    stage.skip.push_back(!row.rehearsed);
    row.expected = models.back().certainty;
    if (row.rehearsed) all.expected *= row.expected;
  }
  stage.models = models;
  all.strayed = terrain::Raster<float>(stage.strayed);

  const std::size_t size = std::max(least_block, (request.walkers + most_blocks - 1) / most_blocks);
  const std::size_t blocks = (request.walkers + size - 1) / size;
  std::vector<Tally> tallies(blocks);
  std::vector<double> minutes(request.walkers);
  std::vector<float> leg_minutes(request.walkers * given.legs.size());
  parallel.for_each_block(blocks, [&](std::size_t b) {
    Tally& tally = tallies[b];
    tally.legs.resize(given.legs.size());
    tally.strayed.assign(stage.strayed.size(), 0);
    if (b == 0) tally.trails.resize(stage.trails);
    walk_block(stage, b * size, std::min(size, request.walkers - b * size), request.walkers,
               minutes, leg_minutes, tally);
  });

  join(all, tallies);
  all.trails = std::move(tallies.front().trails);
  quantiles(minutes, all.minutes_10, all.minutes_50, all.minutes_90);
  std::size_t most = 0;
  for (std::size_t l = 0; l < all.legs.size(); ++l) {
    RehearsedLeg& leg = all.legs[l];
    if (leg.walkers > 0)
      leg.certainty = static_cast<double>(leg.kept) / static_cast<double>(leg.walkers);
    leg.certainty_error = numeric::share_error(leg.kept, leg.walkers);
    const auto from = leg_minutes.begin() + static_cast<std::ptrdiff_t>(l * request.walkers);
    std::vector<float> of_leg(from, from + static_cast<std::ptrdiff_t>(request.walkers));
    quantiles(of_leg, leg.minutes_10, leg.minutes_50, leg.minutes_90);
    if (leg.walkers - leg.kept > most) {
      most = leg.walkers - leg.kept;
      all.weakest = static_cast<int>(l);
    }
  }
  return all;
}

}  // namespace lodeway::reckoning
