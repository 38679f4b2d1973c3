#pragma once
/// Where a simulated walk comes within sight of a place, or meets a line. Not for use outside the
/// rehearsal.
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/reckoning/rehearsal/walk_kernel.hpp"

namespace lodeway::reckoning {

using earth::GridPoint;

/// The walk of one walker, read from the trace in metres.
class Path {
 public:
  Path(const terrain::Frame& frame, const Trace& trace, std::size_t padded, std::size_t walker)
      : frame_(frame), trace_(trace), padded_(padded), walker_(walker) {}
  [[nodiscard]] GridPoint at(int k) const {
    const std::size_t i = index(k);
    return {frame_.west_m + (static_cast<double>(trace_.col[i]) + 0.5) * frame_.cell_m,
            frame_.north_m - (static_cast<double>(trace_.row[i]) + 0.5) * frame_.cell_m};
  }
  /// `t`, 0 to 1, of the way from the place after step k to the next.
  [[nodiscard]] GridPoint between(int k, double t) const {
    const GridPoint from = at(k);
    return from + t * (at(k + 1) - from);
  }
  [[nodiscard]] double seconds(int k, double t) const {
    const auto a = static_cast<double>(trace_.seconds[index(k)]);
    return a + t * (static_cast<double>(trace_.seconds[index(k + 1)]) - a);
  }

 private:
  [[nodiscard]] std::size_t index(int k) const {
    return static_cast<std::size_t>(k) * padded_ + walker_;
  }
  const terrain::Frame& frame_;
  const Trace& trace_;
  std::size_t padded_, walker_;
};

/// First t in [0, 1] where a + t (b - a) is within r of p; NaN when never.
inline double enters(GridPoint a, GridPoint b, GridPoint p, double r) {
  const GridPoint d = b - a, w = a - p;
  const double dd = d.east_m * d.east_m + d.north_m * d.north_m;
  const double half = w.east_m * d.east_m + w.north_m * d.north_m;
  const double c = w.east_m * w.east_m + w.north_m * w.north_m - r * r;
  if (c <= 0) return 0;
  const double root = half * half - dd * c;
  if (root < 0 || dd <= 0) return std::numeric_limits<double>::quiet_NaN();
  const double t = (-half - std::sqrt(root)) / dd;
  return t >= 0 && t <= 1 ? t : std::numeric_limits<double>::quiet_NaN();
}

/// A line to be met, as pieces near enough to matter.
class MetLine {
 public:
  MetLine() = default;
  MetLine(const std::vector<GridPoint>& line, GridPoint about, double reach) {
    double along = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double length = earth::grid_distance_m(line[i - 1], line[i]);
      if (length <= 0) continue;
      const Piece p{line[i - 1], line[i], along, length};
      along += length;
      if (std::min(p.a.east_m, p.b.east_m) > about.east_m + reach ||
          std::max(p.a.east_m, p.b.east_m) < about.east_m - reach ||
          std::min(p.a.north_m, p.b.north_m) > about.north_m + reach ||
          std::max(p.a.north_m, p.b.north_m) < about.north_m - reach)
        continue;
      pieces_.push_back(p);
    }
  }
  /// Where the step a-b first meets it: t along the step (NaN: not), and the place along the line.
  [[nodiscard]] double meets(GridPoint a, GridPoint b, double& along) const {
    double first = std::numeric_limits<double>::quiet_NaN();
    const GridPoint d = b - a;
    for (const Piece& p : pieces_) {
      if (std::max(p.a.east_m, p.b.east_m) < std::min(a.east_m, b.east_m) ||
          std::min(p.a.east_m, p.b.east_m) > std::max(a.east_m, b.east_m) ||
          std::max(p.a.north_m, p.b.north_m) < std::min(a.north_m, b.north_m) ||
          std::min(p.a.north_m, p.b.north_m) > std::max(a.north_m, b.north_m))
        continue;
      const GridPoint e = p.b - p.a, w = p.a - a;
      const double det = d.east_m * e.north_m - d.north_m * e.east_m;
      if (det == 0) continue;
      const double t = (w.east_m * e.north_m - w.north_m * e.east_m) / det;
      const double u = (w.east_m * d.north_m - w.north_m * d.east_m) / det;
      if (t < 0 || t > 1 || u < 0 || u > 1 || (first <= t)) continue;
      first = t;
      along = p.along + u * p.length;
    }
    return first;
  }

 private:
  struct Piece {
    GridPoint a, b;
    double along, length;
  };
  std::vector<Piece> pieces_;
};

}  // namespace lodeway::reckoning
