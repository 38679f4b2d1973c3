#include "lodeway/tasks/conditions.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/text_table.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/tasks/walked_days.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/way_kept_told.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/way_facts.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::tasks {

namespace {

using mapdata::Visibility;
using trip::Say;

constexpr double late_min = 60, slower_by = 0.8;  // *practice*
constexpr std::size_t condition_days = 200;       // of each way, in each condition

bool clear(const trip::Trip& trip) { return trip.request.party.visibility == Visibility::clear; }

trip::Trip changed(trip::Trip trip, Condition condition) {
  auto& party = trip.request.party;
  switch (condition) {
    case Condition::as_planned:
    case Condition::streams_up:
      break;
    case Condition::other_sight:
      party.visibility = clear(trip) ? Visibility::cloud : Visibility::clear;
      break;
    case Condition::hour_late:
      trip.start += std::chrono::minutes{std::lround(late_min)};
      break;
    case Condition::slower:
      party.flat_speed_kmh *= slower_by;
      break;
    case Condition::snow:
      party.visibility = Visibility::snow;
      party.max_slope_deg = std::min(party.max_slope_deg, trip::snow_max_slope_deg);
      break;
  }
  return trip;
}

/// One way as it is in a condition.
struct Seen {
  trip::Plan plan;
  trip::Verdict verdict;
  trip::Clock end{};
  std::optional<trip::Clock> end_slow;
  double minutes = 0;
};

/// Each ford of the plan by the way round: longer, or where there is none, not to be gone.
void by_the_bridges(Seen& seen, const walking::Ground& ground) {
  auto facts = trip::facts_of(seen.plan, ground);
  double more = 0;
  for (std::size_t k = 0; k < facts.legs.size(); ++k) {
    facts.legs[k].wades = 0;
    for (const auto& ford : seen.plan.way.legs[k].fords) {
      if (ford.round)
        more += ford.round->minutes;
      else
        facts.legs[k].water_stops = true;
    }
  }
  const double more_slow = walking::nine_in_ten_minutes(
      std::array{more}, walking::bands_of(seen.plan.trip.request.party));
  if (facts.slow_to_dark_min) *facts.slow_to_dark_min -= more_slow;
  seen.minutes += more;
  seen.end += trip::Clock{std::lround(more)};
  if (seen.end_slow) *seen.end_slow += trip::Clock{std::lround(more_slow)};
  seen.verdict = trip::verdict_of(facts, trip::limits_of(seen.plan.trip));
}

/// The first leg that fails so badly that the way is outside the limits or not judged; -1: none.
int first_failing(const trip::Verdict& verdict) {
  int out = -1;
  for (const auto& reason : verdict.reasons) {
    if (trip::goes_wrong(reason.band) && reason.leg >= 0 && (out < 0 || reason.leg < out))
      out = reason.leg;
  }
  return out;
}

/// From the start of a leg of the planned way.
const trip::PlannedEscape* escape_from_start(const trip::Plan& plan, std::size_t leg) {
  for (const auto& route : plan.way.legs[leg].escapes) {
    if (route.from == reckoning::LeavesAt::start) return &route;
  }
  return nullptr;
}

std::string escape_in_words(const trip::PlannedEscape& route, const trip::Trip& trip) {
  if (route.legs.empty()) return trip::say(Say::escape_here, trip.language, {route.to});
  const auto way =
      route.back ? trip::say(Say::escape_back, trip.language, {route.to})
                 : trip::bearing_text(route.legs.front().first_magnetic_bearing, trip.angles) +
                       trip::bearing_sign(trip.angles) + " " +
                       trip::say(Say::escape_to, trip.language, {route.to});
  return way + fmt::format(", {:.0f} min", route.minutes);
}

std::string title_of(Condition condition, const trip::Trip& trip) {
  constexpr std::array titles{Say::if_as_planned, Say::if_cloud,  Say::if_hour_late,
                              Say::if_streams_up, Say::if_slower, Say::if_snow};
  if (condition == Condition::other_sight && !clear(trip))
    return trip::say(Say::if_clears, trip.language);
  return trip::say(titles[static_cast<std::size_t>(condition)], trip.language);
}

}  // namespace

Result<std::vector<ConditionRow>> conditions_of(const walking::Ground& ground,
                                                const route::WayFinder& finder,
                                                const PlannedWays& ways, Progress* progress,
                                                std::optional<Condition> only) {
  const auto& picked = ways.ways[ways.picked];
  const auto& trip = picked.plan.trip;
  const auto sigma = declination_sigma_deg(ground, trip);
  if (!sigma) return std::unexpected(sigma.error());
  const route::Wishes wishes{trip::speech_of(trip), *sigma, trip.min_certainty};
  Threads threads;
  std::vector<const reckoning::JudgedWay*> all;
  for (const auto& way : ways.ways) all.push_back(&way.outcome.way);
  std::vector<ConditionRow> out;
  auto before = ways.day;
  for (int k = 0; k < condition_count; ++k) {
    const auto condition = static_cast<Condition>(k);
    if (only && condition != *only) continue;
    if (progress != nullptr &&
        !progress->go_on(0.9 + 0.1 * k / condition_count, "walking them if it changes"))
      return fail(FaultCode::cancelled, "stopped");
    const auto then = changed(trip, condition);
    const bool legs_stay = condition == Condition::as_planned ||
                           condition == Condition::streams_up || condition == Condition::hour_late;
    route::JudgedOtherwise judged;
    if (!legs_stay)
      judged = finder.judged_otherwise(trip.request, then.request, wishes, all, threads);
    const auto daylight = trip::daylight_of(ground, then, trip.request.points.front().at);
    if (!daylight) return std::unexpected(daylight.error());
    std::shared_ptr<const DayWalk> day;
    if (condition != Condition::as_planned && condition != Condition::streams_up) {
      const auto& on = legs_stay ? ways.on : judged.on;
      day = before ? std::make_shared<const DayWalk>(*before, on, all, threads)
                   : std::make_shared<const DayWalk>(on, all, threads);
      if (!before) before = day;
    }
    const auto seen_of = [&](std::size_t w) -> Result<Seen> {
      Seen seen;
      if (condition == Condition::as_planned || condition == Condition::streams_up) {
        seen.plan = ways.ways[w].plan;
      } else {
        auto way = legs_stay ? *all[w] : std::move(judged.ways[w]);
        if (legs_stay) way.certainty = ways.ways[w].averaged;
        const auto days = day->walk(then, way, ways.ways[w].outcome.escapes, *daylight, threads,
                                    condition_days);
        if (!days) return std::unexpected(days.error());
        way.certainty = trip::way_kept_told(way.certainty, *days);
        auto outcome = trip::outcome_of(ground, then, std::move(way), {}, *days);
        if (!outcome) return std::unexpected(outcome.error());
        seen.plan = trip::plan_of(*outcome, then, ground);
      }
      seen.verdict = seen.plan.verdict;
      seen.end = seen.plan.schedule.end;
      seen.end_slow = seen.plan.schedule.end_slow;
      seen.minutes = seen.plan.minutes;
      if (condition == Condition::streams_up) by_the_bridges(seen, ground);
      return seen;
    };
    auto seen = seen_of(ways.picked);
    if (!seen) return std::unexpected(seen.error());
    ConditionRow row{condition,
                     title_of(condition, trip),
                     seen->verdict,
                     seen->plan.way.certainty,
                     seen->plan.keep_off,
                     seen->minutes,
                     seen->end,
                     seen->end_slow,
                     seen->plan.daylight,
                     Fallback::none_needed,
                     -1,
                     {}};
    const auto in_words = [&](Say what, const std::vector<std::string>& values) {
      row.then = trip::say(what, trip.language, values);
    };
    if (!trip::goes_wrong(row.verdict.band)) {
      in_words(Say::then_as_planned, {});
      out.push_back(std::move(row));
      continue;
    }
    row.leg = first_failing(row.verdict);
    for (std::size_t w = 0; w < ways.ways.size() && row.fallback == Fallback::none_needed; ++w) {
      if (w == ways.picked) continue;
      const auto other = seen_of(w);
      if (!other) return std::unexpected(other.error());
      if (trip::goes_wrong(other->verdict.band)) continue;
      row.fallback = Fallback::other_way;
      in_words(Say::then_other_way, {ways.ways[w].plan.way.name});
    }
    // What is outside the limits as planned is no way to set out on, and no hour mends it.
    const bool from_the_start = condition == Condition::as_planned;
    if (row.fallback == Fallback::none_needed && row.leg >= 0 && !from_the_start) {
      const auto leg = static_cast<std::size_t>(row.leg);
      // A turn without a fix has no name to turn at: it is told by the leg that ends there.
      const bool known = leg > 0 && picked.plan.way.legs[leg - 1].judged.fix_at_end;
      const auto from = known ? picked.plan.way.legs[leg].course.from
                              : trip::say(Say::escape_end_of, trip.language, {std::to_string(leg)});
      const auto* escape = escape_from_start(picked.plan, leg);
      row.fallback = leg == 0 ? Fallback::stay_home : Fallback::turn_back;
      if (leg == 0)
        in_words(Say::then_stay_home, {});
      else
        in_words(Say::then_turn_at,
                 {from, escape != nullptr ? escape_in_words(*escape, trip)
                                          : trip::say(Say::escape_none, trip.language)});
    }
    if (row.fallback == Fallback::none_needed) {
      const auto latest = seen->plan.schedule.latest_start;
      const bool sooner = !from_the_start && latest && *latest >= trip.start &&
                          *latest < seen->plan.schedule.start;
      row.fallback = sooner ? Fallback::start_sooner : Fallback::stay_home;
      if (sooner)
        in_words(Say::then_start_by, {trip::clock_text(*latest, row.daylight)});
      else
        in_words(Say::then_stay_home, {});
    }
    out.push_back(std::move(row));
  }
  return out;
}

const char* condition_name(Condition condition, bool planned_for_clear) {
  constexpr std::array names{"as_planned", "cloud", "hour_late", "streams_up", "slower", "snow"};
  if (condition == Condition::other_sight && !planned_for_clear) return "clear";
  return names[static_cast<std::size_t>(condition)];
}

const char* fallback_name(Fallback fallback) {
  constexpr std::array names{"none_needed", "other_way", "turn_back", "start_sooner", "stay_home"};
  return names[static_cast<std::size_t>(fallback)];
}

std::string conditions_as_text(const std::vector<ConditionRow>& rows, const trip::Trip& trip) {
  const auto in = trip.language;
  using enum TextTable::Side;
  TextTable table({{trip::told(in, "if the day changes"), left},
                   {trip::told(in, "keep every leg")},
                   {trip::told(in, "onto ground to keep off")},
                   {trip::told(in, "end")},
                   {trip::told(in, "slow day")},
                   {trip::told(in, "your limits"), left},
                   {trip::told(in, "then"), left}});
  for (const auto& row : rows) {
    auto verdict = trip::verdict_headline(row.verdict.band, in);
    if (row.leg >= 0) verdict = trip::told(in, "{}, leg {}", {verdict, row.leg + 1});
    table.row({row.title, trip::told(in, "{} in 100", {trip::of_hundred(row.certainty)}),
               trip::told(in, "{} in 100", {trip::harmed_of_hundred(row.keep_off)}),
               trip::clock_text(row.end, row.daylight),
               row.end_slow ? trip::clock_text(*row.end_slow, row.daylight) : std::string("–"),
               verdict, row.then});
  }
  return table.text();
}

}  // namespace lodeway::tasks
