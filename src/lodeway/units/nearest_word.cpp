#include "lodeway/units/nearest_word.hpp"

#include <algorithm>
#include <vector>

namespace lodeway::units {

namespace {

constexpr std::size_t longest = 60;

/// Strokes from a to b; row by row of the table of all their beginnings.
std::size_t strokes(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = a[i - 1] == b[j - 1];
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

}  // namespace

std::string_view nearest_word(std::string_view given, std::span<const std::string_view> words) {
  if (given.size() > longest) return {};
  std::string_view best;
  std::size_t least = 3;
  for (const auto word : words) {
    if (word.size() > longest) continue;
    const auto n = strokes(given, word);
    if (n < least && 3 * n <= word.size()) {
      least = n;
      best = word;
    }
  }
  return best;
}

std::string did_you_mean(std::string_view given, std::span<const std::string_view> words) {
  const auto word = nearest_word(given, words);
  return word.empty() ? std::string() : "; did you mean " + std::string(word) + "?";
}

}  // namespace lodeway::units
