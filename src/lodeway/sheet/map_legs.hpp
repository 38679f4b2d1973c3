#pragma once
/// The plan on the map: the blackest thing on the sheet, with the ground under it left in view.
#include "lodeway/sheet/labels.hpp"
#include "lodeway/sheet/map_frame.hpp"

namespace lodeway::sheet {

/// Under the legs: error ribbons and catching features.
void draw_doubt(Page& page, const MapFrame& frame, const trip::Plan& plan);
/// Rails beside what is followed, straight lines with an arrow, fixes, turns without a fix,
/// aiming-off bars, ways off; holds their room among the labels.
void draw_legs(Page& page, Labels& labels, const MapFrame& frame, const trip::Plan& plan);
/// Leg numbers, and beside bearing legs what the needle shows and the millimetres; clear of the
/// line.
void draw_leg_tags(Page& page, Labels& labels, const MapFrame& frame, const trip::Plan& plan);

}  // namespace lodeway::sheet
