#include "lodeway/learn/course/timetable.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <tuple>

#include <fmt/format.h>

#include "lodeway/units/said.hpp"

namespace lodeway::learn {

namespace {

constexpr double between_min_km = 15 * 1.3, bearing_min_km = 25, feature_min_km = 20,
                 feature_min = 3, fork_min_km = 15, fork_min = 1, drop_min = 5, desk_min = 25,
                 pace_min = 25;
constexpr int step_min = 5;

struct Course {
  GridPoint from, to;
  double minutes = 0;
};

/// The nearest one next, from the base and back to it; a dozen at most.
struct Round {
  std::vector<std::size_t> order;
  double minutes = 0;
};
Round round_of(const std::vector<Course>& courses, GridPoint base) {
  Round out;
  auto here = base;
  const auto walk_to = [&](GridPoint next) {
    out.minutes += between_min_km * earth::grid_distance_m(here, next) / 1000;
    here = next;
  };
  std::vector<std::size_t> left(courses.size());
  std::iota(left.begin(), left.end(), 0U);
  while (!left.empty()) {
    const auto next = std::ranges::min_element(
        left, {}, [&](auto i) { return earth::grid_distance_m(here, courses[i].from); });
    walk_to(courses[*next].from);
    out.minutes += courses[*next].minutes;
    here = courses[*next].to;
    out.order.push_back(*next);
    left.erase(next);
  }
  if (!courses.empty()) walk_to(base);
  return out;
}

Round round_at(const TrainingDay& day, Station station) {
  std::vector<Course> courses;
  switch (station) {
    case Station::bearings:
      for (const auto& b : day.bearings)
        courses.push_back({b.from, b.peg, bearing_min_km * b.length_m / 1000});
      break;
    case Station::features:
      for (const auto& f : day.features)
        courses.push_back({f.from, f.at, feature_min_km * f.length_m / 1000 + feature_min});
      break;
    case Station::forks:
      if (day.forks) {
        courses.push_back({day.forks->line.front(), day.forks->line.back(),
                           fork_min_km * day.forks->length_m / 1000 +
                               fork_min * static_cast<double>(day.forks->forks.size())});
      }
      break;
    case Station::drops:
      for (const auto& d : day.drops) courses.push_back({d.at, d.at, drop_min});
      break;
    case Station::base: {
      const double minutes =
          (day.settings.empty() ? 0 : desk_min) + (day.paces.empty() ? 0 : pace_min);
      return {{}, minutes};
    }
  }
  return round_of(courses, day.from);
}

/// Pairs begin their next station as soon as an instructor is free.
class Plan {
 public:
  Plan(const std::array<std::vector<Station>, pair_count>& orders,
       const std::array<int, 5>& minutes) {
    std::array<int, pair_count> free_at{};
    std::array<std::size_t, pair_count> done{};
    std::array<int, instructor_count> instructor_free{};
    free_at.fill(briefing_min);
    instructor_free.fill(briefing_min);
    const auto left = [&] {
      for (int p = 0; p < pair_count; ++p) {
        if (done[at(p)] < orders[at(p)].size()) return true;
      }
      return false;
    };
    for (int now = briefing_min; left(); now += step_min) {
      for (int p = 0; p < pair_count; ++p) {
        if (free_at[at(p)] > now || done[at(p)] == orders[at(p)].size()) continue;
        const auto station = orders[at(p)][done[at(p)]];
        const int end = now + minutes[static_cast<std::size_t>(station)];
        Slot slot{p, station, now, end, -1};
        if (station != Station::base) {
          const auto free = std::ranges::find_if(instructor_free, [&](int f) { return f <= now; });
          if (free == instructor_free.end()) continue;
          *free = end;
          slot.instructor = static_cast<int>(free - instructor_free.begin());
        }
        free_at[at(p)] = end;
        ++done[at(p)];
        slots.push_back(slot);
        ends = std::max(ends, end);
      }
    }
  }
  std::vector<Slot> slots;
  int ends = briefing_min;

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }
};

}  // namespace

std::string_view station_name(Station station) {
  static constexpr std::string_view names[] = {"base", "bearings", "features", "forks", "drops"};
  return names[static_cast<std::size_t>(station)];
}

const char* station_words(Station station, units::Language l) {
  switch (station) {
    case Station::base:
      return units::in(l, "desk and pace", "Tisch und Schritte");
    case Station::bearings:
      return units::in(l, "open bearing", "Kompasslauf");
    case Station::features:
      return units::in(l, "features", "Merkmale");
    case Station::forks:
      return units::in(l, "forks", "Abzweige");
    case Station::drops:
      return units::in(l, "where are we?", "wo sind wir?");
  }
  return "";
}

std::string hours(int minutes) { return fmt::format("{}:{:02}", minutes / 60, minutes % 60); }

int minutes_at(const TrainingDay& day, Station station) {
  return step_min * static_cast<int>(std::ceil(round_at(day, station).minutes / step_min - 1e-9));
}

Timetable timetable_of(const TrainingDay& day) {
  using enum Station;
  std::array<int, 5> minutes{};
  std::vector<Station> stations;
  for (const auto s : {base, bearings, features, forks, drops}) {
    minutes[static_cast<std::size_t>(s)] = minutes_at(day, s);
    if (s != drops && minutes[static_cast<std::size_t>(s)] > 0) stations.push_back(s);
  }
  std::vector<std::vector<Station>> orders;
  auto order = stations;
  do orders.push_back(order);
  while (std::ranges::next_permutation(order).found);
  Timetable out;
  int shortest = std::numeric_limits<int>::max();
  for (const auto& a : orders) {
    for (const auto& b : orders) {
      for (const auto& c : orders) {
        Plan plan({a, b, c}, minutes);
        if (plan.ends >= shortest) continue;
        shortest = plan.ends;
        out.slots = std::move(plan.slots);
      }
    }
  }
  out.minutes = shortest;
  if (const int last = minutes[static_cast<std::size_t>(drops)]; last > 0) {
    for (int p = 0; p < pair_count; ++p)
      out.slots.push_back({p, drops, out.minutes, out.minutes + last, instructor_count});
    out.minutes += last;
  }
  std::ranges::stable_sort(out.slots, {},
                           [](const auto& s) { return std::tuple(s.begin_min, s.pair); });
  out.bearings = round_at(day, bearings).order;
  out.features = round_at(day, features).order;
  return out;
}

}  // namespace lodeway::learn
