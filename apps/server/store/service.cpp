#include "apps/server/store/service.hpp"

#include <filesystem>

namespace lodeway::server {

Service::Service(std::string state_folder, std::unique_ptr<Store> opened,
                 std::string program_version)
    : folder(std::move(state_folder)),
      version(std::move(program_version)),
      run(new_id()),
      store(std::move(opened)),
      shelf(*store),
      uploads(folder + "/uploads"),
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
  return std::make_unique<Service>(folder, *std::move(store), version);
}

}  // namespace lodeway::server
