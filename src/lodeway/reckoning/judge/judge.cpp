#include "lodeway/reckoning/judge/judge.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/judge/judge_words.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"

namespace lodeway::reckoning {

using walking::Leg;
using walking::LegKind;
using walking::Sureness;

namespace {
constexpr double degree = std::numbers::pi / 180;

numeric::Covariance round_error(double sigma) { return {sigma * sigma, 0, sigma * sigma}; }

/// By how much aiming off makes a leg longer to walk: the part on the needle, then along the line.
double aimed_share(const Leg& leg, GridPoint aim, double offset) {
  return (earth::grid_distance_m(leg.line.front(), aim) + offset) /
         earth::grid_distance_m(leg.line.front(), leg.line.back());
}
/// Walking time straight to the end, of a leg that may have been judged before.
double straight_minutes(const Leg& leg) {
  return leg.aim_off ? leg.minutes / aimed_share(leg, leg.aim_off->aim, leg.aim_off->offset_m)
                     : leg.minutes;
}
/// A leg that was judged before gets its straight figures back.
void take_back_aim(Leg& leg) {
  if (!leg.aim_off) return;
  const GridPoint from = leg.line.front(), to = leg.line.back();
  const double share = aimed_share(leg, leg.aim_off->aim, leg.aim_off->offset_m);
  leg.grid_bearing = earth::grid_bearing(from, to);
  leg.double_paces *=
      earth::grid_distance_m(from, to) / earth::grid_distance_m(from, leg.aim_off->aim);
  leg.minutes /= share;
  leg.minutes_slow /= share;
  leg.aim_off.reset();
}

bool fix_at(EndKind end) { return end != EndKind::turn && end != EndKind::handrail_count; }

/// How far a party follows the line it met before it turns round.
double search_m(const LegModel& m, const Habits& habits) {
  return std::abs(m.offset_m) + habits.wrong_way_sigmas * m.line_sigma_m;
}

/// Variance of a normal error, given that it is within `most`: those farther off have lost the leg
/// already.
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
             double declination_sigma_deg, Habits habits, const units::Speech& language,
             std::shared_ptr<const landmarks::Fixes> fixes)
    : Judge(ground, party, declination_sigma_deg, habits,
            std::make_shared<const HazardGround>(std::move(forbidden)), language,
            std::move(fixes)) {}

Judge::Judge(const walking::Ground& ground, const walking::Party& party,
             double declination_sigma_deg, Habits habits,
             std::shared_ptr<const HazardGround> hazards, const units::Speech& language,
             std::shared_ptr<const landmarks::Fixes> fixes)
    : ground_(ground),
      party_(party),
      hazards_(std::move(hazards)),
      declination_sigma_(declination_sigma_deg * degree),
      habits_(habits),
      language_(language),
      errors_(errors_of(party)),
      guides_(ground, party.visibility, std::move(fixes)) {}

Drift Judge::at_fix() const {
  return {errors_, declination_sigma_, round_error(habits_.fix_sigma_m)};
}

double Judge::minutes_per_m(const Leg& leg) const {
  if (leg.minutes > 0 && leg.length_m > 0) return straight_minutes(leg) / leg.length_m;
  return 0.06 / (party_.flat_speed_kmh * std::max(leg.ground_factor, 0.05));
}

double Judge::judge(walking::Way& way) const {
  Drift carried = at_fix();
  double all = 1;
  for (std::size_t i = 0; i < way.legs.size(); ++i) {
    LegModel model = judge(way.legs[i], carried);
    if (i + 1 == way.legs.size()) end_of_way(way.legs[i], model);
    all *= way.legs[i].sureness->certainty;
  }
  return all;
}

void Judge::end_of_way(Leg& leg, LegModel& model) const {
  if (model.end != EndKind::turn) return;
  model.window_m = habits_.near_enough_m;
  model.certainty = numeric::disc_probability(model.at_end, 0, 0, model.window_m);
  // looks round for it as far as it may be off
  model.beyond_m = habits_.beyond_sigmas * numeric::axes_of(model.at_end).major;
  model.recovery_minutes = habits_.doubt_min + 2 * model.beyond_m * minutes_per_m(leg);
  tell(leg, model);
}

LegModel Judge::weigh(const Leg& leg, Drift& carried, bool roughly) const {
  LegModel model;
  model.from = leg.line.front();
  model.to = model.aim = leg.line.back();
  const double straight = earth::grid_distance_m(model.from, model.to);
  model.bearing =
      std::atan2(model.to.east_m - model.from.east_m, model.to.north_m - model.from.north_m);
  model.length_m = leg.kind == LegKind::along ? mapdata::length_m(leg.line) : straight;
  model.minutes = leg.minutes > 0 ? straight_minutes(leg) : model.length_m * minutes_per_m(leg);
  model.mark = guides_.mark_at(model.to, habits_.least_known);
  if (model.mark) {
    model.seen_from_m = model.mark->seen_from_m;
    model.recognised = model.mark->recognised;
  }
  if (leg.kind == LegKind::along) {
    handrail_end(leg, model);
  } else if (straight > 0) {
    const numeric::Covariance before = carried.total();
    carried.add_leg(model.bearing, straight);
    model.at_end = carried.total();
    model.spread = seen_from_leg(model.at_end, model.bearing);
    const double shared =
        errors_.compass_sigma * errors_.compass_sigma + declination_sigma_ * declination_sigma_;
    model.growth = growth_of(errors_, shared, before, model.at_end, model.bearing, straight);
    bearing_end(leg, model);
  }
  decoys(leg, model);
  model.certainty = std::clamp(model.certainty * (1 - model.decoy_probability), 0.0, 1.0);
  if (leg.kind == LegKind::bearing && model.length_m > 0)
    model.hazard_probability = hazard_of(model, roughly);
  after_failure(leg, model);
  carry_on(leg, model, carried);
  return model;
}

/// What the next leg starts with.
void Judge::carry_on(const Leg& leg, const LegModel& model, Drift& carried) const {
  const double side = habits_.fix_sigma_m;
  if (model.end == EndKind::handrail_count || model.end == EndKind::handrail_mark) {
    const double by_count = kept_variance(model.spread.along_sigma_m, model.window_m);
    const double known = model.mark ? model.recognised : 0;
    const double left = known * side * side + (1 - known) * by_count;
    carried.reset(
        numeric::covariance_along(direction_at(leg.line, model.length_m), left, side * side));
  } else if (model.end == EndKind::line && !model.mark) {
    const double lie = direction_at(guides_.line(model.line).points, model.target_along_m);
    carried.reset(numeric::covariance_along(
        lie, kept_variance(model.line_sigma_m, habits_.near_enough_m), side * side));
  } else if (model.end != EndKind::turn) {
    carried.reset(round_error(side));
  }
}

LegFigures Judge::assess(const Leg& leg, const Drift& carried) const {
  Drift on = carried;
  const LegModel m = weigh(leg, on, true);
  return {m.certainty,
          m.hazard_probability,
          m.minutes,
          m.recovery_minutes,
          m.minutes + (1 - m.certainty) * m.recovery_minutes,
          fix_at(m.end),
          m.end,
          m.aim,
          std::abs(m.offset_m),
          on};
}

LegModel Judge::judge(Leg& leg, Drift& carried) const {
  take_back_aim(leg);
  const LegModel model = weigh(leg, carried);
  tell(leg, model);
  return model;
}

/// What the card says.
void Judge::tell(Leg& leg, const LegModel& model) const {
  Sureness sure;
  sure.certainty = model.certainty;
  sure.cross_sigma_m = model.spread.cross_sigma_m;
  sure.along_sigma_m = model.spread.along_sigma_m;
  sure.hazard_probability = model.hazard_probability;
  sure.recovery_minutes = model.recovery_minutes;
  sure.fix_at_end = fix_at(model.end);
  sure.east_east_m2 = model.at_end.xx;
  sure.east_north_m2 = model.at_end.xy;
  sure.north_north_m2 = model.at_end.yy;
  for (const DecoyPlace& d : model.decoys) {
    if (d.probability <= sure.confusable_probability) continue;
    const auto what = d.is_line ? landmarks::thing(guides_.line(d.line).label.kind, "", language_)
                                : landmarks::words(guides_.fixes()[d.fix], language_);
    sure.confusable = confusable_words(what, model.length_m - d.along_m, language_);
    sure.confusable_probability = d.probability;
  }
  const mapdata::Label* met =
      model.end == EndKind::line ? &guides_.line(model.line).label : nullptr;
  if (model.end == EndKind::line && model.offset_m != 0) {
    const double offset = std::abs(model.offset_m), share = aimed_share(leg, model.aim, offset);
    leg.aim_off =
        walking::AimOff{model.aim_is_left ? mapdata::Side::left : mapdata::Side::right, offset,
                        model.aim, landmarks::thing(met->kind, met->name, language_)};
    // what the hand does: the bearing and count of the part that is walked on the needle
    leg.grid_bearing = units::GridBearing::degrees(model.bearing / degree);
    leg.double_paces *= model.length_m / earth::grid_distance_m(model.from, model.to);
    leg.minutes *= share;
    leg.minutes_slow *= share;
  }
  sure.if_lost = if_lost_words(leg, model, search_m(model, habits_), goes_on_to_stop(leg, model),
                               language_, met != nullptr ? met->kind : leg.along_kind);
  leg.sureness = std::move(sure);
}

void Judge::handrail_end(const Leg& leg, LegModel& model) const {
  double last_tick = 0;
  for (const auto& tick : leg.ticks) {
    if (tick.at_m < model.length_m - 1) last_tick = std::max(last_tick, tick.at_m);
  }
  model.since_tick_m = model.length_m - last_tick;
  const double sigma = model.spread.along_sigma_m = handrail_sigma_m(errors_, model.since_tick_m);
  model.keeps = keeps_line(guides_.traits(leg.along_kind), party_.visibility, model.length_m) *
                takes_all_branches(guides_, leg.line, leg.along_kind, party_.visibility,
                                   model.seen_from_m, model.mark ? model.recognised : 0);
  // who does not know the end for what it is has the count, as where nothing marks it
  if (model.recognised < habits_.least_fix) model.mark.reset();
  model.end = model.mark ? EndKind::handrail_mark : EndKind::handrail_count;
  model.window_m = std::max(model.mark ? model.seen_from_m : 0, habits_.near_enough_m);
  model.certainty =
      model.keeps * stops_at_end(sigma, model.mark ? model.recognised : 0, model.window_m);
  // who has not seen the end goes on past its count like on open ground
  model.beyond_m = habits_.beyond_sigmas * sigma;
  model.at_end =
      numeric::covariance_along(direction_at(leg.line, model.length_m), sigma * sigma, 0);
}

Walk Judge::walk_of(const LegModel& m) const {
  Walk walk{m.from, m.bearing, m.length_m, m.growth, m.end == EndKind::turn ? 0 : m.beyond_m, m.to};
  if (m.end == EndKind::point) {
    walk.seen_from_m = m.seen_from_m;
    walk.known = m.recognised;
  } else if (m.end == EndKind::line) {
    walk.line = guides_.line(m.line).points;
    walk.line_known = m.line_recognised;
    walk.leaving_m = m.leaving_m;
  }
  return walk;
}

double Judge::hazard_of(const LegModel& model, bool roughly) const {
  constexpr HazardRule few{4, 20};
  constexpr double none = 0.01, clear = 0.3;
  const Walk walk = walk_of(model);
  if (roughly) {
    const double rough = hazard_probability(*hazards_, walk, few);
    if (rough < none || rough > clear) return rough;
  }
  return hazard_probability(*hazards_, walk);
}

void Judge::after_failure(const Leg& leg, LegModel& model) const {
  const double pace = minutes_per_m(leg);
  if (model.end == EndKind::turn) return;
  if (model.end == EndKind::line && model.offset_m != 0) {
    model.recovery_minutes = habits_.doubt_min + 2 * search_m(model, habits_) * pace;
    return;
  }
  if (leg.kind == LegKind::along) {
    // who lost the line finds it again within a quarter of it; who went on past the end turns round
    const double lost = 1 - model.keeps, past = std::max(1 - model.certainty - lost, 0.0);
    const double far = lost + past > 0
                           ? (lost * 0.25 * model.length_m + past * model.beyond_m) / (lost + past)
                           : model.beyond_m;
    model.recovery_minutes = habits_.doubt_min + 2 * far * pace;
    return;
  }
  const double back = goes_on_to_stop(leg, model) ? 2 * std::max(leg.stop->beyond_m, model.beyond_m)
                                                  : 2 * (model.length_m + model.beyond_m);
  model.recovery_minutes = habits_.doubt_min + back * pace;
}

bool goes_on_to_stop(const Leg& leg, const LegModel& model) {
  return leg.stop && leg.stop->beyond_m < std::max(model.length_m, 500.0);
}

Result<double> judge(const walking::Ground& ground, const walking::Request& request,
                     double declination_sigma_deg, walking::Way& way,
                     const units::Speech& language) {
  const auto errors = checked_errors_of(request.party);
  if (!errors) return fail_in("party.errors", errors.error());
  for (std::size_t i = 0; i < way.legs.size(); ++i) {
    if (way.legs[i].line.size() < 2)
      return fail(FaultCode::bad_input,
                  fmt::format("leg {}: expected a line of at least two points", i + 1));
  }
  const walking::Cover cover(ground, request);
  return Judge(ground, request.party, forbidden_of(cover), declination_sigma_deg, {}, language)
      .judge(way);
}

}  // namespace lodeway::reckoning
