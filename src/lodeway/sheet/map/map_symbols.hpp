#pragma once
/// What the map shows, as symbols: surfaces, lines, points. Sizes and forms: docs/method/paper.md
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/sheet/draw/labels.hpp"
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::sheet {

/// Surfaces under the contours (water, wood).
void draw_surfaces(Page& page, const MapFrame& frame, const mapdata::MapData& map);
/// Water lines, wood edges, marks of marsh, wood, scree and boulders, crags, then what is built.
void draw_lines(Page& page, const MapFrame& frame, const mapdata::MapData& map,
                const terrain::Elevation& heights);
/// Points; each holds its room among the labels.
void draw_points(Page& page, Labels& labels, const MapFrame& frame, const mapdata::MapData& map);
/// Names by rank: summits, water, settlements, huts and bridges, crags, woods, spot heights. With
/// `heights`, lakes get their level; heights in metres, or in `feet`.
void draw_names(Page& page, Labels& labels, const MapFrame& frame, const mapdata::MapData& map,
                const terrain::Elevation* heights = nullptr, bool feet = false);

}  // namespace lodeway::sheet
