#pragma once
/// Around the map: title, grid and its figures, meridians, norths, bars, romer, check line, small
/// print.
#include "lodeway/sheet/map/cover.hpp"
#include "lodeway/sheet/draw/labels.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

struct SheetFacts {
  std::size_t number = 0;                        ///< index of this sheet
  const std::vector<SheetPlace>* all = nullptr;  ///< all of the way's, this one among them
  double contour_m = 10;
  bool shows_void = false;
};

/// Grid lines each kilometre (each 10 km below 1:100 000) inside the map.
void draw_grid(Page& page, const MapFrame& frame);
/// Lines to magnetic north, 40 mm apart, for the trip's date.
void draw_meridians(Page& page, const MapFrame& frame, const trip::Norths& norths);
/// One such line from its foot to its head, with the tip of a needle near the head.
void draw_meridian(Page& page, Mm foot, Mm head, bool tipped = true);
/// The grid's figures outside the map's frame, without those near a corner: for small maps.
void draw_grid_figures(Page& page, const MapFrame& frame, const Type& type);
/// Frame, grid figures on all sides, title line, key of the sheets, and where the way goes on.
void draw_border(Page& page, const MapFrame& frame, const trip::Plan& plan,
                 const walking::Ground& ground, const SheetFacts& facts);
/// Everything below the map.
void draw_foot(Page& page, const MapFrame& frame, const trip::Plan& plan,
               const walking::Ground& ground, const SheetFacts& facts);
/// All sheets small in a box of the page, the present one filled (none when it is no index).
void draw_key(Page& page, const Room& box, const std::vector<SheetPlace>& all, std::size_t present);

}  // namespace lodeway::sheet
