#pragma once
/// What a thing on the map is, in the words of a walker. What each kind means for a walker (does it
/// lead, catch, hinder; from how far is it seen) is data: KindTable, from data/kinds.toml.
#include <array>
#include <optional>
#include <string_view>

namespace lodeway::mapdata {

// clang-format off
enum class Kind : unsigned char {
  // lines that lead
  path, faint_path, track, road, railway, stream, river, ditch, wall, fence, hedge, power_line,
  cliff, wood_edge, shore, ridge_line, valley_line, aerialway,
  // surfaces
  lake, sea, wood, scrub, marsh, scree, boulders, bare_rock, glacier, grass, heath, farmland,
  built_up, forbidden,
  // points
  building, ruin, hut, bridge, ford, summit, saddle, spot_height, cairn, mast, cave, spring,
  waterfall, sheepfold, gate, trig_point, wayside_mark, shelter, settlement, junction,
  other
};
// clang-format on
inline constexpr int kind_count = static_cast<int>(Kind::other) + 1;

/// "wood_edge"; the same spelling in files, JSON and kinds.toml.
[[nodiscard]] std::string_view kind_name(Kind kind);
[[nodiscard]] std::optional<Kind> kind_from_name(std::string_view name);
/// "wood edge": for a sentence, English.
[[nodiscard]] std::string_view kind_words(Kind kind);

enum class Visibility : unsigned char { clear, cloud, night, snow };
inline constexpr int visibility_count = 4;

/// What one kind is for a walker. All figures are *practice* defaults unless kinds.toml names a
/// source.
struct KindTraits {
  bool leads = false;         ///< can be followed: a handrail
  bool catches = false;       ///< stops a party that crosses it: a catching feature
  bool ticks = false;         ///< is noticed in passing: a tick-off feature
  bool forbids = false;       ///< no one may set foot on it
  double speed_factor = 1.0;  ///< walking speed on it against a good path; 0 < f <= 1
  std::array<double, visibility_count> seen_from_m{};  ///< from how far it is seen
  std::array<double, visibility_count> recognised{};   ///< chance that it is known for what it is
};

/// What somebody says otherwise about one kind: a country's own file, a trip's weather.
struct KindChange {
  Kind kind = Kind::other;
  std::optional<bool> leads, catches, ticks, forbids;
  std::optional<double> speed_factor;
  std::optional<std::array<double, visibility_count>> seen_from_m, recognised;
};

class KindTable {
 public:
  /// Replaces what the change says, keeps the rest.
  void take(const KindChange& change);
  [[nodiscard]] const KindTraits& operator[](Kind k) const {
    return traits_[static_cast<std::size_t>(k)];
  }
  [[nodiscard]] KindTraits& operator[](Kind k) { return traits_[static_cast<std::size_t>(k)]; }

 private:
  std::array<KindTraits, kind_count> traits_{};
};

}  // namespace lodeway::mapdata
