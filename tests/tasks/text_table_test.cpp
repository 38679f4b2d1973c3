#include "lodeway/tasks/text_table.hpp"

#include <gtest/gtest.h>

namespace lodeway::tasks {
namespace {

TEST(TextTable, StandsInColumnsWhateverTheLetters) {
  TextTable table({{"leg"}, {"to", TextTable::Side::left}, {"minutes"}});
  table.row({"1", "Höhe", "9"});
  table.row({"12", "Gap", "104"});
  EXPECT_EQ(table.text(),
            "leg  to    minutes\n"
            "  1  Höhe        9\n"
            " 12  Gap       104\n");
}

TEST(TextTable, LeavesNoBlanksAtALinesEnd) {
  TextTable table({{"leg"}, {"to", TextTable::Side::left}});
  table.row({"1", ""});
  EXPECT_EQ(table.text(), "leg  to\n  1\n");
}

}  // namespace
}  // namespace lodeway::tasks
