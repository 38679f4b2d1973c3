#pragma once
/// The four chances of a party with what is on its way, and how often it errs grossly. One table by
/// class of kind, visibility and skill. What each figure rests on: docs/method/seen.md.
#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::sight {

enum class Rests : std::uint8_t { published, practice, fitted };
/// "published", "practice", "fitted".
[[nodiscard]] std::string_view rests_name(Rests rests);

/// A figure, the range within which nothing known speaks against it, and what it rests on.
struct Figure {
  double value = 0, low = 0, high = 0;
  Rests rests = Rests::practice;
};

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
[[nodiscard]] KindClass class_of(mapdata::Kind kind);
/// "made_way": as in the trip file.
[[nodiscard]] std::string_view class_name(KindClass c);
[[nodiscard]] std::optional<KindClass> class_from_name(std::string_view name);

enum class ChanceOf : std::uint8_t {
  notice,  ///< a line that is met is noticed, once
  stay,    ///< one that is followed is not lost, over one kilometre
  branch,  ///< the right branch is taken at a fork of it, once
  know,    ///< an end is known for what it is, once in sight
};
inline constexpr int chance_count = 4;
[[nodiscard]] std::string_view chance_name(ChanceOf c);

/// What decides certainty and nobody has measured: three settings of their own.
enum class Setting : std::uint8_t {
  search_at_end,   ///< the short search about the counted end finds it, in poor sight
  fork_attention,  ///< a fork that the card names is looked for and thought about
  gross_error,     ///< for each leg on a bearing: it is set or read 20 to 60 degrees wrong
};
inline constexpr int setting_count = 3;
[[nodiscard]] std::string_view setting_name(Setting s);

/// What somebody says otherwise; the range then is the figure itself, and it rests on who said it.
struct ChanceChange {
  ChanceOf of = ChanceOf::notice;
  KindClass kind = KindClass::other;
  std::array<double, mapdata::visibility_count> value{};  ///< of the trip's own party
};
struct SettingChange {
  Setting setting = Setting::search_at_end;
  double value = 0;
};
struct Changes {
  std::vector<ChanceChange> chances;
  std::vector<SettingChange> settings;
};

class Chances {
 public:
  Chances() = default;
  /// Figures changed by hand hold for every skill.
  explicit Chances(const Changes& changes) : changes_(changes) {}

  /// Between 0 and 1 with low <= value <= high. `branch` is of a party that looks at the fork: the
  /// chance at a fork is fork_attention times it, and half of those who do not look guess right.
  [[nodiscard]] Figure of(ChanceOf chance, mapdata::Kind kind, mapdata::Visibility visibility,
                          walking::Skill skill) const;
  [[nodiscard]] Figure of(ChanceOf chance, KindClass kind, mapdata::Visibility visibility,
                          walking::Skill skill) const;
  [[nodiscard]] Figure of(Setting setting, walking::Skill skill) const;
  /// stay over a length: the kilometre's chance to the power of the kilometres.
  [[nodiscard]] double stay_over(double length_m, mapdata::Kind kind,
                                 mapdata::Visibility visibility, walking::Skill skill) const;
  /// The right branch at one fork, attention included.
  [[nodiscard]] double right_branch(mapdata::Kind kind, mapdata::Visibility visibility,
                                    walking::Skill skill) const;

  /// The same with every setting at an end of the band that a third off gives: chances of failing
  /// times `failing` (4/3: the low end of certainty, 3/4: the high end).
  [[nodiscard]] Chances with_failing(double failing) const;

 private:
  Changes changes_;
  double failing_ = 1;
};

}  // namespace lodeway::sight
