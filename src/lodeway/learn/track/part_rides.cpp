/// Walking from riding: a ride is fast for hundreds of metres on end, a slip of the receiver is
/// not.
#include <cmath>
#include <numbers>

#include "lodeway/learn/track/moving.hpp"

namespace lodeway::learn::detail {

double apart_m(const earth::Geographic& a, const earth::Geographic& b) {
  // Radii of curvature of WGS 84 at the middle latitude.
  constexpr double axis = 6378137.0, e2 = 0.00669437999014, degree = std::numbers::pi / 180;
  const double mid = 0.5 * (a.lat_deg + b.lat_deg) * degree, s = std::sin(mid);
  const double w2 = 1 - e2 * s * s, w = std::sqrt(w2);
  const double north = (b.lat_deg - a.lat_deg) * degree * axis * (1 - e2) / (w2 * w);
  const double east =
      std::remainder(b.lon_deg - a.lon_deg, 360.0) * degree * axis / w * std::cos(mid);
  return std::hypot(east, north);
}

namespace {

constexpr double coarse_m = 50, long_gap_s = 3 * 3600.0, least_ride_m = 400, bend_s = 60;

/// A piece of at least 50 m, chord by chord of 15 m; or a hole, with the speed it was crossed at
/// and no length, since nobody recorded how.
struct Coarse {
  std::size_t from = 0, to = 0;  // timed points, both included
  double kmh = 0, length_m = 0;
};

std::vector<Coarse> coarse_pieces(std::span<const Timed> points, std::size_t begin, std::size_t end,
                                  double thin_m) {
  std::vector<Coarse> out;
  std::size_t from = begin, last = begin;
  double length = 0;
  for (std::size_t i = begin + 1; i < end; ++i) {
    if (points[i].hole_before) {
      const double seconds = points[i].time_s - points[i - 1].time_s;
      out.push_back(
          {i - 1, i, seconds > 0 ? 3.6 * apart_m(points[i - 1].at, points[i].at) / seconds : 0, 0});
      from = last = i;
      length = 0;
      continue;
    }
    const double step = apart_m(points[last].at, points[i].at);
    if (step < thin_m && i + 1 < end) continue;
    length += step;
    last = i;
    if (length < coarse_m && i + 1 < end) continue;
    const double seconds = points[i].time_s - points[from].time_s;
    out.push_back({from, i, seconds > 0 ? 3.6 * length / seconds : 0, length});
    from = i;
    length = 0;
  }
  return out;
}

/// Runs of fast pieces, as ranges of timed points. Slow for a minute is still the run: a bend.
std::vector<Outing::Part> fast_runs(std::span<const Timed> points,
                                    const std::vector<Coarse>& pieces, const TrackRules& rules) {
  std::vector<Outing::Part> out;
  Outing::Part run;
  double fast_m = 0;
  const auto close = [&] {
    if (fast_m >= least_ride_m) out.push_back(run);
    fast_m = 0;
  };
  for (const auto& piece : pieces) {
    if (piece.kmh <= rules.ride_kmh) continue;
    if (fast_m > 0 && points[piece.from].time_s - points[run.to].time_s > bend_s) close();
    if (fast_m <= 0) {
      if (piece.length_m <= 0) continue;  // a ride does not begin in a hole
      run.from = piece.from;
    }
    run.to = piece.to;
    fast_m += piece.length_m;
  }
  close();
  return out;
}

}  // namespace

std::vector<Outing> part_rides(std::span<const Timed> points, const TrackRules& rules) {
  std::vector<Outing> out;
  std::size_t begin = 0;
  for (std::size_t i = 1; i <= points.size(); ++i) {
    if (i < points.size() && points[i].time_s - points[i - 1].time_s < long_gap_s &&
        points[i].time_s >= points[i - 1].time_s)
      continue;
    Outing outing;
    for (const auto& run :
         fast_runs(points, coarse_pieces(points, begin, i, rules.thin_m), rules)) {
      auto& rides = outing.rides;
      if (!rides.empty() &&
          points[run.from].time_s - points[rides.back().to].time_s < rules.between_rides_s) {
        rides.back().to = run.to;
      } else {
        rides.push_back(run);
      }
    }
    std::size_t from = begin;
    for (const auto& ride : outing.rides) {
      if (ride.from > from) outing.walks.push_back({from, ride.from + 1});
      from = ride.to;
    }
    if (from + 1 < i) outing.walks.push_back({from, i});
    out.push_back(std::move(outing));
    begin = i;
  }
  return out;
}

}  // namespace lodeway::learn::detail
