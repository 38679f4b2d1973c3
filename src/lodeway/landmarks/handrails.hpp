#pragma once
/// Handrails: lines that a party can follow, each with what it passes. Method:
/// docs/method/landmarks.md
#include <optional>
#include <string>
#include <vector>

#include "lodeway/landmarks/fixes.hpp"

namespace lodeway::landmarks {

/// Something passed on a handrail. Usable where Fix::seen_from_m of the visibility is not below
/// `away_m`.
struct TickOff {
  std::uint32_t fix = 0;  ///< index into Fixes::all()
  double at_m = 0;        ///< along the handrail
  double away_m = 0;      ///< beside it
  /// Where a thing beside it lies, or to which side all other lines leave; none: on it, or both.
  mapdata::Side side = mapdata::Side::none;
};

/// A chain of edges that a walker takes for one thing (mapdata::Chain).
struct Handrail {
  mapdata::Kind kind = mapdata::Kind::path;
  std::string name;
  mapdata::Chain chain;  ///< edges and nodes of Fixes::network()
  std::vector<GridPoint> points;
  std::vector<double> edge_at_m;  ///< where each edge of the chain begins, along the handrail
  double length_m = 0;
  std::vector<TickOff> ticks;  ///< by at_m; ends (15 m) not in it, things up to 150 m beside it
  std::optional<std::uint32_t> first_fix, last_fix;  ///< at its ends
};

/// All of a ground, in the order of the network's chains. `map` is the one that `fixes` was made
/// of. 12 km square of the Skarrow Fells: some 10 ms.
[[nodiscard]] std::vector<Handrail> handrails(const Fixes& fixes, const mapdata::MapData& map);

}  // namespace lodeway::landmarks
