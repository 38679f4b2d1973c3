#pragma once
/// What a judge found of a leg, as the card says it: figures, and words in the plan's language.
#include <utility>

#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::reckoning {

/// May be asked from several threads at once.
class Teller {
 public:
  /// Refers to the judge, which must outlive it.
  explicit Teller(const Judge& judge, units::Speech speech = {})
      : judge_(judge), speech_(std::move(speech)) {}

  /// Of a leg that was weighed.
  [[nodiscard]] Judged judged(const walking::Leg& leg, const Weighed& model) const;
  /// All legs in order, the error carried from fix to fix. A dog-leg's turn counts 1 in the way's
  /// certainty; its error is in the next leg's. Below 1 ms a leg on real ground.
  [[nodiscard]] JudgedWay judged(const walking::Way& way) const;

  [[nodiscard]] const Judge& judge() const { return judge_; }

 private:
  const Judge& judge_;
  units::Speech speech_;
};

}  // namespace lodeway::reckoning
