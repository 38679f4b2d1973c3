/// Like things before the end: which are they, and how likely is any of them taken for it?
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/judge/counted_from.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"
#include "lodeway/reckoning/ends/parallel_error.hpp"
#include "lodeway/result/overloaded.hpp"

namespace lodeway::reckoning {

using result::overloaded;

namespace {
/// A standard normal as values with weights: `n` equal steps out to four sigmas.
template <std::size_t n>
std::array<std::pair<double, double>, n> steps_of_normal() {
  std::array<std::pair<double, double>, n> out;
  const double all = numeric::normal_cdf(4) - numeric::normal_cdf(-4);
  for (std::size_t i = 0; i < n; ++i) {
    const double low = -4 + 8.0 * static_cast<double>(i) / n, high = low + 8.0 / n;
    out[i] = {0.5 * (low + high), (numeric::normal_cdf(high) - numeric::normal_cdf(low)) / all};
  }
  return out;
}
const auto directions = steps_of_normal<64>();
constexpr std::size_t count_steps = 24;
constexpr double half_step = 4.0 / count_steps;
const auto counts = steps_of_normal<count_steps>();

/// As the party weighs it: the count decides half-way between the two, so its error there counts.
/// `lie_apart_deg`: of lines.
Decoy weighed(const Approach& way, const DecoyPlace& d, double lie_apart_deg,
              double lie_sigma_deg) {
  const double half_way =
      way.spread.along_sigma_m * (d.along_m + way.length_m) / (2 * way.length_m);
  return {way.length_m - d.along_m, half_way, lie_apart_deg, lie_sigma_deg, d.looks_alike};
}
}  // namespace

Judge::Decoys Judge::line_decoys(const Approach& way, const AtLine& end) const {
  const auto& wanted = guides_->line(end.place.line);
  const auto lie = units::Lie::of(mapdata::direction_at(wanted.points, end.place.along_m));
  Decoys out;
  std::vector<LikeLine> lines;
  for (const Crossed& c : guides_->crossed(way.from, way.aim)) {
    const mapdata::Kind kind = guides_->line(c.line).label.kind;
    const double short_m = way.length_m - c.at_m;
    const double alike = landmarks::looks_alike(kind, wanted.label.kind);
    if (short_m < 10 || short_m > 6 * way.spread.along_sigma_m || c.line == end.place.line ||
        alike <= 0)
      continue;
    if (std::ranges::any_of(lines, [&](const LikeLine& seen) { return seen.line == c.line; }))
      continue;  // each line is looked at once
    lines.push_back({c.line, apart(c.lie, lie).in_degrees()});
    out.places.push_back({lines.back(), c.at_m, guides_->noticed(kind), alike, 0});
  }
  if (lines.empty()) return out;
  // Over the directions walked and the error of the count, which is one for all of them: each line
  // is met at its own count, or the target first. A sighting's error takes a little off the
  // progress, so that things come later by the count.
  const double spread = way.spread.cross_sigma_m / way.length_m, reach = 2 * way.length_m;
  const double wander = 1 + 0.5 * errors_.sighting_sigma * errors_.sighting_sigma;
  double none = 0;
  std::vector<double> met(lines.size());
  const auto caster = [&](std::size_t line) {
    return LineCaster(way.from, way.bearing.in_radians(), 4 * spread,
                      pieces_within(guides_->line(line).points, way.from, reach), reach);
  };
  const LineCaster to_end = caster(end.place.line);
  std::vector<LineCaster> to_decoys;
  for (const auto& like : lines) to_decoys.push_back(caster(like.line));
  for (const auto& [z, weight] : directions) {
    const double angle = way.bearing.in_radians() + z * spread;
    const double at_end = to_end.cast(angle).distance_m;
    for (std::size_t i = 0; i < met.size(); ++i) {
      const double at = to_decoys[i].cast(angle).distance_m;
      met[i] = at < at_end ? at * wander : -1;
    }
    for (const auto& [e, chance] : counts) {
      double passes = 1;
      for (std::size_t i = 0; i < met.size(); ++i) {
        if (met[i] < 0) continue;
        DecoyPlace& d = out.places[i];
        // the stride's error shortens what is counted as one over itself, a start's does not
        const double at = met[i], share = end.growth.count_m2(at) / (at * at);
        const double sigma = std::sqrt(end.growth.along_m2(at));
        const double counted = at * (1 + e * e * share) - e * sigma;
        const double p =
            d.recognised *
            taken_at_count(weighed(way, d, lines[i].lie_apart_deg, habits_.lie_sigma_deg),
                           counted - d.along_m, half_step * sigma);
        d.probability += weight * chance * p;
        passes *= 1 - p;
      }
      none += weight * chance * passes;
    }
  }
  out.probability = std::clamp(1 - none, 0.0, 1.0);
  return out;
}

Judge::Decoys Judge::mark_decoys(const Approach& way, const AtMark& end) const {
  const double s = std::sin(way.bearing.in_radians()), c = std::cos(way.bearing.in_radians());
  Decoys out;
  std::vector<double> beside, sights;
  for (const Mark& m : guides_->marks_along(way.from, way.to, 150)) {
    const double alike =
        landmarks::looks_alike(guides_->fixes()[m.fix], guides_->fixes()[end.mark.fix]);
    if (earth::grid_distance_m(m.at, way.to) < 20 || alike <= 0) continue;
    const GridPoint w = m.at - way.from;
    const double along = w.east_m * s + w.north_m * c, apart = way.length_m - along;
    if (apart < 0 || apart > 6 * way.spread.along_sigma_m || along < 0.1 * way.length_m) continue;
    beside.push_back(w.east_m * c - w.north_m * s);
    sights.push_back(m.seen_from_m);
    out.places.push_back({LikeMark{m.fix, m.at, m.seen_from_m}, along,
                          guides_->noticed(guides_->fixes()[m.fix].kind), alike, 0});
  }
  if (out.places.empty()) return out;
  // Together with the end itself: who comes to it first has found it.
  // The count is wrong by what was walked until a thing came in sight, and by the start.
  const double give_up = way.length_m + end.beyond_m, rho = way.spread.correlation;
  const auto counted = [&](double at, double error) {
    const double away = std::max(at, 0.0);
    return at - error * std::sqrt(end.growth.along_m2(away));
  };
  double kept = 0, found = 0;
  for (const auto& [z, weight] : directions) {
    const double off = z * way.spread.cross_sigma_m, r = end.mark.seen_from_m;
    const bool passes_by = std::abs(off) >= r;
    const double ends =
        passes_by ? 0 : std::max(way.length_m - std::sqrt(r * r - off * off), 0.0);
    for (const auto& [e, chance] : counts) {
      // right goes with far where the two errors do
      const double error = rho * z + std::sqrt(1 - rho * rho) * e;
      const bool finds = !passes_by && counted(ends, error) <= give_up;
      double passes = 1;
      for (std::size_t i = 0; i < out.places.size(); ++i) {
        DecoyPlace& d = out.places[i];
        const double away = beside[i] - off * d.along_m / way.length_m, sight = sights[i];
        if (std::abs(away) >= sight) continue;
        const double comes = std::max(d.along_m - std::sqrt(sight * sight - away * away), 0.0);
        const double at = counted(comes, error);
        if (at > give_up) continue;
        double p = d.recognised * taken_at_count(weighed(way, d, 0, habits_.lie_sigma_deg),
                                                 at - comes,
                                                 half_step * std::sqrt(end.growth.along_m2(comes)));
        if (finds && comes >= ends)
          p *= 1 - end.mark.recognised;  // who knows the end has stopped
        else
          passes *= 1 - p;
        d.probability += weight * chance * p;
      }
      if (!finds) continue;
      found += weight * chance;
      kept += weight * chance * passes;
    }
  }
  out.probability = found > 0 ? std::clamp(1 - kept / found, 0.0, 1.0) : 0;
  return out;
}

/// Along a line: what stands on it (as near as what marks an end) and looks like the marked end. What
/// the card has ticked off is expected where it is. The count runs from what was ticked off before.
Judge::Decoys Judge::handrail_decoys(const walking::Leg& leg, const Approach& way,
                                     const Mark& mark) const {
  constexpr double on_line_m = 15, one_place_m = 20;
  const auto& line = leg.course.line;
  const auto& end = guides_->fixes()[mark.fix];
  const double grid = leg.figures.length_m > 0 ? way.length_m / leg.figures.length_m : 1,
               most_m = 6 * handrail_sigma_m(errors_, way.length_m);
  const auto told = [&](double along) {
    return std::ranges::any_of(leg.ticks, [&](const walking::Tick& tick) {
      return std::abs(grid * tick.at_m - along) < one_place_m;
    });
  };
  Decoys out;
  for (const auto i : guides_->fixes().along(line, on_line_m)) {
    const double alike = landmarks::looks_alike(guides_->fixes()[i], end);
    if (i == mark.fix || alike <= 0) continue;
    const Mark m = guides_->mark(i);
    const double along = mapdata::along_of(line, m.at), apart = way.length_m - along;
    if (m.seen_from_m <= 0 || along < one_place_m || apart < one_place_m || apart > most_m ||
        told(along))
      continue;
    // within sight of the end only those err who do not know it
    const double unknown = apart <= mark.seen_from_m ? 1 - mark.recognised : 1;
    out.places.push_back({LikeMark{i, m.at, m.seen_from_m}, along,
                          unknown * known(guides_->noticed(guides_->fixes()[i].kind)), alike, 0});
  }
  std::ranges::sort(out.places, {}, &DecoyPlace::along_m);
  const auto same_place = [&](const DecoyPlace& a, const DecoyPlace& b) {
    return b.along_m - a.along_m < one_place_m;
  };
  out.places.erase(std::unique(out.places.begin(), out.places.end(), same_place),
                   out.places.end());
  if (out.places.empty()) return out;
  // one error of the count for all of them
  std::vector<std::vector<CountedFrom>> from;
  for (const DecoyPlace& d : out.places)
    from.push_back(counted_from(*this, leg, way.length_m, known_shift_, d.along_m));
  double none = 0;
  for (const auto& [e, chance] : counts) {
    double passes = 1;
    for (std::size_t i = 0; i < from.size(); ++i) {
      DecoyPlace& d = out.places[i];
      const double apart = way.length_m - d.along_m;
      double taken = 0;
      for (const CountedFrom& c : from[i]) {
        const double sigma = handrail_sigma_m(errors_, c.since_m);
        taken += c.chance * taken_at_count({apart, sigma, 0, habits_.lie_sigma_deg, d.looks_alike},
                                           e * sigma, half_step * sigma);
      }
      d.probability += chance * d.recognised * taken;
      passes *= 1 - d.recognised * taken;
    }
    none += chance * passes;
  }
  out.probability = std::clamp(1 - none, 0.0, 1.0);
  return out;
}

Judge::Decoys Judge::decoys(const walking::Leg& leg, const Approach& way) const {
  return std::visit(overloaded{[](const OnNeedle&) { return Decoys{}; },
                               [&](const AtLine& end) { return line_decoys(way, end); },
                               [&](const AtMark& end) { return mark_decoys(way, end); },
                               [&](const ByHandrail& end) {
                                 return end.mark ? handrail_decoys(leg, way, *end.mark) : Decoys{};
                               }},
                    way.end);
}

}  // namespace lodeway::reckoning
