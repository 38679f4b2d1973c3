#pragma once
#include "lodeway/belief/belief.hpp"

namespace lodeway::belief::detail {

/// Adds nothing: gives, for each cell, the prior's mass in it, of a whole of 1 over the endless
/// plane. Voids have none, water a fiftieth.
[[nodiscard]] std::vector<float> prior_mass(const CuePlanes& planes, const Prior& prior);

}  // namespace lodeway::belief::detail
