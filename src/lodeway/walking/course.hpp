#pragma once
/// Where a leg goes, and the figures that follow from it and the ground alone.
#include <string>
#include <vector>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/units/bearing.hpp"
#include "lodeway/walking/ground.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::walking {

using earth::GridPoint;

enum class LegKind : unsigned char {
  along,    ///< along a named line: a handrail
  bearing,  ///< on a bearing to a stated end
};

/// What a leg follows; of a leg on a bearing the kind is `other` and the name empty.
struct Followed {
  mapdata::Kind kind = mapdata::Kind::other;
  std::string name;  ///< "path", "Fallow Beck": in the plan's language
};

/// Where a leg goes. Made once (route::described, its ends named by who joins legs) and then read.
struct Course {
  LegKind kind = LegKind::bearing;
  std::string from, to;  ///< what its ends are called
  Followed followed;
  std::vector<GridPoint> line;  ///< at least two points; a leg on a bearing has just two
  double ground_factor = 1;     ///< speed factor of the ground, mean over the leg, (0, 1]
};

/// Figures of a course for one party, straight to its end.
struct Figures {
  double length_m = 0;  ///< horizontal, on the ground (grid scale taken out)
  double climb_m = 0, descent_m = 0;
  units::GridBearing bearing;  ///< start to end
  double minutes = 0;          ///< walking, rests not in it
  double minutes_slow = 0;     ///< nine of ten parties like this need less
  double double_paces = 0;
  bool touches_void = false;  ///< heights are missing: climb is counted as none there
};

/// Kinds that are walked on themselves: the time models' "on path".
[[nodiscard]] bool is_path(mapdata::Kind kind);

/// Length in ground metres: the grid's scale at the middle is taken out. Minutes by the party's
/// time model times the centre of its bands; the slow ones are nine_in_ten_minutes of this leg.
/// Double paces: length / (2 stride), times `more_paces`. Of the course read: kind, followed.kind,
/// line, ground_factor. Accuracy: that of terrain::profile and of the time model.
[[nodiscard]] Figures figures_of(const Course& course, const Ground& ground, const Party& party);

/// Steps shorten on rough and on steep ground: 1 + (1 - ground_factor) / 2 for the ground, and
/// beyond a mean slope of 0.1 (climb and descent over length) the rest of it, up to 0.2; together
/// at most 1.3. *Practice*: 1.1 to 1.3 on rough or steep ground; an army task's 116 and 148 steps
/// for 100 m on level ground and cross-country (071-329-1006) are 1 : 1.28.
inline constexpr double most_more_paces = 1.3;
[[nodiscard]] double more_paces(double ground_factor, double mean_slope);

}  // namespace lodeway::walking
