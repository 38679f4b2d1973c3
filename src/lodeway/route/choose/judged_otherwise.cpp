/// The same legs on another sort of day.
#include <algorithm>

#include "lodeway/reckoning/judge/teller.hpp"
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

JudgedOtherwise WayFinder::judged_otherwise(
    const walking::Request& planned, const walking::Request& changed, const Wishes& wishes,
    const std::vector<const reckoning::JudgedWay*>& ways, numeric::Parallel& parallel) const {
  const auto local = part_holding(planned, ways);
  const auto& ground = local->ground;
  const auto met = local->met_by.of(ground, planned, local->lines.slopes, parallel);
  std::shared_ptr<const walking::Cover> cover(met, &met->prepared->cover);
  auto hazards = met->hazards;
  if (!same_bars(planned, changed)) {
    cover = std::make_shared<const walking::Cover>(ground, changed, &local->lines.slopes);
    hazards = std::make_shared<const reckoning::HazardGround>(reckoning::forbidden_of(*cover));
  }
  const reckoning::Judge judge(ground, changed.party, wishes.declination_sigma_deg, {}, hazards,
                               local->lines.shared_fixes);
  const reckoning::Teller teller(judge, wishes.language);
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
  JudgedOtherwise out;
  out.ways.resize(ways.size());
  parallel.for_each_block(ways.size(), [&](std::size_t w) {
    out.ways[w] = teller.judged(told[w]);
    out.ways[w].certainty = judge.averaged_certainty(told[w]);
    const auto bands = judge.bands(told[w]);
    for (std::size_t i = 0; i < bands.size(); ++i) out.ways[w].legs[i].judged.band = bands[i];
  });
  out.on = std::make_shared<const JudgedOn>(local, std::move(cover), judge);
  return out;
}

}  // namespace lodeway::route
