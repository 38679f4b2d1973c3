/// What marks must keep to, and what is odd about them.
#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "lodeway/learn/record/record.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::learn {

namespace {

std::unexpected<Fault> refuse(const std::string& what) { return fail(FaultCode::bad_input, what); }

bool within(const std::vector<double>& values, double least, double most) {
  return std::ranges::all_of(values,
                             [&](double v) { return std::isfinite(v) && v >= least && v <= most; });
}

Result<void> check_misses(const Measured& m) {
  if (!(m.leg_m >= 50 && m.leg_m <= 5000))
    return refuse(fmt::format("leg_m: expected metres from 50 to 5000, got {}", m.leg_m));
  if (m.across_m.empty() && m.along_m.empty())
    return refuse("across_m: expected the miss at each peg, right positive; an empty box is not 0");
  // Half the leg away is another place, not a miss: 30 degrees off counts as a gross error.
  const double most = 0.5 * m.leg_m;
  for (const auto* list : {&m.across_m, &m.along_m}) {
    const auto worst = std::ranges::max_element(
        *list, {}, [](double v) { return std::isfinite(v) ? std::abs(v) : HUGE_VAL; });
    if (worst != list->end() && !(std::abs(*worst) <= most)) {
      return refuse(fmt::format("{}: expected at most {:.0f} m off on a leg of {:.0f} m, got {}",
                                list == &m.across_m ? "across_m" : "along_m", most, m.leg_m,
                                *worst));
    }
  }
  return {};
}

Result<void> check_counts(const Measured& m) {
  if (!(m.trials >= 0 && m.trials <= 10000))
    return refuse(fmt::format("trials: expected a number from 0 to 10000, got {}", m.trials));
  if (!(m.missed >= 0 && m.missed <= m.trials))
    return refuse(
        fmt::format("missed: expected at most the {} trials, got {}", m.trials, m.missed));
  return {};
}

}  // namespace

Result<void> check(const Measured& m) {
  if (!m.date.ok()) return refuse("date: expected a day of the calendar, like 2026-10-03");
  if (m.exercise != Exercise::followed) {
    if (auto good = check_counts(m); !good) return good;
  }
  switch (m.exercise) {
    case Exercise::bearing:
    case Exercise::triangle:
      return check_misses(m);
    case Exercise::pacing:
      if (!(m.course_m >= 50 && m.course_m <= 1000))
        return refuse(fmt::format("course_m: expected metres from 50 to 1000, got {}", m.course_m));
      // A step of 0.25 m to 1.5 m; single paces counted for double ones come out below 0.75 m and
      // are asked about.
      if (m.double_paces.empty() || !within(m.double_paces, m.course_m / 3.0, m.course_m / 0.5))
        return refuse(
            fmt::format("double_paces: expected {:.0f} to {:.0f} for each run of {:.0f} m",
                        m.course_m / 3, m.course_m / 0.5, m.course_m));
      return {};
    case Exercise::time:
      if (m.guessed_min.empty() || m.guessed_min.size() != m.true_min.size() ||
          !within(m.guessed_min, 0.1, 600) || !within(m.true_min, 0.1, 600))
        return refuse("guessed_min: expected as many as true_min, minutes from 0.1 to 600");
      return {};
    case Exercise::doubt:
      if (m.after_m.empty() || !within(m.after_m, 0, 10000))
        return refuse("after_m: expected metres from 0 to 10000 for each planted bearing");
      return {};
    case Exercise::drops:
      if (!within(m.height_off_m, -500, 500) || !within(m.fall_off_deg, -180, 180) ||
          !within(m.bearing_off_deg, -180, 180))
        return refuse("drops: expected height_off_m within 500, degrees within 180");
      if (m.trials <= 0 && m.height_off_m.empty() && m.fall_off_deg.empty() &&
          m.bearing_off_deg.empty())
        return refuse("drops: expected trials, or what was off; an empty box is not 0");
      return {};
    case Exercise::followed:
      if (!(m.walked_km > 0 && m.walked_km <= 1000 && m.missed >= 0 && m.missed <= 1000))
        return refuse("walked_km: expected above 0, at most 1000, and missed from 0 to 1000");
      return {};
    case Exercise::setting:
    case Exercise::features:
    case Exercise::forks:
    case Exercise::lines:
      if (m.trials <= 0) return refuse("trials: expected at least 1; an empty box is not 0");
      if (!(m.found >= 0 && m.found <= m.trials) ||
          !(m.exposure_per_m >= 0 && m.exposure_per_m < 1e3))
        return refuse("found: expected at most the trials, and metres searched by area in 1/m");
      if (!within(m.after_m, 0, 10000)) return refuse("after_m: expected metres from 0 to 10000");
      return {};
  }
  return {};
}

std::vector<std::string> odd(const Measured& m, units::Language l) {
  std::vector<std::string> out;
  if (m.exercise == Exercise::pacing && !m.double_paces.empty()) {
    const double most = *std::ranges::max_element(m.double_paces);
    if (most > m.course_m)  // steps under half a metre
      out.push_back(
          units::said(l,
                      "{:.0f} double paces in {:.0f} m are steps of {:.2f} m: single paces counted "
                      "as double ones?",
                      "{:.0f} Doppelschritte auf {:.0f} m sind Schritte von {:.2f} m: einfache "
                      "Schritte als doppelte gezählt?",
                      most, m.course_m, m.course_m / (2 * most)));
  }
  if (m.exercise == Exercise::bearing && m.across_m.size() >= 6 && m.leg_m > 0) {
    const auto n = static_cast<double>(m.across_m.size());
    const double mean = std::accumulate(m.across_m.begin(), m.across_m.end(), 0.0) / n;
    double squares = 0;
    for (const double a : m.across_m) squares += (a - mean) * (a - mean);
    const double error = std::sqrt(squares / (n - 1) / n);
    const double degrees = std::atan2(std::abs(mean), m.leg_m) * 180 / 3.14159265358979;
    if (degrees > 2 && std::abs(mean) > 4 * error)
      out.push_back(units::said(
          l,
          "all bearings lie {:.0f}° to the {}: was the declination set, and to the "
          "right side?",
          "alle Peilungen liegen {:.0f}° zu weit {}: war die Missweisung eingestellt, "
          "und zur richtigen Seite?",
          degrees, mean > 0 ? units::in(l, "right", "rechts") : units::in(l, "left", "links")));
  }
  return out;
}

}  // namespace lodeway::learn
