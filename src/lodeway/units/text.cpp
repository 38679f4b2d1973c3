#include "lodeway/units/text.hpp"

#include <cmath>

#include <fmt/format.h>

namespace lodeway::units {

namespace {
constexpr double feet_up_to_m = metres_per_mile / 2, metres_up_to_m = 10000;

/// fmt writes "-0.0" for what rounds to nothing.
double unsigned_zero(double value, double resolution) {
  return std::abs(value) < resolution / 2 ? 0.0 : value;
}

/// Feet as people say them: nobody paces, reads or counts the last of "1805 ft".
double plain_feet(double feet) {
  const double step = feet < 20 ? 1 : feet < 100 ? 5 : 10;
  return step * std::round(feet / step);
}
}  // namespace

std::string angle_text(Angle angle, TextStyle style) {
  if (style.mils) return fmt::format("{:.0f} mil", unsigned_zero(angle.in_mils(), 1));
  return fmt::format("{:.1f}°", unsigned_zero(angle.in_degrees(), 0.1));
}

std::string angle_east_text(Angle east, TextStyle style) {
  const std::string size = angle_text(Angle::degrees(std::abs(east.in_degrees())), style);
  if (size == angle_text(Angle{}, style)) return size;
  return size + (east.in_degrees() < 0 ? " W" : " E");
}

std::string bearing_text(double degrees, TextStyle style, int decimals) {
  if (style.mils) {
    return fmt::format("{:04.0f} mil",
                       std::fmod(std::round(Angle::degrees(degrees).in_mils()), 6400));
  }
  const double unit = std::pow(10.0, decimals);
  const int width = decimals > 0 ? 4 + decimals : 3;
  return fmt::format("{:0{}.{}f}°", std::fmod(std::round(degrees * unit) / unit, 360), width,
                     decimals);
}

std::string length_text(double metres, TextStyle style) {
  if (style.imperial) {
    return metres < feet_up_to_m ? fmt::format("{:.0f} ft", plain_feet(metres / metres_per_foot))
                                 : fmt::format("{:.1f} mi", metres / metres_per_mile);
  }
  return metres < metres_up_to_m ? fmt::format("{:.0f} m", metres)
                                 : fmt::format("{:.2f} km", metres / 1000);
}

std::string height_text(double metres, TextStyle style) {
  return style.imperial ? fmt::format("{:.0f} ft", plain_feet(metres / metres_per_foot))
                        : fmt::format("{:.0f} m", metres);
}

int hundredths(double probability) {
  return static_cast<int>(std::floor(100 * probability + 1e-9));
}

std::string of_hundred(double probability) { return fmt::format("{}", hundredths(probability)); }

CountedKilometre counted_kilometre(double stride_m) {
  const double exact = double_paces(1000, stride_m);
  const double counted = std::floor(exact / 10 + 1e-9) * 10;
  return {exact, counted, 1000 - counted * 2 * stride_m};
}

}  // namespace lodeway::units
