#include "lodeway/learn/track/moving.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lodeway::learn::detail {

namespace {

/// Heights as the mean of those within smooth_m / 2 before and after, along the steps that join.
void smooth_heights(std::span<Step> steps, double smooth_m) {
  const auto n = steps.size();
  std::vector<double> at(n + 1, 0.0), z(n + 1);
  for (std::size_t i = 0; i < n; ++i) {
    at[i + 1] = at[i] + steps[i].length_m;
    z[i] = steps[i].height_from_m;
  }
  z[n] = steps[n - 1].height_to_m;
  std::size_t low = 0, high = 0;
  double sum = 0;
  std::size_t known = 0;
  std::vector<double> smooth(n + 1);
  for (std::size_t i = 0; i <= n; ++i) {
    for (; high <= n && at[high] <= at[i] + 0.5 * smooth_m; ++high) {
      if (std::isfinite(z[high])) sum += z[high], ++known;
    }
    for (; at[low] < at[i] - 0.5 * smooth_m; ++low) {
      if (std::isfinite(z[low])) sum -= z[low], --known;
    }
    smooth[i] =
        known > 0 ? sum / static_cast<double>(known) : std::numeric_limits<double>::quiet_NaN();
  }
  for (std::size_t i = 0; i < n; ++i) {
    steps[i].height_from_m = smooth[i];
    steps[i].height_to_m = smooth[i + 1];
  }
}

}  // namespace

void add_moving(std::span<const Timed> walk, const TrackRules& rules, Moving& out) {
  if (walk.size() < 2) return;
  const auto begin = out.steps.size();
  const Timed* kept = &walk.front();
  const Timed* near = kept;  // the last point within stop_m of it
  bool first = true;
  for (const auto& p : walk.subspan(1)) {
    const double step = apart_m(kept->at, p.at), seconds = p.time_s - kept->time_s;
    if (p.hole_before) {
      kept = near = &p;
      first = true;
      continue;
    }
    if (3.6 * apart_m(near->at, p.at) > rules.hop_kmh * (p.time_s - near->time_s) &&
        step >= rules.thin_m) {
      ++out.hops;
      continue;
    }
    if (step < rules.thin_m) {
      near = &p;
      continue;
    }
    double stood = near->time_s - kept->time_s;
    if (stood >= rules.stop_s) {
      out.stops += 1;
      out.standing_s += stood;
      out.standing.push_back({Mode::standing, kept->index, near->index});
    } else {
      stood = 0;
    }
    if (seconds - stood > 0) {
      out.steps.push_back(
          {step, seconds - stood, kept->height_m, p.height_m, kept->index, p.index, first});
      first = false;
    }
    kept = near = &p;
  }
  if (out.steps.size() > begin) smooth_heights(std::span(out.steps).subspan(begin), rules.smooth_m);
}

std::vector<double> piece_speeds(std::span<const Step> steps) {
  std::vector<double> out;
  double length = 0, seconds = 0;
  for (const auto& s : steps) {
    if (s.first) length = seconds = 0;
    length += s.length_m;
    seconds += s.seconds;
    if (length < 50) continue;
    out.push_back(3.6 * length / seconds);
    length = seconds = 0;
  }
  return out;
}

}  // namespace lodeway::learn::detail
