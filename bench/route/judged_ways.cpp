// Are the ways chosen better kept than the least-time way? Random pairs of fixes on a ground, each
// planned by least time and by the front, all rehearsed with the same seed; prints tables for
// docs/results.md, where the call is.
//   judged_ways GROUND.gpkg [pairs] [seed] [walkers] [clear|cloud|snow|night]
//   [novice|practised|expert] [only the draw of this number]
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/numeric/statistics.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/reckoning/judge/teller.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/threads.hpp"

namespace {

using namespace lodeway;

struct Asked {
  std::size_t pairs = 30, walkers = 10000;
  std::uint64_t seed = 1;
  walking::Party party;
};

/// A way as walked in rehearsal.
struct Walked {
  double minutes = 0,
         half_need = 0;  ///< walking; what half of the rehearsed parties need, retries in it
  double predicted = 0, rehearsed = 0, hazard = 0;
  std::size_t legs = 0;
};

struct Row {
  std::string from, to;
  double straight_km = 0;
  Walked least_time;
  std::map<walking::Choice, Walked> chosen;
  std::vector<std::string> remarks;
};

Walked walked(const walking::Ground& ground, const reckoning::Judge& judge, const walking::Way& way,
              const Asked& asked) {
  tasks::Threads threads;
  Walked w;
  const auto judged = reckoning::Teller(judge).judged(way);
  w.predicted = judged.certainty;
  for (const auto& leg : judged.legs) w.minutes += leg.judged.minutes;
  w.legs = way.legs.size();
  const auto r = reckoning::rehearse(ground, judge, way, {asked.walkers, asked.seed}, threads);
  if (!r) {
    std::fprintf(stderr, "%s\n", r.error().what.c_str());
    return w;
  }
  w.rehearsed = r->certainty;
  w.hazard = r->hazard_share;
  w.half_need = r->minutes_50;
  // Which leg is it, where the two are far apart?
  for (std::size_t k = 0; std::abs(w.rehearsed - w.predicted) > 0.03 && k < way.legs.size(); ++k) {
    const auto& leg = judged.legs[k];
    const auto& of = r->legs[k];
    std::fprintf(stderr,
                 "\n  leg %zu %s %s to %s, %.0f m, %s: predicted %.3f rehearsed %.3f of %zu", k + 1,
                 leg.judged.needle ? "bearing" : leg.course.followed.name.c_str(),
                 leg.course.from.c_str(), leg.course.to.c_str(), leg.judged.length_m,
                 leg.judged.after ? "aimed off" : "", leg.judged.certainty, of.certainty, of.walkers);
    for (std::size_t l = 0; l < of.lost.size(); ++l)
      if (of.lost[l] > 0)
        std::fprintf(stderr, ", %zu %s", of.lost[l],
                     std::string(reckoning::loss_words(static_cast<reckoning::Loss>(l))).c_str());
  }
  return w;
}

std::string percent(double p) { return fmt::format("{:.1f}", 100 * p); }

void print_table(const std::vector<Row>& rows) {
  fmt::print(
      "| from – to | km | least time: min, legs, kept | quick: min, kept | middle: min, legs, "
      "kept (predicted) | sure: min, legs, kept (predicted) |\n|---|---|---|---|---|---|\n");
  for (const auto& r : rows) {
    const auto cell = [&](walking::Choice c, bool all) -> std::string {
      const auto w = r.chosen.find(c);
      if (w == r.chosen.end()) return "–";
      const auto& x = w->second;
      return all ? fmt::format("{:.0f}, {}, {} ({})", x.minutes, x.legs, percent(x.rehearsed),
                               percent(x.predicted))
                 : fmt::format("{:.0f}, {}", x.minutes, percent(x.rehearsed));
    };
    fmt::print("| {} – {} | {:.1f} | {:.0f}, {}, {} | {} | {} | {} |\n", r.from, r.to,
               r.straight_km, r.least_time.minutes, r.least_time.legs,
               percent(r.least_time.rehearsed), cell(walking::Choice::quick, false),
               cell(walking::Choice::middle, true), cell(walking::Choice::sure, true));
  }
}

double median(std::vector<double> v) {
  if (v.empty()) return NAN;
  std::ranges::sort(v);
  return numeric::sorted_quantile(v, 0.5);
}

void print_summary(const std::vector<Row>& rows) {
  fmt::print(
      "\n| against least time | ways | kept, median | least time's, median | gain in points: "
      "median, least, most | walking time: median, most | half of the parties need: median |\n"
      "|---|---|---|---|---|---|---|\n");
  for (const auto& [choice, name] : {std::pair{walking::Choice::quick, "quick"},
                                     std::pair{walking::Choice::middle, "middle"},
                                     std::pair{walking::Choice::sure, "sure"}}) {
    std::vector<double> kept, before, gain, longer, half;
    for (const auto& r : rows) {
      const auto w = r.chosen.find(choice);
      if (w == r.chosen.end()) continue;
      kept.push_back(w->second.rehearsed);
      before.push_back(r.least_time.rehearsed);
      gain.push_back(w->second.rehearsed - r.least_time.rehearsed);
      longer.push_back(w->second.minutes / r.least_time.minutes - 1);
      half.push_back(w->second.half_need / r.least_time.half_need - 1);
    }
    if (kept.empty()) continue;
    fmt::print("| {} | {} | {} | {} | {}, {}, {} | {:+.0f} %, {:+.0f} % | {:+.0f} % |\n", name,
               kept.size(), percent(median(kept)), percent(median(before)), percent(median(gain)),
               percent(*std::ranges::min_element(gain)), percent(*std::ranges::max_element(gain)),
               100 * median(longer), 100 * *std::ranges::max_element(longer), 100 * median(half));
  }
  std::size_t ways = 0, within = 0;
  double worst = 0, sum = 0;
  fmt::print(
      "\nPredicted against rehearsed, in points (rehearsed less predicted), over 3 apart:\n");
  for (const auto& r : rows) {
    for (const auto& [choice, w] : r.chosen) {
      const double off = w.rehearsed - w.predicted;
      ++ways;
      within += std::abs(off) <= 0.03;
      worst = std::abs(off) > std::abs(worst) ? off : worst;
      sum += off;
      if (std::abs(off) > 0.03) {
        fmt::print("- {} – {}, {}: {:+.1f} ({} predicted, {} rehearsed, {} legs)\n", r.from, r.to,
                   static_cast<int>(choice), 100 * off, percent(w.predicted), percent(w.rehearsed),
                   w.legs);
      }
    }
  }
  fmt::print("\n{} of {} ways within 3 points; mean {:+.2f}, worst {:+.1f}.\n", within, ways,
             100 * sum / static_cast<double>(std::max<std::size_t>(ways, 1)), 100 * worst);
  std::map<std::string, int> why;
  for (const auto& r : rows) {
    for (const auto& remark : r.remarks) ++why[remark];
  }
  fmt::print("\nRemarks:\n");
  for (const auto& [remark, count] : why) fmt::print("- {} x {}\n", count, remark);
}

/// Two fixes 3 to 6 km apart; `r` goes on where it is.
std::pair<std::uint32_t, std::uint32_t> draw(numeric::Random& r, const landmarks::Fixes& fixes) {
  const auto any = [&] {
    return static_cast<std::uint32_t>(r.uniform() * static_cast<double>(fixes.all().size()));
  };
  for (;;) {
    const auto a = any(), b = any();
    const double apart = earth::grid_distance_m(fixes[a].at, fixes[b].at);
    if (apart > 3000 && apart < 6000) return {a, b};
  }
}

std::optional<Row> judged(const walking::Ground& ground, const route::WayFinder& finder,
                          const landmarks::Fixes& fixes,
                          std::pair<std::uint32_t, std::uint32_t> pair, const Asked& asked) {
  Row row;
  const auto name = [&](std::uint32_t f) {
    return fmt::format("{} {:.0f} {:.0f}", landmarks::words(fixes[f], units::Language::english),
                       fixes[f].at.east_m, fixes[f].at.north_m);
  };
  row.from = name(pair.first);
  row.to = name(pair.second);
  row.straight_km = earth::grid_distance_m(fixes[pair.first].at, fixes[pair.second].at) / 1000;
  walking::Request request;
  request.party = asked.party;
  request.points = {{.name = row.from, .at = fixes[pair.first].at},
                    {.name = row.to, .at = fixes[pair.second].at}};
  auto least = route::plan_way(ground, request, units::Language::english);
  if (!least) return std::nullopt;  // in water, or nothing leads there: not a trip
  tasks::Threads threads;
  const route::Wishes wishes;
  auto ways = finder.find(request, wishes, threads);
  if (!ways) {
    std::fprintf(stderr, "%s - %s: %s\n", row.from.c_str(), row.to.c_str(),
                 ways.error().what.c_str());
    return std::nullopt;
  }
  const reckoning::Judge judge(ground, request.party,
                               reckoning::forbidden_of(walking::Cover(ground, request)),
                               wishes.declination_sigma_deg);
  row.least_time = walked(ground, judge, *std::move(least), asked);
  for (auto& way : ways->ways)
    row.chosen[way.choice] = walked(ground, judge, reckoning::plain(way.way), asked);
  row.remarks = std::move(ways->remarks);
  return row;
}

}  // namespace

int main(int argc, char** argv) {
  const auto word = [&](int i, const char* otherwise) {
    return std::string(argc > i ? argv[i] : otherwise);
  };
  if (argc < 2) {
    std::fprintf(stderr, "judged_ways: expected a ground file\n");
    return 2;
  }
  Asked asked;
  asked.pairs = static_cast<std::size_t>(std::atoi(word(2, "30").c_str()));
  asked.seed = static_cast<std::uint64_t>(std::atoi(word(3, "1").c_str()));
  asked.walkers = static_cast<std::size_t>(std::atoi(word(4, "10000").c_str()));
  const auto weather = word(5, "cloud"), skill = word(6, "practised");
  asked.party.visibility = weather == "clear"   ? mapdata::Visibility::clear
                           : weather == "snow"  ? mapdata::Visibility::snow
                           : weather == "night" ? mapdata::Visibility::night
                                                : mapdata::Visibility::cloud;
  asked.party.skill = skill == "novice"   ? walking::Skill::novice
                      : skill == "expert" ? walking::Skill::expert
                                          : walking::Skill::practised;
  const auto ground = io::open_ground(argv[1]);
  if (!ground) {
    std::fprintf(stderr, "%s\n", ground.error().what.c_str());
    return 2;
  }
  const route::WayFinder finder(*ground);
  const landmarks::Fixes fixes(ground->elevation, ground->map, ground->kinds);
  numeric::Random random(asked.seed, 7);
  std::vector<Row> rows;
  const int only = std::atoi(word(7, "0").c_str());
  for (int tried = 0; rows.size() < asked.pairs && tried < 1000; ++tried) {
    if (only > 0) {  // as the n-th of all that were drawn
      const auto pair = draw(random, fixes);
      if (tried + 1 != only) continue;
      if (auto row = judged(*ground, finder, fixes, pair, asked)) rows.push_back(*std::move(row));
      break;
    }
    if (auto row = judged(*ground, finder, fixes, draw(random, fixes), asked)) {
      rows.push_back(*std::move(row));
      std::fprintf(stderr, "\r%zu of %zu (draw %d)", rows.size(), asked.pairs, tried + 1);
    }
  }
  fmt::print("{}: {} pairs, seed {}, {} parties each, {}, {}\n\n", argv[1], rows.size(), asked.seed,
             asked.walkers, weather, skill);
  print_table(rows);
  print_summary(rows);
  return 0;
}
