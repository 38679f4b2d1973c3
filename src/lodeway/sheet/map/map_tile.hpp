#pragma once
/// The ground on a screen: the same symbols as on the sheet, without plan and margin, cut into
/// blocks that fit together.
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

/// A screen of 96 dots an inch shows 1 mm as 3.78 pixels: the CSS reference pixel.
/// Source: W3C, CSS Values and Units Module Level 3 (2022), section 6.2.
inline constexpr double screen_px_mm = 25.4 / 96;

struct TileLook {
  bool slope = false;  ///< steepness in one hue instead of the relief shade, never both
  bool names = true;   ///< false: somebody else writes names and spot heights over it
  /// Ground that the party keeps off is hatched from this slope on; 90 or more: only what the map
  /// itself forbids.
  double keep_off_deg = 90;
};

/// The ground within `frame`, which fills its page. Names and figures stand whole inside the frame
/// or not at all, so that blocks drawn apart meet without a cut word. Beyond 1:150 000 only
/// surfaces, shade and contours are drawn. No faults: what the ground does not hold stays paper.
[[nodiscard]] Drawing draw_map_block(const walking::Ground& ground, const MapFrame& frame,
                                     const TileLook& look, const TextMeasure& measure);

}  // namespace lodeway::sheet
