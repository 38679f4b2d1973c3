#pragma once
/// Where the needle points: declination from the main-field model, with what is not known of it.
#include <chrono>

#include "lodeway/earth/place.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::magnetic {

/// How far the compass may be trusted, by the horizontal intensity H (WMM2025 report):
/// caution 2000 <= H < 6000 nT, blackout H < 2000 nT (do not use a compass).
enum class Zone : unsigned char { normal, caution, blackout };

struct Field {
  units::Declination declination{units::Angle::degrees(0)};  ///< east of true north positive
  double declination_sigma_deg = 0;  ///< one sigma: sqrt(0.26^2 + (5417/H)^2), at most 180
  double annual_change_deg = 0;      ///< per year, east positive: the slope on that date
  double north_nT = 0, east_nT = 0, down_nT = 0, horizontal_nT = 0, total_nT = 0;
  double inclination_deg = 0;  ///< down positive
  Zone zone = Zone::normal;
};

/// Source:    World Magnetic Model 2025 (NOAA NCEI and BGS, 2024), coefficients byte for byte.
/// Units:     degrees, metres above the WGS 84 *ellipsoid*, UTC date.
/// Accuracy:  the report's test values within half their last digit. Local iron and rock are not in
/// it. Faults:    outside_validity (date outside 2025.0 to 2030.0, height outside -1 to 850 km),
///            bad_input (latitude beyond 90, not a number).
[[nodiscard]] Result<Field> field_at(earth::Geographic at, double height_m,
                                     std::chrono::year_month_day when);
/// The same at a decimal year, as the published tables give it.
[[nodiscard]] Result<Field> field_at(earth::Geographic at, double height_m, double decimal_year);

}  // namespace lodeway::magnetic
