#pragma once
/// The Skarrow Fells: an invented upland to try everything on, 12 km x 12 km at 10 m, UTM zone 29
/// N, in what is open sea on the real Earth. Places worth walking to: README.md of this folder.
#include <cstdint>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::fells {

/// The same seed gives the same bytes; another seed another detail of the same hand-drawn land.
/// Kinds are left to the caller. Takes some seconds on one thread; the number of threads changes
/// nothing in the answer.
[[nodiscard]] walking::Ground make_skarrow_fells(std::uint64_t seed = 1);
[[nodiscard]] walking::Ground make_skarrow_fells(std::uint64_t seed, numeric::Parallel& parallel);

}  // namespace lodeway::fells
