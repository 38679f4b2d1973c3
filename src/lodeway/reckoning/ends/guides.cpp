#include "lodeway/reckoning/ends/guides.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "lodeway/mapdata/strokes.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"

namespace lodeway::reckoning {

using mapdata::Kind;

namespace {
std::vector<mapdata::LineFeature> lines_as_taken(const walking::Ground& ground) {
  constexpr double most_turn_deg = 75, reach_m = 30;
  std::map<Kind, std::vector<std::size_t>> of_kind;
  for (std::size_t i = 0; i < ground.map.lines.size(); ++i) {
    const auto& l = ground.map.lines[i];
    const auto& t = ground.kinds[l.label.kind];
    if (!l.tunnel && l.points.size() >= 2 && (t.leads || t.catches))
      of_kind[l.label.kind].push_back(i);
  }
  std::vector<mapdata::LineFeature> out;
  for (const auto& [kind, indices] : of_kind) {
    std::vector<std::vector<GridPoint>> pieces;
    for (const auto i : indices) pieces.push_back(ground.map.lines[i].points);
    for (auto& stroke : mapdata::strokes(pieces, most_turn_deg, reach_m)) {
      const auto& name = ground.map.lines[indices[stroke.parts.front()]].label.name;
      const bool one_name = std::ranges::all_of(stroke.parts, [&](std::size_t part) {
        return ground.map.lines[indices[part]].label.name == name;
      });
      out.push_back({{kind, one_name ? name : ""}, std::move(stroke.points)});
    }
  }
  return out;
}
}  // namespace

TakenLines::TakenLines(const walking::Ground& ground)
    : lines(lines_as_taken(ground)), index(lines) {}

Guides::Guides(const walking::Ground& ground, const sight::PartyChances& chances,
               std::shared_ptr<const landmarks::Fixes> fixes,
               std::shared_ptr<const TakenLines> taken)
    : ground_(ground),
      chances_(chances),
      visibility_(static_cast<std::size_t>(chances.visibility)),
      taken_(taken ? std::move(taken) : std::make_shared<const TakenLines>(ground)),
      fixes_(fixes ? std::move(fixes)
                   : std::make_shared<const landmarks::Fixes>(ground.elevation, ground.map,
                                                              ground.kinds)) {}

const mapdata::KindTraits& Guides::traits(Kind kind) const { return ground_.kinds[kind]; }
double Guides::seen_from(Kind kind) const { return traits(kind).seen_from_m[visibility_]; }

std::vector<OnLine> Guides::lines_at(GridPoint p, double radius) const {
  std::vector<OnLine> out;
  for (const mapdata::NearLine& n : taken_->index.near(p, radius)) {
    const auto& points = line(n.ref.line).points;
    auto on = n.ref.segment;
    if (n.at == points[on + 1] && on + 2 < points.size()) ++on;  // at a corner: as it goes on
    const auto lie = units::Lie::of(earth::grid_bearing(points[on], points[on + 1]));
    out.push_back({n.ref.line, n.along_m, n.distance_m, lie, n.at, on});
  }
  std::ranges::stable_sort(out, {}, &OnLine::away_m);
  return out;
}

Mark Guides::mark(std::uint32_t i) const {
  const auto& fix = (*fixes_)[i];
  return {i, fix.at, fix.seen_from_m[visibility_], chances_.knows(fix, ground_.kinds)};
}

std::optional<Mark> Guides::mark_at(GridPoint p, double least_known, double radius) const {
  std::optional<Mark> best;
  for (const auto i : fixes_->near(p, radius)) {
    const Mark m = mark(i);
    if (m.seen_from_m <= 0 || m.recognised < least_known) continue;
    if (!best || m.recognised > best->recognised) best = m;
  }
  return best;
}

std::vector<Crossed> Guides::crossed(GridPoint from, GridPoint to) const {
  const double length = earth::grid_distance_m(from, to);
  std::vector<Crossed> out;
  for (const mapdata::Crossing& c : taken_->index.crossings(from, to)) {
    const auto& points = line(c.ref.line).points;
    const auto lie =
        units::Lie::of(earth::grid_bearing(points[c.ref.segment], points[c.ref.segment + 1]));
    out.push_back({c.ref.line, c.at_fraction * length, lie});
  }
  return out;
}

std::vector<Mark> Guides::marks_along(GridPoint from, GridPoint to, double beside) const {
  std::vector<Mark> out;
  for (const auto i : fixes_->along(std::array{from, to}, beside)) {
    const Mark m = mark(i);
    if (m.seen_from_m > 0) out.push_back(m);
  }
  return out;
}

}  // namespace lodeway::reckoning
