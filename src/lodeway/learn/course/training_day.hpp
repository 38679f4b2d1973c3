#pragma once
/// A training day on real ground: courses, items and places, each with what makes it hard, and for
/// what could not be made the reason. The same ground, place and seed give the same day.
/// Method: docs/method/training-day.md
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lodeway/learn/course/training_ground.hpp"
#include "lodeway/learn/record/record.hpp"
#include "lodeway/units/bearing.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::learn {

using earth::GridPoint;

/// An open leg to a hidden peg.
struct BearingCourse {
  GridPoint from, peg;
  units::GridBearing bearing;
  double length_m = 0;  ///< on the grid
  double climb_m = 0, descent_m = 0, median_slope_deg = 0;
  std::string catches;          ///< what stops who goes on
  double catches_beyond_m = 0;  ///< past the peg
  bool road_catches = false;    ///< what stops is a road or railway
  /// Nearest one within a novice's reach of the line; a quiet road may cross it, then 0 or little.
  std::optional<double> road_beside_m;
  std::string road_words;                       ///< what that one is: "Ostreldale road"
  double cross_sigma_m = 0, along_sigma_m = 0;  ///< a novice's, at the peg
  bool may_plant = false;  ///< a wrong bearing may be given here: nothing barred for a kilometre
  std::vector<std::string> crosses;  ///< lines on the way, to be marked at once
  bool water = false;                ///< a stream or ditch is among them; rivers never
};

/// A small thing to be found from a sure place.
struct FeatureFind {
  GridPoint from, at;
  std::string from_words, words;
  mapdata::Kind kind = mapdata::Kind::other;
  units::GridBearing bearing;
  double length_m = 0, seen_from_m = 0, known = 0;
  bool attack_point = false;  ///< from a sure place near it
  bool road = false;          ///< it begins at a road or railway, or crosses a quiet road
  std::string road_words;     ///< the first such on the way: "Ostreldale road"
  bool water = false;         ///< it crosses a stream or ditch, or ends at one
  bool like_near = false;     ///< another of its kind stands within 200 m
  double difficulty = 0;      ///< 1 - chance that a practised party comes into sight and knows it
};

/// A fork of the fork walk.
struct Fork {
  GridPoint at;
  double turn_deg = 0;        ///< of the right branch, right positive
  double wrong_turn_deg = 0;  ///< of the likeliest wrong branch
  std::string right, wrong;   ///< what they are
  double between_deg = 0;     ///< the angle between the two
  double difficulty = 0;      ///< (1 + cos of that angle) / 2, halved for unlike kinds
  double at_m = 0;            ///< along the walk
};
inline constexpr int least_forks = 12;
struct ForkWalk {
  std::vector<GridPoint> line;
  std::vector<Fork> forks;
  double length_m = 0;
  double road_m = 0;  ///< of it on roads that the map has as quiet
};

/// A place that the party is led to without the map.
struct Drop {
  GridPoint at, sure;  ///< the last sure place
  std::string sure_words;
  double height_m = 0, slope_deg = 0;
  units::GridBearing falls;
  double radius_m = 0;  ///< of as much ground as height, fall and steepness leave, 9 of 10
};

struct PaceCourse {
  PaceGround ground = PaceGround::level;
  GridPoint from, to;
  double length_m = 0, slope_deg = 0;
};

struct TimeStretch {
  std::vector<GridPoint> line;
  double length_m = 0;
};

/// A bearing to be set from the map at a desk, with four answers of which one is right.
struct SettingItem {
  std::string from_words, to_words;
  GridPoint from, to;
  units::MagneticBearing right;
  enum class Mistake : unsigned char { none, back, wrong_sign, grid, next };
  struct Answer {
    units::MagneticBearing bearing;
    Mistake mistake = Mistake::none;
  };
  std::array<Answer, 4> answers;  ///< in the order in which they are printed
};

struct TrainingDay {
  std::uint64_t seed = 0;
  units::Language language = units::Language::english;  ///< of all words below
  GridPoint from;
  std::string from_words;
  double magnetic_from_grid_deg = 0;  ///< taken off a grid bearing
  std::vector<SettingItem> settings;
  std::vector<PaceCourse> paces;
  std::vector<BearingCourse> bearings;
  std::vector<FeatureFind> features;
  std::optional<ForkWalk> forks;
  std::vector<Drop> drops;
  std::vector<TimeStretch> times;    ///< one after another, along the fork walk where there is one
  bool roads_known = true;           ///< false: the map has no road, railway, track or path at all
  bool roads_told = false;           ///< the ground says of some road how busy it is
  std::vector<std::string> missing;  ///< what could not be made here, and why; one sentence each
  [[nodiscard]] bool empty() const {
    return bearings.empty() && features.empty() && !forks && drops.empty();
  }
};

/// "8573 5056": to the nearest 10 m, on all sheets of a day alike.
[[nodiscard]] std::string day_reference(GridPoint p);

/// What the map piece shows, 182 x 238 mm at 1:25 000 about the day's start, less a rim of 3 mm.
/// All that a pair needs lies within it.
inline constexpr double piece_east_m = 4550, piece_north_m = 5950;
[[nodiscard]] inline bool on_map_piece(GridPoint start, GridPoint p) {
  constexpr double rim_m = 75;
  return std::abs(p.east_m - start.east_m) <= 0.5 * piece_east_m - rim_m &&
         std::abs(p.north_m - start.north_m) <= 0.5 * piece_north_m - rim_m;
}

/// `grid_magnetic_deg`: magnetic north east of grid north. Deterministic; some 50 ms.
[[nodiscard]] TrainingDay make_day(const TrainingGround& ground, GridPoint from,
                                   std::string from_words, double grid_magnetic_deg,
                                   std::uint64_t seed,
                                   units::Language language = units::Language::english);

/// The bearing courses of that day alone, for who wants many days. Some milliseconds.
[[nodiscard]] std::vector<BearingCourse> make_bearing_courses(const TrainingGround& ground,
                                                              GridPoint from, std::uint64_t seed);

/// Marks to be filled in for this day, one pair's. `code`: of the day (codes.hpp); each course then
/// carries its own.
[[nodiscard]] std::vector<Measured> marks_of(const TrainingDay& day, std::string_view code = {});
/// Whether any of its ways goes along or over a quiet road, begins at a road or railway, is caught
/// by one, or may drift to one.
[[nodiscard]] bool has_roads(const TrainingDay& day);

}  // namespace lodeway::learn
