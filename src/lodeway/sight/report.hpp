#pragma once
/// What a party tells of a place, and how far its tellings are to be trusted. Method and every
/// *practice* figure: docs/method/seen.md. Directions are from GRID north: whoever reads a needle
/// turns them first.
#include <cstdint>

#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/units/bearing.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::sight {

/// What is looked at. Ground cues (height, fall, steepness, landform) share the map's own error.
enum class Cue : std::uint8_t {
  height,     ///< above sea level
  fall,       ///< the way the ground falls; `level` in its place where it falls nowhere
  steepness,  ///< over the next 20 to 50 m
  landform,
  on_line,      ///< a line underfoot, with its lie where that was taken
  beside_line,  ///< a line in sight, not underfoot, with the way to it where that was told
  in_wood,      ///< among trees
  at_point,     ///< at a saddle, a bridge, a sheepfold: within some 30 m of one
  sees_thing,   ///< a named thing, with its bearing where that was taken
  sees_kind,    ///< something of a kind: a lake, a building, a top
};
inline constexpr int cue_count = static_cast<int>(Cue::sees_kind) + 1;

/// The forms that a walker tells apart; a geomorphon of terrain::Landform has one of them.
enum class Form : std::uint8_t { unknown, flat, top, ridge, spur, slope, hollow, valley };
inline constexpr int form_count = static_cast<int>(Form::valley) + 1;

/// One thing told. `seen` false: looked for, and not there (on_line, beside_line, in_wood,
/// at_point, sees_*): weak evidence, never none.
struct Report {
  Cue cue = Cue::height;
  bool seen = true;
  double value = 0;            ///< height in metres, steepness in degrees
  double sigma = 0;            ///< of value, one sigma as the party states it; 0: the cue's own
  bool has_direction = false;  ///< of lines, of things seen; a fall has one unless `level`
  bool level = false;          ///< fall: it falls nowhere
  units::GridBearing
      direction;  ///< of a fall, to a thing, to a line beside; a line's lie modulo 180
  Form form = Form::unknown;
  mapdata::Kind kind = mapdata::Kind::other;  ///< on_line, beside_line, at_point, sees_kind
  std::int32_t thing = -1;                    ///< sees_thing: index into CuePlanes::things
};

/// One-sigma errors of a party's tellings. *practice* but for what docs/method/seen.md names.
struct CueSigmas {
  double height_m = 15;        ///< altimeter set today at a known height
  double height_unset_m = 30;  ///< altimeter not set today, or read off the contours
  double fall_deg = 15;        ///< grows where the ground is less steep: hypot(it, map / slope)
  double steepness_deg = 4;
  double line_deg = 10;            ///< lie of a line
  double beside_deg = 40;          ///< "left", "ahead", "to the east"
  double bearing_deg = 3.4;        ///< to a thing seen
  double bearing_m = 15;           ///< where on a broad thing was aimed at, and where one stood
  double steep_direction_deg = 2;  ///< width of "falls nowhere" about 4 degrees
};

/// How tellings are weighed, and how often things are looked at at all.
struct Perception {
  double mix = 0.08;    ///< share of tellings that mean nothing: never 0 where truth may be lost
  double widen = 1.15;  ///< on every sigma
  double temper = 0.8;  ///< power on ground cues, which share the map's error
  CueSigmas sigma;
  double attention = 0.8;  ///< chance that a thing in plain view is told
  double look_every_m = 100;
};

/// The robust defaults (mix 0.08, widen 1.15, temper 0.8) with the sigmas and the attention of a
/// skill: novice 1.5 x and 0.45, practised 1 x and 0.80, expert 0.8 x and 0.90. *practice*.
[[nodiscard]] Perception perception_of(walking::Skill skill);
/// The same with the robust measures off: mix 0, widen 1, temper 1. For drawing tellings.
[[nodiscard]] Perception plain_perception_of(walking::Skill skill);

/// How far a thing in the line of sight is told apart in this air, metres: far-seen kinds (tops,
/// lakes, sea, masts, settlements) 10 km in clear air and over snow, else KindTraits::seen_from_m.
/// *practice*.
[[nodiscard]] double reach_m(mapdata::Kind kind, mapdata::Visibility visibility,
                             const mapdata::KindTable& kinds);

/// "ridge", "hollow": for a sentence, English.
[[nodiscard]] const char* form_words(Form form);

}  // namespace lodeway::sight
