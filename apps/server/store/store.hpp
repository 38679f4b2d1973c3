#pragma once
/// Trips and grounds on disk: SQLite, written through, so that a killed server loses nothing that
/// it has answered for.
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "apps/server/http/message.hpp"

namespace lodeway::server {

struct StoredTrip {
  std::string id;
  std::int64_t revision = 0;
  Json state;
  bool can_undo = false, can_redo = false;
  std::string changed_at;  ///< RFC 3339, UTC
};

struct StoredGround {
  std::string id, name, file;
  std::string stamp;    ///< size and time of the file when the summary was made
  std::string summary;  ///< JSON; empty: not made yet
  bool ours = false;    ///< lies in the state folder and goes when it is forgotten
};

/// What came of a change.
struct Edited {
  std::optional<StoredTrip> trip;      ///< nothing: there is no such trip
  std::vector<std::string> contested;  ///< not empty: nothing was changed, `trip` is the newest
};

class Store {
 public:
  /// Makes the file when it is not there. Faults: io_failed.
  [[nodiscard]] static Result<std::unique_ptr<Store>> open(const std::string& path);
  ~Store();
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;

  [[nodiscard]] StoredTrip new_trip(const Json& state);
  [[nodiscard]] std::optional<StoredTrip> trip(const std::string& id);
  [[nodiscard]] std::vector<StoredTrip> trips();  ///< newest change first
  bool drop_trip(const std::string& id);

  /// `changes` as in web/api.schema.json. Those of another page since `revision` stay; where both
  /// touched the same thing nothing is done and the paths are named.
  /// Faults: bad_input (a path that cannot be, a state that would be too large).
  [[nodiscard]] Result<Edited> change(const std::string& id, std::int64_t revision,
                                      const Json& changes);
  /// One step back (`by` = -1) or forth (+1). Contested ("") when `revision` is not the newest.
  /// Faults: bad_input, when there is no such step.
  [[nodiscard]] Result<Edited> step(const std::string& id, std::int64_t revision, int by);

  [[nodiscard]] std::vector<StoredGround> grounds();
  void keep_ground(const StoredGround& ground);  ///< new, or in place of the one with its id
  bool drop_ground(const std::string& id);

 private:
  struct Db;
  explicit Store(std::unique_ptr<Db> db);
  [[nodiscard]] std::optional<StoredTrip> read(const std::string& id);
  [[nodiscard]] std::vector<std::string> touched_since(const std::string& id,
                                                       std::int64_t revision);
  std::mutex mutex_;
  std::unique_ptr<Db> db_;
};

/// 16 letters and digits that nobody can guess.
[[nodiscard]] std::string new_id();

}  // namespace lodeway::server
