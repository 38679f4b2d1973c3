// Bodies of the server's questions: bounds, changes to a trip, the trip as it then stands.
#include "apps/server/store/edits.hpp"
#include "fuzz/fuzz.hpp"
#include "lodeway/io/json/json_bounds.hpp"
#include "lodeway/io/trip/trip_document.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const earth::GridArea ground{*earth::MapGrid::from_text("EPSG:32629"), 470000, 6040000,
                                      490000, 6060000};
  static const server::Json state{
      {"document", {{"name", "x"}, {"date", "2026-07-01"}, {"start", "09:00"}}},
      {"ground_id", nullptr},
      {"chosen_way", nullptr},
      {"sheets", nullptr}};
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  if (!io::check_json(text)) return 0;
  const auto body = server::Json::parse(text, nullptr, false);
  if (!body.is_object()) return 0;
  const auto changed = server::apply_changes(state, body.value("changes", server::Json()));
  if (!changed) return fuzz::must_be_a_line(changed.error().what), 0;
  const auto document = changed->state["document"].dump();
  const auto trip = io::trip_of_document(document, ground);
  if (!trip) fuzz::must_be_a_line(trip.error().what);
  (void)io::trip_file_of_document(document, "g.gpkg");
  return 0;
}
