#pragma once
/// Figures as people read them, and the small sums between map and ground.
/// Rounded for the eye; whoever computes on takes the numbers, not these texts.
#include <string>

#include "lodeway/units/bearing.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::units {

inline constexpr double metres_per_foot = 0.3048;    ///< international foot, exact (1959 agreement)
inline constexpr double metres_per_mile = 1609.344;  ///< international mile, 5280 feet, exact

/// How texts are written. Default: degrees and metres.
struct TextStyle {
  bool mils = false;      ///< 6400 a turn
  bool imperial = false;  ///< feet below half a mile, then miles
};

/// How sentences are written. A language alone is one with degrees and metres, and where only words
/// are asked for the language is enough: hence the two ways over.
struct Speech {
  Language language = Language::english;
  TextStyle style = {};
  constexpr Speech() = default;
  constexpr Speech(Language l, TextStyle s = {}) : language(l), style(s) {}  // NOLINT(*explicit*)
  constexpr operator Language() const { return language; }                   // NOLINT(*explicit*)
};

/// "4.1°", "73 mil"; keeps its sign.
[[nodiscard]] std::string angle_text(Angle angle, TextStyle style = {});
/// "4.1° E", "0.9° W"; an angle that rounds to nothing has no side: "0.0°".
[[nodiscard]] std::string angle_east_text(Angle east, TextStyle style = {});

/// "086.3°", "1534 mil": figures before the point are always three (mils: four), as bearings are
/// said. `decimals` are of degrees; mils are whole. Never "360" and never "6400".
[[nodiscard]] std::string bearing_text(double degrees, TextStyle style = {}, int decimals = 1);
template <North N>
[[nodiscard]] std::string bearing_text(Bearing<N> b, TextStyle style = {}, int decimals = 1) {
  return bearing_text(b.in_degrees(), style, decimals);
}

/// Along the ground: "1018 m", "12.35 km" from 10 km on; "2620 ft", "2.6 mi" from half a mile on;
/// feet to the nearest 10, below 100 to 5, below 20 whole.
[[nodiscard]] std::string length_text(double metres, TextStyle style = {});
/// Heights and climb: "1344 m", "4410 ft"; feet as lengths.
[[nodiscard]] std::string height_text(double metres, TextStyle style = {});

/// A probability as so many of 100, whole and never rounded up: 0.949 is "94", 0.9999 is "99".
/// What is a whole hundredth stays one, though the nearest double lies below it: 0.29 is "29".
[[nodiscard]] int hundredths(double probability);
[[nodiscard]] std::string of_hundred(double probability);

/// Millimetres on a map of 1:scale for metres of its grid. Exact: 50 m at 1:50 000 are 1 mm.
[[nodiscard]] constexpr double map_mm(double grid_m, double scale) { return grid_m * 1000 / scale; }

/// Double paces (every second step) for metres along the ground; a stride is ONE step, metres.
[[nodiscard]] constexpr double double_paces(double metres, double stride_m) {
  return metres / (2 * stride_m);
}
/// A kilometre is often counted in whole tens of double paces. How many tens fit into it, and how
/// far short of the kilometre they end: stride 0.8 m: 625 exactly, counted as 620, 8 m short.
struct CountedKilometre {
  double exact = 0, counted = 0, short_m = 0;
};
[[nodiscard]] CountedKilometre counted_kilometre(double stride_m);

}  // namespace lodeway::units
