// Refusals in German: whole or not at all.
#include <string>

#include <gtest/gtest.h>

#include "lodeway/units/refusal_in.hpp"
#include "lodeway/units/refusal_words.hpp"

namespace lodeway::units {
namespace {

TEST(RefusalIn, FiguresNamesAndPlacesAreCarriedOver) {
  EXPECT_EQ(refusal_in_german("trip.toml:4: party.size: expected a whole number from 1 to 40"),
            "trip.toml:4: party.size: erwartet wird eine ganze Zahl von 1 bis 40");
  EXPECT_EQ(refusal_in_german("--walkers: expected a number from 1 to 9, got x, got y"),
            "--walkers: erwartet wird eine Zahl von 1 bis 9, angegeben ist x, got y");
  EXPECT_EQ(refusal_in_german("place \"90 0\": expected a latitude within 90 degrees"),
            "Ort „90 0“: erwartet wird eine Breite bis 90 Grad");
  EXPECT_EQ(
      refusal_in_german("wy: this command is not known; did you mean way?; see lodeway --help"),
      "wy: diesen Befehl gibt es nicht; ist way gemeint?; siehe lodeway --help");
}

// Words within words: a bar with its name, a reason of the system.
TEST(RefusalIn, WordsInAHoleAreGermanToo) {
  EXPECT_EQ(
      refusal_in_german("no way from A to B: it stops 120 m before the end at 481800 6050400, "
                        "stopped by a river without a crossing (Mire Beck)"),
      "kein Weg von A nach B: er endet 120 m vor dem Ziel bei 481800 6050400; dort ist ein "
      "Fluss ohne Übergang (Mire Beck)");
  EXPECT_EQ(refusal_in_german("out/card.pdf: could not be written: No space left on device"),
            "out/card.pdf: konnte nicht geschrieben werden: kein Platz mehr auf dem Datenträger");
  // what the table does not know is a quotation
  EXPECT_EQ(refusal_in_german("a.gpkg: could not be written: Level 3 not synchronized"),
            "a.gpkg: konnte nicht geschrieben werden; gemeldet wird „Level 3 not synchronized“");
}

TEST(RefusalIn, DecimalsThatNobodyTypesHaveTheirComma) {
  EXPECT_EQ(refusal_in_german("no heights on 26.2 % of the ground"),
            "keine Höhen auf 26,2 % des Geländes");
  EXPECT_EQ(refusal_in_german("a.tif: cell: expected 0.1 to 1000 m, got 0.05"),
            "a.tif: cell: erwartet werden 0,1 bis 1000 m, angegeben ist 0.05");
}

TEST(RefusalIn, NeverHalf) {
  EXPECT_EQ(refusal_in_german("party.size: expected a jolly good number"), "");
  EXPECT_EQ(refusal_in_german("A: expected open ground, here is a bog of treacle"), "");
  EXPECT_EQ(refusal_in(Language::german, "nobody has said this"), "nobody has said this");
  EXPECT_EQ(refusal_in(Language::english, "stopped"), "stopped");
}

// A line that quotes a file made to be slow: every reading branches. It stays English, and at once.
TEST(RefusalIn, EndsOnWhatIsMadeToBeSlow) {
  std::string line;
  for (int i = 0; i < 60; ++i) line += "expected a: expected (could not be written: ";
  EXPECT_EQ(refusal_in_german(line), "");
  EXPECT_EQ(refusal_in_german(std::string(100000, ':')), "");
}

TEST(RefusalIn, EveryEntryIsFoundByItsOwnWords) {
  for (const auto table : {refusal_words(), refusal_words_of_files(), refusal_words_of_grounds()}) {
    for (const auto& [english, german] : table) {
      std::string text(english);
      for (auto at = text.find("{~}"); at != std::string::npos; at = text.find("{~}"))
        text.replace(at, 3, "water");
      for (auto at = text.find("{}"); at != std::string::npos; at = text.find("{}"))
        text.replace(at, 2, "7");
      const auto said = refusal_in_german(text);
      EXPECT_FALSE(said.empty()) << english;
      EXPECT_EQ(said.find("expected"), std::string::npos) << said;
      EXPECT_EQ(said.find("water"), std::string::npos) << said;
    }
  }
}

// POSIX.1-2017, Base Definitions 8.2: LC_ALL before LC_MESSAGES before LANG, the empty ones left
// out.
TEST(RefusalIn, TheLocaleOfTheUser) {
  const auto de = Language::german, en = Language::english;
  EXPECT_EQ(language_of_locale("", "", "de_AT.UTF-8"), de);
  EXPECT_EQ(language_of_locale("", "de", "en_GB.UTF-8"), de);
  EXPECT_EQ(language_of_locale("C.UTF-8", "de_DE", "de_DE"), en);
  EXPECT_EQ(language_of_locale("", "", "den"), en);
  EXPECT_EQ(language_of_locale("", "", ""), en);
}

}  // namespace
}  // namespace lodeway::units
