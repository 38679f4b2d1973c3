#include <gtest/gtest.h>

#include "lodeway/sheet/map/map_sheet.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

// The same ticked frame on card and sheet, in one ink: each leg outside the limits adds one.
TEST(DangerOnSheet, ALegOutsideTheLimitsHasItsFrame) {
  const auto commands = [](const trip::Plan& plan) {
    std::size_t n = 0;
    const auto sheets = draw_map_sheets(plan, fells(), measure());
    for (const auto& sheet : sheets.value()) n += sheet.commands.size();
    return n;
  };
  auto plan = full_plan();
  const auto calm = commands(plan);
  plan.verdict.band = trip::Band::outside;
  plan.verdict.reasons = {{trip::Band::outside, trip::Fails::lost_leg, 1, 0.4, 0.7}};
  EXPECT_GT(commands(plan), calm);
  plan.verdict.reasons[0].band = trip::Band::close_to;
  EXPECT_EQ(commands(plan), calm);
}

}  // namespace
}  // namespace lodeway::sheet
