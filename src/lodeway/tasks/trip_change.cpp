#include "lodeway/tasks/trip_change.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/party_of_trip.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/tasks/walked_days.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/way_kept_told.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/units/said.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::tasks {

namespace {

using nlohmann::ordered_json;

std::vector<Judgement> judgements_of(const trip::Plan& plan) {
  std::vector<Judgement> out;
  for (const auto& leg : plan.way.legs)
    out.push_back({trip::Band::within, leg.judged.certainty, leg.judged.hazard_probability,
                   leg.judged.minutes});
  for (const auto& reason : plan.verdict.reasons) {
    if (reason.leg < 0) continue;
    auto& band = out[static_cast<std::size_t>(reason.leg)].band;
    band = std::max(band, reason.band);
  }
  return out;
}

Judgement judgement_of(const trip::Plan& plan) {
  return {plan.verdict.band, plan.way.certainty, plan.keep_off, plan.minutes};
}

DayEnd end_of(const trip::Plan& plan) {
  const auto& s = plan.schedule;
  DayEnd out{trip::clock_text(s.end, plan.daylight), {}};
  if (s.end_slow) out.slow = trip::clock_text(*s.end_slow, plan.daylight);
  return out;
}

ordered_json judgement_json(const Judgement& j) {
  return {{"verdict", trip::band_name(j.band)},
          {"kept", j.kept},
          {"keep_off", j.keep_off},
          {"minutes", j.minutes}};
}

ordered_json end_json(const DayEnd& e) {
  return {{"clock", e.end}, {"slow", e.slow ? ordered_json(*e.slow) : ordered_json()}};
}

std::string lower(trip::Band band, units::Language language) {
  auto words = trip::verdict_headline(band, language);
  words.front() = static_cast<char>(words.front() | 0x20);
  return words;
}

}  // namespace

Result<TripChange> change_of_way(const PlannedWay& way, const trip::Plan& before,
                                 const route::WayFinder& finder, const trip::Trip& now) {
  const auto& ground = finder.ground();
  const auto sigma = declination_sigma_deg(ground, now);
  if (!sigma) return std::unexpected(sigma.error());
  const auto daylight = trip::daylight_of(ground, now, now.request.points.front().at);
  if (!daylight) return std::unexpected(daylight.error());
  const route::Wishes wishes{trip::speech_of(now), *sigma, now.min_certainty};
  const std::vector all{&way.outcome.way};
  Threads threads;
  auto judged = finder.judged_otherwise(before.trip.request, now.request, wishes, all, threads);
  const DayWalk day(judged.on, all, threads);
  auto& again = judged.ways.front();
  const auto days = day.walk(now, again, way.outcome.escapes, *daylight, threads);
  if (!days) return std::unexpected(days.error());
  again.certainty = trip::way_kept_told(again.certainty, *days);
  const auto outcome = trip::outcome_of(ground, now, std::move(again), {}, *days);
  if (!outcome) return std::unexpected(outcome.error());
  const auto plan = trip::plan_of(*outcome, now, ground);
  TripChange out;
  out.trip = before.trip.name;
  out.way = before.way.name;
  out.before = judgement_of(before);
  out.now = judgement_of(plan);
  out.day_before = end_of(before);
  out.day_now = end_of(plan);
  const auto old_legs = judgements_of(before), new_legs = judgements_of(plan);
  for (std::size_t i = 0; i < before.way.legs.size(); ++i) {
    const auto& course = before.way.legs[i].course;
    out.legs.push_back({course.from, course.to, old_legs[i], new_legs[i]});
  }
  return out;
}

Result<TripChange> trip_change(const PlanRequest& request, const learn::PartyRecord& before,
                               const learn::PartyRecord& now, Progress* progress) {
  auto asked = request;
  asked.party = std::make_shared<const learn::PartyRecord>(before);
  const auto planned = plan_trip(asked, progress);
  if (!planned) return std::unexpected(planned.error());
  auto ground_file = request.ground_file;
  if (ground_file.empty()) {
    auto named = io::ground_of_trip(request.trip_file);
    if (!named) return std::unexpected(named.error());
    ground_file = *std::move(named);
  }
  if (progress != nullptr && !progress->go_on(0.9, "judging the way anew"))
    return fail(FaultCode::cancelled, "stopped");
  auto ground = io::open_ground(ground_file);
  if (!ground) return std::unexpected(ground.error());
  const auto called = [&](const std::string& name) { return io::points_called(ground_file, name); };
  auto trip = io::read_trip(request.trip_file, walking::area_of(*ground), called);
  if (!trip) return std::unexpected(trip.error());
  for (const auto& change : trip->kinds) ground->kinds.take(change);
  if (const auto taken = take_party_file(*trip, *ground, &now); !taken)
    return std::unexpected(taken.error());
  const route::WayFinder finder(*ground);
  const auto& way = planned->ways.ways[planned->ways.picked];
  return change_of_way(way, way.plan, finder, *trip);
}

std::string trip_change_as_text(const TripChange& change, units::Language l) {
  using units::in, units::said;
  auto out = said(
      l,
      "On {} ({}): {} in 100 keep every leg (before {}), {} in 100 stray onto ground to keep off "
      "(before {}).\n",
      "Auf {} ({}): {} von 100 halten jeden Abschnitt (vorher {}), {} von 100 geraten auf zu "
      "meidendes Gelände (vorher {}).\n",
      change.trip.empty() ? in(l, "the trip", "der Tour") : change.trip, change.way,
      trip::of_hundred(change.now.kept), trip::of_hundred(change.before.kept),
      trip::harmed_of_hundred(change.now.keep_off),
      trip::harmed_of_hundred(change.before.keep_off));
  const auto slow = [&](const DayEnd& day) { return day.slow.value_or("–"); };
  out +=
      said(l,
           "  It ends at {} (before {}), on a slow day at {} (before {}); walking {:.0f} min "
           "(before {:.0f}).\n",
           "  Ende um {} (vorher {}), an einem langsamen Tag um {} (vorher {}); Gehen {:.0f} min "
           "(vorher {:.0f}).\n",
           change.day_now.end, change.day_before.end, slow(change.day_now), slow(change.day_before),
           change.now.minutes, change.before.minutes);
  bool any = false;
  for (std::size_t i = 0; i < change.legs.size(); ++i) {
    const auto& leg = change.legs[i];
    if (!leg.changed()) continue;
    any = true;
    out += said(l, "  leg {}, {} to {}: {}, it was {} ({} in 100 keep it, before {})\n",
                "  Abschnitt {}, {} nach {}: {}, vorher {} ({} von 100 halten ihn, vorher {})\n",
                i + 1, leg.from, leg.to, lower(leg.now.band, l), lower(leg.before.band, l),
                trip::of_hundred(leg.now.kept), trip::of_hundred(leg.before.kept));
  }
  if (!any)
    out += in(l, "  No leg changes its verdict.\n", "  Kein Abschnitt ändert sein Urteil.\n");
  return out;
}

std::string trip_change_as_json(const TripChange& change) {
  auto legs = ordered_json::array();
  for (std::size_t i = 0; i < change.legs.size(); ++i) {
    const auto& leg = change.legs[i];
    legs.push_back({{"leg", i + 1},
                    {"from", leg.from},
                    {"to", leg.to},
                    {"before", judgement_json(leg.before)},
                    {"now", judgement_json(leg.now)},
                    {"changed", leg.changed()}});
  }
  const ordered_json out{{"trip", change.trip},
                         {"way", change.way},
                         {"before", judgement_json(change.before)},
                         {"now", judgement_json(change.now)},
                         {"end_before", end_json(change.day_before)},
                         {"end_now", end_json(change.day_now)},
                         {"legs", std::move(legs)}};
  return out.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace lodeway::tasks
