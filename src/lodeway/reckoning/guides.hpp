#pragma once
/// What the map shows about a leg and its end, as a judge of legs needs it: the mark at the end, the line it
/// lies on, and whatever is like it near by.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::reckoning {

using earth::GridPoint;

/// Something at one place that a party can know for what it is.
struct Mark {
  GridPoint at;
  mapdata::Kind kind = mapdata::Kind::other;
  std::string name;
  double seen_from_m = 0, recognised = 0;
};

/// A place on a line of the map.
struct OnLine {
  std::size_t line = 0;  ///< index into ground.map.lines
  double along_m = 0;    ///< from its first point
  double away_m = 0;     ///< from the place asked for
  double direction = 0;  ///< of the line there, radians from grid north
};

/// A line that a leg crosses.
struct Crossed {
  std::size_t line = 0;
  double at_m = 0;       ///< along the leg
  double direction = 0;  ///< of the line there, radians from grid north
};

/// How easily one kind passes for another when it is met alone: 1 for the same, 0 for unlike ones;
/// *practice* groups (paths; runnel to river; walls, fences, hedges; houses; summits and cairns).
[[nodiscard]] double looks_alike(mapdata::Kind seen, mapdata::Kind wanted);

/// How far from a top the ground still leads up to it from all sides: uphill by more than 3 in 100, at most
/// `most_m`. Who comes within it finds the top by going up, whatever can be seen.
[[nodiscard]] double leads_up_within(const terrain::Elevation& heights, GridPoint top, double most_m = 150);

/// What can guide a party, as this visibility shows it. Keeps references to the ground; every const function may be called from any thread.
class Guides {
 public:
  Guides(const walking::Ground& ground, mapdata::Visibility visibility);

  /// The best recognised mark within `radius_m`: a point of the map, or a meeting of two lines that lead.
  /// A summit counts as seen from where the ground leads up to it.
  [[nodiscard]] std::optional<Mark> mark_at(GridPoint p, double radius_m = 15) const;
  /// Lines that lead or catch within `radius_m`, nearest first; tunnels left out.
  [[nodiscard]] std::vector<OnLine> lines_at(GridPoint p, double radius_m = 12) const;
  /// Lines that lead or catch and cross the straight leg, in the order they are met.
  [[nodiscard]] std::vector<Crossed> crossed(GridPoint from, GridPoint to) const;
  /// Point marks within `beside_m` of the leg (or of its continuation by `beyond_m`).
  [[nodiscard]] std::vector<Mark> marks_along(GridPoint from, GridPoint to, double beside_m,
                                              double beyond_m) const;

  [[nodiscard]] const mapdata::KindTraits& traits(mapdata::Kind kind) const;
  [[nodiscard]] double seen_from(mapdata::Kind kind) const;
  [[nodiscard]] double recognised(mapdata::Kind kind) const;
  [[nodiscard]] const mapdata::LineFeature& line(std::size_t i) const;

 private:
  [[nodiscard]] bool is_use(std::size_t line) const;
  [[nodiscard]] std::optional<Mark> junction_at(GridPoint p, double radius_m) const;
  const walking::Ground& ground_;
  std::size_t visibility_;
  mapdata::LineIndex index_;
};

}  // namespace lodeway::reckoning
