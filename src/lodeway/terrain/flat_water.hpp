#pragma once
/// Water that no map shows: where heights lie dead flat. Method: docs/method/flat-water.md
#include <cstdint>
#include <functional>
#include <vector>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain {

/// Dead-flat cells that hang together over their sides.
struct FlatArea {
  double level_m = 0;  ///< mean of its cells
  std::int64_t cells = 0;
  /// Along the cells' sides, counter-clockwise; rings do not repeat their first point.
  std::vector<earth::GridPoint> outer;
  std::vector<std::vector<earth::GridPoint>> holes;  ///< islands, clockwise
};

/// What counts as dead flat. Practice, after what water does: still water has one height, and the
/// ground about it is higher but for where it runs out.
struct FlatRule {
  double same_m = 0.05;     ///< largest difference within an area: a model's float noise
  int least_cells = 32;     ///< smaller ponds are not looked for
  double most_lower = 0.1;  ///< share of the cells about it that may lie lower
};
/// What flat_areas looks for unless told otherwise, the strictest first: small areas that lie in a
/// hollow, larger ones that may stand behind a dam; of heights in whole metres also such as change
/// between two of them, as the noise of a lake does that lies between.
[[nodiscard]] std::vector<FlatRule> flat_rules(bool whole_metres);

/// Areas of cells each of which lies in 3 x 3 known cells of one height (to `same_m`), large
/// enough, about which the ground is known along half their rim at least and few cells lie lower:
/// plateaus, terraces and the steps of heights in whole metres fall away. What one rule has taken
/// no later one takes again. Water less than three cells wide is not found, nor what mostly lies
/// outside. Order: rule by rule, each in raster order of the first cells. Accuracy: outlines to one
/// cell; how many are water, and how much water is found: docs/method/flat-water.md. `go_on` is
/// asked now and then; after a false the answer is empty.
[[nodiscard]] std::vector<FlatArea> flat_areas(const Elevation& heights,
                                               const std::vector<FlatRule>& rules,
                                               const std::function<bool()>& go_on = {});

}  // namespace lodeway::terrain
