#include <algorithm>
#include <cmath>

#include "lodeway/tasks/detail/walk_picture.hpp"
#include "lodeway/tasks/map_picture.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::tasks::detail {

namespace {
/// The way and all that has a share, with some ground around.
terrain::Frame shown(const terrain::Frame& share, const trip::PlannedWay& way) {
  constexpr double around_m = 300, cell_m = 10;
  sheet::GroundBox box;
  box.add({share.west_m, share.south_m()});
  box.add({share.east_m(), share.north_m});
  for (const auto& leg : way.legs) box.add(leg.course.line);
  return {box.west - around_m, box.north + around_m, cell_m,
          static_cast<int>(std::ceil((box.high() + 2 * around_m) / cell_m)),
          static_cast<int>(std::ceil((box.wide() + 2 * around_m) / cell_m))};
}

/// The rim of an area's cells.
void draw_rim(sheet::Page& page, const sheet::MapFrame& frame, const terrain::Frame& f,
              const walkers::Area& area) {
  auto cells = area.cells;
  std::ranges::sort(cells);
  const auto wide = static_cast<std::size_t>(f.cols);
  const auto in = [&](int r, int c) {
    return f.holds(r, c) && std::ranges::binary_search(cells, static_cast<std::size_t>(r) * wide +
                                                                  static_cast<std::size_t>(c));
  };
  std::vector<std::vector<sheet::Mm>> rim;
  for (const std::size_t i : cells) {
    const int r = static_cast<int>(i / wide), c = static_cast<int>(i % wide);
    const auto corner = [&](int down, int right) {
      return frame.on_page({f.west_m + (c + right) * f.cell_m, f.north_m - (r + down) * f.cell_m});
    };
    if (!in(r - 1, c)) rim.push_back({corner(0, 0), corner(0, 1)});
    if (!in(r + 1, c)) rim.push_back({corner(1, 0), corner(1, 1)});
    if (!in(r, c - 1)) rim.push_back({corner(0, 0), corner(1, 0)});
    if (!in(r, c + 1)) rim.push_back({corner(0, 1), corner(1, 1)});
  }
  page.strokes(std::move(rim), {sheet::ink::night, 0.35});
}
}  // namespace

Result<void> draw_overdue(const walking::Ground& ground, const trip::PlannedWay& way,
                          const walkers::Overdue& overdue, units::Language in,
                          const std::string& path) {
  const auto& share = overdue.share;
  constexpr std::pair<double, double> parts[] = {{0.95, 0.22}, {0.8, 0.30}, {0.5, 0.42}};
  constexpr std::size_t most_numbers = 12;
  const auto over = [&](sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& frame) {
    for (const auto& [part, strength] : parts) {
      const double level = level_holding(share.cells(), part);
      draw_mask(
          page, frame, share.frame(),
          [&](int r, int c) { return static_cast<double>(share[r, c]) >= level; },
          share_ink(strength));
    }
    draw_way_line(page, frame, way);
    for (const auto& area : overdue.areas) draw_rim(page, frame, share.frame(), area);
    for (std::size_t a = std::min(overdue.areas.size(), most_numbers); a-- > 0;)
      draw_numbered(page, labels, frame, overdue.areas[a].middle,
                    std::to_string(overdue.areas[a].number));
  };
  return draw_map_picture(
      ground, shown(share.frame(), way), path, over,
      {{share_ink(0.68), trip::told(in, "50 in 100 who are not home")},
       {share_ink(0.45), trip::told(in, "80 in 100: here or darker")},
       {share_ink(0.22), trip::told(in, "95 in 100: here or darker")}});
}

}  // namespace lodeway::tasks::detail
