#include "apps/server/http/assets.hpp"

#include <map>

// Written by tools/embed_folder.
extern "C" {
struct LodewayEmbedded {
  const char* path;
  const char* type;
  int gzip;
  const unsigned char* data;
  unsigned size;
};
extern const LodewayEmbedded lodeway_page[];
extern const unsigned lodeway_page_count;
}

namespace lodeway::server {

const Asset* find_asset(std::string_view path) {
  static const auto all = [] {
    std::map<std::string, Asset, std::less<>> out;
    for (unsigned i = 0; i < lodeway_page_count; ++i) {
      const auto& e = lodeway_page[i];
      out[e.path] = {
          e.type, e.gzip != 0,
          std::make_shared<const std::string>(reinterpret_cast<const char*>(e.data), e.size)};
    }
    return out;
  }();
  const auto found = all.find(path);
  return found == all.end() ? nullptr : &found->second;
}

}  // namespace lodeway::server
