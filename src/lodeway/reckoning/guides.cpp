#include "lodeway/reckoning/guides.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "lodeway/reckoning/line_target.hpp"

namespace lodeway::reckoning {

using mapdata::Kind;

Guides::Guides(const walking::Ground& ground, mapdata::Visibility visibility,
               std::shared_ptr<const landmarks::Fixes> fixes)
    : ground_(ground),
      visibility_(static_cast<std::size_t>(visibility)),
      index_(ground.map.lines),
      fixes_(fixes ? std::move(fixes)
                   : std::make_shared<const landmarks::Fixes>(ground.elevation, ground.map,
                                                              ground.kinds)) {}

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

Mark Guides::as_mark(std::uint32_t i) const {
  const auto& fix = (*fixes_)[i];
  return {i, fix.at, fix.seen_from_m[visibility_], fix.recognised[visibility_]};
}

std::optional<Mark> Guides::mark_at(GridPoint p, double least_known, double radius) const {
  std::optional<Mark> best;
  for (const auto i : fixes_->near(p, radius)) {
    const Mark mark = as_mark(i);
    if (mark.seen_from_m <= 0 || mark.recognised < least_known) continue;
    if (!best || mark.recognised > best->recognised) best = mark;
  }
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

std::vector<Mark> Guides::marks_along(GridPoint from, GridPoint to, double beside) const {
  std::vector<Mark> out;
  for (const auto i : fixes_->along(std::array{from, to}, beside)) {
    const Mark mark = as_mark(i);
    if (mark.seen_from_m > 0) out.push_back(mark);
  }
  return out;
}

}  // namespace lodeway::reckoning
