#include "lodeway/tasks/walked_days.hpp"

#include <algorithm>
#include <utility>

#include "lodeway/trip/schedule.hpp"

namespace lodeway::tasks {

namespace {

constexpr double around_way_m = 3000;
constexpr std::size_t most_tops = 8;

using Lines = std::vector<const std::vector<earth::GridPoint>*>;

sight::Window window_of(const Lines& lines) {
  sight::Window w{1e300, 1e300, -1e300, -1e300};
  for (const auto* line : lines) {
    for (const auto p : *line) {
      w.west_m = std::min(w.west_m, p.east_m - around_way_m);
      w.east_m = std::max(w.east_m, p.east_m + around_way_m);
      w.south_m = std::min(w.south_m, p.north_m - around_way_m);
      w.north_m = std::max(w.north_m, p.north_m + around_way_m);
    }
  }
  return w;
}

/// The named tops nearest to the way: what a party knows to take a bearing to.
std::vector<std::int32_t> tops_near(const sight::CuePlanes& planes, const Lines& lines) {
  std::vector<std::pair<double, std::int32_t>> near;
  for (std::size_t t = 0; t < planes.things.size(); ++t) {
    const auto& thing = planes.things[t];
    if (thing.kind != mapdata::Kind::summit || thing.name.empty()) continue;
    double away = 1e300;
    for (const auto* line : lines)
      away = std::min(away, earth::grid_distance_m(line->front(), thing.at));
    near.emplace_back(away, static_cast<std::int32_t>(t));
  }
  std::ranges::sort(near);
  std::vector<std::int32_t> out;
  for (std::size_t k = 0; k < std::min(near.size(), most_tops); ++k) out.push_back(near[k].second);
  return out;
}

Lines lines_of(const std::vector<const reckoning::JudgedWay*>& ways) {
  Lines out;
  for (const auto* way : ways) {
    for (const auto& leg : way->legs) out.push_back(&leg.course.line);
  }
  return out;
}

/// Of a leg's escape routes the one that its line of the card tells.
std::vector<earth::GridPoint> escape_line(const std::vector<reckoning::Escape>& routes) {
  if (routes.empty()) return {};
  auto route = std::ranges::find(routes, reckoning::LeavesAt::middle, &reckoning::Escape::from);
  if (route == routes.end()) route = routes.begin();
  std::vector<earth::GridPoint> out;
  for (const auto& leg : route->legs) {
    const auto& line = leg.course.line;
    out.insert(out.end(), line.begin() + (out.empty() ? 0 : 1), line.end());
  }
  if (out.size() < 2) out.clear();
  return out;
}

using Planes = std::shared_ptr<const sight::CuePlanes>;

/// Planes of the same lines for another party, from those of this one.
Planes planes_again(const Planes& planes, const route::JudgedOn& was, const route::JudgedOn& now,
                    const Lines& lines, numeric::Parallel& parallel) {
  const auto& party = now.judge().party();
  if (&was.ground() != &now.ground()) {
    return std::make_shared<const sight::CuePlanes>(
        planes_for(now.ground(), now.cover(), party, lines, parallel));
  }
  const bool same_cover = &was.cover() == &now.cover();
  const bool clear = party.visibility == mapdata::Visibility::clear;
  const bool was_clear = was.judge().party().visibility == mapdata::Visibility::clear;
  if (same_cover && clear == was_clear) return planes;
  auto out = *planes;
  if (!same_cover) sight::lay_cover(out, now.cover(), parallel);
  if (clear) sight::look_from(out, tops_near(out, lines), parallel);
  if (!clear) out.views.assign(out.views.size(), {});
  return std::make_shared<const sight::CuePlanes>(std::move(out));
}

}  // namespace

sight::CuePlanes planes_for(const walking::Ground& ground, const walking::Cover& cover,
                            const walking::Party& party, const Lines& lines,
                            numeric::Parallel& parallel) {
  auto planes = sight::cue_planes(ground, cover, window_of(lines), parallel);
  if (party.visibility == mapdata::Visibility::clear)
    sight::look_from(planes, tops_near(planes, lines), parallel);
  return planes;
}

walkers::Card day_card(const reckoning::Judge& judge, const trip::Trip& trip,
                       const reckoning::JudgedWay& way, const trip::Daylight& daylight) {
  walkers::Card card = walkers::card_of(judge, plain(way));
  const auto rests = trip::rests_of(trip.request, way);
  for (std::size_t k = 0; k < card.legs.size(); ++k) {
    card.legs[k].rest_within_min = rests[k].within_min;
    card.legs[k].rest_after_min = rests[k].after_min;
  }
  card.start_min = static_cast<double>(trip.start.count());
  if (daylight.dusk && trip::held_to_daylight(trip, daylight))
    card.dark_min = static_cast<double>(daylight.dusk->count());
  return card;
}

DayWalk::DayWalk(std::shared_ptr<const route::JudgedOn> on,
                 const std::vector<const reckoning::JudgedWay*>& ways, numeric::Parallel& parallel)
    : on_(std::move(on)),
      planes_(std::make_shared<const sight::CuePlanes>(planes_for(
          on_->ground(), on_->cover(), on_->judge().party(), lines_of(ways), parallel))),
      world_(on_->ground(), on_->cover(), on_->judge(), *planes_) {}

DayWalk::DayWalk(const DayWalk& before, std::shared_ptr<const route::JudgedOn> on,
                 const std::vector<const reckoning::JudgedWay*>& ways, numeric::Parallel& parallel)
    : on_(std::move(on)),
      planes_(planes_again(before.planes_, *before.on_, *on_, lines_of(ways), parallel)),
      world_(on_->ground(), on_->cover(), on_->judge(), *planes_) {}

Result<walking::WalkedDays> DayWalk::walk(const trip::Trip& trip, reckoning::JudgedWay& way,
                                          const route::EscapesOfWay& escapes,
                                          const trip::Daylight& daylight,
                                          numeric::Parallel& parallel, std::size_t parties) const {
  auto card = day_card(on_->judge(), trip, way, daylight);
  for (std::size_t k = 0; k < std::min(escapes.size(), card.legs.size()); ++k)
    card.legs[k].escape = escape_line(escapes[k]);
  walkers::WalkRequest request;
  request.parties = parties;
  request.trodden = false;
  request.manner = walkers::manner_of(trip.request.party.skill);
  auto walked = walkers::walk(world_, card, request, parallel);
  // No clock from the bands in their place: it would be another rule's, and nobody would know.
  if (!walked) return std::unexpected(walked.error());
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    const auto& leg = walked->legs[k];
    if (leg.set_out == 0) continue;
    auto& judged = way.legs[k].judged;
    const auto share = [](std::size_t n, std::size_t of) {
      return static_cast<double>(n) / static_cast<double>(of);
    };
    judged.in_the_end = share(leg.in_the_end, leg.set_out);
    // The closed form is of those who keep to the way: who has lost it comes onto such ground too.
    // Of all who walk, so that what the legs have adds up to the day.
    judged.hazard_probability =
        std::max(judged.hazard_probability, share(leg.keep_off, request.parties));
  }
  return std::move(walked->days);
}

}  // namespace lodeway::tasks
