// Trips: keep, change, undo.
#include <chrono>

#include <fmt/format.h>

#include "apps/server/routes/say.hpp"
#include "apps/server/store/trips.hpp"
#include "lodeway/earth/time_zone.hpp"
#include "lodeway/io/trip/trip_document.hpp"
#include "lodeway/trip/make_plan.hpp"

extern "C" const unsigned char lodeway_example_trip[];
extern "C" const unsigned lodeway_example_trip_size;

namespace lodeway::server {

namespace {

/// The next day on which it is not 09:00 yet, by that zone's clock: a trip is planned for a day to
/// come, not for this morning when it is evening. An unknown zone: by UTC.
std::string next_day(const std::string& zone, std::chrono::sys_seconds now) {
  const auto offset = earth::utc_offset(zone, now);
  const auto clock = now + (offset ? *offset : std::chrono::seconds{0});
  const auto day = std::chrono::floor<std::chrono::days>(clock + std::chrono::hours{24 - 9});
  const std::chrono::year_month_day date{day};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

void tell_trip(Service& s, const std::string& id, const Json& revision) {
  s.hub.tell("trip " + id, Json{{"type", "trip"}, {"trip_id", id}, {"revision", revision}}.dump());
}

Json entry(const StoredTrip& t) {
  const auto& document = t.state["document"];
  return {{"id", t.id},
          {"revision", t.revision},
          {"name", text_or_empty(document, "name")},
          {"date", text_or_empty(document, "date")},
          {"ground_id", t.state["ground_id"]},
          {"changed_at", t.changed_at}};
}

Json list(Service& s) {
  auto trips = Json::array();
  for (const auto& t : s.store->trips()) trips.push_back(entry(t));
  return {{"trips", trips}};
}

Answer make(Service& s, const Request& request) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  Json document = {{"name", ""}, {"start", "09:00"}};
  if (body->contains("zone") && (*body)["zone"].is_string()) document["zone"] = (*body)["zone"];
  document["date"] = next_day(document.value("zone", "UTC"),
                              std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()));
  if (body->value("example", Json(false)) == true) {
    const auto example = io::document_of_trip_file(std::string_view(
        reinterpret_cast<const char*>(lodeway_example_trip), lodeway_example_trip_size));
    if (!example) return Answer::fault(example.error());
    document = Json::parse(*example);
  }
  if (body->contains("document")) {
    if (!(*body)["document"].is_object())
      return Answer::fault({FaultCode::bad_input, "document: expected the keys of a trip"});
    document.update((*body)["document"]);
  }
  const auto ground = body->value("ground_id", Json());
  if (!ground.is_null() && (!ground.is_string() || !s.shelf.find(ground.get<std::string>())))
    return Answer::fault({FaultCode::bad_input, "ground_id: expected a ground that is known"});
  const auto party_file = body->value("party_file", Json());
  if (!party_file.is_null() && !party_file.is_string())
    return Answer::fault({FaultCode::bad_input, "party_file: expected a party file's text"});
  const auto trip = s.store->new_trip({{"document", document},
                                       {"party_file", party_file},
                                       {"ground_id", ground},
                                       {"chosen_way", nullptr},
                                       {"sheets", nullptr}});
  tell_trip(s, trip.id, trip.revision);
  return Answer::json(trip_json(s, trip), 201);
}

Answer edited(Service& s, const Result<Edited>& edit) {
  if (!edit) return Answer::fault(edit.error());
  if (!edit->trip) return Answer::not_found("trip");
  if (!edit->contested.empty()) return conflict(s, *edit->trip, edit->contested);
  tell_trip(s, edit->trip->id, edit->trip->revision);
  return Answer::json(trip_json(s, *edit->trip));
}

Answer change(Service& s, const Request& request, const std::string& id) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  const auto revision = whole_at(*body, "revision");
  if (!revision) return Answer::fault(revision.error());
  return edited(
      s, s.store->change(id, *revision, body->value("changes", Json())));
}

Answer step(Service& s, const Request& request, const std::string& id, int by) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  const auto revision = whole_at(*body, "revision");
  if (!revision) return Answer::fault(revision.error());
  return edited(s, s.store->step(id, *revision, by));
}

Answer trip_file(Service& s, const std::string& id) {
  const auto trip = s.store->trip(id);
  if (!trip) return Answer::not_found("trip");
  const auto text = trip_file_text(s, *trip);
  if (!text) return Answer::fault(text.error());
  auto out = Answer::bytes(std::make_shared<const std::string>(*text), "application/toml");
  out.headers.emplace_back("Content-Disposition", "attachment; filename=\"trip.toml\"");
  return out;
}

/// The day may be asked for before there are places: then it is the ground's middle's.
Answer day(Service& s, const std::string& id) {
  auto stored = s.store->trip(id);
  if (!stored) return Answer::not_found("trip");
  const auto& ground_id = stored->state["ground_id"];
  if (!ground_id.is_string())
    return Answer::fault({FaultCode::bad_input, "ground_id: expected a ground"});
  const auto ground = s.shelf.open(ground_id.get<std::string>());
  if (!ground) return Answer::fault(ground.error());
  auto ready = make_ready(s, *stored);
  if (!ready) {
    const auto& f = (*ground)->ground.elevation.frame();
    const auto middle = std::to_string((f.west_m + f.east_m()) / 2) + " " +
                        std::to_string((f.south_m() + f.north_m) / 2);
    stored->state["document"]["point"] = {{{"at", middle}}, {{"at", middle}}};
    ready = make_ready(s, *stored);
  }
  if (!ready) return Answer::fault(ready.error());
  const auto daylight =
      trip::daylight_of((*ground)->ground, ready->trip, ready->trip.request.points.front().at);
  return daylight ? Answer::json(tasks::daylight_json(*daylight)) : Answer::fault(daylight.error());
}

}  // namespace

void add_trip_routes(Router& r, Service& s) {
  r.add("GET", "/api/trips", [&s](auto&, auto&) { return Answer::json(list(s)); });
  r.add("POST", "/api/trips", [&s](const Request& q, auto&) { return make(s, q); });
  r.add("GET", "/api/trips/{id}", [&s](auto&, const Pieces& p) {
    const auto trip = s.store->trip(p[0]);
    return trip ? Answer::json(trip_json(s, *trip)) : Answer::not_found("trip");
  });
  r.add("DELETE", "/api/trips/{id}", [&s](auto&, const Pieces& p) {
    if (!s.store->drop_trip(p[0])) return Answer::not_found("trip");
    tell_trip(s, p[0], nullptr);
    return Answer::json(list(s));
  });
  r.add("POST", "/api/trips/{id}/changes",
        [&s](const Request& q, const Pieces& p) { return change(s, q, p[0]); });
  r.add("POST", "/api/trips/{id}/undo",
        [&s](const Request& q, const Pieces& p) { return step(s, q, p[0], -1); });
  r.add("POST", "/api/trips/{id}/redo",
        [&s](const Request& q, const Pieces& p) { return step(s, q, p[0], +1); });
  r.add("GET", "/api/trips/{id}/day", [&s](auto&, const Pieces& p) { return day(s, p[0]); });
  r.add("GET", "/api/trips/{id}/trip.toml",
        [&s](auto&, const Pieces& p) { return trip_file(s, p[0]); });
}

}  // namespace lodeway::server
