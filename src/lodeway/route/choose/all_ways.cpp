#include "lodeway/route/choose/all_ways.hpp"

#include <algorithm>
#include <iterator>
#include <optional>

#include "lodeway/route/choose/choose_ways.hpp"
#include "lodeway/route/choose/judge_ways.hpp"

namespace lodeway::route {

using walking::Waypoint;

namespace {

constexpr std::size_t most_worked_out = 24;
constexpr double keep_off_weight = 10;  // *practice*

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

}  // namespace

Result<AllWays> all_ways(const LocalGround& local, Workshop& shop,
                         const std::vector<Waypoint>& points, const Wishes& wishes,
                         numeric::Parallel& parallel, const GoOn& go_on) {
  AllWays out;
  out.given = std::ranges::none_of(points.begin() + 1, points.end(), [](const auto& p) {
    return p.stretch == walking::Stretch::find;
  });
  // The search's figures are those of arcs; a way's own are worked out leg by leg, and count.
  const auto keep_on = [&] { return !go_on || go_on(points.size() - 1, points.size() - 1); };
  const auto lay_out = [&](WayParts& parts, std::vector<std::string>& said) -> Result<void> {
    for (std::size_t i = 1; i < points.size(); ++i) {
      if (go_on && !go_on(i - 1, points.size() - 1)) return fail(FaultCode::cancelled, "stopped");
      const auto done = parts.add(points[i - 1], points[i], said);
      if (!done) return std::unexpected(done.error());
    }
    const auto some = spread_over(parts.front());
    std::vector<Piece> pieces;
    for (const auto i : some) std::ranges::move(parts.pieces(i), std::back_inserter(pieces));
    shop.told.tell(shop.cutting, pieces, parallel);
    std::vector<walking::Way> ways;
    for (const auto i : some) ways.push_back(parts.way(i));
    auto known = judged(shop.teller(), ways, parallel, keep_on);
    if (!known) return std::unexpected(known.error());
    std::ranges::move(*known, std::back_inserter(out.ways));
    return {};
  };
  const auto search = [&]() -> Result<void> {
    WayParts parts(shop.seeking);
    if (const auto done = lay_out(parts, out.remarks); !done) return done;
    out.farther = parts.went_farther();
    if (any_keeps(out.ways, wishes)) return {};
    // Arcs keep the limits that their legs, as the card has them, do not. Nor must others then:
    // what no way keeps is left out of the search, and ground to keep off weighs first.
    const auto broken = broken_by_all(out.ways, wishes);
    const bool certainty =
        broken.certainty && !parts.missed().certainty && !parts.given_missed().certainty;
    const bool keep_off = broken.keep_off && !parts.given_missed().hazard;
    if (!certainty && !keep_off) return {};
    auto loose = wishes;
    if (broken.certainty) loose.min_certainty = 0;
    if (keep_off) {
      loose.most_hazard = 1;
      loose.keep_off_weight = keep_off_weight;
    }
    const Seeking again{shop.cutting, local.lines, local.since, shop.judge, loose, parallel,
                        shop.seeking.go_on};
    WayParts more(again, &parts);
    std::vector<std::string> said_before;
    const auto done = lay_out(more, said_before);
    out.farther = out.farther || more.went_farther();
    return done;
  };
  std::optional<NamedWay> least_time;  // one of the ways to choose from
  Result<void> searched;
  parallel.for_each_block(2, [&](std::size_t block) {
    if (block == 0) {
      searched = search();
    } else if (!out.given) {
      auto untold = shop.cutting;
      untold.told = nullptr;
      if (auto legs = given_legs(untold, points, {}))
        least_time = judged(shop.teller(), {"", *std::move(legs)});
    }
  });
  if (!searched) return std::unexpected(searched.error());
  if (least_time) out.ways.push_back(*std::move(least_time));
  for (auto& way : out.ways) count_wading(shop.cutting, way);
  return out;
}

}  // namespace lodeway::route
