#pragma once
/// The quickest way between two places, over open ground and along paths.
#include "lodeway/result/result.hpp"
#include "lodeway/route/field/last_few.hpp"
#include "lodeway/route/field/line_graph.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::route {

/// Everything that serves many questions about one ground and party.
struct Prepared {
  walking::Cover cover;
  CostGround cost;
  PaceTable pace;
  Paths paths;
  /// `slopes`: as for walking::Cover.
  Prepared(const walking::Ground& ground, const walking::Request& request,
           const terrain::Raster<float>* slopes = nullptr);
  /// `own_cover`: of this ground and request.
  Prepared(const walking::Ground& ground, const walking::Request& request, walking::Cover own_cover,
           numeric::Parallel& parallel);
};

/// A stretch walked on one line of the map, or over open ground (line = no_parent).
struct Piece {
  std::uint32_t line = no_parent;
  std::vector<earth::GridPoint> points;  ///< following pieces share their end
};

struct RawPath {
  std::vector<Piece> pieces;
  double seconds =
      0;  ///< as the search counts: the cost of attention is in it, a leg's minutes are not
};

/// Fields back to places.
using KeptEnds = LastFew<earth::GridPoint, Field>;

/// `kept`: of this ground and what was prepared; what is worked out is left there.
/// Faults: outside_ground, bad_input (a start or end in water, on void or barred ground; the two
/// the same), no_way with the reached place nearest to the end and what bars the way there.
[[nodiscard]] Result<RawPath> find_path(const walking::Ground& ground, const Prepared& prepared,
                                        const walking::Waypoint& from, const walking::Waypoint& to,
                                        KeptEnds* kept = nullptr);

/// A trace of a field back from an end, turned round, as pieces from `from` to `to`.
[[nodiscard]] RawPath raw_path(const Prepared& prepared, const std::vector<std::uint32_t>& ids,
                               earth::GridPoint from, earth::GridPoint to);
/// Where a node of the search lies.
[[nodiscard]] earth::GridPoint place_of_node(const Prepared& prepared, std::uint32_t id);

/// Cells and path nodes within a cell and a half of a place and not beyond a river or cliff, with
/// the seconds to walk there (`outward`), or from there to the place.
[[nodiscard]] std::vector<Seed> nodes_near(const walking::Ground& ground, const Prepared& prepared,
                                           earth::GridPoint at, bool outward);

/// May a party stand here? The fault says why not.
[[nodiscard]] Result<void> check_place(const Prepared& prepared, const walking::Waypoint& point);

/// Where an escape route that leads to a place of the leader's ends: nodes_near it. Empty: nobody gets
/// there.
[[nodiscard]] std::vector<std::uint32_t> haven_nodes(const walking::Ground& ground,
                                                     const Prepared& prepared,
                                                     const walking::SafePlace& place);
/// Can an escape route lead there? The fault says why not.
[[nodiscard]] Result<void> check_haven(const walking::Ground& ground, const Prepared& prepared,
                                       const walking::SafePlace& place);

}  // namespace lodeway::route
