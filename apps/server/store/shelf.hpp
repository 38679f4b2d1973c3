#pragma once
/// The grounds at hand: known by an id, opened when they are asked for, the last two kept open.
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "apps/server/store/store.hpp"
#include "lodeway/landmarks/name_index.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/tasks/ground.hpp"
#include "lodeway/tasks/map_tile.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::server {

struct OpenGround {
  std::string id, stamp;
  walking::Ground ground;
  tasks::TilePyramid pyramid;

  /// Made when it is first asked for: it takes a while.
  [[nodiscard]] const route::WayFinder& finder() const;
  /// The names of the ground, likewise.
  [[nodiscard]] const landmarks::NameIndex& names() const;

 private:
  mutable std::once_flag once_, names_once_;
  mutable std::unique_ptr<const route::WayFinder> finder_;
  mutable landmarks::NameIndex names_;
};
using GroundHandle = std::shared_ptr<const OpenGround>;

class Shelf {
 public:
  explicit Shelf(Store& store) : store_(store) {}

  /// Puts a ground file on the shelf, or finds it there. It is read by another process with bounded
  /// memory and time first: a file made to harm ends that one. `built`: it was made here just now, by
  /// such a process; its remarks. Faults: as io::open_ground,
  /// io_failed.
  [[nodiscard]] Result<StoredGround> add(const std::string& path, bool ours,
                                         const std::vector<std::string>* built = nullptr);
  /// Faults: bad_input (no such ground), as io::open_ground.
  [[nodiscard]] Result<GroundHandle> open(const std::string& id);
  /// The same ground with its kinds as a party has shown that it knows them; the last two stay. It
  /// has a stamp of its own, and a finder of its own when that is asked for.
  [[nodiscard]] GroundHandle as_known_by(const GroundHandle& ground,
                                         const std::vector<mapdata::KindChange>& changes);
  [[nodiscard]] std::optional<StoredGround> find(const std::string& id);
  [[nodiscard]] std::optional<StoredGround> find_file(const std::string& path);
  bool forget(const std::string& id);

  /// As Ground of web/api.schema.json.
  [[nodiscard]] Json as_json(const StoredGround& ground);
  [[nodiscard]] Json all();

 private:
  struct Slot {
    std::mutex mutex;
    GroundHandle ground;
  };
  void touch(const std::string& id);
  Store& store_;
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<Slot>> slots_;
  std::list<std::string> recent_;  ///< newest first
  std::mutex known_mutex_;
  std::list<GroundHandle> known_;  ///< as_known_by, newest first
};

/// Size and time of a file, as text; empty when it is not there.
[[nodiscard]] std::string stamp_of(const std::string& path);
/// Reads a ground in a confined process (child.hpp), with at most 6 GiB of memory and 90 s of a
/// processor.
[[nodiscard]] Result<void> vet_ground(const std::string& path);

}  // namespace lodeway::server
