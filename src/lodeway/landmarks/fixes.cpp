#include "lodeway/landmarks/fixes.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "lodeway/landmarks/detail/gather.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/quadrature.hpp"

namespace lodeway::landmarks {

namespace {
using mapdata::Kind;

/// Takes fixes one after another; one within reach of an earlier one makes that better known.
class Merging {
 public:
  void add(Fix fix) {
    const auto [r, c] = cell(fix.at);
    double nearest = same_place_m;
    Fix* same = nullptr;
    for (auto i = r - 1; i <= r + 1; ++i) {
      for (auto j = c - 1; j <= c + 1; ++j) {
        const auto found = cells_.find({i, j});
        if (found == cells_.end()) continue;
        for (const auto k : found->second) {
          const double d = earth::grid_distance_m(fixes[k].at, fix.at);
          if (d < nearest) {
            nearest = d;
            same = &fixes[k];
          }
        }
      }
    }
    if (same == nullptr) {
      cells_[{r, c}].push_back(fixes.size());
      fixes.push_back(std::move(fix));
      return;
    }
    for (std::size_t v = 0; v < fix.recognised.size(); ++v) {
      same->recognised[v] = std::max(same->recognised[v], fix.recognised[v]);
      same->seen_from_m[v] = std::max(same->seen_from_m[v], fix.seen_from_m[v]);
    }
    if (same->name.empty() && same->kind == fix.kind) same->name = fix.name;
  }
  std::vector<Fix> fixes;

 private:
  static std::pair<long long, long long> cell(GridPoint p) {
    return {static_cast<long long>(std::floor(p.north_m / same_place_m)),
            static_cast<long long>(std::floor(p.east_m / same_place_m))};
  }
  std::map<std::pair<long long, long long>, std::vector<std::size_t>> cells_;
};

bool on_lines(FixSort s) {
  return s == FixSort::junction || s == FixSort::crossing || s == FixSort::line_end;
}
}  // namespace

double looks_alike(const Fix& seen, const Fix& wanted) {
  if (on_lines(seen.sort) && on_lines(wanted.sort)) {
    // which of the two lines is which is not known beforehand
    const double straight =
        looks_alike(seen.kind, wanted.kind) * looks_alike(seen.second, wanted.second);
    const double crossed =
        looks_alike(seen.kind, wanted.second) * looks_alike(seen.second, wanted.kind);
    return std::max(straight, crossed) * (seen.sort == wanted.sort ? 1 : 0.4);
  }
  if (seen.sort != wanted.sort) {
    const bool both_points = seen.sort <= FixSort::saddle && wanted.sort <= FixSort::saddle;
    return both_points ? looks_alike(seen.kind, wanted.kind) : 0;
  }
  double alike = looks_alike(seen.kind, wanted.kind);
  if (seen.sort == FixSort::inlet || seen.sort == FixSort::outlet)
    alike *= looks_alike(seen.second, wanted.second);
  if ((seen.sort == FixSort::bend || seen.sort == FixSort::corner) &&
      (seen.turn_deg > 0) != (wanted.turn_deg > 0))
    alike *= 0.4;  // to the other hand, for one who follows the line
  return alike;
}

Fixes::Fixes(const terrain::Elevation& heights, const mapdata::MapData& map,
             const mapdata::KindTable& kinds)
    : network_(map.lines, [&](const mapdata::LineFeature& l) {
        return kinds[l.label.kind].leads && !l.tunnel;
      }) {
  const GatherFrom from{heights, map, kinds, network_};
  Merging merging;
  for (auto* gather :
       {fixes_of_points, fixes_of_bridges, fixes_of_lakes, fixes_of_nodes, fixes_of_bends}) {
    for (auto& fix : gather(from)) merging.add(std::move(fix));
  }
  // what can never be seen or known is no fix
  std::erase_if(merging.fixes, [](const Fix& f) {
    return *std::ranges::max_element(f.seen_from_m) <= 0 ||
           *std::ranges::max_element(f.recognised) <= 0;
  });
  fixes_ = std::move(merging.fixes);
  std::vector<GridPoint> places;
  std::vector<std::vector<std::pair<double, std::uint32_t>>> on(network_.edges().size());
  for (std::uint32_t i = 0; i < fixes_.size(); ++i) {
    places.push_back(fixes_[i].at);
    for (const auto& t : network_.touch(fixes_[i].at, on_line_m)) {
      fixes_[i].on.push_back({t.edge, t.along_m, t.away_m});
      on[t.edge].emplace_back(t.along_m, i);
    }
  }
  index_ = mapdata::PointIndex(std::move(places));
  edge_start_.push_back(0);
  for (auto& list : on) {
    std::ranges::sort(list);
    for (const auto& [along, i] : list) edge_items_.push_back(i);
    edge_start_.push_back(static_cast<std::uint32_t>(edge_items_.size()));
  }
}

std::vector<std::uint32_t> Fixes::near(GridPoint p, double radius) const {
  return index_.near(p, radius);
}

std::vector<std::uint32_t> Fixes::along(std::span<const GridPoint> line, double beside) const {
  return index_.near_line(line, beside);
}

std::span<const std::uint32_t> Fixes::on_edge(std::uint32_t edge) const {
  return std::span(edge_items_)
      .subspan(edge_start_[edge], edge_start_[edge + 1] - edge_start_[edge]);
}

Mistaken Fixes::taken_for_another(std::uint32_t fix, const numeric::Covariance& error,
                                  mapdata::Visibility visibility) const {
  constexpr double one_place_m = 25, reach_sigmas = 4, farthest_m = 3000;
  const auto v = static_cast<std::size_t>(visibility);
  const Fix& wanted = fixes_[fix];
  Mistaken out;
  const double major = numeric::axes_of(error).major;
  if (!(major > 0)) return out;
  double none = 1, likeliest = 0;
  // nobody who stands farther off than sight and error together is in question
  constexpr double widest_m = 600;
  const double reach = std::min(reach_sigmas * major + widest_m, farthest_m);
  for (const auto i : index_.near(wanted.at, reach)) {
    const Fix& other = fixes_[i];
    const auto d = other.at - wanted.at;
    const double apart = mapdata::length_of(d), seen = other.seen_from_m[v];
    if (i == fix || apart < one_place_m || seen <= 0) continue;
    if (apart - seen > reach_sigmas * major) continue;
    const double alike = looks_alike(other, wanted) * other.recognised[v];
    if (alike <= 0) continue;
    // In axes towards the other: nearer to it than to the wanted, and within a square of its sight.
    const double azimuth = std::atan2(d.east_m, d.north_m);
    const double along = std::sqrt(error.along(azimuth));
    const double across = std::sqrt(error.along(azimuth + 0.5 * std::numbers::pi));
    const double r =
        along > 0 && across > 0 ? error.along_with_right(azimuth) / (along * across) : 0;
    const double left = across * std::sqrt(std::max(1 - r * r, 0.0));
    const double from = std::max(0.5 * apart, apart - seen), to = apart + seen;
    if (!(along > 0)) continue;
    const auto slice = [&](double x) {
      const double z = x / along, mean = r * across * z;
      const double beside = left > 0 ? numeric::normal_cdf((seen - mean) / left) -
                                           numeric::normal_cdf((-seen - mean) / left)
                                     : (std::abs(mean) < seen ? 1.0 : 0.0);
      return numeric::normal_density(z) / along * beside;
    };
    const double last = std::min(to, from + 8 * along);
    const int panels = std::clamp(static_cast<int>((last - from) / along) + 1, 1, 8);
    const double p = alike * numeric::integrate(slice, from, last, panels);
    none *= 1 - p;
    if (p > likeliest) {
      likeliest = p;
      out.likeliest = i;
    }
  }
  out.probability = 1 - none;
  return out;
}

}  // namespace lodeway::landmarks
