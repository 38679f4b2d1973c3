#pragma once
/// What the search has kept at each place, and whether it beats what comes later there. Labels of a
/// place come in ascending seconds, so seconds need no comparing.
#include <algorithm>

#include "lodeway/route/front/front.hpp"

namespace lodeway::route {

/// At a fix one figure is enough: the least loss so far (BOA*). With a limited hazard a staircase
/// of loss and hazard; at a turn all that none other beats, the carried drift compared too.
class Kept {
 public:
  /// `least_gain`: at a fix without a limited hazard a label must be so much surer.
  Kept(std::size_t places, std::span<const std::uint8_t> turns, bool with_hazard, double least_gain)
      : turns_(turns), with_hazard_(with_hazard), least_gain_(least_gain) {
    if (with_hazard)
      steps_.resize(places);
    else
      least_loss_.assign(places, no_limit);
    if (!turns.empty()) at_turn_.resize(places);
  }

  [[nodiscard]] bool is_turn(std::uint32_t place) const {
    return !turns_.empty() && turns_[place] != 0;
  }

  /// Is there one kept that is no worse in anything? `carried` only counts at a turn.
  [[nodiscard]] bool beats(std::uint32_t place, const LegCost& cost, const Carried* carried) const {
    if (is_turn(place)) {
      return std::ranges::any_of(at_turn_[place], [&](const AtTurn& k) {
        return k.loss <= cost.loss && (!with_hazard_ || k.hazard <= cost.hazard) &&
               carries_no_more(k.carried, *carried);
      });
    }
    if (!with_hazard_) return least_loss_[place] <= cost.loss + least_gain_;
    const auto& steps = steps_[place];
    const auto above = first_above(steps, cost.loss);
    return above != steps.begin() && std::prev(above)->hazard <= cost.hazard;
  }

  /// To be called for what nothing kept beats.
  void keep(std::uint32_t place, const LegCost& cost, const Carried* carried) {
    if (is_turn(place)) {
      at_turn_[place].push_back({cost.loss, cost.hazard, *carried});
    } else if (!with_hazard_) {
      least_loss_[place] = cost.loss;
    } else {
      auto& steps = steps_[place];
      const auto first = std::ranges::lower_bound(steps, cost.loss, {}, &Step::loss);
      const auto last =
          std::find_if(first, steps.end(), [&](const Step& s) { return s.hazard < cost.hazard; });
      steps.insert(steps.erase(first, last), {cost.loss, cost.hazard});
    }
  }

 private:
  struct Step {
    double loss, hazard;
  };
  struct AtTurn {
    double loss, hazard;
    Carried carried;
  };
  static std::vector<Step>::const_iterator first_above(const std::vector<Step>& steps,
                                                       double loss) {
    return std::ranges::upper_bound(steps, loss, {}, &Step::loss);
  }

  std::span<const std::uint8_t> turns_;
  bool with_hazard_;
  double least_gain_;
  std::vector<double> least_loss_;        ///< by place
  std::vector<std::vector<Step>> steps_;  ///< by place: loss ascending, hazard descending
  std::vector<std::vector<AtTurn>> at_turn_;
};

}  // namespace lodeway::route
