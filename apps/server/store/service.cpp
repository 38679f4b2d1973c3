#include "apps/server/store/service.hpp"

#include <filesystem>
#include <set>
#include <vector>

#include "lodeway/io/files/unfinished.hpp"

namespace lodeway::server {

namespace {
constexpr std::size_t most_files = 20;

/// A ground that was being built when the server was killed is on no list, and nobody can use it.
/// The demo ground is found by its name.
void clear_half_built(const std::string& folder, Store& store) {
  namespace fs = std::filesystem;
  io::clear_left_behind(folder);
  std::set<std::string> known{"skarrow.gpkg"};
  for (const auto& ground : store.grounds()) known.insert(fs::path(ground.file).filename());
  std::error_code error;
  std::vector<fs::path> left;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    const auto name = entry.path().filename();
    if (!name.native().starts_with('.') && !known.contains(name)) left.push_back(entry.path());
  }
  for (const auto& path : left) fs::remove(path, error);
}
}  // namespace

Service::Service(std::string state_folder, std::unique_ptr<Store> opened,
                 std::string program_version)
    : folder(std::move(state_folder)),
      version(std::move(program_version)),
      run(new_id()),
      store(std::move(opened)),
      shelf(*store),
      uploads(folder + "/uploads"),
      papers(folder + "/papers", most_files),
      rehearsals(folder + "/rehearsals", most_files),
      jobs(hub) {}

Result<std::unique_ptr<Service>> open_service(const std::string& folder,
                                              const std::string& version) {
  namespace fs = std::filesystem;
  std::error_code error;
  for (const char* part : {"", "/grounds", "/uploads"}) {
    fs::create_directories(folder + part, error);
    if (error)
      return fail(FaultCode::io_failed, folder + part + ": expected a folder that can be made");
  }
  fs::permissions(folder, fs::perms::owner_all, error);
  auto store = Store::open(folder + "/trips.sqlite");
  if (!store) return std::unexpected(store.error());
  clear_half_built(folder + "/grounds", **store);
  return std::make_unique<Service>(folder, *std::move(store), version);
}

Answer started(Service& service, const Result<std::string>& job) {
  if (job) return Answer::json(service.jobs.as_json(*job), 202);
  return Answer::problem(503, {"busy", job.error().what, "",
                               "Wait until something else is done, then ask again."});
}

}  // namespace lodeway::server
