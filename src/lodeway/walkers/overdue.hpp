#pragma once
/// Where an overdue party may be: the walked parties that are not home at an hour, by what became
/// of them, and where to look first. Shares are of the model; rescue services decide.
/// Sources: detection and updating after a look that found nothing: Koopman 1946 / 1980, Stone 1975
/// (Theory of Optimal Search). Method: docs/method/walkers.md
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/walkers/walked.hpp"

namespace lodeway::walkers {

enum class Branch : unsigned char { slow, lost, escaped, turned_round };
inline constexpr int branch_count = 4;

struct BranchShare {
  Branch branch = Branch::slow;
  int leg = -1;  ///< of `lost`: index of the leg on which it was lost
  std::size_t parties = 0;
  double share = 0;  ///< of those who are not home
};

/// A piece of ground to look at: cells that hang together.
struct Area {
  int number = 0;                  ///< from 1, as first listed; stays when things are looked at
  std::vector<std::size_t> cells;  ///< of Overdue::share
  GridPoint middle;                ///< of what it holds
  double hectares = 0;
  double share = 0;              ///< that it holds the party, of those who are not home
  int leg = 0;                   ///< index of the leg that most of those in it are on
  Branch branch = Branch::slow;  ///< what became of most of them
  double looked = 0;             ///< chance that a look so far would have found the party there
  [[nodiscard]] double per_hectare() const { return hectares > 0 ? share / hectares : 0; }
};

struct Overdue {
  double at_min = 0;
  std::size_t walked = 0, home = 0;   ///< parties, and those home by then
  std::size_t keeping_still = 0;      ///< of those not home
  std::vector<BranchShare> branches;  ///< likeliest first
  terrain::Raster<float> share;       ///< of those not home, in each cell; looks counted
  std::vector<Area> areas;            ///< in the order in which looking finds most a hectare
  double elsewhere = 0;               ///< in none of them
};

/// Kept for what no simulation holds. *practice*.
inline constexpr double outside_model = 0.05;

/// `moment`: index into Walked::stands. Places are spread over 100 m, for the parties are few.
/// Nothing is in it when everybody is home.
[[nodiscard]] Overdue overdue_at(const Walked& walked, std::size_t moment, double at_min);

/// Chance to find in a look that covers an area `coverage` times: 1 - exp(-coverage); coverage is
/// sweep width x track length / area (Koopman's random search).
[[nodiscard]] double detection(double coverage);

/// What a look that found nothing changes: the area's p becomes p (1 - d) / (1 - p d), every other
/// share q becomes q / (1 - p d). The order is made anew. Faults: bad_input (no such area, chance
/// not within 0 and 1).
[[nodiscard]] Result<Overdue> looked_at(Overdue overdue, int area, double chance);

}  // namespace lodeway::walkers
