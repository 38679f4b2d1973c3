#pragma once
/// What a ground holds for finding ways, whoever walks: its fixes, its lines cut at them, its
/// slopes. Not for use outside route.
#include <cstdint>
#include <memory>
#include <vector>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/route/graph/edges_around.hpp"
#include "lodeway/route/graph/once_each.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::route {

inline constexpr std::uint32_t nothing = 0xffffffffU;

/// A place on the lines where pieces meet; pieces that leave it, each as 2 * piece + direction.
struct Spot {
  earth::GridPoint at;
  std::uint32_t fix = nothing;
  std::vector<std::uint32_t> out;
};

/// A stretch of one line from spot to spot, in the line's own direction.
struct LinePiece {
  std::uint32_t line = 0, edge = 0;  ///< of the map; of Fixes::network()
  std::uint32_t from = 0, to = 0;    ///< spots
  double from_m = 0, length_m = 0;   ///< where it begins on the edge
  std::vector<earth::GridPoint> points;
  std::vector<std::uint32_t> passed;  ///< fixes beside it, by distance: what can be ticked off
};

/// A place on a piece that is made for from elsewhere.
struct Entry {
  std::uint32_t piece = 0;
  double along_m = 0;  ///< from where the piece begins
  earth::GridPoint at;
  double away_m = 0;
};

/// A run is a piece in one direction: 2 * piece, or 2 * piece + 1 against the line's own direction.
class Lines {
 public:
  explicit Lines(const walking::Ground& ground);

  std::shared_ptr<const landmarks::Fixes> shared_fixes;
  const landmarks::Fixes& fixes;
  std::vector<Spot> spots;
  std::vector<LinePiece> pieces;
  std::vector<std::vector<std::uint32_t>> spots_of_fix;
  std::vector<std::vector<std::uint32_t>> pieces_of_edge;  ///< by distance along it
  mapdata::PointIndex fix_places;
  terrain::Raster<float> slopes;  ///< degrees

  [[nodiscard]] std::uint32_t start(std::uint32_t run) const {
    return run % 2 == 0 ? pieces[run / 2].from : pieces[run / 2].to;
  }
  [[nodiscard]] std::uint32_t end(std::uint32_t run) const {
    return run % 2 == 0 ? pieces[run / 2].to : pieces[run / 2].from;
  }
  [[nodiscard]] const mapdata::Label& label(std::uint32_t run) const {
    return ground_.map.lines[pieces[run / 2].line].label;
  }
  /// Points of a run from `from_m` to `to_m`, both measured along it as it is walked.
  [[nodiscard]] std::vector<earth::GridPoint> points(std::uint32_t run, double from_m,
                                                     double to_m) const;
  /// The nearest place of each line within `enter_reach_m`, not near the ends of a piece (there is
  /// a fix to make for): the nearest `most_entries`, nearest first.
  [[nodiscard]] std::vector<Entry> entries(earth::GridPoint at) const;
  /// `entries` at a fix, worked out when it is first asked for.
  [[nodiscard]] const std::vector<Entry>& entries_of_fix(std::uint32_t fix) const {
    return entries_of_fix_.at(fix, [&] { return entries(fixes[fix].at); });
  }
  static constexpr double enter_reach_m = 900;  ///< a line is made for from so far; *practice*
  static constexpr std::size_t most_entries = 24;
  /// Is the second what a walker takes for the same thing going on: one kind and name, and where
  /// it has no name and forks, not round a corner?
  [[nodiscard]] bool goes_on(std::uint32_t run, std::uint32_t next) const;
  /// Degrees between going on along `run` and setting out on `next`, 0 to 180.
  [[nodiscard]] double turn_deg(std::uint32_t run, std::uint32_t next) const;

 private:
  const walking::Ground& ground_;
  EdgesAround entered_;  ///< edges with a piece long enough to be met between its ends
  OnceEach<std::vector<Entry>> entries_of_fix_;
};

}  // namespace lodeway::route
