#include "lodeway/walking/time_model.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lodeway::walking {

namespace {

constexpr double tan_5 = 0.087488663525924, tan_12 = 0.212556561670022;
constexpr double climb_s_per_m = 6.0;    // 10 min for 100 m
constexpr double descent_s_per_m = 2.0;  // 10 min for 300 m
constexpr double din_up_s_per_m = 3600.0 / 300, din_down_s_per_m = 3600.0 / 500;
constexpr double steepest = 1.5;

double flat_s_per_m(double flat_kmh) { return 3.6 / flat_kmh; }

double din(double flat_s, double vertical_s) {
  return std::max(flat_s, vertical_s) + 0.5 * std::min(flat_s, vertical_s);
}

/// Langmuir's corrections made continuous: nothing to 5 degrees, at most the published gain between
/// 5 and 12, then rising to the published loss within some 3 degrees.
double smooth_descent_s_per_m(double down) {
  if (down <= tan_5) return 0;
  if (down <= tan_12) {
    return -descent_s_per_m * down * std::sin(std::numbers::pi * (down - tan_5) / (tan_12 - tan_5));
  }
  return descent_s_per_m * down * -std::expm1(-(down - tan_12) / 0.05);
}

/// Speed of a model on good path at this slope against its own flat speed.
double relative_speed(TimeModel model, double slope, bool on_path) {
  switch (model) {
    case TimeModel::tobler:
      return tobler_kmh(slope) / tobler_kmh(0);
    case TimeModel::swiss:
      return swiss_min_per_km(0) / swiss_min_per_km(slope);
    case TimeModel::irmischer_clarke:
      return irmischer_clarke_kmh(slope, on_path) / irmischer_clarke_kmh(0, on_path);
    case TimeModel::naismith_langmuir:
    case TimeModel::din_33466:
      break;
  }
  assert(false);
  return 1;
}

}  // namespace

Stretches stretches_of(const terrain::Profile& profile) {
  Stretches out;
  const auto& p = profile.points;
  if (p.empty()) return out;
  out.distance_m = p.back().at_m - p.front().at_m;
  out.up_m = profile.ascent_m;
  out.down_m = profile.descent_m;
  std::size_t from = 0;
  double down = 0;
  for (std::size_t i = 1; i < p.size(); ++i) {
    const double rise = p[i].height_m - p[i - 1].height_m;
    if (std::isfinite(rise) && rise < 0) down -= rise;
    const double run = p[i].at_m - p[from].at_m;
    if (run < piece_m && i + 1 < p.size()) continue;
    const double slope = (p[from].height_m - p[i].height_m) / run;
    if (slope > tan_12) {
      out.down_steep_m += down;
    } else if (slope >= tan_5) {
      out.down_moderate_m += down;
    }
    from = i;
    down = 0;
  }
  return out;
}

double naismith_langmuir_s(const Stretches& s, double flat_kmh) {
  return flat_s_per_m(flat_kmh) * s.distance_m + climb_s_per_m * s.up_m +
         descent_s_per_m * (s.down_steep_m - s.down_moderate_m);
}

double din_33466_s(const Stretches& s, double flat_kmh) {
  return din(flat_s_per_m(flat_kmh) * s.distance_m,
             din_up_s_per_m * s.up_m + din_down_s_per_m * s.down_m);
}

double tobler_kmh(double slope) { return 6 * std::exp(-3.5 * std::abs(slope + 0.05)); }

double swiss_min_per_km(double slope) {
  constexpr double c[] = {14.271,    3.6991,    2.5922,     -1.4384,   0.32105,    0.81542,
                          -0.090261, -0.20757,  0.010192,   0.028588,  -5.7466e-4, -2.1842e-3,
                          1.5176e-5, 8.6894e-5, -1.3584e-7, -1.4026e-6};
  const double tenths = slope * 10;
  if (tenths >= 4) return 17 * tenths;
  if (tenths <= -4) return -9 * tenths;
  double sum = 0;
  for (std::size_t i = std::size(c); i-- > 0;) sum = sum * tenths + c[i];
  return sum;
}

double irmischer_clarke_kmh(double slope, bool on_path) {
  const double percent = 100 * slope, centre = on_path ? -5 : -2, height = on_path ? 1 : 0.67;
  const double z = (percent - centre) / 30;
  return 3.6 * (0.11 + height * std::exp(-0.5 * z * z));
}

double pace_s_per_m(TimeModel model, double slope, bool on_path, double flat_kmh,
                    double ground_factor) {
  assert(flat_kmh > 0 && ground_factor > 0);
  const double s = std::clamp(slope, -steepest, steepest),
               flat = flat_s_per_m(flat_kmh * ground_factor);
  switch (model) {
    case TimeModel::naismith_langmuir:
      return flat + (s > 0 ? climb_s_per_m * s : std::max(smooth_descent_s_per_m(-s), -0.7 * flat));
    case TimeModel::din_33466:
      return din(flat, s > 0 ? din_up_s_per_m * s : -din_down_s_per_m * s);
    default:
      return flat / relative_speed(model, s, on_path);
  }
}

double leg_minutes(TimeModel model, const terrain::Profile& profile, bool on_path, double flat_kmh,
                   double ground_factor) {
  assert(flat_kmh > 0 && ground_factor > 0);
  const double kmh = flat_kmh * ground_factor;
  if (model == TimeModel::naismith_langmuir)
    return naismith_langmuir_s(stretches_of(profile), kmh) / 60;
  if (model == TimeModel::din_33466) return din_33466_s(stretches_of(profile), kmh) / 60;
  double seconds = 0;
  const auto& p = profile.points;
  for (std::size_t i = 1; i < p.size(); ++i) {
    const double run = p[i].at_m - p[i - 1].at_m;
    if (run <= 0) continue;
    const double slope = (p[i].height_m - p[i - 1].height_m) / run;
    seconds += run * pace_s_per_m(model, std::isfinite(slope) ? slope : 0, on_path, flat_kmh,
                                  ground_factor);
  }
  return seconds / 60;
}

}  // namespace lodeway::walking
