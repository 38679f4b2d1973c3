/// A walk along paths with a dozen forks, and stretches of it for distance by time.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::learn::detail {

namespace {
constexpr int wanted = 12, least = 6, tries = 40;
constexpr double most_m = 7000, wrong_m = 250, beside_clear_m = 60, look_m = 30;

struct Walker {
  const TrainingGround& g;
  const mapdata::Network& net;

  [[nodiscard]] mapdata::Kind kind(std::uint32_t edge) const {
    return g.ground().map.lines[net.edges()[edge].line].label.kind;
  }
  [[nodiscard]] std::string words(std::uint32_t edge) const {
    const auto& label = g.ground().map.lines[net.edges()[edge].line].label;
    return landmarks::thing(label.kind, label.name, units::Language::english);
  }
  /// Points of an edge as walked from this node.
  [[nodiscard]] std::vector<GridPoint> points(std::uint32_t edge, std::uint32_t node) const {
    auto out = net.edges()[edge].points;
    if (net.edges()[edge].from != node) std::ranges::reverse(out);
    return out;
  }
  [[nodiscard]] std::uint32_t other_end(std::uint32_t edge, std::uint32_t node) const {
    const auto& e = net.edges()[edge];
    return e.from == node ? e.to : e.from;
  }
  /// The first `far_m` of it keep clear of what hurts.
  [[nodiscard]] bool safe(std::uint32_t edge, std::uint32_t node, double far_m) const {
    const auto line = points(edge, node);
    const mapdata::Measured measured(line);
    for (double s = 0; s <= std::min(far_m, measured.length_m()); s += 25) {
      if (g.clear_m(measured.at(s)) < beside_clear_m) return false;
    }
    return true;
  }
  [[nodiscard]] units::GridBearing sets_out(std::uint32_t edge, std::uint32_t node) const {
    const auto line = points(edge, node);
    return earth::grid_bearing(line.front(), mapdata::Measured(line).at(look_m));
  }
};

struct Tried {
  ForkWalk walk;
};

Tried walk_once(const Walker& w, std::uint32_t start, numeric::Random& random) {
  Tried out;
  std::vector<int> used(w.net.edges().size(), 0);
  std::uint32_t node = start, came = mapdata::no_edge;
  while (static_cast<int>(out.walk.forks.size()) < wanted && out.walk.length_m < most_m) {
    std::vector<std::uint32_t> ways;
    bool all_safe = true;
    for (const auto e : w.net.nodes()[node].edges) {
      if (e == came || !walking::is_path(w.kind(e))) continue;
      all_safe = all_safe && w.safe(e, node, wrong_m);
      ways.push_back(e);
    }
    std::erase_if(ways, [&](auto e) { return used[e] >= 1 || !w.safe(e, node, 1e9); });
    if (ways.empty() || !all_safe) break;
    const auto taken = ways[pick(ways.size(), random)];
    if (came != mapdata::no_edge) {
      const auto back = w.sets_out(came, node);
      const auto on = units::GridBearing::degrees(back.in_degrees() + 180);
      Fork fork;
      fork.at = w.net.nodes()[node].at;
      fork.at_m = out.walk.length_m;
      fork.turn_deg = (w.sets_out(taken, node) - on).in_degrees();
      fork.right = w.words(taken);
      for (const auto e : w.net.nodes()[node].edges) {
        if (e == came || e == taken || !walking::is_path(w.kind(e))) continue;
        const double turn = (w.sets_out(e, node) - on).in_degrees();
        const double between =
            std::abs((w.sets_out(e, node) - w.sets_out(taken, node)).in_degrees());
        const double hard = 0.5 * (1 + std::cos(between * 3.14159265358979 / 180)) *
                            (landmarks::looks_alike(w.kind(e), w.kind(taken)) >= 1 ? 1 : 0.5);
        if (!fork.wrong.empty() && hard <= fork.difficulty) continue;
        fork.difficulty = hard;
        fork.wrong_turn_deg = turn;
        fork.wrong = w.words(e);
      }
      if (!fork.wrong.empty()) out.walk.forks.push_back(fork);
    }
    const auto line = w.points(taken, node);
    out.walk.line.insert(out.walk.line.end(), line.begin() + (out.walk.line.empty() ? 0 : 1),
                         line.end());
    out.walk.length_m += w.net.edges()[taken].length_m;
    ++used[taken];
    node = w.other_end(taken, node);
    came = taken;
  }
  return out;
}
}  // namespace

void make_forks(const TrainingGround& g, numeric::Random random, TrainingDay& day) {
  const Walker w{g, g.fixes().network()};
  std::vector<std::uint32_t> starts;
  for (std::uint32_t n = 0; n < w.net.nodes().size(); ++n) {
    const auto& node = w.net.nodes()[n];
    const bool path =
        std::ranges::any_of(node.edges, [&](auto e) { return walking::is_path(w.kind(e)); });
    if (path && earth::grid_distance_m(node.at, day.from) < g.rules().within_m) starts.push_back(n);
  }
  ForkWalk best;
  for (int i = 0; i < tries && !starts.empty(); ++i) {
    auto tried = walk_once(w, starts[pick(starts.size(), random)], random);
    if (tried.walk.forks.size() > best.forks.size()) best = std::move(tried.walk);
  }
  if (static_cast<int>(best.forks.size()) < wanted) {
    day.missing.push_back(
        fmt::format("Fork walk: the longest one from paths within {:.0f} m has {} forks, not {}, "
                    "that keep 60 m "
                    "from ground to keep off on every branch.",
                    g.rules().within_m, best.forks.size(), wanted));
  }
  if (static_cast<int>(best.forks.size()) < least) return;
  const mapdata::Measured measured(best.line);
  // Three stretches of the walk, 300 to 900 m, one after another.
  double at = 0;
  for (int i = 0; i < 3; ++i) {
    const double length = 300 + 600 * random.uniform();
    if (at + length > best.length_m) break;
    day.times.push_back({measured.piece(at, at + length), length});
    at += length;
  }
  day.forks = std::move(best);
}

}  // namespace lodeway::learn::detail
