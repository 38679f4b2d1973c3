#include "lodeway/sight/report.hpp"

#include <algorithm>
#include <array>

namespace lodeway::sight {

namespace {
void scale(CueSigmas& s, double by) {
  s.height_m *= by;
  s.height_unset_m *= by;
  s.fall_deg *= by;
  s.steepness_deg *= by;
  s.line_deg *= by;
  s.beside_deg *= by;
  s.bearing_deg *= by;
}
}  // namespace

Perception perception_of(walking::Skill skill) {
  Perception p;
  switch (skill) {
    case walking::Skill::novice:
      scale(p.sigma, 1.5);
      p.attention = 0.45;
      p.look_every_m = 200;
      break;
    case walking::Skill::practised:
      break;
    case walking::Skill::expert:
      scale(p.sigma, 0.8);
      p.attention = 0.9;
      break;
  }
  return p;
}

Perception plain_perception_of(walking::Skill skill) {
  Perception p = perception_of(skill);
  p.mix = 0;
  p.widen = 1;
  p.temper = 1;
  return p;
}

double reach_m(mapdata::Kind kind, mapdata::Visibility visibility,
               const mapdata::KindTable& kinds) {
  using enum mapdata::Kind;
  using mapdata::Visibility;
  static constexpr std::array far{summit, lake, sea, mast, settlement};
  const bool open = visibility == Visibility::clear || visibility == Visibility::snow;
  if (open && std::ranges::find(far, kind) != far.end()) return 10000;
  return kinds[kind].seen_from_m[static_cast<std::size_t>(visibility)];
}

const char* form_words(Form form) {
  static constexpr std::array<const char*, form_count> words{
      "not known", "flat ground", "top", "ridge", "spur", "slope", "hollow", "valley"};
  return words[static_cast<std::size_t>(form)];
}

}  // namespace lodeway::sight
