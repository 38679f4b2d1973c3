#include "lodeway/reckoning/surroundings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <span>

#include "lodeway/reckoning/line_target.hpp"

namespace lodeway::reckoning {

using mapdata::Kind;

double looks_alike(Kind seen, Kind wanted) {
  if (seen == wanted) return 1;
  using enum Kind;
  static constexpr std::array<std::array<Kind, 5>, 5> groups{
      {{path, faint_path, track, road, path},
       {stream, river, ditch, stream, stream},
       {wall, fence, hedge, wall, wall},
       {building, ruin, hut, shelter, sheepfold},
       {summit, spot_height, cairn, trig_point, summit}}};
  for (const auto& group : groups) {
    if (std::ranges::find(group, seen) != group.end() &&
        std::ranges::find(group, wanted) != group.end())
      return 0.4;
  }
  return 0;
}

double leads_up_within(const terrain::Elevation& heights, GridPoint top, double most) {
  constexpr int directions = 16;
  const double step = heights.empty() ? most : std::max(heights.frame().cell_m, 10.0);
  double within = most;
  for (int i = 0; i < directions && within > 0; ++i) {
    const double angle = 2 * std::numbers::pi * i / directions;
    double last = terrain::height_at(heights, top);
    // the first step is free: the map's summit may stand a cell beside the height model's
    for (double d = step; d <= within; d += step) {
      const double here = terrain::height_at(heights, top + d * GridPoint{std::sin(angle), std::cos(angle)});
      if (d > 1.5 * step && !(last - here > 0.03 * step)) within = d - step;
      last = here;
    }
  }
  return within > 1.5 * step ? within : 0;
}

Surroundings::Surroundings(const walking::Ground& ground, mapdata::Visibility visibility)
    : ground_(ground), visibility_(static_cast<std::size_t>(visibility)) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  boxes_.reserve(ground.map.lines.size());
  for (const auto& l : ground.map.lines) {
    Box box{inf, inf, -inf, -inf};
    const auto& t = traits(l.label.kind);
    if (!l.tunnel && (t.leads || t.catches) && l.points.size() > 1) {
      for (const GridPoint p : l.points) {
        box = {std::min(box.west, p.east_m), std::min(box.south, p.north_m),
               std::max(box.east, p.east_m), std::max(box.north, p.north_m)};
      }
    }
    boxes_.push_back(box);
  }
}

const mapdata::KindTraits& Surroundings::traits(Kind kind) const { return ground_.kinds[kind]; }
double Surroundings::seen_from(Kind kind) const { return traits(kind).seen_from_m[visibility_]; }
double Surroundings::recognised(Kind kind) const { return traits(kind).recognised[visibility_]; }
const mapdata::LineFeature& Surroundings::line(std::size_t i) const { return ground_.map.lines[i]; }

std::vector<OnLine> Surroundings::lines_at(GridPoint p, double radius) const {
  const Box near{p.east_m - radius, p.north_m - radius, p.east_m + radius, p.north_m + radius};
  std::vector<OnLine> out;
  for (std::size_t i = 0; i < boxes_.size(); ++i) {
    if (apart(boxes_[i], near)) continue;
    const std::span<const GridPoint> points(line(i).points);
    const double along = along_of(points, p);
    const double away = earth::grid_distance_m(point_along(points, along), p);
    if (away <= radius) out.push_back({i, along, away, direction_at(points, along)});
  }
  std::ranges::stable_sort(out, {}, &OnLine::away_m);
  return out;
}

std::optional<Mark> Surroundings::junction_at(GridPoint p, double radius) const {
  // two lines that lead, either both passing, or one ending on the other
  const auto here = lines_at(p, radius);
  std::vector<Kind> kinds;
  for (const OnLine& on : here) {
    if (traits(line(on.line).label.kind).leads) kinds.push_back(line(on.line).label.kind);
  }
  if (kinds.size() < 2) return std::nullopt;
  // it is known no better than the second line that makes it
  std::ranges::sort(kinds, std::greater{}, [&](Kind k) { return recognised(k); });
  const double known = std::min(recognised(Kind::junction), recognised(kinds[1]));
  const double seen = std::max(seen_from(Kind::junction), seen_from(kinds[1]));
  return Mark{p, Kind::junction, "", seen, known};
}

std::optional<Mark> Surroundings::mark_at(GridPoint p, double radius) const {
  std::optional<Mark> best;
  for (const auto& f : ground_.map.points) {
    if (std::abs(f.at.east_m - p.east_m) > radius || earth::grid_distance_m(f.at, p) > radius) continue;
    double seen = seen_from(f.label.kind);
    const double known = recognised(f.label.kind);
    if (f.label.kind == Kind::summit) seen = std::max(seen, leads_up_within(ground_.elevation, f.at));
    if (seen <= 0 || known <= 0) continue;
    if (!best || known > best->recognised) best = Mark{f.at, f.label.kind, f.label.name, seen, known};
  }
  const auto junction = junction_at(p, radius);
  if (junction && (!best || junction->recognised > best->recognised)) best = junction;
  return best;
}

std::vector<Crossed> Surroundings::crossed(GridPoint from, GridPoint to) const {
  const GridPoint d = to - from;
  const double length = std::hypot(d.east_m, d.north_m);
  const Box leg{std::min(from.east_m, to.east_m), std::min(from.north_m, to.north_m),
                std::max(from.east_m, to.east_m), std::max(from.north_m, to.north_m)};
  std::vector<Crossed> out;
  for (std::size_t i = 0; i < boxes_.size(); ++i) {
    if (apart(boxes_[i], leg)) continue;
    const auto& points = line(i).points;
    for (std::size_t k = 1; k < points.size(); ++k) {
      const GridPoint a = points[k - 1] - from, e = points[k] - points[k - 1];
      const double det = d.east_m * e.north_m - d.north_m * e.east_m;
      if (det == 0) continue;
      const double t = (a.east_m * e.north_m - a.north_m * e.east_m) / det;
      const double u = (a.east_m * d.north_m - a.north_m * d.east_m) / det;
      if (t >= 0 && t <= 1 && u >= 0 && u < 1)
        out.push_back({i, t * length, std::atan2(e.east_m, e.north_m)});
    }
  }
  std::ranges::stable_sort(out, {}, &Crossed::at_m);
  return out;
}

std::vector<Mark> Surroundings::marks_along(GridPoint from, GridPoint to, double beside,
                                            double beyond) const {
  const GridPoint d = to - from;
  const double length = std::hypot(d.east_m, d.north_m);
  std::vector<Mark> out;
  if (length <= 0) return out;
  for (const auto& f : ground_.map.points) {
    const GridPoint w = f.at - from;
    const double along = (w.east_m * d.east_m + w.north_m * d.north_m) / length;
    const double across = (w.east_m * d.north_m - w.north_m * d.east_m) / length;
    if (along < 0 || along > length + beyond || std::abs(across) > beside) continue;
    const double seen = seen_from(f.label.kind);
    if (seen > 0)
      out.push_back({f.at, f.label.kind, f.label.name, seen, recognised(f.label.kind)});
  }
  return out;
}

}  // namespace lodeway::reckoning
