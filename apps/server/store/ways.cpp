#include "apps/server/store/ways.hpp"

#include "lodeway/tasks/pick_way.hpp"
#include "lodeway/tasks/say.hpp"
#include "lodeway/tasks/today.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/walking/choice.hpp"

#include <algorithm>

namespace lodeway::server {

namespace {

std::string kept_as(const ReadyTrip& trip) { return "ways " + trip.question; }

Result<WaysHandle> find(const ReadyTrip& ready, tasks::Progress* progress) {
  const auto& ground = ready.ground->ground;
  if (progress != nullptr && !progress->go_on(0, "making the ground ready"))
    return fail(FaultCode::cancelled, "stopped");
  auto planned = tasks::plan_ways(ground, ready.ground->finder(), ready.trip, progress);
  if (!planned) return std::unexpected(planned.error());
  auto out = std::make_shared<FoundWays>();
  out->ground = ready.ground;
  out->question = ready.question;
  for (const auto& w : planned->ways) out->names.push_back(tasks::called(ready.trip, w.choice).name);
  out->planned = *std::move(planned);
  out->planned.day.reset();  // some ten megabytes, and few ask how it is on another day
  return out;
}

}  // namespace

Result<WaysHandle> ways_for(Service& s, const ReadyTrip& trip, tasks::Progress* progress) {
  if (auto kept = s.jobs.answer_to<FoundWays>(kept_as(trip))) return kept;
  return find(trip, progress);
}

Result<std::size_t> index_of(const FoundWays& ways, const std::string& name) {
  const auto found = std::ranges::find(ways.names, name);
  if (found == ways.names.end())
    return fail(FaultCode::bad_input,
                "way: there is no " + name + " way; choose one that was found");
  return static_cast<std::size_t>(found - ways.names.begin());
}

trip::Plan told_why(trip::Plan plan, const FoundWays& ways, std::size_t index) {
  if (index != ways.planned.picked) return plan;
  return tasks::told_why(std::move(plan), ways.planned.picked_why);
}

Result<trip::Plan> plan_of(const FoundWays& ways, const std::string& name, const ReadyTrip& trip) {
  const auto index = index_of(ways, name);
  if (!index) return std::unexpected(index.error());
  return tasks::as_of_today(
      told_why(trip::plan_of(ways.planned.ways[*index].outcome, trip.trip, ways.ground->ground),
               ways, *index));
}

namespace {
Result<std::string> way_name(const Json& body) {
  auto name = text_at(body, "way");
  if (!name) return name;
  if (*name == "given") return name;
  if (const auto choice = walking::choice_of(*name); !choice)
    return fail_in("way", {FaultCode::bad_input, choice.error().what + ", or given"});
  return name;
}
}  // namespace

std::expected<AskedWay, Answer> asked_way(Service& s, const Request& request,
                                          const std::string& id) {
  auto body = body_json(request);
  if (!body) return std::unexpected(Answer::fault(body.error()));
  auto way = way_name(*body);
  if (!way) return std::unexpected(Answer::fault(way.error()));
  auto ready = ready_at(s, id, *body);
  if (!ready.trip) return std::unexpected(std::move(ready.answer));
  return AskedWay{*std::move(body), *std::move(way), *std::move(ready.trip)};
}

}  // namespace lodeway::server
