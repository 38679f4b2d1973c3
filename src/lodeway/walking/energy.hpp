#pragma once
/// What walking costs the body. Sources, validity and known faults: docs/method/energy.md
/// Grades are rise over run along the direction of travel, uphill positive.
#include "lodeway/terrain/profile.hpp"

namespace lodeway::walking {

/// Watts of a walker: Pandolf, Givoni & Goldman 1977 (J. Appl. Physiol. 43:577-581), with the
/// downhill correction of Santee et al. 2001/2003 where `grade_percent` is below 0.
/// `surface`: 1.0 hard road, 1.1 dirt or grass, 1.2 light brush, 1.5 heavy brush, 1.8 bog, 2.1
/// loose sand (Soule & Goldman 1972): it raises the power at a fixed speed. Validity: 0.7 to 2.2
/// m/s, down to about -20 %; jumps at grade 0 (by 2 % for an unloaded walker).
[[nodiscard]] double pandolf_w(double body_kg, double load_kg, double surface, double speed_m_s,
                               double grade_percent);

/// Watts for each kilogram of body and load together: Looney et al. 2019 (Med. Sci. Sports Exerc.
/// 51:1954-1960). Fitted up to 1.96 m/s and -40 to +45 %; standard error 0.20 W/kg level, 0.42
/// graded.
[[nodiscard]] double looney_w_per_kg(double speed_m_s, double grade_percent);

/// Joules for each kilogram and metre along the slope: Minetti et al. 2002 (J. Appl. Physiol.
/// 93:1039-1046), walking; `grade` as a fraction, held within -0.45 to 0.45. The fit gives 2.50 on
/// the level where 1.64 was measured: fit for comparing slopes, not for totals.
[[nodiscard]] double minetti_j_per_kg_m(double grade);

/// Kilojoules of a leg at an even speed by Looney et al. 2019: `minutes` spread over the profile's
/// length, each stretch at its own grade (held within -40 to 45 %); unknown heights count as level.
[[nodiscard]] double leg_kj(const terrain::Profile& profile, double minutes, double total_kg);

}  // namespace lodeway::walking
