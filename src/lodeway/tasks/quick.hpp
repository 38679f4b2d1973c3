#pragma once
/// The questions that need no ground: norths at a place, one leg between two places, the sun's day.
#include <chrono>
#include <string>

#include "lodeway/earth/sun.hpp"
#include "lodeway/magnetic/declination.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::tasks {

/// A date typed "2026-07-01". Faults: bad_input.
[[nodiscard]] Result<std::chrono::year_month_day> parse_date(const std::string& text);

struct Norths {
  earth::Geographic at;
  magnetic::Field field;
  double convergence_deg = 0;  ///< grid north east of true north: UTM's, or UPS's beyond 84 N, 80 S
  double grid_magnetic_deg = 0;  ///< magnetic = grid - this
};
/// Faults: as earth::parse_place and magnetic::field_at.
[[nodiscard]] Result<Norths> norths(const std::string& place, const std::string& date,
                                    double height_m);

struct LegRequest {
  std::string from, to, date;
  double scale = 25000, stride_m = 0.8, speed_kmh = 4, height_m = 0;
};
struct LegFigures {
  double distance_m = 0;        ///< on the ellipsoid: paces and minutes are of this
  double grid_distance_m = 0;   ///< on the grid: the map is drawn on it, map_mm is of this
  double true_bearing_deg = 0;  ///< all at the start
  double grid_bearing_deg = 0, magnetic_bearing_deg = 0;
  double back_bearing_deg = 0;  ///< magnetic
  double map_mm = 0, double_paces = 0, minutes = 0;
};
/// Both places on the UTM zone of the start. Faults: also bad_input when the two are one place, a
/// figure is not above 0, or the end lies over 30 degrees of longitude from the start's zone.
[[nodiscard]] Result<LegFigures> leg_figures(const LegRequest& request);

struct SunTimes {
  earth::SunDay day;
  std::string zone;
  std::chrono::year_month_day date;     ///< the day asked for
  std::chrono::minutes ahead_of_sun{};  ///< the zone's clock, at noon
};
/// Empty, or the question whether the zone is right.
[[nodiscard]] std::string zone_question(const SunTimes& times,
                                        units::Language language = units::Language::english);
[[nodiscard]] Result<SunTimes> sun_times(const std::string& place, const std::string& date,
                                         const std::string& zone);

}  // namespace lodeway::tasks
