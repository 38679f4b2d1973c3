// The lost card: all that a leg has stands on it, whole and on the page.
#include "lodeway/sheet/notes/lost_card.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

/// For each leg of the plan: rows of every kind; every third leg has no move.
std::vector<trip::LostLeg> lost_legs(const trip::Plan& plan) {
  std::vector<trip::LostLeg> out;
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    auto& leg = out.emplace_back();
    leg.ten_minutes_m = 430;
    for (int k = 0; k < 3 + static_cast<int>(5 * i % 17); ++k) {
      trip::LostRow row;
      row.along_m = 200.0 * k;
      row.height_m = k % 7 == 6 ? std::nan("") : 1612.4 + 10 * k;
      if (k % 4 != 1) row.falls = units::MagneticBearing::degrees(47.0 * k);
      row.slope_deg = 3.0 * k;
      row.steepness = "very steep";
      row.form = "hollow";
      row.left_rise_m = 25;
      row.right_rise_m = -80;  // steeper than the row is high
      if (k % 2 == 0) row.left = trip::OnHand{"power line", 120, false};
      if (k % 3 == 0) row.right = trip::OnHand{"too steep", 30, true};
      leg.rows.push_back(row);
    }
    if (i % 3 != 0) {
      leg.moves = {
          "Walk straight uphill until you meet the top of the rise: 97 in 100 do within "
          "700 m, 4 in 1000 come onto ground to keep off. Nothing by then: stop."};
    } else {
      leg.by_fall = {
          "Where the ground falls towards 045° to 135°: Walk on bearing 102° until you "
          "meet water: 96 in 100 do within 70 m."};
      leg.standing_barred = 0.114;
    }
    leg.downhill_barred = i % 2 == 0 ? 0.31 : 0.004;
  }
  return out;
}

TEST(LostCard, WholeAndOnThePage) {
  for (const auto language : {units::Language::english, units::Language::german}) {
    const auto plan = full_plan(language);
    for (const auto& side : draw_lost_card(plan, lost_legs(plan), measure())) {
      EXPECT_EQ(overlaps(side), 0);
      expect_text_on_page(side);
      expect_nothing_cut(side);
      for (const auto& text : texts_of(side)) {  // nothing lies across the fold
        const auto box = box_of(text);
        EXPECT_FALSE(box.x0 < side.width_mm / 2 && box.x1 > side.width_mm / 2) << text.text;
      }
    }
  }
}

TEST(LostCard, EveryRowAndFrameStandsOnIt) {
  const auto plan = full_plan();
  const auto legs = lost_legs(plan);
  int rows = 0, keep_off = 0, voids = 0;
  std::string all;
  for (const auto& side : draw_lost_card(plan, legs, measure())) {
    for (const auto& text : texts_of(side)) {
      all += text.text + " ";
      rows += text.text == "power line 120" ? 1 : 0;
      keep_off += text.text == "too steep 30" ? 1 : 0;
      voids += text.text == "the elevation data has no height here" ? 1 : 0;
    }
  }
  int lines = 0, steep = 0, without = 0;
  for (const auto& leg : legs) {
    for (const auto& row : leg.rows) {
      const bool known = !std::isnan(row.height_m);
      lines += known && row.left ? 1 : 0;
      steep += known && row.right ? 1 : 0;
      without += known ? 0 : 1;
    }
  }
  EXPECT_EQ(rows, lines);
  EXPECT_EQ(keep_off, steep);
  EXPECT_EQ(voids, without);
  for (const char* words :
       {"12 in 100", "1622", "1400", "430 m", "No one move works", "Not straight"})
    EXPECT_NE(all.find(words), std::string::npos) << words;
}

// "1000" and "1071" side by side are not "10001071".
TEST(LostCard, FiguresOfARowStandApart) {
  const auto plan = full_plan();
  int rows = 0;
  for (const auto& side : draw_lost_card(plan, lost_legs(plan), measure())) {
    const auto texts = texts_of(side);
    for (std::size_t k = 1; k < texts.size(); ++k) {
      const bool height = texts[k].text.size() == 4 && texts[k].text.starts_with("16") &&
                          texts[k].face == Face::figures_bold;
      if (!height) continue;
      const auto metres = box_of(texts[k - 1]), is_high = box_of(texts[k]);
      EXPECT_NEAR(metres.y1, is_high.y1, 1);  // of the same row
      EXPECT_GE(is_high.x0 - metres.x1, 0.8) << texts[k - 1].text << " " << texts[k].text;
      ++rows;
    }
  }
  EXPECT_GT(rows, 50);
}

// Danger has its frame, whose ticks are strokes of their own: a leg with no move has more strokes.
TEST(LostCard, NoMoveStandsInTheDangerFrame) {
  auto plan = full_plan();
  auto legs = lost_legs(plan);
  const auto strokes = [&] {
    std::size_t count = 0;
    for (const auto& side : draw_lost_card(plan, legs, measure())) {
      for (const auto& command : side.commands) {
        if (const auto* path = std::get_if<PathCommand>(&command)) count += path->rings.size();
      }
    }
    return count;
  };
  const auto before = strokes();
  ASSERT_FALSE(legs[1].moves.empty());
  legs[1].moves.clear();
  EXPECT_GT(strokes(), before + 20);
}

}  // namespace
}  // namespace lodeway::sheet
