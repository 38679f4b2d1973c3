/// The same legs on another sort of day.
#include <algorithm>

#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/route/choose/local_ground.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/route/choose/way_parts.hpp"

namespace lodeway::route {

namespace {

bool same_bars(const walking::Request& a, const walking::Request& b) {
  return a.party.max_slope_deg == b.party.max_slope_deg &&
         a.party.ford_streams == b.party.ford_streams && a.avoid == b.avoid;
}

}  // namespace

/// A way that was looked for farther out is judged there.
std::shared_ptr<const LocalGround> WayFinder::part_holding(
    const walking::Request& request, const std::vector<const reckoning::JudgedWay*>& ways) const {
  for (double times = 1;; times *= wider_times) {
    auto part = part_for(request, times);
    const auto& frame = part->ground.elevation.frame();
    const auto within = [&](const reckoning::JudgedLeg& leg) {
      return std::ranges::all_of(leg.course.line, [&](auto p) { return frame.contains(p); });
    };
    const bool all = std::ranges::all_of(
        ways, [&](const auto* way) { return std::ranges::all_of(way->legs, within); });
    if (all || &part->ground == &ground_) return part;
  }
}

std::vector<JudgedOtherwise> WayFinder::judged_otherwise(
    const walking::Request& planned, const walking::Request& changed, const Wishes& wishes,
    const std::vector<const reckoning::JudgedWay*>& ways, numeric::Parallel& parallel) const {
  const auto local = part_holding(planned, ways);
  const auto& ground = local->ground;
  const auto met = local->met_by.of(ground, planned, local->lines.slopes, parallel);
  const auto hazards = same_bars(planned, changed)
                           ? met->hazards
                           : std::make_shared<const reckoning::HazardGround>(reckoning::forbidden_of(
                                 walking::Cover(ground, changed, &local->lines.slopes)));
  const reckoning::Judge judge(ground, changed.party, wishes.declination_sigma_deg, {}, hazards,
                               wishes.language, local->lines.shared_fixes);
  const Cutting cutting{ground, *met->prepared, local->around, changed, wishes.language};
  std::vector<std::pair<std::size_t, std::size_t>> places;
  std::vector<walking::Way> told(ways.size());
  for (std::size_t w = 0; w < ways.size(); ++w) {
    told[w].name = ways[w]->name;
    told[w].legs.resize(ways[w]->legs.size());
    for (std::size_t k = 0; k < told[w].legs.size(); ++k) places.emplace_back(w, k);
  }
  parallel.for_each_block(places.size(), [&](std::size_t i) {
    const auto [w, k] = places[i];
    const auto& course = ways[w]->legs[k].course;
    told[w].legs[k] = described(cutting, course, line_followed(cutting, course));
  });
  std::vector<JudgedOtherwise> out(ways.size());
  parallel.for_each_block(ways.size(), [&](std::size_t w) {
    out[w].way = judge.judge(told[w]);
    out[w].way.certainty = judge.averaged_certainty(told[w]);
  });
  for (auto& [way, times] : out) {
    if (wishes.walkers == 0) break;
    auto r = reckoning::rehearse(ground, judge, {way.name, {way.legs.begin(), way.legs.end()}},
                                 {wishes.walkers, 1}, parallel);
    if (r) times = std::move(r->times);
  }
  return out;
}

}  // namespace lodeway::route
