#pragma once
/// Fixes: places where a party can be sure where it is. All of a ground, ready to be asked for.
/// Method, and every *practice* figure in it: docs/method/landmarks.md. Distances are grid metres.
#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/mapdata/network.hpp"
#include "lodeway/mapdata/point_index.hpp"
#include "lodeway/numeric/covariance.hpp"

namespace lodeway::landmarks {

using earth::GridPoint;

enum class FixSort : unsigned char {
  mark,      ///< a point of the map of any other kind: cairn, gate, spring
  building,  ///< house, hut, ruin, shelter, sheepfold, settlement
  bridge,
  ford,
  summit,
  saddle,
  junction,  ///< lines meet, one of them at least ends there
  crossing,  ///< lines go through each other
  lake_end,
  inlet,  ///< water flows into a lake
  outlet,
  corner,    ///< sharp bend of a wood's edge, wall, fence or hedge
  bend,      ///< of any other line
  line_end,  ///< a line ends alone, or turns into another kind
};

/// A place on an edge of Fixes::network().
struct FixOnEdge {
  std::uint32_t edge = 0;
  double along_m = 0;  ///< from the edge's first point
  double away_m = 0;   ///< from the fix
};

struct Fix {
  GridPoint at;
  FixSort sort = FixSort::mark;
  /// A point's own kind; of junction, crossing, bend, corner, line_end the line's that is known
  /// best; of lake_end, inlet, outlet Kind::lake.
  mapdata::Kind kind = mapdata::Kind::other;
  mapdata::Kind second = mapdata::Kind::other;  ///< the other line; Kind::other: none
  std::string name = {}, second_name = {};      ///< of kind and second; empty when they have none
  /// By mapdata::Visibility: from how far it is seen, and the chance that it is known for what it
  /// is by one who sees it.
  std::array<double, mapdata::visibility_count> seen_from_m{}, recognised{};
  double turn_deg = 0;             ///< of a bend or corner, right positive
  double toward_deg = 0;           ///< of a lake's end: from its middle, grid degrees
  std::vector<FixOnEdge> on = {};  ///< edges within 15 m, nearest first
};

/// How easily one fix passes for another that is met alone, 0 to 1: sort, kinds of its lines, and
/// the turn of bends.
[[nodiscard]] double looks_alike(const Fix& seen, const Fix& wanted);

/// What a fix could be taken for.
struct Mistaken {
  double probability = 0;       ///< of taking any other for it
  std::int64_t likeliest = -1;  ///< index of the one it is likeliest taken for; -1: there is none
};

/// Every fix of one ground. Keeps copies, so its arguments need not live on; every const function
/// may be called from any thread. The same ground gives the same fixes in the same order.
/// 12 km square of the Skarrow Fells: some 50 ms (bench/landmarks).
class Fixes {
 public:
  Fixes() = default;
  /// Nearer than 12 m is one fix, with the best of both's sight and recognition. Tops and saddles
  /// are those of the map: `ground build` adds what the heights show (relief_features.hpp).
  Fixes(const terrain::Elevation& heights, const mapdata::MapData& map,
        const mapdata::KindTable& kinds);

  [[nodiscard]] std::span<const Fix> all() const { return fixes_; }
  [[nodiscard]] const Fix& operator[](std::uint32_t i) const { return fixes_[i]; }
  /// The net of all lines that lead, tunnels left out. Edge numbers count here and in `Fix::on`;
  /// NetworkEdge::line is an index into the map's lines.
  [[nodiscard]] const mapdata::Network& network() const { return network_; }

  /// Indices, ascending.
  [[nodiscard]] std::vector<std::uint32_t> near(GridPoint p, double radius_m) const;
  /// Within `beside_m` of the line, its ends included.
  [[nodiscard]] std::vector<std::uint32_t> along(std::span<const GridPoint> line,
                                                 double beside_m) const;
  /// Fixes within 15 m of an edge, by their distance along it, then index.
  [[nodiscard]] std::span<const std::uint32_t> on_edge(std::uint32_t edge) const;

  /// Distinctiveness: a party that comes here with this error (x east, y north, m2), may it stand
  /// in sight of another such fix, nearer to it than to this one, and take it for this? Others
  /// within 25 m are the same place. Normal error; one by one, then together as if independent.
  [[nodiscard]] Mistaken taken_for_another(std::uint32_t fix, const numeric::Covariance& error,
                                           mapdata::Visibility visibility) const;

 private:
  mapdata::Network network_;
  std::vector<Fix> fixes_;
  mapdata::PointIndex index_;
  std::vector<std::uint32_t> edge_start_, edge_items_;  // fixes on each edge
};

}  // namespace lodeway::landmarks
