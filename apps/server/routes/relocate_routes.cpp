// Where are we: what a party tells of a place, on a ground or on a leg of a trip.
#include <mutex>

#include "apps/server/routes/relocate_routes.hpp"
#include "apps/server/store/ways.hpp"
#include "lodeway/tasks/relocate.hpp"

namespace lodeway::server {

namespace {

/// The ground asked about last, made ready: an answer then takes tens of milliseconds.
struct Ready {
  std::mutex mutex;  ///< one answer at a time: views are added to it
  std::string question;
  GroundHandle ground;
  std::optional<tasks::RelocateGround> made;

  tasks::RelocateGround& of(const GroundHandle& wanted, const std::string& key,
                            const walking::Request& request, const sight::Chances& chances) {
    if (!made || question != key || ground != wanted) {
      made = tasks::ready_to_relocate(wanted->ground, request, chances);
      ground = wanted;
      question = key;
    }
    return *made;
  }
};

Answer answered(const Result<tasks::Relocation>& answer) {
  if (!answer) return Answer::fault(answer.error());
  return Answer::bytes(std::make_shared<const std::string>(tasks::relocation_json(*answer)),
                       "application/json");
}

Answer on_ground(Service& s, Ready& ready, const Request& request, const std::string& id) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  const auto told = tasks::told_of_json(body->dump());
  if (!told) return Answer::fault(told.error());
  const auto ground = s.shelf.open(id);
  if (!ground) return Answer::fault(ground.error());
  const std::scoped_lock lock(ready.mutex);
  auto& made = ready.of(*ground, id + (*ground)->stamp, walking::Request{}, {});
  return answered(tasks::relocate((*ground)->ground, nullptr, nullptr, *told, &made));
}

/// {revision, told, way}: `way` only where a leg is told.
Answer on_trip(Service& s, Ready& ready, const Request& request, const std::string& id) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  auto asked = ready_at(s, id, *body);
  if (!asked.trip) return asked.answer;
  const ReadyTrip& trip = *asked.trip;
  const auto told = tasks::told_of_json(body->value("told", Json::object()).dump());
  if (!told) return Answer::fault(told.error());
  std::vector<walking::Leg> legs;
  if (told->leg != 0) {
    const auto way = text_at(*body, "way");
    if (!way) return Answer::fault(way.error());
    const auto ways = ways_for(s, trip, nullptr);
    if (!ways) return Answer::fault(ways.error());
    const auto plan = plan_of(**ways, *way, trip);
    if (!plan) return Answer::fault(plan.error());
    legs = trip::plain(plan->way).legs;
  }
  const std::scoped_lock lock(ready.mutex);
  auto& made = ready.of(trip.ground, trip.question, trip.trip.request,
                        sight::Chances(trip.trip.request.party.chances));
  return answered(tasks::relocate(trip.ground->ground, &trip.trip, legs.empty() ? nullptr : &legs,
                                  *told, &made));
}

}  // namespace

void add_relocate_routes(Router& router, Service& service) {
  const auto ready = std::make_shared<Ready>();
  router.add("POST", "/api/grounds/{id}/relocate",
             [&service, ready](const Request& request, const Pieces& p) {
               return on_ground(service, *ready, request, p[0]);
             });
  router.add("POST", "/api/trips/{id}/relocate",
             [&service, ready](const Request& request, const Pieces& p) {
               return on_trip(service, *ready, request, p[0]);
             });
}

}  // namespace lodeway::server
