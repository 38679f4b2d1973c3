#include "lodeway/io/gpx/gpx.hpp"

#include <cmath>
#include <filesystem>
#include <memory>

#include <fmt/format.h>
#include <ogr_api.h>
#include <nlohmann/json.hpp>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/gdal/detail/outside.hpp"
#include "lodeway/io/gpx/detail/geographic_line.hpp"

namespace lodeway::io {

namespace {

constexpr std::size_t most_points = 20000;
constexpr std::uintmax_t most_bytes = 64U << 20U;

struct DestroyFeature {
  void operator()(void* f) const { OGR_F_Destroy(f); }
};

Result<Mark> mark_of(OGRFeatureH feature, const std::string& path) {
  const auto geometry = OGR_F_GetGeometryRef(feature);
  const int field = OGR_F_GetFieldIndex(feature, "name");
  Mark mark;
  if (geometry == nullptr)
    return fail(FaultCode::bad_input, path + ": a point without coordinates");
  mark.at = {OGR_G_GetY(geometry, 0), OGR_G_GetX(geometry, 0)};
  if (!(std::abs(mark.at.lat_deg) <= 90) || !(std::abs(mark.at.lon_deg) <= 180)) {
    return fail(
        FaultCode::bad_input,
        fmt::format("{}: expected a latitude within 90 and a longitude within 180, got {} {}", path,
                    mark.at.lat_deg, mark.at.lon_deg));
  }
  if (field >= 0) mark.name = OGR_F_GetFieldAsString(feature, field);
  return mark;
}

/// Points of the layer's first route or track (`group` is its index field), or of the whole layer.
Result<std::vector<Mark>> points_of(OGRLayerH layer, const char* group, const std::string& path) {
  std::vector<Mark> out;
  OGR_L_ResetReading(layer);
  int first_group = -1;
  while (const std::unique_ptr<void, DestroyFeature> f{OGR_L_GetNextFeature(layer)}) {
    if (group != nullptr) {
      const int id = OGR_F_GetFieldAsInteger(f.get(), OGR_F_GetFieldIndex(f.get(), group));
      if (first_group < 0) first_group = id;
      if (id != first_group) continue;
    }
    auto mark = mark_of(f.get(), path);
    if (!mark) return std::unexpected(mark.error());
    out.push_back(*std::move(mark));
    if (out.size() > most_points) {
      return fail(FaultCode::too_large,
                  fmt::format("{}: expected at most {} points", path, most_points));
    }
  }
  return out;
}

using detail::geographic;
using detail::xml;

double round_to(double x, double steps) { return std::round(x * steps) / steps; }

struct Marks {
  std::vector<Mark> marks;
  MarksOf of = MarksOf::waypoints;
};

Result<Marks> marks_of(const std::string& path) {
  const char* const drivers[] = {"GPX", nullptr};
  std::error_code error;
  const auto bytes = std::filesystem::file_size(path, error);
  if (error || !std::filesystem::is_regular_file(path, error))
    return fail(FaultCode::io_failed, path + ": expected a GPX file that can be read");
  if (bytes > most_bytes)
    return fail(FaultCode::too_large, path + ": expected at most 64 MiB; thin the track first");
  GdalTalk talk;
  const Progress no_progress;
  const Outside outside(path, no_progress);
  const Dataset file = outside.open(GDAL_OF_VECTOR, drivers);
  if (!file) return fail(FaultCode::io_failed, path + ": expected a GPX file that can be read");
  const struct {
    const char *name, *group;
    MarksOf of;
  } layers[] = {{"route_points", "route_fid", MarksOf::route},
                {"track_points", "track_fid", MarksOf::track},
                {"waypoints", nullptr, MarksOf::waypoints}};
  for (const auto& [name, group, of] : layers) {
    const auto layer = GDALDatasetGetLayerByName(GDALDataset::ToHandle(file.get()), name);
    if (layer == nullptr) continue;
    auto marks = points_of(layer, group, path);
    if (!marks) return std::unexpected(marks.error());
    if (!marks->empty()) return Marks{*std::move(marks), of};
  }
  return fail(FaultCode::bad_input, path + ": expected a route, a track or marked places");
}

}  // namespace

Result<std::vector<Mark>> read_gpx(const std::string& path) {
  auto out = marks_of(path);
  if (!out) return std::unexpected(out.error());
  return std::move(out->marks);
}

Result<MarksOf> sort_of_gpx(const std::string& path) {
  const auto out = marks_of(path);
  if (!out) return std::unexpected(out.error());
  return out->of;
}

Result<void> write_gpx(const trip::PlannedWay& way, const earth::MapGrid& grid,
                       const std::string& path) {
  std::string route, track;
  for (const auto& leg : way.legs) {
    const auto line = detail::walked_line(leg, grid);
    if (!line) return std::unexpected(line.error());
    const auto point = [&](const char* tag, earth::Geographic at, const std::string& name) {
      return fmt::format("    <{0} lat=\"{1:.7f}\" lon=\"{2:.7f}\"><name>{3}</name></{0}>\n", tag,
                         at.lat_deg, at.lon_deg, xml(name));
    };
    if (route.empty()) route += point("rtept", line->front(), leg.course.from);
    route += point("rtept", line->back(), leg.course.to);
    track += "    <trkseg>\n";
    for (const auto& at : *line) {
      track +=
          fmt::format("      <trkpt lat=\"{:.7f}\" lon=\"{:.7f}\"/>\n", at.lat_deg, at.lon_deg);
    }
    track += "    </trkseg>\n";
  }
  const auto text = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<gpx version=\"1.1\" creator=\"Lodeway\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
      "  <rte>\n    <name>{0}</name>\n{1}  </rte>\n  <trk>\n    <name>{0}</name>\n{2}  "
      "</trk>\n</gpx>\n",
      xml(way.name), route, track);
  return write_beside(path, text);
}

Result<void> write_geojson(const trip::PlannedWay& way, const earth::MapGrid& grid,
                           const std::string& path) {
  auto features = nlohmann::ordered_json::array();
  for (std::size_t i = 0; i < way.legs.size(); ++i) {
    const auto& leg = way.legs[i];
    const auto line = geographic(leg.course.line, grid);
    if (!line) return std::unexpected(line.error());
    auto coordinates = nlohmann::ordered_json::array();
    for (const auto& at : *line) {
      coordinates.push_back({round_to(at.lon_deg, 1e7), round_to(at.lat_deg, 1e7)});
    }
    features.push_back(
        {{"type", "Feature"},
         {"properties",
          {{"leg", i + 1},
           {"kind", leg.course.kind == walking::LegKind::along ? "along" : "bearing"},
           {"from", leg.course.from},
           {"to", leg.course.to},
           {"along", leg.course.followed.name},
           {"length_m", leg.judged.length_m},
           {"climb_m", leg.figures.climb_m},
           {"descent_m", leg.figures.descent_m},
           {"magnetic_bearing_deg", leg.magnetic_bearing.in_degrees()},
           {"map_mm", leg.counted.map_mm},
           {"double_paces", leg.counted.double_paces},
           {"aim_off_m", leg.after ? leg.after->length_m : 0.0},
           {"minutes", leg.judged.minutes}}},
         {"geometry", {{"type", "LineString"}, {"coordinates", std::move(coordinates)}}}});
  }
  const nlohmann::ordered_json out{{"type", "FeatureCollection"},
                                   {"features", std::move(features)}};
  return write_beside(path,
                      out.dump(1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
}

}  // namespace lodeway::io
