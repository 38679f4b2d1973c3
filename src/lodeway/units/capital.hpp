#pragma once
/// The first letter of a sentence.
#include <string>

namespace lodeway::units {

/// "wall" → "Wall". Only a to z is changed: German nouns have theirs already.
[[nodiscard]] inline std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

}  // namespace lodeway::units
