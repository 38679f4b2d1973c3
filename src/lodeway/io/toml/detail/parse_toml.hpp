#pragma once
/// TOML from outside, before anything is read of it: what an attacker can make it cost. Internal to
/// io; throws Refusal.
#include <cstddef>
#include <string>
#include <string_view>

#include "lodeway/io/toml/detail/toml_reader.hpp"

namespace lodeway::io {

/// Of one text. The parser goes deeper with each bracket and each dot of a key ("a.a.a = 1"), and so
/// does whatever throws its tables away again.
struct TomlBounds {
  std::size_t depth = 32;        ///< brackets in brackets, and parts of one key
  std::size_t key_bytes = 200;   ///< of one part of a key
  std::size_t keys = 400;        ///< in one table
  std::size_t values = 100'000;  ///< in all
};

/// The top table, in time linear in the text but for a logarithm of `keys`. Refusal with file and
/// line: no TOML, a bound that is broken and which. `file` may be empty.
[[nodiscard]] toml::table parse_toml(std::string_view text, const std::string& file,
                                     const TomlBounds& bounds = {});

}  // namespace lodeway::io
