/// walk_ways WAYS PARTIES GROUND.gpkg...: the quick way between random pairs of fixes 3 to 6 km
/// apart: how many keep every leg by the closed forms, and by parties that really walk.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

#include <fmt/format.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/numeric/statistics.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/walkers/detail/ready.hpp"
#include "lodeway/walkers/walked.hpp"
#include "reckoning/real_legs.hpp"

using namespace lodeway;

namespace {
struct Sum {
  int ways = 0, within = 0;
  double predicted = 0, kept = 0, home = 0, worst = 0;
};

/// One leg: what was worked out, who kept it of all and of those who stood where it begins, and
/// what went wrong first.
void each_leg(const reckoning::Guides& guides, const walkers::detail::ReadyLeg& ready,
              const walkers::CardLeg& leg, const walkers::WalkedLeg& w,
              const walkers::CardLeg* before) {
  const auto of = [](std::size_t n, std::size_t all) {
    return static_cast<double>(n) / static_cast<double>(std::max<std::size_t>(all, 1));
  };
  fmt::print("\n    {} {:.0f} m: {:.3f} kept {:.3f} on course {:.3f} of {}; began {}, end {}:",
             reckoning::real::kind_of(leg.model.end), leg.model.length_m, leg.predicted,
             of(w.kept, w.set_out), of(w.kept_on_course, w.on_course), w.on_course, w.set_out,
             w.in_the_end);
  if (const auto* end = std::get_if<reckoning::ByHandrail>(&leg.model.end)) {
    const double known = end->mark ? end->mark->recognised : 0,
                 seen_m = end->mark ? end->mark->seen_from_m : 0;
    fmt::print(" (keeps {:.3f}, known {:.3f}{})", end->keeps, known,
               end->goes_on ? "" : ", ends there");
    const auto& to = leg.leg.course.line.back();
    std::optional<earth::GridPoint> came_by;
    if (before != nullptr && before->leg.course.kind == walking::LegKind::along)
      came_by = reckoning::arm_come_by(before->leg.course.line);
    fmt::print(" ({} to {:.0f} {:.0f}; forks worked out", mapdata::kind_name(leg.leg.course.followed.kind),
               to.east_m, to.north_m);
    for (const auto& f : reckoning::forks_on(guides, leg.leg.course.line,
                                             leg.leg.course.followed.kind, seen_m, known, came_by))
      fmt::print(" {:.0f}: {:.2f}/{:.2f}", f.at_m, f.fork.arms, f.fork.onward);
    fmt::print("; walked");
    for (const auto& f : ready.forks)
      fmt::print(" {:.0f}: {:.2f}/{:.2f}", f.at_m, f.arms_weight, f.onward);
    fmt::print("{})", ready.past_end ? "; goes on" : "");
  }
  for (std::size_t k = 0; k < walkers::wrong_count; ++k)
    if (w.wrong[k] > 0)
      fmt::print(" {} {},", walkers::wrong_words(static_cast<walkers::Wrong>(k)), w.wrong[k]);
}
}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) {
    fmt::print(stderr, "walk_ways: expected WAYS PARTIES GROUND.gpkg...\n");
    return 2;
  }
  constexpr const char* airs[] = {"clear", "cloud", "night", "snow"};
  constexpr const char* skills[] = {"novice", "practised", "expert"};
  for (int g = 3; g < argc; ++g) {
    const auto ground = io::open_ground(argv[g]);
    if (!ground) {
      fmt::print(stderr, "{}\n", ground.error().what);
      return 2;
    }
    const route::WayFinder finder(*ground);
    const auto fixes = finder.fixes();
    numeric::Random random(1, 7);
    tasks::Threads threads;
    std::map<std::string, Sum> sums;
    const auto any = [&] {
      return (*fixes)[static_cast<std::uint32_t>(random.uniform() *
                                                 static_cast<double>(fixes->all().size()))]
          .at;
    };
    int done = 0;
    for (int tries = 0; tries < 20 * std::atoi(argv[1]) && done < std::atoi(argv[1]); ++tries) {
      const auto a = any(), b = any();
      const double apart = earth::grid_distance_m(a, b);
      if (apart < 3000 || apart > 6000) continue;
      walking::Request request;
      request.points = {{.name = "a", .at = a}, {.name = "b", .at = b}};
      request.party.visibility =
          done % 2 == 0 ? mapdata::Visibility::clear : mapdata::Visibility::cloud;
      request.party.skill = done / 2 % 2 == 0 ? walking::Skill::practised : walking::Skill::novice;
      route::Wishes wishes;
      wishes.walkers = 0;
      const auto found = finder.find(request, wishes, threads);
      if (!found) continue;
      const auto way = plain(found->ways.front().way);
      numeric::Serial serial;
      const auto planes =
          sight::cue_planes(found->on->ground(), found->on->cover(), std::nullopt, threads);
      const walkers::World world(found->on->ground(), found->on->cover(), found->on->judge(),
                                 planes);
      walkers::WalkRequest walk;
      walk.parties = static_cast<std::size_t>(std::atoi(argv[2]));
      walk.trodden = false;
      walk.manner = walkers::manner_of(request.party.skill);
      const auto card = walkers::card_of(found->on->judge(), way);
      const auto walked = walkers::walk(world, card, walk, threads);
      if (!walked) continue;
      ++done;
      const double predicted = found->ways.front().way.certainty,
                   kept = static_cast<double>(walked->kept_all) /
                          static_cast<double>(walked->walked);
      const double error = numeric::share_error(walked->kept_all, walked->walked);
      double stay = 0;
      for (int s = 0; s < static_cast<int>(walkers::state_count); ++s)
        if (walkers::is_home(static_cast<walkers::State>(s)))
          stay += static_cast<double>(walked->ended[static_cast<std::size_t>(s)]);
      if (std::getenv("EACH") != nullptr) {
        fmt::print("{} legs {} {}: predicted {:.3f} walked {:.3f}", way.legs.size(),
                   skills[static_cast<int>(request.party.skill)],
                   airs[static_cast<int>(request.party.visibility)], predicted, kept);
        const auto ready = walkers::detail::make_ready(world, card);
        for (std::size_t l = 0; l < walked->legs.size(); ++l)
          each_leg(found->on->judge().guides(), ready.legs[l], card.legs[l], walked->legs[l],
                   l > 0 ? &card.legs[l - 1] : nullptr);
        fmt::print("\n");
      }
      for (const auto& name :
           {std::string("all"), fmt::format("{}, {}", skills[static_cast<int>(request.party.skill)],
                                            airs[static_cast<int>(request.party.visibility)])}) {
        Sum& sum = sums[name];
        ++sum.ways;
        sum.predicted += predicted;
        sum.kept += kept;
        sum.home += stay / static_cast<double>(walked->walked);
        sum.within += std::abs(kept - predicted) <= std::max(3 * error, 0.03);
        if (std::abs(kept - predicted) > std::abs(sum.worst)) sum.worst = kept - predicted;
      }
    }
    fmt::print("\n{}\n\n| party | ways | predicted | kept | apart | within 3 errors or 3 points | "
               "worst | home by themselves |\n|---|---|---|---|---|---|---|---|\n",
               argv[g]);
    for (const auto& [name, s] : sums) {
      const double n = std::max(s.ways, 1);
      fmt::print("| {} | {} | {:.1f} | {:.1f} | {:+.1f} | {} | {:+.0f} | {:.1f} |\n", name, s.ways,
                 100 * s.predicted / n, 100 * s.kept / n, 100 * (s.kept - s.predicted) / n,
                 s.within, 100 * s.worst, 100 * s.home / n);
    }
  }
  return 0;
}
