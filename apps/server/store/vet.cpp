// A file from outside is first read where it can do no harm.
#include <nlohmann/json.hpp>

#include "apps/server/store/child.hpp"
#include "apps/server/store/shelf.hpp"

namespace lodeway::server {

Result<void> vet_ground(const std::string& path) {
  ChildRequest wanted;
  wanted.words = {"ground", "show", path, "--json"};
  wanted.file = path;
  if (const auto shown = run_confined(wanted, nullptr); !shown)
    return std::unexpected(shown.error());
  return {};
}

}  // namespace lodeway::server
