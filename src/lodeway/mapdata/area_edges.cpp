#include "lodeway/mapdata/area_edges.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

namespace lodeway::mapdata {

namespace {

using Ring = std::vector<GridPoint>;

/// A piece of outline without direction.
using Piece = std::array<double, 4>;
Piece piece(GridPoint a, GridPoint b) {
  const Piece one{a.east_m, a.north_m, b.east_m, b.north_m},
      other{b.east_m, b.north_m, a.east_m, a.north_m};
  return std::min(one, other);
}

/// Asks fast whether a place lies within an area: only the pieces in its strip of northings.
class Within {
 public:
  explicit Within(const AreaFeature& area) {
    for (const GridPoint p : area.outer) {
      west_ = std::min(west_, p.east_m), east_ = std::max(east_, p.east_m);
      south_ = std::min(south_, p.north_m), north_ = std::max(north_, p.north_m);
    }
    std::size_t count = area.outer.size();
    for (const Ring& hole : area.holes) count += hole.size();
    strips_.resize(std::clamp<std::size_t>(count / 4, 1, 4096));
    add(area.outer);
    for (const Ring& hole : area.holes) add(hole);
  }
  [[nodiscard]] double south() const { return south_; }
  [[nodiscard]] bool holds(GridPoint p) const {
    if (p.east_m < west_ || p.east_m > east_ || p.north_m < south_ || p.north_m > north_)
      return false;
    bool inside = false;
    for (const auto& [a, b] : strips_[strip(p.north_m)]) {
      if ((a.north_m > p.north_m) == (b.north_m > p.north_m)) continue;
      const double t = (p.north_m - a.north_m) / (b.north_m - a.north_m);
      if (p.east_m < a.east_m + t * (b.east_m - a.east_m)) inside = !inside;
    }
    return inside;
  }

 private:
  [[nodiscard]] std::size_t strip(double north) const {
    const double high = north_ - south_;
    const double at = high > 0 ? (north - south_) / high * static_cast<double>(strips_.size()) : 0;
    return std::min(static_cast<std::size_t>(std::max(at, 0.0)), strips_.size() - 1);
  }
  void add(const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const GridPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      const std::size_t low = strip(std::min(a.north_m, b.north_m));
      for (std::size_t s = low; s <= strip(std::max(a.north_m, b.north_m)); ++s)
        strips_[s].push_back({a, b});
    }
  }
  double west_ = std::numeric_limits<double>::infinity(), south_ = west_, east_ = -west_,
         north_ = -west_;
  std::vector<std::vector<std::pair<GridPoint, GridPoint>>> strips_;
};

class Edges {
 public:
  Edges(std::span<const AreaFeature> areas, Kind kind, Kind edge_kind, const Limits& limits)
      : edge_kind_(edge_kind), limits_(limits) {
    for (const AreaFeature& a : areas) {
      if (a.label.kind != kind || a.outer.size() < 3) continue;
      areas_.push_back(&a);
      within_.emplace_back(a);
      for_each_ring(a, [&](const Ring& ring) {
        for (std::size_t i = 0; i < ring.size(); ++i)
          pieces_.push_back(piece(ring[i], ring[(i + 1) % ring.size()]));
      });
    }
    std::ranges::sort(pieces_);
  }

  std::vector<LineFeature> run() {
    for (own_ = 0; own_ < areas_.size(); ++own_) {
      for_each_ring(*areas_[own_], [&](const Ring& ring) { follow(ring); });
    }
    return std::move(out_);
  }

 private:
  template <class Use>
  static void for_each_ring(const AreaFeature& a, Use&& use) {
    use(a.outer);
    for (const Ring& hole : a.holes) use(hole);
  }
  [[nodiscard]] bool on_limits(GridPoint a, GridPoint b) const {
    constexpr double near_m = 1e-6;
    const auto both = [&](double x, double y, double limit) {
      return std::abs(x - limit) < near_m && std::abs(y - limit) < near_m;
    };
    return both(a.east_m, b.east_m, limits_.west_m) || both(a.east_m, b.east_m, limits_.east_m) ||
           both(a.north_m, b.north_m, limits_.south_m) ||
           both(a.north_m, b.north_m, limits_.north_m);
  }
  [[nodiscard]] bool is_edge(GridPoint a, GridPoint b) const {
    if (on_limits(a, b)) return false;
    const auto [first, last] = std::ranges::equal_range(pieces_, piece(a, b));
    if (last - first > 1) return false;
    const GridPoint middle = 0.5 * (a + b);
    for (std::size_t i = 0; i < within_.size(); ++i) {
      if (i != own_ && within_[i].holds(middle) && within_[i].holds(a) && within_[i].holds(b))
        return false;
    }
    return true;
  }
  void follow(const Ring& ring) {
    const std::size_t n = ring.size();
    std::vector<bool> edge(n);
    for (std::size_t i = 0; i < n; ++i) edge[i] = is_edge(ring[i], ring[(i + 1) % n]);
    const auto gap = static_cast<std::size_t>(std::ranges::find(edge, false) - edge.begin());
    Ring line;
    const auto end_line = [&] {
      if (line.size() > 1)
        out_.push_back(
            {{edge_kind_, areas_[own_]->label.name, Origin::from_areas}, std::move(line)});
      line = {};
    };
    const std::size_t start =
        gap == n ? 0 : gap;  // begin at a gap, so that no line is cut at the first point
    for (std::size_t k = 0; k < n; ++k) {
      const std::size_t i = (start + k) % n;
      if (!edge[i]) {
        end_line();
        continue;
      }
      if (line.empty()) line.push_back(ring[i]);
      line.push_back(ring[(i + 1) % n]);
    }
    end_line();
  }

  Kind edge_kind_;
  Limits limits_;
  std::vector<const AreaFeature*> areas_;
  std::vector<Within> within_;
  std::vector<Piece> pieces_;
  std::vector<LineFeature> out_;
  std::size_t own_ = 0;
};

}  // namespace

std::vector<LineFeature> area_edges(std::span<const AreaFeature> areas, Kind kind, Kind edge_kind,
                                    const Limits& limits) {
  return Edges(areas, kind, edge_kind, limits).run();
}

}  // namespace lodeway::mapdata
