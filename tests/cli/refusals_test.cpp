// What a failed command says, in the language of its trip, of --language, or of the user's locale.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "cli/locale.hpp"
#include "support/support.hpp"

namespace lodeway {
namespace {

std::string refused(const std::vector<std::string>& words) {
  const auto o = support::run_lodeway(words);
  EXPECT_EQ(o.status, 2) << words[0];
  return o.err;
}

TEST(Refusals, TheUsersLocaleWhereNothingElseSaysOne) {
  const std::vector<std::string> words{"north", "--at", "95 1", "--date", "2026-07-01"};
  {
    const Locale german("de_AT.UTF-8");
    EXPECT_EQ(refused(words), "lodeway: Ort „95 1“: erwartet wird eine Breite bis 90 Grad\n");
  }
  const Locale english("en_GB.UTF-8");
  EXPECT_EQ(refused(words), "lodeway: place \"95 1\": expected a latitude within 90 degrees\n");
}

TEST(Refusals, TheTripsLanguageBeforeTheUsers) {
  const support::TemporaryFolder folder;
  const auto trip = [&](const std::string& language) {
    return folder.write("trip.toml",
                        "ground = \"a.gpkg\"\ndate = 2026-07-01\nstart = \"09:00\"\n"
                        "[paper]\nsize = \"A4\"\nlanguage = '" +
                            language + "' # of all that is said\n");
  };
  {
    const Locale english("C.UTF-8");
    const auto file = trip("de");
    EXPECT_EQ(refused({"way", file}),
              "lodeway: " + file + ": ground: " + (folder / "a.gpkg") +
                  ": erwartet wird eine Geländedatei, gefunden wurde nichts\n");
  }
  const Locale german("de_DE.UTF-8");
  const auto file = trip("en");
  EXPECT_EQ(refused({"way", file}), "lodeway: " + file + ": ground: " + (folder / "a.gpkg") +
                                        ": expected a ground file, found none\n");
  EXPECT_EQ(refused({"train", "none.gpkg", "--from", "A", "--language", "en"}),
            "lodeway: none.gpkg: expected a ground file, found none\n");
}

// One of each sort of fault that a user meets; none may keep an English word.
TEST(Refusals, NoLineIsHalfInOneLanguage) {
  const Locale german("de_DE.UTF-8");
  const support::TemporaryFolder folder;
  const auto text = folder.write("text.gpkg", "no ground");
  const auto toml = folder.write("broken.toml", "name = \n");
  const auto key = folder.write("key.toml", "groundd = \"a.gpkg\"\n");
  const auto missing = folder.write("missing.toml", "ground = \"none.gpkg\"\n");
  const std::vector<std::vector<std::string>> lines{
      {"wy"},
      {"way"},
      {"way", "--pik"},
      {"way", "none.toml"},
      {"way", toml},
      {"way", key},
      {"way", missing},
      {"way", ""},
      {"ground", "show", text},
      {"ground", "show", "none.gpkg"},
      {"ground", "build", "out.txt", "--elevation", "none.tif"},
      {"ground", "build", folder / "out.gpkg", "--elevation", "none.tif"},
      {"ground", "build", folder / "out.gpkg", "--elevation", text},
      {"leg", "--from", "30UVD 27884 80432", "--to", "30UVD 27884 80432", "--date", "2026-07-01"},
      {"leg", "--from", "30UVD 27884 80432", "--to", "x", "--date", "2026-07-01"},
      {"sun", "--at", "60 5", "--date", "2026-02-30", "--zone", "Europe/Oslo"},
      {"sun", "--at", "60 5", "--date", "2026-02-20", "--zone", "Oslo"},
      {"north", "--at", "60 5", "--date", "2036-02-20"},
      {"reckon", "--length", "-5", "--visibility", "cloud", "--target", "point", "--seen-from",
       "30"},
      {"reckon", "--length", "5", "--visibility", "fog", "--target", "point", "--seen-from", "30"},
      {"reckon", "--length", "5", "--visibility", "cloud", "--target", "point"},
      {"learn", folder / "party.toml", "--track", "none.gpx"},
      {"learn", folder / "party.toml"},
      {"debrief", missing, "--track", "none.gpx"},
      {"relocate", "none.gpkg", "--height", "640"},
      {"rehearse", missing, "--walkers", "0"},
  };
  for (const auto& words : lines) {
    auto said = refused(words);
    // what another program or library said is quoted
    if (const auto quoted = said.find("gemeldet wird „"); quoted != std::string::npos)
      said.resize(quoted);
    for (const char* english : {"expected", " got ", " found", " not ", " the ", " must", " with ",
                                " is ", " of ", "could", "cannot", "unknown"}) {
      EXPECT_EQ(said.find(english), std::string::npos) << words[0] << ": " << said;
    }
    EXPECT_TRUE(said.starts_with("lodeway: ")) << said;
  }
}

// The quick answers have the same figures in both languages, with the German comma.
TEST(Refusals, QuickAnswersSpeakGermanToo) {
  const auto answer = [](std::vector<std::string> words, const std::string& language) {
    words.insert(words.end(), {"--language", language});
    const auto o = support::run_lodeway(words);
    EXPECT_EQ(o.status, 0) << words[0];
    if (language == "de") {
      for (const char* english : {" the ", " of ", " you", " to ", " is ", "light", " sun "})
        EXPECT_EQ(o.out.find(english), std::string::npos) << words[0] << ": " << o.out;
    }
    std::string digits;
    for (const char c : o.out) {
      if (c >= '0' && c <= '9') digits += c;
    }
    return digits;
  };
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"north", "--at", "53.0685 -4.0763", "--date", "2026-07-01"},
           {"leg", "--from", "30UVD 27884 80432", "--to", "30UVD 28700 81200", "--date",
            "2026-07-01"},
           {"sun", "--at", "60.39 5.32", "--date", "2026-07-01", "--zone", "Europe/Oslo"},
           {"sun", "--at", "70 5.32", "--date", "2026-12-01", "--zone", "Asia/Tokyo"},
           {"reckon", "--length", "800", "--target", "point", "--seen-from", "30"},
           {"reckon", "--length", "800", "--target", "line", "--crossing-angle", "70"},
           {"reckon", "--length", "800", "--target", "line", "--crossing-angle", "5"}}) {
    EXPECT_EQ(answer(words, "de"), answer(words, "en")) << words[0];
  }
}

}  // namespace
}  // namespace lodeway
