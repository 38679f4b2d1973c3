#include "lodeway/trip/told_ticks.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::trip {

namespace {

using walking::Tick;

constexpr double begins_m = 15, apart_m = 40;  // as landmarks::Surroundings::along has them

/// A leg's own minutes at a place, even between what is known.
double minutes_at(const PlannedLeg& leg, double at_m) {
  double from_m = 0, from_min = 0, to_m = leg.figures.length_m, to_min = leg.figures.minutes;
  for (const auto& tick : leg.ticks) {
    if (tick.at_m <= at_m && tick.at_m >= from_m) {
      from_m = tick.at_m;
      from_min = tick.minutes;
    } else if (tick.at_m > at_m && tick.at_m < to_m) {
      to_m = tick.at_m;
      to_min = tick.minutes;
    }
  }
  return to_m > from_m ? from_min + (at_m - from_m) / (to_m - from_m) * (to_min - from_min) : from_min;
}

Tick bend_tick(const PlannedLeg& leg, const BendAhead& bend, const Trip& trip) {
  const auto& line = leg.course.line;
  const double scale = leg.figures.length_m / std::max(mapdata::length_m(line), 1e-9);
  const auto at = mapdata::point_along(line, bend.at_m / scale);
  Tick out{landmarks::words(landmarks::Sighting{landmarks::Meeting::bends, mapdata::Kind::other, "",
                                                bend.to, bend.at_m, at},
                            trip.language),
           mapdata::Kind::other, bend.to, bend.at_m, minutes_at(leg, bend.at_m), at};
  out.what += ": " + bearing_text(bend.after, trip.angles) + bearing_sign(trip.angles);
  return out;
}

int weight(const Tick& tick) { return tick.counted_from() ? 3 : tick.of_slope ? 1 : 2; }

}  // namespace

std::vector<Tick> told_ticks(const PlannedLeg& leg, const Trip& trip) {
  std::vector<Tick> out;
  std::ranges::copy_if(leg.ticks, std::back_inserter(out),
                       [](const Tick& t) { return t.at_m >= begins_m; });
  std::ranges::stable_sort(out, {}, &Tick::at_m);
  const auto own = out;
  for (const auto& bend : leg.bends) {
    double before = 0, after = leg.figures.length_m;
    for (const auto& tick : own) {
      if (tick.at_m <= bend.at_m) before = std::max(before, tick.at_m);
      if (tick.at_m > bend.at_m) after = std::min(after, tick.at_m);
    }
    if (after - before <= 0.5 * bare_m || bend.at_m - before < apart_m || after - bend.at_m < apart_m)
      continue;
    out.push_back(bend_tick(leg, bend, trip));
  }
  std::ranges::stable_sort(out, {}, &Tick::at_m);
  return out;
}

std::vector<Tick> spread_ticks(const PlannedLeg& leg, std::size_t most) {
  auto left = leg.ticks;
  std::ranges::stable_sort(left, {}, &Tick::at_m);
  if (left.size() <= most) return left;
  if (most == 0) return {};
  const double length_m = leg.figures.length_m;
  std::vector<Tick> out{left.back()};
  left.pop_back();
  while (out.size() < most) {
    // How much shorter the bare stretch about it becomes: the lesser of its two parts.
    const auto tells = [&](const Tick& t) {
      const Tick *before = nullptr, *after = nullptr;
      for (const auto& k : out) {
        if (k.at_m <= t.at_m && (before == nullptr || k.at_m > before->at_m)) before = &k;
        if (k.at_m > t.at_m && (after == nullptr || k.at_m < after->at_m)) after = &k;
      }
      const double parts = std::min(t.at_m - (before != nullptr ? before->at_m : 0),
                                    (after != nullptr ? after->at_m : length_m) - t.at_m);
      const bool again = (before != nullptr && before->what == t.what) ||
                         (after != nullptr && after->what == t.what);
      return parts * weight(t) * (again ? 0.5 : 1);
    };
    const auto best = std::ranges::max_element(left, {}, tells);
    out.push_back(*best);
    left.erase(best);
  }
  std::ranges::stable_sort(out, {}, &Tick::at_m);
  return out;
}

std::vector<Stretch> bare_stretches(const PlannedLeg& leg) {
  std::vector<Stretch> out;
  double from = 0;
  const auto to = [&](double at_m) {
    if (at_m - from > bare_m) out.push_back({from, at_m});
    from = at_m;
  };
  for (const auto& tick : leg.ticks) to(tick.at_m);
  to(leg.figures.length_m);
  return out;
}

std::string more_ticks_words(const PlannedLeg& leg, const std::vector<Tick>& boxed, const Trip& trip,
                             bool briefly) {
  const auto l = trip.language;
  const auto length = [&](double m) { return length_text(m, trip.lengths); };
  std::string more;
  for (const auto& tick : leg.ticks) {
    if (briefly && tick.of_slope) continue;
    if (std::ranges::any_of(boxed, [&](const Tick& b) { return b.at_m == tick.at_m; })) continue;
    more += (more.empty() ? "" : ", ") + length(tick.at_m) + " " + tick.what;
  }
  auto out = more.empty() ? more : told(l, "also {}", {more});
  if (briefly) return out;
  for (const auto& bare : bare_stretches(leg)) {
    if (!out.empty()) out += "; ";
    out += leg.ticks.empty() ? told(l, "nothing on the whole leg")
                             : told(l, "nothing for {}, from {}",
                                    {length(bare.to_m - bare.from_m), length(bare.from_m)});
  }
  return out;
}

}  // namespace lodeway::trip
