// Help is in the language that was asked for: --language, else the computer's.

#include <gtest/gtest.h>

#include "apps/cli/progress_line.hpp"
#include "cli/locale.hpp"
#include "lodeway/trip/progress_words.hpp"
#include "support/support.hpp"

namespace lodeway {
namespace {

using support::run_lodeway;

bool has(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}

TEST(Help, InTheComputersLanguage) {
  const Locale german("de_AT.UTF-8");
  const auto list = run_lodeway({"--help"});
  EXPECT_EQ(list.status, 0) << list.err;
  EXPECT_TRUE(has(list.out, "Aufruf: lodeway [OPTIONEN] BEFEHL")) << list.out;
  EXPECT_TRUE(has(list.out, "\nBefehle:\n")) << list.out;
  EXPECT_FALSE(has(list.out, "Usage") || has(list.out, "Commands") ||
               has(list.out, "Find the ways"));
  const auto leg = run_lodeway({"leg", "--help"});  // the light program
  EXPECT_TRUE(has(leg.out, "Beispiel: lodeway leg --from \"30UVD 27884 80432\"")) << leg.out;
  EXPECT_TRUE(has(leg.out, "--date DATUM NOTWENDIG")) << leg.out;
  EXPECT_TRUE(
      has(run_lodeway({"way", "--help"}).out, "  TOUR TEXT NOTWENDIG         Die Tourdatei"));
  EXPECT_TRUE(has(run_lodeway({"ground", "demo", "--help"}).out, "--seed ZAHL=1"));
  // An umlaut takes no column of its own.
  EXPECT_TRUE(has(run_lodeway({"train", "--help"}).out, "  GELÄNDE TEXT NOTWENDIG      Die"));
}

TEST(Help, AsTheLineAsks) {
  const Locale english("en_GB.UTF-8");
  EXPECT_TRUE(has(run_lodeway({"sun", "--help"}).out, "Usage: lodeway sun [OPTIONS]"));
  EXPECT_TRUE(has(run_lodeway({"sun", "--language", "de", "--help"}).out, "Aufruf: lodeway sun"));
  const Locale german("de_DE.UTF-8");
  EXPECT_TRUE(has(run_lodeway({"sun", "--language=en", "--help"}).out, "Usage: lodeway sun"));
}

TEST(Help, WordsOfTheLineAreCalledTheSameInRefusals) {
  const Locale german("de_DE.UTF-8");
  const auto none = run_lodeway({"way"});
  EXPECT_EQ(none.status, 2);
  EXPECT_TRUE(has(none.err, "TOUR: ")) << none.err;
  EXPECT_FALSE(has(none.err, "expected")) << none.err;
}

TEST(Help, WorkSaysWhatItDoes) {
  using units::Language;
  EXPECT_EQ(trip::progress_in(Language::german, "finding ways"), "Wege werden gesucht");
  EXPECT_EQ(trip::progress_in(Language::german, "reading the ground"), "das Gelände wird gelesen");
  EXPECT_EQ(trip::progress_in(Language::german, "reading dem.tif"), "dem.tif wird gelesen");
  EXPECT_EQ(trip::progress_in(Language::english, "reading dem.tif"), "reading dem.tif");
}

// A ground alone says no language: then it is the computer's, as with every other command.
TEST(Help, RelocateOnAGroundAlone) {
  const support::TemporaryFolder folder;
  const auto ground = folder / "skarrow.gpkg";
  ASSERT_EQ(run_lodeway({"ground", "demo", ground}).status, 0);
  const std::vector<std::string> words{"relocate", ground,   "--height",
                                       "640",      "--last", "Kell Gap, 5 min"};
  const Locale german("de_DE.UTF-8");
  const auto answer = run_lodeway(words);
  EXPECT_EQ(answer.status, 0) << answer.err;
  EXPECT_TRUE(has(answer.out, "gesagt: letzter bekannter Ort Kell Gap, 5 min; Höhe 640 m"))
      << answer.out;
  const Locale english("C");
  EXPECT_TRUE(has(run_lodeway(words).out, "told: last sure place Kell Gap, 5 min; height 640 m"));
}

}  // namespace
}  // namespace lodeway
