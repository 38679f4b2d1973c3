#pragma once
/// Trips as the page sees them, and what of one is asked when a way is to be found.
#include "apps/server/store/service.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::server {

/// Trip of web/api.schema.json; its faults are found by reading the document with the ground's
/// grid.
[[nodiscard]] Json trip_json(Service& service, const StoredTrip& trip);

/// A stored trip with the ground it stands on, read and checked.
struct ReadyTrip {
  StoredTrip stored;
  GroundHandle ground;
  trip::Trip trip;
  /// Everything that the ways depend on, as one text: ground and document, but not which way is
  /// chosen or who holds the home note. It has the trip in it: an answer is read for its own trip.
  std::string question;
};
/// Faults: bad_input (no ground chosen, a key of the document), as Shelf::open.
[[nodiscard]] Result<ReadyTrip> make_ready(Service& service, const StoredTrip& trip);

/// The trip file's text; the chosen way is its `pick`. Faults: bad_input.
[[nodiscard]] Result<std::string> trip_file_text(Service& service, const StoredTrip& trip);

/// 409 with the newest state.
[[nodiscard]] Answer conflict(Service& service, const StoredTrip& newest,
                              const std::vector<std::string>& contested);

/// The trip at `revision`, ready; or the answer that says why not: 404, 409 when the page's
/// revision is not the newest, the fault otherwise.
struct TripOrAnswer {
  std::optional<ReadyTrip> trip;
  Answer answer;
};
[[nodiscard]] TripOrAnswer ready_at(Service& service, const std::string& id, const Json& body);

}  // namespace lodeway::server
