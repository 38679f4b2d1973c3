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
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"
#include "lodeway/route/choose/way_parts.hpp"
#include "lodeway/route/escape/escape_routes.hpp"

namespace lodeway::route {

namespace {

using walking::Choice;
using walking::Waypoint;

constexpr std::size_t most_worked_out = 24;

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

WayFinder::WayFinder(const walking::Ground& ground)
    : ground_(ground),
      around_(ground.elevation, ground.map, ground.kinds),
      lines_(std::make_unique<const Lines>(ground)),
      since_(std::make_unique<const SinceTick>(*lines_)),
      met_by_(std::make_unique<PartyGrounds>(ground)) {}
WayFinder::WayFinder(WayFinder&&) noexcept = default;
WayFinder::~WayFinder() = default;
const std::shared_ptr<const landmarks::Fixes>& WayFinder::fixes() const {
  return lines_->shared_fixes;
}

Result<Ways> WayFinder::find(const walking::Request& request, const Wishes& wishes,
                             numeric::Parallel& parallel, const GoOn& go_on) const {
  if (request.points.size() < 2)
    return fail(FaultCode::bad_input, "the way: expected two points at least");
  if (const auto errors = reckoning::checked_errors_of(request.party); !errors)
    return fail_in("party.errors", errors.error());
  Workshop shop(ground_, around_, *lines_, *since_,
                met_by_->of(ground_, request, lines_->slopes, parallel), request, wishes, parallel);
  for (const auto& place : request.safe) {
    const auto ok = check_haven(ground_, *shop.met->prepared, place);
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
  const auto search = [&]() -> Result<void> {
    WayParts parts(shop.seeking);
    if (const auto done = lay_out(parts, out.remarks); !done) return done;
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
    const Seeking again{shop.cutting, *lines_, *since_, shop.judge, loose, parallel};
    WayParts more(again);
    std::vector<std::string> said_before;
    return lay_out(more, said_before);
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
  std::vector<const reckoning::JudgedWay*> chosen;
  for (auto& way : out.ways) {
    way.way.name = given ? given_words(wishes) : choice_words(way.choice, wishes);
    chosen.push_back(&way.way);
  }
  const EscapeRoutes routes(
      shop.cutting, shop.judge, wishes.most_hazard,
      {shop.met->hazards, lines_->shared_fixes, lines_->slopes, &shop.met->to_safe_ground()});
  std::vector<EscapesOfWay> escapes;
  Result<void> rehearsed;
  parallel.for_each_block(2, [&](std::size_t block) {
    if (block == 0) {
      escapes = routes.of(chosen, parallel);
    } else if (wishes.walkers > 0) {
      rehearsed = rehearse(ground_, shop.judge, wishes.walkers, out.ways, parallel);
    }
  });
  if (!rehearsed) return std::unexpected(rehearsed.error());
  for (std::size_t i = 0; i < out.ways.size(); ++i) out.ways[i].escapes = std::move(escapes[i]);
  return out;
}

}  // namespace lodeway::route
