#include "lodeway/tasks/ground_overlap.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "lodeway/earth/geodesic.hpp"

namespace lodeway::tasks {

namespace {

/// West, south, east, north in degrees; east on beyond 180 where the meridian lies between.
struct Degrees {
  double west = 0, south = 0, east = 0, north = 0;
};

Degrees running_east(const std::array<double, 4>& d) {
  return {d[0], d[1], d[2] < d[0] ? d[2] + 360 : d[2], d[3]};
}

/// Corners and the middles of the sides: within 0.001 degrees for a ground of 100 km.
std::optional<Degrees> degrees_of(const walking::Ground& ground) {
  const terrain::Frame& f = ground.elevation.frame();
  std::optional<Degrees> out;
  for (const double i : {0.0, 0.5, 1.0}) {
    for (const double j : {0.0, 0.5, 1.0}) {
      const auto at = ground.grid.to_geographic(
          {f.west_m + i * (f.east_m() - f.west_m), f.south_m() + j * (f.north_m - f.south_m())});
      if (!at) return std::nullopt;
      const double lon =
          out ? out->west + std::remainder(at->lon_deg - out->west, 360) : at->lon_deg;
      if (!out) out = Degrees{lon, at->lat_deg, lon, at->lat_deg};
      out = Degrees{std::min(out->west, lon), std::min(out->south, at->lat_deg),
                    std::max(out->east, lon), std::max(out->north, at->lat_deg)};
    }
  }
  return out;
}

std::string text_of(const Degrees& d) {
  const auto lat = [](double v) {
    return fmt::format("{:.2f} {}", std::abs(v), v < 0 ? 'S' : 'N');
  };
  const auto lon = [](double v) {
    const double turned = std::remainder(v, 360);
    return fmt::format("{:.2f} {}", std::abs(turned), turned < 0 ? 'W' : 'E');
  };
  return fmt::format("{} to {}, {} to {}", lat(d.south), lat(d.north), lon(d.west), lon(d.east));
}

/// From the nearest place of one box to the nearest of the other; 0 where they meet.
double apart_m(const Degrees& a, Degrees b) {
  const double turn = 360 * std::round(((a.west + a.east) - (b.west + b.east)) / 720);
  b.west += turn;
  b.east += turn;
  const auto nearest = [](double a0, double a1, double b0, double b1) {
    if (a1 < b0) return std::pair{a1, b0};
    if (b1 < a0) return std::pair{a0, b1};
    const double common = (std::max(a0, b0) + std::min(a1, b1)) / 2;
    return std::pair{common, common};
  };
  const auto [lat_a, lat_b] = nearest(a.south, a.north, b.south, b.north);
  const auto [lon_a, lon_b] = nearest(a.west, a.east, b.west, b.east);
  return earth::geodesic({lat_a, std::remainder(lon_a, 360)}, {lat_b, std::remainder(lon_b, 360)})
      .distance_m;
}

}  // namespace

Result<std::vector<std::string>> overlap_remarks(const walking::Ground& ground,
                                                 const std::vector<FileOnGround>& files) {
  std::vector<std::string> remarks;
  const auto heights = degrees_of(ground);
  std::size_t beside = 0;
  for (const FileOnGround& one : files) {
    if (one.gave_any) continue;
    if (!one.lies_deg || !heights) {
      remarks.push_back(one.file + ": expected map features, found none");
      continue;
    }
    const Degrees map = running_east(*one.lies_deg);
    const double apart = apart_m(*heights, map);
    if (apart <= 0) {
      remarks.push_back(fmt::format(
          "{}: nothing of it lies on the heights, though it goes round them: the map is at {}; the "
          "heights at {}",
          one.file, text_of(map), text_of(*heights)));
      continue;
    }
    ++beside;
    remarks.push_back(
        fmt::format("{}: expected a map that lies on the heights; the map is at {}; the heights at "
                    "{}, {} apart",
                    one.file, text_of(map), text_of(*heights),
                    apart < 1000 ? "less than 1 km" : fmt::format("{:.0f} km", apart / 1000)));
  }
  if (beside > 0 && beside == files.size()) return fail(FaultCode::bad_input, remarks.front());
  return remarks;
}

}  // namespace lodeway::tasks
