/// lost_parties areas|wrong|moves PARTIES GROUND.gpkg...: the tables of docs/results.md about where
/// a party is. `areas`: how often the 50 and 90 % areas hold the truth, and how large they are,
/// after each telling. `wrong`: the same at the end with noise that the model does not know of, the
/// robust measures off and on. `moves`: moves offered, and what simulated parties make of them.
#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <numeric>

#include <fmt/format.h>

#include "belief/lost_party.hpp"
#include "lodeway/belief/moves.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/numeric/statistics.hpp"
#include "lodeway/tasks/threads.hpp"

using namespace lodeway;
using belief::lost::Wrong;
using mapdata::Visibility;

namespace {
constexpr std::array airs{Visibility::clear, Visibility::cloud, Visibility::night};
constexpr std::array<const char*, 3> air_names{"clear", "cloud", "night"};
const auto plain = sight::plain_perception_of(walking::Skill::practised);
const auto robust = sight::perception_of(walking::Skill::practised);

double median(std::vector<double> v) {
  std::ranges::sort(v);
  return v.empty() ? 0 : numeric::sorted_quantile(v, 0.5);
}

struct Shares {
  int n = 0, in50 = 0, in90 = 0, several = 0, in_best = 0;
  double best = 0;
  std::vector<double> radius50, radius90;
  void take(const belief::lost::Judged& j) {
    ++n;
    in50 += j.in50;
    in90 += j.in90;
    several += j.parts > 1;
    in_best += j.in_best;
    best += j.best_share;
    radius50.push_back(j.radius50_m);
    radius90.push_back(j.radius90_m);
  }
};

/// Each party its own stream, so the answer does not hang on the number of threads.
template <class Use>
void each_party(std::size_t parties, Use&& use) {
  tasks::Threads threads;
  threads.for_each_block(parties, [&](std::size_t k) { use(k); });
}

void areas(const sight::CuePlanes& whole, std::size_t parties) {
  for (std::size_t a = 0; a < airs.size(); ++a) {
    std::vector<std::vector<belief::lost::Judged>> judged(parties), plainly(parties);
    each_party(parties, [&](std::size_t k) {
      numeric::Random random(7, 1000 * a + k);
      const auto party = belief::lost::make(whole, airs[a], plain, {}, random);
      const auto start = belief::before(party.planes, party.last);
      for (const std::size_t told : party.step_ends) {
        judged[k].push_back(belief::lost::judge(party, start, told, robust, airs[a]));
        plainly[k].push_back(belief::lost::judge(party, start, told, plain, airs[a]));
      }
    });
    for (std::size_t s = 0; s < belief::lost::steps.size(); ++s) {
      Shares r, p;
      for (std::size_t k = 0; k < parties; ++k) {
        if (s >= judged[k].size()) continue;
        r.take(judged[k][s]);
        p.take(plainly[k][s]);
      }
      if (r.n == 0) continue;
      fmt::print(
          "| {} | {} | {} | {:.2f} | {:.2f} | {:.0f} | {:.0f} | {:.2f} | {:.2f} | {:.0f} | {:.0f} "
          "|\n",
          air_names[a], belief::lost::steps[s], r.n, 1.0 * p.in50 / p.n, 1.0 * p.in90 / p.n,
          median(p.radius50), median(p.radius90), 1.0 * r.in50 / r.n, 1.0 * r.in90 / r.n,
          median(r.radius50), median(r.radius90));
      std::fflush(stdout);
      if (s + 1 == judged[0].size() || s + 1 == belief::lost::steps.size() || s == 5)
        fmt::print(
            "| {} | best part | {} | says {:.2f} | holds {:.2f} | two or more parts {:.2f} |\n",
            air_names[a], r.n, r.best / r.n, 1.0 * r.in_best / r.n, 1.0 * r.several / r.n);
    }
  }
}

void wrong(const sight::CuePlanes& whole, std::size_t parties) {
  for (const Wrong& w : belief::lost::wrongs) {
    for (std::size_t a = 0; a < airs.size(); ++a) {
      std::vector<belief::lost::Judged> off(parties), on(parties);
      each_party(parties, [&](std::size_t k) {
        numeric::Random random(11, 1000 * a + k);
        const auto party = belief::lost::make(whole, airs[a], plain, w, random);
        const auto start = belief::before(party.planes, party.last);
        off[k] = belief::lost::judge(party, start, party.reports.size(), plain, airs[a]);
        on[k] = belief::lost::judge(party, start, party.reports.size(), robust, airs[a]);
      });
      Shares p, r;
      for (std::size_t k = 0; k < parties; ++k) {
        p.take(off[k]);
        r.take(on[k]);
      }
      fmt::print("| {} | {} | {:.2f} | {:.0f} | {:.2f} | {:.0f} |\n", w.name, air_names[a],
                 1.0 * p.in90 / p.n, median(p.radius90), 1.0 * r.in90 / r.n, median(r.radius90));
      std::fflush(stdout);
    }
  }
}

void moves(const sight::CuePlanes& whole, std::size_t parties) {
  const sight::Chances chances;
  const auto skill = walking::Skill::practised;
  static constexpr std::array<const char*, 5> kinds{"a bearing", "downhill", "uphill",
                                                    "slope on the left", "slope on the right"};
  struct Row {
    int offered = 0;
    double promised_met = 0, promised_barred = 0, met = 0, barred = 0, truth_met = 0,
           truth_barred = 0;
    double worst_met = 1, worst_barred = 0;
  };
  for (std::size_t a = 0; a < airs.size(); ++a) {
    std::vector<std::vector<std::pair<belief::Move, std::array<double, 4>>>> found(parties);
    std::vector<double> standing(parties);
    each_party(parties, [&](std::size_t k) {
      numeric::Random random(13, 1000 * a + k);
      const auto party = belief::lost::make(whole, airs[a], plain, {}, random);
      const auto b = belief::locate(party.planes, party.last, party.reports, robust, airs[a]);
      const auto stops = belief::stops_of(party.planes, chances, skill, airs[a]);
      const auto offered = belief::common_moves(b, party.planes, stops);
      standing[k] = offered.standing_barred;
      const auto cells = belief::draws(b, 1000, random.uniform());
      std::vector<earth::GridPoint> from;
      const auto cols = static_cast<std::size_t>(party.planes.frame.cols);
      for (const auto c : cells)
        from.push_back(
            party.planes.frame.centre(static_cast<int>(c / cols), static_cast<int>(c % cols)));
      const std::vector<earth::GridPoint> truth(1000, party.truth);
      const auto shares = [](const std::vector<belief::Walked>& all) {
        double met = 0, barred = 0;
        for (const auto& w : all) {
          met += w.met;
          barred += w.barred;
        }
        const auto n = static_cast<double>(std::max<std::size_t>(all.size(), 1));
        return std::pair(met / n, barred / n);
      };
      for (const auto& move : offered.offered) {
        const auto [met, barred] =
            shares(belief::walk(move, from, party.planes, stops, {}, random));
        const auto [t_met, t_barred] =
            shares(belief::walk(move, truth, party.planes, stops, {}, random));
        found[k].push_back({move, {met, barred, t_met, t_barred}});
      }
    });
    std::array<Row, 5> rows;
    int any = 0;
    for (const auto& of_party : found) {
      any += !of_party.empty();
      for (const auto& [move, got] : of_party) {
        Row& r = rows[static_cast<std::size_t>(move.kind)];
        ++r.offered;
        r.promised_met += move.met;
        r.promised_barred += move.barred;
        r.met += got[0];
        r.barred += got[1];
        r.truth_met += got[2];
        r.truth_barred += got[3];
        r.worst_met = std::min(r.worst_met, got[0]);
        r.worst_barred = std::max(r.worst_barred, got[1]);
      }
    }
    fmt::print(
        "| {} | some move for {} of {}; mean share already on ground to keep off {:.3f} |\n",
        air_names[a], any, parties,
        std::accumulate(standing.begin(), standing.end(), 0.0) / static_cast<double>(parties));
    for (std::size_t m = 0; m < rows.size(); ++m) {
      const Row& r = rows[m];
      if (r.offered == 0) continue;
      const double n = r.offered;
      fmt::print(
          "| {} | {} | {} | {:.3f} | {:.4f} | {:.3f} | {:.3f} | {:.4f} | {:.4f} | {:.3f} | {:.4f} "
          "|\n",
          air_names[a], kinds[m], r.offered, r.promised_met / n, r.promised_barred / n, r.met / n,
          r.worst_met, r.barred / n, r.worst_barred, r.truth_met / n, r.truth_barred / n);
    }
    std::fflush(stdout);
  }
}
}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) return fmt::print(stderr, "lost_parties areas|wrong|moves PARTIES GROUND...\n"), 2;
  const auto parties = static_cast<std::size_t>(std::atol(argv[2]));
  for (int g = 3; g < argc; ++g) {
    auto ground = io::open_ground(argv[g]);
    if (!ground) return fmt::print(stderr, "{}\n", ground.error().what), 2;
    const walking::Cover cover(*ground, walking::Request{});
    tasks::Threads threads;
    auto planes = sight::cue_planes(*ground, cover, {}, threads, 20);
    belief::lost::look_from_tops(planes, threads);
    fmt::print("\n## {} ({} x {} cells of {} m, {} kinds)\n", argv[g], planes.frame.cols,
               planes.frame.rows, planes.frame.cell_m, planes.near.size());
    std::fflush(stdout);
    if (std::strcmp(argv[1], "areas") == 0) areas(planes, parties);
    if (std::strcmp(argv[1], "wrong") == 0) wrong(planes, parties);
    if (std::strcmp(argv[1], "moves") == 0) moves(planes, parties);
  }
}
