#pragma once
/// How busy a road is, by its class on the map. Nobody has counted: a class is a guess at traffic,
/// and where the map gives none, nothing is known.
#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::mapdata {

enum class Traffic : unsigned char {
  unknown,  ///< the map has no class for it
  quiet,    ///< a lane, a street where people live, a way to a house
  busy,     ///< a main road
  fast      ///< motorways, trunk roads, dual carriageways: nobody on foot
};

/// Of roads; unknown for all else. Kept in the one small number that a line has for its kind.
[[nodiscard]] constexpr Traffic traffic_of(const LineFeature& line) {
  if (line.label.kind != Kind::road || line.order > static_cast<unsigned char>(Traffic::fast))
    return Traffic::unknown;
  return static_cast<Traffic>(line.order);
}

}  // namespace lodeway::mapdata
