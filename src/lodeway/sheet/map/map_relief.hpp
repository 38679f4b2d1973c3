#pragma once
/// The form of the land on a sheet: relief shade, contours, their figures.
#include "lodeway/sheet/draw/labels.hpp"
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/terrain/contours.hpp"

namespace lodeway::sheet {

struct ContourSet {
  double interval_m = 10;
  std::vector<terrain::Contour> lines;  ///< the index contours near the map
};

/// What contour figures must keep away from.
struct FigureRules {
  const terrain::Elevation* heights = nullptr;  ///< figures go where index contours crowd
  std::vector<std::vector<Mm>> legs;            ///< 5 mm of these are kept free
  bool feet = false;                            ///< what the figures count
};

/// 5 m to 1:10 000, 10 m to 1:25 000, 20 m to 1:50 000, then 50 and 100 m; in feet 20, 50, 100, 200
/// and 500.
[[nodiscard]] double contour_interval_m(double scale, bool feet = false);
/// The heights that the map shows, with a rim of two cells.
[[nodiscard]] terrain::Elevation cut_to(const terrain::Elevation& heights, const MapFrame& frame);

/// Light relief shade: white where lit, at most a quarter grey.
void draw_shade(Page& page, const MapFrame& frame, const terrain::Elevation& heights);
/// One hue by the slope of the height model, darker from 20, 25, 30 and 35 degrees; paper below and
/// where heights are not known. Instead of the relief shade, never with it.
void draw_slope_shade(Page& page, const MapFrame& frame, const terrain::Elevation& heights);
inline constexpr double slope_steps_deg[] = {20, 25, 30, 35};
/// With `half`: dashed lines at half the interval too, where they show a knoll or a hollow that no
/// whole contour shows.
[[nodiscard]] ContourSet draw_contours(Page& page, const MapFrame& frame,
                                       const terrain::Elevation& heights, double interval_m,
                                       bool half = false);
/// Figures on index contours, head uphill, 24 mm apart; dropped where there is no room, where index
/// contours stand closer than a figure is high, and where they would stand on their head.
void draw_contour_figures(Page& page, Labels& labels, const MapFrame& frame,
                          const ContourSet& contours, const FigureRules& rules = {});

}  // namespace lodeway::sheet
