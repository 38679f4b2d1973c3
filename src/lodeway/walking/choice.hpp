#pragma once
/// The names of the three ways, as trip files, options and JSON have them.
#include <array>
#include <string_view>

#include "lodeway/result/result.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::walking {

/// In the order of `Choice`.
inline constexpr std::array<std::string_view, choice_count> choice_names{"quick", "middle", "sure"};
[[nodiscard]] constexpr std::string_view choice_name(Choice choice) {
  return choice_names[static_cast<std::size_t>(choice)];
}

/// Faults: bad_input, in one line without the place where the word stood; of a name that trip files
/// had before version 0.2 it says what the way is called now.
[[nodiscard]] Result<Choice> choice_of(std::string_view word);

}  // namespace lodeway::walking
