#include "lodeway/trip/home_times.hpp"

#include "lodeway/trip/wording.hpp"

namespace lodeway::trip {

Result<std::array<HomeTime, 3>> home_times(const Plan& plan) {
  const auto& t = plan.trip;
  const auto& s = plan.schedule;
  const struct {
    const char* key;
    Say title, meaning;
    Clock at;
  } wanted[] = {{"back", Say::back_at, Say::back_why, s.end},
                {"worry", Say::worry_after, Say::worry_why, s.end_slow},
                {"act", Say::act_at, Say::act_why, s.act_by}};
  std::array<HomeTime, 3> out;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const auto at = earth::to_utc(t.zone, t.date, std::chrono::minutes(wanted[i].at.count()));
    if (!at) return std::unexpected(at.error());
    out[i] = {wanted[i].key, say(wanted[i].title, t.language), say(wanted[i].meaning, t.language),
              *at};
  }
  return out;
}

}  // namespace lodeway::trip
