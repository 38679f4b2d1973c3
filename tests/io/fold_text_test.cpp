// Letters as somebody types them who has no such key.
#include <gtest/gtest.h>

#include "lodeway/io/text/fold_text.hpp"

namespace {

using lodeway::io::fold_text;

// Unicode CLDR 42, transform Latin-ASCII; and NFKD (Unicode Standard Annex 15).
TEST(FoldText, TakesAccentsAndCapitalsOff) {
  EXPECT_EQ(fold_text("Ásbjørnsfjell"), "asbjornsfjell");
  EXPECT_EQ(fold_text("GRÖSSE"), "grosse");
  EXPECT_EQ(fold_text("Größe"), "grosse");
  EXPECT_EQ(fold_text("Łódź"), "lodz");
  EXPECT_EQ(fold_text("Þórsmörk"), "thorsmork");
}

TEST(FoldText, WhatPartsWordsIsOneBlank) {
  EXPECT_EQ(fold_text("  Low -- Hause,  path "), "low hause path");
  EXPECT_EQ(fold_text("Shepherd's Crag"), "shepherds crag");
  EXPECT_EQ(fold_text(""), "");
  EXPECT_EQ(fold_text("-,-"), "");
}

TEST(FoldText, OtherScriptsKeepTheirLettersAndBrokenBytesAreLeftOut) {
  EXPECT_EQ(fold_text("ХИБИНЫ"), "хибины");
  EXPECT_EQ(fold_text("Ta\xffrn"), "tarn");
}

}  // namespace
