#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/tasks/rehearse.hpp"

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
  std::string text = fmt::format(
      "{} simulated parties like yours walked this way. {:.1f} in 100 (± {:.1f}) kept every leg at\n"
      "the first try, {:.1f} in 100 turned back, {:.1f} in 100 set foot on ground to keep off.\n"
      "Walking time without rests: 50 in 100 took less than {:.0f} min, 10 in 100 less than {:.0f} "
      "min,\n"
      "90 in 100 less than {:.0f} min.\n",
      r.walkers, down(r.certainty), 100 * r.certainty_error, 100 * r.turned_back_share,
      100 * r.hazard_share, r.minutes_50, r.minutes_10, r.minutes_90);
  const double planned = t.planned.plan.minutes;
  text += fmt::format(
      "The card's middle day is {:.0f} min of walking: each leg at its middle time, nobody lost. "
      "Searches, second tries\n"
      "and legs that go slower than others go faster make the middle party {:.0f} min {}.\n",
      planned, std::abs(r.minutes_50 - planned), r.minutes_50 < planned ? "quicker" : "slower");
  if (r.weakest >= 0) {
    const auto i = static_cast<std::size_t>(r.weakest);
    text += fmt::format("Weakest leg: {} ({} to {}). Most who failed there {}.\n", i + 1,
                        legs[i].course.from, legs[i].course.to, worst_loss(r.legs[i]));
  }
  for (std::size_t i = 0; i < r.legs.size(); ++i) {
    if (r.legs[i].rehearsed) continue;
    text += fmt::format(
        "Leg {} crosses ground without heights. It was not simulated, and the figures for the whole\n"
        "way leave it out. Its time is the route card's.\n",
        i + 1);
  }
  if (r.off_ground_share > 0) {
    text += fmt::format(
        "{:.1f} in 100 strayed where no heights are known; there the ground is taken as level.\n",
        100 * r.off_ground_share);
  }
  text += "\n leg   kept, in 100   predicted   minutes (50, 90 in 100)   onto ground to keep off   to\n";
  for (std::size_t i = 0; i < r.legs.size(); ++i) {
    const RehearsedLeg& leg = r.legs[i];
    if (!leg.rehearsed) {
      text += fmt::format("{:>4}   not simulated   {:>9.1f}   {:>49}   {}\n", i + 1,
                          down(leg.expected), "", legs[i].course.to);
      continue;
    }
    text += fmt::format(
        "{:>4}   {:>6.1f} ± {:>3.1f}   {:>9.1f}   {:>11.0f} {:>11.0f}   {:>13.1f} in 100   {}\n", i + 1,
        down(leg.certainty), 100 * leg.certainty_error, down(leg.expected), leg.minutes_50,
        leg.minutes_90,
        leg.walkers == 0
            ? 0.0
            : 100.0 * static_cast<double>(leg.hazard) / static_cast<double>(leg.walkers),
        legs[i].course.to);
  }
  return text;
}

}  // namespace lodeway::tasks
