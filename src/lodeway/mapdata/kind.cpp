#include "lodeway/mapdata/kind.hpp"

#include <algorithm>
#include <string>

namespace lodeway::mapdata {

namespace {
constexpr std::array<std::string_view, kind_count> names{
    "path",         "faint_path", "track",      "road",        "railway",     "stream",
    "river",        "ditch",      "wall",       "fence",       "hedge",       "power_line",
    "cliff",        "wood_edge",  "shore",      "ridge_line",  "valley_line", "aerialway",
    "lake",         "sea",        "wood",       "scrub",       "marsh",       "scree",
    "boulders",     "bare_rock",  "glacier",    "grass",       "heath",       "farmland",
    "built_up",     "forbidden",  "building",   "ruin",        "hut",         "bridge",
    "ford",         "summit",     "saddle",     "spot_height", "cairn",       "mast",
    "cave",         "spring",     "waterfall",  "sheepfold",   "gate",        "trig_point",
    "wayside_mark", "shelter",    "settlement", "junction",    "other"};
static_assert(names.back() == "other");

const std::array<std::string, kind_count>& words() {
  static const auto made = [] {
    std::array<std::string, kind_count> out;
    for (std::size_t i = 0; i < names.size(); ++i) {
      out[i] = names[i];
      std::ranges::replace(out[i], '_', ' ');
    }
    return out;
  }();
  return made;
}
}  // namespace

std::string_view kind_name(Kind kind) { return names[static_cast<std::size_t>(kind)]; }

std::string_view kind_words(Kind kind) { return words()[static_cast<std::size_t>(kind)]; }

std::optional<Kind> kind_from_name(std::string_view name) {
  const auto* found = std::ranges::find(names, name);
  if (found == names.end()) return std::nullopt;
  return static_cast<Kind>(found - names.begin());
}

void KindTable::take(const KindChange& c) {
  KindTraits& t = traits_[static_cast<std::size_t>(c.kind)];
  t.leads = c.leads.value_or(t.leads);
  t.catches = c.catches.value_or(t.catches);
  t.ticks = c.ticks.value_or(t.ticks);
  t.forbids = c.forbids.value_or(t.forbids);
  t.speed_factor = c.speed_factor.value_or(t.speed_factor);
  t.seen_from_m = c.seen_from_m.value_or(t.seen_from_m);
  t.recognised = c.recognised.value_or(t.recognised);
}

}  // namespace lodeway::mapdata
