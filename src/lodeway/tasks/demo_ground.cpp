#include "lodeway/tasks/demo_ground.hpp"

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/tasks/derive.hpp"
#include "lodeway/tasks/threads.hpp"

namespace lodeway::tasks {

Result<void> make_demo_ground(const std::string& path, std::uint64_t seed, Progress* progress) {
  if (auto good = io::can_be_written(path); !good) return good;
  if (progress != nullptr && !progress->go_on(-1, "making the Skarrow Fells")) {
    return fail(FaultCode::cancelled, "stopped; nothing was written");
  }
  Threads threads;
  auto ground = fells::make_skarrow_fells(seed, threads);
  ground.kinds = io::built_in_rules().table();
  if (const auto derived = derive_from_relief(ground, progress); !derived) return derived;
  return io::save_ground(ground, path);
}

}  // namespace lodeway::tasks
