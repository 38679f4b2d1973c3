#pragma once
/// JSON from outside, before anything is built of it: what an attacker can make it cost.
#include <cstddef>
#include <string_view>

#include "lodeway/result/result.hpp"

namespace lodeway::io {

/// Of one text. Building a table is quadratic in its keys (they keep their order), and a reader
/// goes deeper with each bracket; so both are bounded before.
struct JsonBounds {
  std::size_t depth = 32;
  std::size_t keys = 400;        ///< in one table
  std::size_t key_bytes = 200;   ///< of one key
  std::size_t values = 100'000;  ///< in all
};

/// Goes through the text once, in linear time, building nothing. Faults: bad_input (no JSON;
/// a bound that is broken, and which).
[[nodiscard]] Result<void> check_json(std::string_view text, const JsonBounds& bounds = {});

}  // namespace lodeway::io
