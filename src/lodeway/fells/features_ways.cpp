#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <set>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"
#include "lodeway/fells/noise.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/polyline.hpp"

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

/// Where the relief has it, or else where it is drawn.
GridPoint named(const std::vector<NamedPlace>& on_land, std::span<const design::Name> drawn,
                std::string_view wanted) {
  const auto found = std::ranges::find(on_land, wanted, &NamedPlace::name);
  return found != on_land.end() ? found->at : named(drawn, wanted);
}

/// In the order of building: later ways run along earlier ones where that is easier.
std::vector<Wish> wishes(const Land& land) {
  const auto farm = [](std::string_view n) { return named(design::farms(), n); };
  const auto gap = [&](std::string_view n) { return named(land.saddles, design::saddles(), n); };
  const auto top = [&](std::string_view n) { return named(land.summits, design::summits(), n); };
  const auto bridge = [](std::string_view n) { return named(design::bridges(), n); };
  const auto at = design::place;
  return {
      {Kind::road,
       "Ostreldale road",
       {at(0.05, 4.15), named(design::settlements(), "Ostrel Foot"), bridge("Hosk Bridge"),
        named(design::settlements(), "Hosk"), bridge("Fallow Bridge"), bridge("Withen Bridge"),
        bridge("Twin Bridge"), farm("Easter House"), gap("Easter Gap"), at(11.95, 5.0)}},
      {Kind::track, "", {farm("Tarn House"), at(2.0, 5.5), farm("Nether Hosk")}},
      {Kind::track,
       "",
       {farm("Grethe House"), named(design::settlements(), "Grethe Foot"), at(1.95, 11.95)}},
      {Kind::track, "", {farm("Mickle House"), at(5.85, 11.95)}},
      {Kind::track, "", {farm("Corrow House"), at(1.6, 3.4), bridge("Hosk Bridge")}},
      {Kind::track, "", {farm("Ravock House"), at(11.95, 6.9)}},
      {Kind::track, "", {farm("Mornel House"), at(7.3, 11.95)}},
      {Kind::path,
       "Hause path",
       {bridge("Fallow Bridge"), farm("Fallow House"), gap("Low Hause"), at(3.95, 6.1),
        farm("Tarn House")}},
      {Kind::path, "", {gap("Low Hause"), gap("Quenna Hause")}},
      {Kind::path,
       "Kell path",
       {bridge("Withen Bridge"), farm("Withen House"), at(5.78, 5.9), gap("Kell Gap"),
        at(5.85, 8.2), at(5.3, 9.3), farm("Mickle House")}},
      {Kind::path, "", {at(5.3, 9.3), at(4.3, 9.2), farm("Grethe House")}},
      {Kind::path,
       "Twin path",
       {bridge("Twin Bridge"), at(8.05, 5.9), gap("Mornel Hause"), at(7.45, 8.4),
        farm("Mornel House")}},
      {Kind::path, "", {farm("Corrow House"), gap("Corrow Gap"), at(6.3, 1.2), at(5.9, 0.05)}},
      {Kind::path, "", {farm("Ravock House"), at(10.9, 7.9)}},
      {Kind::path, "Ravock path", {farm("Easter House"), at(10.2, 6.2), farm("Ravock House")}},
      {Kind::faint_path, "", {gap("Kell Gap"), top("Harrik Pike")}},
      {Kind::faint_path, "", {at(2.5, 8.0), gap("Brennow Hause"), top("Great Skarrow")}},
      {Kind::faint_path,
       "",
       {gap("Mornel Hause"), top("Sorrel Top"), top("Hethra Pike"), top("Cawdrow Hill")}},
      {Kind::faint_path, "", {gap("Low Hause"), top("Sallow Knott")}},
      {Kind::faint_path, "", {gap("Corrow Gap"), top("Corrow Fell")}},
      {Kind::path, "", {farm("Grethe House"), at(2.95, 9.4), at(2.5, 8.0)}},
  };
}

/// Ways on a lattice of 20 m: cells of it are the vertices, so that ways share theirs.
class Network {
 public:
  explicit Network(const Land& land)
      : land_(land),
        n_(land.heights.rows() / 2),
        cells_(static_cast<std::size_t>(n_ * n_)),
        water_(cells_.size(), 0.0),
        land_bank_(cells_.size(), 0) {
    for (int k = 0; k < n_ * n_; ++k) {
      const int r = 2 * (k / n_), c = 2 * (k % n_);
      auto& here = cells_[static_cast<std::size_t>(k)];
      here.height_m = land_.heights[r, c];
      here.wet = std::max({land_.wet[r, c], land_.wet[r + 1, c], land_.wet[r, c + 1],
                           land_.wet[r + 1, c + 1]}) != 0;
      here.rough = 0.7 + 0.9 * lattice_unit(land_.seed + 91, k / n_, k % n_);
      for (int i = 0; i < 4; ++i) {
        water_[static_cast<std::size_t>(k)] = std::max(
            water_[static_cast<std::size_t>(k)],
            land_.flow
                .area_m2[static_cast<std::size_t>((r + i / 2) * land_.heights.cols() + c + i % 2)]);
      }
    }
    const auto bed = water_;
    for (int r = 1; r + 1 < n_; ++r) {
      for (int c = 1; c + 1 < n_; ++c) {
        const auto k = static_cast<std::size_t>(r * n_ + c);
        if (bed[k] >= 0.35e6) continue;
        for (int i = 0; i < 9; ++i)
          water_[k] = std::max(water_[k],
                               bed[static_cast<std::size_t>((r + i / 3 - 1) * n_ + c + i % 3 - 1)]);
        land_bank_[k] = 1;
      }
    }
  }

  void build(const Wish& wish) {
    for (std::size_t i = 1; i < wish.through.size(); ++i) {
      const auto way = quickest(cell(wish.through[i - 1]), cell(wish.through[i]), wish.kind);
      for (std::size_t k = 1; k < way.size(); ++k) {
        const auto key = std::minmax(way[k - 1], way[k]);
        if (edges_.try_emplace(key, Made{wish.kind, wish.name}).second) {
          joined_[way[k - 1]].insert(way[k]);
          joined_[way[k]].insert(way[k - 1]);
          mark_built(way[k - 1], way[k]);
          mark_built(way[k], way[k - 1]);
        }
      }
    }
  }

  /// Chains between junctions, ends and changes of kind, as smooth lines.
  [[nodiscard]] std::vector<mapdata::LineFeature> draw() const {
    std::vector<mapdata::LineFeature> lines;
    std::set<std::pair<int, int>> done;
    for (const auto& [from, ends] : joined_) {
      if (!stays(from)) continue;
      for (const int to : ends) chain(from, to, done, lines);
    }
    for (const auto& [key, made] : edges_) {  // what is left lies on rings without a junction
      if (!done.contains(key)) chain(key.first, key.second, done, lines);
    }
    return lines;
  }

 private:
  struct Made {
    Kind kind;
    std::string_view name;
    friend bool operator==(const Made&, const Made&) = default;
  };
  [[nodiscard]] int cell(GridPoint p) const {
    const int r = std::clamp(static_cast<int>((design::south_m + design::size_m - p.north_m) / 20),
                             0, n_ - 1);
    const int c = std::clamp(static_cast<int>((p.east_m - design::west_m) / 20), 0, n_ - 1);
    return r * n_ + c;
  }
  [[nodiscard]] GridPoint place(int k) const {
    return {design::west_m + 20 * (k % n_ + 0.5),
            design::south_m + design::size_m - 20 * (k / n_ + 0.5)};
  }
  /// What the search asks of a cell, side by side in memory.
  struct Cell {
    double height_m = 0;
    double rough = 0;         ///< the ground underfoot differs, so that no way runs dead straight
    std::uint16_t built = 0;  ///< bit i: a way leads on by steps[i]
    bool wet = false;         ///< water stands in it
  };
  static constexpr double lattice_m = 20;
  static constexpr double beaten = 0.45;  ///< a built way's cost beside level open ground's
  static constexpr std::array<std::array<int, 2>, 16> steps{{{0, 1},
                                                             {1, 0},
                                                             {0, -1},
                                                             {-1, 0},
                                                             {1, 1},
                                                             {1, -1},
                                                             {-1, 1},
                                                             {-1, -1},
                                                             {1, 2},
                                                             {2, 1},
                                                             {-1, 2},
                                                             {-2, 1},
                                                             {1, -2},
                                                             {2, -1},
                                                             {-1, -2},
                                                             {-2, -1}}};
  void mark_built(int a, int b) {
    const std::array<int, 2> step{b / n_ - a / n_, b % n_ - a % n_};
    const auto i = std::ranges::find(steps, step) - steps.begin();
    auto& built = cells_[static_cast<std::size_t>(a)].built;
    built = static_cast<std::uint16_t>(built | 1U << i);
  }
  /// Metres of detour that a party, or a builder, takes to keep off this cell's water or its bank.
  [[nodiscard]] double water_cost(int k, Kind kind) const {
    const double water = water_[static_cast<std::size_t>(k)];
    const bool built = kind == Kind::road || kind == Kind::track;
    if (water < 0.35e6) return 0;
    if (land_bank_[static_cast<std::size_t>(k)] != 0) return built ? 14 : 4;
    return water >= 14e6 ? 500 : built ? 220 : 30;
  }
  [[nodiscard]] const Made& made(int a, int b) const { return edges_.at(std::minmax(a, b)); }
  [[nodiscard]] bool stays(int k) const {
    const auto& j = joined_.at(k);
    return j.size() != 2 || !(made(k, *j.begin()) == made(k, *j.rbegin()));
  }

  [[nodiscard]] std::vector<int> quickest(int from, int to, Kind kind) {
    const double steepness = kind == Kind::road ? 130 : kind == Kind::track ? 70 : 28;
    std::vector<float> cost(cells_.size(), 1e30F);
    std::vector<int> before(cost.size(), -1);
    // Cells go by the least that a way through them could cost: what it has cost so far, and the
    // straight rest at the cheapest there is. Those within one bucket in any order: a cell that
    // becomes cheaper afterwards is gone on from once more.
    constexpr float bucket = 8;
    const double cheapest = kind == Kind::road ? 1 : beaten;
    const int to_row = to / n_, to_column = to % n_;
    std::size_t current = 0;
    for (auto& left : buckets_) left.clear();
    const auto reach = [&](float sum, int k, int by) {
      cost[static_cast<std::size_t>(k)] = sum;
      before[static_cast<std::size_t>(k)] = by;
      const double down = k / n_ - to_row, right = k % n_ - to_column;
      const double rest = 0.9999 * cheapest * lattice_m * std::sqrt(down * down + right * right);
      const auto b =
          std::max(current, static_cast<std::size_t>((sum + static_cast<float>(rest)) / bucket));
      if (b >= buckets_.size()) buckets_.resize(b + 512);
      buckets_[b].emplace_back(sum, k);
    };
    reach(0, from, -1);
    std::array<double, steps.size()> runs{};
    for (std::size_t i = 0; i < steps.size(); ++i)
      runs[i] = lattice_m * std::sqrt(steps[i][0] * steps[i][0] + steps[i][1] * steps[i][1]);
    const auto go_on_from = [&](float d, int k) {
      const int row = k / n_, column = k % n_;
      const Cell& here = cells_[static_cast<std::size_t>(k)];
      for (std::size_t i = 0; i < steps.size(); ++i) {
        const int r = row + steps[i][0], c = column + steps[i][1];
        if (r < 0 || c < 0 || r >= n_ || c >= n_) continue;
        const int m = r * n_ + c;
        const float so_far = cost[static_cast<std::size_t>(m)];
        if (so_far <= d) continue;
        const bool known = (here.built >> i & 1U) != 0;
        const Cell& there = cells_[static_cast<std::size_t>(m)];
        if (there.wet && m != to && !known) continue;
        const double run = runs[i], slope = (there.height_m - here.height_m) / run;
        const double rough = kind == Kind::road ? 1 : there.rough;
        double s = run * (rough + steepness * slope * slope) + water_cost(m, kind);
        if (known) s = beaten * run;
        const auto sum = d + static_cast<float>(s);
        if (sum < so_far) {
          reach(sum, m, k);
        } else if (sum == so_far) {  // of two as good, by the one that is reached first
          auto& by = before[static_cast<std::size_t>(m)];
          if (std::pair(d, k) < std::pair(cost[static_cast<std::size_t>(by)], by)) by = k;
        }
      }
    };
    for (; current < buckets_.size(); ++current) {
      if (cost[static_cast<std::size_t>(to)] < bucket * static_cast<float>(current)) break;
      for (std::size_t i = 0; i < buckets_[current].size(); ++i) {
        const auto [d, k] = buckets_[current][i];
        if (d == cost[static_cast<std::size_t>(k)]) go_on_from(d, k);
      }
    }
    std::vector<int> out;
    for (int k = to; k >= 0; k = before[static_cast<std::size_t>(k)]) out.push_back(k);
    std::ranges::reverse(out);
    return out;
  }

  void chain(int from, int to, std::set<std::pair<int, int>>& done,
             std::vector<mapdata::LineFeature>& lines) const {
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
    line.points = mapdata::smoothed(std::move(line.points), 2);
    lines.push_back(std::move(line));
  }

  const Land& land_;
  int n_;
  std::vector<Cell> cells_;
  std::vector<std::vector<std::pair<float, int>>> buckets_;  ///< of the search: cost and cell
  std::vector<double> water_;  ///< most drained ground in the cell or, on a bank, beside it
  std::vector<std::uint8_t> land_bank_;  ///< 1 where the water is beside it only
  std::map<std::pair<int, int>, Made> edges_;
  std::map<int, std::set<int>> joined_;
};

/// Makes `at`, a place on the line, one of its vertices.
void give_vertex(std::vector<GridPoint>& points, GridPoint at) {
  std::size_t after = 0;
  double least = 1e18;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const double detour = distance_m(points[i], at) + distance_m(at, points[i + 1]) -
                          distance_m(points[i], points[i + 1]);
    if (detour < least) {
      least = detour;
      after = i;
    }
  }
  if (points[after] == at || points[after + 1] == at) return;
  points.insert(points.begin() + static_cast<std::ptrdiff_t>(after) + 1, at);
}

struct Meeting {
  std::size_t way, other;
  GridPoint at;
};

/// Where the ways cross lines of the given kinds, those within 40 m of one before left out.
std::vector<Meeting> meetings(const mapdata::MapData& map, std::size_t first_way,
                              std::span<const Kind> kinds) {
  const mapdata::LineIndex index(map.lines);
  std::vector<Meeting> out;
  for (const auto kind : {Kind::road, Kind::track, Kind::path, Kind::faint_path}) {
    for (auto l = first_way; l < map.lines.size(); ++l) {
      if (map.lines[l].label.kind != kind) continue;
      const auto& points = map.lines[l].points;
      for (std::size_t i = 1; i < points.size(); ++i) {
        for (const auto& c : index.crossings(points[i - 1], points[i])) {
          if (std::ranges::find(kinds, map.lines[c.ref.line].label.kind) == kinds.end()) continue;
          if (std::ranges::any_of(out,
                                  [&](const Meeting& m) { return distance_m(m.at, c.at) < 40; }))
            continue;
          out.push_back({l, c.ref.line, c.at});
        }
      }
    }
  }
  return out;
}

/// Bridges for road and track, and for paths over a river; fords for paths through becks. Way and
/// water share the vertex.
void add_crossings(mapdata::MapData& map, std::size_t first_way) {
  constexpr std::array water{Kind::stream, Kind::river};
  for (const auto& m : meetings(map, first_way, water)) {
    const auto way = map.lines[m.way].label.kind;
    const bool bridge =
        map.lines[m.other].label.kind == Kind::river || way == Kind::road || way == Kind::track;
    give_vertex(map.lines[m.way].points, m.at);
    give_vertex(map.lines[m.other].points, m.at);
    map.points.push_back({{bridge ? Kind::bridge : Kind::ford, ""}, m.at, std::nan("")});
  }
  for (const auto& b : design::bridges()) {
    const auto place = design::place(b.x_km, b.y_km);
    mapdata::PointFeature* nearest = nullptr;
    for (auto& p : map.points) {
      if (p.label.kind != Kind::bridge || !p.label.name.empty()) continue;
      if (nearest == nullptr || distance_m(place, p.at) < distance_m(place, nearest->at))
        nearest = &p;
    }
    if (nearest != nullptr && distance_m(place, nearest->at) < 350) nearest->label.name = b.name;
  }
}

/// Gates where ways go through walls and fences.
void add_gates(mapdata::MapData& map, std::size_t first_way, std::size_t past_ways) {
  constexpr std::array barriers{Kind::wall, Kind::fence};
  for (const auto& m : meetings(map, first_way, barriers)) {
    if (m.way >= past_ways) continue;
    give_vertex(map.lines[m.way].points, m.at);
    give_vertex(map.lines[m.other].points, m.at);
    map.points.push_back({{Kind::gate, ""}, m.at, std::nan("")});
  }
}

}  // namespace

std::vector<mapdata::LineFeature> drawn_ways(const Land& land) {
  Network network(land);
  for (const auto& wish : wishes(land)) network.build(wish);
  return network.draw();
}

void add_ways(const Land& land, std::vector<mapdata::LineFeature> ways, mapdata::MapData& map) {
  const auto first = map.lines.size();
  std::ranges::move(ways, std::back_inserter(map.lines));
  add_crossings(map, first);
  const auto past = map.lines.size();
  add_walls(land, map);
  add_gates(map, first, past);
}

}  // namespace lodeway::fells
