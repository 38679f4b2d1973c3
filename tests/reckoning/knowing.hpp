#pragma once
/// Parties of tests about geometry: their chances are stated, not those of the table.
#include <cmath>

#include "lodeway/walking/ground.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::reckoning::made {

/// Knows and notices things as often as the made ground's kinds say, keeps to a line over 4 km as
/// often, takes the wrong of two like arms straight on by 2, 4, 6 or 8 in 100 (clear, cloud, night,
/// snow), looks at every fork, never sets a bearing far wrong and does not search at the end.
inline walking::Party knowing(const walking::Ground& ground, walking::Party party = {}) {
  using walking::ChanceOf;
  auto& stated = party.chances;
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const auto kind = static_cast<mapdata::Kind>(k);
    const auto& known = ground.kinds[kind].recognised;
    auto kept = known;
    for (double& p : kept) p = std::pow(p, 0.25);
    stated.kinds.push_back({ChanceOf::know, kind, known});
    stated.kinds.push_back({ChanceOf::notice, kind, known});
    stated.kinds.push_back({ChanceOf::stay, kind, kept});
    stated.kinds.push_back({ChanceOf::branch, kind, {0.98, 0.96, 0.94, 0.92}});
  }
  using walking::Setting;
  stated.settings.push_back({Setting::search_at_end, 0});
  stated.settings.push_back({Setting::fork_attention, 1});
  stated.settings.push_back({Setting::gross_error, 0});
  return party;
}

}  // namespace lodeway::reckoning::made
