#include "lodeway/io/vector/detail/collector.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "lodeway/io/gdal/detail/talk.hpp"
#include "lodeway/io/vector/detail/tangled.hpp"

namespace lodeway::io {

using mapdata::GridPoint;
using mapdata::Kind;

struct FeatureCollector::Given {
  Meaning meaning;
  mapdata::Label label(Kind kind) const { return {kind, name}; }
  std::string name, where;
  double height_m = 0;
  bool tunnel = false, bridge = false;
};

namespace {

/// The part of a-b within the box as fractions of the way (Liang and Barsky 1984).
std::optional<std::pair<double, double>> part_within(GridPoint a, GridPoint b, const Box& box) {
  double from = 0, to = 1;
  const auto cut = [&](double step, double room) {  // step * t <= room
    if (step == 0) return room >= 0;
    const double t = room / step;
    if (step > 0)
      to = std::min(to, t);
    else
      from = std::max(from, t);
    return from <= to;
  };
  const GridPoint d = b - a;
  if (cut(-d.east_m, a.east_m - box.west) && cut(d.east_m, box.east - a.east_m) &&
      cut(-d.north_m, a.north_m - box.south) && cut(d.north_m, box.north - a.north_m)) {
    return std::pair{from, to};
  }
  return std::nullopt;
}

std::vector<GridPoint> points_of(const OGRSimpleCurve& curve) {
  std::vector<GridPoint> out;
  out.reserve(static_cast<std::size_t>(curve.getNumPoints()));
  for (int i = 0; i < curve.getNumPoints(); ++i) {
    const GridPoint p{curve.getX(i), curve.getY(i)};
    if (out.empty() || !(out.back() == p)) out.push_back(p);
  }
  return out;
}

/// Ring without its repeated end, turned the way asked for; too few points: empty.
std::vector<GridPoint> ring_of(const OGRLinearRing& ring, bool clockwise) {
  auto out = points_of(ring);
  if (out.size() > 1 && out.front() == out.back()) out.pop_back();
  if (out.size() < 3) return {};
  if ((ring.isClockwise() != 0) != clockwise) std::ranges::reverse(out);
  return out;
}

/// Area as the ring's winding gives it: where a ring crosses itself, parts count against each
/// other.
double winding_area(const OGRPolygon& polygon) {
  const auto of = [](const OGRLinearRing& ring) {
    double sum = 0;
    if (ring.getNumPoints() == 0) return sum;  // a hole of no points may be given
    const double x0 = ring.getX(0), y0 = ring.getY(0);
    for (int i = 1; i < ring.getNumPoints(); ++i) {
      sum += (ring.getX(i - 1) - x0) * (ring.getY(i) - y0) -
             (ring.getX(i) - x0) * (ring.getY(i - 1) - y0);
    }
    return std::abs(sum) / 2;
  };
  double area = of(*polygon.getExteriorRing());
  for (int i = 0; i < polygon.getNumInteriorRings(); ++i) area -= of(*polygon.getInteriorRing(i));
  return area;
}

/// Cutting and mending give empty polygons too, which have no outer ring: those are nothing.
template <class Use>
void for_each_polygon(const OGRGeometry& geometry, Use&& use) {
  if (geometry.IsEmpty()) return;
  const auto type = wkbFlatten(geometry.getGeometryType());
  if (type == wkbPolygon)
    use(*geometry.toPolygon());
  else if (OGR_GT_IsSubClassOf(type, wkbGeometryCollection)) {
    for (const OGRGeometry* part : *geometry.toGeometryCollection()) for_each_polygon(*part, use);
  }
}

}  // namespace

FeatureCollector::FeatureCollector(const FeatureRequest& request, const OGRSpatialReference& from,
                                   std::string file, bool strict)
    : request_(request),
      file_(std::move(file)),
      strict_(strict),
      from_(from),
      to_(crs_of(request.grid)) {
  geographic_ = from_.IsGeographic() != 0;
  const terrain::Frame& f = request.frame;
  frame_ = {f.west_m, f.south_m(), f.east_m(), f.north_m};
  OGRLinearRing ring;
  for (const auto& [x, y] : {std::pair{frame_.west, frame_.south},
                             {frame_.east, frame_.south},
                             {frame_.east, frame_.north},
                             {frame_.west, frame_.north},
                             {frame_.west, frame_.south}}) {
    ring.addPoint(x, y);
  }
  frame_polygon_.addRing(&ring);
  const auto out = transformation(to_, wgs84(), std::nullopt);
  const auto degrees = out ? box_through(*out, frame_) : std::nullopt;
  transformation_ = transformation(from_, to_, degrees);
  const auto back = transformation(to_, from_, degrees);
  const auto box = back ? box_through(*back, frame_) : std::nullopt;
  if (!transformation_ || !box) {
    throw FeatureRefusal{FaultCode::bad_input, file_ + ": its coordinate system " +
                                                   crs_text(from_) + " cannot be brought into " +
                                                   request.grid.name()};
  }
  source_box_ = box->grown(1e-3 * std::max(box->east - box->west, box->north - box->south));
}

void FeatureCollector::add(const OGRGeometry& geometry, std::span<const Tag> tags,
                           const std::string& name, const std::string& where) {
  if (geometry.IsEmpty()) return;
  OGREnvelope e;
  geometry.getEnvelope(&e);
  if (geographic_ && (e.MinY < -90.000001 || e.MaxY > 90.000001)) {
    throw FeatureRefusal{FaultCode::bad_input,
                         fmt::format("{}: {}: expected latitudes of at most 90 degrees, found {}",
                                     file_, where, e.MaxY > 90 ? e.MaxY : e.MinY)};
  }
  saw({e.MinX, e.MinY, e.MaxX, e.MaxY});
  if (!may_touch({e.MinX, e.MinY, e.MaxX, e.MaxY})) return;  // also where a figure is NaN
  Given given{request_.rules->meaning(tags),
              name,
              where,
              request_.rules->height_m(tags),
              request_.rules->in_tunnel(tags),
              request_.rules->on_bridge(tags)};
  const Meaning& m = given.meaning;
  if (!m.point && !m.line && !m.area && !m.centre) return no_kind_.add(where);
  const std::unique_ptr<OGRGeometry> placed(geometry.getLinearGeometry());
  GdalTalk talk;
  if (placed == nullptr || placed->transform(transformation_.get()) != OGRERR_NONE) {
    return no_place_.add(where);
  }
  placed->flattenTo2D();
  place(*placed, given);
}

void FeatureCollector::saw(const Box& box) {
  if (!(std::isfinite(box.west) && std::isfinite(box.east) && std::isfinite(box.south) &&
        std::isfinite(box.north))) {
    return;
  }
  seen_ = seen_ ? seen_->joined(box) : box;
}

std::optional<Box> FeatureCollector::lies() const {
  if (!seen_) return std::nullopt;
  const auto out = transformation(from_, wgs84(), std::nullopt);
  return out ? box_through(*out, *seen_) : std::nullopt;
}

void FeatureCollector::place(const OGRGeometry& geometry, const Given& given) {
  if (geometry.IsEmpty()) return;
  const auto type = wkbFlatten(geometry.getGeometryType());
  if (type == wkbPoint) {
    const OGRPoint& p = *geometry.toPoint();
    const Box at{p.getX(), p.getY(), p.getX(), p.getY()};
    if (!given.meaning.point || !at.meets(frame_)) return;
    count(1);
    map_.points.push_back(
        {given.label(*given.meaning.point), {p.getX(), p.getY()}, given.height_m});
  } else if (type == wkbLineString) {
    if (given.meaning.line) place_line(*geometry.toLineString(), given);
  } else if (type == wkbPolygon) {
    if (given.meaning.area || given.meaning.centre) place_polygon(*geometry.toPolygon(), given);
  } else if (OGR_GT_IsSubClassOf(type, wkbGeometryCollection)) {
    for (const OGRGeometry* part : *geometry.toGeometryCollection()) place(*part, given);
  }
}

void FeatureCollector::place_line(const OGRSimpleCurve& line, const Given& given) {
  const auto points = points_of(line);
  if (points.size() < 2) return too_few_.add(given.where);
  std::vector<GridPoint> piece;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const GridPoint a = points[i - 1], b = points[i];
    const auto part = part_within(a, b, frame_);
    if (!part) {
      put_line(std::exchange(piece, {}), given);
      continue;
    }
    const GridPoint from = part->first > 0 ? a + part->first * (b - a) : a;
    const GridPoint to = part->second < 1 ? a + part->second * (b - a) : b;
    if (piece.empty()) piece.push_back(from);
    if (!(piece.back() == to)) piece.push_back(to);
    if (part->second < 1) put_line(std::exchange(piece, {}), given);
  }
  put_line(std::move(piece), given);
}

void FeatureCollector::put_line(std::vector<GridPoint> points, const Given& given) {
  if (points.size() < 2) return;
  count(static_cast<int>(points.size()));
  map_.lines.push_back({given.label(*given.meaning.line), std::move(points), given.meaning.falls,
                        given.tunnel, given.bridge,
                        static_cast<unsigned char>(given.meaning.traffic)});
}

void FeatureCollector::place_polygon(const OGRPolygon& polygon, const Given& given) {
  const OGRLinearRing* outer = polygon.getExteriorRing();
  if (outer == nullptr || ring_of(*outer, false).empty()) return too_few_.add(given.where);
  // OpenStreetMap's areas come from an assembler that only gives valid ones.
  if (!strict_ || polygon.IsValid() != 0)
    place_valid(polygon, given);
  else
    place_mended(polygon, given);
}

void FeatureCollector::place_mended(const OGRPolygon& polygon, const Given& given) {
  constexpr double may_change = 0.01;
  const std::unique_ptr<OGRGeometry> valid(is_tangled(polygon) ? nullptr : polygon.MakeValid());
  double area = 0;
  if (valid) for_each_polygon(*valid, [&](const OGRPolygon& p) { area += p.get_Area(); });
  const double before = winding_area(polygon);
  if (!(std::abs(area - before) <= may_change * std::max(area, before)) || area == 0) {
    const OGRLinearRing& ring = *polygon.getExteriorRing();
    throw FeatureRefusal{
        FaultCode::bad_input,
        fmt::format("{}: {}: expected a ring that does not cross itself, found one that "
                    "can be read in two ways (it begins at east {:.1f}, north {:.1f} of {})",
                    file_, given.where, ring.getX(0), ring.getY(0), request_.grid.name())};
  }
  mended_.add(given.where);
  for_each_polygon(*valid, [&](const OGRPolygon& p) { place_valid(p, given); });
}

void FeatureCollector::place_valid(const OGRPolygon& polygon, const Given& given) {
  OGREnvelope e;
  polygon.getEnvelope(&e);
  if (!frame_.meets({e.MinX, e.MinY, e.MaxX, e.MaxY})) return;
  if (given.meaning.centre) {
    OGRPoint at;
    if (polygon.Centroid(&at) == OGRERR_NONE &&
        frame_.meets({at.getX(), at.getY(), at.getX(), at.getY()})) {
      count(1);
      map_.points.push_back(
          {given.label(*given.meaning.centre), {at.getX(), at.getY()}, given.height_m});
    }
  }
  if (!given.meaning.area) return;
  if (e.MinX >= frame_.west && e.MaxX <= frame_.east && e.MinY >= frame_.south &&
      e.MaxY <= frame_.north) {
    return put_area(polygon, given);
  }
  GdalTalk talk;
  const std::unique_ptr<OGRGeometry> within(polygon.Intersection(&frame_polygon_));
  if (within == nullptr) return left_out_.add(given.where);
  for_each_polygon(*within, [&](const OGRPolygon& p) { put_area(p, given); });
}

void FeatureCollector::put_area(const OGRPolygon& polygon, const Given& given) {
  mapdata::AreaFeature area{
      given.label(*given.meaning.area), ring_of(*polygon.getExteriorRing(), false), {}};
  if (area.outer.empty()) return too_few_.add(given.where);
  count(static_cast<int>(area.outer.size()));
  for (int i = 0; i < polygon.getNumInteriorRings(); ++i) {
    auto hole = ring_of(*polygon.getInteriorRing(i), true);
    count(static_cast<int>(hole.size()));
    if (!hole.empty()) area.holes.push_back(std::move(hole));
  }
  map_.areas.push_back(std::move(area));
}

void FeatureCollector::count(int points) {
  points_ += points;
  if (points_ <= most_feature_points) return;
  throw FeatureRefusal{FaultCode::too_large,
                       fmt::format("{}: expected at most {} points within the ground; "
                                   "ask for less with --bounds",
                                   file_, most_feature_points)};
}

std::vector<std::string> FeatureCollector::remarks() const {
  std::vector<std::string> out;
  const auto say = [&](const Count& c, const char* what) {
    if (c.count > 0)
      out.push_back(fmt::format("{}: {} {} (first: {})", file_, c.count, what, c.first));
  };
  if (strict_)
    say(no_kind_, "features have no kind and were left out; a rule in --kinds FILE can give one");
  say(no_place_, "features could not be brought into the grid and were left out");
  say(too_few_, "features have too few points and were left out");
  say(mended_, "rings touch or cross themselves slightly and were mended");
  say(left_out_, "areas could not be cut to the ground and were left out");
  return out;
}

}  // namespace lodeway::io
