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

using walking::ChanceChange;
using walking::ChanceOf;
using walking::chance_count;
using walking::KindChance;
using walking::KindClass;
using walking::kind_class_count;
using walking::Setting;
using walking::SettingChange;
using walking::setting_count;
using Changes = walking::ChanceChanges;

[[nodiscard]] KindClass class_of(mapdata::Kind kind);
/// "made_way": as in the trip file.
[[nodiscard]] std::string_view class_name(KindClass c);
[[nodiscard]] std::optional<KindClass> class_from_name(std::string_view name);

[[nodiscard]] std::string_view chance_name(ChanceOf c);

[[nodiscard]] std::string_view setting_name(Setting s);

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
  [[nodiscard]] Figure stated(const std::array<double, mapdata::visibility_count>& value,
                              mapdata::Visibility visibility) const;
  Changes changes_;
  double failing_ = 1;
};

}  // namespace lodeway::sight
