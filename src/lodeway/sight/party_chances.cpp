#include "lodeway/sight/party_chances.hpp"

#include <algorithm>

namespace lodeway::sight {

double PartyChances::knows(const landmarks::Fix& fix, const mapdata::KindTable& kinds) const {
  using enum landmarks::FixSort;
  constexpr double hardly_a_change = 0.5;
  const bool two = fix.second != mapdata::Kind::other;
  const double second = two ? of(ChanceOf::know, fix.second) : 1;
  if (fix.sort == junction || fix.sort == crossing)
    return std::min(of(ChanceOf::know, mapdata::Kind::junction), second);
  const double own = std::min(of(ChanceOf::know, fix.kind), second);
  if (two) return fix.sort == line_end ? hardly_a_change * own : own;
  if (fix.sort != bend && fix.sort != corner && fix.sort != line_end) return own;
  const auto v = static_cast<std::size_t>(visibility);
  const double line = kinds[fix.kind].recognised[v];
  return line > 0 ? own * std::min(fix.recognised[v] / line, 1.0) : own;
}

PartyChances chances_of(const walking::Party& party, mapdata::Visibility visibility,
                        double failing) {
  const auto table = Chances(party.chances).with_failing(failing);
  PartyChances out;
  out.visibility = visibility;
  for (int c = 0; c < chance_count; ++c) {
    for (int k = 0; k < mapdata::kind_count; ++k) {
      out.by_kind[static_cast<std::size_t>(c)][static_cast<std::size_t>(k)] =
          table
              .of(static_cast<ChanceOf>(c), static_cast<mapdata::Kind>(k), visibility, party.skill)
              .value;
    }
  }
  for (int s = 0; s < setting_count; ++s)
    out.settings[static_cast<std::size_t>(s)] =
        table.of(static_cast<Setting>(s), party.skill).value;
  return out;
}

}  // namespace lodeway::sight
