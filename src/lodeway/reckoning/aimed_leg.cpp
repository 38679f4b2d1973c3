#include "lodeway/reckoning/aimed_leg.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>
#include <utility>
#include <vector>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/quadrature.hpp"
#include "lodeway/reckoning/dead_reckoning.hpp"

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
  const CrossGrowth cross{std::max(g.angle2 - lean * g.start_angle, 0.0), g.wander_m,
                          longer.left * square(s * axes.major) +
                              shorter.left * square(c * axes.minor)};
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

class Aimer {
 public:
  Aimer(const LineEnd& end, const AimCosts& costs, double widest_offset = 0)
      : end_(end), costs_(costs), line_(end.line), target_(line_.at(end.target_along_m)),
        lie_(direction_at(end.line, end.target_along_m)),
        straight_(bearing_to(target_)),
        straight_length_(earth::grid_distance_m(end.from, target_)),
        cross_sigma_(std::sqrt(end.growth.cross_m2(straight_length_))),
        along_sigma_(std::sqrt(end.growth.along_m2(straight_length_))),
        line_sigma_(cross_sigma_ /
                    std::max(std::abs(std::sin(lie_ - straight_)), 0.1)),
        half_width_(std::min((6 * cross_sigma_ + std::max(4 * line_sigma_, widest_offset)) / straight_length_, 1.5)),
        reach_(1.5 * straight_length_ + 6 * along_sigma_ + 4 * line_sigma_),
        fan_(end.from, straight_, half_width_, end.line, reach_, end.leaving_m) {}

  [[nodiscard]] double least() const {
    return std::max(-4 * line_sigma_, -end_.target_along_m);
  }
  [[nodiscard]] double most() const {
    return std::min(4 * line_sigma_, line_.length_m() - end_.target_along_m);
  }
  [[nodiscard]] double sigma() const { return line_sigma_; }
  [[nodiscard]] GridPoint aim(double offset) const { return line_.at(end_.target_along_m + offset); }

  /// All starts as one, with its error in the rays': good enough to choose by.
  [[nodiscard]] AimedLeg at(double offset) const {
    return with(offset, [&](const AimedLeg& leg) {
      const LegGrowth& g = end_.growth;
      // the error of a start that belongs to the compass grows with the way
      const CrossGrowth cross{g.angle2, g.wander_m + 2 * g.start_angle, g.start_cross_m2};
      const double last = leg.length_m + leg.beyond_m;
      return fan_.meet(leg.bearing, cross, end_.target_along_m, end_.window_m, last,
                       std::sqrt(g.along_m2(last)));
    });
  }
  /// Over the starts, where they are unsure.
  [[nodiscard]] AimedLeg over_starts(double offset) const {
    const auto starts = starts_of(end_, straight_);
    if (starts.empty()) return at(offset);
    return with(offset, [&](const AimedLeg& leg) {
      Meeting all;
      const double last = leg.length_m + leg.beyond_m, sigma = std::sqrt(end_.growth.count_m2(last));
      for (const Start& s : starts) {
        const double toward = leg.bearing + s.turn, far = leg.length_m;
        const double spread = std::sqrt(s.cross.start_m2 + far * (s.cross.wander_m + far * s.cross.angle2)) / far;
        const Meeting m = Fan(s.from, toward, std::min(6 * spread, 1.5), end_.line, reach_, end_.leaving_m)
                              .meet(toward, s.cross, end_.target_along_m, end_.window_m, last, sigma);
        all.ahead += s.weight * m.ahead;
        all.within += s.weight * m.within;
        all.before += s.weight * m.before;
        all.missed += s.weight * m.missed;
        all.ahead_m += s.weight * m.ahead * m.ahead_m;
        all.before_m += s.weight * m.before * m.before_m;
      }
      if (all.ahead > 0) all.ahead_m /= all.ahead;
      if (all.before > 0) all.before_m /= all.before;
      return all;
    });
  }

 private:
  /// `meet(leg)` where the line is met by a leg whose aim, length and margin are set.
  template <class Meet>
  [[nodiscard]] AimedLeg with(double offset, Meet&& meet) const {
    AimedLeg leg;
    leg.offset_m = offset;
    leg.aim = line_.at(end_.target_along_m + offset);
    leg.length_m = earth::grid_distance_m(end_.from, leg.aim);
    const double turn = std::remainder(bearing_to(leg.aim) - straight_, 2 * std::numbers::pi);
    leg.bearing = straight_ + turn;
    leg.aim_is_left = turn < 0;
    leg.line_sigma_m = line_sigma_;
    const double beyond = leg.beyond_m =
        end_.line_beyond_sigmas *
        std::hypot(along_sigma_, line_sigma_ * std::abs(std::cos(lie_ - leg.bearing)));
    const Meeting m = meet(leg);
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

  [[nodiscard]] double bearing_to(GridPoint p) const {
    return std::atan2(p.east_m - end_.from.east_m, p.north_m - end_.from.north_m);
  }
  const LineEnd& end_;
  const AimCosts& costs_;
  mapdata::Measured line_;
  GridPoint target_;
  double lie_;  ///< direction of the line there
  double straight_, straight_length_, cross_sigma_, along_sigma_, line_sigma_, half_width_, reach_;
  Fan fan_;
};
}  // namespace

AimedLeg aimed_leg(const LineEnd& end, double offset, const AimCosts& costs) {
  return Aimer(end, costs, std::abs(offset)).over_starts(offset);
}

AimedLeg best_aimed_leg(const LineEnd& end, const AimCosts& costs) {
  const Aimer aimer(end, costs);
  const auto minutes = [&](double offset) { return aimer.at(offset).minutes; };
  const auto may_aim = [&](double offset) {
    return !end.allowed || end.allowed(aimer.aim(offset));
  };
  const double step = 0.5 * aimer.sigma();
  double best = 0, least = minutes(0);
  const double straight = least;
  std::vector<std::pair<double, double>> better;  // minutes, offset
  for (const double side : {1.0, -1.0}) {
    const double limit = side > 0 ? aimer.most() : -aimer.least();
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
    const double from = std::max(best - step, aimer.least()), to = std::min(best + step, aimer.most());
    const double finer = numeric::minimum_between(minutes, from, to, 0.05 * aimer.sigma());
    if (minutes(finer) < least && may_aim(finer)) best = finer;
    if (std::abs(best) < end.least_offset_m) best = 0;
  }
  AimedLeg leg = aimer.over_starts(best);
  leg.saving_min = straight - leg.minutes;
  return leg;
}

}  // namespace lodeway::reckoning
