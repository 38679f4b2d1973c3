#pragma once
/// Changes to a trip as paths and values, and when two of them are about the same thing.
#include <string>
#include <vector>

#include "apps/server/http/message.hpp"

namespace lodeway::server {

/// The state with the changes made, and the paths that they touch. A list is changed whole, because
/// places in it move.
struct Changed {
  Json state;
  std::vector<std::string> touched;
};

/// `changes`: [{path, value}]; null takes the key out (a key of the state's top: makes it null).
/// Faults: bad_input (not a pointer; through something that is no table; not below "/document",
/// "/ground_id", "/chosen_way", "/sheets", "/party_file"), too_large (over `most_state_bytes`).
[[nodiscard]] Result<Changed> apply_changes(const Json& state, const Json& changes);

/// Is one the other, or a part of it?
[[nodiscard]] bool meet(const std::string& path, const std::string& other);

inline constexpr std::size_t most_state_bytes = 256U << 10U;

}  // namespace lodeway::server
