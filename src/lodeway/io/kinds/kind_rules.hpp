#pragma once
/// Which tags and attributes make a thing which kind, and what each kind is for a walker: data,
/// read from data/kinds.toml (built in) and from a user's own file. Form: docs/method/kinds.md.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/mapdata/traffic.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// Both in small letters (see small_letters); the layer's name goes under the key "@layer".
struct Tag {
  std::string_view key, value;
};

/// What a feature is, depending on its geometry; nothing: not on our map.
struct Meaning {
  std::optional<mapdata::Kind> point, line, area, centre;
  mapdata::Side falls = mapdata::Side::none;
  mapdata::Traffic traffic = mapdata::Traffic::unknown;  ///< of a road
};

/// A-Z to a-z; other letters as they are.
[[nodiscard]] std::string small_letters(std::string_view text);

class KindRules {
 public:
  [[nodiscard]] const mapdata::KindTable& table() const { return table_; }
  [[nodiscard]] Meaning meaning(std::span<const Tag> tags) const;
  [[nodiscard]] bool in_tunnel(std::span<const Tag> tags) const;
  [[nodiscard]] bool on_bridge(std::span<const Tag> tags) const;
  /// Which of the keys holds the name; nothing when none does. The name itself is the caller's, in
  /// its own letters.
  [[nodiscard]] std::optional<std::size_t> name_tag(std::span<const Tag> tags) const;
  /// Metres; feet are turned ("1203 ft"). NaN when there is none or it is no number.
  [[nodiscard]] double height_m(std::span<const Tag> tags) const;

 private:
  friend class KindRulesReader;
  struct Condition {
    enum class Is : unsigned char { there, absent, one_of, none_of } is = Is::there;
    std::string key;
    std::vector<std::string> values;
    [[nodiscard]] bool holds(std::span<const Tag> tags) const;
  };
  struct Rule {
    std::vector<Condition> when;
    bool ignore = false;
    Meaning gives;
  };
  static bool any(const std::vector<Condition>& conditions, std::span<const Tag> tags);
  void index();

  mapdata::KindTable table_;
  std::vector<Rule> rules_;
  std::unordered_map<std::string, std::vector<std::uint32_t>> by_key_;  // first key -> rules
  std::vector<std::string> name_keys_, no_name_, height_keys_;
  std::vector<Condition> tunnel_, bridge_, no_bridge_;
};

/// What is built in.
[[nodiscard]] const KindRules& built_in_rules();
/// The built-in rules with a user's file over them: its figures replace, its rules are asked first.
/// Faults: io_failed; bad_input with file and line: an unknown key or kind, a figure out of range,
/// a kind that is no line (area, point) given as one; too_large over 1 MiB.
[[nodiscard]] Result<KindRules> read_kind_rules(const std::string& path);

}  // namespace lodeway::io
