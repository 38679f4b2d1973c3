#pragma once
/// How the fixes of a ground are found. Not for use outside of landmarks.
#include <vector>

#include "lodeway/landmarks/fixes.hpp"

namespace lodeway::landmarks {

/// Figures of the gathering; all *practice*.
inline constexpr double same_place_m = 12, on_line_m = 15;

/// What fixes are found from.
struct GatherFrom {
  const terrain::Elevation& heights;
  const mapdata::MapData& map;
  const mapdata::KindTable& kinds;
  const mapdata::Network& network;
};

/// Each answers fixes without `on`, in an order that depends on its arguments alone.
[[nodiscard]] std::vector<Fix> fixes_of_points(const GatherFrom& from);
[[nodiscard]] std::vector<Fix> fixes_of_bridges(const GatherFrom& from);
[[nodiscard]] std::vector<Fix> fixes_of_nodes(const GatherFrom& from);
[[nodiscard]] std::vector<Fix> fixes_of_bends(const GatherFrom& from);
[[nodiscard]] std::vector<Fix> fixes_of_lakes(const GatherFrom& from);

/// A fix with the sight of one kind, its recognition times `factor`.
[[nodiscard]] Fix fix_of_kind(const GatherFrom& from, FixSort sort, GridPoint at,
                              const mapdata::Label& label, double factor = 1);

}  // namespace lodeway::landmarks
