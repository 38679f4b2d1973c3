#include "lodeway/reckoning/guides.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

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

Guides::Guides(const walking::Ground& ground, mapdata::Visibility visibility)
    : ground_(ground), visibility_(static_cast<std::size_t>(visibility)), index_(ground.map.lines) {}

bool Guides::is_use(std::size_t i) const {
  const auto& t = traits(line(i).label.kind);
  return !line(i).tunnel && (t.leads || t.catches);
}

const mapdata::KindTraits& Guides::traits(Kind kind) const { return ground_.kinds[kind]; }
double Guides::seen_from(Kind kind) const { return traits(kind).seen_from_m[visibility_]; }
double Guides::recognised(Kind kind) const { return traits(kind).recognised[visibility_]; }
const mapdata::LineFeature& Guides::line(std::size_t i) const { return ground_.map.lines[i]; }

std::vector<OnLine> Guides::lines_at(GridPoint p, double radius) const {
  std::vector<OnLine> out;
  for (const mapdata::NearLine& n : index_.near(p, radius)) {
    if (is_use(n.ref.line)) out.push_back({n.ref.line, n.along_m, n.distance_m, direction_at(line(n.ref.line).points, n.along_m)});
  }
  std::ranges::stable_sort(out, {}, &OnLine::away_m);
  return out;
}

std::optional<Mark> Guides::junction_at(GridPoint p, double radius) const {
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

std::optional<Mark> Guides::mark_at(GridPoint p, double radius) const {
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

std::vector<Crossed> Guides::crossed(GridPoint from, GridPoint to) const {
  const double length = earth::grid_distance_m(from, to);
  std::vector<Crossed> out;
  for (const mapdata::Crossing& c : index_.crossings(from, to)) {
    if (!is_use(c.ref.line)) continue;
    const auto& points = line(c.ref.line).points;
    const GridPoint d = points[c.ref.segment + 1] - points[c.ref.segment];
    out.push_back({c.ref.line, c.at_fraction * length, std::atan2(d.east_m, d.north_m)});
  }
  return out;
}

std::vector<Mark> Guides::marks_along(GridPoint from, GridPoint to, double beside,
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
