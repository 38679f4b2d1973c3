#include "lodeway/magnetic/declination.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <GeographicLib/Geocentric.hpp>
#include <GeographicLib/SphericalHarmonic.hpp>

extern "C" {
extern const unsigned char lodeway_wmm2025_cof[];
extern const unsigned lodeway_wmm2025_cof_size;
}

namespace lodeway::magnetic {

namespace {

constexpr int degree = 12;
constexpr double epoch = 2025.0, last = 2030.0;  // 2030.0 itself is outside
constexpr double radius_m = 6371200;             // the model's reference sphere
constexpr double lowest_m = -1000, highest_m = 850000;
constexpr double caution_nT = 6000, blackout_nT = 2000;

/// Coefficients in GeographicLib's order: by columns of m, sine terms without m = 0.
struct Model {
  std::vector<double> c, s, c_dot, s_dot;
};

double next_number(std::string_view& text) {
  text.remove_prefix(std::min(text.find_first_not_of(" \r\n"), text.size()));
  double value = 0;
  const auto end = std::from_chars(text.data(), text.data() + text.size(), value).ptr;
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return value;
}

Model read_model() {
  std::string_view text(reinterpret_cast<const char*>(lodeway_wmm2025_cof),
                        lodeway_wmm2025_cof_size);
  text.remove_prefix(text.find('\n') + 1);
  constexpr std::size_t cosines = (degree + 1) * (degree + 2) / 2, sines = cosines - (degree + 1);
  Model out{std::vector<double>(cosines), std::vector<double>(sines), std::vector<double>(cosines),
            std::vector<double>(sines)};
  for (int row = 0; row < degree * (degree + 3) / 2; ++row) {
    const int n = static_cast<int>(next_number(text)), m = static_cast<int>(next_number(text));
    const double g = next_number(text), h = next_number(text);
    const double g_dot = next_number(text), h_dot = next_number(text);
    const auto k = static_cast<std::size_t>(m * degree - m * (m - 1) / 2 + n);
    out.c[k] = g;
    out.c_dot[k] = g_dot;
    if (m == 0) continue;
    out.s[k - (degree + 1)] = h;
    out.s_dot[k - (degree + 1)] = h_dot;
  }
  return out;
}

struct Enu {
  double east, north, up;
};

/// Minus the gradient of the potential, in the local directions of the ellipsoid.
Enu field(const std::vector<double>& c, const std::vector<double>& s, earth::Geographic at,
          double height_m) {
  const GeographicLib::SphericalHarmonic harmonics(c, s, degree, radius_m,
                                                   GeographicLib::SphericalHarmonic::SCHMIDT);
  double x = 0, y = 0, z = 0, bx = 0, by = 0, bz = 0;
  std::vector<double> to_earth(9);
  GeographicLib::Geocentric::WGS84().Forward(at.lat_deg, at.lon_deg, height_m, x, y, z, to_earth);
  harmonics(x, y, z, bx, by, bz);
  const auto local = [&](std::size_t i) {
    return -radius_m * (to_earth[i] * bx + to_earth[3 + i] * by + to_earth[6 + i] * bz);
  };
  return {local(0), local(1), local(2)};
}

double decimal(std::chrono::year_month_day when) {
  using std::chrono::sys_days;
  const auto first = sys_days{when.year() / 1 / 1},
             next = sys_days{(when.year() + std::chrono::years{1}) / 1 / 1};
  return static_cast<int>(when.year()) + static_cast<double>((sys_days{when} - first).count()) /
                                             static_cast<double>((next - first).count());
}

}  // namespace

Result<Field> field_at(earth::Geographic at, double height_m, double decimal_year) {
  if (!(std::abs(at.lat_deg) <= 90) || !std::isfinite(at.lon_deg)) {
    return fail(FaultCode::bad_input, "latitude: expected a number within 90");
  }
  if (!(decimal_year >= epoch && decimal_year < last)) {
    return fail(FaultCode::outside_validity,
                "date: expected one from 2025-01-01 to 2029-12-31, the span of the World Magnetic "
                "Model 2025");
  }
  if (!(height_m >= lowest_m && height_m <= highest_m)) {
    return fail(FaultCode::outside_validity,
                "height: expected -1000 to 850000 m above the ellipsoid");
  }
  static const Model model = read_model();
  const double years = decimal_year - epoch;
  auto c = model.c, s = model.s;
  for (std::size_t i = 0; i < c.size(); ++i) c[i] += years * model.c_dot[i];
  for (std::size_t i = 0; i < s.size(); ++i) s[i] += years * model.s_dot[i];
  const Enu b = field(c, s, at, height_m), change = field(model.c_dot, model.s_dot, at, height_m);
  constexpr double deg = 180 / std::numbers::pi;
  Field out;
  out.north_nT = b.north;
  out.east_nT = b.east;
  out.down_nT = -b.up;
  out.horizontal_nT = std::hypot(b.north, b.east);
  out.total_nT = std::hypot(out.horizontal_nT, b.up);
  out.declination = units::Declination(units::Angle::radians(std::atan2(b.east, b.north)));
  out.inclination_deg = std::atan2(out.down_nT, out.horizontal_nT) * deg;
  out.annual_change_deg = (b.north * change.east - b.east * change.north) /
                          (out.horizontal_nT * out.horizontal_nT) * deg;
  out.declination_sigma_deg = std::min(180.0, std::hypot(0.26, 5417 / out.horizontal_nT));
  out.zone = out.horizontal_nT < blackout_nT  ? Zone::blackout
             : out.horizontal_nT < caution_nT ? Zone::caution
                                              : Zone::normal;
  return out;
}

Result<Field> field_at(earth::Geographic at, double height_m, std::chrono::year_month_day when) {
  if (!when.ok()) return fail(FaultCode::bad_input, "date: expected a day of the calendar");
  return field_at(at, height_m, decimal(when));
}

}  // namespace lodeway::magnetic
