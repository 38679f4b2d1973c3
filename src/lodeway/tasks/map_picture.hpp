#pragma once
/// Pictures of a piece of ground, to look at on a screen: the ground as on the sheets, with the
/// figures of its grid, a scale, names, a key, and whom to thank.
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/draw/labels.hpp"
#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/trip/planned_leg.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// Draws over the ground and under its names.
using DrawOver =
    std::function<void(sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& frame)>;

struct KeyLine {
  sheet::Ink ink;
  std::string words;
};

/// Writes `shown` of the ground as PNG, its longer side 1476 pixels. Lines of the grid are each
/// kilometre, or the next of 2, 5, 10 that keeps them 10 mm apart; their figures are the last two of
/// the kilometres, as on a sheet. Faults: io_failed.
[[nodiscard]] Result<void> draw_map_picture(const walking::Ground& ground,
                                            const terrain::Frame& shown, const std::string& png,
                                            const DrawOver& over,
                                            const std::vector<KeyLine>& key = {});

/// Cells of which `in` holds (row, column), under a tint. Outlines run half-way between cells.
void draw_mask(sheet::Page& page, const sheet::MapFrame& frame, const terrain::Frame& cells,
               const std::function<bool(int, int)>& in, const sheet::Ink& tint);

/// The least share that is within the smallest area that holds `part` (0 to 1) of all of them; 0
/// where there are none.
[[nodiscard]] double level_holding(std::span<const float> shares, double part);

/// The legs, thin and dark.
void draw_way_line(sheet::Page& page, const sheet::MapFrame& frame, const trip::PlannedWay& way);

/// Words in a ring at a place; names keep off it.
void draw_numbered(sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& frame,
                   earth::GridPoint at, const std::string& words);

/// One hue for shares, from light to dark: apart from every ink of the ground, also in grey.
[[nodiscard]] sheet::Ink share_ink(double strength);

}  // namespace lodeway::tasks
