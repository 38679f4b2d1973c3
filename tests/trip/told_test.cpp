#include "lodeway/trip/told.hpp"

#include <algorithm>

#include <gtest/gtest.h>

namespace lodeway::trip {
namespace {

using enum units::Language;

TEST(Told, SpeaksTheLanguageOfTheTrip) {
  EXPECT_EQ(told(english, "lost on {}", {"leg 3"}), "lost on leg 3");
  EXPECT_EQ(told(german, "lost on {}", {"Abschnitt 3"}), "verirrt auf Abschnitt 3");
}

TEST(Told, WritesNumbersWhole) {
  EXPECT_EQ(told(english, "{} and {} of {}", {3, 2.6, std::string("all")}), "3 and 3 of all");
}

/// A German that has fewer places than its English would drop a value.
TEST(Told, EachGermanTakesTheValuesOfItsEnglish) {
  ASSERT_GT(told_words().size(), 50U);
  for (const auto& word : told_words()) {
    const auto braces = [](std::string_view text) { return std::ranges::count(text, '{'); };
    EXPECT_EQ(braces(word.english), braces(word.german)) << word.english;
    EXPECT_EQ(braces(word.german), std::ranges::count(word.german, '}')) << word.german;
    EXPECT_EQ(told_in(german, word.english), word.german);
  }
}

}  // namespace
}  // namespace lodeway::trip
