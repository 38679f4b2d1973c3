#pragma once
/// A projected metric grid (any projected CRS): the ground's own coordinates.
/// Axis order is always east, north, whatever the CRS's authority says.
/// Copies are cheap and share the projection; every const function may be called from any thread.
#include <memory>
#include <string>

#include "lodeway/earth/place.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::earth {

class MapGrid {
 public:
  /// The UTM zone (WGS 84) that holds the place, with the Norway and Svalbard exceptions;
  /// Faults: outside_validity beyond 84 N or 80 S.
  [[nodiscard]] static Result<MapGrid> utm_at(Geographic centre);
  /// "EPSG:25832", or any text that names a projected CRS in metres (WKT, PROJ string).
  /// UTM on WGS 84 (EPSG:326xx/327xx) is exact to 5 nm (Karney 2011); others are PROJ's.
  /// Faults: bad_input when it is not known, not projected, not in metres, or counts west or south.
  [[nodiscard]] static Result<MapGrid> from_text(const std::string& crs);

  MapGrid();  ///< UTM 31N; only a place holder, so that plain structs can hold one
  /// Accuracy: to and back again agree within 1e-6 m within the grid's area of use.
  /// Faults: outside_validity where the projection does not go, or over one degree outside the
  /// CRS's area of use; UTM on WGS 84: over 30 degrees from its middle meridian.
  [[nodiscard]] Result<GridPoint> to_grid(Geographic at) const;
  [[nodiscard]] Result<Geographic> to_geographic(GridPoint at) const;
  /// Grid north clockwise from true north at a place; by finite differences within 1e-6 degrees
  /// (PROJ's own factors are wrong for CRSs that count the north first).
  [[nodiscard]] Result<units::Convergence> convergence(GridPoint at) const;
  /// Grid metres for one metre on the ellipsoid, along a grid bearing (conformal grids: any).
  /// Accuracy 1e-7.
  [[nodiscard]] Result<double> scale(GridPoint at, units::GridBearing along = {}) const;

  [[nodiscard]] int epsg() const;                  ///< 0 when it has none
  [[nodiscard]] const std::string& name() const;   ///< "WGS 84 / UTM zone 29N"
  [[nodiscard]] const std::string& wkt() const;    ///< OGC WKT, for files
  [[nodiscard]] std::string datum_remark() const;  ///< empty, or what is not certain of its datum

 private:
  struct Impl;
  explicit MapGrid(std::shared_ptr<const Impl> impl);
  std::shared_ptr<const Impl> impl_;
};

}  // namespace lodeway::earth
