#pragma once
/// What sort of place a cell is, from what is seen around it.
/// Source: Jasiewicz & Stepinski 2013, Geomorphology 182:147-156 (geomorphons).
/// docs/method/landforms.md
#include <string_view>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

enum class Landform : unsigned char {
  unknown,  ///< a void, or nothing known in one of the eight directions
  flat,
  summit,
  ridge,
  shoulder,
  spur,
  slope,
  hollow,
  footslope,
  valley,
  pit,
};

/// "footslope": one English word.
[[nodiscard]] std::string_view landform_name(Landform form);

struct LandformScale {
  double reach_m = 300;   ///< how far is looked in each direction
  double flat_deg = 1.0;  ///< zenith and nadir that differ by no more count as level
};

/// In each of eight directions the steepest sight upward and downward within reach are compared:
/// the direction is higher, level or lower; how many are which gives the form. Voids are passed
/// over. Accuracy: angles are compared within 2e-4 degrees. reach_m of less than a cell looks one
/// cell far.
[[nodiscard]] Raster<Landform> landforms(const Elevation& heights, LandformScale scale = {});

/// The paper's table (its figure 4): the form for `lower` and `higher` of eight directions, both
/// from 0, together at most 8.
[[nodiscard]] Landform landform_of(int lower, int higher);

}  // namespace lodeway::terrain
