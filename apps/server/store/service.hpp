#pragma once
/// What all routes share, and the list of them.
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "apps/server/http/events.hpp"
#include "apps/server/store/jobs.hpp"
#include "apps/server/http/router.hpp"
#include "apps/server/store/kept.hpp"
#include "apps/server/store/shelf.hpp"
#include "apps/server/store/store.hpp"
#include "apps/server/store/tiles.hpp"
#include "apps/server/store/uploads.hpp"

namespace lodeway::server {

struct Service {
  std::string folder;  ///< state: trips.sqlite, grounds/, uploads/, papers/, rehearsals/
  std::string version, run;
  std::string key, cookie;  ///< the key of whoever started the server; what keeps it (serve.hpp)
  std::unique_ptr<Store> store;
  Hub hub;
  Shelf shelf;
  Tiles tiles;
  Uploads uploads;
  Kept papers, rehearsals;
  Jobs jobs;  ///< last: its work uses all the others, so it ends first

  Service(std::string state_folder, std::unique_ptr<Store> opened, std::string program_version);
};

/// Makes the state folder (only its owner may read it) and opens what is in it. Faults: io_failed.
[[nodiscard]] Result<std::unique_ptr<Service>> open_service(const std::string& folder,
                                                            const std::string& version);

/// A job that was started (202), or that the queue is full (503).
[[nodiscard]] Answer started(Service& service, const Result<std::string>& job);

void add_page_routes(Router& router, Service& service);  ///< hello, options, events, jobs, the page
void add_ground_routes(Router& router, Service& service);  ///< grounds, places, tiles, uploads
void add_name_routes(Router& router, Service& service);    ///< find by name, names of a part of the map
void add_bring_routes(Router& router, Service& service);   ///< trips and tracks from files, whole trips
void add_trip_routes(Router& router, Service& service);    ///< trips and their changes
void add_way_routes(Router& router, Service& service);     ///< ways, quick legs
void add_proof_routes(Router& router, Service& service);   ///< rehearsal
void add_paper_routes(Router& router, Service& service);   ///< sheets, paper
void add_party_routes(Router& router, Service& service);   ///< what tracks and marks teach

}  // namespace lodeway::server
