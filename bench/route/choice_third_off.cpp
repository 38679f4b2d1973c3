// Each number of docs/method/choosing-the-way.md a third less and a third more: on how many trips
// another way is named quick, middle or sure, another is picked, or another number of ways is
// named.
//   choice_third_off GROUND.gpkg TRIPS [search every]
// TRIPS: a folder of trip files, as `tools/count_legs GROUND.gpkg --trips TRIPS` writes them. The
// ways to choose from are found once; every number then acts in the choice alone. The two limits
// act in the search too: that is sought anew on every so many-th trip (1: all; 0, the default:
// none). Another way home is counted on the trips there and back, wires on the trips with novices.
// What strays is worked out here, not walked, and last light is not looked at.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/route/choose/all_ways.hpp"
#include "lodeway/route/choose/choose_ways.hpp"
#include "lodeway/route/choose/home_same_way.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/pick_way.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace {

using namespace lodeway;

struct Numbers {
  route::ChoiceRules rules;
  double certainty = 0.9, beside_m = route::beside_m, wires_times = 1;  // of the tenth
};

/// Which ways have the names, each told by the ends of its legs; empty: none has it.
struct Names {
  std::string quick, middle, sure, picked;
  std::size_t count = 0;
};

struct Counted {
  int quick = 0, middle = 0, sure = 0, picked = 0, count = 0, any = 0, of = 0;
  void add(const Names& a, const Names& b) {
    ++of;
    quick += a.quick != b.quick;
    middle += a.middle != b.middle;
    sure += a.sure != b.sure;
    picked += a.picked != b.picked;
    count += a.count != b.count;
    any += a.quick != b.quick || a.middle != b.middle || a.sure != b.sure || a.picked != b.picked;
  }
};

std::string key(const route::NamedWay& way) {
  std::string out;
  for (const auto& leg : way.way.legs) {
    const auto end = leg.course.line.back();
    out += fmt::format("{:.0f} {:.0f} {:.0f};", end.east_m, end.north_m, leg.judged.length_m);
  }
  return out;
}

Names names(const std::vector<route::NamedWay>& ways, route::Wishes wishes, walking::Skill skill,
            const Numbers& n) {
  wishes.min_certainty = n.certainty;
  std::vector<route::Candidate> all;
  for (const auto& way : ways) {
    auto c = route::candidate_of(way, wishes);
    c.expected_min +=
        n.wires_times * (route::candidate_of(way, wishes, skill).expected_min - c.expected_min);
    all.push_back(c);
  }
  const auto apart = [&](std::size_t i, std::size_t j) {
    return std::min(route::share_off(ways[i].way, ways[j].way, n.beside_m),
                    route::share_off(ways[j].way, ways[i].way, n.beside_m));
  };
  const auto p = route::pick_ways(all, apart, n.rules);
  Names out{key(ways[p.quick]), {}, {}, {}, 1};
  std::vector<std::pair<walking::Choice, std::size_t>> named{{walking::Choice::quick, p.quick}};
  if (p.middle) named.emplace_back(walking::Choice::middle, *p.middle);
  if (p.sure) named.emplace_back(walking::Choice::sure, *p.sure);
  if (p.middle) out.middle = key(ways[*p.middle]);
  if (p.sure) out.sure = key(ways[*p.sure]);
  out.count = named.size();
  std::vector<tasks::NamedHarm> harms;
  for (const auto& [choice, i] : named)
    harms.push_back({choice, all[i].keep_off, {}, all[i].short_of > n.rules.rounding});
  const auto picked = tasks::pick_way(harms, walking::Choice::middle, n.rules.most_keep_off,
                                      units::Language::english);
  out.picked = key(ways[named[picked.index].second]);
  return out;
}

/// A trip's ways to choose from, with what they were found on.
class Found {
 public:
  Found(const route::LocalGrounds& grounds, const walking::Request& request,
        const route::Wishes& wishes, tasks::Threads& threads)
      : request_(request), wishes_(wishes) {
    std::shared_ptr<const route::LocalGround> before;
    for (double times = 1;; times *= 4) {
      local_ = grounds.of(route::reach_of(request_, times));
      if (local_ == before) return;  // the whole: no wider
      before = local_;
      shop_ = std::make_unique<route::Workshop>(*local_, request_, wishes_, threads);
      points_ = route::named_points(shop_->cutting);
      for (const auto& point : points_)
        if (!route::check_place(shop_->cutting.prepared, point)) return;
      auto all = route::all_ways(*local_, *shop_, points_, wishes_, threads);
      if (!all) continue;
      ways_ = std::move(all->ways);
      if (!all->farther) return;
    }
  }
  Found(const Found&) = delete;
  Found& operator=(const Found&) = delete;
  [[nodiscard]] bool leads() const { return !ways_.empty(); }
  /// With the way home held against the way out, where the trip has both.
  [[nodiscard]] std::vector<route::NamedWay> ways(const route::ChoiceRules& rules,
                                                  tasks::Threads& threads) const {
    auto out = ways_;
    (void)route::home_the_same_way(shop_->cutting, shop_->judge, wishes_, rules, points_, out,
                                   threads);
    return out;
  }

 private:
  walking::Request request_;
  route::Wishes wishes_;
  std::shared_ptr<const route::LocalGround> local_;
  std::unique_ptr<route::Workshop> shop_;
  std::vector<walking::Waypoint> points_;
  std::vector<route::NamedWay> ways_;
};

struct Moved {
  const char* name;
  void (*move)(Numbers&, double times);
};

constexpr Moved in_the_choice[] = {
    {"5 in 100 on ground to keep off", [](Numbers& n, double t) { n.rules.most_keep_off *= t; }},
    {"90 in 100 kept (10 lost)", [](Numbers& n, double t) { n.certainty = 1 - 0.1 * t; }},
    {"90 in 100 kept (60)", [](Numbers& n, double t) { n.certainty *= std::min(t, 1.0); }},
    {"half a party in 100",
     [](Numbers& n, double t) {
       n.rules.rounding *= t;
       n.rules.same_keep_off *= t;
     }},
    {"0.02 of loss", [](Numbers& n, double t) { n.rules.same_loss *= t; }},
    {"a fifth of the length", [](Numbers& n, double t) { n.rules.apart_share *= t; }},
    {"50 m", [](Numbers& n, double t) { n.beside_m *= t; }},
};

constexpr double third_less = 2.0 / 3, third_more = 4.0 / 3;

struct Table {
  std::vector<std::string> order;
  std::map<std::string, std::pair<Counted, Counted>> rows;
  void add(const std::string& row, bool more, const Names& a, const Names& b) {
    if (!rows.contains(row)) order.push_back(row);
    auto& r = rows[row];
    (more ? r.second : r.first).add(a, b);
  }
  void print() const {
    fmt::print(
        "| number | | trips | any | quick | middle | sure | picked | how many |\n"
        "|---|---|---|---|---|---|---|---|---|\n");
    for (const auto& name : order) {
      const auto& [less, more] = rows.at(name);
      for (const auto& [word, c] : {std::pair{"less", less}, std::pair{"more", more}})
        fmt::print("| {} | a third {} | {} | {} | {} | {} | {} | {} | {} |\n", name, word, c.of,
                   c.any, c.quick, c.middle, c.sure, c.picked, c.count);
    }
  }
};

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    fmt::print(stderr, "choice_third_off: expected GROUND.gpkg and a folder of trips\n");
    return 2;
  }
  const auto ground = io::open_ground(argv[1]);
  if (!ground) return fmt::print(stderr, "{}\n", ground.error().what), 2;
  const auto called = [&](const std::string& name) { return io::points_called(argv[1], name); };
  const int every = argc > 3 ? std::atoi(argv[3]) : 0;
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(argv[2]))
    files.push_back(entry.path().string());
  std::ranges::sort(files);
  const route::LocalGrounds grounds(*ground);
  tasks::Threads threads;
  Table table;
  int trips = 0, wires = 0, refused = 0;
  std::map<std::size_t, int> named;
  std::size_t offered = 0;
  for (const auto& file : files) {
    const auto trip = io::read_trip(file, walking::area_of(*ground), called);
    if (!trip) return fmt::print(stderr, "{}\n", trip.error().what), 2;
    const auto sigma = tasks::declination_sigma_deg(*ground, *trip);
    if (!sigma) return fmt::print(stderr, "{}\n", sigma.error().what), 2;
    route::Wishes wishes;
    wishes.declination_sigma_deg = *sigma;
    auto request = trip->request;
    const auto skill = request.party.skill;
    const Found found(grounds, request, wishes, threads);
    if (!found.leads()) {
      ++refused;
      continue;
    }
    const Numbers now;
    const auto ways = found.ways(now.rules, threads);
    const auto base = names(ways, wishes, skill, now);
    ++trips;
    ++named[base.count];
    offered += ways.size();
    for (const auto& number : in_the_choice) {
      for (const bool more : {false, true}) {
        auto n = now;
        number.move(n, more ? third_more : third_less);
        table.add(number.name, more, base, names(ways, wishes, skill, n));
      }
    }
    for (std::size_t k = 0; every > 0 && trips % every == 0 && k < 3; ++k) {
      for (const bool more : {false, true}) {
        auto n = now;
        in_the_choice[k].move(n, more ? third_more : third_less);
        if (n.certainty == now.certainty && n.rules.most_keep_off == now.rules.most_keep_off)
          continue;
        auto other = wishes;
        other.most_hazard = n.rules.most_keep_off;
        other.min_certainty = n.certainty;
        const Found anew(grounds, request, other, threads);
        if (anew.leads())
          table.add(fmt::format("{}, sought anew", in_the_choice[k].name), more, base,
                    names(anew.ways(n.rules, threads), other, skill, n));
      }
    }
    request.party.skill = walking::Skill::novice;
    const Found of_novices(grounds, request, wishes, threads);
    if (of_novices.leads()) {
      const auto w = of_novices.ways(now.rules, threads);
      const auto as_now = names(w, wishes, walking::Skill::novice, now);
      wires += std::ranges::any_of(w, [&](const auto& way) {
        return route::candidate_of(way, wishes, walking::Skill::novice).expected_min >
               route::candidate_of(way, wishes).expected_min;
      });
      for (const bool more : {false, true}) {
        auto n = now;
        n.wires_times = more ? third_more : third_less;
        table.add("a tenth, novices", more, as_now, names(w, wishes, walking::Skill::novice, n));
      }
    }
    request.party.skill = skill;
    request.points.push_back(request.points.front());
    const Found home(grounds, request, wishes, threads);
    if (home.leads()) {
      const auto as_now = names(home.ways(now.rules, threads), wishes, skill, now);
      for (const bool more : {false, true}) {
        auto n = now;
        n.rules.other_home_min *= more ? third_more : third_less;
        table.add("5 minutes, there and back", more, as_now,
                  names(home.ways(n.rules, threads), wishes, skill, n));
      }
    }
    fmt::print(stderr, "\r{} trips", trips);
  }
  fmt::print(
      "{}: {} trips ({} refused), {:.1f} ways to choose from each; named three on {}, two on "
      "{}, one on {}; novices could go under wires on {}\n\n",
      argv[1], trips, refused, static_cast<double>(offered) / std::max(trips, 1), named[3],
      named[2], named[1], wires);
  table.print();
  return 0;
}
