#include "lodeway/reckoning/judge/judge.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/numeric/bivariate.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/result/overloaded.hpp"

namespace lodeway::reckoning {

using result::overloaded;
using walking::Leg;
using walking::LegKind;

namespace {
numeric::Covariance round_error(double sigma) { return {sigma * sigma, 0, sigma * sigma}; }

/// Variance of a normal error, given that it is within `most`: those farther off have lost the leg
/// already.
double kept_variance(double sigma, double most) {
  if (sigma <= 0) return 0;
  const double w = most / sigma, inside = 2 * numeric::normal_cdf(w) - 1;
  return sigma * sigma * (1 - 2 * w * numeric::normal_density(w) / inside);
}

/// Of bearings that are far wrong (sight::gross_least_deg to most, all alike) the share under so
/// many degrees.
double wrong_by_less_than(units::Angle angle) {
  return std::clamp((angle.in_degrees() - sight::gross_least_deg) /
                        (sight::gross_most_deg - sight::gross_least_deg),
                    0.0, 1.0);
}

/// Of bearings that are far wrong those that pass in sight of the mark: all off by less than
/// asin(seen / length).
double still_in_sight(const AtMark& end, double length) {
  if (length <= 0) return 0;
  return wrong_by_less_than(
      units::Angle::radians(std::asin(std::min(end.mark.seen_from_m / length, 1.0))));
}

/// How far aside a party may come to this leg's end and still keep it: mean over both sides.
double margin_m(const AtLine& end, const Habits& habits) {
  return end.mark ? end.window_m + 0.5 * search_m(end, habits) : end.window_m;
}

/// Of bearings that were far wrong on the way to the turn before this leg, `from_fix_m` from the
/// last fix, those that matter little: all that came less than `margin` aside, 2 L sin(wrong / 2).
double hardly_aside(double from_fix_m, double margin) {
  if (from_fix_m <= 0) return 0;
  return wrong_by_less_than(
      units::Angle::radians(2 * std::asin(std::min(margin / (2 * from_fix_m), 1.0))));
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
             double declination_sigma_deg, Habits habits,
             std::shared_ptr<const landmarks::Fixes> fixes)
    : Judge(ground, party, declination_sigma_deg, habits,
            std::make_shared<const HazardGround>(std::move(forbidden)), std::move(fixes)) {}

Judge::Judge(const walking::Ground& ground, const walking::Party& party,
             double declination_sigma_deg, Habits habits,
             std::shared_ptr<const HazardGround> hazards,
             std::shared_ptr<const landmarks::Fixes> fixes,
             std::shared_ptr<const TakenLines> taken)
    : ground_(ground),
      party_(party),
      hazards_(std::move(hazards)),
      declination_sigma_(units::Angle::degrees(declination_sigma_deg).in_radians()),
      habits_(habits),
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

LegModel Judge::kept(const Leg& leg, Drift& carried, const LegModel* card) const {
  const auto whole = [&](Found found, Decoys like, double certainty, const Drift& before) {
    carried = carried_on(leg, found.way, before);
    return LegModel{std::move(found.way), std::move(like.places), like.probability, certainty};
  };
  if (leg.course.kind == LegKind::along) {
    Found found = handrail_end(leg, carried.came_by(), card);
    Decoys like = decoys(leg, found.way);
    const double sure = found.certainty * (1 - like.probability);
    return whole(std::move(found), std::move(like), std::clamp(sure, 0.0, 1.0), carried);
  }
  const SetOut start = set_out(leg, carried);
  Found found = card == nullptr ? surest_end(leg, start) : end_by_card(leg, start, card->end);
  Decoys like = decoys(leg, found.way);
  const double sure = certainty(start, found, like.probability);
  return whole(std::move(found), std::move(like), sure, start.carried);
}

Weighed Judge::weigh(const Leg& leg, Drift& carried, bool roughly) const {
  LegModel model = kept(leg, carried, nullptr);
  const double hazard = this->hazard(model, roughly), minutes = walking_minutes(leg, model),
               recovery = recovery_minutes(leg, model);
  return {std::move(model), hazard, minutes, recovery};
}

double Judge::certainty(const SetOut& start, const Found& found, double mistaken) const {
  const double kept = std::clamp(found.certainty * (1 - mistaken), 0.0, 1.0);
  // who was far wrong before a turn that is near the fix came hardly aside by it
  const auto right = [&](double margin) {
    return start.needle.set_right +
           start.wrong_to_turn * hardly_aside(start.from_fix_m, margin);
  };
  return std::visit(
      overloaded{[&](const OnNeedle&) { return kept; }, [&](const ByHandrail&) { return kept; },
                 [&](const AtMark& end) {
                   // who sets this bearing far wrong may still pass in sight of an end that is near
                   return right(end.mark.seen_from_m) * kept +
                          start.newly_wrong * end.mark.recognised *
                              still_in_sight(end, start.length_m);
                 },
                 [&](const AtLine& end) { return right(margin_m(end, habits_)) * kept; }},
      found.way.end);
}

/// Along a line the place across it is sure, and along it what is left of the error.
Drift Judge::carried_on(const Leg& leg, const Approach& way, Drift carried) const {
  const double side = habits_.fix_sigma_m;
  carried.come_by({});
  std::visit(
      overloaded{
          [](const OnNeedle&) {},
          [&](const AtMark&) { carried.reset(round_error(side)); },
          [&](const AtLine& end) {
            if (end.mark) return carried.reset(round_error(side));
            const double lie =
                mapdata::direction_at(guides_->line(end.place.line).points, end.place.along_m)
                    .in_radians();
            carried.reset(numeric::covariance_along(
                lie, kept_variance(end.line_sigma_m, habits_.near_enough_m), side * side));
          },
          [&](const ByHandrail& end) {
            carried.come_by(arm_come_by(leg.course.line));
            const double left =
                end.mark ? side * side : kept_variance(way.spread.along_sigma_m, end.window_m);
            const double lie = mapdata::direction_at(leg.course.line, way.length_m).in_radians();
            carried.reset(numeric::covariance_along(lie, left, side * side));
          }},
      way.end);
  return carried;
}

LegModel Judge::ended_by_count(LegModel model) const {
  const auto* turn = std::get_if<AtTurn>(&model.end);
  if (turn == nullptr) return model;
  // looks round for it as far as it may be off
  const AtNothing end{*turn, habits_.near_enough_m,
                      habits_.beyond_sigmas * numeric::axes_of(model.at_end).major};
  model.certainty = end.set_right * numeric::disc_probability(model.at_end, 0, 0, end.window_m);
  model.end = end;
  return model;
}

Weighed Judge::as_end_of_way(const Leg& leg, Weighed model) const {
  static_cast<LegModel&>(model) = ended_by_count(model);
  if (const auto* end = std::get_if<AtNothing>(&model.end))
    model.recovery_minutes = habits_.doubt_min + 2 * end->look_round_m * minutes_per_m(leg);
  return model;
}

LegFigures Judge::assess(const Leg& leg, const Drift& carried) const {
  Drift on = carried;
  const Weighed m = weigh(leg, on, true);
  const AtLine* aimed = aimed_off(m.end);
  return {m.certainty,
          m.hazard_probability,
          m.minutes,
          m.recovery_minutes,
          m.minutes + (1 - m.certainty) * m.recovery_minutes,
          is_fix(m.end),
          m.aim,
          aimed != nullptr ? std::abs(aimed->offset_m) : 0,
          on};
}

Walk walk_of(const Approach& way, const Guides& guides) {
  const OnNeedle* needle = on_needle(way.end);
  Walk walk{way.from,
            way.bearing,
            way.length_m,
            needle != nullptr ? needle->growth : LegGrowth{},
            beyond_m(way.end),
            way.to};
  if (const auto* mark = std::get_if<AtMark>(&way.end)) {
    walk.seen_from_m = mark->mark.seen_from_m;
    walk.known = mark->mark.recognised;
  } else if (const auto* line = std::get_if<AtLine>(&way.end)) {
    walk.line = guides.line(line->place.line).points;
    walk.line_known = line->place.noticed;
    walk.leaving_m = line->place.leaving_m;
  }
  return walk;
}

double Judge::hazard(const Approach& way, bool roughly) const {
  if (on_needle(way.end) == nullptr || !(way.length_m > 0)) return 0;
  constexpr HazardRule few{4, 20};
  constexpr double none = 0.01, clear = 0.3;
  const Walk walk = walk_of(way, *guides_);
  if (roughly) {
    const double rough = hazard_probability(*hazards_, walk, few);
    if (rough < none || rough > clear) return rough;
  }
  return hazard_probability(*hazards_, walk);
}

double Judge::walking_minutes(const Leg& leg, const Approach& way) const {
  const double straight = earth::grid_distance_m(way.from, way.to),
               on_map = on_needle(way.end) != nullptr ? straight : way.length_m;
  const double all =
      leg.figures.minutes > 0 ? leg.figures.minutes : on_map * minutes_per_m(leg);
  const AtLine* aimed = aimed_off(way.end);
  return aimed != nullptr ? all * ((way.length_m + std::abs(aimed->offset_m)) / straight) : all;
}

double Judge::recovery_minutes(const Leg& leg, const LegModel& model) const {
  const double pace = minutes_per_m(leg);
  const auto back = [&](double beyond) {
    const double there_and_back = goes_on_to_stop(leg, model)
                                      ? 2 * std::max(leg.stop->beyond_m, beyond)
                                      : 2 * (model.length_m + beyond);
    return habits_.doubt_min + there_and_back * pace;
  };
  return std::visit(
      overloaded{
          [](const OnNeedle&) { return 0.0; },
          [&](const AtMark& end) {
            // first the short search about the counted end: half of its square is walked on average
            const double finds = end.set_right * end.mark.recognised *
                                 guides_->chances().of(sight::Setting::search_at_end);
            const double searched = 10 * std::clamp(1.5 * end.mark.seen_from_m, 30.0, 120.0);
            return (1 - finds) * back(end.beyond_m) +
                   finds * (0.5 * habits_.doubt_min + searched * pace);
          },
          [&](const AtLine& end) {
            return end.offset_m != 0 ? habits_.doubt_min + 2 * search_m(end, habits_) * pace
                                     : back(end.beyond_m);
          },
          [&](const ByHandrail& end) {
            // who lost the line finds it again within a quarter of it; who went on past the end
            // turns round
            const double lost = 1 - end.keeps, past = std::max(1 - model.certainty - lost, 0.0);
            const double far =
                lost + past > 0
                    ? (lost * 0.25 * model.length_m + past * end.beyond_m) / (lost + past)
                    : end.beyond_m;
            return habits_.doubt_min + 2 * far * pace;
          }},
      model.end);
}

}  // namespace lodeway::reckoning
