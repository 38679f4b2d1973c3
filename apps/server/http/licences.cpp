#include "apps/server/http/licences.hpp"

extern "C" {
extern const unsigned char lodeway_licences[];
extern const unsigned lodeway_licences_size;
}

namespace lodeway::server {

std::string_view licences() {
  return {reinterpret_cast<const char*>(lodeway_licences), lodeway_licences_size};
}

}  // namespace lodeway::server
