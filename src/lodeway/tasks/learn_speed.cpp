#include "lodeway/tasks/learn_speed.hpp"

#include <cmath>
#include <numbers>

#include "lodeway/walking/time_model.hpp"

namespace lodeway::tasks {

namespace {

constexpr double degree = std::numbers::pi / 180;

std::vector<SpeedAt> curve(walking::TimeModel model, double centre) {
  std::vector<SpeedAt> out;
  for (int d = -curve_deg; d <= curve_deg; ++d) {
    const double seconds =
        walking::pace_s_per_m(model, std::tan(d * degree), true, curve_flat_kmh, 1.0);
    out.push_back({static_cast<double>(d), 3.6 / (centre * seconds)});
  }
  return out;
}

}  // namespace

Speeds speeds_of(const Learnt& learnt) {
  const auto model = learnt.basis.party.model;
  Speeds out;
  for (const auto& day : learnt.record.walked) {
    for (const auto& piece : day.pieces) {
      out.pieces.push_back({std::atan((piece.climb_m - piece.descent_m) / piece.length_m) / degree,
                            0.06 * piece.length_m / piece.minutes});
    }
  }
  out.table = curve(model, walking::default_bands(model).centre);
  if (learnt.after.pace.learnt) out.learnt = curve(model, learnt.after.pace.bands().centre);
  return out;
}

}  // namespace lodeway::tasks
