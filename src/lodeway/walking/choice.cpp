#include "lodeway/walking/choice.hpp"

#include <fmt/format.h>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::walking {

Result<Choice> choice_of(std::string_view word) {
  constexpr std::array<std::string_view, choice_count> before{"quickest", "balanced", "surest"};
  for (std::size_t i = 0; i < choice_names.size(); ++i) {
    if (word == choice_names[i]) return static_cast<Choice>(i);
    if (word == before[i]) {
      return fail(FaultCode::bad_input,
                  fmt::format("the way called '{}' before is now called '{}': expected {}, {} or {}",
                              before[i], choice_names[i], choice_names[0], choice_names[1],
                              choice_names[2]));
    }
  }
  return fail(FaultCode::bad_input, fmt::format("expected {}, {} or {}, got '{}'", choice_names[0],
                                                choice_names[1], choice_names[2],
                                                units::plain(word, 60)));
}

}  // namespace lodeway::walking
