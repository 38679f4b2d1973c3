#include "apps/cli/version.hpp"

namespace lodeway::cli {

const char* version() { return LODEWAY_VERSION; }

}  // namespace lodeway::cli
