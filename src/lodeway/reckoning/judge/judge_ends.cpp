/// How the end of a bearing leg is found: as a point, on a line, or not at all.
#include <algorithm>
#include <cmath>
#include <utility>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/reckoning/ends/aimed_leg.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::reckoning {

using walking::Leg;

namespace {
constexpr double leaving_m = 15;  // a line left at the start is not met there
constexpr double surer_by = 0.005;
}  // namespace

void Judge::bearing_end(const Leg& leg, LegModel& model, const LegModel* card) const {
  const LegAxes& spread = model.spread;
  if (model.mark) {
    model.end = EndKind::point;
    // how far one goes on past the count is the card's, whoever walks by it
    model.beyond_m =
        card != nullptr ? card->beyond_m : habits_.beyond_sigmas * spread.along_sigma_m;
    LegAxes at_last = spread;
    at_last.along_sigma_m = std::sqrt(model.growth.along_m2(model.length_m + model.beyond_m));
    model.certainty =
        model.recognised * sees_before_giving_up(at_last, 0, model.seen_from_m, model.beyond_m);
  } else {
    model.end = EndKind::turn;
    model.certainty = 1;
  }
  if (card != nullptr) {
    if (card->end != EndKind::line) return;
    model.end = EndKind::line;
    model.line = card->line;
    model.target_along_m = card->target_along_m;
    model.leaving_m = card->leaving_m;
    model.line_recognised = known(guides_->noticed(guides_->line(card->line).label.kind));
    return line_end(leg, model, card);
  }
  // the surest of point, lines met here with their mark, and lines met near enough by the count
  const LegModel straight = model;
  const auto left = guides_->lines_at(straight.from, leaving_m);
  for (const OnLine& on : guides_->lines_at(straight.to)) {
    const auto crossing = apart(on.lie, units::Lie::of(straight.bearing));
    if (crossing.in_degrees() < habits_.least_crossing_deg) continue;
    const double met = guides_->noticed(guides_->line(on.line).label.kind);
    // a mark that is itself seen from far needs no line; a faint line is no help
    if (met < habits_.least_known || (straight.mark && model.certainty >= met)) continue;
    LegModel on_line = straight;
    on_line.end = EndKind::line;
    on_line.line = on.line;
    on_line.target_along_m = on.along_m;
    on_line.line_recognised = met;
    const auto same = [&](const OnLine& at_start) { return at_start.line == on.line; };
    if (std::ranges::any_of(left, same)) on_line.leaving_m = leaving_m;
    line_end(leg, on_line, nullptr);
    const bool surer = on_line.certainty > model.certainty + surer_by;
    if (surer || (model.end == EndKind::turn)) model = std::move(on_line);
  }
  if (model.offset_m != 0) {
    model.minutes *=
        (model.length_m + std::abs(model.offset_m)) / earth::grid_distance_m(model.from, model.to);
  }
}

void Judge::line_end(const Leg& leg, LegModel& model, const LegModel* card) const {
  const auto& feature = guides_->line(model.line);
  const double pace = minutes_per_m(leg);
  LineEnd end;
  end.from = model.from;
  end.line = feature.points;  // all of it: a crooked line may be met before its place is
  end.target_along_m = model.target_along_m;
  const double by_count_m = habits_.near_enough_m;
  end.window_m = model.mark ? std::max(model.seen_from_m, 10.0) : by_count_m;
  end.growth = model.growth;
  end.line_beyond_sigmas = habits_.line_beyond_sigmas;
  end.least_offset_m = habits_.least_offset_m;
  end.leaving_m = model.leaving_m;
  const auto hazard_towards = [&](GridPoint aim) {
    Walk walk = walk_of(model);
    walk.bearing = earth::grid_bearing(model.from, aim);
    walk.length_m = earth::grid_distance_m(model.from, aim);
    walk.beyond_m = 0;
    return hazard_probability(*hazards_, walk, {2, 20});
  };
  // Nobody goes along a line over ground to keep off: from two sigmas beyond an aim to the end, or
  // as far beyond it as it is beside the end, the line must be clear, unless it is a path, which
  // leads over what is steep beside it.
  const bool path = walking::is_path(feature.label.kind);
  const auto line_clear = [&](GridPoint aim) {
    if (path || hazards_->clear_m(model.to) < 0) return true;  // a river's bank: the line itself
    const double from = model.target_along_m,
                 beside = mapdata::along_of(feature.points, aim) - from,
                 sigma = std::max(model.spread.cross_sigma_m, model.spread.along_sigma_m);
    const double far = std::abs(beside) + std::max(std::abs(beside), 2 * sigma),
                 way = beside < 0 ? -1 : 1;
    for (double m = 0; m <= far;) {
      const double clear = hazards_->clear_m(mapdata::point_along(feature.points, from + way * m));
      if (m > 0 && clear < 0) return false;
      m += std::max(clear, 2.0);
    }
    return true;
  };
  // an aim that leads over worse ground than the straight way is none
  double straight_hazard = -1;
  end.allowed = [&](GridPoint aim) {
    if (!hazards_->any()) return true;
    if (!line_clear(aim)) return false;
    if (straight_hazard < 0) straight_hazard = hazard_towards(model.to);
    return hazard_towards(aim) <= straight_hazard + 0.005;
  };
  AimCosts costs;
  costs.bearing_min_per_m = pace;
  costs.line_min_per_m = walking::level_min_per_m(
      party_, std::max(guides_->traits(feature.label.kind).speed_factor, 0.2));
  costs.doubt_min = habits_.doubt_min;
  costs.wrong_way_sigmas = habits_.wrong_way_sigmas;
  const LineAimer aimer(end, costs, card != nullptr ? std::abs(card->offset_m) : 0);
  const auto take = [&](const AimedLeg& aimed, double window) {
    model.window_m = window;
    model.offset_m = aimed.offset_m;
    model.aim = aimed.aim;
    model.aim_is_left = aimed.aim_is_left;
    model.bearing = aimed.bearing;
    model.length_m = aimed.length_m;
    model.line_sigma_m = aimed.line_sigma_m;
    model.beyond_m = aimed.beyond_m;
  };
  if (card != nullptr) {
    const AimedLeg aimed = aimer.aimed(card->offset_m, card->window_m);
    if (card->mark) {
      model.certainty = model.line_recognised * aimed.right_way * model.recognised;
    } else {
      model.mark.reset();
      model.recognised = 1;
      model.certainty = model.line_recognised * aimed.within;
    }
    return take(aimed, card->window_m);
  }
  if (model.mark) {
    const AimedLeg best = aimer.best();
    model.certainty = model.line_recognised * best.right_way * model.recognised;
    take(best, end.window_m);
    if (model.line_recognised <= model.certainty + surer_by) return;
  }
  // without a mark on the line there is nothing to turn to: straight at the place. With one that is
  // hardly known, to stand on the line, near enough by the count, may be surer.
  const AimedLeg straight = aimer.aimed(0, by_count_m);
  const double by_count = model.line_recognised * straight.within;
  if (model.mark && by_count <= model.certainty + surer_by) return;
  model.mark.reset();
  model.recognised = 1;
  model.certainty = by_count;
  take(straight, by_count_m);
}

}  // namespace lodeway::reckoning
