#include "lodeway/route/choose/home_same_way.hpp"

#include <algorithm>
#include <iterator>
#include <optional>

#include "lodeway/route/choose/judge_ways.hpp"

namespace lodeway::route {

using walking::Leg;
using walking::LegKind;
using walking::Waypoint;

namespace {

/// The legs up to each point after the first: one past the last of its stretch; none where a point
/// is not an end of the way's legs.
std::optional<std::vector<std::size_t>> ends_of(const walking::Way& way,
                                                const std::vector<Waypoint>& points) {
  std::vector<std::size_t> out{0};
  for (std::size_t k = 0; k < way.legs.size() && out.size() < points.size(); ++k) {
    if (earth::grid_distance_m(way.legs[k].course.line.back(), points[out.size()].at) < 1)
      out.push_back(k + 1);
  }
  if (out.size() < points.size()) return std::nullopt;
  return out;
}

/// The same legs from the last one's end to the first one's start; none where what was followed is
/// not known any more.
std::optional<std::vector<Leg>> turned_round(const Cutting& c, std::span<const Leg> legs,
                                             const Waypoint& from, const Waypoint& to) {
  std::vector<Piece> pieces;
  for (std::size_t k = legs.size(); k-- > 0;) {
    const auto& course = legs[k].course;
    const int line = line_followed(c, course);
    if (course.kind == LegKind::along && line < 0) return std::nullopt;
    Piece piece{line < 0 ? no_parent : static_cast<std::uint32_t>(line), course.line};
    std::ranges::reverse(piece.points);
    pieces.push_back(std::move(piece));
  }
  auto out = legs_of(c, pieces, from.name, to.name);
  name_apart(out, c.language.language);
  return out;
}

std::optional<walking::Way> by_the_way_out(const Cutting& c, walking::Way way,
                                           const std::vector<Waypoint>& points,
                                           const std::vector<ThereAndBack>& pairs) {
  for (const auto& [out, back] : pairs) {
    const auto ends = ends_of(way, points);
    if (!ends) return std::nullopt;
    const auto first = (*ends)[out - 1], last = (*ends)[out];
    auto home = turned_round(c, std::span(way.legs).subspan(first, last - first), points[back - 1],
                             points[back]);
    if (!home || home->empty()) return std::nullopt;
    const auto at = [&](std::size_t k) {
      return way.legs.begin() + static_cast<std::ptrdiff_t>(k);
    };
    const auto here = way.legs.erase(at((*ends)[back - 1]), at((*ends)[back]));
    way.legs.insert(here, std::make_move_iterator(home->begin()),
                    std::make_move_iterator(home->end()));
  }
  return way;
}

}  // namespace

bool better_home(const Candidate& other, const Candidate& same, const ChoiceRules& rules) {
  const bool other_keeps = keeps_limits(other, rules), same_keeps = keeps_limits(same, rules);
  if (other_keeps != same_keeps) return other_keeps;
  return other.expected_min < same.expected_min - rules.other_home_min ||
         other.loss < same.loss - rules.same_loss ||
         other.keep_off < same.keep_off - rules.same_keep_off ||
         other.short_of < same.short_of - rules.rounding;
}

std::vector<ThereAndBack> there_and_back(const std::vector<Waypoint>& points) {
  const auto one_place = [&](std::size_t i, std::size_t j) {
    return earth::grid_distance_m(points[i].at, points[j].at) < 1;
  };
  const auto found = [&](std::size_t k) { return points[k].stretch == walking::Stretch::find; };
  std::vector<ThereAndBack> out;
  for (std::size_t back = 2; back < points.size(); ++back) {
    for (std::size_t k = back; k-- > 1;) {
      if (!found(k) || !found(back) || !one_place(k, back - 1) || !one_place(k - 1, back) ||
          one_place(k, back))
        continue;
      out.push_back({k, back});
      break;
    }
  }
  return out;
}

Result<void> home_the_same_way(const Cutting& c, const reckoning::Judge& judge,
                               const Wishes& wishes, const ChoiceRules& rules,
                               const std::vector<Waypoint>& points,
                               std::vector<NamedWay>& ways, numeric::Parallel& parallel,
                               const std::function<bool()>& go_on) {
  const auto pairs = there_and_back(points);
  if (pairs.empty()) return {};
  if (go_on && !go_on()) return fail(FaultCode::cancelled, "stopped");
  std::vector<std::optional<walking::Way>> same(ways.size());
  parallel.for_each_block(ways.size(), [&](std::size_t i) {
    same[i] = by_the_way_out(c, plain(ways[i].way), points, pairs);
  });
  std::vector<walking::Way> to_judge;
  for (const auto& way : same) {
    if (way) to_judge.push_back(*way);
  }
  auto known = judged(reckoning::Teller(judge, c.language), to_judge, parallel, go_on);
  if (!known) return std::unexpected(known.error());
  for (auto& way : *known) count_wading(c, way);
  auto next = known->begin();
  for (std::size_t i = 0; i < ways.size(); ++i) {
    if (!same[i]) continue;
    if (!better_home(candidate_of(ways[i], wishes), candidate_of(*next, wishes), rules))
      ways[i] = std::move(*next);
    ++next;
  }
  return {};
}

}  // namespace lodeway::route
