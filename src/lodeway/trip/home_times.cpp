#include "lodeway/trip/home_times.hpp"

#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::trip {

Result<std::array<HomeTime, 3>> home_times(const Plan& plan) {
  const auto& t = plan.trip;
  const auto& s = plan.schedule;
  const struct {
    const char* key;
    Say title, meaning;
    Clock at;
  } wanted[] = {{"back", s.one_way ? Say::due_at : Say::back_at, Say::back_why, s.end},
                {"worry", Say::worry_after, s.one_way ? Say::due_why : Say::worry_why, s.end_slow},
                {"act", Say::act_at, Say::act_why, s.act_by}};
  const auto start = start_instant(t);
  if (!start) return std::unexpected(start.error());
  std::array<HomeTime, 3> out;
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i] = {wanted[i].key, say(wanted[i].title, t.language), say(wanted[i].meaning, t.language),
              *start + (wanted[i].at - s.start)};
  }
  return out;
}

}  // namespace lodeway::trip
