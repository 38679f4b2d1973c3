#include "lodeway/route/legs/told_legs.hpp"

#include <utility>

namespace lodeway::route {

void ToldLegs::tell(const Cutting& c, const std::vector<Piece>& pieces,
                    numeric::Parallel& parallel) {
  std::vector<std::pair<const Piece, std::vector<walking::Leg>>*> fresh;
  for (const auto& piece : pieces) {
    const auto [at, is_new] = legs_.try_emplace(piece);
    if (is_new) fresh.push_back(&*at);
  }
  parallel.for_each_block(fresh.size(),
                          [&](std::size_t i) { fresh[i]->second = cut_piece(c, fresh[i]->first); });
  std::vector<std::pair<walking::Leg*, int>> legs;  // a long piece has many: parted again
  for (auto* told : fresh) {
    for (auto& leg : told->second) legs.emplace_back(&leg, followed_on(told->first));
  }
  parallel.for_each_block(legs.size(),
                          [&](std::size_t i) { describe(*legs[i].first, c, legs[i].second); });
}

}  // namespace lodeway::route
