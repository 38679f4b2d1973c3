#include "lodeway/learn/debrief/debrief.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/learn/debrief/match.hpp"
#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/statistics.hpp"

namespace lodeway::learn {

namespace {
using detail::Matched;
constexpr double z_80 = 1.2815515655446004;  // 10 in 100 on each side

struct OnPlan {
  const std::vector<WalkedPoint>& track;
  const std::vector<Matched>& places;
};

/// Nearest distance to the whole plan near the matched place: who goes beside a bend is not off.
std::vector<LeftTheWay> where_left(const OnPlan& walk, std::size_t from, std::size_t to,
                                   double leg_from_m, double threshold_m,
                                   const DebriefRules& rules) {
  std::vector<LeftTheWay> out;
  for (std::size_t i = from; i < to; ++i) {
    if (walk.places[i].away_m <= threshold_m) continue;
    std::size_t k = i;
    double metres = 0, furthest = walk.places[i].away_m;
    while (k + 1 < to && walk.places[k + 1].away_m > threshold_m) {
      metres += earth::grid_distance_m(walk.track[k].at, walk.track[k + 1].at);
      furthest = std::max(furthest, walk.places[++k].away_m);
    }
    if (metres > rules.left_for_m) {
      std::size_t begun = i;
      while (begun > from && walk.places[begun].away_m > rules.back_to_m) --begun;
      LeftTheWay left;
      left.at_m = std::max(0.0, walk.places[begun].along_m - leg_from_m);
      left.at = walk.track[begun].at;
      left.furthest_m = furthest;
      double since = 0;
      for (std::size_t n = begun; n + 1 < walk.track.size(); ++n) {
        since += earth::grid_distance_m(walk.track[n].at, walk.track[n + 1].at);
        if (n + 1 <= k) continue;
        furthest = std::max(furthest, walk.places[n + 1].away_m);
        if (walk.places[n + 1].away_m > rules.back_to_m) continue;
        left.regained_m = since;
        left.regained_at = walk.track[n + 1].at;
        k = std::max(k, n + 1);
        break;
      }
      left.furthest_m = furthest;
      out.push_back(left);
    }
    i = k;
  }
  return out;
}

void take_time(const std::vector<WalkedPoint>& track, double from_s, double to_s,
               const DebriefRules& rules, LegDebrief& out) {
  const WalkedPoint *kept = nullptr, *near = nullptr;
  for (const auto& p : track) {
    if (p.time_s < from_s || p.time_s > to_s) continue;
    if (kept == nullptr) {
      kept = near = &p;
      continue;
    }
    if (earth::grid_distance_m(kept->at, p.at) < rules.stop_m) {
      near = &p;
      if (&p != &track.back() && (&p + 1)->time_s <= to_s) continue;
    }
    const double stood = near->time_s - kept->time_s;
    if (stood >= rules.stop_s) {
      out.standing_min += stood / 60;
      ++out.stops;
    }
    kept = near = &p;
  }
  out.minutes = (to_s - from_s) / 60 - out.standing_min;
}
}  // namespace

void LegDebrief::set_band(double model_minutes, const walking::TimeBands& bands) {
  const double sd = std::hypot(bands.shared, bands.leg);
  middle_min = model_minutes * bands.centre;
  low_min = middle_min * std::exp(-z_80 * sd);
  high_min = middle_min * std::exp(z_80 * sd);
}

bool Debrief::figures_do_not_fit() const {
  return judged >= 5 && binomial_at_most(inside, judged, 0.8) < 0.035;
}

double binomial_at_most(int hits, int trials, double p) {
  double sum = 0, term = std::pow(1 - p, trials);
  for (int k = 0; k <= hits && k <= trials; ++k) {
    sum += term;
    term *= static_cast<double>(trials - k) / (k + 1) * p / (1 - p);
  }
  return std::min(sum, 1.0);
}

Debrief debrief(const std::vector<DebriefLeg>& plan, const std::vector<WalkedPoint>& track,
                const walking::TimeBands& bands, const DebriefRules& rules) {
  Debrief out;
  out.legs.resize(plan.size());
  std::vector<GridPoint> line;
  std::vector<double> ends;
  double length = 0;
  for (const auto& leg : plan) {
    for (const auto& p : leg.line) {
      if (line.empty() || !(line.back() == p)) line.push_back(p);
    }
    length += mapdata::length_m(std::span<const GridPoint>(leg.line));
    ends.push_back(length);
  }
  const auto walked = detail::thinned(track, rules.step_m);
  if (line.size() < 2 || walked.size() < 2) return out;
  const auto places = detail::match(line, walked, rules.step_m);
  // The first point at a place of the plan; who stops short of it by no more than a map may err,
  // and never comes nearer, was there too.
  const auto reached = [&](double along) -> std::optional<std::size_t> {
    for (const double short_m : {rules.step_m, rules.left_m}) {
      for (std::size_t i = 0; i < places.size(); ++i) {
        if (places[i].along_m >= along - short_m &&
            places[i].away_m < rules.left_m + 2 * rules.step_m)
          return i;
      }
    }
    return std::nullopt;
  };
  double from_m = 0;
  for (std::size_t l = 0; l < plan.size(); ++l) {
    auto& leg = out.legs[l];
    leg.set_band(plan[l].minutes, bands);
    const auto start = reached(from_m), end = reached(ends[l]);
    if (start && end && *end > *start) {
      leg.walked = true;
      take_time(track, walked[*start].time_s, walked[*end].time_s, rules, leg);
      leg.inside = leg.minutes >= leg.low_min && leg.minutes <= leg.high_min;
      ++out.judged;
      out.inside += leg.inside;
      std::vector<double> across;
      for (std::size_t i = *start; i <= *end; ++i) across.push_back(places[i].away_m);
      std::ranges::sort(across);
      leg.across_p50_m = numeric::sorted_quantile(across, 0.5);
      leg.across_p95_m = numeric::sorted_quantile(across, 0.95);
      const OnPlan on{walked, places};
      leg.left = where_left(on, *start, *end + 1, from_m,
                            rules.left_m + (plan[l].along ? 0 : plan[l].cross_sigma_m), rules);
      if (plan[l].along) leg.on_line_km = (ends[l] - from_m) / 1000;
      for (std::size_t t = 0; t < plan[l].ticks.size(); ++t) {
        const auto& tick = plan[l].ticks[t];
        for (std::size_t i = *start; i <= *end; ++i) {
          if (earth::grid_distance_m(walked[i].at, tick.at) <= tick.sight_m + rules.step_m) {
            leg.passed.push_back(t);
            break;
          }
        }
      }
    }
    from_m = ends[l];
  }
  return out;
}

}  // namespace lodeway::learn
