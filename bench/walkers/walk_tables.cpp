/// walk_tables legs|third LEGS PARTIES GROUND.gpkg...: the tables of docs/results.md about parties
/// that really walk. `legs`: random legs of every kind, the closed form against the walkers, by how
/// the end is found. `third`: each figure of manner.hpp and each table a third off, and what that
/// does to those who keep their leg.
#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <map>

#include <fmt/format.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/numeric/statistics.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/walkers/walked.hpp"
#include "reckoning/real_legs.hpp"

using namespace lodeway;
using namespace lodeway::walkers;
using reckoning::real::kind_of;

namespace {
constexpr const char* airs[] = {"clear", "cloud"};
constexpr const char* skills[] = {"novice", "practised", "expert"};

struct Row {
  int legs = 0, within = 0;
  double predicted = 0, kept = 0, in_the_end = 0, worst = 0;
  void add(double p, double k, double end, double error) {
    ++legs;
    predicted += p;
    kept += k;
    in_the_end += end;
    within += std::abs(k - p) <= std::max(3 * error, 0.03);
    if (std::abs(k - p) > std::abs(worst)) worst = k - p;
  }
  void print(const std::string& name) const {
    const double n = std::max(legs, 1);
    fmt::print("| {} | {} | {:.1f} | {:.1f} | {:+.1f} | {:.1f} | {} | {:+.0f} |\n", name, legs,
               100 * predicted / n, 100 * kept / n, 100 * (kept - predicted) / n,
               100 * in_the_end / n, within, 100 * worst);
  }
};

struct OneGround {
  const walking::Ground& ground;
  std::shared_ptr<const landmarks::Fixes> fixes;
  walking::Request wish;
  walking::Cover cover;
  sight::CuePlanes planes;
  std::shared_ptr<const reckoning::HazardGround> hazards;
  tasks::Threads threads;

  explicit OneGround(const walking::Ground& g)
      : ground(g),
        fixes(std::make_shared<const landmarks::Fixes>(g.elevation, g.map, g.kinds)),
        cover(g, wish),
        hazards(std::make_shared<const reckoning::HazardGround>(reckoning::forbidden_of(cover))) {
    planes = sight::cue_planes(g, cover, std::nullopt, threads);
  }
};

/// The table of chances otherwise than it stands.
struct Otherwise {
  sight::Changes chances;
  double failing = 1;
};

/// No way has a leg on a bearing over what bars the party, but for what it ends at.
bool open(const walking::Cover& cover, const walking::Way& way) {
  constexpr double at_end_m = 20;
  return std::ranges::all_of(way.legs, [&](const walking::Leg& leg) {
    if (leg.course.kind == walking::LegKind::along) return true;
    const auto a = leg.course.line.front(), b = leg.course.line.back();
    const double length = earth::grid_distance_m(a, b);
    return length <= at_end_m || cover.clear(a, b + (at_end_m / length) * (a - b));
  });
}

/// Every leg of a kind the same draws for each party of walkers.
template <class Use>
void each_leg(OneGround& on, int legs, std::size_t parties, const Otherwise& otherwise,
              const std::function<void(WalkRequest&)>& change, Use&& use) {
  reckoning::real::Drawer drawer(on.ground, *on.fixes, 11);
  for (int k = 0; k < legs; ++k) {
    walking::Party party;
    party.visibility = k / 5 % 2 == 0 ? mapdata::Visibility::clear : mapdata::Visibility::cloud;
    party.skill = static_cast<walking::Skill>(k / 10 % 2);
    party.chances = otherwise.chances;
    std::optional<reckoning::real::Drawn> drawn;
    for (int tries = 0; tries < 60 && !drawn; ++tries) {
      drawn = drawer.draw(k % 5, party);
      if (drawn && !open(on.cover, drawn->way)) drawn.reset();
    }
    if (!drawn) continue;
    const reckoning::Judge judge(on.ground, party, 0.4, {}, on.hazards, on.fixes);
    const World world(on.ground, on.cover, judge, on.planes, otherwise.failing);
    const Card card = card_of(judge, drawn->way);
    WalkRequest request;
    request.parties = parties;
    request.trodden = false;
    request.manner = manner_of(party.skill);
    change(request);
    const auto walked = *walk(world, card, request, on.threads);
    for (std::size_t l = 0; l < card.legs.size(); ++l) use(judge, card.legs[l], walked.legs[l]);
  }
}

void compare(OneGround& on, int legs, std::size_t parties) {
  std::map<std::string, Row> rows, by_party;
  each_leg(
      on, legs, parties, {}, [](WalkRequest&) {},
      [&](const reckoning::Judge& judge, const CardLeg& leg, const WalkedLeg& w) {
        const walking::Party& party = judge.party();
        if (std::holds_alternative<reckoning::AtTurn>(leg.model.end)) return;
        if (w.on_course < 200) return;
        const auto n = static_cast<double>(w.on_course);
        const double kept = static_cast<double>(w.kept_on_course) / n;
        const double end = static_cast<double>(w.in_the_end) / static_cast<double>(w.set_out);
        const double error = numeric::share_error(w.kept_on_course, w.on_course);
        rows[kind_of(leg.model.end)].add(leg.predicted, kept, end, error);
        by_party[fmt::format("{}, {}", skills[static_cast<std::size_t>(party.skill)],
                             airs[static_cast<std::size_t>(party.visibility)])]
            .add(leg.predicted, kept, end, error);
        if (std::getenv("EACH") != nullptr) {
          fmt::print(
              "{} {:.0f} m {} {} predicted {:.3f} kept {:.3f} end {:.3f}:", kind_of(leg.model.end),
              leg.model.length_m, skills[static_cast<std::size_t>(party.skill)],
              airs[static_cast<std::size_t>(party.visibility)], leg.predicted, kept, end);
          fmt::print(" ({:.0f} {:.0f} to {:.0f} {:.0f}, goes {:.0f} m beyond, sigmas {:.0f} {:.0f} m",
                     leg.model.from.east_m, leg.model.from.north_m, leg.model.to.east_m,
                     leg.model.to.north_m, reckoning::beyond_m(leg.model.end),
                     leg.model.spread.cross_sigma_m, leg.model.spread.along_sigma_m);
          if (const auto* met = std::get_if<reckoning::AtLine>(&leg.model.end)) {
            const auto& line = judge.guides().line(met->place.line);
            fmt::print(", {} of {:.0f} m at {:.0f} m, within {:.0f} m, aimed off {:.0f} m, not met "
                       "before {:.0f} m",
                       mapdata::kind_name(line.label.kind), mapdata::length_m(line.points),
                       met->place.along_m, met->window_m, met->offset_m, met->place.leaving_m);
          }
          if (const auto* mark = reckoning::mark_of(leg.model.end))
            fmt::print(", {}, seen from {:.0f} m",
                       mapdata::kind_name(judge.guides().fixes()[mark->fix].kind),
                       mark->seen_from_m);
          fmt::print(")");
          for (const auto& d : leg.model.decoys)
            fmt::print(" like it {:.0f} m before: {:.2f},", leg.model.length_m - d.along_m,
                       d.probability);
          for (std::size_t k = 0; k < wrong_count; ++k)
            if (w.wrong[k] > 0)
              fmt::print(" {} {}", wrong_words(static_cast<Wrong>(k)), w.wrong[k]);
          fmt::print("\n");
        }
      });
  fmt::print(
      "\n| end, or party | legs | predicted | kept | apart | in the end | within 3 errors or 3 "
      "points | worst |\n|---|---|---|---|---|---|---|---|\n");
  for (const auto& [name, row] : rows) row.print(name);
  for (const auto& [name, row] : by_party) row.print(name);
}

void a_third_off(OneGround& on, int legs, std::size_t parties) {
  const auto mean = [&](const Otherwise& chances,
                        const std::function<void(WalkRequest&)>& change) {
    double kept = 0, end = 0, n = 0;
    each_leg(on, legs, parties, chances, change,
             [&](const reckoning::Judge&, const CardLeg&, const WalkedLeg& w) {
               kept += static_cast<double>(w.kept);
               end += static_cast<double>(w.in_the_end);
               n += static_cast<double>(w.set_out);
             });
    return std::pair{100 * kept / n, 100 * end / n};
  };
  const auto none = [](WalkRequest&) {};
  const auto base = mean({}, none);
  fmt::print(
      "\nas it is: kept {:.1f}, in the end {:.1f}\n\n| a third off | kept, less / more | in "
      "the end, less / more |\n|---|---|---|\n",
      base.first, base.second);
  const auto row = [&](const char* name, auto less, auto more) {
    fmt::print("| {} | {:+.1f} / {:+.1f} | {:+.1f} / {:+.1f} |\n", name, less.first - base.first,
               more.first - base.first, less.second - base.second, more.second - base.second);
  };
  const auto scaled = [&](const char* name, auto pick) {
    row(name, mean({}, [&](WalkRequest& r) { pick(r) *= 2.0 / 3; }),
        mean({}, [&](WalkRequest& r) { pick(r) *= 4.0 / 3; }));
  };
  row("all four chances and the three settings (of failing)",
      mean({{}, 0.75}, none),
      mean({{}, 4.0 / 3}, none));
  const auto setting = [&](const char* name, sight::Setting s, double novice_less, double more) {
    sight::Changes a, b;
    a.settings = {{s, novice_less}};
    b.settings = {{s, more}};
    row(name, mean({a}, none), mean({b}, none));
  };
  setting("search at the end, 0.4 / 0.8 for all", sight::Setting::search_at_end, 0.4, 0.8);
  setting("fork attention, 0.8 / 0.98 for all", sight::Setting::fork_attention, 0.8, 0.98);
  setting("gross error, 0.02 / 0.06 for all", sight::Setting::gross_error, 0.02, 0.06);
  scaled("owns up", [](WalkRequest& r) -> double& { return r.manner.owns_up; });
  scaled("own odds of knowing", [](WalkRequest& r) -> double& { return r.manner.know_log_sd; });
  scaled("share that is enough", [](WalkRequest& r) -> double& { return r.manner.enough_share; });
  scaled("noise of what is told", [](WalkRequest& r) -> double& { return r.truth.noise; });
  scaled("map error", [](WalkRequest& r) -> double& { return r.truth.map_noise; });
  scaled("nonsense", [](WalkRequest& r) -> double& { return r.truth.nonsense; });
  scaled("hidden height error", [](WalkRequest& r) -> double& { return r.truth.height_sd_m; });
  scaled("sight of the day", [](WalkRequest& r) -> double& { return r.truth.sight_log_sd; });
}
}  // namespace

int main(int argc, char** argv) {
  if (argc < 5) {
    fmt::print(stderr, "walk_tables: expected legs|third LEGS PARTIES GROUND.gpkg...\n");
    return 2;
  }
  for (int g = 4; g < argc; ++g) {
    const auto ground = io::open_ground(argv[g]);
    if (!ground) {
      fmt::print(stderr, "{}\n", ground.error().what);
      return 2;
    }
    fmt::print("\n{}\n", argv[g]);
    OneGround on(*ground);
    if (std::strcmp(argv[1], "legs") == 0)
      compare(on, std::atoi(argv[2]), static_cast<std::size_t>(std::atoi(argv[3])));
    else
      a_third_off(on, std::atoi(argv[2]), static_cast<std::size_t>(std::atoi(argv[3])));
  }
  return 0;
}
