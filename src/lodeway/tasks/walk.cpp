#include "lodeway/tasks/walk.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/earth/apart_references.hpp"
#include "lodeway/earth/place_text.hpp"
#include "lodeway/earth/time_zone.hpp"
#include "lodeway/io/gpx/timed_tracks.hpp"
#include "lodeway/io/raster/write_raster.hpp"
#include "lodeway/tasks/clock.hpp"
#include "lodeway/tasks/detail/walk_picture.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/tasks/walked_days.hpp"

namespace lodeway::tasks {

namespace {
std::unexpected<Fault> stopped() {
  return fail(FaultCode::cancelled, "stopped; nothing was written");
}

double in_minutes(trip::Clock c) { return static_cast<double>(c.count()); }

walkers::Card card_of(const reckoning::Judge& judge, const trip::Plan& plan) {
  auto card = day_card(judge, plan.trip, trip::as_judged(plan.way), plan.daylight);
  for (std::size_t k = 0; k < card.legs.size(); ++k) {
    if (plan.way.legs[k].escape) card.legs[k].escape = plan.way.legs[k].escape->line;
    if (card.legs[k].escape.size() < 2) card.legs[k].escape.clear();
  }
  if (plan.schedule.turn_round) {
    card.turn_round_min = in_minutes(*plan.schedule.turn_round);
    card.turn_round_leg = plan.schedule.turn_round_leg;
  }
  return card;
}

bool number(std::string_view text, double& into) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), into);
  return error == std::errc() && end == text.data() + text.size();
}

/// "2=0.6", "2=40,3000"
Result<walkers::Overdue> after_look(walkers::Overdue overdue, const std::string& look) {
  const auto wrong = [&] {
    return fail(
        FaultCode::bad_input,
        fmt::format("looked: expected AREA=CHANCE or AREA=WIDTH,LENGTH (metres), got \"{}\"",
                    look));
  };
  const auto equals = look.find('=');
  double area = 0, first = 0, second = 0;
  if (equals == std::string::npos || !number(look.substr(0, equals), area)) return wrong();
  const auto rest = look.substr(equals + 1);
  const auto comma = rest.find(',');
  if (!number(rest.substr(0, comma), first)) return wrong();
  double chance = first;
  if (comma != std::string::npos) {
    if (!number(rest.substr(comma + 1), second) || !(first > 0) || !(second > 0)) return wrong();
    const auto found =
        std::ranges::find(overdue.areas, static_cast<int>(area), &walkers::Area::number);
    if (found != overdue.areas.end())
      chance = std::min(walkers::detection(first * second / (10000 * found->hectares)), 0.999);
  }
  return walkers::looked_at(std::move(overdue), static_cast<int>(area), chance);
}
}  // namespace

Result<WalkedTrip> walk_plan(const walking::Ground& ground, const trip::Plan& plan,
                             const WalkRequest& request, Progress* progress) {
  // without an hour to call for help: last light, or the planned end where that is later
  const auto& s = plan.schedule;
  double at = in_minutes(s.act_by.value_or(std::max(plan.daylight.dusk.value_or(s.end), s.end)));
  if (!request.at.empty()) {
    const auto read = clock_minutes(request.at, "at");
    if (!read) return std::unexpected(read.error());
    at = *read;
  }
  if (progress != nullptr && !progress->go_on(-1, "simulated parties walk the way")) return stopped();
  const auto sigma = declination_sigma_deg(ground, plan.trip);
  if (!sigma) return std::unexpected(sigma.error());
  const walking::Cover cover(ground, plan.trip.request);
  const reckoning::Judge judge(ground, plan.trip.request.party, reckoning::forbidden_of(cover),
                               *sigma);
  Threads ready;
  std::vector<const std::vector<earth::GridPoint>*> lines;
  for (const auto& leg : plan.way.legs) lines.push_back(&leg.course.line);
  const auto planes = planes_for(ground, cover, plan.trip.request.party, lines, ready);
  const walkers::World world(ground, cover, judge, planes);
  const walkers::Card card = card_of(judge, plan);
  walkers::WalkRequest walk;
  walk.parties = request.walkers;
  walk.seed = request.seed;
  walk.tracks = request.tracks;
  walk.at_min = {at};
  walk.manner = walkers::manner_of(plan.trip.request.party.skill);
  walk.trodden = false;
  Threads threads(progress, "simulated parties walk the way", 0);
  auto walked = walkers::walk(world, card, walk, threads);
  if (!walked) return std::unexpected(walked.error());
  if (walked->walked == 0) return stopped();
  WalkedTrip out{*std::move(walked), {}, threads.stopped(), {}, plan.daylight};
  out.overdue = walkers::overdue_at(out.walked, 0, at);
  for (const auto& look : request.looked) {
    auto next = after_look(std::move(out.overdue), look);
    if (!next) return std::unexpected(next.error());
    out.overdue = *std::move(next);
  }
  std::vector<earth::GridPoint> middles;
  for (const auto& area : out.overdue.areas) middles.push_back(area.middle);
  out.references = earth::apart_references(middles);
  return out;
}

Result<void> write_walk(const walking::Ground& ground, const trip::Plan& plan,
                        const WalkRequest& request, const WalkedTrip& walked) {
  if (!request.gpx.empty() || !request.geojson.empty()) {
    const auto base =
        earth::to_utc(plan.trip.zone, plan.trip.date, std::chrono::minutes(plan.schedule.start));
    if (!base) return std::unexpected(base.error());
    const double start = in_minutes(plan.schedule.start);
    std::vector<io::TimedTrack> tracks;
    for (std::size_t k = 0; k < walked.walked.tracks.size(); ++k) {
      const auto& moments = walked.walked.tracks[k].moments;
      const auto name = fmt::format("walker {}", k + 1);
      io::TimedTrack truth{name, std::string(walkers::state_words(moments.back().state)), {}};
      io::TimedTrack believed{name + " believes", {}, {}};
      for (const auto& m : moments) {
        truth.points.push_back({m.minutes - start, m.at});
        believed.points.push_back({m.minutes - start, m.believed});
      }
      tracks.push_back(std::move(truth));
      tracks.push_back(std::move(believed));
    }
    if (!request.gpx.empty()) {
      if (auto done = io::write_gpx_tracks(tracks, ground.grid, *base, request.gpx); !done)
        return done;
    }
    if (!request.geojson.empty()) {
      if (auto done = io::write_geojson_tracks(tracks, ground.grid, *base, request.geojson); !done)
        return done;
    }
  }
  const bool nobody = walked.overdue.share.empty();
  if ((!request.raster.empty() || !request.picture.empty()) && nobody)
    return fail(FaultCode::bad_input, "at: everybody who walked is home by then: there is no map");
  if (!request.raster.empty()) {
    if (auto done = io::write_geotiff(walked.overdue.share, ground.grid, request.raster); !done)
      return done;
  }
  if (!request.picture.empty())
    return detail::draw_overdue(ground, plan.way, walked.overdue, plan.trip.language,
                                request.picture);
  return {};
}

}  // namespace lodeway::tasks
