#pragma once
/// Inputs that are seeds changed a little, for where there is no fuzzer's engine.
#include <string>
#include <string_view>
#include <vector>

#include "lodeway/numeric/random.hpp"

namespace lodeway::fuzz {

/// The words of a dictionary in the engine's own form: a line each, [name=]"text", with \\, \" and
/// \xNN inside; other lines are passed over.
std::vector<std::string> dictionary_words(std::string_view text);

/// Changes inputs: bits and bytes, pieces taken out, doubled, moved, put in from another input,
/// words and figures of any size. The same generator makes the same inputs.
class Changer {
 public:
  /// `seeds` at least one.
  Changer(std::vector<std::string> seeds, std::vector<std::string> words);
  /// The next input; at most `max_bytes` long.
  const std::string& next();
  static constexpr std::size_t max_bytes = 1U << 16U;

 private:
  void change();
  [[nodiscard]] std::size_t below(std::size_t n);
  [[nodiscard]] std::string some_piece(const std::string& of);
  void put(std::size_t at, const std::string& piece);
  void figure();

  std::vector<std::string> seeds_, words_;
  numeric::Random dice_{1};
  std::string input_;
};

}  // namespace lodeway::fuzz
