#include "lodeway/reckoning/judge/judge.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/judge/counted_from.hpp"
#include "lodeway/reckoning/judge/judge_words.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"

namespace lodeway::reckoning {

using walking::Leg;
using walking::LegKind;

namespace {
numeric::Covariance round_error(double sigma) { return {sigma * sigma, 0, sigma * sigma}; }

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

/// By the count within so many metres of the end of a line; where nothing like it goes on from
/// there nobody can come too far.
double ends_by_count(double sigma, double within, bool goes_on) {
  return goes_on ? passes_within(sigma, 0, within)
                 : numeric::normal_cdf(within / std::max(sigma, 1e-9));
}

/// Of bearings that are far wrong (sight::gross_least_deg to most, all alike) those that pass in
/// sight of the mark: all off by less than asin(seen / length).
double still_in_sight(const LegModel& m, double length) {
  if (m.end != EndKind::point || length <= 0) return 0;
  const double within = units::Angle::radians(std::asin(std::min(m.seen_from_m / length, 1.0)))
                            .in_degrees();
  return std::clamp((within - sight::gross_least_deg) /
                        (sight::gross_most_deg - sight::gross_least_deg),
                    0.0, 1.0);
}

/// How far aside a party may come to this leg's end and still keep it: mean over both sides.
double margin_m(const LegModel& m, const Habits& habits) {
  if (m.end == EndKind::point) return m.seen_from_m;
  if (!m.mark) return m.window_m;
  return m.window_m + 0.5 * (std::abs(m.offset_m) + habits.wrong_way_sigmas * m.line_sigma_m);
}

/// Of bearings that were far wrong on the way to the turn before this leg, `from_fix_m` from the
/// last fix, those that matter little: all that came less than `margin` aside, 2 L sin(wrong / 2).
double hardly_aside(double from_fix_m, double margin) {
  if (from_fix_m <= 0) return 0;
  const double most =
      units::Angle::radians(2 * std::asin(std::min(margin / (2 * from_fix_m), 1.0))).in_degrees();
  return std::clamp(
      (most - sight::gross_least_deg) / (sight::gross_most_deg - sight::gross_least_deg), 0.0, 1.0);
}
}  // namespace

bool comes_alike(const Leg& leg, Drift a, Drift b) {
  if (leg.course.kind == LegKind::along) return a.came_by() == b.came_by();
  a.come_by({});
  b.come_by({});
  return a == b;
}

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
             std::shared_ptr<const landmarks::Fixes> fixes,
             std::shared_ptr<const TakenLines> taken)
    : ground_(ground),
      party_(party),
      hazards_(std::move(hazards)),
      declination_sigma_(units::Angle::degrees(declination_sigma_deg).in_radians()),
      habits_(habits),
      language_(language),
      errors_(errors_of(party)),
      guides_(std::make_shared<const Guides>(ground, sight::chances_of(party), std::move(fixes),
                                             std::move(taken))) {}

Drift Judge::at_fix() const {
  return {errors_, declination_sigma_, round_error(habits_.fix_sigma_m)};
}

double Judge::minutes_per_m(const Leg& leg) const {
  if (leg.figures.minutes > 0 && leg.figures.length_m > 0)
    return leg.figures.minutes / leg.figures.length_m;
  return walking::level_min_per_m(party_, std::max(leg.course.ground_factor, 0.05));
}

JudgedWay Judge::judge(const walking::Way& way) const {
  Drift carried = at_fix();
  JudgedWay out{way.name, {}, 1};
  for (const Leg& leg : way.legs) {
    const LegModel model = weigh(leg, carried);
    const bool last = &leg == &way.legs.back();
    out.legs.push_back({leg, judged(leg, last ? as_end_of_way(leg, model) : model)});
    out.certainty *= out.legs.back().judged.certainty;
  }
  return out;
}

LegModel Judge::as_end_of_way(const Leg& leg, LegModel model) const {
  if (model.end != EndKind::turn) return model;
  model.window_m = habits_.near_enough_m;
  model.certainty =
      model.set_right * numeric::disc_probability(model.at_end, 0, 0, model.window_m);
  // looks round for it as far as it may be off
  model.beyond_m = habits_.beyond_sigmas * numeric::axes_of(model.at_end).major;
  model.recovery_minutes = habits_.doubt_min + 2 * model.beyond_m * minutes_per_m(leg);
  return model;
}

LegModel Judge::weigh(const Leg& leg, Drift& carried, bool roughly, const LegModel* card) const {
  LegModel model;
  model.from = leg.course.line.front();
  model.to = model.aim = leg.course.line.back();
  const double straight = earth::grid_distance_m(model.from, model.to);
  model.bearing = earth::grid_bearing(model.from, model.to);
  model.length_m = leg.course.kind == LegKind::along ? mapdata::length_m(leg.course.line) : straight;
  model.minutes = leg.figures.minutes > 0 ? leg.figures.minutes : model.length_m * minutes_per_m(leg);
  if (card == nullptr)
    model.mark = guides_->mark_at(model.to, habits_.least_known);
  else if (card->mark)
    model.mark = guides_->mark(card->mark->fix);
  if (model.mark) {
    model.seen_from_m = model.mark->seen_from_m;
    model.recognised = known(model.mark->recognised);
  }
  const double before_right = carried.set_right(), from_fix_m = earth::length_of(carried.net());
  bool same_leg = false;
  if (leg.course.kind == LegKind::along) {
    if (model.mark && card == nullptr && model.mark->recognised < habits_.least_fix)
      model.mark.reset();  // the count has to do, as where nothing marks it
    handrail_end(leg, model, carried.came_by());
  } else if (straight > 0) {
    const numeric::Covariance before = carried.total();
    same_leg = carried.goes_straight_on(model.bearing);
    if (!same_leg)
      carried.set_right_by(1 - guides_->chances().of(sight::Setting::gross_error));
    carried.add_leg(model.bearing, straight);
    model.set_right = carried.set_right();
    model.at_end = carried.total();
    model.spread = seen_from_leg(model.at_end, model.bearing);
    const double shared =
        errors_.compass_sigma * errors_.compass_sigma + declination_sigma_ * declination_sigma_;
    model.growth = growth_of(errors_, shared, before, model.at_end, model.bearing, straight);
    bearing_end(leg, model, card);
  }
  decoys(leg, model);
  model.certainty = std::clamp(model.certainty * (1 - model.decoy_probability), 0.0, 1.0);
  if (leg.course.kind == LegKind::bearing && model.end != EndKind::turn) {
    // who sets this bearing far wrong may still pass in sight of an end that is near
    const double this_wrong = before_right - model.set_right;
    // who was far wrong before a turn that is near the fix came hardly aside by it
    const double turned_right = same_leg || before_right <= 0
                                    ? 0
                                    : (1 - before_right) * model.set_right / before_right;
    const double right =
        model.set_right + turned_right * hardly_aside(from_fix_m, margin_m(model, habits_));
    model.certainty = right * model.certainty +
                      this_wrong * model.recognised * still_in_sight(model, straight);
  }
  if (card == nullptr && leg.course.kind == LegKind::bearing && model.length_m > 0)
    model.hazard_probability = hazard_of(model, roughly);
  if (card == nullptr) after_failure(leg, model);
  carry_on(leg, model, carried);
  return model;
}

/// What the next leg starts with.
void Judge::carry_on(const Leg& leg, const LegModel& model, Drift& carried) const {
  const double side = habits_.fix_sigma_m;
  carried.come_by({});
  if (leg.course.kind == LegKind::along) carried.come_by(arm_come_by(leg.course.line));
  if (model.end == EndKind::handrail_count || model.end == EndKind::handrail_mark) {
    const double left = model.mark ? side * side
                                   : kept_variance(model.spread.along_sigma_m, model.window_m);
    carried.reset(
        numeric::covariance_along(mapdata::direction_at(leg.course.line, model.length_m).in_radians(), left, side * side));
  } else if (model.end == EndKind::line && !model.mark) {
    const double lie = mapdata::direction_at(guides_->line(model.line).points, model.target_along_m).in_radians();
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

namespace {
/// A share of the leg's straight way: `map_m` of `straight_m` by the grid.
void set_share(const walking::Figures& figures, double map_m, double straight_m, auto& part) {
  const double share = map_m / straight_m;
  part.map_m = map_m;
  part.length_m = share * figures.length_m;
  part.double_paces = share * figures.double_paces;
  part.minutes = share * figures.minutes;
}
}  // namespace

/// How the leg is walked: the parts on the needle and after it, and both together.
void Judge::lay_out(const Leg& leg, const LegModel& model, Judged& out) const {
  const auto& figures = leg.figures;
  out.length_m = figures.length_m;
  out.minutes = figures.minutes;
  out.minutes_slow = figures.minutes_slow;
  if (leg.course.kind != LegKind::bearing) return;
  const double straight = earth::grid_distance_m(model.from, model.to);
  NeedlePart& needle = out.needle.emplace();
  needle.aim = model.aim;
  needle.bearing = model.bearing;
  set_share(figures, model.length_m, straight, needle);
  if (model.end != EndKind::line || model.offset_m == 0) return;
  const mapdata::Label& met = guides_->line(model.line).label;
  AfterAim& after = out.after.emplace();
  after.aimed_to = model.aim_is_left ? mapdata::Side::left : mapdata::Side::right;
  after.line = landmarks::thing(met.kind, met.name, language_);
  set_share(figures, std::abs(model.offset_m), straight, after);
  out.length_m = needle.length_m + after.length_m;
  out.minutes = needle.minutes + after.minutes;
  out.minutes_slow = figures.minutes_slow * (needle.map_m + after.map_m) / straight;
}

Judged Judge::judged(const Leg& leg, const LegModel& model) const {
  Judged out;
  lay_out(leg, model, out);
  out.certainty = model.certainty;
  out.cross_sigma_m = model.spread.cross_sigma_m;
  out.along_sigma_m = model.spread.along_sigma_m;
  out.hazard_probability = model.hazard_probability;
  out.recovery_minutes = model.recovery_minutes;
  out.fix_at_end = fix_at(model.end);
  out.at_end = model.at_end;
  for (const DecoyPlace& d : model.decoys) {
    if (d.probability <= out.confusable_probability) continue;
    const auto what = d.is_line ? landmarks::thing(guides_->line(d.line).label.kind, "", language_)
                                : landmarks::words(guides_->fixes()[d.fix], language_);
    out.confusable = confusable_words(what, model.length_m - d.along_m, language_);
    out.confusable_probability = d.probability;
  }
  const auto line = model.end == EndKind::line ? guides_->line(model.line).label.kind
                                               : leg.course.followed.kind;
  const double search = search_m(model, habits_);
  out.if_lost = if_lost_words(leg, model, search, goes_on_to_stop(leg, model), language_, line,
                              drill_room(*hazards_, *guides_, leg, model, search));
  return out;
}

void Judge::handrail_end(const Leg& leg, LegModel& model,
                         std::optional<GridPoint> came_by) const {
  const auto counts = counted_from(*this, leg, model.length_m, known_shift_);
  model.since_tick_m = counts.front().since_m;
  // who has not seen the end goes on past its count like on open ground
  model.beyond_m = habits_.beyond_sigmas * handrail_sigma_m(errors_, model.since_tick_m);
  double variance = 0;
  for (const auto& from : counts) {
    const double sigma = handrail_sigma_m(errors_, from.since_m);
    variance += from.chance * sigma * sigma;
  }
  const double sigma = model.spread.along_sigma_m = std::sqrt(variance);
  const auto followed = leg.course.followed.kind;
  model.keeps =
      keeps_line(guides_->chances().of(sight::ChanceOf::stay, followed), model.length_m,
                 known_shift_) *
      takes_all_branches(*guides_, leg.course.line, followed, model.seen_from_m,
                         model.mark ? model.recognised : 0, known_shift_, came_by);
  model.end = model.mark ? EndKind::handrail_mark : EndKind::handrail_count;
  model.window_m = std::max(model.mark ? model.seen_from_m : 0, habits_.near_enough_m);
  // who looks out for a mark and does not know it goes on, unless nothing goes on from there
  model.line_goes_on = goes_on_past_end(*guides_, leg.course.line, followed);
  const double known_end = model.line_goes_on ? model.recognised : 1;
  double by_count = 0;
  for (const auto& from : counts)
    by_count += from.chance * ends_by_count(handrail_sigma_m(errors_, from.since_m),
                                            model.window_m, model.line_goes_on);
  model.certainty = model.keeps * (model.mark ? known_end : by_count);
  model.at_end =
      numeric::covariance_along(mapdata::direction_at(leg.course.line, model.length_m).in_radians(), sigma * sigma, 0);
}

Walk Judge::walk_of(const LegModel& m) const {
  Walk walk{m.from, m.bearing, m.length_m, m.growth, m.end == EndKind::turn ? 0 : m.beyond_m, m.to};
  if (m.end == EndKind::point) {
    walk.seen_from_m = m.seen_from_m;
    walk.known = m.recognised;
  } else if (m.end == EndKind::line) {
    walk.line = guides_->line(m.line).points;
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
  if (leg.course.kind == LegKind::along) {
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
  if (model.end != EndKind::point) return;
  // first the short search about the counted end: half of its square is walked on average
  const double finds = model.set_right * model.recognised *
                       guides_->chances().of(sight::Setting::search_at_end);
  const double searched = 10 * std::clamp(1.5 * model.seen_from_m, 30.0, 120.0);
  model.recovery_minutes =
      (1 - finds) * model.recovery_minutes + finds * (0.5 * habits_.doubt_min + searched * pace);
}

bool goes_on_to_stop(const Leg& leg, const LegModel& model) {
  return leg.stop && leg.stop->beyond_m < std::max(model.length_m, 500.0);
}

}  // namespace lodeway::reckoning
