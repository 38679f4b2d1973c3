// A place as somebody typed it.
#include <cmath>

#include "fuzz/fuzz.hpp"
#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/earth/place_text.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const earth::GridArea ground{*earth::MapGrid::from_text("EPSG:32629"), 470000, 6040000,
                                      490000, 6060000};
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const auto* grid : {static_cast<const earth::MapGrid*>(nullptr), &ground.grid}) {
    const auto at = earth::parse_place(text, grid);
    if (!at) {
      fuzz::must_be_a_line(at.error().what);
      continue;
    }
    fuzz::must(std::abs(at->lat_deg) <= 90 && std::isfinite(at->lon_deg));
  }
  const auto on = earth::place_on_ground(text, ground);
  if (!on) return fuzz::must_be_a_line(on.error().what), 0;
  fuzz::must(on->east_m >= ground.west_m && on->east_m <= ground.east_m &&
             on->north_m >= ground.south_m && on->north_m <= ground.north_m);
  return 0;
}
