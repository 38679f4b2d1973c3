/// A walk along paths with a dozen forks, and stretches of it for distance by time.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/units/said.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::learn::detail {

using units::said;

namespace {
constexpr int wanted = least_forks, quarter = least_forks / 4, starts_tried = 40, steps_each = 1500;
constexpr double most_m = 7000, wrong_m = 250, beside_clear_m = 60, look_m = 30;
/// Trivial forks show lapses, narrow ones the rest.
constexpr double trivial = 0.1, narrow_deg = 30;

/// The paths as a net, with what may be walked of it looked up once.
struct Net {
  const TrainingGround& g;
  const mapdata::Network& net;
  /// Of each path, walked from either end, whether the first 250 m keep clear of what hurts (who
  /// has gone wrong goes so far); and whether the whole does, and lies on the map piece.
  std::vector<std::array<bool, 2>> sets_out_clear;
  std::vector<bool> path, whole_clear;
  std::vector<std::array<units::GridBearing, 2>> sets_out_to;

  Net(const TrainingGround& ground, GridPoint middle)
      : g(ground),
        net(ground.fixes().network()),
        sets_out_clear(net.edges().size()),
        path(net.edges().size()),
        whole_clear(net.edges().size()),
        sets_out_to(net.edges().size()) {
    for (std::uint32_t e = 0; e < net.edges().size(); ++e) {
      const auto& edge = net.edges()[e];
      path[e] = walking::is_path(kind(e));  // roads too; those that are not quiet are never clear
      if (!path[e] || edge.points.size() < 2) continue;
      // what is nowhere near can be no part of the walk
      const double near_m = 2 * g.rules().within_m;
      if (earth::grid_distance_m(edge.points.front(), middle) > near_m &&
          earth::grid_distance_m(edge.points.back(), middle) > near_m)
        continue;
      sets_out_to[e] = {set_out(points(e, edge.from)), set_out(points(e, edge.to))};
      sets_out_clear[e] = {clear(points(e, edge.from), wrong_m),
                           clear(points(e, edge.to), wrong_m)};
      whole_clear[e] = clear(edge.points, 1e9) && std::ranges::all_of(edge.points, [&](auto p) {
                         return on_map_piece(middle, p);
                       });
    }
  }
  [[nodiscard]] bool clear(std::span<const GridPoint> line, double far_m) const {
    const mapdata::Measured measured(line);
    const double end = std::min(far_m, measured.length_m());
    const auto good = [&](GridPoint p) { return g.clear_m(p) >= beside_clear_m && !g.by_road(p); };
    for (double s = 0; s < end; s += g.rules().off_road_m) {
      if (!good(measured.at(s))) return false;
    }
    return good(measured.at(end));
  }
  [[nodiscard]] mapdata::Kind kind(std::uint32_t edge) const {
    return g.ground().map.lines[net.edges()[edge].line].label.kind;
  }
  [[nodiscard]] std::string words(std::uint32_t edge, units::Language language) const {
    const auto& label = g.ground().map.lines[net.edges()[edge].line].label;
    return landmarks::thing(label.kind, label.name, language);
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
  [[nodiscard]] static units::GridBearing set_out(std::span<const GridPoint> line) {
    return earth::grid_bearing(line.front(), mapdata::Measured(line).at(look_m));
  }
  [[nodiscard]] std::size_t end_at(std::uint32_t edge, std::uint32_t node) const {
    return net.edges()[edge].from == node ? 0 : 1;
  }
  [[nodiscard]] units::GridBearing sets_out(std::uint32_t edge, std::uint32_t node) const {
    return sets_out_to[edge][end_at(edge, node)];
  }
  /// Every branch may be gone down for a while.
  [[nodiscard]] bool may_err_at(std::uint32_t node) const {
    return std::ranges::all_of(net.nodes()[node].edges, [&](auto e) {
      return !path[e] || sets_out_clear[e][end_at(e, node)];
    });
  }
  /// A fork, its words not yet told, and the wrong branch.
  struct Met {
    Fork fork;
    std::uint32_t right = mapdata::no_edge, wrong = mapdata::no_edge;
  };
  [[nodiscard]] std::optional<Met> fork(std::uint32_t node, std::uint32_t came,
                                        std::uint32_t taken) const;
};

std::optional<Net::Met> Net::fork(std::uint32_t node, std::uint32_t came,
                                  std::uint32_t taken) const {
  const auto on = units::GridBearing::degrees(sets_out(came, node).in_degrees() + 180);
  const auto right = sets_out(taken, node);
  Met met;
  met.right = taken;
  auto& out = met.fork;
  for (const auto e : net.nodes()[node].edges) {
    if (e == came || e == taken || !path[e]) continue;
    const auto wrong = sets_out(e, node);
    const double between = std::abs((wrong - right).in_degrees());
    const double hard = 0.5 * (1 + std::cos(between * std::numbers::pi / 180)) *
                        (landmarks::looks_alike(kind(e), kind(taken)) >= 1 ? 1 : 0.5);
    if (met.wrong != mapdata::no_edge && hard <= out.difficulty) continue;
    met.wrong = e;
    out.difficulty = hard;
    out.between_deg = between;
    out.wrong_turn_deg = (wrong - on).in_degrees();
  }
  if (met.wrong == mapdata::no_edge) return std::nullopt;
  out.at = net.nodes()[node].at;
  out.turn_deg = (right - on).in_degrees();
  return met;
}

/// How much a walk is worth: its forks up to those wanted, then that a quarter each is trivial and
/// narrow.
double worth(const std::vector<Net::Met>& forks) {
  const auto easy =
      std::ranges::count_if(forks, [](const auto& m) { return m.fork.difficulty < trivial; });
  const auto hard =
      std::ranges::count_if(forks, [](const auto& m) { return m.fork.between_deg < narrow_deg; });
  return static_cast<double>(std::min<std::size_t>(forks.size(), wanted)) +
         0.1 * static_cast<double>(std::min<std::ptrdiff_t>(easy, quarter)) +
         0.1 * static_cast<double>(std::min<std::ptrdiff_t>(hard, quarter));
}

/// Goes on where it can, back where it cannot, no path twice; keeps the best that it came by.
class Search {
 public:
  Search(const Net& net, units::Language language, numeric::Random& random)
      : net_(net), language_(language), random_(random), used_(net.path.size()) {}

  void from(std::uint32_t start) {
    steps_ = 0;
    walk_ = {};
    go_on(start, mapdata::no_edge);
  }
  /// All the forks that are wanted, if not of the kinds that are.
  [[nodiscard]] bool whole() const { return best_worth_ >= wanted; }
  [[nodiscard]] bool done() const { return best_worth_ >= wanted + 0.2 * quarter; }
  [[nodiscard]] ForkWalk best() const {
    ForkWalk out;
    out.length_m = best_.length_m;
    for (const auto& [fork, right, wrong] : best_.forks) {
      out.forks.push_back(fork);
      out.forks.back().right = net_.words(right, language_);
      out.forks.back().wrong = net_.words(wrong, language_);
    }
    for (const auto& [edge, node] : best_.ways) {
      const auto line = net_.points(edge, node);
      out.line.insert(out.line.end(), line.begin() + (out.line.empty() ? 0 : 1), line.end());
      if (net_.kind(edge) == mapdata::Kind::road) out.road_m += net_.net.edges()[edge].length_m;
    }
    return out;
  }

 private:
  void go_on(std::uint32_t node, std::uint32_t came) {
    if (++steps_ > steps_each || done()) return;
    // With all its forks a short walk is better; without, a long one serves for distance by time.
    const bool whole = static_cast<int>(walk_.forks.size()) >= wanted;
    const bool better_length =
        whole ? walk_.length_m < best_.length_m : walk_.length_m > best_.length_m;
    if (const double w = worth(walk_.forks);
        w > best_worth_ || (w == best_worth_ && better_length)) {
      best_worth_ = w;
      best_ = walk_;
    }
    if (static_cast<int>(walk_.forks.size()) >= wanted + quarter || !net_.may_err_at(node)) return;
    std::vector<std::uint32_t> ways;
    for (const auto e : net_.net.nodes()[node].edges) {
      if (e != came && net_.whole_clear[e] && !used_[e] &&
          walk_.length_m + net_.net.edges()[e].length_m <= most_m)
        ways.push_back(e);
    }
    for (std::size_t i = ways.size(); i > 1; --i) std::swap(ways[i - 1], ways[pick(i, random_)]);
    for (const auto e : ways) {
      const auto met = came == mapdata::no_edge ? std::nullopt : net_.fork(node, came, e);
      if (met) {
        walk_.forks.push_back(*met);
        walk_.forks.back().fork.at_m = walk_.length_m;
      }
      const double length = net_.net.edges()[e].length_m;
      walk_.length_m += length;
      walk_.ways.emplace_back(e, node);
      used_[e] = true;
      go_on(net_.other_end(e, node), e);
      used_[e] = false;
      walk_.ways.pop_back();
      walk_.length_m -= length;
      if (met) walk_.forks.pop_back();
    }
  }

  const Net& net_;
  units::Language language_;
  numeric::Random& random_;
  std::vector<bool> used_;
  struct Walk {
    std::vector<Net::Met> forks;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> ways;  ///< edge, from node
    double length_m = 0;
  } walk_, best_;
  double best_worth_ = 0;
  int steps_ = 0;
};
}  // namespace

void make_forks(const TrainingGround& g, numeric::Random random, TrainingDay& day) {
  const Net net(g, day.from);
  std::vector<std::uint32_t> starts;
  for (std::uint32_t n = 0; n < net.net.nodes().size(); ++n) {
    const auto& node = net.net.nodes()[n];
    if (earth::grid_distance_m(node.at, day.from) < g.rules().within_m &&
        std::ranges::any_of(node.edges, [&](auto e) { return net.whole_clear[e]; }))
      starts.push_back(n);
  }
  // Near the day's start first.
  const auto near = std::ranges::stable_partition(starts, [&](auto n) {
    return earth::grid_distance_m(net.net.nodes()[n].at, day.from) < 0.5 * g.rules().within_m;
  });
  const std::size_t near_count = starts.size() - near.size();
  Search search(net, day.language, random);
  for (int i = 0; i < starts_tried && !starts.empty() && !search.done(); ++i) {
    const bool first_half = i < starts_tried / 2 && near_count > 0;
    if (i == starts_tried / 2 && search.whole()) break;
    search.from(starts[pick(first_half ? near_count : starts.size(), random)]);
  }
  auto best = search.best();
  const bool enough = static_cast<int>(best.forks.size()) >= wanted;
  if (!enough) {
    const bool one = best.forks.size() == 1;
    day.missing.push_back(said(
        day.language,
        one ? "Fork walk: the longest one on the map piece has {0} fork, not {1}, that keeps "
              "{2:.0f} "
              "m from ground to keep off and {3:.0f} m from main roads on every branch."
            : "Fork walk: the longest one on the map piece has {0} forks, not {1}, that keep "
              "{2:.0f} "
              "m from ground to keep off and {3:.0f} m from main roads on every branch.",
        one ? "Abzweige: der längste Weg auf dem Kartenstück hat {0} Abzweig, nicht {1}, der auf "
              "jedem Ast {2:.0f} m Abstand von zu meidendem Gelände und {3:.0f} m von Hauptstraßen "
              "hält."
            : "Abzweige: der längste Weg auf dem Kartenstück hat {0} Abzweige, nicht {1}, die auf "
              "jedem Ast {2:.0f} m Abstand von zu meidendem Gelände und {3:.0f} m von "
              "Hauptstraßen halten.",
        best.forks.size(), wanted, beside_clear_m, g.rules().off_road_m));
  }
  if (best.line.empty()) return;
  // Three stretches along it, 300 to 900 m, one after another; they need no forks.
  const mapdata::Measured measured(best.line);
  double at = 0;
  for (int i = 0; i < 3; ++i) {
    const double length = 300 + 600 * random.uniform();
    if (at + length > measured.length_m()) break;
    day.times.push_back({measured.piece(at, at + length), length});
    at += length;
  }
  if (enough) day.forks = std::move(best);
}

}  // namespace lodeway::learn::detail
