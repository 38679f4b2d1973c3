#include "lodeway/route/field/line_graph.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "lodeway/walking/course.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;

constexpr double same_m = 0.01;
constexpr double spacing_cells = 1.5;
constexpr float change_s =
    40;  // leaving or finding a path: stop, look, set the compass; *practice*

class Builder {
 public:
  Builder(const walking::Ground& ground, const walking::Cover& cover, const CostGround& cost,
          const PaceTable& pace, numeric::Parallel& parallel)
      : ground_(ground), cover_(cover), cost_(cost), pace_(pace), parallel_(parallel) {
    out_.graph.first = static_cast<std::uint32_t>(cost.height.size());
  }

  Paths build() {
    for (std::uint32_t l = 0; l < ground_.map.lines.size(); ++l) {
      const auto& line = ground_.map.lines[l];
      if (walking::is_path(line.label.kind)) {
        add_line(l, true);
      } else if (!line.tunnel && ground_.kinds[line.label.kind].leads &&
                 line.label.kind != mapdata::Kind::railway &&
                 line.label.kind != mapdata::Kind::river) {
        add_line(l, false);
      }
    }
    std::ranges::sort(out_.in_tunnel);
    join_cells();
    pack();
    return std::move(out_);
  }

 private:
  struct Link {
    std::uint32_t from;
    LineGraph::Edge edge;
  };

  [[nodiscard]] double height(GridPoint p) const {
    return terrain::height_at(ground_.elevation, p);
  }
  [[nodiscard]] bool usable(GridPoint p) const {
    const auto bar = cover_.bar_at(p);
    return bar != walking::Bar::outside && bar != walking::Bar::avoided &&
           bar != walking::Bar::forbidden;
  }

  std::uint32_t node_at(GridPoint p, std::uint32_t line) {
    const std::pair key{std::llround(p.east_m / same_m), std::llround(p.north_m / same_m)};
    const auto [found, fresh] = nodes_.try_emplace(
        key, out_.graph.first + static_cast<std::uint32_t>(out_.graph.at.size()));
    if (fresh) out_.graph.at.push_back(p);
    out_.lines_of_node.emplace_back(found->second, line);
    return found->second;
  }

  /// Slowness of open ground at a place, or barred_slowness.
  [[nodiscard]] float ground_slowness(GridPoint p) const {
    const auto [r, c] = cost_.frame.cell_of(p);
    return cost_.frame.holds(r, c) ? cost_.slowness[cost_.index(r, c)] : barred_slowness;
  }

  void add_line(std::uint32_t l, bool path) {
    const auto& line = ground_.map.lines[l];
    const auto own =
        1.0F / static_cast<float>(std::max(0.05, ground_.kinds[line.label.kind].speed_factor));
    const bool level = line.tunnel || line.bridge;  // the surface's heights are not the way's
    const double spacing = spacing_cells * cost_.frame.cell_m;
    std::uint32_t before = no_parent;
    GridPoint last{};
    const auto visit = [&](GridPoint p, bool inner) {
      const float here = path ? own : ground_slowness(p);
      if (!usable(p) || here >= barred_slowness) {
        before = no_parent;
        return;
      }
      const auto node = node_at(p, l);
      if (line.tunnel && inner) out_.in_tunnel.push_back(node);
      if (before != no_parent && before != node) {
        if (path) {
          link(before, node, last, p, own, level);
        } else if (cover_.first_bar(last, p).bar == walking::Bar::none) {
          const float beside = std::max(own, 0.5F * (ground_slowness(last) + here) / attention);
          link(before, node, last, p, handrail_attention * beside, level);
        }
      }
      before = node;
      last = p;
    };
    visit(line.points.front(), false);
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      const auto a = line.points[i - 1], b = line.points[i];
      const double length = earth::grid_distance_m(a, b);
      const int pieces = std::max(1, static_cast<int>(std::ceil(length / spacing)));
      for (int k = 1; k <= pieces; ++k) {
        visit(k == pieces ? b : a + (static_cast<double>(k) / pieces) * (b - a),
              k < pieces || i + 1 < line.points.size());
      }
    }
  }

  void link(std::uint32_t a, std::uint32_t b, GridPoint p, GridPoint q, float slowness,
            bool level) {
    const double rise = level ? 0 : height(q) - height(p);
    const auto run = static_cast<float>(earth::grid_distance_m(p, q));
    const float up = std::isfinite(rise) ? static_cast<float>(rise) : 0.0F;
    const float there = pace_.step_s(run, up, slowness), back = pace_.step_s(run, -up, slowness);
    links_.push_back({a, {b, there, back}});
    links_.push_back({b, {a, back, there}});
  }

  /// Nodes to cells, and cells to nodes.
  struct Joins {
    std::vector<Link> out, back;
  };

  void join_cells() {
    constexpr std::size_t block = 1024;
    const std::size_t nodes = out_.graph.at.size();
    std::vector<Joins> found((nodes + block - 1) / block);
    parallel_.for_each_block(found.size(), [&](std::size_t b) {
      for (std::size_t k = b * block; k < std::min(nodes, (b + 1) * block); ++k)
        join_cells(static_cast<std::uint32_t>(k), found[b]);
    });
    for (const auto& [out, back] : found) {
      links_.insert(links_.end(), out.begin(), out.end());
      joins_.insert(joins_.end(), back.begin(), back.end());
    }
  }

  void join_cells(std::uint32_t k, Joins& found) const {
    const auto node = out_.graph.first + k;
    if (std::ranges::binary_search(out_.in_tunnel, node)) return;
    const auto p = out_.graph.at[k];
    const auto here = cover_.bar_at(p);
    if (here != walking::Bar::none && here != walking::Bar::river && here != walking::Bar::cliff)
      return;
    const int r0 = static_cast<int>(std::floor(cost_.frame.row_of(p))),
              c0 = static_cast<int>(std::floor(cost_.frame.col_of(p)));
    for (int r = r0; r <= r0 + 1; ++r) {
      for (int c = c0; c <= c0 + 1; ++c) {
        if (!cost_.frame.holds(r, c)) continue;
        const auto cell = cost_.index(r, c);
        if (cost_.slowness[cell] >= barred_slowness) continue;
        const auto q = cost_.frame.centre(r, c);
        if (cover_.line_met(p, q).bar != walking::Bar::none) continue;  // beyond the river
        const double z = height(p);
        const float rise = std::isfinite(z) ? cost_.height[cell] - static_cast<float>(z) : 0.0F;
        const auto run = std::max(0.1F, static_cast<float>(earth::grid_distance_m(p, q)));
        const float off = pace_.step_s(run, rise, cost_.slowness[cell]),
                    on = pace_.step_s(run, -rise, cost_.slowness[cell]);
        found.out.push_back({node, {cell, off + change_s, on + change_s}});
        found.back.push_back({cell, {node, on + change_s, off + change_s}});
      }
    }
  }

  void pack() {
    auto& g = out_.graph;
    const auto by_from = [](const Link& a, const Link& b) {
      return std::tie(a.from, a.edge.to) < std::tie(b.from, b.edge.to);
    };
    parallel_.for_each_block(
        2, [&](std::size_t b) { std::ranges::stable_sort(b == 0 ? links_ : joins_, by_from); });
    g.start.assign(g.at.size() + 1, 0);
    for (const auto& l : links_) {
      ++g.start[l.from - g.first + 1];
      g.edges.push_back(l.edge);
    }
    for (std::size_t k = 1; k < g.start.size(); ++k) g.start[k] += g.start[k - 1];
    for (const auto& j : joins_) {
      if (g.joined_cells.empty() || g.joined_cells.back() != j.from) {
        g.joined_cells.push_back(j.from);
        g.joined_start.push_back(static_cast<std::uint32_t>(g.joined_edges.size()));
      }
      g.joined_edges.push_back(j.edge);
    }
    g.joined_start.push_back(static_cast<std::uint32_t>(g.joined_edges.size()));
    std::ranges::sort(out_.lines_of_node);
    const auto [first, last] = std::ranges::unique(out_.lines_of_node);
    out_.lines_of_node.erase(first, last);
  }

  const walking::Ground& ground_;
  const walking::Cover& cover_;
  const CostGround& cost_;
  const PaceTable& pace_;
  numeric::Parallel& parallel_;
  std::map<std::pair<long long, long long>, std::uint32_t> nodes_;
  std::vector<Link> links_, joins_;
  Paths out_;
};

}  // namespace

Paths make_paths(const walking::Ground& ground, const walking::Cover& cover, const CostGround& cost,
                 const PaceTable& pace, numeric::Parallel& parallel) {
  return Builder(ground, cover, cost, pace, parallel).build();
}

std::uint32_t line_between(const Paths& paths, std::uint32_t a, std::uint32_t b) {
  const auto lines = [&](std::uint32_t node) {
    return std::ranges::equal_range(paths.lines_of_node, node, {},
                                    &std::pair<std::uint32_t, std::uint32_t>::first);
  };
  for (const auto& [node, line] : lines(a)) {
    for (const auto& [other, same] : lines(b)) {
      if (line == same) return line;
    }
  }
  return no_parent;
}

}  // namespace lodeway::route
