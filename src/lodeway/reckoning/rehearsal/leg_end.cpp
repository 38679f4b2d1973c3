#include "lodeway/reckoning/rehearsal/leg_end.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"

namespace lodeway::reckoning {

namespace {
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
double square(double x) { return x * x; }
}  // namespace

double rehearsed_pace(const walking::Leg& leg, const walking::Party& party) {
  return leg.figures.minutes > 0 && leg.figures.length_m > 0
             ? leg.figures.minutes / leg.figures.length_m
             : walking::level_min_per_m(party, 1);
}

LookOut::LookOut(const Judge& judge, const walking::Leg& leg, const LegModel& model, double step_m,
                 int steps)
    : judge_(judge),
      leg_(leg),
      m_(model),
      on_line_(std::get_if<AtLine>(&model.end)),
      step_m_(step_m),
      steps_(steps),
      pace_(rehearsed_pace(leg, judge.party())) {
  const double reach = 4 * (m_.length_m + beyond_m(m_.end));
  const auto met = [&](std::size_t line) {
    return MetLine(judge_.guides().line(line).points, m_.to, reach);
  };
  if (on_line_ != nullptr) line_ = met(on_line_->place.line);
  for (const DecoyPlace& d : m_.decoys) {
    const auto* like = std::get_if<LikeLine>(&d.thing);
    decoy_lines_.push_back(like != nullptr ? met(like->line) : MetLine());
  }
}

LegEnd LookOut::end_of(const Path& path, numeric::Random& random) {
  return nothing_to_see(m_.end) ? by_the_count(path) : by_sight(path, random);
}

/// Nothing to see: stops by the count.
LegEnd LookOut::by_the_count(const Path& path) const {
  const int last = std::min(static_cast<int>(m_.length_m / step_m_), steps_ - 1);
  LegEnd out;
  out.steps = last + 1;
  out.part = std::clamp(m_.length_m / step_m_ - last, 0.0, 1.0);
  out.at = path.between(last, out.part);
  out.minutes = path.seconds(last, out.part) / 60;
  // at a way's end near enough counts
  const double off = earth::grid_distance_m(out.at, m_.to);
  const auto* end_of_way = std::get_if<AtNothing>(&m_.end);
  out.kept = end_of_way == nullptr || off <= end_of_way->window_m;
  out.recovery = judge_.habits().doubt_min + 2 * off * pace_;
  return out;
}

LegEnd LookOut::by_sight(const Path& path, numeric::Random& random) {
  const Mark* mark = mark_of(m_.end);
  const bool knows = random.uniform() < (mark != nullptr ? mark->recognised : 1);
  const bool knows_line = random.uniform() < (on_line_ != nullptr ? on_line_->place.noticed : 1);
  decoy_draws_.clear();
  for (const DecoyPlace& d : m_.decoys) {
    const bool fooled = random.uniform() < d.recognised * d.looks_alike;
    decoy_draws_.push_back(fooled ? random.normal() : nothing);
  }
  const double give_up = m_.length_m + beyond_m(m_.end);
  LegEnd out;
  const bool known = on_line_ != nullptr ? knows_line : knows;
  out.loss = known ? Loss::missed : Loss::not_known;
  const auto stand = [&](int k, double part) {
    out.steps = k + 1;
    out.part = part;
    out.at = path.between(k, part);
    out.minutes = path.seconds(k, part) / 60;
  };
  GridPoint from = path.at(0);
  for (int k = 0; k < steps_; ++k) {
    const GridPoint to = path.at(k + 1);
    const double end_part = std::min((give_up - k * step_m_) / step_m_, 1.0);
    double met = nothing, along = 0;
    if (on_line_ == nullptr)
      met = knows ? enters(from, to, m_.to, mark->seen_from_m) : nothing;
    else if (knows_line)
      met = line_.meets(from, to, along);
    if (on_line_ != nullptr && (k + met) * step_m_ < on_line_->place.leaving_m) met = nothing;
    double fooled = nothing;
    for (std::size_t d = 0; d < m_.decoys.size(); ++d) {
      const double t = meets_decoy(d, from, to, k);
      if (!(fooled <= t) && !std::isnan(t)) fooled = t;
    }
    const double first = std::isnan(fooled) || met <= fooled ? met : fooled;
    if (!std::isnan(first) && first <= end_part) {
      stand(k, first);
      if (first != met) {
        out.loss = Loss::mistaken;
        out.recovery = recovery(out.at);
      } else if (on_line_ == nullptr) {
        out.kept = true;
        out.minutes += earth::grid_distance_m(out.at, m_.to) * pace_;
      } else {
        on_line(*on_line_, along - on_line_->place.along_m, knows, out);
      }
      return out;
    }
    if (end_part < 1 || k + 1 == steps_) {
      stand(k, std::clamp(end_part, 0.0, 1.0));
      break;
    }
    from = to;
  }
  out.recovery = recovery(out.at);
  return out;
}

/// A like thing met on this step, and taken for the end? Decides by the count, and a line's lie.
double LookOut::meets_decoy(std::size_t which, GridPoint from, GridPoint to, int k) {
  if (std::isnan(decoy_draws_[which])) return nothing;
  const DecoyPlace& d = m_.decoys[which];
  double along = 0, beyond = 0;
  const auto* mark = std::get_if<LikeMark>(&d.thing);
  const double t = mark == nullptr ? decoy_lines_[which].meets(from, to, along)
                                   : enters(from, to, mark->at, mark->seen_from_m);
  if (std::isnan(t)) return nothing;
  if (mark != nullptr) {  // the count when it would stand beside it
    const GridPoint here = from + t * (to - from);
    const GridPoint w = mark->at - here;
    beyond = w.east_m * std::sin(m_.bearing.in_radians()) +
             w.north_m * std::cos(m_.bearing.in_radians());
  }
  const double counted = (k + t) * step_m_ + beyond;
  const double sigma =
      std::max(0.5 * m_.spread.along_sigma_m * (1 + d.along_m / m_.length_m), 1e-9);
  // log of the odds for the target: by distance, then by the lie read off
  double odds =
      0.5 * (square((counted - d.along_m) / sigma) - square((counted - m_.length_m) / sigma));
  if (const auto* line = std::get_if<LikeLine>(&d.thing)) {
    const double apart = line->lie_apart_deg / judge_.habits().lie_sigma_deg,
                 read = decoy_draws_[which];
    odds += 0.5 * (square(read) - square(read - apart));
  }
  decoy_draws_[which] = nothing;  // it is looked at once
  return odds > 0 ? t : nothing;
}

/// Met the line `beside` metres from the end: turns along it, as it was aimed.
void LookOut::on_line(const AtLine& end, double beside, bool knows, LegEnd& out) const {
  const Guides& guides = judge_.guides();
  const Habits& habits = judge_.habits();
  const auto& kind = guides.traits(guides.line(end.place.line).label.kind);
  const double pace = walking::level_min_per_m(judge_.party(), std::max(kind.speed_factor, 0.2));
  const double away = std::abs(beside);
  // aimed ahead of the place the party turns back, aimed before it, on
  const double search = search_m(end, habits);
  const bool right = away <= end.window_m || (end.mark && (end.offset_m >= 0) == (beside > 0) &&
                                              away <= end.window_m + end.follows_m);
  if (right && knows) {
    out.kept = true;
    out.minutes += away * pace;
    return;
  }
  out.loss = right ? Loss::not_known : Loss::wrong_way;
  out.recovery = habits.doubt_min + (2 * search + away) * pace;
}

/// Minutes from where the walker stands in doubt to the leg's end: by what stops it, or NaN to go
/// back.
double LookOut::recovery(GridPoint at) const {
  if (!goes_on_to_stop(leg_, m_)) return nothing;
  GridPoint to = m_.to;
  double away = leg_.stop->beyond_m;
  if (!leg_.stop->shape.empty()) {
    to = mapdata::point_along(leg_.stop->shape, mapdata::along_of(leg_.stop->shape, at));
    away = earth::grid_distance_m(at, to);
  }
  return judge_.habits().doubt_min + (away + earth::grid_distance_m(to, m_.to)) * pace_;
}

}  // namespace lodeway::reckoning
