#include "lodeway/units/plain_text.hpp"

#include <gtest/gtest.h>

namespace lodeway::units {
namespace {

TEST(PlainText, ControlsBecomeOneBlankAndEndsAreTrimmed) {
  EXPECT_EQ(plain("  Harrik\r\n\tPike \x1b[2J\x7f"), "Harrik Pike [2J");
  EXPECT_EQ(plain("a\xC2\x9B"
                  "b\xE2\x80\xAE"
                  "c\xE2\x80\xA8"
                  "d\xEF\xBB\xBF"),
            "a b c d");
  EXPECT_EQ(plain(" \n "), "");
}

// Table 3-7 and the examples of chapter 3.9 of the Unicode Standard: overlong forms, surrogates,
// what lies above U+10FFFF, single and cut off bytes are no text.
TEST(PlainText, WhatIsNotUtf8IsReplacedByteByByte) {
  const std::string r = "\xEF\xBF\xBD";
  EXPECT_EQ(plain("Bløf 岩 🏔"), "Bløf 岩 🏔");
  EXPECT_EQ(plain("x\x80y\xFFz"), "x" + r + "y" + r + "z");
  EXPECT_EQ(plain("\xC0\xAF"), r + r);
  EXPECT_EQ(plain("\xE0\x9F\x80"), r + r + r);
  EXPECT_EQ(plain("\xED\xA0\x80"), r + r + r);
  EXPECT_EQ(plain("\xF4\x90\x80\x80"), r + r + r + r);
  EXPECT_EQ(plain("\xE5\xB2"), r + r);
}

TEST(PlainText, CutByLettersNotBytes) {
  EXPECT_EQ(plain("岩岩岩岩", 4), "岩岩岩岩");
  EXPECT_EQ(plain("岩岩岩岩", 3), "岩岩岩…");
  const auto each = letters("ø岩");
  ASSERT_EQ(each.size(), 2U);
  EXPECT_EQ(each[0], "ø");
  EXPECT_EQ(each[1], "岩");
}

}  // namespace
}  // namespace lodeway::units
