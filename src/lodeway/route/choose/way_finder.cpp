#include "lodeway/route/choose/way_finder.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/route/choose/judge_ways.hpp"
#include "lodeway/route/choose/keep_best.hpp"
#include "lodeway/route/choose/local_ground.hpp"
#include "lodeway/route/choose/way_parts.hpp"
#include "lodeway/route/escape/ways_off.hpp"
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"

namespace lodeway::route {

namespace {

using walking::Choice;
using walking::Waypoint;

constexpr std::size_t most_worked_out = 24;
constexpr double wider_times = 4;  // where a part of the ground was too small

bool german(const Wishes& w) { return w.language == units::Language::german; }

/// Some of the front, evenly over its losses, both ends among them.
std::vector<std::size_t> spread_over(const std::vector<WholeWay>& front) {
  std::vector<std::size_t> out;
  const double step = (front.front().cost.loss - front.back().cost.loss) / most_worked_out;
  for (std::size_t i = 0; i < front.size(); ++i) {
    if (front.size() <= most_worked_out || out.empty() || i + 1 == front.size() ||
        front[out.back()].cost.loss - front[i].cost.loss >= step) {
      out.push_back(i);
    }
  }
  return out;
}

/// What every one of the ways misses.
Missed missed_by_all(const std::vector<NamedWay>& ways, const Wishes& wishes) {
  Missed all{true, true};
  for (const auto& way : ways) {
    const auto one = missed_by(way.way, wishes);
    all = {all.certainty && one.certainty, all.hazard && one.hazard};
  }
  return all;
}

std::string choice_words(Choice choice, const Wishes& wishes) {
  constexpr const char* english[] = {"quickest", "balanced", "surest"};
  constexpr const char* deutsch[] = {"schnellster", "ausgewogener", "sicherster"};
  return (german(wishes) ? deutsch : english)[static_cast<int>(choice)];
}

/// What is named where limits are broken, for a leader.
std::string breaks_words(const Wishes& wishes) {
  return german(wishes)
             ? "so gewählt: von den Wegen, die höchstens anderthalbmal so lang gehen wie der "
               "zeitlich kürzeste, die, welche die Grenzen am wenigsten verletzen; längere nur, wo "
               "sie sicherer sind und die Grenzen nicht mehr verletzen"
             : "chosen so: of the ways that take at most one and a half times the least time those "
               "that break the limits least; longer ones only where they are surer and break them "
               "no more";
}

std::string given_words(const Wishes& wishes) {
  return german(wishes) ? "vorgegeben" : "given by the leader";
}

Result<void> rehearse(const walking::Ground& ground, const reckoning::Judge& judge,
                      std::size_t walkers, std::vector<NamedWay>& ways,
                      numeric::Parallel& parallel) {
  for (auto& way : ways) {
    const auto r = reckoning::rehearse(ground, judge, plain(way.way), {walkers, 1}, parallel);
    if (!r) return std::unexpected(r.error());
    way.rehearsed = r->certainty;
    way.rehearsed_error = r->certainty_error;
  }
  return {};
}

}  // namespace

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
    auto found = find_on(*part, request, wishes, parallel, go_on);
    const bool beyond = part->ground.elevation.frame() != whole_ &&
                        (found ? found->beyond_piece : found.error().code == FaultCode::no_way);
    if (!beyond || &part->ground == &ground_) return found;
  }
}

bool WayFinder::find_ways_off(const LocalGround& local, const walking::Request& request,
                              const Wishes& wishes, numeric::Parallel& parallel,
                              std::span<const walking::Course* const> courses,
                              std::vector<std::optional<walking::WayOff>>& out) const {
  const auto lead_beyond = [&](const LocalGround& part) {
    const auto met = part.met_by.of(part.ground, request, part.lines.slopes, parallel);
    out = WaysOff(part.ground, request, *met->prepared, wishes.language, &met->ways_off())
              .of(courses);
    return leads_off_beyond(part.ground.elevation.frame(), whole_, courses, out,
                            request.party.time_band,
                            static_cast<double>(met->prepared->pace.cheapest_s_per_m()));
  };
  if (!lead_beyond(local)) return true;
  const auto* last = &local.ground;
  for (double times = wider_times; last != &ground_; times *= wider_times) {
    const auto part = part_for(request, times);
    if (!lead_beyond(*part)) return true;
    last = &part->ground;
  }
  return false;
}

Result<Ways> WayFinder::find_on(const LocalGround& local, const walking::Request& request,
                                const Wishes& wishes, numeric::Parallel& parallel,
                                const GoOn& go_on) const {
  if (request.points.size() < 2)
    return fail(FaultCode::bad_input, "the way: expected two points at least");
  if (const auto errors = reckoning::checked_errors_of(request.party); !errors)
    return fail_in("party.errors", errors.error());
  Workshop shop(local, request, wishes, parallel);
  for (const auto& place : request.safe) {
    const auto ok = check_haven(local.ground, *shop.met->prepared, place);
    if (!ok) return std::unexpected(ok.error());
  }
  Ways out;
  const auto points = named_points(shop.cutting);
  for (const auto& point : points) {  // each is met again, but only after the stretches before it
    if (const auto ok = check_place(shop.cutting.prepared, point); !ok)
      return std::unexpected(ok.error());
  }
  const bool given = std::ranges::none_of(points.begin() + 1, points.end(), [](const auto& p) {
    return p.stretch == walking::Stretch::find;
  });
  // The search's figures are those of arcs; a way's own are worked out leg by leg, and count.
  std::vector<NamedWay> whole;
  const auto lay_out = [&](WayParts& parts, std::vector<std::string>& remarks) -> Result<void> {
    for (std::size_t i = 1; i < points.size(); ++i) {
      if (go_on && !go_on(i - 1, points.size() - 1)) return fail(FaultCode::cancelled, "stopped");
      const auto done = parts.add(points[i - 1], points[i], remarks);
      if (!done) return std::unexpected(done.error());
    }
    const auto some = spread_over(parts.front());
    std::vector<Piece> pieces;
    for (const auto i : some) std::ranges::move(parts.pieces(i), std::back_inserter(pieces));
    shop.told.tell(shop.cutting, pieces, parallel);
    std::vector<walking::Way> ways;
    for (const auto i : some) ways.push_back(parts.way(i));
    std::ranges::move(judged(shop.judge, std::move(ways), parallel), std::back_inserter(whole));
    return {};
  };
  Missed missed;
  bool farther = false;  // than the first ellipses, and so perhaps beyond this part of the ground
  const auto search = [&]() -> Result<void> {
    WayParts parts(shop.seeking);
    if (const auto done = lay_out(parts, out.remarks); !done) return done;
    farther = parts.went_farther();
    missed = parts.missed();
    auto all = missed_by_all(whole, wishes);
    all.certainty = all.certainty && !missed.certainty && !parts.given_missed().certainty;
    all.hazard = all.hazard && !missed.hazard && !parts.given_missed().hazard;
    if (!all.any()) return {};
    // Arcs keep the limits that their legs, as the card has them, do not: nor must others then.
    missed = {missed.certainty || all.certainty, missed.hazard || all.hazard};
    auto loose = wishes;
    if (missed.certainty) loose.min_certainty = 0;
    if (missed.hazard) loose.most_hazard = 1;
    const Seeking again{shop.cutting, local.lines, local.since, shop.judge, loose, parallel};
    WayParts more(again);
    std::vector<std::string> said_before;
    const auto done = lay_out(more, said_before);
    farther = farther || more.went_farther();
    return done;
  };
  std::optional<NamedWay> least_time;  // one of the ways to choose from
  Result<void> searched;
  parallel.for_each_block(2, [&](std::size_t block) {
    if (block == 0) {
      searched = search();
    } else if (!given) {
      auto untold = shop.cutting;
      untold.told = nullptr;
      if (auto legs = given_legs(untold, points, {}))
        least_time = judged(shop.judge, {"", *std::move(legs)});
    }
  });
  if (!searched) return std::unexpected(searched.error());
  // The least-time way may keep what none that the search found does.
  if (least_time && !missed_by(least_time->way, wishes).any()) missed = {};
  std::ranges::move(missed_words(whole, missed, wishes), std::back_inserter(out.remarks));
  const bool surer_gone = keep_best(whole, least_time, missed, wishes);
  for (const auto& way : whole) out.front.push_back(cost_of(way));
  if (missed.any() && least_time) out.remarks.push_back(breaks_words(wishes));
  choose(
      out.front, wishes, [&](std::size_t i) -> const NamedWay& { return whole[i]; }, surer_gone,
      out);
  if (given) out.remarks.clear();
  std::vector<const walking::Course*> courses;
  for (auto& way : out.ways) {
    way.way.name = given ? given_words(wishes) : choice_words(way.choice, wishes);
    for (const auto& leg : way.way.legs) courses.push_back(&leg.course);
  }
  std::vector<std::optional<walking::WayOff>> ways_off;
  Result<void> rehearsed;
  bool all_off = true;
  parallel.for_each_block(2, [&](std::size_t block) {
    if (block == 0) {
      all_off = find_ways_off(local, request, wishes, parallel, courses, ways_off);
    } else if (wishes.walkers > 0) {
      rehearsed = rehearse(local.ground, shop.judge, wishes.walkers, out.ways, parallel);
    }
  });
  if (!rehearsed) return std::unexpected(rehearsed.error());
  auto next = ways_off.begin();
  for (auto& way : out.ways) {
    const auto end = next + static_cast<std::ptrdiff_t>(way.way.legs.size());
    way.ways_off.assign(std::move_iterator(next), std::move_iterator(end));
    next = end;
  }
  out.beyond_piece = local.ground.elevation.frame() != whole_ && (farther || !all_off);
  return out;
}

}  // namespace lodeway::route
