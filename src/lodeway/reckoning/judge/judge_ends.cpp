/// How is a leg's end found: by a mark, a line met, a handrail, or only by the count? Judge::weigh's
/// first two steps.
#include <algorithm>
#include <cmath>
#include <utility>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/reckoning/judge/counted_from.hpp"
#include "lodeway/reckoning/judge/drill_room.hpp"
#include "lodeway/reckoning/judge/judge.hpp"

namespace lodeway::reckoning {

using walking::Leg;

namespace {
constexpr double leaving_m = 15;  // a line left at the start is not met there
constexpr double surer_by = 0.005;

/// By the count within so many metres of the end of a line; where nothing like it goes on from
/// there nobody can come too far.
double ends_by_count(double sigma, double within, bool goes_on) {
  return goes_on ? passes_within(sigma, 0, within)
                 : numeric::normal_cdf(within / std::max(sigma, 1e-9));
}
}  // namespace

Judge::SetOut Judge::set_out(const Leg& leg, const Drift& carried) const {
  SetOut out{.from = leg.course.line.front(), .to = leg.course.line.back(), .carried = carried};
  out.bearing = earth::grid_bearing(out.from, out.to);
  out.length_m = earth::grid_distance_m(out.from, out.to);
  if (!(out.length_m > 0)) return out;
  Drift& on = out.carried;
  const double before_right = carried.set_right();
  const bool same_leg = carried.goes_straight_on(out.bearing);
  if (!same_leg) on.set_right_by(1 - guides_->chances().of(sight::Setting::gross_error));
  on.add_leg(out.bearing, out.length_m);
  out.at_end = on.total();
  out.spread = seen_from_leg(out.at_end, out.bearing);
  const double shared =
      errors_.compass_sigma * errors_.compass_sigma + declination_sigma_ * declination_sigma_;
  out.needle = {
      growth_of(errors_, shared, carried.total(), out.at_end, out.bearing, out.length_m),
      on.set_right()};
  out.newly_wrong = before_right - out.needle.set_right;
  out.from_fix_m = earth::length_of(carried.net());
  out.needle.from_fix_m = out.from_fix_m;
  if (!same_leg && before_right > 0)
    out.wrong_to_turn = (1 - before_right) * out.needle.set_right / before_right;
  return out;
}

std::optional<Mark> Judge::known(std::optional<Mark> mark) const {
  if (mark) mark->recognised = known(mark->recognised);
  return mark;
}

/// Straight at the end: to a mark, or by the count to a turn. Who has not seen the mark gives up
/// `beyond_m` past the count.
Judge::Found Judge::straight_end(const SetOut& start, const std::optional<Mark>& mark,
                                 double beyond_m) const {
  const auto found = [&](End end, double certainty) -> Found {
    return {{start.from, start.to, start.to, start.bearing, start.length_m, start.spread,
             start.at_end, std::move(end)},
            certainty};
  };
  if (!mark) return found(AtTurn{start.needle}, start.length_m > 0 ? 1 : 0);
  LegAxes at_last = start.spread;
  at_last.along_sigma_m = std::sqrt(start.needle.growth.along_m2(start.length_m + beyond_m));
  return found(AtMark{start.needle, *mark, beyond_m},
               mark->recognised * sees_before_giving_up(at_last, 0, mark->seen_from_m, beyond_m));
}

/// The surest of point, lines met here with their mark, and lines met near enough by the count.
Judge::Found Judge::surest_end(const Leg& leg, const SetOut& start) const {
  if (!(start.length_m > 0)) return straight_end(start, {}, 0);
  const auto mark = known(guides_->mark_at(start.to, habits_.least_known));
  Found best =
      straight_end(start, mark, habits_.beyond_sigmas * start.spread.along_sigma_m);
  const auto left = guides_->lines_at(start.from, leaving_m);
  for (const OnLine& on : guides_->lines_at(start.to)) {
    const auto crossing = apart(on.lie, units::Lie::of(start.bearing));
    if (crossing.in_degrees() < habits_.least_crossing_deg) continue;
    const double met = guides_->noticed(guides_->line(on.line).label.kind);
    // a mark that is itself seen from far needs no line; a faint line is no help
    if (met < habits_.least_known || (mark && best.certainty >= met)) continue;
    const auto same = [&](const OnLine& at_start) { return at_start.line == on.line; };
    const bool leaves = std::ranges::any_of(left, same);
    Found line = line_end(leg, start, mark, {on.line, on.along_m, met, leaves ? leaving_m : 0});
    const bool surer = line.certainty > best.certainty + surer_by;
    if (surer || nothing_to_see(best.way.end)) best = std::move(line);
  }
  return best;
}

/// The same end, walked as the card has it by this party: how far one goes on past the count is the
/// card's, whoever walks by it.
Judge::Found Judge::end_by_card(const Leg& leg, const SetOut& start, const End& card) const {
  if (!(start.length_m > 0)) return straight_end(start, {}, 0);
  std::optional<Mark> mark;
  if (const Mark* shown = mark_of(card)) mark = known(guides_->mark(shown->fix));
  if (const auto* line = std::get_if<AtLine>(&card))
    return line_end_by_card(leg, start, mark, *line);
  return straight_end(start, mark, beyond_m(card));
}

/// `aimed` at the line, then along it to the mark, or near enough by the count.
Judge::Found Judge::on_line(const SetOut& start, const PlaceOnLine& place,
                            const std::optional<Mark>& mark, const AimedLeg& aimed,
                            double window_m) {
  return {{start.from, start.to, aimed.aim, aimed.bearing, aimed.length_m, start.spread,
           start.at_end,
           AtLine{start.needle, place, mark, window_m, aimed.offset_m, aimed.aim_is_left,
                  aimed.line_sigma_m, aimed.follows_m, aimed.beyond_m}},
          mark ? place.noticed * aimed.right_way * mark->recognised
               : place.noticed * aimed.within};
}

LineEnd Judge::line_asked(const SetOut& start, const std::optional<Mark>& mark,
                          const PlaceOnLine& place) const {
  LineEnd out;
  out.from = start.from;
  out.line = guides_->line(place.line).points;  // all of it: crooked, it may be met before its place
  out.target_along_m = place.along_m;
  out.window_m = mark ? std::max(mark->seen_from_m, 10.0) : habits_.near_enough_m;
  out.growth = start.needle.growth;
  out.line_beyond_sigmas = habits_.line_beyond_sigmas;
  out.least_offset_m = habits_.least_offset_m;
  out.leaving_m = place.leaving_m;
  return out;
}

AimCosts Judge::line_costs(const Leg& leg, const PlaceOnLine& place) const {
  const auto& kind = guides_->traits(guides_->line(place.line).label.kind);
  return {minutes_per_m(leg),
          walking::level_min_per_m(party_, std::max(kind.speed_factor, 0.2)), habits_.doubt_min,
          habits_.wrong_way_sigmas};
}

/// Nobody goes along a line over ground to keep off: from two sigmas beyond an aim to the end, or as
/// far beyond it as it is beside the end, the line must be clear, unless it is a path, which leads
/// over what is steep beside it.
bool Judge::line_clear(const SetOut& start, const PlaceOnLine& place, GridPoint aim) const {
  const auto& feature = guides_->line(place.line);
  if (walking::is_path(feature.label.kind) || hazards_->clear_m(start.to) < 0)
    return true;  // a river's bank: the line itself
  // of where a line is met that lies aslant there is more doubt than across the way
  const double lie = mapdata::direction_at(feature.points, place.along_m).in_radians(),
               met = std::max(std::abs(std::sin(lie - start.bearing.in_radians())), 0.1);
  const double beside = mapdata::along_of(feature.points, aim) - place.along_m,
               sigma = std::max(start.spread.cross_sigma_m / met, start.spread.along_sigma_m);
  const double far = std::abs(beside) + std::max(std::abs(beside), 2 * sigma),
               way = beside < 0 ? -1 : 1;
  for (double m = 0; m <= far;) {
    const double clear =
        hazards_->clear_m(mapdata::point_along(feature.points, place.along_m + way * m));
    if (m > 0 && clear < 0) return false;
    m += std::max(clear, 2.0);
  }
  return true;
}

Judge::Found Judge::line_end(const Leg& leg, const SetOut& start, const std::optional<Mark>& mark,
                             const PlaceOnLine& place) const {
  LineEnd asked = line_asked(start, mark, place);
  const auto hazard_towards = [&](GridPoint aim) {
    Walk walk{start.from, earth::grid_bearing(start.from, aim),
              earth::grid_distance_m(start.from, aim), start.needle.growth, 0, start.to};
    walk.line = asked.line;
    walk.line_known = place.noticed;
    walk.leaving_m = place.leaving_m;
    return hazard_probability(*hazards_, walk, {2, 20});
  };
  // an aim that leads over worse ground than the straight way is none
  double straight_hazard = -1;
  asked.allowed = [&](GridPoint aim) {
    if (!hazards_->any()) return true;
    if (!line_clear(start, place, aim)) return false;
    if (straight_hazard < 0) straight_hazard = hazard_towards(start.to);
    return hazard_towards(aim) <= straight_hazard + 0.005;
  };
  const AimCosts costs = line_costs(leg, place);
  const LineAimer aimer(asked, costs);
  std::optional<Found> to_mark;
  if (mark) {
    // where ground to keep off lies on the line, nobody follows it as far as it would; straight at the
    // mark may then be surer
    const auto within_room = [&](const AimedLeg& aimed) {
      Found found = on_line(start, place, mark, aimed, asked.window_m);
      if (!hazards_->any()) return found;
      const auto& end = std::get<AtLine>(found.way.end);
      const auto room = drill_room(*hazards_, *guides_, leg, found.way, aimed.follows_m);
      const double follows = may_follow_m(room, end, aimed.follows_m);
      if (follows >= aimed.follows_m) return found;
      return on_line(start, place, mark, aimer.aimed(aimed.offset_m, asked.window_m, follows),
                     asked.window_m);
    };
    const AimedLeg best = aimer.best();
    to_mark = within_room(best);
    if (best.offset_m != 0 && std::get<AtLine>(to_mark->way.end).follows_m < best.follows_m) {
      Found straight = within_room(aimer.aimed(0, asked.window_m));
      if (straight.certainty > to_mark->certainty) to_mark = std::move(straight);
    }
    if (place.noticed <= to_mark->certainty + surer_by) return *to_mark;
  }
  // without a mark on the line there is nothing to turn to: straight at the place. With one that is
  // hardly known, to stand on the line, near enough by the count, may be surer.
  Found by_count =
      on_line(start, place, {}, aimer.aimed(0, habits_.near_enough_m), habits_.near_enough_m);
  if (to_mark && by_count.certainty <= to_mark->certainty + surer_by) return *to_mark;
  return by_count;
}

Judge::Found Judge::line_end_by_card(const Leg& leg, const SetOut& start,
                                     const std::optional<Mark>& mark, const AtLine& card) const {
  PlaceOnLine place = card.place;
  place.noticed = known(guides_->noticed(guides_->line(place.line).label.kind));
  const LineEnd asked = line_asked(start, mark, place);
  const AimCosts costs = line_costs(leg, place);
  const LineAimer aimer(asked, costs, std::abs(card.offset_m));
  return on_line(start, place, mark, aimer.aimed(card.offset_m, card.window_m, card.follows_m),
                 card.window_m);
}

Judge::Found Judge::handrail_end(const Leg& leg, std::optional<GridPoint> came_by,
                                 const LegModel* card) const {
  const auto& line = leg.course.line;
  const double length = mapdata::length_m(line);
  ByHandrail end;
  if (card == nullptr) {
    end.mark = guides_->mark_at(line.back(), habits_.least_known);
    if (end.mark && end.mark->recognised < habits_.least_fix)
      end.mark.reset();  // the count has to do, as where nothing marks it
  } else if (const Mark* shown = mark_of(card->end)) {
    end.mark = guides_->mark(shown->fix);
  }
  end.mark = known(end.mark);
  const double seen_m = end.mark ? end.mark->seen_from_m : 0,
               recognised = end.mark ? end.mark->recognised : 0;
  const auto counts = counted_from(*this, leg, length, known_shift_);
  end.since_tick_m = counts.front().since_m;
  // who has not seen the end goes on past its count like on open ground
  end.beyond_m = habits_.beyond_sigmas * handrail_sigma_m(errors_, end.since_tick_m);
  double variance = 0;
  for (const auto& from : counts) {
    const double sigma = handrail_sigma_m(errors_, from.since_m);
    variance += from.chance * sigma * sigma;
  }
  const double sigma = std::sqrt(variance);
  const auto followed = leg.course.followed.kind;
  end.keeps = keeps_line(guides_->chances().of(sight::ChanceOf::stay, followed), length,
                         known_shift_) *
              takes_all_branches(*guides_, line, followed, seen_m, recognised, known_shift_, came_by);
  end.window_m = std::max(seen_m, habits_.near_enough_m);
  // who looks out for a mark and does not know it goes on, unless nothing goes on from there
  end.goes_on = goes_on_past_end(*guides_, line, followed);
  const double known_end = end.goes_on ? recognised : 1;
  double by_count = 0;
  for (const auto& from : counts)
    by_count += from.chance *
                ends_by_count(handrail_sigma_m(errors_, from.since_m), end.window_m, end.goes_on);
  const double lie = mapdata::direction_at(line, length).in_radians();
  Found out{{line.front(), line.back(), line.back(),
             earth::grid_bearing(line.front(), line.back()), length, {0, sigma, 0},
             numeric::covariance_along(lie, sigma * sigma, 0), {}},
            end.keeps * (end.mark ? known_end : by_count)};
  out.way.end = std::move(end);
  return out;
}

}  // namespace lodeway::reckoning
