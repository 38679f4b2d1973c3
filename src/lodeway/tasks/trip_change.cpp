#include "lodeway/tasks/trip_change.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/party_of_trip.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/units/said.hpp"
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::tasks {

namespace {

using nlohmann::ordered_json;

std::vector<Judgement> judgements_of(const trip::Plan& plan) {
  std::vector<Judgement> out;
  for (const auto& leg : plan.way.legs)
    out.push_back({trip::Band::within, leg.judged.certainty, leg.judged.hazard_probability});
  for (const auto& reason : plan.verdict.reasons) {
    if (reason.leg < 0) continue;
    auto& band = out[static_cast<std::size_t>(reason.leg)].band;
    band = std::max(band, reason.band);
  }
  return out;
}

Judgement judgement_of(const trip::Plan& plan) {
  return {plan.verdict.band, plan.way.certainty, plan.keep_off};
}

/// The ground and the trip as files have them, and the party as it is known.
Result<trip::Plan> judged_for(const PlanRequest& request, const std::string& ground_file,
                              const walking::Way& way, const walking::WalkedDays& days,
                              const learn::PartyRecord& party) {
  auto ground = io::open_ground(ground_file);
  if (!ground) return std::unexpected(ground.error());
  const auto called = [&](const std::string& name) { return io::points_called(ground_file, name); };
  auto trip = io::read_trip(request.trip_file, walking::area_of(*ground), called);
  if (!trip) return std::unexpected(trip.error());
  for (const auto& change : trip->kinds) ground->kinds.take(change);
  if (const auto taken = take_party_file(*trip, *ground, &party); !taken)
    return std::unexpected(taken.error());
  const auto sigma = declination_sigma_deg(*ground, *trip);
  if (!sigma) return std::unexpected(sigma.error());
  const walking::Cover cover(*ground, trip->request);
  const reckoning::Judge judge(*ground, trip->request.party, reckoning::forbidden_of(cover), *sigma,
                               {}, trip::speech_of(*trip));
  auto judged = judge.judge(way);
  judged.certainty = judge.averaged_certainty(way);
  const auto bands = judge.bands(way);
  for (std::size_t i = 0; i < bands.size(); ++i) judged.legs[i].judged.band = bands[i];
  const auto outcome = trip::outcome_of(*ground, *trip, std::move(judged), {}, days);
  if (!outcome) return std::unexpected(outcome.error());
  return trip::plan_of(*outcome, *trip, *ground);
}

ordered_json judgement_json(const Judgement& j) {
  return {{"verdict", trip::band_name(j.band)}, {"kept", j.kept}, {"keep_off", j.keep_off}};
}

std::string lower(trip::Band band, units::Language language) {
  auto words = trip::verdict_headline(band, language);
  words.front() = static_cast<char>(words.front() | 0x20);
  return words;
}

}  // namespace

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
  const auto way = trip::plain(planned->plan.way);
  const auto& days = planned->ways.ways[planned->ways.picked].days;
  const auto was = judged_for(request, ground_file, way, days, before);
  if (!was) return std::unexpected(was.error());
  if (progress != nullptr && !progress->go_on(0.9, "judging the way anew"))
    return fail(FaultCode::cancelled, "stopped");
  const auto is = judged_for(request, ground_file, way, days, now);
  if (!is) return std::unexpected(is.error());
  TripChange out;
  out.trip = planned->plan.trip.name;
  out.way = planned->plan.way.name;
  out.before = judgement_of(*was);
  out.now = judgement_of(*is);
  const auto old_legs = judgements_of(*was), new_legs = judgements_of(*is);
  for (std::size_t i = 0; i < way.legs.size(); ++i)
    out.legs.push_back({way.legs[i].course.from, way.legs[i].course.to, old_legs[i], new_legs[i]});
  return out;
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
                         {"legs", std::move(legs)}};
  return out.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace lodeway::tasks
