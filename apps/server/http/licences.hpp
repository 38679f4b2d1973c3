#pragma once
#include <string_view>

namespace lodeway::server {

/// Whose work is inside the programs, the page and the paper: each with version, licence and the
/// licence's text, as Markdown. Made by tools/third_party when the program was built.
[[nodiscard]] std::string_view licences();

}  // namespace lodeway::server
