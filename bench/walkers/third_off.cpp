/// third_off GROUND.gpkg TRIP.toml [GROUND.gpkg TRIP.toml]...: each figure that nobody has measured
/// a third less and a third more, and what that does to the certainty of a trip's way and to which
/// way is picked. Chances and settings are moved in what fails: 3/4 and 4/3 of it.
#include <algorithm>
#include <cstdio>
#include <functional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/sight/chances.hpp"
#include "lodeway/tasks/ways.hpp"
#include "lodeway/walking/ground_area.hpp"

using namespace lodeway;

namespace {
using Change = std::function<void(walking::Party&, double times)>;
struct Figure {
  const char* name;
  Change change;
};

/// All of one chance, for the party's own skill, with `times` as many failing.
void failing(walking::Party& party, walking::ChanceOf of, double times) {
  const sight::Chances as_it_is(party.chances), moved = as_it_is.with_failing(times);
  for (int k = 0; k < walking::kind_class_count; ++k) {
    const auto kind = static_cast<walking::KindClass>(k);
    walking::ChanceChange change{of, kind, {}};
    for (int v = 0; v < mapdata::visibility_count; ++v)
      change.value[static_cast<std::size_t>(v)] =
          moved.of(of, kind, static_cast<mapdata::Visibility>(v), party.skill).value;
    party.chances.chances.push_back(change);
  }
}

void failing(walking::Party& party, walking::Setting setting, double times) {
  const auto moved = sight::Chances(party.chances).with_failing(times).of(setting, party.skill);
  party.chances.settings.push_back({setting, moved.value});
}

/// An error of the party's dead reckoning; `of` picks it from what holds now, `to` sets it.
template <class Of, class To>
Change error(Of of, To to) {
  return [of, to](walking::Party& party, double times) {
    to(party.errors, times * of(reckoning::errors_of(party)));
  };
}

std::vector<Figure> figures() {
  using walking::ChanceOf, walking::Setting, reckoning::Errors, walking::ErrorOverrides;
  constexpr double degrees = 57.29577951308232;
  const auto chance = [](ChanceOf of) {
    return [of](walking::Party& p, double times) { failing(p, of, times); };
  };
  const auto setting = [](Setting s) {
    return [s](walking::Party& p, double times) { failing(p, s, times); };
  };
  const auto all = [](walking::Party& p, double times) {
    for (int of = 0; of < walking::chance_count; ++of) failing(p, static_cast<ChanceOf>(of), times);
    for (int s = 0; s < walking::setting_count; ++s) failing(p, static_cast<Setting>(s), times);
  };
  return {
      {"all chances and settings", all},
      {"a line met is noticed", chance(ChanceOf::notice)},
      {"a line followed is kept", chance(ChanceOf::stay)},
      {"the right branch", chance(ChanceOf::branch)},
      {"an end is known", chance(ChanceOf::know)},
      {"search at the end", setting(Setting::search_at_end)},
      {"attention at forks", setting(Setting::fork_attention)},
      {"gross errors", setting(Setting::gross_error)},
      {"bearing, each leg", error([](const Errors& e) { return e.bearing_sigma * degrees; },
                                  [](ErrorOverrides& o, double v) { o.bearing_sigma_deg = v; })},
      {"bearing, each sighting",
       error([](const Errors& e) { return e.sighting_sigma * degrees; },
             [](ErrorOverrides& o, double v) { o.sighting_sigma_deg = v; })},
      {"compass, all day", error([](const Errors& e) { return e.compass_sigma * degrees; },
                                 [](ErrorOverrides& o, double v) { o.compass_sigma_deg = v; })},
      {"stride, all day", error([](const Errors& e) { return e.stride_sigma; },
                                [](ErrorOverrides& o, double v) { o.stride_sigma = v; })},
      {"length of a sighting", error([](const Errors& e) { return e.sighting_every_m; },
                                     [](ErrorOverrides& o, double v) { o.sighting_every_m = v; })},
      {"pace on the flat", [](walking::Party& p, double times) { p.flat_speed_kmh *= times; }},
  };
}

struct Seen {
  double told = 0, worked_out = 0, walked = 0, minutes = 0;
  std::string verdict;
  std::vector<earth::GridPoint> ends;
};

Seen seen(const tasks::PlannedWays& ways) {
  const auto& picked = ways.ways[ways.picked];
  Seen out{100 * picked.plan.way.certainty,
           100 * picked.averaged,
           100 * picked.walked_kept().value_or(0),
           picked.plan.minutes,
           std::string(trip::band_name(picked.plan.verdict.band)),
           {}};
  for (const auto& leg : picked.outcome.way.legs) out.ends.push_back(leg.course.line.back());
  return out;
}

/// How many ends of legs of `a` are none of `b`.
std::size_t other_ends(const Seen& a, const Seen& b) {
  return static_cast<std::size_t>(std::ranges::count_if(a.ends, [&](earth::GridPoint p) {
    return std::ranges::none_of(
        b.ends, [&](earth::GridPoint q) { return earth::grid_distance_m(p, q) < 20; });
  }));
}

int of_trip(const char* ground_file, const char* trip_file) {
  const auto ground = io::open_ground(ground_file);
  if (!ground) return fmt::print(stderr, "{}\n", ground.error().what), 2;
  const auto called = [&](const std::string& name) { return io::points_called(ground_file, name); };
  const auto trip = io::read_trip(trip_file, walking::area_of(*ground), called);
  if (!trip) return fmt::print(stderr, "{}\n", trip.error().what), 2;
  const route::WayFinder finder(*ground);
  const auto plan = [&](const Change& change, double times) -> std::optional<Seen> {
    auto changed = *trip;
    if (change) change(changed.request.party, times);
    const auto ways = tasks::plan_ways(*ground, finder, changed);
    if (!ways) {
      fmt::print(stderr, "{}\n", ways.error().what);
      return std::nullopt;
    }
    return seen(*ways);
  };
  const auto base = plan({}, 1);
  if (!base) return 2;
  fmt::print(
      "\n{}: {:.0f} worked out, {:.0f} walked, {:.0f} min, {}, {} legs\n\n| a third off | worked "
      "out, less / more | walked, less / more | minutes, less / more | ends of legs elsewhere, "
      "less / more |\n|---|---|---|---|---|\n",
      trip_file, base->worked_out, base->walked, base->minutes, base->verdict, base->ends.size());
  for (const auto& figure : figures()) {
    const auto less = plan(figure.change, 0.75), more = plan(figure.change, 4.0 / 3);
    if (!less || !more) {
      fmt::print("| {} | no way |\n", figure.name);
      continue;
    }
    fmt::print(
        "| {} | {:+.0f} / {:+.0f} | {:+.0f} / {:+.0f} | {:+.0f} / {:+.0f} | {} of {} / {} of {} "
        "|\n",
        figure.name, less->worked_out - base->worked_out, more->worked_out - base->worked_out,
        less->walked - base->walked, more->walked - base->walked, less->minutes - base->minutes,
        more->minutes - base->minutes, other_ends(*less, *base), less->ends.size(),
        other_ends(*more, *base), more->ends.size());
    std::fflush(stdout);
  }
  return 0;
}
}  // namespace

int main(int argc, char** argv) {
  if (argc < 3 || argc % 2 == 0) {
    fmt::print(stderr, "third_off: expected GROUND.gpkg TRIP.toml, once or more\n");
    return 2;
  }
  for (int k = 1; k + 1 < argc; k += 2) {
    if (const int rc = of_trip(argv[k], argv[k + 1]); rc != 0) return rc;
  }
  return 0;
}
