// A trip file: TOML, its bounds, the page's document and the trip that is made of it.
#include "fuzz/fuzz.hpp"
#include "lodeway/io/trip/trip_document.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const earth::GridArea ground{*earth::MapGrid::from_text("EPSG:32629"), 470000, 6040000,
                                      490000, 6060000};
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto document = io::document_of_trip_file(text);
  if (!document) return fuzz::must_be_a_line(document.error().what), 0;
  const auto trip = io::trip_of_document(*document, ground);
  if (!trip) return fuzz::must_be_a_line(trip.error().what), 0;
  fuzz::must(trip->request.points.size() >= 2);
  // What was read can be written, and is then read again as the same.
  const auto written = io::trip_file_of_document(*document, "ground.gpkg");
  fuzz::must(written.has_value());
  const auto again = io::document_of_trip_file(*written);
  fuzz::must(again.has_value() && io::trip_of_document(*again, ground).has_value());
  return 0;
}
