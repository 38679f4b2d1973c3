#include "lodeway/mapdata/network.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {

namespace {

constexpr double same_m = 0.01;

/// Where a line is to be cut: at a node.
struct Cut {
  double along_m;
  std::uint32_t node;
  friend auto operator<=>(const Cut&, const Cut&) = default;
};

/// Gathers nodes in the order in which they are met; a later place within snap_m is the same node.
class Nodes {
 public:
  explicit Nodes(double snap_m) : snap_m_(snap_m), cell_m_(std::max(snap_m, same_m)) {}
  std::uint32_t at(GridPoint p) {
    const auto r = static_cast<long long>(std::floor(p.north_m / cell_m_)),
               c = static_cast<long long>(std::floor(p.east_m / cell_m_));
    double least = snap_m_;
    std::uint32_t best = no_edge;
    for (auto i = r - 1; i <= r + 1; ++i) {
      for (auto j = c - 1; j <= c + 1; ++j) {
        const auto found = cells_.find({i, j});
        if (found == cells_.end()) continue;
        for (const auto n : found->second) {
          const double d = earth::grid_distance_m(p, places_[n]);
          if (d < least || (d == least && n < best)) {
            least = d;
            best = n;
          }
        }
      }
    }
    if (best != no_edge) return best;
    places_.push_back(p);
    const auto n = static_cast<std::uint32_t>(places_.size() - 1);
    cells_[{r, c}].push_back(n);
    return n;
  }
  [[nodiscard]] const std::vector<GridPoint>& places() const { return places_; }

 private:
  double snap_m_, cell_m_;
  std::vector<GridPoint> places_;
  std::map<std::pair<long long, long long>, std::vector<std::uint32_t>> cells_;
};

bool apart(const LineFeature& l) { return l.bridge || l.tunnel; }

class Builder {
 public:
  Builder(std::span<const LineFeature> lines, const std::function<bool(const LineFeature&)>& take,
          double snap_m)
      : lines_(lines), snap_m_(snap_m), nodes_(snap_m), index_(lines), cuts_(lines.size()) {
    for (const auto& l : lines) {
      taken_.push_back(l.points.size() >= 2 && take(l));
      measured_.push_back(taken_.back() ? distances_along(l.points) : std::vector<double>{});
    }
  }

  void run() {
    for (std::uint32_t l = 0; l < lines_.size(); ++l) {
      if (taken_[l]) touches_of(l);
    }
    for (std::uint32_t l = 0; l < lines_.size(); ++l) {
      if (taken_[l]) crossings_of(l);
    }
    for (std::uint32_t l = 0; l < lines_.size(); ++l) {
      if (taken_[l]) ends_of(l);
    }
    for (std::uint32_t l = 0; l < lines_.size(); ++l) {
      if (taken_[l]) split(l);
    }
  }

  std::vector<NetworkNode> take_nodes() {
    std::vector<NetworkNode> out;
    for (const auto p : nodes_.places()) out.push_back({p, {}});
    for (std::uint32_t e = 0; e < edges.size(); ++e) {
      out[edges[e].from].edges.push_back(e);
      out[edges[e].to].edges.push_back(e);
    }
    return out;
  }
  std::vector<NetworkEdge> edges;
  std::vector<Overpass> overpasses;

 private:
  [[nodiscard]] double end_m(std::uint32_t l) const { return measured_[l].back(); }
  [[nodiscard]] bool is_end(std::uint32_t l, double along) const {
    return along <= same_m || along >= end_m(l) - same_m;
  }
  /// May the line join others here? A bridge or tunnel only at its ends.
  [[nodiscard]] bool open(std::uint32_t l, double along) const {
    return !apart(lines_[l]) || is_end(l, along);
  }
  void cut(std::uint32_t l, double along, std::uint32_t node) { cuts_[l].push_back({along, node}); }

  /// Does line `other` run along a segment? Judged by its end and its middle.
  [[nodiscard]] bool together(std::uint32_t other, GridPoint a, GridPoint b) const {
    const auto on = [&](GridPoint p) {
      const auto near = index_.near(p, same_m);
      return std::ranges::any_of(near, [&](const NearLine& n) { return n.ref.line == other; });
    };
    return on(0.5 * (a + b)) && on(b);
  }

  /// Points of the line that lie on another: shared vertices, and ends drawn onto a line.
  void touches_of(std::uint32_t l) {
    const auto& p = lines_[l].points;
    for (std::size_t i = 0; i < p.size(); ++i) {
      const double along = measured_[l][i];
      for (const auto& n : index_.near(p[i], same_m)) {
        const auto other = n.ref.line;
        if (other == l || !taken_[other]) continue;
        if (!open(l, along) || !open(other, n.along_m)) {
          note_overpass(l, other, p[i]);
          continue;
        }
        const bool inner = i > 0 && i + 1 < p.size() && !is_end(other, n.along_m);
        if (inner && together(other, p[i], p[i - 1]) && together(other, p[i], p[i + 1])) continue;
        const auto node = nodes_.at(p[i]);
        cut(l, along, node);
        cut(other, n.along_m, node);
      }
    }
    for (std::size_t i = 0; i < p.size(); ++i) {  // a line that comes back to its own point
      if (const auto [found, fresh] = own_.try_emplace({p[i].east_m, p[i].north_m}, i); !fresh) {
        const auto node = nodes_.at(p[i]);
        cut(l, measured_[l][found->second], node);
        cut(l, measured_[l][i], node);
      }
    }
    own_.clear();
  }

  void crossings_of(std::uint32_t l) {
    const auto& p = lines_[l].points;
    for (std::uint32_t s = 0; s + 1 < p.size(); ++s) {
      const double run = measured_[l][s + 1] - measured_[l][s];
      for (const auto& c : index_.crossings(p[s], p[s + 1])) {
        const auto other = c.ref.line;
        if (!taken_[other] || other < l || (other == l && c.ref.segment <= s + 1)) continue;
        const double along = measured_[l][s] + c.at_fraction * run;
        const double there = measured_[other][c.ref.segment] +
                             earth::grid_distance_m(lines_[other].points[c.ref.segment], c.at);
        if (other == l && earth::grid_distance_m(p.front(), p.back()) <= same_m &&
            is_end(l, along) && is_end(l, there))
          continue;  // a ring closes
        if (!open(l, along) || !open(other, there)) {
          note_overpass(l, other, c.at);
          continue;
        }
        const auto node = nodes_.at(c.at);
        cut(l, along, node);
        cut(other, there, node);
      }
    }
  }

  /// Both ends become nodes, joined to what they nearly reach.
  void ends_of(std::uint32_t l) {
    const auto& p = lines_[l].points;
    for (const bool last : {false, true}) {
      const auto end = last ? p.back() : p.front();
      const double along = last ? end_m(l) : 0;
      if (std::ranges::any_of(cuts_[l],
                              [&](const Cut& c) { return std::abs(c.along_m - along) <= same_m; }))
        continue;
      const NearLine* best = nullptr;
      const auto near = index_.near(end, snap_m_);
      for (const auto& n : near) {
        const auto other = n.ref.line;
        if (other == l || !taken_[other]) continue;
        const bool ends_meet = is_end(other, n.along_m);
        if (!ends_meet && (apart(lines_[l]) || apart(lines_[other]))) continue;
        if (best == nullptr || n.distance_m < best->distance_m) best = &n;
      }
      const auto node = nodes_.at(best == nullptr ? end : best->at);
      cut(l, along, node);
      if (best != nullptr) cut(best->ref.line, best->along_m, node);
    }
  }

  void split(std::uint32_t l) {
    auto& cuts = cuts_[l];
    std::ranges::sort(cuts);
    const auto& places = nodes_.places();
    const Measured measured(lines_[l].points);
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const auto &a = cuts[i], &b = cuts[i + 1];
      // What lies within one node is no stretch.
      if (a.node == b.node && b.along_m - a.along_m <= 2 * snap_m_ + same_m) continue;
      NetworkEdge edge{l, a.node, b.node, {places[a.node]}, 0};
      const auto piece = measured.piece(a.along_m, b.along_m);
      for (std::size_t k = 1; k + 1 < piece.size(); ++k) {
        // A point that the node has swallowed would turn the line back on itself.
        if (earth::grid_distance_m(piece[k], places[a.node]) > same_m &&
            earth::grid_distance_m(piece[k], places[b.node]) > same_m)
          edge.points.push_back(piece[k]);
      }
      edge.points.push_back(places[b.node]);
      edge.length_m = mapdata::length_m(edge.points);
      edges.push_back(std::move(edge));
    }
  }

  void note_overpass(std::uint32_t a, std::uint32_t b, GridPoint at) {
    const auto &x = lines_[a], &y = lines_[b];
    const bool a_over = x.bridge != y.bridge ? x.bridge : y.tunnel;
    const Overpass found{a_over ? a : b, a_over ? b : a, at};
    const auto near = [&](const Overpass& o) {
      return o.over == found.over && o.under == found.under &&
             earth::grid_distance_m(o.at, at) <= same_m;
    };
    if (std::ranges::none_of(overpasses, near)) overpasses.push_back(found);
  }

  std::span<const LineFeature> lines_;
  double snap_m_;
  Nodes nodes_;
  LineIndex index_;
  std::vector<bool> taken_;
  std::vector<std::vector<double>> measured_;
  std::vector<std::vector<Cut>> cuts_;
  std::map<std::pair<double, double>, std::size_t> own_;
};

}  // namespace

Network::Network(std::span<const LineFeature> lines,
                 const std::function<bool(const LineFeature&)>& take, double snap_m) {
  Builder builder(lines, take, snap_m);
  builder.run();
  nodes_ = builder.take_nodes();
  edges_ = std::move(builder.edges);
  overpasses_ = std::move(builder.overpasses);
  std::vector<LineFeature> as_lines;
  for (const auto& e : edges_) as_lines.push_back({{}, e.points});
  index_ = LineIndex(as_lines);
}

}  // namespace lodeway::mapdata
