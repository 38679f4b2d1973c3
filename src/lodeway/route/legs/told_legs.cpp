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
  std::vector<std::vector<walking::Course>> cut(fresh.size());
  parallel.for_each_block(fresh.size(),
                          [&](std::size_t i) { cut[i] = cut_piece(c, fresh[i]->first); });
  struct Place {  // a long piece has many legs: parted again
    std::size_t piece, leg;
  };
  std::vector<Place> places;
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    fresh[i]->second.resize(cut[i].size());
    for (std::size_t k = 0; k < cut[i].size(); ++k) places.push_back({i, k});
  }
  parallel.for_each_block(places.size(), [&](std::size_t p) {
    const auto [i, k] = places[p];
    fresh[i]->second[k] = described(c, std::move(cut[i][k]), followed_on(fresh[i]->first));
  });
}

}  // namespace lodeway::route
