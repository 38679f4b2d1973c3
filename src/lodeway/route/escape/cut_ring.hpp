#pragma once
/// Where a party would leave a piece of a ground. Not for use outside route.
#include <cstdint>
#include <vector>

#include "lodeway/route/field/find_path.hpp"

namespace lodeway::route {

/// Of what was prepared of a piece of the ground `whole`: the nodes of the search that no way from
/// farther inside gets past, `within_m` metres inside of the sides beyond which the ground goes on:
/// of cells two rows, of lines what lies over these. Empty where the piece is the whole.
[[nodiscard]] std::vector<std::uint32_t> cut_ring(const Prepared& prepared,
                                                  const terrain::Frame& whole, double within_m);

}  // namespace lodeway::route
