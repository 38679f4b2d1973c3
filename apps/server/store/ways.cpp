#include "apps/server/store/ways.hpp"

#include <algorithm>

namespace lodeway::server {

namespace {

std::string kept_as(const ReadyTrip& trip) { return "ways " + trip.question; }

constexpr const char* names[] = {"quickest", "balanced", "surest"};
constexpr const char* titles[] = {"Quickest", "Balanced", "Surest"};

bool is_given(const trip::Trip& trip) {
  return std::ranges::none_of(trip.request.points.begin() + 1, trip.request.points.end(),
                              [](const auto& p) { return p.stretch == walking::Stretch::find; });
}

Result<WaysHandle> find(const ReadyTrip& ready, tasks::Progress* progress) {
  const auto& ground = ready.ground->ground;
  if (progress != nullptr && !progress->go_on(0, "making the ground ready"))
    return fail(FaultCode::cancelled, "stopped");
  auto planned = tasks::plan_ways(ground, ready.ground->finder(), ready.trip, progress);
  if (!planned) return std::unexpected(planned.error());
  auto out = std::make_shared<FoundWays>();
  out->ground = ready.ground;
  const bool given = is_given(ready.trip);
  for (const auto& w : planned->ways) {
    const auto which = static_cast<std::size_t>(w.choice);
    out->about.push_back({given ? "given" : names[which], given ? "As you gave it" : titles[which],
                          "", w.expected_min, w.hazard, w.rehearsed, w.rehearsed_error, w.walkers,
                          w.remarks});
  }
  out->planned = *std::move(planned);
  return out;
}

}  // namespace

Result<WaysHandle> ways_for(Service& s, const ReadyTrip& trip, tasks::Progress* progress) {
  if (auto kept = s.jobs.answer_to<FoundWays>(kept_as(trip))) return kept;
  return find(trip, progress);
}

Result<std::size_t> index_of(const FoundWays& ways, const std::string& name) {
  const auto found = std::ranges::find(ways.about, name, &AboutWay::name);
  if (found == ways.about.end())
    return fail(FaultCode::bad_input,
                "way: there is no " + name + " way; choose one that was found");
  return static_cast<std::size_t>(found - ways.about.begin());
}

Result<trip::Plan> plan_of(const FoundWays& ways, const std::string& name, const ReadyTrip& trip) {
  const auto index = index_of(ways, name);
  if (!index) return std::unexpected(index.error());
  auto plan = ways.planned.ways[*index].plan;
  auto request = std::move(plan.trip.request);  // its points have names
  plan.trip = trip.trip;
  plan.trip.request = std::move(request);
  return plan;
}

namespace {
Result<std::string> way_name(const Json& body) {
  auto name = text_at(body, "way");
  if (!name) return name;
  for (const char* known : {"quickest", "balanced", "surest", "given"}) {
    if (*name == known) return name;
  }
  return fail(FaultCode::bad_input, "way: expected quickest, balanced, surest or given");
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
