#pragma once
/// How to get off the hill from each leg: one field back from ground that people live on or drive
/// on. Method: docs/method/ways-off.md
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "lodeway/route/field/kept_field.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::route {

/// Safe ground, and the ways to it from legs: roads, huts and settlements of the map, and the
/// places that the request names. Refers to its arguments, which must outlive it. `kept`: of this
/// ground and what was prepared; what is worked out is left there.
class WaysOff {
 public:
  WaysOff(const walking::Ground& ground, const walking::Request& request, const Prepared& prepared,
          units::Language language, KeptFields* kept = nullptr);

  /// One a course: from its middle to the safe ground that is reached soonest: its name, minutes as
  /// the party walks on a slow day, the direction of the first 150 m and the line. None where none
  /// can be reached, or where the course runs on a road itself.
  /// How safe a way off is in this weather is not judged. The field is worked out no farther than
  /// these legs need it. May be called from any thread.
  [[nodiscard]] std::vector<std::optional<walking::WayOff>> of(
      std::span<const walking::Course* const> courses) const;

 private:
  const walking::Ground& ground_;
  const walking::Party& party_;
  const Prepared& prepared_;
  std::map<std::uint32_t, std::string> havens_;  ///< by node: what it is called
  KeptFields* kept_;
};

}  // namespace lodeway::route
