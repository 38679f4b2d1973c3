#include "lodeway/trip/slow_day.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>
#include <span>

#include "lodeway/trip/schedule.hpp"

namespace lodeway::trip {

namespace {

constexpr double nine_in_ten = 0.9;

/// The least of `values` that so many of all are not over; absent where that is never.
std::optional<double> of_all(std::vector<double> values, double share) {
  if (values.empty()) return std::nullopt;
  std::ranges::sort(values);
  const auto rank = static_cast<std::size_t>(
      std::ceil(share * static_cast<double>(values.size()) - 1e-9));
  const double out = values[std::min(std::max<std::size_t>(rank, 1), values.size()) - 1];
  return std::isfinite(out) ? std::optional(out) : std::nullopt;
}

std::vector<double> middle_minutes(const reckoning::JudgedWay& way) {
  std::vector<double> out;
  for (const auto& leg : way.legs) out.push_back(leg.judged.minutes);
  return out;
}

}  // namespace

SlowDay slow_day_of(const walking::Request& request, const reckoning::JudgedWay& way,
                    const walking::WalkedDays& days) {
  assert(days.parties > 0 && !way.legs.empty());
  assert(days.ended.size() == way.legs.size() * days.parties);
  const std::size_t legs = way.legs.size(), n = days.parties;
  SlowDay out;
  out.walkers = n;
  const std::vector<double> home(days.home.begin(), days.home.end());
  const auto never = std::ranges::count_if(home, [](double h) { return !std::isfinite(h); });
  out.never_home = static_cast<double>(never) / static_cast<double>(n);
  out.end = of_all(home, nine_in_ten);
  out.middle = of_all(home, 0.5);
  const SlowDay by_bands = slow_day_of(request, way);
  double planned = 0;
  for (const auto& leg : way.legs) planned += leg.judged.minutes;
  std::vector<double> walked;
  for (std::size_t l = 0; l < legs; ++l) {
    std::vector<double> arrive, on;
    for (std::size_t i = 0; i < n; ++i) {
      const auto ended = static_cast<double>(days.ended[l * n + i]);
      if (std::isnan(ended)) continue;
      arrive.push_back(ended);
      on.push_back(home[i] - ended);
      if (l + 1 == legs && std::isfinite(home[i]))
        walked.push_back(static_cast<double>(days.walked[i]));
    }
    // Where nobody got to, the bands are all there is.
    out.arrive.push_back(of_all(arrive, nine_in_ten).value_or(by_bands.arrive[l]));
    out.on.push_back(on.empty() ? by_bands.on[l] : of_all(on, nine_in_ten));
  }
  const auto slow = of_all(walked, nine_in_ten);
  out.slowness = slow && planned > 0 ? *slow / planned : by_bands.slowness;
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
  double rested = 0, through = 0;
  for (std::size_t l = 0; l < n; ++l) {
    out.arrive.push_back(slow(0, l + 1) + rested + rests[l].within_min);
    rested += rests[l].within_min + rests[l].after_min;
    through += middle[l] + rests[l].within_min + rests[l].after_min;
  }
  out.end = out.arrive.back();
  out.middle = through - rests.back().after_min;  // whoever is through is through
  out.on.assign(n, 0.0);
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
