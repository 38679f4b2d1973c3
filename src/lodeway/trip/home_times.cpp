#include "lodeway/trip/home_times.hpp"

#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::trip {

Result<std::vector<HomeTime>> home_times(const Plan& plan) {
  const auto& t = plan.trip;
  const auto& s = plan.schedule;
  const struct {
    const char* key;
    Say title, meaning;
    std::optional<Clock> at;
  } wanted[] = {{"back", s.one_way ? Say::due_at : Say::back_at, Say::back_why, s.end},
                {"worry", Say::worry_after, s.one_way ? Say::due_why : Say::worry_why, s.end_slow},
                {"act", Say::act_at, Say::act_why, s.act_by}};
  const auto start = start_instant(t);
  if (!start) return std::unexpected(start.error());
  std::vector<HomeTime> out;
  for (const auto& w : wanted) {
    if (w.at)
      out.push_back({w.key, say(w.title, t.language), say(w.meaning, t.language),
                     *start + (*w.at - s.start)});
  }
  return out;
}

std::string end_words(const Plan& plan) {
  const auto& s = plan.schedule;
  const auto end = clock_text(s.end, plan.daylight);
  if (!s.end_slow || !s.act_by)
    return say(Say::end_line_no_hour, plan.trip.language, {end, harmed_of_hundred(s.never_home)});
  return say(Say::end_line, plan.trip.language,
             {end, clock_text(*s.end_slow, plan.daylight), clock_text(*s.act_by, plan.daylight)});
}

}  // namespace lodeway::trip
