#pragma once
/// A route from a place that is left, judged in each of the conditions. Not for use outside route.
/// Method: docs/method/escape-routes.md
#include <array>
#include <string>
#include <vector>

#include "lodeway/reckoning/judge/teller.hpp"
#include "lodeway/route/escape/escape_choice.hpp"

namespace lodeway::route {

/// A place on a way that is left: between two legs, or midway on one.
struct LeftAt {
  const reckoning::JudgedWay* way;
  std::size_t done;   ///< whole legs behind it
  double part_m = 0;  ///< and so much of the next, by the grid
  earth::GridPoint at;
};

/// Metres from where the legs begin up to their highest place; 0 where they only go down. Unknown
/// heights count nothing. Accuracy: a look a cell.
[[nodiscard]] double rise_m(const terrain::Elevation& heights,
                            const std::vector<walking::Leg>& legs);

class EscapeJudge {
 public:
  /// `judge`: of the trip as it is planned; `in_cloud`: of the same in cloud. `snow_slopes`: slopes
  /// in degrees where snow lies, else null. Refers to its arguments, which must outlive it.
  EscapeJudge(const reckoning::Judge& judge, const reckoning::Judge& in_cloud,
              const walking::Cover& cover, const reckoning::HazardGround& hazards,
              const terrain::Raster<float>* snow_slopes, units::Speech speech = {})
      : tellers_{reckoning::Teller(judge, speech), reckoning::Teller(in_cloud, speech)},
        cover_(cover),
        hazards_(hazards),
        snow_slopes_(snow_slopes) {}

  /// Leg by leg; what is worse of the conditions counts.
  [[nodiscard]] EscapeCandidate judged(const std::vector<walking::Leg>& legs, const LeftAt& place,
                                       std::string to, bool on_the_card) const;

 private:
  [[nodiscard]] reckoning::Weighed as_told(const reckoning::Judge& judge, const walking::Leg& leg,
                                           reckoning::Weighed model) const;
  [[nodiscard]] bool drop_ahead(const reckoning::Approach& way) const;

  std::array<reckoning::Teller, 2> tellers_;
  const walking::Cover& cover_;
  const reckoning::HazardGround& hazards_;
  const terrain::Raster<float>* snow_slopes_;
};

}  // namespace lodeway::route
