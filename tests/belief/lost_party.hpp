#pragma once
/// Simulated lost parties: where they are, and what they tell, by the model's own noise or by noise
/// that it does not know of. Shared by the suite and by the program that makes the tables.
#include <algorithm>
#include <array>
#include <vector>

#include "lodeway/belief/belief.hpp"
#include "lodeway/numeric/random.hpp"

namespace lodeway::belief::lost {

using mapdata::Kind;
using mapdata::Visibility;
using numeric::Random;
using sight::Cue;

/// What is wrong with the tellings beside what the estimator assumes.
struct Wrong {
  const char* name = "as assumed";
  double noise = 1;         ///< on the party's own sigmas
  double nonsense = 0;      ///< share of answers that mean nothing
  double height_off_m = 0;  ///< an altimeter that was never set
  double steeper_deg = 0;   ///< steepness told too steep
  double map_noise = 1;     ///< on the map's own error
  double wrong_top = 0;     ///< share of tops told by another's name
};
inline constexpr std::array<Wrong, 6> wrongs{{{},
                                              {"reports' noise x 1.5", 1.5},
                                              {"10 in 100 answers nonsense", 1, 0.10},
                                              {"height off by 30 m", 1, 0, 30},
                                              {"8 in 100 tops wrongly named", 1, 0, 0, 0, 1, 0.08},
                                              {"all of it, mild", 1.25, 0.05, 10, 4, 1.5, 0.04}}};

struct Party {
  LastSure last;
  GridPoint truth;
  CuePlanes planes;                    ///< a window about the last sure place
  std::vector<Report> reports;         ///< in the order in which they are told
  std::vector<std::size_t> step_ends;  ///< reports told after each step of the table
};
inline const std::array<const char*, 8> steps{"last sure place and minutes",
                                              "+ height",
                                              "+ fall",
                                              "+ steepness",
                                              "+ landform",
                                              "+ on or not on five kinds of line",
                                              "+ one named top",
                                              "+ a second top"};

inline Report ask_of(Cue cue, Kind kind = Kind::other, bool direction = false,
                     std::int32_t thing = -1) {
  Report r;
  r.cue = cue;
  r.kind = kind;
  r.has_direction = direction;
  r.thing = thing;
  return r;
}

/// The five kinds of line that cover most of this ground, crests and valley floors left out.
inline std::vector<Kind> common_lines(const CuePlanes& planes) {
  std::vector<std::pair<std::size_t, Kind>> count;
  for (const auto& plane : planes.near) {
    if (!plane.line || plane.kind == Kind::ridge_line || plane.kind == Kind::valley_line ||
        plane.kind == Kind::cliff)
      continue;
    std::size_t n = 0;
    for (const auto d : plane.distance) n += d < 10;
    count.emplace_back(n, plane.kind);
  }
  std::sort(count.begin(), count.end(), std::greater{});
  std::vector<Kind> out;
  for (std::size_t k = 0; k < std::min<std::size_t>(5, count.size()); ++k)
    out.push_back(count[k].second);
  return out;
}

/// A party that was lost 10 to 40 minutes ago; its place is drawn from the very prior that the
/// estimator is told of. `whole` must have views of the named tops.
inline Party make(const CuePlanes& whole, Visibility visibility, const Perception& plain,
                  const Wrong& wrong, Random& random, double half_m = 3000) {
  Party out;
  for (;;) {
    const GridPoint at{
        whole.frame.west_m + random.uniform() * (whole.frame.east_m() - whole.frame.west_m),
        whole.frame.south_m() + random.uniform() * (whole.frame.north_m - whole.frame.south_m())};
    const auto cell = whole.cell(at);
    if (!cell || whole.bar[*cell] != walking::Bar::none) continue;
    out.last = {at, 10 + 30 * random.uniform(),
                units::GridBearing::degrees(360 * random.uniform())};
    out.planes = sight::cropped(whole, sight::window_about(at, half_m));
    const auto drawn = draws(before(out.planes, out.last), 1, random.uniform());
    if (drawn.empty()) continue;
    const auto cols = static_cast<std::size_t>(out.planes.frame.cols);
    const GridPoint middle = out.planes.frame.centre(static_cast<int>(drawn[0] / cols),
                                                     static_cast<int>(drawn[0] % cols));
    const double cell_m = 0.98 * out.planes.frame.cell_m;
    out.truth = {middle.east_m + cell_m * (random.uniform() - 0.5),
                 middle.north_m + cell_m * (random.uniform() - 0.5)};
    break;
  }
  Perception noise = plain;
  auto& s = noise.sigma;
  for (double* sigma :
       {&s.height_m, &s.fall_deg, &s.steepness_deg, &s.line_deg, &s.beside_deg, &s.bearing_deg})
    *sigma *= wrong.noise;
  noise.mix = wrong.nonsense;
  const double map_m = out.planes.height_sd_m, map_gradient = out.planes.gradient_sd;
  out.planes.height_sd_m *= wrong.map_noise;
  out.planes.gradient_sd *= wrong.map_noise;
  const auto tell = [&](const Report& ask) {
    auto r = *sight::perceive(out.planes, out.truth, ask, noise, visibility, random);
    if (r.cue == Cue::height) r.value += wrong.height_off_m;
    if (r.cue == Cue::steepness) r.value += wrong.steeper_deg;
    out.reports.push_back(r);
    return r;
  };
  const auto step = [&] { out.step_ends.push_back(out.reports.size()); };
  step();
  tell(ask_of(Cue::height));
  step();
  tell(ask_of(Cue::fall, Kind::other, true));
  step();
  tell(ask_of(Cue::steepness));
  step();
  tell(ask_of(Cue::landform));
  step();
  for (const Kind kind : common_lines(whole)) tell(ask_of(Cue::on_line, kind, true));
  step();
  if (visibility == Visibility::clear) {
    // named tops in the order of their distance from the last sure place, until two are seen
    std::vector<std::int32_t> tops;
    for (std::size_t t = 0; t < whole.things.size(); ++t) {
      if (whole.things[t].kind == Kind::summit && !whole.things[t].name.empty())
        tops.push_back(static_cast<std::int32_t>(t));
    }
    std::ranges::sort(tops, {}, [&](std::int32_t t) {
      return earth::grid_distance_m(out.last.at, whole.things[static_cast<std::size_t>(t)].at);
    });
    if (tops.size() > 6) tops.resize(6);
    int seen = 0;
    for (const std::int32_t t : tops) {
      const std::int32_t other =
          tops[static_cast<std::size_t>(random.uniform() * static_cast<double>(tops.size()))];
      const bool mistaken = random.uniform() < wrong.wrong_top;
      Report r = tell(ask_of(Cue::sees_thing, Kind::other, true, mistaken ? other : t));
      out.reports.back().thing = t;
      if (!r.seen) continue;
      step();
      if (++seen == 2) break;
    }
    // what was told of the tops that stayed unseen belongs to the last step
    if (out.step_ends.size() > 6) out.step_ends.back() = out.reports.size();
  }
  out.planes.height_sd_m = map_m;
  out.planes.gradient_sd = map_gradient;
  return out;
}

struct Judged {
  bool in50 = false, in90 = false;
  double radius50_m = 0, radius90_m = 0;
  std::size_t parts = 0;  ///< with over a tenth of what is on the map
  double best_share = 0;  ///< of the likeliest part, of what is on the map
  bool in_best = false;
};
/// `start`: before(party.planes, party.last), made once where one party is judged more than once.
inline Judged judge(const Party& party, const Belief& start, std::size_t told,
                    const Perception& perception, Visibility visibility) {
  const auto belief =
      observe(start, party.planes, {party.reports.data(), told}, perception, visibility);
  const auto sum = summary(belief, party.planes);
  const double share = static_cast<double>(belief.share[*party.planes.cell(party.truth)]);
  Judged out;
  out.in50 = share >= sum.level50 && share > 0;
  out.in90 = share >= sum.level90 && share > 0;
  out.radius50_m = std::sqrt(sum.area50_m2 / 3.14159265358979);
  out.radius90_m = std::sqrt(sum.area90_m2 / 3.14159265358979);
  const double on_map = 1 - sum.elsewhere;
  for (const auto& part : sum.parts) out.parts += part.share / on_map > 0.1;
  if (!sum.parts.empty() && on_map > 0) {
    out.best_share = sum.parts[0].share / on_map;
    double least = 1e18;
    std::size_t nearest = 0;
    for (std::size_t k = 0; k < sum.parts.size(); ++k) {
      const double d = earth::grid_distance_m(party.truth, sum.parts[k].middle) /
                       std::max(sum.parts[k].radius_m, 1.0);
      if (d < least) {
        least = d;
        nearest = k;
      }
    }
    out.in_best = out.in90 && nearest == 0;
  }
  return out;
}

inline Judged judge(const Party& party, std::size_t told, const Perception& perception,
                    Visibility visibility) {
  return judge(party, before(party.planes, party.last), told, perception, visibility);
}

/// Views of all named tops, so that parties can be asked about them.
inline void look_from_tops(CuePlanes& planes, numeric::Parallel& parallel) {
  std::vector<std::int32_t> tops;
  for (std::size_t t = 0; t < planes.things.size(); ++t) {
    if (planes.things[t].kind == Kind::summit && !planes.things[t].name.empty())
      tops.push_back(static_cast<std::int32_t>(t));
  }
  sight::look_from(planes, tops, parallel);
}

}  // namespace lodeway::belief::lost
