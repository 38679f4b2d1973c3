#include "lodeway/reckoning/ends/aimed_leg.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>
#include <utility>
#include <vector>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/quadrature.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::reckoning {

namespace {
using earth::GridPoint;

/// A place where the party may really start, and what of its error is then left.
struct Start {
  GridPoint from;
  double weight = 1;
  double turn = 0;  ///< mean error of the direction of those who start here
  CrossGrowth cross;
};

/// Standard normal in parts of equal chance: the middle one of each, and the variance that is left
/// within them on average.
struct Parts {
  std::vector<double> middle;
  double left = 1;
};
Parts parts_of_normal(int n) {
  Parts parts;
  for (int i = 0; i < n; ++i) {
    parts.middle.push_back(numeric::normal_quantile((i + 0.5) / n));
    parts.left -= parts.middle.back() * parts.middle.back() / n;
  }
  return parts;
}

std::vector<Start> starts_of(const LineEnd& end, double bearing) {
  constexpr double sure_m2 = 2 * 7.5 * 7.5, narrow_m = 12;
  const LegGrowth& g = end.growth;
  if (g.start_cross_m2 + g.start_along_m2 <= sure_m2) return {};
  // x: beside the leg, y: along it
  const auto axes = numeric::axes_of({g.start_cross_m2, g.start_both_m2, g.start_along_m2});
  const double lean = g.start_cross_m2 > 0 ? g.start_angle / g.start_cross_m2 : 0;
  const GridPoint ahead{std::sin(bearing), std::cos(bearing)}, right{ahead.north_m, -ahead.east_m};
  const bool wide = axes.minor > narrow_m;
  const Parts longer = parts_of_normal(9), shorter = wide ? parts_of_normal(5) : Parts{{0}, 1};
  const double s = std::sin(axes.azimuth), c = std::cos(axes.azimuth);
  const auto square = [](double x) { return x * x; };
  // what is left within the parts: across the leg it widens each fan, along it the parts are spread
  const CrossGrowth cross{
      std::max(g.angle2 - lean * g.start_angle, 0.0), g.wander_m,
      longer.left * square(s * axes.major) + shorter.left * square(c * axes.minor)};
  const double weight = 1.0 / static_cast<double>(longer.middle.size() * shorter.middle.size());
  const double longer_whole = 1 / std::sqrt(1 - longer.left),
               shorter_whole = wide ? 1 / std::sqrt(1 - shorter.left) : 0;
  std::vector<Start> out;
  for (const double u : longer.middle) {
    for (const double v : shorter.middle) {
      const double major = u * axes.major, minor = v * axes.minor;
      const double beside = s * major + c * minor;
      const double along = c * major * longer_whole - s * minor * shorter_whole;
      out.push_back({end.from + beside * right + along * ahead, weight, lean * beside, cross});
    }
  }
  return out;
}

/// What lies within reach of every start.
double start_reach(const LegGrowth& g) {
  return 3 * std::sqrt(std::max(g.start_cross_m2 + g.start_along_m2, 0.0));
}
}  // namespace

LineAimer::LineAimer(const LineEnd& end, const AimCosts& costs, double widest_offset)
    : end_(end),
      costs_(costs),
      line_(end.line),
      target_(line_.at(end.target_along_m)),
      lie_(mapdata::direction_at(end.line, end.target_along_m).in_radians()),
      straight_(bearing_to(target_)),
      straight_length_(earth::grid_distance_m(end.from, target_)),
      cross_sigma_(std::sqrt(end.growth.cross_m2(straight_length_))),
      along_sigma_(std::sqrt(end.growth.along_m2(straight_length_))),
      line_sigma_(cross_sigma_ / std::max(std::abs(std::sin(lie_ - straight_)), 0.1)),
      reach_(1.5 * straight_length_ + 6 * along_sigma_ + 4 * line_sigma_),
      pieces_(pieces_within(end.line, end.from, reach_ + start_reach(end.growth))),
      fan_(
          end.from, straight_,
          std::min((6 * cross_sigma_ + std::max(4 * line_sigma_, widest_offset)) / straight_length_,
                   1.5),
          pieces_, reach_, end.leaving_m),
      // the error of a start that belongs to the compass grows with the way
      turns_(
          fan_.turns_in_sigmas({end.growth.angle2, end.growth.wander_m + 2 * end.growth.start_angle,
                                end.growth.start_cross_m2})) {}

double LineAimer::bearing_to(GridPoint p) const {
  return std::atan2(p.east_m - end_.from.east_m, p.north_m - end_.from.north_m);
}

double LineAimer::in_the_fan(const AimedLeg& leg) const {
  return straight_ + std::remainder(leg.bearing.in_radians() - straight_, 2 * std::numbers::pi);
}

double LineAimer::search_m(double offset) const {
  return std::abs(offset) + costs_.wrong_way_sigmas * line_sigma_;
}

AimedLeg LineAimer::towards(double offset) const {
  AimedLeg leg;
  leg.offset_m = offset;
  leg.aim = line_.at(end_.target_along_m + offset);
  leg.length_m = earth::grid_distance_m(end_.from, leg.aim);
  const double turn = std::remainder(bearing_to(leg.aim) - straight_, 2 * std::numbers::pi);
  leg.bearing = earth::grid_bearing(end_.from, leg.aim);
  leg.aim_is_left = turn < 0;
  leg.line_sigma_m = line_sigma_;
  leg.follows_m = search_m(offset);
  leg.beyond_m = end_.line_beyond_sigmas *
                 earth::length_of({along_sigma_, line_sigma_ * std::cos(lie_ - leg.bearing.in_radians())});
  return leg;
}

void LineAimer::weigh(AimedLeg& leg, const Meeting& m) const {
  // aimed ahead, the party turns back towards the line's first point, and the other way about
  const bool ahead = leg.offset_m >= 0;
  const double wrong = ahead ? m.before : m.ahead, wrong_m = ahead ? m.before_m : m.ahead_m;
  const double right = ahead ? m.ahead : m.before, right_m = ahead ? m.ahead_m : m.before_m;
  // on the right side, but so far off that the party has turned round before it is there
  const double far = ahead ? m.ahead_far : m.before_far;
  leg.right_way = right - far + m.within;
  leg.within = m.within;
  leg.wrong_way = wrong + far;
  leg.missed = m.missed;
  const double search = search_m(leg.offset_m);
  leg.minutes = leg.length_m * costs_.bearing_min_per_m +
                (right * right_m + wrong * (2 * search + wrong_m) + far * 2 * search) *
                    costs_.line_min_per_m +
                (wrong + far + m.missed) * costs_.doubt_min +
                m.missed * 2 * (leg.beyond_m + search) * costs_.bearing_min_per_m;
}

Meeting LineAimer::meet(const AimedLeg& leg, double window) const {
  const double last = leg.length_m + leg.beyond_m;
  return fan_.meet(in_the_fan(leg), turns_, end_.target_along_m, window, last,
                   std::sqrt(end_.growth.along_m2(last)), leg.follows_m);
}

Meeting LineAimer::meet_over_starts(const AimedLeg& leg, double window) const {
  constexpr FanRule one_of_many{24, 2};
  const auto starts = starts_of(end_, straight_);
  if (starts.empty()) return meet(leg, window);
  Meeting all;
  const double far = leg.length_m, last = far + leg.beyond_m;
  const double sigma = std::sqrt(end_.growth.count_m2(last));
  for (const Start& s : starts) {
    const double toward = in_the_fan(leg) + s.turn;
    const double spread =
        std::sqrt(s.cross.start_m2 + far * (s.cross.wander_m + far * s.cross.angle2)) / far;
    const Fan fan(s.from, toward, std::min(6 * spread, 1.5), pieces_, reach_, end_.leaving_m,
                  one_of_many);
    const Meeting m = fan.meet(toward, s.cross, end_.target_along_m, window, last, sigma,
                               leg.follows_m);
    all.ahead += s.weight * m.ahead;
    all.within += s.weight * m.within;
    all.before += s.weight * m.before;
    all.missed += s.weight * m.missed;
    all.ahead_far += s.weight * m.ahead_far;
    all.before_far += s.weight * m.before_far;
    all.ahead_m += s.weight * m.ahead * m.ahead_m;
    all.before_m += s.weight * m.before * m.before_m;
  }
  if (all.ahead > 0) all.ahead_m /= all.ahead;
  if (all.before > 0) all.before_m /= all.before;
  return all;
}

AimedLeg LineAimer::aimed(double offset, double window, double follows) const {
  AimedLeg leg = towards(offset);
  if (follows >= 0) leg.follows_m = follows;
  weigh(leg, meet_over_starts(leg, window));
  return leg;
}

double LineAimer::minutes(double offset) const {
  AimedLeg leg = towards(offset);
  weigh(leg, meet(leg, end_.window_m));
  return leg.minutes;
}

AimedLeg LineAimer::best() const {
  const auto at = [&](double offset) { return minutes(offset); };
  const auto may_aim = [&](double offset) {
    return !end_.allowed || end_.allowed(line_.at(end_.target_along_m + offset));
  };
  const double step = 0.5 * line_sigma_,
               least_offset = std::max(-4 * line_sigma_, -end_.target_along_m),
               most_offset = std::min(4 * line_sigma_, line_.length_m() - end_.target_along_m);
  double best = 0, least = minutes(0);
  const double straight = least;
  std::vector<std::pair<double, double>> better;  // minutes, offset
  for (const double side : {1.0, -1.0}) {
    const double limit = side > 0 ? most_offset : -least_offset;
    for (double offset = step; offset <= limit; offset += step) {
      const double m = minutes(side * offset);
      if (m < straight - 1e-9) better.emplace_back(m, side * offset);
    }
  }
  // to ask whether an aim is allowed is dear: the best first
  std::ranges::stable_sort(better, {}, &std::pair<double, double>::first);
  const auto first = std::ranges::find_if(better, [&](const auto& b) { return may_aim(b.second); });
  if (first != better.end()) {
    std::tie(least, best) = *first;
    const double from = std::max(best - step, least_offset),
                 to = std::min(best + step, most_offset);
    const double finer = numeric::minimum_between(at, from, to, 0.05 * line_sigma_);
    if (minutes(finer) < least && may_aim(finer)) best = finer;
    if (std::abs(best) < end_.least_offset_m) best = 0;
  }
  AimedLeg leg = aimed(best, end_.window_m);
  leg.saving_min = straight - leg.minutes;
  return leg;
}

}  // namespace lodeway::reckoning
