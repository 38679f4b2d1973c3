#pragma once
/// The ground as one sort of party meets it, and the last few of these. Not for use outside route.
#include <memory>
#include <utility>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/hazard.hpp"
#include "lodeway/route/field/find_path.hpp"
#include "lodeway/route/field/last_few.hpp"
#include "lodeway/route/field/kept_field.hpp"

namespace lodeway::route {

/// All that `PartyGround` reads of a request. Who asks for the same need not work it out again:
/// starts and ends, skill, visibility, instrument, stride and limits on legs are none of it.
struct PartySort {
  walking::TimeModel model;
  double flat_speed_kmh, max_slope_deg;
  bool ford_streams;
  std::vector<walking::AvoidArea> avoid;
  friend bool operator==(const PartySort&, const PartySort&) = default;
};
[[nodiscard]] PartySort sort_of(const walking::Request& request);

/// What its answers rest on is never changed; what it keeps beside is only kept, and every answer
/// is the same without. Asked by any number of threads. Some 15 bytes a cell and 8 for a field.
struct PartyGround {
  std::unique_ptr<const Prepared> prepared;
  std::shared_ptr<const reckoning::HazardGround> hazards;  ///< of the cells that are barred

  /// `slopes`: as for walking::Cover.
  PartyGround(const walking::Ground& ground, const walking::Request& request,
              const terrain::Raster<float>& slopes, numeric::Parallel& parallel);

  /// As find_path, which is asked where the way between the two places is not kept.
  [[nodiscard]] Result<RawPath> path(const walking::Ground& ground, const walking::Waypoint& from,
                                     const walking::Waypoint& to) const;
  /// The last field back from these nodes (escape routes), as far as it was settled.
  [[nodiscard]] KeptFields& to_safe_ground() const { return to_safe_ground_; }

 private:
  static constexpr std::size_t most_paths = 16;  // some 20 kB each
  mutable LastFew<std::pair<earth::GridPoint, earth::GridPoint>, RawPath> paths_{most_paths};
  mutable KeptEnds ends_{2};
  mutable KeptFields to_safe_ground_{1};
};

/// The last few sorts that asked: three of a ground of up to `three_cells`, one of up to
/// `one_cells`, of a larger one none. With its lines and three fields one takes some 50 bytes a
/// cell: 220 MB for three of 12 x 12 km at 10 m, 350 MB at most.
class PartyGrounds {
 public:
  static constexpr std::size_t three_cells = 2'200'000, one_cells = 7'000'000;
  explicit PartyGrounds(const walking::Ground& ground);
  [[nodiscard]] std::shared_ptr<const PartyGround> of(const walking::Ground& ground,
                                                      const walking::Request& request,
                                                      const terrain::Raster<float>& slopes,
                                                      numeric::Parallel& parallel);

 private:
  LastFew<PartySort, PartyGround> kept_;
};

}  // namespace lodeway::route
