#include "lodeway/route/choose/way_finder.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/route/choose/all_ways.hpp"
#include "lodeway/route/choose/choose_ways.hpp"
#include "lodeway/route/choose/home_same_way.hpp"
#include "lodeway/route/choose/judge_ways.hpp"
#include "lodeway/route/choose/local_ground.hpp"
#include "lodeway/route/choose/way_parts.hpp"
#include "lodeway/route/escape/escape_routes.hpp"
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"

namespace lodeway::route {

namespace {

using walking::Choice;
using walking::Waypoint;

bool german(const Wishes& w) { return w.language == units::Language::german; }

std::string choice_words(Choice choice, const Wishes& wishes) {
  constexpr const char* english[] = {"quick", "middle", "sure"};
  constexpr const char* deutsch[] = {"schnell", "mittel", "zuverlässig"};
  return (german(wishes) ? deutsch : english)[static_cast<int>(choice)];
}

std::string given_words(const Wishes& wishes) {
  return german(wishes) ? "vorgegeben" : "given by the leader";
}

Result<void> rehearse(const walking::Ground& ground, const reckoning::Judge& judge,
                      std::size_t walkers, std::vector<NamedWay>& ways,
                      numeric::Parallel& parallel) {
  for (auto& way : ways) {
    auto r = reckoning::rehearse(ground, judge, plain(way.way), {walkers, 1}, parallel);
    if (!r) return std::unexpected(r.error());
    way.rehearsed = r->certainty;
    way.rehearsed_error = r->certainty_error;
  }
  return {};
}

}  // namespace

const walking::Ground& JudgedOn::ground() const { return local_->ground; }

LegCost cost_of(const NamedWay& way) {
  return {60 * way.expected_min + leg_costs_s * static_cast<double>(way.way.legs.size()),
          -std::log(std::max(way.way.certainty, 1e-9)), way.hazard};
}

WayFinder::WayFinder(const walking::Ground& ground, const std::optional<terrain::Frame>& whole)
    : ground_(ground),
      whole_(whole.value_or(ground.elevation.frame())),
      parts_(std::make_unique<const LocalGrounds>(ground)) {}
WayFinder::WayFinder(WayFinder&&) noexcept = default;
WayFinder::~WayFinder() = default;
std::shared_ptr<const landmarks::Fixes> WayFinder::fixes() const {
  return parts_->whole()->lines.shared_fixes;
}

/// The whole where a place lies outside of the ground: then that is said of the whole.
std::shared_ptr<const LocalGround> WayFinder::part_for(const walking::Request& request,
                                                       double times) const {
  const auto outside = [&](const auto& place) {
    return !ground_.elevation.frame().contains(place.at);
  };
  if (std::ranges::any_of(request.points, outside) || std::ranges::any_of(request.safe, outside))
    return parts_->whole();
  return parts_->of(reach_of(request, times));
}

Result<Ways> WayFinder::find(const walking::Request& request, const Wishes& wishes,
                             numeric::Parallel& parallel, const GoOn& go_on) const {
  for (double times = 1;; times *= wider_times) {
    const auto part = part_for(request, times);
    auto found = find_on(part, request, wishes, parallel, go_on);
    const bool beyond = part->ground.elevation.frame() != whole_ &&
                        (found ? found->beyond_piece : found.error().code == FaultCode::no_way);
    if (!beyond || &part->ground == &ground_) return found;
  }
}

bool WayFinder::find_escapes(const LocalGround& local, const Workshop& shop,
                             const walking::Request& request, const Wishes& wishes,
                             numeric::Parallel& parallel,
                             const std::vector<const reckoning::JudgedWay*>& ways,
                             const std::function<bool()>& go_on,
                             std::vector<EscapesOfWay>& out) const {
  const auto lead_beyond = [&](const LocalGround& part, const Workshop& with) {
    const EscapeRoutes routes(with.cutting, with.judge, wishes.most_hazard,
                              {with.met->hazards, part.lines.shared_fixes, part.lines.slopes,
                               &with.met->to_safe_ground(), CutFrom{whole_, beyond_reach_m}});
    auto found = routes.of(ways, parallel, go_on);
    out = std::move(found.of_ways);
    // An escape route's minutes have the centre of the party's times in them.
    return found.nearer_beyond &&
           leads_off_beyond(part.ground.elevation.frame(), whole_, out,
                            walking::bands_of(request.party).centre *
                                static_cast<double>(with.met->prepared->pace.cheapest_s_per_m()));
  };
  if (!lead_beyond(local, shop)) return true;
  const auto* last = &local.ground;
  for (double times = wider_times; last != &ground_; times *= wider_times) {
    if (!go_on()) return true;
    const auto part = part_for(request, times);
    if (!lead_beyond(*part, Workshop(*part, request, wishes, parallel))) return true;
    last = &part->ground;
  }
  return false;
}

Result<Ways> WayFinder::find_on(const std::shared_ptr<const LocalGround>& part,
                                const walking::Request& request, const Wishes& wishes,
                                numeric::Parallel& parallel, const GoOn& go_on) const {
  const LocalGround& local = *part;
  if (request.points.size() < 2)
    return fail(FaultCode::bad_input, "the way: expected two points at least");
  if (const auto errors = reckoning::checked_errors_of(request.party); !errors)
    return fail_in("party.errors", errors.error());
  // Within a stretch, and where the stretches are sought again, the same is told: progress never goes back.
  std::size_t stretch = 0, of = request.points.size() - 1;
  const GoOn told = [&](std::size_t now, std::size_t all) {
    stretch = std::max(stretch, now);
    of = all;
    return !go_on || go_on(stretch, all);
  };
  const std::function<bool()> keep_on = [&] { return told(stretch, of); };
  Workshop shop(local, request, wishes, parallel, keep_on);
  for (const auto& place : request.safe) {
    const auto ok = check_haven(local.ground, *shop.met->prepared, place);
    if (!ok) return std::unexpected(ok.error());
  }
  const auto points = named_points(shop.cutting);
  for (const auto& point : points) {  // each is met again, but only after the stretches before it
    if (const auto ok = check_place(shop.cutting.prepared, point); !ok)
      return std::unexpected(ok.error());
  }
  auto all = all_ways(local, shop, points, wishes, parallel, told);
  if (!all) return std::unexpected(all.error());
  auto& whole = all->ways;
  const bool given = all->given;
  if (const auto done =
          home_the_same_way(shop.cutting, shop.judge, wishes, rules_of(wishes), points, whole,
                            parallel, keep_on);
      !done)
    return std::unexpected(done.error());
  auto out = named(std::move(whole), wishes);
  out.remarks.insert(out.remarks.begin(), all->remarks.begin(), all->remarks.end());
  if (given) out.remarks.clear();
  std::vector<const reckoning::JudgedWay*> chosen;
  for (auto& way : out.ways) {
    way.way.name = given ? given_words(wishes) : choice_words(way.choice, wishes);
    chosen.push_back(&way.way);
  }
  std::vector<EscapesOfWay> escapes;
  Result<void> rehearsed;
  bool all_off = true;
  parallel.for_each_block(3, [&](std::size_t block) {
    if (block == 0) {
      all_off = find_escapes(local, shop, request, wishes, parallel, chosen, keep_on, escapes);
    } else if (block == 1) {
      for (auto& way : out.ways) {
        const auto legs = plain(way.way);
        way.averaged = shop.judge.averaged_certainty(legs);
        const auto bands = shop.judge.bands(legs);
        for (std::size_t i = 0; i < bands.size(); ++i) way.way.legs[i].judged.band = bands[i];
      }
    } else if (wishes.walkers > 0) {
      rehearsed = rehearse(local.ground, shop.judge, wishes.walkers, out.ways, parallel);
    }
  });
  if (!rehearsed) return std::unexpected(rehearsed.error());
  if (!keep_on()) return fail(FaultCode::cancelled, "stopped");
  for (std::size_t i = 0; i < out.ways.size(); ++i) out.ways[i].escapes = std::move(escapes[i]);
  out.on = std::make_shared<const JudgedOn>(
      part,
      std::shared_ptr<const walking::Cover>(shop.met, &shop.met->prepared->cover),
      shop.judge);
  out.beyond_piece = local.ground.elevation.frame() != whole_ && (all->farther || !all_off);
  return out;
}

}  // namespace lodeway::route
