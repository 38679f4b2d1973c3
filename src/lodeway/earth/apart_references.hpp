#pragma once
/// References of several places, by which each is told from the others.
#include <algorithm>
#include <span>
#include <string>
#include <vector>

#include "lodeway/earth/place_text.hpp"

namespace lodeway::earth {

/// Six figures each; of places that share a square of 100 m eight, of those that share one of 10 m
/// ten. Two places within a metre of each other keep the same.
[[nodiscard]] inline std::vector<std::string> apart_references(std::span<const GridPoint> places) {
  std::vector<std::string> out;
  for (const auto p : places) out.push_back(six_figure_reference(p));
  for (const int digits : {4, 5}) {
    const auto before = out;
    for (std::size_t k = 0; k < places.size(); ++k) {
      if (std::ranges::count(before, before[k]) > 1) out[k] = grid_reference(places[k], digits);
    }
  }
  return out;
}

}  // namespace lodeway::earth
