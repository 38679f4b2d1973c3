#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>

#include <fmt/format.h>

#include "lodeway/learn/track/moving.hpp"
#include "lodeway/numeric/statistics.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::learn {

using units::in, units::said;

namespace {
using detail::Timed;

constexpr double year_1980_s = 315532800;
constexpr std::array<std::string_view, 3> useds{"whole", "part", "refused"};
constexpr std::array<std::string_view, 12> whys{
    "walked", "no_track",   "no_times",   "broken_times", "made_up_times",   "ride",
    "run",    "too_little", "no_heights", "fast_cut",     "untimed_dropped", "known"};

/// FNV-1a (Fowler, Noll & Vo) over rounded places and times: names of files play no part.
std::string digest_of(std::span<const Timed> points) {
  std::uint64_t h = 14695981039346656037ULL;
  const auto take = [&](std::int64_t v) {
    for (int i = 0; i < 8; ++i) {
      h = (h ^ (static_cast<std::uint64_t>(v) >> (8 * i) & 0xff)) * 1099511628211ULL;
    }
  };
  for (const auto& p : points) {
    take(std::llround(p.at.lat_deg * 1e5));
    take(std::llround(p.at.lon_deg * 1e5));
    take(std::llround(p.time_s));
  }
  return fmt::format("{:016x}", h);
}

struct Sorted {
  std::vector<Timed> points;
  std::size_t untimed = 0, not_rising = 0, steps = 0;
};

Sorted timed_points(const Track& track, const TrackRules& rules) {
  Sorted out;
  std::uint32_t segment = 0;
  for (std::size_t i = 0; i < track.points.size(); ++i) {
    const auto& p = track.points[i];
    if (!std::isfinite(p.time_s)) {
      ++out.untimed;
      continue;
    }
    const bool anew = out.points.empty() || p.segment != segment;
    if (!out.points.empty()) {
      const auto& last = out.points.back();
      if (!anew) {
        ++out.steps;
        // One instant in two places is no rise either: 1000 km/h is nobody's.
        if (p.time_s <= last.time_s ||
            3.6 * detail::apart_m(last.at, p.at) > 1000 * (p.time_s - last.time_s) + 180)
          ++out.not_rising;
      }
      if (p.time_s <= last.time_s && !anew) continue;
    }
    bool hole = false;
    if (!out.points.empty()) {
      const auto& last = out.points.back();
      hole = (anew || p.time_s - last.time_s > rules.gap_s) &&
             detail::apart_m(last.at, p.at) > rules.gap_m;
    }
    out.points.push_back({p.at, p.height_m, p.time_s, i, hole});
    segment = p.segment;
  }
  return out;
}

/// The one height that all points have, to a decimetre; nothing where they differ or have none.
std::optional<double> one_height(std::span<const Timed> points) {
  double least = HUGE_VAL, most = -HUGE_VAL;
  for (const auto& p : points) {
    if (!std::isfinite(p.height_m)) continue;
    least = std::min(least, p.height_m);
    most = std::max(most, p.height_m);
  }
  return most >= least && most - least < 0.1 ? std::optional(least) : std::nullopt;
}

std::chrono::year_month_day date_of(double time_s) {
  return std::chrono::floor<std::chrono::days>(
      std::chrono::sys_seconds{std::chrono::seconds{static_cast<std::int64_t>(time_s)}});
}

/// Slow enough for a walk, of what lies beside a ride: the last slow streets of one are none.
bool walks_in(std::span<const Timed> part, const TrackRules& rules) {
  detail::Moving alone;
  detail::add_moving(part, rules, alone);
  auto speeds = detail::piece_speeds(alone.steps);
  if (speeds.empty()) return false;
  std::ranges::sort(speeds);
  return numeric::sorted_quantile(speeds, 0.5) <= rules.most_median_kmh &&
         numeric::sorted_quantile(speeds, 0.9) <= rules.most_fast_kmh;
}

Reading refuse(Reading out, Why why, std::string words) {
  out.used = Used::refused;
  out.why.insert(out.why.begin(), why);
  out.words = std::move(words);
  out.learned_km = 0;
  out.day.pieces.clear();
  return out;
}

}  // namespace

std::string_view used_name(Used used) { return useds[static_cast<std::size_t>(used)]; }
std::string_view why_name(Why why) { return whys[static_cast<std::size_t>(why)]; }

Reading read_track(const Track& track, const TrackRules& rules, units::Language l) {
  Reading out;
  out.day.file = track.file;
  if (track.route || track.points.empty())
    return refuse(std::move(out), Why::no_track,
                  in(l, "no recorded track: a drawn route has no walk in it",
                     "keine Aufzeichnung: eine gezeichnete Route enthält keinen Gang"));
  const auto sorted = timed_points(track, rules);
  const auto& points = sorted.points;
  if (points.empty())
    return refuse(std::move(out), Why::no_times,
                  in(l, "no point has a time", "kein Punkt hat eine Zeit"));
  if (points.front().time_s < year_1980_s ||
      static_cast<double>(sorted.not_rising) >
          rules.most_not_rising * static_cast<double>(std::max<std::size_t>(sorted.steps, 1))) {
    return refuse(
        std::move(out), Why::broken_times,
        said(l, "broken times: {} of {} steps do not rise, or the clock stood before 1980",
             "kaputte Zeiten: {} von {} Schritten steigen nicht, oder die Uhr stand vor 1980",
             sorted.not_rising, sorted.steps));
  }
  out.day.date = date_of(points.front().time_s);
  out.day.digest = digest_of(points);

  detail::Moving moving;
  double ride_s = 0, ridden_turns_s = 0;
  bool rides = false;
  std::vector<std::span<const Timed>> walks;
  for (const auto& outing : detail::part_rides(points, rules)) {
    for (const auto& ride : outing.rides) {
      rides = true;
      ride_s += points[ride.to].time_s - points[ride.from].time_s;
      out.stretches.push_back({Mode::ride, points[ride.from].index, points[ride.to].index});
    }
    // To the walk and back from it are two rides; more of them are one ride with hills in it.
    if (outing.rides.size() > 2) {
      for (const auto& walk : outing.walks)
        ridden_turns_s += points[walk.to - 1].time_s - points[walk.from].time_s;
      continue;
    }
    for (const auto& walk : outing.walks) {
      const auto part = std::span(points).subspan(walk.from, walk.to - walk.from);
      const bool rode = !outing.rides.empty() && !walks_in(part, rules);
      if (rode) {
        ride_s += part.back().time_s - part.front().time_s;
        out.stretches.push_back({Mode::ride, part.front().index, part.back().index});
      } else {
        walks.push_back(part);
      }
    }
  }
  // A recorder's two logs of one walk are one walk: the denser counts.
  std::ranges::stable_sort(walks, std::ranges::greater{}, [](auto w) { return w.size(); });
  std::vector<std::span<const Timed>> taken;
  for (const auto walk : walks) {
    const bool twice = std::ranges::any_of(taken, [&](auto t) {
      return walk.front().time_s < t.back().time_s && t.front().time_s < walk.back().time_s;
    });
    detail::Moving alone;
    if (!twice) detail::add_moving(walk, rules, alone);
    double metres = 0;
    for (const auto& step : alone.steps) metres += step.length_m;
    const bool counts = metres >= rules.piece_m;
    if (counts) taken.push_back(walk);
    out.stretches.push_back(
        {counts ? Mode::walked : Mode::dropped, walk.front().index, walk.back().index});
  }
  std::ranges::sort(taken, {}, [](auto t) { return t.front().time_s; });
  for (const auto walk : taken) detail::add_moving(walk, rules, moving);
  out.stretches.insert(out.stretches.end(), moving.standing.begin(), moving.standing.end());

  double km = 0, minutes = 0;
  for (const auto& s : moving.steps) km += s.length_m / 1000, minutes += s.seconds / 60;
  out.day.moving_min = minutes;
  out.day.standing_min = moving.standing_s / 60;
  out.day.stops = moving.stops;
  auto speeds = detail::piece_speeds(moving.steps);
  double mean = 0, squares = 0;
  for (const double v : speeds) mean += v / static_cast<double>(speeds.size());
  for (const double v : speeds) squares += (v - mean) * (v - mean);
  const double cv =
      speeds.size() > 1 ? std::sqrt(squares / static_cast<double>(speeds.size() - 1)) / mean : 0;
  std::ranges::sort(speeds);
  if (!speeds.empty()) {
    out.median_kmh = numeric::sorted_quantile(speeds, 0.5);
    out.fast_kmh = numeric::sorted_quantile(speeds, 0.9);
  }
  if (rides &&
      (speeds.size() < static_cast<std::size_t>(rules.least_pieces) || km < rules.least_km))
    return refuse(std::move(out), Why::ride,
                  said(l, "a ride: fast for {:.0f} min, and no walk of {:.0f} km beside it",
                       "eine Fahrt: {:.0f} min schnell, und kein Gang von {:.0f} km daneben",
                       (ride_s + ridden_turns_s) / 60, rules.least_km));
  if (km < rules.least_km || minutes < rules.least_min ||
      speeds.size() < static_cast<std::size_t>(rules.least_pieces)) {
    return refuse(std::move(out), Why::too_little,
                  said(l,
                       "too little: {:.1f} km and {:.0f} min of moving; needs {:.0f} km and "
                       "{:.0f} min",
                       "zu wenig: {:.1f} km und {:.0f} min in Bewegung; nötig sind {:.0f} km und "
                       "{:.0f} min",
                       km, minutes, rules.least_km, rules.least_min));
  }
  if (cv < rules.least_cv)
    return refuse(std::move(out), Why::made_up_times,
                  said(l, "times made by a program: {:.1f} km/h on every piece",
                       "Zeiten von einem Programm: {:.1f} km/h auf jedem Stück", out.median_kmh));
  if (out.median_kmh > rules.most_median_kmh || out.fast_kmh > rules.most_fast_kmh) {
    const bool ride = out.fast_kmh > rules.most_run_kmh;
    return refuse(std::move(out), ride ? Why::ride : Why::run,
                  said(l,
                       "{}: {:.1f} km/h, one piece in ten above {:.1f}; a walk keeps under {:.1f} "
                       "and {:.1f}",
                       "{}: {:.1f} km/h, ein Stück von zehn über {:.1f}; wer geht, bleibt unter "
                       "{:.1f} und {:.1f}",
                       ride ? in(l, "a ride", "eine Fahrt") : in(l, "a run", "ein Lauf"),
                       out.median_kmh, out.fast_kmh, rules.most_median_kmh, rules.most_fast_kmh));
  }
  // Ground, however level, does not keep one height for a kilometre, and no instrument says so.
  if (const auto all = one_height(points))
    return refuse(std::move(out), Why::no_heights,
                  said(l, "every height is {:.0f} m: on water, or none was measured",
                       "jede Höhe ist {:.0f} m: auf dem Wasser, oder keine wurde gemessen", *all));
  out.day.pieces = detail::cut_pieces(moving.steps, rules);
  if (out.day.pieces.empty())
    return refuse(std::move(out), Why::no_heights,
                  said(l, "no piece of {:.0f} m has heights: nothing is known of its slopes",
                       "kein Stück von {:.0f} m hat Höhen: von den Neigungen weiß man nichts",
                       rules.piece_m));
  out.used = Used::whole;
  out.why = {Why::walked};
  out.learned_km = out.day.walked_km();
  out.words = said(l, "a walk of {:.1f} km, {:.0f} min moving and {:.0f} min standing",
                   "ein Gang von {:.1f} km, {:.0f} min in Bewegung und {:.0f} min im Stehen", km,
                   minutes, out.day.standing_min);
  if (rides) {
    out.used = Used::part;
    out.why.push_back(Why::fast_cut);
    out.words +=
        said(l, "; {:.0f} min of ride cut off", "; {:.0f} min Fahrt abgeschnitten", ride_s / 60);
  }
  if (sorted.untimed > 0) {
    out.used = Used::part;
    out.why.push_back(Why::untimed_dropped);
    out.words += said(l, "; {} points without a time left out", "; {} Punkte ohne Zeit weggelassen",
                      sorted.untimed);
  }
  return out;
}

}  // namespace lodeway::learn
