#include "lodeway/io/kinds/kind_rules.hpp"

#include <algorithm>
#include <charconv>
#include <limits>

namespace lodeway::io {

namespace {

const Tag* find(std::span<const Tag> tags, std::string_view key) {
  const auto found = std::ranges::find(tags, key, &Tag::key);
  return found == tags.end() ? nullptr : &*found;
}

/// `pattern` may begin and end with '*', and hold one more inside ("*power*line*").
bool fits(std::string_view pattern, std::string_view value) {
  const auto star = pattern.find('*');
  if (star == std::string_view::npos) return pattern == value;
  if (!value.starts_with(pattern.substr(0, star))) return false;
  value.remove_prefix(star);
  pattern.remove_prefix(star + 1);
  const auto next = pattern.find('*');
  if (next == std::string_view::npos) return value.ends_with(pattern);
  const auto middle = value.find(pattern.substr(0, next));
  return middle != std::string_view::npos &&
         fits(pattern.substr(next), value.substr(middle + next));
}

bool fits_one(const std::vector<std::string>& patterns, std::string_view value) {
  return std::ranges::any_of(patterns, [&](const auto& p) { return fits(p, value); });
}

}  // namespace

std::string small_letters(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

bool KindRules::Condition::holds(std::span<const Tag> tags) const {
  const Tag* tag = find(tags, key);
  switch (is) {
    case Is::there:
      return tag != nullptr;
    case Is::absent:
      return tag == nullptr;
    case Is::one_of:
      return tag != nullptr && fits_one(values, tag->value);
    case Is::none_of:
      return tag == nullptr || !fits_one(values, tag->value);
  }
  return false;
}

bool KindRules::any(const std::vector<Condition>& conditions, std::span<const Tag> tags) {
  return std::ranges::any_of(conditions, [&](const Condition& c) { return c.holds(tags); });
}

void KindRules::index() {
  by_key_.clear();
  for (std::uint32_t i = 0; i < rules_.size(); ++i)
    by_key_[rules_[i].when.front().key].push_back(i);
}

Meaning KindRules::meaning(std::span<const Tag> tags) const {
  std::vector<std::uint32_t> asked;
  for (const Tag& tag : tags) {
    const auto found = by_key_.find(std::string(tag.key));
    if (found != by_key_.end())
      asked.insert(asked.end(), found->second.begin(), found->second.end());
  }
  std::ranges::sort(asked);
  Meaning out;
  const auto take = [](auto& target, const auto& given) {
    if (target || !given) return false;
    target = given;
    return true;
  };
  for (const std::uint32_t i : asked) {
    const Rule& rule = rules_[i];
    if (!std::ranges::all_of(rule.when, [&](const Condition& c) { return c.holds(tags); }))
      continue;
    if (rule.ignore) break;
    take(out.point, rule.gives.point);
    if (take(out.line, rule.gives.line)) {
      out.falls = rule.gives.falls;
      out.traffic = rule.gives.traffic;
    }
    take(out.area, rule.gives.area);
    take(out.centre, rule.gives.centre);
  }
  return out;
}

bool KindRules::in_tunnel(std::span<const Tag> tags) const { return any(tunnel_, tags); }

bool KindRules::on_bridge(std::span<const Tag> tags) const {
  return any(bridge_, tags) && !any(no_bridge_, tags);
}

std::optional<std::size_t> KindRules::name_tag(std::span<const Tag> tags) const {
  for (const std::string& key : name_keys_) {
    const Tag* tag = find(tags, key);
    if (tag != nullptr && std::ranges::find(no_name_, tag->value) == no_name_.end()) {
      return static_cast<std::size_t>(tag - tags.data());
    }
  }
  return std::nullopt;
}

double KindRules::height_m(std::span<const Tag> tags) const {
  constexpr double feet = 0.3048;  // the international foot, exact
  for (const std::string& key : height_keys_) {
    const Tag* tag = find(tags, key);
    if (tag == nullptr) continue;
    double value = 0;
    const char* end = tag->value.data() + tag->value.size();
    const auto [rest, error] = std::from_chars(tag->value.data(), end, value);
    if (error != std::errc{}) continue;
    std::string_view unit(rest, static_cast<std::size_t>(end - rest));
    while (!unit.empty() && unit.front() == ' ') unit.remove_prefix(1);
    if (unit == "ft" || unit == "'" || unit == "feet")
      value *= feet;
    else if (!unit.empty() && unit != "m")
      continue;
    if (value > -500 && value < 9000) return value;
  }
  return std::numeric_limits<double>::quiet_NaN();
}

}  // namespace lodeway::io
