#include "lodeway/walkers/card.hpp"

namespace lodeway::walkers {

Card card_of(const reckoning::Judge& judge, const walking::Way& way) {
  Card card;
  reckoning::Drift carried = judge.at_fix();
  for (const auto& leg : way.legs) {
    auto model = judge.weigh(leg, carried);
    if (&leg == &way.legs.back()) model = judge.as_end_of_way(leg, std::move(model));
    const double predicted = model.certainty;
    card.legs.push_back({leg, std::move(model), predicted, 0, 0, {}});
  }
  return card;
}

}  // namespace lodeway::walkers
