#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/tasks/plan.hpp"
#include "lodeway/tasks/rehearse.hpp"
#include "lodeway/tasks/say.hpp"
#include "lodeway/tasks/text_table.hpp"
#include "lodeway/trip/duration_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::tasks {

namespace {
using nlohmann::ordered_json;
using reckoning::Loss;
using reckoning::RehearsedLeg;

constexpr std::array<const char*, reckoning::loss_count> loss_names{
    "missed", "wrong_way", "not_known", "mistaken", "line_lost", "overshot"};

ordered_json leg_json(const RehearsedLeg& r, const trip::PlannedLeg& leg) {
  ordered_json lost;
  for (std::size_t i = 0; i < loss_names.size(); ++i) lost[loss_names[i]] = r.lost[i];
  return {{"from", leg.course.from},
          {"to", leg.course.to},
          {"rehearsed", r.rehearsed},
          {"walkers", r.walkers},
          {"certainty", r.rehearsed ? ordered_json(r.certainty) : ordered_json(nullptr)},
          {"certainty_error", r.certainty_error},
          {"certainty_closed_form", r.expected},
          {"lost", lost},
          {"hazard", r.hazard},
          {"minutes_10", r.minutes_10},
          {"minutes_50", r.minutes_50},
          {"minutes_90", r.minutes_90}};
}

std::string_view worst_loss(const RehearsedLeg& leg) {
  const auto most = std::ranges::max_element(leg.lost) - leg.lost.begin();
  return reckoning::loss_words(static_cast<Loss>(most));
}
/// Of 100, to a tenth and never rounded up: beside a card that says 89 nothing says 90.0.
double down(double share) { return std::floor(1000 * share + 1e-9) / 10; }

}  // namespace

std::string rehearsal_as_json(const RehearsedTrip& t) {
  const auto& r = t.rehearsal;
  ordered_json j{
      {"verdict", verdict_json(t.planned.plan)},
      {"walkers", r.walkers},
      {"certainty", r.certainty},
      {"certainty_error", r.certainty_error},
      {"certainty_closed_form", r.expected},
      {"hazard_share", r.hazard_share},
      {"hazard_error", r.hazard_error},
      {"turned_back_share", r.turned_back_share},
      {"off_ground_share", r.off_ground_share},
      {"minutes_10", r.minutes_10},
      {"minutes_50", r.minutes_50},
      {"minutes_90", r.minutes_90},
      {"weakest_leg", r.weakest < 0 ? ordered_json(nullptr) : ordered_json(r.weakest + 1)},
      {"legs", ordered_json::array()}};
  for (std::size_t i = 0; i < r.legs.size(); ++i)
    j["legs"].push_back(leg_json(r.legs[i], t.planned.plan.way.legs[i]));
  return j.dump(2) + "\n";
}

std::string rehearsal_as_text(const RehearsedTrip& t) {
  const auto& r = t.rehearsal;
  const auto& legs = t.planned.plan.way.legs;
  const auto in = t.planned.plan.trip.language;
  const auto tenth = [&](double value) { return trip::decimal_text(value, 1, in); };
  auto text = verdict_as_text(t.planned.plan) + "\n";
  text += trip::told(
      in,
      "{} simulated parties like yours walked this way. {} in 100 (± {}) kept every leg at\n"
      "the first try, {} in 100 turned back, {} in 100 set foot on ground to keep off.\n",
      {r.walkers, tenth(down(r.certainty)), tenth(100 * r.certainty_error),
       tenth(100 * r.turned_back_share), tenth(100 * r.hazard_share)});
  text += trip::told(in,
                     "Walking time without rests: 50 in 100 took less than {}, 10 in 100 less "
                     "than {},\n"
                     "90 in 100 less than {}.\n",
                     {trip::duration_text(r.minutes_50), trip::duration_text(r.minutes_10),
                      trip::duration_text(r.minutes_90)});
  const double planned = t.planned.plan.minutes;
  text += trip::told(in,
                     "The card's middle day is {} of walking: each leg at its middle time, "
                     "nobody lost.\n",
                     {trip::duration_text(planned)});
  const double later = r.minutes_50 - planned;
  text += later < 0
              ? trip::told(in, "The middle one of these parties is {} quicker.\n",
                           {trip::duration_text(later)})
              : trip::told(in,
                           "Searches, second tries, and slow legs that cost more than quick ones "
                           "save make the middle\none of these parties {} slower.\n",
                           {trip::duration_text(later)});
  if (r.weakest >= 0) {
    const auto i = static_cast<std::size_t>(r.weakest);
    text += trip::told(
        in, "Weakest leg: {} ({} to {}). Most who failed there {}.\n",
        {i + 1, legs[i].course.from, legs[i].course.to, trip::told_in(in, worst_loss(r.legs[i]))});
  }
  for (std::size_t i = 0; i < r.legs.size(); ++i) {
    if (r.legs[i].rehearsed) continue;
    text += trip::told(in,
                       "Leg {} crosses ground without heights. It was not simulated, and the "
                       "figures for the whole\n"
                       "way leave it out. Its time is the route card's.\n",
                       {i + 1});
  }
  if (r.off_ground_share > 0) {
    text += trip::told(
        in, "{} in 100 strayed where no heights are known; there the ground is taken as level.\n",
        {tenth(100 * r.off_ground_share)});
  }
  TextTable table({{trip::told(in, "leg")},
                   {trip::told(in, "kept, in 100")},
                   {trip::told(in, "predicted")},
                   {trip::told(in, "minutes (50, 90 in 100)")},
                   {trip::told(in, "onto ground to keep off")},
                   {trip::told(in, "to"), TextTable::Side::left}});
  for (std::size_t i = 0; i < r.legs.size(); ++i) {
    const RehearsedLeg& leg = r.legs[i];
    const auto number = std::to_string(i + 1), expected = tenth(down(leg.expected));
    if (!leg.rehearsed) {
      table.row({number, trip::told(in, "not simulated"), expected, "", "", legs[i].course.to});
      continue;
    }
    const double onto = leg.walkers == 0 ? 0.0
                                         : 100.0 * static_cast<double>(leg.hazard) /
                                               static_cast<double>(leg.walkers);
    table.row({number,
               fmt::format("{} ± {}", tenth(down(leg.certainty)), tenth(100 * leg.certainty_error)),
               expected, fmt::format("{:.0f} {:>11.0f}", leg.minutes_50, leg.minutes_90),
               trip::told(in, "{} in 100", {tenth(onto)}), legs[i].course.to});
  }
  return text + "\n" + table.text();
}

}  // namespace lodeway::tasks
