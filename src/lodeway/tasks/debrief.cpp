#include "lodeway/tasks/debrief.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include <fmt/format.h>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/gpx/gpx_track.hpp"
#include "lodeway/io/party/marks_file.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_pdf.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/sheet/notes/debrief_page.hpp"
#include "lodeway/tasks/clock.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::tasks {

namespace {

std::vector<learn::DebriefLeg> legs_of(const PlannedTrip& planned) {
  std::vector<learn::DebriefLeg> out;
  const auto& party = planned.plan.trip.request.party;
  const auto v = static_cast<std::size_t>(party.visibility);
  const double centre = walking::bands_of(party).centre;
  for (const auto& leg : planned.plan.way.legs) {
    learn::DebriefLeg one;
    one.from = leg.course.from;
    one.to = leg.course.to;
    one.line = leg.course.line;
    one.along = leg.course.kind == walking::LegKind::along;
    one.kind = leg.course.followed.kind;
    one.minutes = leg.figures.minutes / centre;
    one.cross_sigma_m = leg.judged.cross_sigma_m;
    for (const auto& tick : leg.ticks) {
      const double seen = planned.ground.kinds[tick.kind].seen_from_m[v];
      one.ticks.push_back(
          {tick.what, tick.kind, tick.at, tick.at_m, std::clamp(seen, 20.0, 100.0)});
    }
    out.push_back(std::move(one));
  }
  return out;
}

/// On the ground's grid, rising times only.
Result<std::vector<learn::WalkedPoint>> on_grid(const learn::Track& track, const Debriefed& d,
                                                std::vector<std::string>& notes) {
  const auto l = d.planned.plan.trip.language;
  std::vector<learn::WalkedPoint> out;
  std::size_t outside = 0, untimed = 0;
  for (const auto& p : track.points) {
    if (!std::isfinite(p.time_s) || (!out.empty() && p.time_s <= out.back().time_s)) {
      ++untimed;
      continue;
    }
    const auto at = d.planned.ground.grid.to_grid(p.at);
    if (!at) {
      ++outside;
      continue;
    }
    out.push_back({*at, p.time_s});
  }
  if (out.size() < 2) {
    return fail(
        FaultCode::bad_input,
        fmt::format("{}: no walk on this ground: {} points lie outside its grid, {} have no "
                    "rising time",
                    track.file, outside, untimed));
  }
  double nearest = 1e18;
  for (const auto& leg : d.legs) {
    for (const auto& p : leg.line) {
      for (std::size_t i = 0; i < out.size(); i += std::max<std::size_t>(1, out.size() / 500))
        nearest = std::min(nearest, earth::grid_distance_m(p, out[i].at));
    }
  }
  if (nearest > learn::DebriefRules{}.most_away_m) {
    return fail(
        FaultCode::bad_input,
        fmt::format("{}: a track of another ground: nowhere nearer than {:.1f} km to the way",
                    track.file, nearest / 1000));
  }
  if (outside + untimed > 0)
    notes.push_back(units::said(
        l, "{} points of the track left out: no rising time, or off the grid",
        "{} Punkte weggelassen: keine steigende Zeit, oder neben dem Gitter", outside + untimed));
  const auto walked = std::chrono::floor<std::chrono::days>(std::chrono::sys_seconds{
      std::chrono::seconds{static_cast<std::int64_t>(out.front().time_s)}});
  const auto apart = (walked - std::chrono::sys_days{d.planned.plan.trip.date}).count();
  if (std::abs(apart) > 1)
    notes.push_back(units::said(
        l, "The track is of another day than the plan ({} days {}).",
        "Die Aufzeichnung ist von einem anderen Tag als der Plan ({} Tage {}).", std::abs(apart),
        apart > 0 ? units::in(l, "later", "später") : units::in(l, "earlier", "früher")));
  return out;
}

Result<void> by_clock(const DebriefRequest& request, Debriefed& d) {
  if (request.arrived.size() > d.legs.size()) {
    return fail(FaultCode::bad_input, fmt::format("arrived: expected at most {} times, got {}",
                                                  d.legs.size(), request.arrived.size()));
  }
  int last = static_cast<int>(d.planned.plan.trip.start.count());
  if (!request.left.empty()) {
    const auto left = clock_minutes(request.left, "left");
    if (!left) return std::unexpected(left.error());
    last = static_cast<int>(*left);
  }
  const auto bands = walking::bands_of(d.planned.plan.trip.request.party);
  d.debrief.legs.resize(d.legs.size());
  for (std::size_t i = 0; i < d.legs.size(); ++i) {
    auto& leg = d.debrief.legs[i];
    leg.set_band(d.legs[i].minutes, bands);
    if (i >= request.arrived.size() || request.arrived[i] == "-") continue;
    const auto at = clock_minutes(request.arrived[i], "arrived");
    if (!at) return std::unexpected(at.error());
    if (*at <= last) {
      return fail(FaultCode::bad_input,
                  fmt::format("arrived: leg {}: expected after {:02}:{:02}, got {}", i + 1,
                              last / 60, last % 60, request.arrived[i]));
    }
    const auto& times = d.planned.plan.schedule.legs;
    leg.minutes = *at - last;
    if (i > 0 && i - 1 < times.size())
      leg.minutes = std::max(0.0, leg.minutes - times[i - 1].rest_min);
    if (i < times.size()) leg.minutes = std::max(0.0, leg.minutes - times[i].rest_within_min);
    leg.walked = true;
    leg.inside = leg.minutes >= leg.low_min && leg.minutes <= leg.high_min;
    ++d.debrief.judged;
    d.debrief.inside += leg.inside;
    last = static_cast<int>(*at);
  }
  return {};
}

/// What was passed and is asked for, and what was followed and is known from the track.
io::Marks marks_of(const Debriefed& d, std::string& asked) {
  io::Marks out;
  out.training = false;
  std::map<mapdata::Kind, int> passed;
  std::map<mapdata::Kind, std::pair<double, int>> followed;
  for (std::size_t l = 0; l < d.legs.size(); ++l) {
    const auto& leg = d.debrief.legs[l];
    for (const auto t : leg.passed) {
      ++passed[d.legs[l].ticks[t].kind];
      asked += fmt::format("# leg {}: {}  seen? known?\n", l + 1, d.legs[l].ticks[t].what);
    }
    if (!leg.walked || !d.legs[l].along) continue;
    followed[d.legs[l].kind].first += leg.on_line_km;
    followed[d.legs[l].kind].second += static_cast<int>(leg.left.size());
  }
  for (const auto& [kind, n] : passed) {
    auto& m = out.measured.emplace_back();
    m.exercise = learn::Exercise::lines;
    m.kind = kind;
    m.training = false;
  }
  for (const auto& [kind, what] : followed) {
    auto& m = out.measured.emplace_back();
    m.exercise = learn::Exercise::followed;
    m.kind = kind;
    m.walked_km = what.first;
    m.missed = what.second;
    m.training = false;
  }
  return out;
}

Result<void> write_all(const DebriefRequest& request, Debriefed& d) {
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  auto set = io::SetBeside::into(request.folder);
  if (!set) return std::unexpected(set.error());
  const auto path = [&](const char* name) {
    d.files.push_back((std::filesystem::path(request.folder) / name).string());
    return (std::filesystem::path(set->temporary()) / name).string();
  };
  const auto pages = sheet::draw_debrief({d.planned.plan, d.legs, d.debrief, d.notes}, **measure);
  if (auto written = io::write_pdf(pages, path("debrief.pdf"), d.planned.plan.trip.date); !written)
    return written;
  std::string asked;
  const auto marks = marks_of(d, asked);
  const auto text =
      io::marks_template(marks) +
      "\n# Passed within sight. trials: how many of a kind were to be ticked off; missed: "
      "how many were not seen, or not known.\n" +
      asked;
  if (auto written = io::write_beside(path("seen.toml"), text); !written) return written;
  return set->keep();
}

}  // namespace

Result<Debriefed> debrief_trip(const DebriefRequest& request, Progress* progress) {
  if (request.track.empty() && request.arrived.empty())
    return fail(FaultCode::bad_input, "debrief: expected a track, or times of arrival");
  Debriefed out;
  auto planned = plan_trip(request.plan, progress);
  if (!planned) return std::unexpected(planned.error());
  out.planned = *std::move(planned);
  out.legs = legs_of(out.planned);
  if (request.track.empty()) {
    if (const auto good = by_clock(request, out); !good) return std::unexpected(good.error());
  } else {
    const auto track = io::read_gpx_track(request.track);
    if (!track) return std::unexpected(track.error());
    if (track->route)
      return fail(FaultCode::bad_input, request.track + ": no recorded track: a drawn route");
    const auto points = on_grid(*track, out, out.notes);
    if (!points) return std::unexpected(points.error());
    out.from_track = true;
    out.debrief = learn::debrief(out.legs, *points, walking::bands_of(out.planned.plan.trip.request.party));
    if (out.debrief.judged == 0)
      return fail(FaultCode::bad_input,
                  request.track + ": the track walks none of the plan's legs from end to end");
  }
  if (!request.folder.empty()) {
    if (const auto written = write_all(request, out); !written)
      return std::unexpected(written.error());
  }
  return out;
}

}  // namespace lodeway::tasks
