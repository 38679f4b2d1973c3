#pragma once
/// What a walker can use that the map does not draw: crests, valley floors, tops and saddles, from
/// the heights alone. Method: docs/method/landforms.md. All are marked Origin::from_relief.
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::landmarks {

/// What is large enough to be noticed on foot. All *practice*.
struct ReliefScale {
  double least_cell_m = 10;       ///< finer heights are averaged to this first
  double ridge_area_m2 = 100000;  ///< of ground whose steepest ascent comes through
  double valley_area_m2 = 150000;
  double stream_area_m2 = 1e6;  ///< where the map has no streams at all, this much ground makes one
  double prominence_m = 30;     ///< of a top, and of the tops that a saddle parts
  double side_m = 150;          ///< a crest falls, a valley rises, on both sides within this ...
  double side_rise_m = 15;      ///< ... by this
  double least_length_m = 400;  ///< of a line
  double near_m = 60;           ///< a mapped line of the same meaning so near makes ours needless
  double near_point_m = 150;
};

/// The heights at the scale of the analysis; voids stay voids.
[[nodiscard]] terrain::Elevation at_relief_scale(const terrain::Elevation& heights,
                                                 const ReliefScale& scale = {});

/// Crests (Kind::ridge_line) with Strahler's order, pieces of terrain::ridge_lines along which the
/// ground falls to both sides. Points lie within 1.75 cells of the relief's crest cells.
[[nodiscard]] std::vector<mapdata::LineFeature> relief_ridges(const terrain::Elevation& heights,
                                                              const mapdata::MapData& map,
                                                              const ReliefScale& scale = {});

/// Valley floors (Kind::valley_line) that hold no mapped water, from terrain::stream_lines, pieces
/// along which the ground rises to both sides, running downhill. Where the map has no stream, river
/// or ditch anywhere, lines with scale.stream_area_m2 above them are Kind::stream instead: whether
/// water runs there is not known.
[[nodiscard]] std::vector<mapdata::LineFeature> relief_valleys(const terrain::Elevation& heights,
                                                               const mapdata::MapData& map,
                                                               const ReliefScale& scale = {});

/// Tops and their key cols (Kind::summit, Kind::saddle) of at least the stated prominence, with
/// their heights, where the map has none of the same kind near. Not within side_m of the rim or a
/// void: what is beyond may be higher.
[[nodiscard]] std::vector<mapdata::PointFeature> relief_points(const terrain::Elevation& heights,
                                                               const mapdata::MapData& map,
                                                               const ReliefScale& scale = {});

}  // namespace lodeway::landmarks
