#include "lodeway/earth/geodesic.hpp"

#include <cassert>
#include <cmath>

#include <GeographicLib/Geodesic.hpp>

namespace lodeway::earth {

Geodesic geodesic(Geographic from, Geographic to) {
  assert(std::abs(from.lat_deg) <= 90 && std::abs(to.lat_deg) <= 90);
  double distance = 0, start = 0, end = 0;
  GeographicLib::Geodesic::WGS84().Inverse(from.lat_deg, from.lon_deg, to.lat_deg, to.lon_deg,
                                           distance, start, end);
  return {distance, units::TrueBearing::degrees(start), units::TrueBearing::degrees(end)};
}

Geographic travel(Geographic from, units::TrueBearing bearing, double distance_m) {
  assert(std::abs(from.lat_deg) <= 90);
  Geographic out;
  GeographicLib::Geodesic::WGS84().Direct(from.lat_deg, from.lon_deg, bearing.in_degrees(),
                                          distance_m, out.lat_deg, out.lon_deg);
  return out;
}

}  // namespace lodeway::earth
