#pragma once
/// What is drawn by hand of the Skarrow Fells: where the ridges and valleys run, the crags, lakes,
/// names. Places are kilometres east and north of the south-west corner (478 000, 6 046 000),
/// heights metres. All of it invented; the relief's detail and every exact place come from the
/// generator.
#include <span>
#include <string_view>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::fells::design {

inline constexpr double west_m = 478000, south_m = 6046000, size_m = 12000, cell_m = 10;

struct Knot {
  double x_km, y_km, height_m;
};
/// A line of the skeleton, a ridge or a valley floor; the ground between is drawn between them.
using SkeletonLine = std::vector<Knot>;
[[nodiscard]] const std::vector<SkeletonLine>& valleys();
[[nodiscard]] const std::vector<SkeletonLine>& ridges();

/// Ground held level against the streams: a plateau, a moor. An ellipse with a soft rim that falls
/// `tilt_m_km` eastwards; `hold` 0 to 1 says how well it withstands them.
struct Flat {
  double x_km, y_km, half_x_km, half_y_km, height_m, tilt_m_km, hold;
};
[[nodiscard]] std::span<const Flat> flats();

struct Crag {
  std::string_view name;
  bool falls_left;
  double drop_m;
  std::vector<Knot> line;  ///< heights unused
};
[[nodiscard]] const std::vector<Crag>& crags();

/// `length_m` upstream from the place where the beck near (x, y) leaves it.
struct Lake {
  std::string_view name;
  double x_km, y_km, length_m, half_width_m, bank_m;
};
[[nodiscard]] std::span<const Lake> lakes();

struct Name {
  std::string_view name;
  double x_km, y_km;
};
[[nodiscard]] std::span<const Name> summits();
[[nodiscard]] std::span<const Name> saddles();
[[nodiscard]] std::span<const Name> becks();
[[nodiscard]] std::span<const Name> mosses();
[[nodiscard]] std::span<const Name> woods();
[[nodiscard]] std::span<const Name> farms();
[[nodiscard]] std::span<const Name> settlements();
[[nodiscard]] std::span<const Name> bridges();
[[nodiscard]] std::span<const Name> regions();

[[nodiscard]] inline earth::GridPoint place(double x_km, double y_km) {
  return {west_m + 1000 * x_km, south_m + 1000 * y_km};
}
[[nodiscard]] inline terrain::Frame frame() {
  constexpr int cells = static_cast<int>(size_m / cell_m);
  return {west_m, south_m + size_m, cell_m, cells, cells};
}

}  // namespace lodeway::fells::design
