#include "lodeway/trip/slow_day.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <span>

#include "lodeway/numeric/statistics.hpp"
#include "lodeway/trip/schedule.hpp"

namespace lodeway::trip {

namespace {

constexpr double never = std::numeric_limits<double>::quiet_NaN();

double quantile(std::vector<double> values, double p) {
  std::erase_if(values, [](double v) { return std::isnan(v); });
  if (values.empty()) return never;
  std::ranges::sort(values);
  return numeric::sorted_quantile(values, p);
}

std::vector<double> middle_minutes(const reckoning::JudgedWay& way) {
  std::vector<double> out;
  for (const auto& leg : way.legs) out.push_back(leg.judged.minutes);
  return out;
}

/// One party's day.
struct Day {
  std::vector<double> arrive;  ///< NaN where it did not get
  double end = 0;
  bool through = false;
  double walked = 0;
};

class Days {
 public:
  Days(const walking::Request& request, const reckoning::JudgedWay& way,
       const std::vector<double>& back_minutes, const reckoning::RehearsedTimes& times)
      : party_(request.party),
        stays_(stays_of(request, way)),
        middle_(middle_minutes(way)),
        back_(back_minutes),
        times_(times) {}

  [[nodiscard]] Day of(std::size_t walker) const {
    const std::size_t legs = middle_.size();
    const int gave_up = times_.gave_up[walker];
    const std::size_t last = gave_up < 0 ? legs - 1 : static_cast<std::size_t>(gave_up);
    std::vector<double> minutes;
    for (std::size_t l = 0; l <= last; ++l)
      minutes.push_back(static_cast<double>(times_.minutes[l * times_.walkers + walker]));
    const auto rests = rests_of(party_, minutes, std::span(stays_).first(last + 1));
    Day out{std::vector<double>(legs, never), 0, gave_up < 0, 0};
    double now = 0, planned = 0;
    for (std::size_t l = 0; l <= last; ++l) {
      out.walked += minutes[l];
      planned += middle_[l];
      now += minutes[l] + rests[l].within_min;
      if (out.through || l < last) out.arrive[l] = now;
      if (l < last) now += rests[l].after_min;
    }
    if (!out.through && last > 0) {  // from the start of the leg that it gave up
      const double home = back_[last - 1] * (planned > 0 ? out.walked / planned : 1);
      now += home + rests_on_the_way_back(party_, home);
    }
    out.end = now;
    return out;
  }

 private:
  const walking::Party& party_;
  std::vector<double> stays_, middle_;
  const std::vector<double>& back_;
  const reckoning::RehearsedTimes& times_;
};

}  // namespace

SlowDay slow_day_of(const walking::Request& request, const reckoning::JudgedWay& way,
                    const std::vector<double>& back_minutes,
                    const reckoning::RehearsedTimes& times) {
  assert(times.walkers > 0 && !way.legs.empty() && back_minutes.size() == way.legs.size());
  constexpr double nine_in_ten = 0.9;
  const Days days(request, way, back_minutes, times);
  const std::size_t legs = way.legs.size(), n = times.walkers;
  std::vector<std::vector<double>> arrive(legs, std::vector<double>(n)), on = arrive;
  std::vector<double> end(n), walked;
  for (std::size_t i = 0; i < n; ++i) {
    const Day day = days.of(i);
    end[i] = day.end;
    if (day.through) walked.push_back(day.walked);
    for (std::size_t l = 0; l < legs; ++l) {
      arrive[l][i] = day.arrive[l];
      on[l][i] = day.end - day.arrive[l];
    }
  }
  SlowDay out;
  out.walkers = n;
  out.end = quantile(end, nine_in_ten);
  out.middle = quantile(end, 0.5);
  const SlowDay by_bands = slow_day_of(request, way);
  double planned = 0;
  for (const auto& leg : way.legs) planned += leg.judged.minutes;
  out.slowness =
      walked.empty() || planned <= 0 ? by_bands.slowness : quantile(walked, nine_in_ten) / planned;
  for (std::size_t l = 0; l < legs; ++l) {
    const double there = quantile(arrive[l], nine_in_ten), rest = quantile(on[l], nine_in_ten);
    // Where nobody got to, the bands are all there is.
    out.arrive.push_back(std::isnan(there) ? by_bands.arrive[l] : there);
    out.on.push_back(std::isnan(rest) ? by_bands.on[l] : rest);
  }
  return out;
}

SlowDay slow_day_of(const walking::Request& request, const reckoning::JudgedWay& way) {
  assert(!way.legs.empty());
  const auto rests = rests_of(request, way);
  const auto bands = walking::bands_of(request.party);
  const auto middle = middle_minutes(way);
  const auto slow = [&](std::size_t from, std::size_t to) {
    return walking::nine_in_ten_minutes(std::span(middle).subspan(from, to - from), bands);
  };
  SlowDay out;
  const std::size_t n = middle.size();
  double rested = 0;
  for (std::size_t l = 0; l < n; ++l) {
    out.arrive.push_back(slow(0, l + 1) + rested + rests[l].within_min);
    rested += rests[l].within_min + rests[l].after_min;
    out.middle += middle[l] + rests[l].within_min + rests[l].after_min;
  }
  out.end = out.arrive.back();
  out.middle -= rests.back().after_min;  // whoever is through is through
  out.on.assign(n, 0);
  double to_come = 0;
  for (std::size_t l = n - 1; l-- > 0;) {
    to_come += rests[l + 1].within_min;
    out.on[l] = slow(l + 1, n) + rests[l].after_min + to_come;
    to_come += rests[l].after_min;
  }
  double planned = 0;
  for (const double m : middle) planned += m;
  out.slowness = planned > 0 ? slow(0, n) / planned : 1;
  return out;
}

}  // namespace lodeway::trip
