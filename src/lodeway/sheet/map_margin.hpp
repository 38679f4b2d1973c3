#pragma once
/// Around the map: title, grid and its figures, meridians, norths, bars, romer, check line, small
/// print.
#include "lodeway/sheet/labels.hpp"
#include "lodeway/sheet/map_frame.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

struct SheetFacts {
  std::size_t number = 1, of = 1;  ///< this sheet and how many there are
  double contour_m = 10;
  bool shows_void = false;
  std::vector<std::string> neighbours;  ///< "sheet 2" and the like, in the order before, after
};

/// Grid lines each kilometre (each 10 km below 1:100 000) inside the map.
void draw_grid(Page& page, const MapFrame& frame);
/// Lines to magnetic north, 40 mm apart, for the trip's date.
void draw_meridians(Page& page, const MapFrame& frame, const trip::Norths& norths);
/// Frame, grid figures on all sides, title line.
void draw_border(Page& page, const MapFrame& frame, const trip::Plan& plan,
                 const walking::Ground& ground, const SheetFacts& facts);
/// Everything below the map.
void draw_foot(Page& page, const MapFrame& frame, const trip::Plan& plan,
               const walking::Ground& ground, const SheetFacts& facts);
/// All sheets small, the present one marked; in the map's corner that is freest.
void draw_index(Page& page, Labels& labels, const MapFrame& frame, const std::vector<MapFrame>& all,
                std::size_t present);

}  // namespace lodeway::sheet
