#include "lodeway/units/refusal_line.hpp"

#include <gtest/gtest.h>

namespace lodeway::units {
namespace {

TEST(RefusalLine, IsOneLineWhateverItQuotes) {
  EXPECT_EQ(refusal_line("place \"819\n 5133\": expected a grid reference"),
            "place \"819 5133\": expected a grid reference");
  EXPECT_EQ(refusal_line("expected one of a, b, got 'x\x1b[2J\r\n'"),
            "expected one of a, b, got 'x [2J '");
}

TEST(RefusalLine, AQuotedTextIsCutAtSixtyLetters) {
  const std::string sixty(60, 'x'),
      letters = "ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ø ";
  EXPECT_EQ(refusal_line("a: \"" + sixty + "\": no"), "a: \"" + sixty + "\": no");
  const auto cut = refusal_line("a: \"" + letters + letters + "\": no, \"" + sixty + sixty + "\"");
  EXPECT_TRUE(cut.starts_with("a: \"ø ø ")) << cut;
  EXPECT_TRUE(cut.find("…\": no, \"xxx") != std::string::npos) << cut;
  EXPECT_LT(cut.size(), 200U);
}

TEST(RefusalLine, APathStaysWholeAndAnEndlessWordDoesNot) {
  const auto path =
      "/home/somebody/" + std::string(200, 'm') + "/hills.gpkg: expected a ground file";
  EXPECT_EQ(refusal_line(path), path);
  EXPECT_LT(refusal_line("line 3: " + std::string(9000, 'k') + ": this key is not known").size(),
            120U);
}

}  // namespace
}  // namespace lodeway::units
