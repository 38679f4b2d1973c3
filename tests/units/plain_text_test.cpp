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
  // what Unicode keeps free of letters: U+FFFE, U+FFFF, U+FDD0
  EXPECT_EQ(plain("a\xEF\xBF\xBE"
                  "b\xEF\xBF\xBF"
                  "c\xEF\xB7\x90"
                  "d"),
            "a b c d");
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
  EXPECT_EQ(plain("a b c", 5), "a b c");
  EXPECT_EQ(plain("a b c", 3), "a b…");
  EXPECT_EQ(plain("a b c", 2), "a…");
  EXPECT_EQ(plain("a b  ", 3), "a b");
  const auto each = letters("ø岩");
  ASSERT_EQ(each.size(), 2U);
  EXPECT_EQ(each[0], "ø");
  EXPECT_EQ(each[1], "岩");
}

}  // namespace
}  // namespace lodeway::units
