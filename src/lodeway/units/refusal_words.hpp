#pragma once
/// The words of refusals in two languages. A refusal is made in English, where the fault is met;
/// its German stands here. "{}" stands for a figure, a name or a key that both languages write
/// alike,
/// "{~}" for words that stand in a table themselves. The German takes the values in their order, or
/// by "{0}", "{1}"; by "{,}" a decimal with its comma. `tools/refusal_words` holds that every
/// refusal in src and apps stands here.
#include <span>
#include <string_view>

namespace lodeway::units {

struct RefusalWord {
  std::string_view english, german;
};

/// Of places, trips, ways and parties, and of the command line.
[[nodiscard]] std::span<const RefusalWord> refusal_words();
/// Of files, of what the server is asked for, and of the computer.
[[nodiscard]] std::span<const RefusalWord> refusal_words_of_files();
/// What a ground lacks and what was odd about its files: lines that are no refusals, told like
/// them.
[[nodiscard]] std::span<const RefusalWord> refusal_words_of_grounds();

}  // namespace lodeway::units
