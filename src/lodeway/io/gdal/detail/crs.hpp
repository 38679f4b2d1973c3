#pragma once
/// Coordinate systems of files, and from one to another through PROJ. Internal to io.
#include <algorithm>
#include <memory>
#include <optional>
#include <string>

#include <ogr_spatialref.h>

#include "lodeway/earth/map_grid.hpp"

namespace lodeway::io {

/// West, south, east, north in the units of its system.
struct Box {
  double west = 0, south = 0, east = 0, north = 0;
  [[nodiscard]] bool meets(const Box& o) const {
    return west <= o.east && o.west <= east && south <= o.north && o.south <= north;
  }
  /// The least box that holds both.
  [[nodiscard]] Box joined(const Box& o) const {
    return {std::min(west, o.west), std::min(south, o.south), std::max(east, o.east),
            std::max(north, o.north)};
  }
  [[nodiscard]] Box grown(double by) const {
    return {west - by, south - by, east + by, north + by};
  }
};

/// A box of degrees made to run eastward (east of the 180th meridian on beyond 180), and turned
/// whole times round the Earth to where its middle is nearest to `near_lon`.
[[nodiscard]] Box turned_near(Box degrees, double near_lon);
/// Within -180 to 180; west is greater than east where the 180th meridian lies between.
[[nodiscard]] Box wrapped(Box degrees);

[[nodiscard]] OGRSpatialReference crs_of(const earth::MapGrid& grid);
/// The system as the EPSG registry has it, when it can be told which; otherwise as the file says. A
/// datum shift that some program wrote into the file is dropped then: GDAL fills old .prj files
/// with the first shift of the datum that it knows, whatever country that is for.
[[nodiscard]] OGRSpatialReference recognised(const OGRSpatialReference& crs);
/// "EPSG:26713", else the system's name.
[[nodiscard]] std::string crs_text(const OGRSpatialReference& crs);
[[nodiscard]] const OGRSpatialReference& wgs84();

using Transformation = std::unique_ptr<OGRCoordinateTransformation>;
/// Axes are east, north on both sides. `area` in degrees (running eastward) chooses among datum
/// shifts. May be null.
[[nodiscard]] Transformation transformation(const OGRSpatialReference& from,
                                            const OGRSpatialReference& to,
                                            const std::optional<Box>& area);
/// The box of a box, its sides densified; nothing when it cannot be projected.
[[nodiscard]] std::optional<Box> box_through(OGRCoordinateTransformation& t, const Box& box);

}  // namespace lodeway::io
