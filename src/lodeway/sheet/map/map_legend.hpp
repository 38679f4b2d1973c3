#pragma once
/// The key of a sheet: what each sign on it means. A sign stands in the key if and only if it is on
/// that sheet, drawn by the code that draws the map. The order never changes, so that the eye
/// learns it. Layout: docs/method/paper.md
#include <string>
#include <vector>

#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/sheet/map/map_hatch.hpp"
#include "lodeway/sheet/map/map_margin.hpp"

namespace lodeway::sheet {

/// What the map shows besides its features: told by those who drew it.
struct Shown {
  KeptOff kept_off;
  bool unknown = false;   ///< ground without heights
  bool contours = false;  ///< any contour line at all
};

/// The words of the key in their order, those of the plan first. For tests too.
[[nodiscard]] std::vector<std::string> legend_words(const Page& page, const MapFrame& frame,
                                                    const trip::Plan& plan,
                                                    const mapdata::MapData& map, const Shown& shown,
                                                    double contour_m);

/// Draws it with its upper left corner at `at`, as wide as the map. `page` holds what was drawn on
/// the map: the plan's signs are read off it.
void draw_legend(Page& page, Mm at, const MapFrame& frame, const trip::Plan& plan,
                 const mapdata::MapData& map, const Shown& shown, double contour_m);

}  // namespace lodeway::sheet
