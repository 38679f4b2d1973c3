#pragma once
/// What a walker sees, crosses and is stopped by, beside a leg: facts for the card and for
/// reckoning. Method: docs/method/landmarks.md. All distances are grid metres.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/mapdata/point_index.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::landmarks {

using earth::GridPoint;

/// How a thing is met.
enum class Meeting : unsigned char { crosses, joins, passes, steepens, eases, level, top, bends };

struct Sighting {
  Meeting meeting = Meeting::crosses;
  mapdata::Kind kind = mapdata::Kind::other;
  std::string name;
  mapdata::Side side = mapdata::Side::none;
  double at_m = 0;  ///< along the leg
  GridPoint at;
};

struct StopFound {
  mapdata::Kind kind = mapdata::Kind::other;
  std::string name;
  double beyond_m = 0;
  std::vector<GridPoint> shape;  ///< some 60 m of it to each side of where it is met
};

struct DangerFound {
  mapdata::Kind kind = mapdata::Kind::cliff;
  std::string name;
  mapdata::Side side = mapdata::Side::none;  ///< none: ahead, beyond the end
  double distance_m = 0;
};

/// What a place is called on a card, as parts.
struct PlaceFound {
  mapdata::Kind kind = mapdata::Kind::other;    ///< Kind::other: nothing is there to see
  mapdata::Kind second = mapdata::Kind::other;  ///< the other line of a junction
  std::string name, second_name;
  double distance_m = 0;
};

/// One ground, made ready for these questions. Refers to its arguments, which must outlive it.
class Surroundings {
 public:
  Surroundings(const terrain::Elevation& heights, const mapdata::MapData& map,
               const mapdata::KindTable& kinds);

  /// What is met along a leg, ordered by distance, none nearer than 40 m to the next. Of more than
  /// `most` the most telling of the last 300 m (or quarter), then those that, counted by how much
  /// they tell, part the leg most evenly; no three alike in a row. Where nothing is met in the last
  /// half of a line that is followed for 300 m and more, its own last bend there is told. `followed`
  /// is the index of the line that the leg is walked on, or -1.
  [[nodiscard]] std::vector<Sighting> along(const std::vector<GridPoint>& line, int followed,
                                            mapdata::Visibility visibility,
                                            std::size_t most = 6) const;
  /// The first thing within `reach_m` past the end that lies across the direction of travel (by
  /// over 35 degrees) and stops a party; 0 m when the end stands on it. What is followed stops
  /// nobody where it goes on: its own line, others of its kind and name, and where it has no name
  /// those of its kind that begin at the end. Nor does what is called as a line within 15 m of the
  /// end: who has arrived would take it for too far. Nothing: absent.
  [[nodiscard]] std::optional<StopFound> stop_beyond(GridPoint end, units::GridBearing direction,
                                                     int followed, double reach_m = 400) const;
  /// Cliffs within `reach_m` of the leg or ahead of its end, the nearest of each name once.
  [[nodiscard]] std::vector<DangerFound> dangers(const std::vector<GridPoint>& line,
                                                 double reach_m = 200) const;
  /// What stands at a place, for its name: a point within 40 m, no house among others; else the lines
  /// within 15 m.
  [[nodiscard]] PlaceFound place(GridPoint at) const;

  [[nodiscard]] const mapdata::LineIndex& lines() const { return index_; }
  [[nodiscard]] const mapdata::MapData& map() const { return map_; }
  [[nodiscard]] const mapdata::KindTable& kinds() const { return kinds_; }
  [[nodiscard]] const terrain::Elevation& heights() const { return heights_; }

 private:
  void crossings_along(const std::vector<GridPoint>& line, int followed,
                       std::vector<Sighting>& out) const;
  void points_along(const std::vector<GridPoint>& line, mapdata::Visibility visibility,
                    std::vector<Sighting>& out) const;
  void slope_changes(const std::vector<GridPoint>& line, std::vector<Sighting>& out) const;

  const terrain::Elevation& heights_;
  const mapdata::MapData& map_;
  const mapdata::KindTable& kinds_;
  mapdata::LineIndex index_, cliffs_;
  std::vector<std::string> cliff_names_;  ///< of the lines of cliffs_
  mapdata::PointIndex points_;
  std::vector<char> among_houses_;  ///< of the map's points
};

}  // namespace lodeway::landmarks
