// What are leaders given? Random pairs of fixes on a ground: which names, why not three, how many
// legs and how long, and every leg under a length with its neighbours. Nothing is rehearsed.
//   survey_ways GROUND.gpkg [pairs] [seed] [clear|cloud|snow|night] [novice|practised|expert]
//   [legs under so many metres] [least km apart] [most km apart]
#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/walking/choice.hpp"

namespace {

using namespace lodeway;


std::string told(const reckoning::JudgedLeg& leg) {
  const auto& j = leg.judged;
  return fmt::format("{} {:.0f} m to {} ({:.3f}{}{})",
                     j.needle ? "bearing" : leg.course.followed.name, j.length_m, leg.course.to,
                     j.certainty, j.fix_at_end ? "" : ", no fix", j.after ? ", aimed off" : "");
}

}  // namespace

int main(int argc, char** argv) {
  const auto word = [&](int i, const char* otherwise) {
    return std::string(argc > i ? argv[i] : otherwise);
  };
  if (argc < 2) {
    std::fprintf(stderr, "survey_ways: expected a ground file\n");
    return 2;
  }
  const auto pairs = static_cast<std::size_t>(std::atoi(word(2, "30").c_str()));
  const auto weather = word(4, "cloud"), skill = word(5, "practised");
  const double under_m = std::atof(word(6, "100").c_str());
  const double least_m = 1000 * std::atof(word(7, "3").c_str());
  const double most_m = 1000 * std::atof(word(8, "6").c_str());
  const auto ground = io::open_ground(argv[1]);
  if (!ground) {
    std::fprintf(stderr, "%s\n", ground.error().what.c_str());
    return 2;
  }
  walking::Request request;
  request.party.visibility = weather == "clear"   ? mapdata::Visibility::clear
                             : weather == "snow"  ? mapdata::Visibility::snow
                             : weather == "night" ? mapdata::Visibility::night
                                                  : mapdata::Visibility::cloud;
  request.party.skill = skill == "novice"   ? walking::Skill::novice
                        : skill == "expert" ? walking::Skill::expert
                                            : walking::Skill::practised;
  const route::WayFinder finder(*ground);
  const auto& fixes = *finder.fixes();
  route::Wishes wishes;
  wishes.walkers = 0;
  tasks::Threads threads;
  numeric::Random random(static_cast<std::uint64_t>(std::atoi(word(3, "1").c_str())), 7);
  const auto any = [&] {
    return static_cast<std::uint32_t>(random.uniform() * static_cast<double>(fixes.all().size()));
  };
  std::map<std::size_t, int> named;
  std::map<std::string, int> why;
  std::size_t legs = 0, ways = 0, short_legs = 0, done = 0;
  double way_m = 0;
  // a side of the card holds five legs, and one leg's room is for help
  std::size_t up_to_10_km = 0, on_two_sides = 0;
  for (int draws = 1; done < pairs && draws < 2000;) {
    const auto a = any(), b = any();
    const double apart = earth::grid_distance_m(fixes[a].at, fixes[b].at);
    if (apart <= least_m || apart >= most_m) continue;
    ++draws;
    request.points = {{.name = "start", .at = fixes[a].at}, {.name = "end", .at = fixes[b].at}};
    const auto found = finder.find(request, wishes, threads);
    if (!found) continue;
    ++done;
    ++named[found->ways.size()];
    fmt::print("{} ({:.0f} {:.0f} - {:.0f} {:.0f}, {:.1f} km), front of {}:", done,
               fixes[a].at.east_m, fixes[a].at.north_m, fixes[b].at.east_m, fixes[b].at.north_m,
               apart / 1000, found->front.size());
    for (const auto& way : found->ways) {
      fmt::print(" {} {:.0f} min {:.0f} of 100 {} legs;", walking::choice_name(way.choice),
                 way.expected_min, 100 * way.way.certainty, way.way.legs.size());
    }
    for (const auto& remark : found->remarks) {
      fmt::print(" [{}]", remark);
      ++why[remark];
    }
    fmt::print("\n");
    for (const auto& way : found->ways) {
      ++ways;
      const auto& l = way.way.legs;
      double long_m = 0;
      for (const auto& leg : l) long_m += leg.judged.length_m;
      up_to_10_km += long_m <= 10000 ? 1 : 0;
      on_two_sides += long_m <= 10000 && l.size() <= 9 ? 1 : 0;
      for (std::size_t k = 0; k < l.size(); ++k) {
        ++legs;
        way_m += l[k].judged.length_m;
        if (l[k].judged.length_m >= under_m) continue;
        ++short_legs;
        fmt::print("    {} leg {} of {}: {} | SHORT {} | {}\n",
                   walking::choice_name(way.choice), k + 1, l.size(),
                   k == 0 ? "start" : told(l[k - 1]), told(l[k]),
                   k + 1 == l.size() ? "end" : told(l[k + 1]));
      }
    }
  }
  fmt::print("\n{}: {} pairs: three ways {}, two {}, one {}\n", argv[1], done, named[3], named[2],
             named[1]);
  fmt::print("{} ways, {:.1f} legs each, {:.2f} km a leg, {} legs under {:.0f} m\n", ways,
             static_cast<double>(legs) / static_cast<double>(ways),
             way_m / 1000 / static_cast<double>(legs), short_legs, under_m);
  fmt::print("{} of {} ways of at most 10 km have at most 9 legs\n", on_two_sides, up_to_10_km);
  for (const auto& [remark, count] : why) fmt::print("- {} x {}\n", count, remark);
  return 0;
}
