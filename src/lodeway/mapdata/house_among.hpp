#pragma once
/// Houses that nobody can tell from those around them. Method: docs/method/landmarks.md
#include <vector>

#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::mapdata {

/// *Practice*: a house without a name that has so many others so near is one of a settlement.
inline constexpr int among_houses = 3;
inline constexpr double among_within_m = 150;

/// One of each point of the map: is it a house without a name (building, ruin, hut, shelter,
/// sheepfold) with `among_houses` others, named or not, within `among_within_m`? Such a one is
/// no fix and gives no place its name.
[[nodiscard]] std::vector<char> houses_among_others(const MapData& map);

}  // namespace lodeway::mapdata
