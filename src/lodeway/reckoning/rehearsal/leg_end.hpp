#pragma once
/// How one simulated walker ends one leg on a bearing: what it meets on its path, and what it takes
/// that for. Not for use outside the rehearsal.
#include <vector>

#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/rehearsal/met_on_the_way.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"

namespace lodeway::reckoning {

struct LegEnd {
  bool kept = false;
  Loss loss = Loss::missed;
  double minutes = 0;   ///< of the middle party, until it is found or given up
  GridPoint at;         ///< where it stands then
  double recovery = 0;  ///< minutes to get to the end all the same; NaN: has to go back
  int steps = 0;        ///< of its path until then,
  double part = 1;      ///< and how much of the last of them
};

/// Minutes a metre where a leg lies, for those who look for its end.
[[nodiscard]] double rehearsed_pace(const walking::Leg& leg, const walking::Party& party);

/// What there is to look out for on one leg; asked walker by walker. Refers to all it is made of.
class LookOut {
 public:
  /// Paths have `steps` steps of `step_m` counted metres.
  LookOut(const Judge& judge, const walking::Leg& leg, const LegModel& model, double step_m,
          int steps);
  /// Draws from the walker's own stream, always as often on the same leg.
  [[nodiscard]] LegEnd end_of(const Path& path, numeric::Random& random);

 private:
  [[nodiscard]] LegEnd by_the_count(const Path& path) const;
  [[nodiscard]] LegEnd by_sight(const Path& path, numeric::Random& random);
  [[nodiscard]] double meets_decoy(std::size_t which, GridPoint from, GridPoint to, int k);
  void on_line(const AtLine& end, double beside, bool knows, LegEnd& out) const;
  [[nodiscard]] double recovery(GridPoint at) const;

  const Judge& judge_;
  const walking::Leg& leg_;
  const LegModel& m_;
  const AtLine* on_line_;  ///< its end, where that is one
  double step_m_;
  int steps_;
  double pace_;   ///< rehearsed_pace
  MetLine line_;  ///< of an end on a line
  std::vector<MetLine> decoy_lines_;
  std::vector<double>
      decoy_draws_;  ///< of the walker at hand; NaN: not fooled, or looked at before
};

}  // namespace lodeway::reckoning
