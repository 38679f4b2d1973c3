#include "lodeway/reckoning/judge/possible_party.hpp"

#include <cmath>
#include <utility>

#include "lodeway/numeric/logit.hpp"
#include "lodeway/reckoning/judge/judge.hpp"

namespace lodeway::reckoning {

std::vector<PossibleParty> possible_parties(const walking::Doubt& doubt) {
  const int unknown = static_cast<int>(doubt.bearing_log_sd > 0) +
                      static_cast<int>(doubt.distance_log_sd > 0) +
                      static_cast<int>(doubt.chance_logit_sd > 0);
  if (unknown == 0) return {PossibleParty{}};
  std::vector<PossibleParty> out;
  const double away = std::sqrt(unknown), weight = 0.5 / unknown;
  for (const double z : {-away, away}) {
    if (doubt.bearing_log_sd > 0) out.push_back({std::exp(z * doubt.bearing_log_sd), 1, 0, weight});
    if (doubt.distance_log_sd > 0)
      out.push_back({1, std::exp(z * doubt.distance_log_sd), 0, weight});
    if (doubt.chance_logit_sd > 0) out.push_back({1, 1, z * doubt.chance_logit_sd, weight});
  }
  return out;
}

Errors errors_of(const Errors& errors, const PossibleParty& party) {
  auto out = errors;
  out.bearing_sigma *= party.bearing;
  out.sighting_sigma *= party.bearing;
  out.distance_sigma *= party.distance;
  out.distance_random *= party.distance;
  return out;
}

double Judge::known(double of_all) const { return numeric::shifted_chance(of_all, known_shift_); }

Judge Judge::of(const PossibleParty& party) const {
  auto out = *this;
  out.errors_ = errors_of(errors_, party);
  out.known_shift_ = party.chance_shift;
  return out;
}

Judge Judge::with_failing(double failing) const {
  auto out = *this;
  out.guides_ =
      std::make_shared<const Guides>(guides_->with(sight::chances_of(party_, failing)));
  return out;
}

std::vector<CertaintyBand> Judge::bands(const walking::Way& way) const {
  std::vector<LegModel> card;
  Drift carried = at_fix();
  for (const auto& leg : way.legs) card.push_back(kept(leg, carried, nullptr));
  std::vector<CertaintyBand> out(way.legs.size());
  constexpr double a_third_more = 4.0 / 3, a_third_less = 3.0 / 4;
  for (const double failing : {a_third_more, a_third_less}) {
    const Judge judge = with_failing(failing);
    Drift walked = judge.at_fix();
    for (std::size_t i = 0; i < way.legs.size(); ++i) {
      auto model = judge.kept(way.legs[i], walked, &card[i]);
      if (i + 1 == way.legs.size()) model = judge.ended_by_count(std::move(model));
      (failing > 1 ? out[i].low : out[i].high) = model.certainty;
    }
  }
  // Who notices more also takes more for the end that is not it: the low end is the lesser.
  for (auto& band : out) {
    if (band.low > band.high) std::swap(band.low, band.high);
  }
  return out;
}

double Judge::averaged_certainty(const walking::Way& way) const {
  std::vector<LegModel> card;
  Drift carried = at_fix();
  for (const auto& leg : way.legs) card.push_back(kept(leg, carried, nullptr));
  double mean = 0;
  for (const auto& party : possible_parties(party_.doubt)) {
    const Judge judge = of(party);
    Drift walked = judge.at_fix();
    double kept = 1;
    for (std::size_t i = 0; i < way.legs.size(); ++i) {
      auto model = judge.kept(way.legs[i], walked, &card[i]);
      if (i + 1 == way.legs.size()) model = judge.ended_by_count(std::move(model));
      kept *= model.certainty;
    }
    mean += party.weight * kept;
  }
  return mean;
}

}  // namespace lodeway::reckoning
