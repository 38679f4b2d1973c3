#include "lodeway/units/said.hpp"

#include <cctype>

#include <fmt/args.h>
#include <fmt/format.h>

namespace lodeway::units {

std::string decimals(Language language, std::string text) {
  if (language != Language::german) return text;
  const auto digit = [&](std::size_t i) {
    return std::isdigit(static_cast<unsigned char>(text[i])) != 0;
  };
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    if (text[i] == '.' && digit(i - 1) && digit(i + 1)) text[i] = ',';
  }
  return text;
}

std::string filled(Language language, const char* wording, const std::vector<Filling>& with) {
  fmt::dynamic_format_arg_store<fmt::format_context> store;
  for (const auto& one : with) std::visit([&](const auto& value) { store.push_back(value); }, one);
  return decimals(language, fmt::vformat(wording, store));
}

}  // namespace lodeway::units
