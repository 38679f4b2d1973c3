#pragma once
/// What is seen from a place. Method and its limits: docs/method/visibility.md
#include <cstdint>
#include <span>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

enum class Seen : unsigned char {
  hidden,
  seen,
  unknown,  ///< a void here, or on a sight that known ground leaves free
  out_of_reach,
};

struct Sight {
  double eye_m = 1.6;        ///< above the ground of the eye's cell
  double target_m = 0;       ///< above the ground looked at
  double reach_m = 0;        ///< how far is looked, grid metres; 0: to the rim
  double refraction = 0.13;  ///< share of the Earth's curve that the air takes back (Gauss's value)
};

/// Mean radius of the Earth (IUGG 1980), metres.
inline constexpr double earth_radius_m = 6371008.8;

/// How far ground `distance_m` away sinks below the level of the eye: (1 - refraction) d^2 / (2 R),
/// metres.
[[nodiscard]] constexpr double sinks_m(double distance_m, double refraction) {
  return (1 - refraction) * distance_m * distance_m / (2 * earth_radius_m);
}

/// From the centre of the cell that holds `eye`, by reference planes (Wang, Robinson & White 2000,
/// Photogrammetric Engineering & Remote Sensing 66:87-90): the sight to a cell passes over the two
/// cells next nearer to the eye, between which its height is interpolated. All `unknown` when the
/// eye is outside or in a void. Accuracy: that of the heights; where the sight only just passes,
/// rounding (1e-9 m) decides.
[[nodiscard]] Raster<Seen> viewshed(const Elevation& heights, earth::GridPoint eye,
                                    const Sight& sight = {});

/// How many of the eyes surely see each cell.
[[nodiscard]] Raster<std::uint16_t> seen_from(const Elevation& heights,
                                              std::span<const earth::GridPoint> eyes,
                                              const Sight& sight = {});

/// One sight from place to place, at their own heights by bilinear interpolation, sampled at most
/// half a cell apart. Slower for a cell than viewshed, and it knows ground between the centres.
[[nodiscard]] Seen sees(const Elevation& heights, earth::GridPoint eye, earth::GridPoint target,
                        const Sight& sight = {});

}  // namespace lodeway::terrain
