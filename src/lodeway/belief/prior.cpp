#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/belief/detail/prior.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/normal.hpp"

namespace lodeway::belief::detail {

namespace {
using mapdata::Kind;
constexpr double pi = std::numbers::pi;

/// Distance walked is log-normal about speed x time: a table of densities by metres.
class Radial {
 public:
  Radial(double middle_m, double cv, double most_m, double step_m) : step_(step_m) {
    const double s = std::sqrt(std::log(1 + cv * cv));
    const auto n = static_cast<std::size_t>(most_m / step_m) + 2;
    straight_.resize(n);
    within_.resize(n);
    double sum = 0;
    for (std::size_t k = 0; k < n; ++k) {
      const double r = (static_cast<double>(k) + 0.5) * step_m;
      const double z = std::log(r / middle_m) / s;
      straight_[k] = numeric::normal_density(z) / (s * r);
      within_[k] = numeric::normal_cdf(-z);
      sum += within_[k] * step_m;
    }
    for (double& w : within_) w /= sum;
  }
  /// Density by metres of distance of those who went straight, and of those who may have turned:
  /// anywhere up to the distance walked.
  [[nodiscard]] double straight(double r) const { return at(straight_, r); }
  [[nodiscard]] double within(double r) const { return at(within_, r); }

 private:
  [[nodiscard]] double at(const std::vector<double>& table, double r) const {
    const auto k = static_cast<std::size_t>(r / step_);
    return k < table.size() ? table[k] : 0;
  }
  double step_;
  std::vector<double> straight_, within_;
};

double farthest_m(const terrain::Frame& f, GridPoint p) {
  const double east = std::max(std::abs(f.west_m - p.east_m), std::abs(f.east_m() - p.east_m));
  const double north = std::max(std::abs(f.north_m - p.north_m), std::abs(f.south_m() - p.north_m));
  return std::hypot(east, north);
}

template <class Density>
void lay(const CuePlanes& planes, std::vector<float>& mass, Density&& density) {
  const double area = planes.frame.cell_m * planes.frame.cell_m;
  for (int r = 0; r < planes.frame.rows; ++r) {
    for (int c = 0; c < planes.frame.cols; ++c) {
      const std::size_t i = planes.index(r, c);
      if (!planes.known(i)) continue;
      const double stands = planes.bar[i] == walking::Bar::water ? 0.02 : 1;
      mass[i] = static_cast<float>(stands * area * density(planes.frame.centre(r, c)));
    }
  }
}

void lay_last(const CuePlanes& planes, const LastSure& last, std::vector<float>& mass) {
  const double cell = planes.frame.cell_m;
  const double middle = std::max(last.speed_kmh * 1000 / 60 * last.minutes, 2 * cell);
  const Radial radial(middle, last.speed_cv, farthest_m(planes.frame, last.at), cell / 2);
  // by whole degrees off the heading: normal, and its laps about the circle
  std::vector<double> off(361, 1 / (2 * pi));
  if (last.heading) {
    const double sd = std::max(last.heading_sd_deg, 1.0) * pi / 180;
    for (int k = 0; k <= 360; ++k) {
      const double a = (k - 180) * pi / 180;
      off[static_cast<std::size_t>(k)] =
          (numeric::normal_density(a / sd) + numeric::normal_density((a - 2 * pi) / sd) +
           numeric::normal_density((a + 2 * pi) / sd)) /
          sd;
    }
  }
  const double heading = last.heading ? last.heading->in_radians() : 0;
  lay(planes, mass, [&](GridPoint p) {
    const GridPoint d = p - last.at;
    const double r = std::max(earth::length_of(d), cell / 2);
    const double turn =
        std::remainder(std::atan2(d.east_m, d.north_m) - heading, 2 * pi) * 180 / pi;
    const double reckoned =
        off[static_cast<std::size_t>(std::lround(turn) + 180)] * radial.straight(r);
    return 0.5 * (reckoned + radial.within(r) / (2 * pi)) / r;
  });
}

void lay_course(const CuePlanes& planes, const OnCourse& course, std::vector<float>& mass) {
  const auto line = mapdata::simplify(course.line, 10);
  const auto along = mapdata::distances_along(line);
  const double length = std::max(along.back(), 1.0);
  const double cell = planes.frame.cell_m;
  const double metres_a_minute = course.speed_kmh * 1000 / 60;
  const double walked =
      std::max(course.minutes ? *course.minutes * metres_a_minute : length, 2 * cell);
  const Radial radial(walked, course.speed_cv, farthest_m(planes.frame, line.front()), cell / 2);
  const double s = std::sqrt(std::log(1 + course.speed_cv * course.speed_cv));
  // along: log-normal about what was walked, or evenly to a fifth beyond the end
  const auto along_density = [&](double a) {
    if (course.minutes) {
      const double at = std::max(a, 1.0);
      return numeric::normal_density(std::log(at / walked) / s) / (s * at);
    }
    const double blur = 0.1 * length;
    return numeric::normal_cdf((a + 0.02 * length) / (0.02 * length)) *
           numeric::normal_cdf((1.2 * length - a) / blur) / (1.2 * length);
  };
  const GridPoint last = line[line.size() - 1], before_last = line[line.size() - 2];
  const GridPoint onward =
      (1 / std::max(earth::grid_distance_m(before_last, last), 1e-9)) * (last - before_last);
  lay(planes, mass, [&](GridPoint p) {
    double best = 1e18, at = 0;
    for (std::size_t k = 1; k < line.size(); ++k) {
      const GridPoint a = line[k - 1], b = line[k];
      const double f = mapdata::nearest_fraction(a, b, p);
      const GridPoint q = a + f * (b - a);
      const double d = earth::length_of(p - q);
      if (d < best) {
        best = d;
        at = along[k - 1] + f * earth::grid_distance_m(a, b);
      }
    }
    const double beyond = mapdata::dot(p - last, onward);
    if (beyond > 0 && at >= length - 1e-6) {  // walked past its end, straight on
      at = length + beyond;
      best = std::abs(mapdata::cross(onward, p - last));
    }
    const double cross = course.start_sd_m +
                         (course.end_cross_sd_m - course.start_sd_m) * std::min(at / length, 1.5);
    const double reckoned = along_density(at) * numeric::normal_density(best / cross) / cross;
    const double r = std::max(earth::grid_distance_m(line.front(), p), cell / 2);
    return 0.5 * (reckoned + radial.within(r) / (2 * pi * r));
  });
}
}  // namespace

std::vector<float> prior_mass(const CuePlanes& planes, const Prior& prior) {
  std::vector<float> mass(planes.frame.size(), 0.0F);
  if (const auto* last = std::get_if<LastSure>(&prior)) {
    lay_last(planes, *last, mass);
  } else if (const auto* course = std::get_if<OnCourse>(&prior)) {
    lay_course(planes, *course, mass);
  } else {
    const double all =
        static_cast<double>(planes.frame.size()) * planes.frame.cell_m * planes.frame.cell_m;
    lay(planes, mass, [&](GridPoint) { return 1 / all; });
    double sum = 0;
    for (const float m : mass) sum += static_cast<double>(m);
    if (sum > 0) {
      for (float& m : mass) m = static_cast<float>(static_cast<double>(m) / sum);
    }
  }
  return mass;
}

}  // namespace lodeway::belief::detail
