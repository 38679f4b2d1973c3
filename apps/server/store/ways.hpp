#pragma once
/// The ways of a trip: found once, kept for all who ask for them.
#include <expected>

#include "apps/server/http/message.hpp"
#include "apps/server/store/trips.hpp"
#include "lodeway/tasks/quick_legs.hpp"
#include "lodeway/tasks/ways.hpp"

namespace lodeway::server {

struct FoundWays {
  GroundHandle ground;
  std::string question;        ///< what they are the answer to: ReadyTrip::question
  tasks::PlannedWays planned;
  std::vector<std::string> names;  ///< one for each of planned.ways
};
using WaysHandle = std::shared_ptr<const FoundWays>;

/// Those that are kept for this question, or found now. Faults: as planning; cancelled.
[[nodiscard]] Result<WaysHandle> ways_for(Service& service, const ReadyTrip& trip,
                                          tasks::Progress* progress);

/// Which of them has this name. Faults: bad_input (none).
[[nodiscard]] Result<std::size_t> index_of(const FoundWays& ways, const std::string& name);

/// The plan of one of them, made for the trip as it stands now. Faults: bad_input (there is no such
/// way).
/// The plan of way `index` of them, with why it is picked where it is and another was asked for.
[[nodiscard]] trip::Plan told_why(trip::Plan plan, const FoundWays& ways, std::size_t index);

[[nodiscard]] Result<trip::Plan> plan_of(const FoundWays& ways, const std::string& name,
                                         const ReadyTrip& trip);

/// Which way of which trip a request's body names, checked; or the answer that says why not.
struct AskedWay {
  Json body;
  std::string way;
  ReadyTrip trip;
};
[[nodiscard]] std::expected<AskedWay, Answer> asked_way(Service& service, const Request& request,
                                                        const std::string& id);

}  // namespace lodeway::server
