#pragma once
/// From every leg of a way to safe ground, as legs that are cut, told and judged like any others.
/// Method: docs/method/escape-routes.md
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/escape.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/route/field/kept_field.hpp"
#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// *Practice*. A leg of more minutes is also left from its middle.
inline constexpr double left_midway_min = 20;

/// Of one way: a list a leg, in the order start, middle, end.
using EscapesOfWay = std::vector<std::vector<reckoning::Escape>>;

/// The ground is a piece of a larger one; what lies within so many metres of where it is cut counts
/// as beyond.
struct CutFrom {
  terrain::Frame whole;
  double within_m = 0;
};

/// What a ground and a party hold for escape routes besides what legs are cut with.
struct EscapeGround {
  std::shared_ptr<const reckoning::HazardGround> hazards;
  std::shared_ptr<const landmarks::Fixes> fixes;
  const terrain::Raster<float>& slopes;  ///< degrees, of the ground's cells; asked in snow
  KeptFields* kept = nullptr;  ///< of this ground and party; what is worked out is left there
  std::optional<CutFrom> cut = std::nullopt;
};

struct Escapes {
  std::vector<EscapesOfWay> of_ways;
  /// From a place of these ways a party is near where the ground is cut sooner than on safe ground,
  /// as the search counts. If not, no route that the whole would give leads there.
  bool nearer_beyond = false;
};

/// Routes compete for each place: the least time to any safe ground over ground and lines; back the
/// way they came; on along the way to its next safe ground. None is over ground to keep off. Roads,
/// huts, settlements, the trip's start and end and the request's own places are safe ground.
/// Refers to its arguments, which must outlive it.
class EscapeRoutes {
 public:
  /// `cutting` and `judge`: of the trip as it is planned. `most_hazard`: the share of parties that
  /// may set foot on ground to keep off.
  EscapeRoutes(const Cutting& cutting, const reckoning::Judge& judge, double most_hazard,
               EscapeGround ground);
  EscapeRoutes(const EscapeRoutes&) = delete;
  EscapeRoutes& operator=(const EscapeRoutes&) = delete;

  /// One list a way. What ends one leg begins the next, and is worked out once. The same answer
  /// however many threads. `go_on` is asked every few places; after its false the answer is not
  /// whole and no use.
  [[nodiscard]] Escapes of(const std::vector<const reckoning::JudgedWay*>& ways,
                           numeric::Parallel& parallel,
                           const std::function<bool()>& go_on = {}) const;

 private:
  walking::Request in_cloud_;
  Cutting
      cutting_;  ///< of the request in cloud: what is ticked off there is seen on a fair day too
  const walking::Request& request_;
  const reckoning::Judge& judge_;
  reckoning::Judge cloud_judge_;
  double most_hazard_;
  EscapeGround ground_;
};

}  // namespace lodeway::route
