#include "lodeway/walking/energy.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::walking {

double pandolf_w(double body_kg, double load_kg, double surface, double speed_m_s,
                 double grade_percent) {
  const double w = body_kg, l = load_kg, v = speed_m_s, g = grade_percent, ratio = l / w;
  const double level = 1.5 * w + 2.0 * (w + l) * ratio * ratio;
  const double power = level + surface * (w + l) * (1.5 * v * v + 0.35 * v * g);
  if (g >= 0) return power;
  // Both terms take the grade with its sign; programs that feed its amount get nonsense.
  const double correction =
      surface * (g * (w + l) * v / 3.5 - (w + l) * (g + 6) * (g + 6) / w + (25 - v * v));
  return power - correction;
}

double looney_w_per_kg(double speed_m_s, double grade_percent) {
  const double s = speed_m_s, g = grade_percent;
  return 1.44 + 1.94 * std::pow(s, 0.43) + 0.24 * std::pow(s, 4) +
         0.34 * s * g * (1 - std::pow(1.05, 1 - std::pow(1.11, g + 32)));
}

double minetti_j_per_kg_m(double grade) {
  const double i = std::clamp(grade, -0.45, 0.45);
  return ((((280.5 * i - 58.7) * i - 76.8) * i + 51.9) * i + 19.6) * i + 2.5;
}

double leg_kj(const terrain::Profile& profile, double minutes, double total_kg) {
  const auto& p = profile.points;
  if (p.size() < 2 || minutes <= 0) return 0;
  const double length = p.back().at_m - p.front().at_m, speed = length / (60 * minutes);
  double joules = 0;
  for (std::size_t i = 1; i < p.size(); ++i) {
    const double run = p[i].at_m - p[i - 1].at_m;
    if (run <= 0) continue;
    const double grade = 100 * (p[i].height_m - p[i - 1].height_m) / run;
    const double held = std::isfinite(grade) ? std::clamp(grade, -40.0, 45.0) : 0.0;
    joules += looney_w_per_kg(speed, held) * total_kg * run / speed;
  }
  return joules / 1000;
}

}  // namespace lodeway::walking
