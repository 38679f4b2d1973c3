#include "lodeway/walkers/world.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/walkers/manner.hpp"
#include "lodeway/walking/time_model.hpp"

namespace lodeway::walkers {

namespace {
constexpr double bucket_m = 50;
constexpr int pace_entries = 301;
double pace_slope(int entry) { return 0.01 * (entry - 150); }

std::vector<float> pace_table(const walking::Party& party, bool on_path, double factor) {
  std::vector<float> table(pace_entries);
  for (int i = 0; i < pace_entries; ++i) {
    table[static_cast<std::size_t>(i)] = static_cast<float>(
        std::max(walking::pace_s_per_m(party.model, pace_slope(i), on_path, party.flat_speed_kmh,
                                       std::max(factor, 0.05)),
                 1 / fastest_m_s));
  }
  return table;
}
}  // namespace

World::World(const walking::Ground& ground, const walking::Cover& cover,
             const reckoning::Judge& judge, const sight::CuePlanes& planes,
             double failing)
    : ground_(ground),
      cover_(cover),
      judge_(judge),
      planes_(planes),
      net_(judge.guides().fixes().network()),
      perception_(sight::perception_of(judge.party().skill)) {
  const auto& party = judge.party();
  visibility_ = {party.visibility, mapdata::Visibility::night};
  walking::Party at_night = party;
  at_night.visibility = mapdata::Visibility::night;
  errors_ = {judge.errors(), reckoning::errors_of(at_night)};
  const auto chances = sight::Chances(party.chances).with_failing(failing);
  for (std::size_t a = 0; a < 2; ++a) {
    own_[a] = sight::chances_of(party, visibility_[a], failing);
    for (int of = 0; of < sight::chance_count; ++of) {
      for (int k = 0; k < sight::kind_class_count; ++k) {
        chances_[a][static_cast<std::size_t>(of)][static_cast<std::size_t>(k)] =
            chances
                .of(static_cast<sight::ChanceOf>(of), static_cast<sight::KindClass>(k),
                    visibility_[a], party.skill)
                .value;
      }
    }
  }
  for (int s = 0; s < sight::setting_count; ++s) {
    settings_[static_cast<std::size_t>(s)] =
        chances.of(static_cast<sight::Setting>(s), party.skill).value;
  }
  std::array<double, mapdata::kind_count> factor{};
  const auto& f = cover.frame();
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c)
      factor[static_cast<std::size_t>(cover.kind(r, c))] = static_cast<double>(cover.factor(r, c));
  }
  for (std::size_t k = 0; k < open_pace_.size(); ++k) {
    const auto kind = static_cast<mapdata::Kind>(k);
    open_pace_[k] = pace_table(party, false, factor[k] > 0 ? factor[k] : 0.8);
    line_pace_[k] =
        pace_table(party, walking::is_path(kind), std::max(ground.kinds[kind].speed_factor, 0.2));
  }
  for (std::size_t t = 0; t < planes.things.size(); ++t) {
    if (t < planes.views.size() && !planes.views[t].empty())
      tops_.push_back(static_cast<std::int32_t>(t));
  }
  index_lines();
}

void World::index_lines() {
  const auto edges = net_.edges();
  const auto& f = ground_.elevation.frame();
  west_ = f.west_m;
  north_ = f.north_m;
  rows_ = std::max(1, static_cast<int>(std::ceil((f.north_m - f.south_m()) / bucket_m)));
  cols_ = std::max(1, static_cast<int>(std::ceil((f.east_m() - f.west_m) / bucket_m)));
  for (std::uint32_t e = 0; e < edges.size(); ++e) {
    edge_kind_.push_back(ground_.map.lines[edges[e].line].label.kind);
    at_.push_back(mapdata::distances_along(edges[e].points));
    for (std::size_t i = 1; i < edges[e].points.size(); ++i)
      pieces_.push_back(
          {edges[e].points[i - 1], edges[e].points[i], e, static_cast<float>(at_[e][i - 1])});
  }
  const auto cells = [&](const Piece& p, auto&& use) {
    const auto col = [&](double x) {
      return std::clamp(static_cast<int>((x - west_) / bucket_m), 0, cols_ - 1);
    };
    const auto row = [&](double y) {
      return std::clamp(static_cast<int>((north_ - y) / bucket_m), 0, rows_ - 1);
    };
    const auto [c0, c1] = std::minmax({col(p.a.east_m), col(p.b.east_m)});
    const auto [r0, r1] = std::minmax({row(p.a.north_m), row(p.b.north_m)});
    for (int r = r0; r <= r1; ++r) {
      for (int c = c0; c <= c1; ++c)
        use(static_cast<std::size_t>(r) * static_cast<std::size_t>(cols_) +
            static_cast<std::size_t>(c));
    }
  };
  start_.assign(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(cols_) + 1, 0);
  for (const Piece& p : pieces_) cells(p, [&](std::size_t i) { ++start_[i + 1]; });
  for (std::size_t i = 1; i < start_.size(); ++i) start_[i] += start_[i - 1];
  items_.resize(start_.back());
  auto fill = start_;
  for (std::uint32_t k = 0; k < pieces_.size(); ++k)
    cells(pieces_[k], [&](std::size_t i) { items_[fill[i]++] = k; });
}

double World::height(GridPoint p) const {
  const auto& z = ground_.elevation;
  const auto& f = z.frame();
  constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
  if (f.rows < 2 || f.cols < 2 || !f.contains(p)) return unknown;
  const double c = std::clamp(f.col_of(p), 0.0, f.cols - 1.0),
               r = std::clamp(f.row_of(p), 0.0, f.rows - 1.0);
  const int ci = std::min(static_cast<int>(c), f.cols - 2),
            ri = std::min(static_cast<int>(r), f.rows - 2);
  const double u = c - ci, v = r - ri;
  const float* at = z.cells().data() +
                    static_cast<std::size_t>(ri) * static_cast<std::size_t>(f.cols) +
                    static_cast<std::size_t>(ci);
  const auto nw = static_cast<double>(at[0]), ne = static_cast<double>(at[1]),
             sw = static_cast<double>(at[f.cols]), se = static_cast<double>(at[f.cols + 1]);
  const double north = nw + u * (ne - nw), south = sw + u * (se - sw);
  const double height = north + v * (south - north);
  return std::abs(height) < static_cast<double>(terrain::no_height) ? height : unknown;
}

Surface World::surface(GridPoint p) const {
  const auto& f = cover_.frame();
  const auto [r, c] = f.cell_of(p);
  const auto kind = f.holds(r, c) ? cover_.kind(r, c) : mapdata::Kind::other;
  return {static_cast<std::uint8_t>(kind), false};
}

double World::seconds_per_m(Surface s, double slope) const {
  const auto entry = static_cast<std::size_t>(std::clamp(slope, -1.49, 1.49) * 100 + 150.5);
  return static_cast<double>((s.line ? line_pace_ : open_pace_)[s.kind][entry]);
}

walking::Bar World::bar(GridPoint p) const {
  const auto& f = cover_.frame();
  const auto [r, c] = f.cell_of(p);
  if (!f.holds(r, c)) return walking::Bar::none;
  const auto bar = cover_.bar(r, c);
  return bar == walking::Bar::void_height ? walking::Bar::none : bar;
}

void World::lines_met(GridPoint a, GridPoint b, std::vector<LineMet>& out) const {
  out.clear();
  const int c0 = static_cast<int>(std::floor((std::min(a.east_m, b.east_m) - west_) / bucket_m)),
            c1 = static_cast<int>(std::floor((std::max(a.east_m, b.east_m) - west_) / bucket_m)),
            r0 = static_cast<int>(std::floor((north_ - std::max(a.north_m, b.north_m)) / bucket_m)),
            r1 = static_cast<int>(std::floor((north_ - std::min(a.north_m, b.north_m)) / bucket_m));
  const GridPoint d = b - a;
  for (int r = std::max(r0, 0); r <= std::min(r1, rows_ - 1); ++r) {
    for (int c = std::max(c0, 0); c <= std::min(c1, cols_ - 1); ++c) {
      const std::size_t i = static_cast<std::size_t>(r) * static_cast<std::size_t>(cols_) +
                            static_cast<std::size_t>(c);
      for (std::uint32_t k = start_[i]; k < start_[i + 1]; ++k) {
        const Piece& p = pieces_[items_[k]];
        const GridPoint e = p.b - p.a, w = p.a - a;
        const double det = mapdata::cross(d, e);
        if (det == 0) continue;
        const double t = mapdata::cross(w, e) / det, u = mapdata::cross(w, d) / det;
        if (t < 0 || t > 1 || u < 0 || u > 1) continue;
        if (std::ranges::any_of(out, [&](const LineMet& m) { return m.edge == p.edge; })) continue;
        out.push_back({p.edge, static_cast<double>(p.along) + u * earth::length_of(e), t});
      }
    }
  }
  if (out.size() > 1) {
    std::ranges::sort(out, [](const LineMet& x, const LineMet& y) {
      return x.fraction != y.fraction ? x.fraction < y.fraction : x.edge < y.edge;
    });
  }
}

GridPoint World::on_edge(std::uint32_t edge, double along) const {
  const auto& points = net_.edges()[edge].points;
  const auto& at = at_[edge];
  const auto next = std::ranges::upper_bound(at, along);
  if (next == at.end()) return points.back();
  const auto i = static_cast<std::size_t>(next - at.begin());
  if (i == 0) return points.front();
  const double length = at[i] - at[i - 1];
  return points[i - 1] + ((along - at[i - 1]) / length) * (points[i] - points[i - 1]);
}

}  // namespace lodeway::walkers
