#pragma once
/// Ground that a party may come down to: where people live or drive. Not for use outside route.
#include <map>
#include <string>
#include <vector>

#include "lodeway/route/field/find_path.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::route {

/// By node of the search, what it is called: vertices of roads, cells of huts and settlements, and
/// `places`, whose names go before the map's. Nodes that the party may not enter are left out.
[[nodiscard]] std::map<std::uint32_t, std::string> safe_ground(
    const walking::Ground& ground, const std::vector<walking::SafePlace>& places,
    const Prepared& prepared, units::Language language);

}  // namespace lodeway::route
