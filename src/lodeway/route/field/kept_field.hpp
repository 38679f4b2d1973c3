#pragma once
/// Fields back from somewhere, kept for the next who asks. Not for use outside route.
#include <algorithm>
#include <memory>
#include <cstdint>
#include <span>
#include <vector>

#include "lodeway/route/field/field.hpp"
#include "lodeway/route/field/find_path.hpp"
#include "lodeway/route/field/last_few.hpp"

namespace lodeway::route {

/// Fields by the nodes that they lead back from, ascending.
using KeptFields = LastFew<std::vector<std::uint32_t>, Field>;

/// The least time to `seeds` from everywhere, right at `targets` at least. Kept under `question`
/// where `kept` is not null; who asks again from farther off gets, and leaves there, the whole. The
/// same times and ways whatever was kept.
template <class Question>
[[nodiscard]] std::shared_ptr<const Field> field_back(LastFew<Question, Field>* kept,
                                                      const Question& question, const Prepared& p,
                                                      std::span<const Seed> seeds,
                                                      std::span<const std::uint32_t> targets) {
  const auto known = kept != nullptr ? kept->find(question) : nullptr;
  const auto settled = [&](std::uint32_t t) { return known->seconds[t] < known->settled_s; };
  if (known && (known->settled_s >= unreached_s || std::ranges::all_of(targets, settled)))
    return known;
  if (known) targets = {};
  auto field = std::make_shared<const Field>(
      solve_field(p.cost, p.pace, &p.paths.graph, seeds, Direction::to_seeds, targets));
  if (kept != nullptr) kept->keep(question, field);
  return field;
}

}  // namespace lodeway::route
