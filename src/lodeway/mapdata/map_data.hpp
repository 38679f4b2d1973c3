#pragma once
/// What the map shows, in the ground's grid: points, lines and surfaces, each with a kind.
#include <span>
#include <string>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/mapdata/kind.hpp"

namespace lodeway::mapdata {

using earth::GridPoint;

/// Who says that a feature is there.
enum class Origin : unsigned char {
  mapped,      ///< the map
  from_areas,  ///< worked out from the map's surfaces: edges of woods, shores
  from_relief  ///< worked out from the heights alone; nobody has been there to see
};

/// What every feature carries.
struct Label {
  Kind kind = Kind::other;
  std::string name;  ///< UTF-8, empty when it has none
  Origin origin = Origin::mapped;
};

struct PointFeature {
  Label label;
  GridPoint at;
  double height_m = 0;  ///< as the map gives it; NaN when it does not
};

/// Which side of a line, going along it, the ground falls: cliffs, and only where known.
enum class Side : unsigned char { none, left, right };

struct LineFeature {
  Label label;
  std::vector<GridPoint> points;  ///< at least two, no two following ones equal
  Side falls = Side::none;
  bool tunnel = false;  ///< under the ground: cannot be followed or seen
  bool bridge = false;  ///< over what it crosses
  /// Of lines worked out from relief: Strahler's order; of roads: traffic.hpp; 0: not known.
  unsigned char order = 0;
};

/// Rings do not repeat their first point; outer counter-clockwise, holes clockwise (seen from
/// above).
struct AreaFeature {
  Label label;
  std::vector<GridPoint> outer;
  std::vector<std::vector<GridPoint>> holes;
};

struct MapData {
  std::vector<PointFeature> points;
  std::vector<LineFeature> lines;
  std::vector<AreaFeature> areas;
};

/// Where something in the ground came from; its attribution is printed on every sheet.
struct Source {
  std::string what;         ///< "elevation" or "features"
  std::string file;         ///< the file's own name, without folders
  std::string title;        ///< for people; empty when unknown
  std::string licence;      ///< empty when unknown, and then said so
  std::string attribution;  ///< printed word for word
  std::string crs;          ///< the source's own
  std::string date;         ///< ISO 8601 of the data, empty when unknown
};

[[nodiscard]] double length_m(std::span<const GridPoint> line);
/// So that `length_m({a, b})` can be said.
[[nodiscard]] inline double length_m(const std::vector<GridPoint>& line) {
  return length_m(std::span<const GridPoint>(line));
}
/// Even-odd rule with the holes; points on the edge may fall either way.
[[nodiscard]] bool contains(const AreaFeature& area, GridPoint p);

}  // namespace lodeway::mapdata
