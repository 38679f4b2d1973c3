#pragma once
/// What can be told at each cell of a ground, as planes of bytes: made once, then read by every
/// likelihood. Method: docs/method/seen.md. Directions are from grid north; row 0 is the northern
/// edge.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/numeric/parallel.hpp"
#include "lodeway/sight/report.hpp"
#include "lodeway/terrain/raster.hpp"
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sight {

/// A piece of the ground, by grid coordinates; cut to the ground.
struct Window {
  double west_m = 0, south_m = 0, east_m = 0, north_m = 0;
};
/// `half_m` to each side of a place.
[[nodiscard]] inline Window window_about(earth::GridPoint p, double half_m) {
  return {p.east_m - half_m, p.north_m - half_m, p.east_m + half_m, p.north_m + half_m};
}

/// Distance and direction to the nearest thing of one kind.
struct NearPlane {
  mapdata::Kind kind = mapdata::Kind::other;
  bool line = true;                    ///< false: points
  double reach_m = 0;                  ///< nothing is known of what is further
  std::vector<std::uint8_t> distance;  ///< cell centre to it, 2 m; 255: further than reach
  /// Line: low 7 bits its lie there in 180/128 degrees, high bit set where it lies to the LEFT of
  /// that direction. Point: bearing to it in 360/256 degrees.
  std::vector<std::uint8_t> direction;
};

/// What has a name or is seen from afar.
struct Thing {
  mapdata::Kind kind = mapdata::Kind::summit;
  std::string name;  ///< empty when the map gives none
  earth::GridPoint at;
  double half_width_m = 0;  ///< of a lake: the radius of a circle as large
};

/// Tops, lakes over 2000 m2, settlements, masts, and every point with a name of its own.
[[nodiscard]] std::vector<Thing> things_of(const mapdata::MapData& map);

struct CuePlanes {
  static constexpr std::uint16_t no_height = 65535;
  static constexpr double height_step_m = 0.25, distance_step_m = 2, steepness_step_deg = 0.5;
  static constexpr std::uint8_t far = 255;

  terrain::Frame frame;
  double base_m = 0;                    ///< height = base_m + height_step_m * plane
  std::vector<std::uint16_t> height;    ///< no_height: a void, masked everywhere
  std::vector<std::uint8_t> fall;       ///< the way it falls, 360/256 degrees
  std::vector<std::uint8_t> steepness;  ///< half degrees, over some 40 m
  std::vector<Form> form;
  std::vector<std::uint8_t> wood;  ///< 1: among trees
  std::vector<walking::Bar> bar;   ///< ground to keep off for this party; none: open
  std::vector<NearPlane> near;     ///< kinds that occur, in the order of mapdata::Kind
  std::vector<Thing> things;       ///< far-seen kinds and everything with a name of its own
  /// By thing: 1 where it is in the line of sight, 0 hidden, 2 unknown; empty until look_from.
  std::vector<std::vector<std::uint8_t>> views;
  double height_sd_m = 5;  ///< of the map's own heights: 4 m with cells up to 15 m, else 6
  double gradient_sd =
      0.05;  ///< of its gradient: that by the 100 m over which the error goes alike
  double lowest_m = 0, highest_m = 0;
  mapdata::KindTable kinds;
  terrain::Elevation distant;  ///< the whole ground in cells of 20 m or more, for views

  [[nodiscard]] std::size_t index(int row, int col) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(frame.cols) +
           static_cast<std::size_t>(col);
  }
  [[nodiscard]] bool known(std::size_t i) const { return height[i] != no_height; }
  [[nodiscard]] double height_m(std::size_t i) const { return base_m + height_step_m * height[i]; }
  [[nodiscard]] double slope_deg(std::size_t i) const { return steepness_step_deg * steepness[i]; }
  [[nodiscard]] double fall_deg(std::size_t i) const { return 360.0 / 256 * fall[i]; }
  [[nodiscard]] const NearPlane* plane_of(mapdata::Kind kind) const;
  /// The cell of a place; nothing outside the window or on a void.
  [[nodiscard]] std::optional<std::size_t> cell(earth::GridPoint p) const;
};

/// Planes of a window (nothing: the whole ground), in the ground's cells, or means of them of at
/// least `least_cell_m`. `cover` says what is barred to the party. Heights are within 0.13 m of the
/// ground's, distances within 1 m, directions within 1.5 degrees.
/// 12 km square of the Skarrow Fells: see docs/performance.md.
[[nodiscard]] CuePlanes cue_planes(const walking::Ground& ground, const walking::Cover& cover,
                                   const std::optional<Window>& window, numeric::Parallel& parallel,
                                   double least_cell_m = 10);

/// For a party to which other ground is barred: bars and wood laid anew, all else stays. The planes are
/// then to the byte as if they had been made with this cover, which is of the same ground.
void lay_cover(CuePlanes& planes, const walking::Cover& cover, numeric::Parallel& parallel);

/// The same of a smaller window, byte for byte, views too; look_from has nothing to look over
/// there.
[[nodiscard]] CuePlanes cropped(const CuePlanes& planes, const Window& window);

/// Works out from where these things are in the line of sight (eye 1.6 m, target 2 m above the
/// ground, heights in cells of 20 m or more), up to reach_m in clear air; those that have a view
/// already are passed over. Without a view the reach alone decides.
void look_from(CuePlanes& planes, std::span<const std::int32_t> things,
               numeric::Parallel& parallel);

/// Distance to a line or point, lie of a line, bearing to the nearest place of it.
struct Nearest {
  double distance_m = 0;
  double lie_deg = 0;      ///< lines, in [0, 180)
  double bearing_deg = 0;  ///< to it, in [0, 360)
};
/// Nothing where it is further than the plane's reach.
[[nodiscard]] std::optional<Nearest> nearest_of(const NearPlane& plane, std::size_t cell);

}  // namespace lodeway::sight
