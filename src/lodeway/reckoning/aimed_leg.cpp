#include "lodeway/reckoning/aimed_leg.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/numeric/quadrature.hpp"
#include "lodeway/reckoning/dead_reckoning.hpp"

namespace lodeway::reckoning {

namespace {
using earth::GridPoint;

class Aimer {
 public:
  Aimer(const LineEnd& end, const AimCosts& costs, double widest_offset = 0)
      : end_(end), costs_(costs), line_length_(mapdata::length_m(end.line)),
        target_(point_along(end.line, end.target_along_m)),
        straight_(bearing_to(target_)),
        straight_length_(earth::grid_distance_m(end.from, target_)),
        angle_sigma_(end.cross_sigma_m / straight_length_),
        line_sigma_(end.cross_sigma_m /
                    std::max(std::abs(std::sin(direction_at(end.line, end.target_along_m) - straight_)), 0.1)),
        half_width_(std::min(
            6 * angle_sigma_ + std::max(4 * line_sigma_, widest_offset) / straight_length_, 1.5)),
        fan_(end.from, straight_, half_width_, end.line,
             1.5 * straight_length_ + 6 * end.along_sigma_m + 4 * line_sigma_) {}

  [[nodiscard]] double least() const {
    return std::max(-4 * line_sigma_, -end_.target_along_m);
  }
  [[nodiscard]] double most() const {
    return std::min(4 * line_sigma_, line_length_ - end_.target_along_m);
  }
  [[nodiscard]] double sigma() const { return line_sigma_; }

  [[nodiscard]] AimedLeg at(double offset) const {
    AimedLeg leg;
    leg.offset_m = offset;
    leg.aim = point_along(end_.line, end_.target_along_m + offset);
    leg.length_m = earth::grid_distance_m(end_.from, leg.aim);
    const double turn = std::remainder(bearing_to(leg.aim) - straight_, 2 * std::numbers::pi);
    leg.bearing = straight_ + turn;
    leg.aim_is_left = turn < 0;
    leg.line_sigma_m = line_sigma_;
    const double beyond = end_.line_beyond_sigmas *
                          std::hypot(end_.along_sigma_m, line_sigma_ * std::abs(std::cos(
                              direction_at(end_.line, end_.target_along_m) - leg.bearing)));
    leg.beyond_m = beyond;
    const Meeting m = fan_.meet(leg.bearing, angle_sigma_, end_.target_along_m, end_.window_m,
                                leg.length_m + beyond,
                                at_give_up(end_.along_sigma_m, leg.length_m, beyond));
    // aimed ahead, the party turns back towards the line's first point, and the other way about
    const bool ahead = offset >= 0;
    const double wrong = ahead ? m.before : m.ahead, wrong_m = ahead ? m.before_m : m.ahead_m;
    const double right = ahead ? m.ahead : m.before, right_m = ahead ? m.ahead_m : m.before_m;
    leg.right_way = right + m.within;
    leg.within = m.within;
    leg.wrong_way = wrong;
    leg.missed = m.missed;
    const double search = std::abs(offset) + costs_.wrong_way_sigmas * line_sigma_;
    leg.minutes = leg.length_m * costs_.bearing_min_per_m +
                  (right * right_m + wrong * (2 * search + wrong_m)) * costs_.line_min_per_m +
                  (wrong + m.missed) * costs_.doubt_min +
                  m.missed * 2 * (beyond + search) * costs_.bearing_min_per_m;
    return leg;
  }

 private:
  [[nodiscard]] double bearing_to(GridPoint p) const {
    return std::atan2(p.east_m - end_.from.east_m, p.north_m - end_.from.north_m);
  }
  const LineEnd& end_;
  const AimCosts& costs_;
  double line_length_;
  GridPoint target_;
  double straight_, straight_length_, angle_sigma_, line_sigma_, half_width_;
  Fan fan_;
};
}  // namespace

AimedLeg aimed_leg(const LineEnd& end, double offset, const AimCosts& costs) {
  return Aimer(end, costs, std::abs(offset)).at(offset);
}

AimedLeg best_aimed_leg(const LineEnd& end, const AimCosts& costs) {
  const Aimer aimer(end, costs);
  const auto minutes = [&](double offset) { return aimer.at(offset).minutes; };
  const auto may_aim = [&](double offset) {
    return !end.allowed || end.allowed(point_along(end.line, end.target_along_m + offset));
  };
  const double step = 0.5 * aimer.sigma();
  double best = 0, least = minutes(0);
  const double straight = least;
  for (const double side : {1.0, -1.0}) {
    const double limit = side > 0 ? aimer.most() : -aimer.least();
    for (double offset = step; offset <= limit; offset += step) {
      const double m = minutes(side * offset);
      if (m < least - 1e-9 && may_aim(side * offset)) {
        least = m;
        best = side * offset;
      }
    }
  }
  if (best != 0) {
    const double from = std::max(best - step, aimer.least()), to = std::min(best + step, aimer.most());
    const double finer = numeric::minimum_between(minutes, from, to, 0.05 * aimer.sigma());
    if (minutes(finer) < least && may_aim(finer)) best = finer;
    if (std::abs(best) < end.least_offset_m) best = 0;
  }
  AimedLeg leg = aimer.at(best);
  leg.saving_min = straight - leg.minutes;
  return leg;
}

}  // namespace lodeway::reckoning
