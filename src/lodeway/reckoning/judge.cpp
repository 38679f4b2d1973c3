#include "lodeway/reckoning/judge.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/handrail.hpp"
#include "lodeway/reckoning/judge_words.hpp"
#include "lodeway/reckoning/line_target.hpp"
#include "lodeway/reckoning/parallel_error.hpp"
#include "lodeway/reckoning/point_target.hpp"

namespace lodeway::reckoning {

using walking::Leg;
using walking::LegKind;
using walking::Sureness;

namespace {
constexpr double degree = std::numbers::pi / 180;

numeric::Covariance round_error(double sigma) { return {sigma * sigma, 0, sigma * sigma}; }

/// The turn between two directions of a line, in degrees, 0 to 90: which way along is not known.
double lie_apart_deg(double a, double b) {
  const double turn = std::abs(std::remainder(a - b, std::numbers::pi));
  return turn / degree;
}
/// A leg that was judged before gets its straight figures back.
void take_back_aim(Leg& leg) {
  if (!leg.aim_off) return;
  const GridPoint from = leg.line.front(), to = leg.line.back();
  const double straight = earth::grid_distance_m(from, to), aimed = earth::grid_distance_m(from, leg.aim_off->aim);
  leg.grid_bearing = earth::grid_bearing(from, to);
  leg.double_paces *= straight / aimed;
  leg.minutes *= straight / (aimed + leg.aim_off->offset_m);
  leg.minutes_slow *= straight / (aimed + leg.aim_off->offset_m);
  leg.aim_off.reset();
}

/// Variance of a normal error, given that it is within `most`: those farther off have lost the leg already.
double kept_variance(double sigma, double most) {
  if (sigma <= 0) return 0;
  const double w = most / sigma, inside = 2 * numeric::normal_cdf(w) - 1;
  return sigma * sigma * (1 - 2 * w * numeric::normal_density(w) / inside);
}
}  // namespace

Forbidden forbidden_of(const walking::Cover& cover) {
  Forbidden out(cover.frame(), 0);
  for (int r = 0; r < cover.frame().rows; ++r) {
    for (int c = 0; c < cover.frame().cols; ++c) {
      using enum walking::Bar;
      const walking::Bar bar = cover.bar(r, c);
      out[r, c] = bar == none || bar == outside || bar == void_height ? 0 : 1;
    }
  }
  return out;
}

Judge::Judge(const walking::Ground& ground, const walking::Party& party, Forbidden forbidden,
             double declination_sigma_deg, Habits habits, units::Language language,
             std::shared_ptr<const landmarks::Fixes> fixes)
    : ground_(ground),
      party_(party),
      forbidden_(std::move(forbidden)),
      declination_sigma_(declination_sigma_deg * degree),
      habits_(habits),
      language_(language),
      errors_(errors_of(party)),
      guides_(ground, party.visibility, std::move(fixes)) {}

Drift Judge::at_fix() const {
  return {errors_, declination_sigma_, round_error(habits_.fix_sigma_m)};
}

double Judge::minutes_per_m(const Leg& leg) const {
  if (leg.minutes > 0 && leg.length_m > 0) return leg.minutes / leg.length_m;
  return 0.06 / (party_.flat_speed_kmh * std::max(leg.ground_factor, 0.05));
}

double Judge::judge(walking::Way& way) const {
  Drift carried = at_fix();
  double all = 1;
  for (Leg& leg : way.legs) {
    (void)judge(leg, carried);
    all *= leg.sureness->certainty;
  }
  return all;
}

LegModel Judge::judge(Leg& leg, Drift& carried) const {
  LegModel model;
  Sureness sure;
  take_back_aim(leg);
  model.from = leg.line.front();
  model.to = model.aim = leg.line.back();
  const double straight = earth::grid_distance_m(model.from, model.to);
  model.bearing = std::atan2(model.to.east_m - model.from.east_m, model.to.north_m - model.from.north_m);
  model.length_m = leg.kind == LegKind::along ? mapdata::length_m(leg.line) : straight;
  model.mark = guides_.mark_at(model.to, habits_.least_known);
  if (model.mark) {
    model.seen_from_m = model.mark->seen_from_m;
    model.recognised = model.mark->recognised;
  }
  if (leg.kind == LegKind::along) {
    handrail_end(leg, model, sure);
  } else if (straight > 0) {
    carried.add_leg(model.bearing, straight);
    const numeric::Covariance c = carried.total();
    model.spread = seen_from_leg(c, model.bearing);
    sure.east_east_m2 = c.xx;
    sure.east_north_m2 = c.xy;
    sure.north_north_m2 = c.yy;
    bearing_end(leg, model, sure);
  }
  sure.cross_sigma_m = model.spread.cross_sigma_m;
  sure.along_sigma_m = model.spread.along_sigma_m;
  sure.fix_at_end = model.end != EndKind::turn && model.end != EndKind::handrail_count;
  if (model.end != EndKind::turn) decoys(leg, model, sure);
  sure.certainty = std::clamp(sure.certainty * (1 - model.decoy_probability), 0.0, 1.0);
  after_failure(leg, model, sure);
  if (model.end == EndKind::handrail_count) {
    const double side = habits_.fix_sigma_m, lie = direction_at(leg.line, model.length_m);
    const double left = kept_variance(model.spread.along_sigma_m, habits_.near_enough_m);
    carried.reset(numeric::covariance_along(lie, left, side * side));
  } else if (model.end == EndKind::line && !model.mark) {
    const double side = habits_.fix_sigma_m, lie = direction_at(guides_.line(model.line).points, model.target_along_m);
    carried.reset(numeric::covariance_along(lie, kept_variance(model.line_sigma_m, habits_.near_enough_m), side * side));
  } else if (model.end != EndKind::turn) {
    carried.reset(round_error(habits_.fix_sigma_m));
  }
  leg.sureness = sure;
  return model;
}

void Judge::handrail_end(const Leg& leg, LegModel& model, Sureness& sure) const {
  double last_tick = 0;
  for (const auto& tick : leg.ticks) {
    if (tick.at_m < model.length_m - 1) last_tick = std::max(last_tick, tick.at_m);
  }
  model.since_tick_m = model.length_m - last_tick;
  model.spread.along_sigma_m = handrail_sigma_m(errors_, model.since_tick_m);
  model.keeps = keeps_line(guides_.traits(leg.along_kind), party_.visibility, model.length_m);
  model.keeps *= takes_all_branches(guides_, leg.line, leg.along_kind, party_.visibility);
  // a mark that is hardly known helps less than a count that need not be so near
  const double by_count = stops_at_end(model.spread.along_sigma_m, 0, habits_.near_enough_m);
  const double sight = std::max(model.seen_from_m, 25.0);
  const double by_mark =
      model.mark ? stops_at_end(model.spread.along_sigma_m, model.recognised, sight) : 0.0;
  const bool marked = model.mark && by_mark >= by_count;
  if (!marked) model.mark.reset();
  model.end = marked ? EndKind::handrail_mark : EndKind::handrail_count;
  model.window_m = marked ? sight : habits_.near_enough_m;
  sure.certainty = model.keeps * std::max(by_mark, by_count);
  const auto c = numeric::covariance_along(direction_at(leg.line, model.length_m),
                                           std::pow(model.spread.along_sigma_m, 2), 0);
  sure.east_east_m2 = c.xx;
  sure.east_north_m2 = c.xy;
  sure.north_north_m2 = c.yy;
}

/// Over the directions that are walked: each comes to the decoy at its own count, or to the target first.
double Judge::mistaken_line(const LegModel& model, const DecoyPlace& d, double sigma) const {
  constexpr int rays = 32;
  const double spread = model.spread.cross_sigma_m / model.length_m, reach = 2 * model.length_m;
  const auto& decoy = guides_.line(d.line).points;
  const auto& target = guides_.line(model.line).points;
  // each sighting's error takes a little off the progress, so that things come later by the count
  const double wander = 1 + 0.5 * errors_.sighting_sigma * errors_.sighting_sigma;
  double sum = 0;
  for (int i = 0; i < rays; ++i) {
    const double low = -4 + 8.0 * i / rays, z = low + 4.0 / rays;
    const double met = cast_ray(model.from, model.bearing + z * spread, decoy, reach).distance_m;
    if (met >= cast_ray(model.from, model.bearing + z * spread, target, reach).distance_m) continue;
    sum += (numeric::normal_cdf(low + 8.0 / rays) - numeric::normal_cdf(low)) *
           mistaken_for_target({model.length_m - d.along_m, sigma, d.lie_apart_deg, habits_.lie_sigma_deg,
                                d.looks_alike, 1, met * wander - d.along_m});
  }
  return sum;
}

void Judge::decoys(const Leg& leg, LegModel& model, Sureness& sure) const {
  const double sigma = model.spread.along_sigma_m;
  // the count decides half-way between the two, so its error there counts
  const auto half_way = [&](double at) { return sigma * (at + model.length_m) / (2 * model.length_m); };
  if (model.end == EndKind::line) {
    const auto& wanted = guides_.line(model.line);
    const double lie = direction_at(wanted.points, model.target_along_m);
    for (const Crossed& c : guides_.crossed(model.from, model.aim)) {
      const mapdata::Kind kind = guides_.line(c.line).label.kind;
      const double apart = model.length_m - c.at_m, alike = landmarks::looks_alike(kind, wanted.label.kind);
      if (apart < 10 || apart > 6 * sigma || c.line == model.line || alike <= 0) continue;
      DecoyPlace d{true, c.line, 0, {}, c.at_m, 0, guides_.recognised(kind), alike,
                   lie_apart_deg(c.direction, lie), 0};
      d.probability = d.recognised * mistaken_line(model, d, half_way(c.at_m));
      model.decoys.push_back(d);
    }
  } else if (model.mark && leg.kind == LegKind::bearing) {
    for (const Mark& m : guides_.marks_along(model.from, model.to, 150)) {
      const double alike =
          landmarks::looks_alike(guides_.fixes()[m.fix], guides_.fixes()[model.mark->fix]);
      if (earth::grid_distance_m(m.at, model.to) < 20 || alike <= 0) continue;
      const GridPoint w = m.at - model.from;
      const double beside = w.east_m * std::cos(model.bearing) - w.north_m * std::sin(model.bearing);
      const double along = w.east_m * std::sin(model.bearing) + w.north_m * std::cos(model.bearing);
      const double apart = model.length_m - along, share = along / model.length_m;
      if (apart < 0 || apart > 6 * sigma || share < 0.1) continue;
      DecoyPlace d{false, 0, m.fix, m.at, along, m.seen_from_m, m.recognised, alike, 0, 0};
      d.probability = passes_within(model.spread.cross_sigma_m * share, beside, m.seen_from_m) * m.recognised *
                      mistaken_for_target({apart, half_way(along), 0, habits_.lie_sigma_deg, alike, 1});
      model.decoys.push_back(d);
    }
  }
  double none = 1;
  for (const DecoyPlace& d : model.decoys) {
    none *= 1 - d.probability;
    if (d.probability <= sure.confusable_probability) continue;
    const auto what = d.is_line ? landmarks::thing(guides_.line(d.line).label.kind, "", language_)
                                : landmarks::words(guides_.fixes()[d.fix], language_);
    sure.confusable = confusable_words(what, model.length_m - d.along_m, language_);
    sure.confusable_probability = d.probability;
  }
  model.decoy_probability = 1 - none;
}

void Judge::after_failure(const Leg& leg, const LegModel& model, Sureness& sure) const {
  const double pace = minutes_per_m(leg);
  if (leg.kind == LegKind::bearing && !forbidden_.empty() && model.length_m > 0) {
    Walk walk{model.from, model.bearing, model.length_m, model.spread.cross_sigma_m / model.length_m,
              model.spread.along_sigma_m, model.end == EndKind::turn ? 0 : model.beyond_m,
              model.end == EndKind::turn ? 0 : model.seen_from_m};
    if (model.end == EndKind::line) {
      // who does not know the line for what it is goes on over it
      Walk over = walk;
      over.seen_from_m = 1e-3;
      walk.stopped_by = guides_.line(model.line).points;
      sure.hazard_probability = model.line_recognised * hazard_probability(forbidden_, walk) +
                                (1 - model.line_recognised) * hazard_probability(forbidden_, over);
    } else {
      sure.hazard_probability = hazard_probability(forbidden_, walk);
    }
  }
  const double search = std::abs(model.offset_m) + habits_.wrong_way_sigmas * model.line_sigma_m;
  sure.if_lost = if_lost_words(leg, model, search, goes_on_to_stop(leg, model), language_,
                               model.end == EndKind::line ? guides_.line(model.line).label.kind
                                                          : mapdata::Kind::other);
  if (model.end == EndKind::turn) return;
  if (model.end == EndKind::line && model.offset_m != 0) {
    sure.recovery_minutes = habits_.doubt_min + 2 * search * pace;
    return;
  }
  const double back = goes_on_to_stop(leg, model) ? 2 * std::max(leg.stop->beyond_m, model.beyond_m)
                                                  : 2 * (model.length_m + model.beyond_m);
  sure.recovery_minutes = habits_.doubt_min + back * pace;
}

bool goes_on_to_stop(const Leg& leg, const LegModel& model) {
  return leg.stop && leg.stop->beyond_m < std::max(model.length_m, 500.0);
}

Result<double> judge(const walking::Ground& ground, const walking::Request& request,
                     double declination_sigma_deg, walking::Way& way, units::Language language) {
  const auto errors = checked_errors_of(request.party);
  if (!errors) return fail_in("party.errors", errors.error());
  for (std::size_t i = 0; i < way.legs.size(); ++i) {
    if (way.legs[i].line.size() < 2)
      return fail(FaultCode::bad_input, fmt::format("leg {}: expected a line of at least two points", i + 1));
  }
  const walking::Cover cover(ground, request);
  return Judge(ground, request.party, forbidden_of(cover), declination_sigma_deg, {}, language)
      .judge(way);
}

}  // namespace lodeway::reckoning
