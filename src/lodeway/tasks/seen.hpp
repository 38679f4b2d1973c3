#pragma once
/// What is seen from places on a ground.
#include <string>
#include <vector>

#include "lodeway/landmarks/in_sight.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

struct SeenRequest {
  std::string ground;
  /// Each the name of a point on the map, or a grid reference as earth::parse_place reads it.
  std::vector<std::string> from;
  double eye_m = 1.6;
  double reach_m = 0;        ///< 0: to the rim of the ground
  double refraction = 0.13;  ///< as terrain::Sight
  std::string png;           ///< also drawn into this picture, when not empty
};

struct SeenFrom {
  std::string from;
  earth::GridPoint at;
  double height_m = 0;
  double share_seen = 0, share_unknown = 0;  ///< of the ground's cells within reach
  std::vector<landmarks::InSight> in_sight;
};

struct SeenAnswer {
  std::vector<SeenFrom> places;
  double share_from_any = 0;  ///< of all the ground's cells, seen from at least one of the places
  double eye_m = 0, refraction = 0;
};

/// Faults: as io::open_ground; bad_input (no such name, several places of that name, outside the
/// ground, on a void, figures that cannot be); io_failed when the picture cannot be written.
[[nodiscard]] Result<SeenAnswer> seen_from_places(const SeenRequest& request,
                                                Progress* progress = nullptr);

[[nodiscard]] std::string seen_text(const SeenAnswer& answer,
                                    units::Language language = units::Language::english);
/// Keys: docs/method/visibility.md. Bearings are from GRID north.
[[nodiscard]] std::string seen_json(const SeenAnswer& answer);

}  // namespace lodeway::tasks
