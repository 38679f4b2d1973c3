#pragma once
/// One block of walkers on the whole way: what `rehearse` runs side by side. Not for use elsewhere.
#include <span>

#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/reckoning/rehearsal/walk_kernel.hpp"

namespace lodeway::reckoning {

/// What all blocks read.
struct Stage {
  const walking::Ground& ground;
  const Judge& judge;
  std::span<const walking::Leg> legs;
  std::span<const Weighed> models;
  std::vector<double> card_minutes;      ///< of each leg, as it is walked
  std::vector<std::vector<float>> pace;  ///< one table a leg
  std::vector<bool> skip;                ///< legs over ground without heights
  terrain::Frame strayed;
  std::uint64_t seed;
  std::size_t trails = 0;  ///< of the first walkers, all in the first block
};

/// What one block adds up; blocks are joined in their order.
struct Tally {
  std::vector<RehearsedLeg> legs;
  std::size_t kept_all = 0, hazard = 0, turned_back = 0, off_ground = 0;
  std::vector<std::uint32_t> strayed;
  std::vector<Trail> trails;
};

/// Walks walkers first to first + count - 1; writes each one's minutes (NaN: turned back) and, leg
/// by leg, the minutes of each leg (NaN: not walked) at leg * stride + walker.
void walk_block(const Stage& stage, std::size_t first, std::size_t count, std::size_t stride,
                std::span<double> minutes, std::span<float> leg_minutes, Tally& tally);

}  // namespace lodeway::reckoning
