#include <cmath>

#include <cpl_conv.h>

#include "lodeway/io/gdal/detail/crs.hpp"

namespace lodeway::io {

Box turned_near(Box degrees, double near_lon) {
  if (degrees.west > degrees.east) degrees.east += 360;
  const double turns = std::round((near_lon - (degrees.west + degrees.east) / 2) / 360);
  return {degrees.west + 360 * turns, degrees.south, degrees.east + 360 * turns, degrees.north};
}

Box wrapped(Box degrees) {
  const auto wrap = [](double lon) {
    return std::abs(lon) <= 180 ? lon : std::remainder(lon, 360);
  };
  return {wrap(degrees.west), degrees.south, wrap(degrees.east), degrees.north};
}

OGRSpatialReference crs_of(const earth::MapGrid& grid) {
  OGRSpatialReference out;
  const int epsg = grid.epsg();
  if (epsg > 0)
    out.importFromEPSG(epsg);
  else
    out.importFromWkt(grid.wkt().c_str());
  out.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  return out;
}

OGRSpatialReference recognised(const OGRSpatialReference& crs) {
  OGRSpatialReference out(crs);
  out.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  if (out.GetAuthorityCode(nullptr) != nullptr) return out;
  OGRSpatialReference bare(crs);
  char* text = nullptr;
  if (crs.exportToWkt(&text) == OGRERR_NONE) {  // WKT 1, where the shift is TOWGS84[...]
    std::string wkt(text);
    const auto from = wkt.find(",TOWGS84[");
    const auto to = from == std::string::npos ? from : wkt.find(']', from);
    if (to != std::string::npos) {
      wkt.erase(from, to - from + 1);
      bare.importFromWkt(wkt.c_str());
    }
  }
  CPLFree(text);
  int count = 0;
  int* confidence = nullptr;
  OGRSpatialReferenceH* matches = bare.FindMatches(nullptr, &count, &confidence);
  if (count > 0 && confidence[0] >= 90) {
    out = *OGRSpatialReference::FromHandle(matches[0]);
    out.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  }
  OSRFreeSRSArray(matches);
  CPLFree(confidence);
  return out;
}

std::string crs_text(const OGRSpatialReference& crs) {
  const char* authority = crs.GetAuthorityName(nullptr);
  const char* code = crs.GetAuthorityCode(nullptr);
  if (authority != nullptr && code != nullptr) return std::string(authority) + ":" + code;
  const char* name = crs.GetName();
  return name != nullptr ? name : "";
}

const OGRSpatialReference& wgs84() {
  static const OGRSpatialReference crs = [] {
    OGRSpatialReference out;
    out.importFromEPSG(4326);
    out.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
    return out;
  }();
  return crs;
}

Transformation transformation(const OGRSpatialReference& from, const OGRSpatialReference& to,
                              const std::optional<Box>& area) {
  OGRCoordinateTransformationOptions options;
  if (area) {
    const Box within = wrapped(*area);
    options.SetAreaOfInterest(within.west, within.south, within.east, within.north);
  }
  return Transformation(OGRCreateCoordinateTransformation(&from, &to, options));
}

std::optional<Box> box_through(OGRCoordinateTransformation& t, const Box& box) {
  Box out;
  const bool worked = t.TransformBounds(box.west, box.south, box.east, box.north, &out.west,
                                        &out.south, &out.east, &out.north, 21) != 0;
  if (!worked || !std::isfinite(out.west) || !std::isfinite(out.south) ||
      !std::isfinite(out.east) || !std::isfinite(out.north)) {
    return std::nullopt;
  }
  return out;
}

}  // namespace lodeway::io
