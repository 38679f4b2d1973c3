#pragma once
/// The form of the land on a sheet: relief shade, contours, their figures.
#include "lodeway/sheet/labels.hpp"
#include "lodeway/sheet/map_frame.hpp"
#include "lodeway/terrain/contours.hpp"

namespace lodeway::sheet {

struct ContourSet {
  double interval_m = 10;
  std::vector<terrain::Contour> lines;  ///< only those near the map
};

/// 5 m to 1:10 000, 10 m to 1:25 000, 20 m to 1:50 000, then 50 and 100 m.
[[nodiscard]] double contour_interval_m(double scale);
/// The heights that the map shows, with a rim of two cells.
[[nodiscard]] terrain::Elevation cut_to(const terrain::Elevation& heights, const MapFrame& frame);

/// Light relief shade: white where lit, at most a quarter grey.
void draw_shade(Page& page, const MapFrame& frame, const terrain::Elevation& heights);
[[nodiscard]] ContourSet draw_contours(Page& page, const MapFrame& frame,
                                       const terrain::Elevation& heights, double interval_m);
/// Figures on index contours, read uphill; dropped where there is no room or they would stand on
/// their head.
void draw_contour_figures(Page& page, Labels& labels, const MapFrame& frame,
                          const ContourSet& contours);

}  // namespace lodeway::sheet
