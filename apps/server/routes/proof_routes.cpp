// Rehearsal: walk the way many times; show who is lost where, and some of them going.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <numeric>

#include <fmt/format.h>

#include "apps/server/routes/watch_json.hpp"
#include "apps/server/store/ways.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/pdf/picture.hpp"
#include "lodeway/sheet/draw/ink.hpp"
#include "lodeway/tasks/rehearse.hpp"
#include "lodeway/tasks/say.hpp"

namespace lodeway::server {

namespace {

/// Where walkers strayed, in one hue from faint to strong by powers of ten; nothing where nobody
/// was. The least share that shows is one walker in ten thousand.
Result<std::string> density_png(const terrain::Raster<float>& strayed) {
  io::Picture picture{strayed.cols(), strayed.rows(), {}};
  picture.rgba.resize(strayed.frame().size() * 4);
  std::uint8_t* to = picture.rgba.data();
  for (const float share : strayed.cells()) {
    if (share > 0) {
      constexpr double first = 1e-4, faintest = 70, a_decade = 46;
      const double decades = std::log10(std::max(static_cast<double>(share) / first, 1.0));
      to[0] = sheet::ink::rowan.red;
      to[1] = sheet::ink::rowan.green;
      to[2] = sheet::ink::rowan.blue;
      to[3] = static_cast<std::uint8_t>(std::min(faintest + a_decade * decades, 235.0));
    }
    to += 4;
  }
  return io::png_bytes(picture);
}

Json leg_json(const reckoning::RehearsedLeg& leg, std::size_t index) {
  std::vector<std::size_t> order(reckoning::loss_count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, std::greater{}, [&](std::size_t k) { return leg.lost[k]; });
  auto lost = Json::array();
  for (const auto k : order) {
    if (leg.lost[k] > 0)
      lost.push_back({{"why", reckoning::loss_words(static_cast<reckoning::Loss>(k))},
                      {"walkers", leg.lost[k]}});
  }
  return {{"leg", index + 1},
          {"walkers", leg.walkers},
          {"kept", leg.kept},
          {"certainty", leg.certainty},
          {"certainty_error", leg.certainty_error},
          {"expected", leg.expected},
          {"lost", lost},
          {"hazard", leg.hazard},
          {"minutes_10", leg.minutes_10},
          {"minutes_50", leg.minutes_50},
          {"minutes_90", leg.minutes_90}};
}

Json sentences(const reckoning::Rehearsal& r) {
  auto out = Json::array();
  out.push_back(fmt::format("{:.0f} in 100 walkers kept every leg at the first try.",
                            std::floor(100 * r.certainty)));
  if (r.weakest >= 0) {
    const auto& leg = r.legs[static_cast<std::size_t>(r.weakest)];
    const auto most = std::ranges::max_element(leg.lost) - leg.lost.begin();
    out.push_back(fmt::format("Leg {} loses most: {} of {} who set out on it; most of them {}.",
                              r.weakest + 1, leg.walkers - leg.kept, leg.walkers,
                              reckoning::loss_words(static_cast<reckoning::Loss>(most))));
  }
  if (r.hazard_share > 0)
    out.push_back(
        fmt::format("{:.1f} in 100 set foot on ground to keep off.", 100 * r.hazard_share));
  if (r.turned_back_share > 0)
    out.push_back(
        fmt::format("{:.1f} in 100 gave the way up and went back.", 100 * r.turned_back_share));
  return out;
}

Json answer_of(const reckoning::Rehearsal& r, const trip::Plan& plan, Json watch,
               const StoredTrip& trip, const std::string& way, std::uint64_t seed,
               const std::string& job) {
  auto legs = Json::array();
  for (std::size_t i = 0; i < r.legs.size(); ++i) legs.push_back(leg_json(r.legs[i], i));
  const auto& f = r.strayed.frame();
  return {{"job", job},
          {"trip_id", trip.id},
          {"revision", trip.revision},
          {"way", way},
          {"verdict", tasks::verdict_json(plan)},
          {"walkers", r.walkers},
          {"seed", seed},
          {"certainty", r.certainty},
          {"certainty_error", r.certainty_error},
          {"expected", r.expected},
          {"hazard_share", r.hazard_share},
          {"hazard_error", r.hazard_error},
          {"turned_back_share", r.turned_back_share},
          {"minutes_10", r.minutes_10},
          {"minutes_50", r.minutes_50},
          {"minutes_90", r.minutes_90},
          {"weakest_leg", r.weakest < 0 ? Json() : Json(r.weakest + 1)},
          {"legs", legs},
          {"density",
           {{"url", "/api/rehearsals/" + job + "/density.png"},
            {"extent_grid_m", {f.west_m, f.south_m(), f.east_m(), f.north_m}},
            {"words",
             "Where walkers on a bearing set foot: faint, one in ten thousand; each step "
             "stronger, ten times as many."}}},
          {"watch", std::move(watch)},
          {"sentences", sentences(r)}};
}

Result<Outcome> rehearse(Service& s, const ReadyTrip& trip, const std::string& way,
                         reckoning::RehearsalRequest wanted, tasks::Progress& progress,
                         const std::string& job) {
  const auto ways = ways_for(s, trip, &progress);
  if (!ways) return std::unexpected(ways.error());
  const auto plan = plan_of(**ways, way, trip);
  if (!plan) return std::unexpected(plan.error());
  const auto rehearsal = tasks::rehearse_plan(trip.ground->ground, *plan, wanted, &progress);
  if (!rehearsal) return std::unexpected(rehearsal.error());
  const auto watch = watched(trip.ground->ground, *plan, wanted.seed, progress);
  if (!watch) return std::unexpected(watch.error());
  const auto density = density_png(rehearsal->strayed);
  if (!density) return std::unexpected(density.error());
  const auto folder = s.rehearsals.folder_of(job);
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (auto done = io::write_beside(folder + "/density.png", *density); !done)
    return std::unexpected(done.error());
  if (auto done = s.rehearsals.keep(
          job, answer_of(*rehearsal, *plan, *watch, trip.stored, way, wanted.seed, job));
      !done)
    return std::unexpected(done.error());
  return Outcome{std::make_shared<const std::string>(job), "/api/rehearsals/" + job, ""};
}

Answer start_proof(Service& s, const Request& request, const std::string& id) {
  auto ask = asked_way(s, request, id);
  if (!ask) return ask.error();
  const Json& body = ask->body;
  const auto walkers = number_at(body, "walkers");
  if (!walkers) return Answer::fault(walkers.error());
  const double seed = body.contains("seed") ? number_at(body, "seed").value_or(-1) : 1;
  if (!(*walkers >= 1 && *walkers <= static_cast<double>(reckoning::most_walkers)))
    return Answer::fault({FaultCode::bad_input, "walkers: expected 1 to 1000000"});
  if (!(seed >= 0 && seed <= 9e15))
    return Answer::fault({FaultCode::bad_input, "seed: expected a number from 0"});
  const ReadyTrip& ready = ask->trip;
  const reckoning::RehearsalRequest wanted{static_cast<std::size_t>(*walkers),
                                           static_cast<std::uint64_t>(seed)};
  const JobAbout about{
      "rehearsal", id, ready.ground->id, ready.stored.revision,
      fmt::format("rehearsal {} {} {} {}", ask->way, wanted.walkers, wanted.seed, ready.question)};
  auto work = [&s, trip = std::move(ask->trip), way = ask->way, wanted](tasks::Progress& progress,
                                                                        const std::string& job) {
    return rehearse(s, trip, way, wanted, progress, job);
  };
  return started(s, s.jobs.start(about, std::move(work)));
}

}  // namespace

void add_proof_routes(Router& r, Service& s) {
  r.add("POST", "/api/trips/{id}/rehearsal",
        [&s](const Request& q, const Pieces& p) { return start_proof(s, q, p[0]); });
  r.add("GET", "/api/rehearsals/{job}", [&s](auto&, const Pieces& p) {
    const auto found = s.rehearsals.answer(p[0]);
    return found ? Answer::json(*found) : Answer::not_found("rehearsal");
  });
  r.add("GET", "/api/rehearsals/{job}/density.png", [&s](auto&, const Pieces& p) {
    const auto found = s.rehearsals.file(p[0], "density.png");
    return found ? Answer::bytes(found, "image/png") : Answer::not_found("rehearsal");
  });
}

}  // namespace lodeway::server
