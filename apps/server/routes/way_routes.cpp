// Ways: find, show, say why; legs while they are dragged.
#include <charconv>
#include <cmath>
#include <expected>

#include "apps/server/routes/say.hpp"
#include "apps/server/store/ways.hpp"
#include "lodeway/tasks/conditions_json.hpp"
#include "lodeway/tasks/today.hpp"
#include "lodeway/trip/make_plan.hpp"

namespace lodeway::server {

namespace {

Answer start_ways(Service& s, const Request& request, const std::string& id) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  auto ready = ready_at(s, id, *body);
  if (!ready.trip) return ready.answer;
  const JobAbout about{"ways", id, ready.trip->ground->id, ready.trip->stored.revision,
                       "ways " + ready.trip->question};
  auto work = [&s, trip = *std::move(ready.trip)](tasks::Progress& progress,
                                                  const std::string& job) -> Result<Outcome> {
    auto found = ways_for(s, trip, &progress);
    if (!found) return std::unexpected(found.error());
    return Outcome{*found, "/api/ways/" + job, ""};
  };
  return started(s, s.jobs.start(about, std::move(work)));
}

/// The trip as it stands, where these ways are still the answer to it; else none.
std::optional<trip::Trip> trip_now(Service& s, const FoundWays& found, const Json& trip_id) {
  const auto stored = s.store->trip(trip_id.get<std::string>());
  if (!stored) return std::nullopt;
  const auto ready = make_ready(s, *stored);
  if (!ready || ready->question != found.question) return std::nullopt;
  return ready->trip;
}

Answer show(Service& s, const std::string& job) {
  const auto found = s.jobs.result<FoundWays>(job);
  if (!found) return Answer::not_found("ways");
  const auto about = s.jobs.as_json(job);
  const auto now = trip_now(s, *found, about["trip_id"]);
  const auto& ground = found->ground->ground;
  auto ways = Json::array();
  auto front = Json::array();
  for (std::size_t i = 0; i < found->planned.ways.size(); ++i) {
    const auto& way = found->planned.ways[i];
    const auto plan = tasks::as_of_today(
        now ? told_why(trip::plan_of(way.outcome, *now, ground), *found, i) : way.plan);
    ways.push_back(tasks::way_json(way, plan, ground, i == found->planned.picked));
    front.push_back({{"minutes", plan.minutes}, {"certainty", plan.way.certainty}});
  }
  return Answer::json(
      {{"job", job},
       {"trip_id", about["trip_id"]},
       {"revision", about["revision"]},
       {"ground_id", about["ground_id"]},
       {"daylight", tasks::daylight_json(found->planned.ways.front().outcome.daylight)},
       {"ways", ways},
       {"picked", found->names[found->planned.picked]},
       {"remarks", found->planned.remarks},
       {"front", front}});
}

Answer why(Service& s, const Pieces& p) {
  const auto found = s.jobs.result<FoundWays>(p[0]);
  if (!found) return Answer::not_found("ways");
  const auto index = index_of(*found, p[1]);
  if (!index) return Answer::fault(index.error());
  int leg = 0;
  const auto [end, error] = std::from_chars(p[2].data(), p[2].data() + p[2].size(), leg);
  if (error != std::errc{} || end != p[2].data() + p[2].size()) return Answer::not_found("leg");
  auto ways = found->planned;
  ways.picked = *index;
  const auto text = tasks::explain_leg(found->ground->finder(), ways, leg);
  if (!text) return Answer::fault(text.error());
  auto sentences = Json::array();
  for (std::size_t at = 0; at < text->size();) {
    auto end_of = text->find('\n', at);
    if (end_of == std::string::npos) end_of = text->size();
    if (end_of > at) sentences.push_back(text->substr(at, end_of - at));
    at = end_of + 1;
  }
  return Answer::json({{"sentences", sentences}});
}

/// What becomes of one of the ways when the day changes; the table of `lodeway way --conditions`, or
/// one row of it, so that who asks can show how far it is, and stop.
Answer conditions(Service& s, const Request& request, const Pieces& p) {
  std::optional<tasks::Condition> only;
  if (const auto row = request.query.find("row"); row != request.query.end()) {
    if (row->second.size() != 1 || row->second[0] < '0' ||
        row->second[0] >= '0' + tasks::condition_count)
      return Answer::fault({FaultCode::bad_input, "row: expected a whole number from 0 to 5"});
    only = static_cast<tasks::Condition>(row->second[0] - '0');
  }
  const auto found = s.jobs.result<FoundWays>(p[0]);
  if (!found) return Answer::not_found("ways");
  const auto index = index_of(*found, p[1]);
  if (!index) return Answer::fault(index.error());
  auto ways = found->planned;
  ways.picked = *index;
  const auto rows =
      tasks::conditions_of(found->ground->ground, found->ground->finder(), ways, nullptr, only);
  if (!rows) return Answer::fault(rows.error());
  return Answer::json({{"rows", tasks::conditions_json(*rows, ways.ways[*index].plan.trip)}});
}

/// Kept between two drags of the same trip.
struct QuickShelf {
  std::mutex mutex;
  std::string question;
  GroundHandle ground;
  std::shared_ptr<const tasks::QuickLegs> legs;
};

Result<std::shared_ptr<const tasks::QuickLegs>> quick_for(QuickShelf& shelf, const ReadyTrip& trip,
                                                          const std::string& question) {
  const std::lock_guard lock(shelf.mutex);
  if (shelf.legs && shelf.question == question) return shelf.legs;
  auto made = tasks::QuickLegs::make(trip.ground->ground, trip.trip, trip.ground->finder().fixes());
  if (!made) return std::unexpected(made.error());
  shelf.legs = *std::move(made);
  shelf.ground = trip.ground;
  shelf.question = question;
  return shelf.legs;
}

Result<std::vector<walking::Waypoint>> places(const Json& body) {
  const auto found = body.find("points_grid_m");
  const auto wrong = [] {
    return fail(FaultCode::bad_input, "points_grid_m: expected 2 to 6 places [east, north]");
  };
  if (found == body.end() || !found->is_array() || found->size() > tasks::most_quick_points)
    return wrong();
  std::vector<walking::Waypoint> out;
  for (const auto& p : *found) {
    if (!p.is_array() || p.size() != 2 || !p[0].is_number() || !p[1].is_number()) return wrong();
    walking::Waypoint point;
    point.at = {p[0].get<double>(), p[1].get<double>()};
    if (!std::isfinite(point.at.east_m) || !std::isfinite(point.at.north_m)) return wrong();
    out.push_back(point);
  }
  if (body.contains("names") && body["names"].is_array()) {
    for (std::size_t i = 0; i < out.size() && i < body["names"].size(); ++i) {
      if (body["names"][i].is_string()) out[i].name = body["names"][i];
    }
  }
  return out;
}

/// A trip for the party and the day; its points may not be there yet.
Result<ReadyTrip> party_and_day(Service& s, const StoredTrip& stored,
                                const std::vector<walking::Waypoint>& points) {
  auto with_points = stored;
  auto& document = with_points.state["document"];
  document["point"] = Json::array();
  for (const auto& p : points) {
    document["point"].push_back(
        {{"at", std::to_string(p.at.east_m) + " " + std::to_string(p.at.north_m)}});
  }
  return make_ready(s, with_points);
}

/// The places of a question about straight legs, and what answers it.
struct QuickAsk {
  std::vector<walking::Waypoint> points;
  std::shared_ptr<const tasks::QuickLegs> legs;
  GroundHandle ground;
};

std::expected<QuickAsk, Answer> quick_ask(Service& s, QuickShelf& shelf, const Request& request,
                                          const std::string& id) {
  const auto body = body_json(request);
  if (!body) return std::unexpected(Answer::fault(body.error()));
  const auto stored = s.store->trip(id);
  if (!stored) return std::unexpected(Answer::not_found("trip"));
  const auto points = places(*body);
  if (!points) return std::unexpected(Answer::fault(points.error()));
  if (points->size() < 2)
    return std::unexpected(Answer::fault(
        {FaultCode::bad_input, "points_grid_m: expected 2 to 6 places [east, north]"}));
  const auto ready = party_and_day(s, *stored, *points);
  if (!ready) return std::unexpected(Answer::fault(ready.error()));
  auto about = stored->state;
  about["document"].erase("point");
  const auto legs = quick_for(shelf, *ready, ready->ground->stamp + about.dump());
  if (!legs) return std::unexpected(Answer::fault(legs.error()));
  return QuickAsk{*points, *legs, ready->ground};
}

/// A string laid on the map: figures whatever lies under it.
Answer measure(Service& s, QuickShelf& shelf, const Request& request, const std::string& id) {
  const auto ask = quick_ask(s, shelf, request, id);
  if (!ask) return ask.error();
  const auto told = ask->legs->measure(ask->points[0], ask->points[1]);
  if (!told) return Answer::fault(told.error());
  auto keep_off = Json::array(), heights = Json::array();
  for (const auto& k : told->keep_off) {
    keep_off.push_back({{"from_m", k.from_m},
                        {"to_m", k.to_m},
                        {"what", k.what},
                        {"line_grid_m", line_json(k.line)}});
  }
  for (const double h : told->heights_m) heights.push_back(std::isfinite(h) ? Json(h) : Json());
  return Answer::json({{"leg", tasks::leg_json(told->plan, 0, false)},
                       {"keep_off", keep_off},
                       {"heights_m", heights}});
}

Answer quick(Service& s, QuickShelf& shelf, const Request& request, const std::string& id) {
  const auto ask = quick_ask(s, shelf, request, id);
  if (!ask) return ask.error();
  const auto plan = ask->legs->legs(ask->points);
  if (!plan) return Answer::fault(plan.error());
  auto out = Json::array();
  for (std::size_t i = 0; i < plan->way.legs.size(); ++i)
    out.push_back(tasks::leg_json(*plan, i, false));
  return Answer::json({{"legs", out}});
}

}  // namespace

void add_way_routes(Router& r, Service& s) {
  const auto shelf = std::make_shared<QuickShelf>();
  r.add("POST", "/api/trips/{id}/ways",
        [&s](const Request& q, const Pieces& p) { return start_ways(s, q, p[0]); });
  r.add("GET", "/api/ways/{job}", [&s](auto&, const Pieces& p) { return show(s, p[0]); });
  r.add("GET", "/api/ways/{job}/{way}/{leg}/why",
        [&s](auto&, const Pieces& p) { return why(s, p); });
  r.add("GET", "/api/ways/{job}/{way}/conditions",
        [&s](const Request& q, const Pieces& p) { return conditions(s, q, p); });
  r.add("POST", "/api/trips/{id}/quick",
        [&s, shelf](const Request& q, const Pieces& p) { return quick(s, *shelf, q, p[0]); });
  r.add("POST", "/api/trips/{id}/measure",
        [&s, shelf](const Request& q, const Pieces& p) { return measure(s, *shelf, q, p[0]); });
}

}  // namespace lodeway::server
