#pragma once

namespace lodeway::cli {

/// "0.2.0", as CMakeLists.txt has it.
[[nodiscard]] const char* version();

}  // namespace lodeway::cli
