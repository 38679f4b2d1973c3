#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <queue>
#include <set>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"
#include "lodeway/mapdata/line_index.hpp"

namespace lodeway::fells {

namespace {

using earth::GridPoint;
using mapdata::Kind;

struct Wish {
  Kind kind;
  std::string_view name;
  std::vector<GridPoint> through;
};

GridPoint named(std::span<const design::Name> names, std::string_view wanted) {
  const auto found = std::ranges::find(names, wanted, &design::Name::name);
  return design::place(found->x_km, found->y_km);
}

/// In the order of building: later ways run along earlier ones where that is easier.
std::vector<Wish> wishes() {
  const auto farm = [](std::string_view n) { return named(design::farms(), n); };
  const auto gap = [](std::string_view n) { return named(design::saddles(), n); };
  const auto top = [](std::string_view n) { return named(design::summits(), n); };
  const auto bridge = [](std::string_view n) { return named(design::bridges(), n); };
  const auto at = design::place;
  return {
      {Kind::road, "Ostreldale road",
       {at(0.05, 4.15), named(design::settlements(), "Ostrel Foot"), bridge("Hosk Bridge"), named(design::settlements(), "Hosk"), bridge("Fallow Bridge"), bridge("Withen Bridge"), bridge("Twin Bridge"), farm("Easter House"), gap("Easter Gap"), at(11.95, 5.0)}},
      {Kind::track, "", {farm("Tarn House"), at(2.0, 5.5), farm("Nether Hosk")}},
      {Kind::track, "", {farm("Grethe House"), named(design::settlements(), "Grethe Foot"), at(1.95, 11.95)}},
      {Kind::track, "", {farm("Mickle House"), at(5.85, 11.95)}},
      {Kind::track, "", {farm("Corrow House"), at(1.6, 3.4), bridge("Hosk Bridge")}},
      {Kind::track, "", {farm("Ravock House"), at(11.95, 6.9)}},
      {Kind::track, "", {farm("Mornel House"), at(7.3, 11.95)}},
      {Kind::path, "Hause path", {bridge("Fallow Bridge"), farm("Fallow House"), gap("Low Hause"), at(3.95, 6.1), farm("Tarn House")}},
      {Kind::path, "", {gap("Low Hause"), gap("Quenna Hause")}},
      {Kind::path, "Kell path", {bridge("Withen Bridge"), farm("Withen House"), at(5.78, 5.9), gap("Kell Gap"), at(5.85, 8.2), at(5.3, 9.3), farm("Mickle House")}},
      {Kind::path, "", {at(5.3, 9.3), at(4.3, 9.2), farm("Grethe House")}},
      {Kind::path, "Twin path", {bridge("Twin Bridge"), at(8.05, 5.9), gap("Mornel Hause"), at(7.45, 8.4), farm("Mornel House")}},
      {Kind::path, "", {farm("Corrow House"), gap("Corrow Gap"), at(6.3, 1.2), at(5.9, 0.05)}},
      {Kind::path, "", {farm("Ravock House"), at(10.9, 7.9)}},
      {Kind::faint_path, "", {gap("Kell Gap"), top("Harrik Pike")}},
      {Kind::faint_path, "", {at(2.5, 8.0), gap("Brennow Hause"), top("Great Skarrow")}},
      {Kind::faint_path, "", {gap("Mornel Hause"), top("Sorrel Top"), top("Hethra Pike"), top("Cawdrow Hill")}},
      {Kind::faint_path, "", {gap("Low Hause"), top("Sallow Knott")}},
      {Kind::faint_path, "", {gap("Corrow Gap"), top("Corrow Fell")}},
      {Kind::path, "", {farm("Grethe House"), at(2.95, 9.4), at(2.5, 8.0)}},
  };
}

/// Ways on a lattice of 20 m: cells of it are the vertices, so that ways share theirs.
class Network {
 public:
  explicit Network(const Land& land) : land_(land), n_(land.heights.rows() / 2) {}

  void build(const Wish& wish) {
    for (std::size_t i = 1; i < wish.through.size(); ++i) {
      const auto way = quickest(cell(wish.through[i - 1]), cell(wish.through[i]), wish.kind);
      for (std::size_t k = 1; k < way.size(); ++k) {
        const auto key = std::minmax(way[k - 1], way[k]);
        if (edges_.try_emplace(key, Made{wish.kind, wish.name}).second) {
          joined_[way[k - 1]].insert(way[k]);
          joined_[way[k]].insert(way[k - 1]);
        }
      }
    }
  }

  /// Chains between junctions, ends and changes of kind, as smooth lines.
  void draw(mapdata::MapData& map) const {
    std::set<std::pair<int, int>> done;
    for (const auto& [from, ends] : joined_) {
      if (!stays(from)) continue;
      for (const int to : ends) chain(from, to, done, map);
    }
    for (const auto& [key, made] : edges_) {  // what is left lies on rings without a junction
      if (!done.contains(key)) chain(key.first, key.second, done, map);
    }
  }

 private:
  struct Made {
    Kind kind;
    std::string_view name;
    friend bool operator==(const Made&, const Made&) = default;
  };
  [[nodiscard]] int cell(GridPoint p) const {
    const int r = std::clamp(static_cast<int>((design::south_m + design::size_m - p.north_m) / 20), 0, n_ - 1);
    const int c = std::clamp(static_cast<int>((p.east_m - design::west_m) / 20), 0, n_ - 1);
    return r * n_ + c;
  }
  [[nodiscard]] GridPoint place(int k) const {
    return {design::west_m + 20 * (k % n_ + 0.5), design::south_m + design::size_m - 20 * (k / n_ + 0.5)};
  }
  [[nodiscard]] double height(int k) const { return land_.heights[2 * (k / n_), 2 * (k % n_)]; }
  [[nodiscard]] bool wet(int k) const {
    const int r = 2 * (k / n_), c = 2 * (k % n_);
    return land_.wet[r, c] != 0 || land_.wet[r + 1, c] != 0 || land_.wet[r, c + 1] != 0 || land_.wet[r + 1, c + 1] != 0;
  }
  [[nodiscard]] bool stream(int k) const {
    const int r = 2 * (k / n_), c = 2 * (k % n_);
    double most = 0;
    for (int i = 0; i < 4; ++i) most = std::max(most, land_.flow.area_m2[static_cast<std::size_t>((r + i / 2) * land_.heights.cols() + c + i % 2)]);
    return most > 0.35e6;
  }
  [[nodiscard]] const Made& made(int a, int b) const { return edges_.at(std::minmax(a, b)); }
  [[nodiscard]] bool stays(int k) const {
    const auto& j = joined_.at(k);
    return j.size() != 2 || !(made(k, *j.begin()) == made(k, *j.rbegin()));
  }

  [[nodiscard]] std::vector<int> quickest(int from, int to, Kind kind) const {
    const double steepness = kind == Kind::road ? 130 : kind == Kind::track ? 70 : 28;
    std::vector<float> cost(static_cast<std::size_t>(n_ * n_), 1e30F);
    std::vector<int> before(cost.size(), -1);
    using Item = std::pair<float, int>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
    cost[static_cast<std::size_t>(from)] = 0;
    heap.emplace(0.0F, from);
    constexpr std::array<std::array<int, 2>, 16> steps{{{0, 1}, {1, 0}, {0, -1}, {-1, 0}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1},
                                                         {1, 2}, {2, 1}, {-1, 2}, {-2, 1}, {1, -2}, {2, -1}, {-1, -2}, {-2, -1}}};
    while (!heap.empty()) {
      const auto [d, k] = heap.top();
      heap.pop();
      if (k == to) break;
      if (d > cost[static_cast<std::size_t>(k)]) continue;
      for (const auto& [dr, dc] : steps) {
        const int r = k / n_ + dr, c = k % n_ + dc;
        if (r < 0 || c < 0 || r >= n_ || c >= n_) continue;
        const int m = r * n_ + c;
        const bool known = edges_.contains(std::minmax(k, m));
        if (wet(m) && m != to && !known) continue;
        const double run = 20 * std::hypot(dr, dc), slope = (height(m) - height(k)) / run;
        double s = run * (1 + steepness * slope * slope) + (stream(m) ? (kind == Kind::road ? 220 : 25) : 0);
        if (known) s = 0.45 * run;
        const auto sum = d + static_cast<float>(s);
        if (sum >= cost[static_cast<std::size_t>(m)]) continue;
        cost[static_cast<std::size_t>(m)] = sum;
        before[static_cast<std::size_t>(m)] = k;
        heap.emplace(sum, m);
      }
    }
    std::vector<int> out;
    for (int k = to; k >= 0; k = before[static_cast<std::size_t>(k)]) out.push_back(k);
    std::ranges::reverse(out);
    return out;
  }

  void chain(int from, int to, std::set<std::pair<int, int>>& done, mapdata::MapData& map) const {
    if (done.contains(std::minmax(from, to))) return;
    const Made what = made(from, to);
    mapdata::LineFeature line{{what.kind, std::string(what.name)}, {place(from)}};
    while (true) {
      done.insert(std::minmax(from, to));
      line.points.push_back(place(to));
      if (stays(to)) break;
      const auto& j = joined_.at(to);
      const int next = *j.begin() == from ? *j.rbegin() : *j.begin();
      if (done.contains(std::minmax(to, next))) break;
      from = to;
      to = next;
    }
    line.points = smoothed(std::move(line.points), 2);
    map.lines.push_back(std::move(line));
  }

  const Land& land_;
  int n_;
  std::map<std::pair<int, int>, Made> edges_;
  std::map<int, std::set<int>> joined_;
};

/// Bridges for road and track, and for paths over a river; fords for paths through becks.
void add_crossings(mapdata::MapData& map, std::size_t first_way) {
  const mapdata::LineIndex index(map.lines);
  std::vector<GridPoint> taken;
  for (auto l = first_way; l < map.lines.size(); ++l) {
    const auto way = map.lines[l];
    for (std::size_t i = 1; i < way.points.size(); ++i) {
      for (const auto& c : index.crossings(way.points[i - 1], way.points[i])) {
        const auto water = map.lines[c.ref.line].label.kind;
        if (water != Kind::stream && water != Kind::river) continue;
        if (std::ranges::any_of(taken, [&](GridPoint p) { return earth::grid_distance_m(p, c.at) < 40; })) continue;
        taken.push_back(c.at);
        const bool bridge = water == Kind::river || way.label.kind == Kind::road || way.label.kind == Kind::track;
        std::string name;
        for (const auto& b : design::bridges()) {
          if (bridge && earth::grid_distance_m(design::place(b.x_km, b.y_km), c.at) < 350 &&
              std::ranges::none_of(map.points, [&](const auto& p) { return p.label.name == b.name; })) {
            name = b.name;
          }
        }
        map.points.push_back({{bridge ? Kind::bridge : Kind::ford, name}, c.at, std::nan("")});
      }
    }
  }
}

}  // namespace

void add_ways(const Land& land, mapdata::MapData& map) {
  Network network(land);
  for (const auto& wish : wishes()) network.build(wish);
  const auto first = map.lines.size();
  network.draw(map);
  add_crossings(map, first);
}

}  // namespace lodeway::fells
