#pragma once
/// Slopes that slabs of snow slide on, and ways round them. Not for use outside route.
#include <vector>

#include "lodeway/route/field/find_path.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::route {

/// Degrees: where slabs most often break loose (McClung & Schaerer, The Avalanche Handbook).
inline constexpr float least_snow_slope = 30, most_snow_slope = 45;

/// Does any of the legs touch such a slope? Looked at each half cell. `slopes`: degrees.
[[nodiscard]] bool over_snow_slope(const terrain::Raster<float>& slopes,
                                   const std::vector<walking::Leg>& legs);

/// The least time back to `seeds` that keeps out of them.
[[nodiscard]] Field off_snow_slopes(const Prepared& prepared, const terrain::Raster<float>& slopes,
                                    const std::vector<Seed>& seeds);

}  // namespace lodeway::route
