#pragma once
/// What somebody says otherwise than the table of chances (sight/chances.hpp): a trip, or what the
/// party has shown of itself. Plain values that a party carries.
#include <array>
#include <cstdint>
#include <vector>

#include "lodeway/mapdata/kind.hpp"

namespace lodeway::walking {

/// Kinds that are met, followed and known alike.
enum class KindClass : std::uint8_t {
  made_way,  ///< road, track, railway
  path,
  faint_path,
  water,      ///< stream, river, ditch, shore, lake, sea
  wall,       ///< wall, fence, hedge
  wood_edge,  ///< and woods
  relief,     ///< crests and valley floors, tops, saddles: no line is drawn on the ground
  mark,       ///< buildings, huts, bridges and other points; junctions
  other,
};
inline constexpr int kind_class_count = static_cast<int>(KindClass::other) + 1;

enum class ChanceOf : std::uint8_t {
  notice,  ///< a line that is met is noticed, once
  stay,    ///< one that is followed is not lost, over one kilometre
  branch,  ///< the right branch is taken at a fork of it, once
  know,    ///< an end is known for what it is, once in sight
};
inline constexpr int chance_count = 4;

/// What decides certainty and nobody has measured: three settings of their own.
enum class Setting : std::uint8_t {
  search_at_end,   ///< the short search about the counted end finds it, in poor sight
  fork_attention,  ///< a fork that the card names is looked for and thought about
  gross_error,     ///< for each leg on a bearing: it is set or read 20 to 60 degrees wrong
};
inline constexpr int setting_count = 3;

/// The range then is the figure itself, and it rests on who said it.
struct ChanceChange {
  ChanceOf of = ChanceOf::notice;
  KindClass kind = KindClass::other;
  std::array<double, mapdata::visibility_count> value{};  ///< of the trip's own party
};
/// The same of one kind alone: goes before what is said of its class.
struct KindChance {
  ChanceOf of = ChanceOf::know;
  mapdata::Kind kind = mapdata::Kind::other;
  std::array<double, mapdata::visibility_count> value{};
};
struct SettingChange {
  Setting setting = Setting::search_at_end;
  double value = 0;
};
struct ChanceChanges {
  std::vector<ChanceChange> chances;
  std::vector<SettingChange> settings;
  std::vector<KindChance> kinds;
};

}  // namespace lodeway::walking
