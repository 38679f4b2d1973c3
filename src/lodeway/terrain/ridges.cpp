#include "lodeway/terrain/ridges.hpp"

#include <algorithm>
#include <optional>

namespace lodeway::terrain {

namespace {

using Cell = std::pair<int, int>;

Cell end_of_ascent(const Drainage& ascent, Cell at) {
  while (ascent.to[at.first, at.second] < flows_away) {
    at = downstream(at.first, at.second, ascent.to[at.first, at.second]);
  }
  return at;
}

/// Up from `at` to the first cell of a ridge already drawn, or to the top; its order goes into
/// `order`.
std::vector<Cell> climb(const Drainage& ascent, const Raster<std::uint8_t>& drawn, Cell at,
                        int& order) {
  std::vector<Cell> path{at};
  while (drawn[at.first, at.second] == 0 && ascent.to[at.first, at.second] < flows_away) {
    at = downstream(at.first, at.second, ascent.to[at.first, at.second]);
    path.push_back(at);
  }
  order = std::min(order, std::max<int>(1, drawn[at.first, at.second]));
  return path;
}

/// The two ways up from a col, to different tops.
std::optional<StreamLine> link_across(const Elevation& heights, const Drainage& ascent,
                                      const Raster<std::uint8_t>& drawn, Cell col) {
  const Cell top = end_of_ascent(ascent, col);
  std::optional<Cell> other;
  for (std::uint8_t k = 0; k < 8; ++k) {
    const auto [r, c] = downstream(col.first, col.second, k);
    if (!heights.frame().holds(r, c) || ascent.to[r, c] == flow_unknown) continue;
    if (end_of_ascent(ascent, {r, c}) == top) continue;
    if (!other || heights[r, c] > heights[other->first, other->second]) other = Cell{r, c};
  }
  if (!other) return std::nullopt;
  int order = 255;
  auto cells = climb(ascent, drawn, *other, order);
  std::ranges::reverse(cells);
  const auto rest = climb(ascent, drawn, col, order);
  cells.insert(cells.end(), rest.begin(), rest.end());
  StreamLine link;
  link.order = order;
  for (const auto& [r, c] : cells) link.points.push_back(heights.frame().centre(r, c));
  return link;
}

}  // namespace

std::vector<StreamLine> ridge_lines(const Elevation& heights, double least_area_m2,
                                    double least_prominence_m) {
  const Frame& frame = heights.frame();
  const auto tops = summits(heights, least_prominence_m);
  Elevation upside_down(frame);
  std::ranges::transform(heights.cells(), upside_down.cells().begin(), [](float z) { return -z; });
  Raster<std::uint8_t> sinks(frame);
  for (const auto& top : tops) {
    const auto [r, c] = frame.cell_of(top.at);
    sinks[r, c] = 1;
  }
  const auto ascent = drainage(upside_down, sinks);
  auto lines = stream_lines(ascent, least_area_m2);
  Raster<std::uint8_t> drawn(frame);
  for (const auto& line : lines) {
    for (const auto& p : line.points) {
      const auto [r, c] = frame.cell_of(p);
      drawn[r, c] = std::max(drawn[r, c], static_cast<std::uint8_t>(line.order));
    }
  }
  for (const auto& top : tops) {
    if (!top.has_col) continue;
    auto link = link_across(heights, ascent, drawn, frame.cell_of(top.col));
    if (link) lines.push_back(std::move(*link));
  }
  return lines;
}

}  // namespace lodeway::terrain
