#pragma once
/// The page's files, in the binary.
#include <memory>
#include <string>
#include <string_view>

namespace lodeway::server {

struct Asset {
  std::string type;
  bool gzip = false;  ///< packed; every browser unpacks it
  std::shared_ptr<const std::string> bytes;
};

/// "/index.html", "/assets/index-1f2a.js"; null when there is none.
[[nodiscard]] const Asset* find_asset(std::string_view path);

}  // namespace lodeway::server
