#include "apps/server/store/trips.hpp"

#include "lodeway/earth/time_zone.hpp"
#include "lodeway/io/party/party_file.hpp"
#include "lodeway/io/trip/trip_document.hpp"
#include "lodeway/tasks/party_of_trip.hpp"
#include "lodeway/walking/choice.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::server {

namespace {

/// What helps, by the key that is wrong.
std::string what_to_do(const std::string& where) {
  if (where == "point") return "Click on the map where you start, then where you end.";
  if (where == "ground_id") return "Choose a ground first.";
  if (where == "date") return "Choose the day.";
  if (where == "start") return "Say when you set out.";
  if (where.ends_with(".at"))
    return "Type easting and northing, an MGRS reference, or latitude and longitude; or click on "
           "the map.";
  if (where.ends_with(".ring")) return "Draw the area again, with three corners at least.";
  return "";
}

Said helpful(const Fault& fault) {
  auto out = said(fault);
  if (auto help = what_to_do(out.where); !help.empty()) out.what_to_do = std::move(help);
  return out;
}

const Fault no_ground{FaultCode::bad_input, "ground_id: expected a ground"};

}  // namespace

Result<ReadyTrip> make_ready(Service& s, const StoredTrip& stored) {
  const auto& ground_id = stored.state["ground_id"];
  if (!ground_id.is_string()) return std::unexpected(no_ground);
  auto ground = s.shelf.open(ground_id.get<std::string>());
  if (!ground) return std::unexpected(ground.error());
  auto document = stored.state["document"];
  auto trip = io::trip_of_document(document.dump(), walking::area_of((*ground)->ground));
  if (!trip) return std::unexpected(trip.error());
  if (!trip->kinds.empty())
    return fail(FaultCode::bad_input, "kinds: expected none; only the command line reads them");
  if (!earth::utc_offset(trip->zone, {}))
    return fail(FaultCode::bad_input, "zone: expected a time zone by its city, like Europe/Oslo");
  const auto shown = stored.state.value("party_file", Json());
  if (!shown.is_null()) {
    if (!shown.is_string())
      return fail(FaultCode::bad_input, "party_file: expected a party file's text");
    const auto record = io::party_of_text(shown.get<std::string>(), "party_file");
    if (!record) return std::unexpected(record.error());
    const auto learnt = tasks::take_party_record(*trip, (*ground)->ground.kinds, *record);
    *ground = s.shelf.as_known_by(*ground, learnt.kinds);
  }
  document.erase("home");
  document.erase("pick");
  document.erase("name");
  return ReadyTrip{stored, *ground, *std::move(trip),
                   stored.id + " " + (*ground)->id + " " + (*ground)->stamp + " " +
                       document.dump() + shown.dump()};
}

Json trip_json(Service& s, const StoredTrip& t) {
  auto faults = Json::array();
  if (const auto ready = make_ready(s, t); !ready)
    faults.push_back(server::as_json(helpful(ready.error())));
  return {{"id", t.id},
          {"revision", t.revision},
          {"state", t.state},
          {"faults", faults},
          {"can_undo", t.can_undo},
          {"can_redo", t.can_redo},
          {"changed_at", t.changed_at}};
}

Result<std::string> trip_file_text(Service& s, const StoredTrip& t) {
  auto document = t.state["document"];
  const auto& way = t.state["chosen_way"];
  if (way.is_string() && walking::choice_of(way.get<std::string>())) document["pick"] = way;
  const auto& ground_id = t.state["ground_id"];
  const auto ground =
      ground_id.is_string() ? s.shelf.find(ground_id.get<std::string>()) : std::nullopt;
  return io::trip_file_of_document(document.dump(), ground ? ground->file : std::string());
}

Answer conflict(Service& s, const StoredTrip& newest, const std::vector<std::string>& contested) {
  const Said said{"conflict", "the trip was changed in another place meanwhile", "",
                  "Look at the newer state, then change it again."};
  auto paths = Json::array();
  for (const auto& path : contested) {
    if (!path.empty()) paths.push_back(path);
  }
  return Answer::json(
      {{"fault", server::as_json(said)}, {"newest", trip_json(s, newest)}, {"contested", paths}},
      409);
}

TripOrAnswer ready_at(Service& s, const std::string& id, const Json& body) {
  const auto stored = s.store->trip(id);
  if (!stored) return {std::nullopt, Answer::not_found("trip")};
  const auto revision = whole_at(body, "revision");
  if (!revision) return {std::nullopt, Answer::fault(revision.error())};
  if (*revision != stored->revision)
    return {std::nullopt, conflict(s, *stored, {})};
  auto ready = make_ready(s, *stored);
  if (!ready) return {std::nullopt, Answer::problem(400, helpful(ready.error()))};
  return {*std::move(ready), {}};
}

}  // namespace lodeway::server
