#include "apps/cli/flat_json.hpp"

#include <cstdio>

#include <nlohmann/json.hpp>

namespace lodeway::cli {

void print_json(const JsonObject& object) {
  auto out = nlohmann::ordered_json::object();
  for (const auto& [key, value] : object) {
    std::visit([&](const auto& v) { out[key] = v; }, value);
  }
  std::puts(out.dump(2).c_str());
}

}  // namespace lodeway::cli
