// What paper says of units, zones and one-way trips.
#include <cmath>
#include <cstdlib>

#include <gtest/gtest.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/notes/escape_card.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/text.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

bool has(const Drawing& drawing, const std::string& part) {
  for (const auto& t : texts_of(drawing)) {
    if (t.text.find(part) != std::string::npos) return true;
  }
  return false;
}

// A sheet in feet: contours every 50 ft, figures every 250, the scale line in feet and miles.
TEST(SaidOnPaper, AnImperialSheetCountsFeet) {
  auto plan = full_plan();
  plan.trip.lengths = trip::LengthUnit::imperial;
  const auto sheets = draw_map_sheets(plan, fells(), measure());
  ASSERT_TRUE(sheets);
  const auto& sheet = sheets->front();
  EXPECT_TRUE(has(sheet, "contours 50 ft"));
  EXPECT_TRUE(has(sheet, "= 1 mi"));
  EXPECT_TRUE(has(sheet, "1 mm = 82 ft"));
  EXPECT_FALSE(has(sheet, "1 km"));
  int figures = 0;
  for (const auto& t : texts_of(sheet)) {
    if (std::abs(t.size_mm - 2.05) > 1e-9 || t.face != Face::figures) continue;
    const double value = std::atof(t.text.c_str());
    EXPECT_NEAR(std::remainder(value, 250), 0, 1e-9) << t.text;
    EXPECT_LT(value, 3500) << "no ground of the fells is higher than 1000 m";
    ++figures;
  }
  EXPECT_GT(figures, 3);
  EXPECT_NE(card_text(plan).find("82 ft"), std::string::npos);
  EXPECT_EQ(card_text(plan).find("25 m"), std::string::npos);
}

TEST(SaidOnPaper, AStartStandsWithItsZone) {
  auto plan = full_plan();
  plan.trip.zone = "Europe/Dublin";
  EXPECT_NE(card_text(plan).find("(Europe/Dublin)"), std::string::npos);
  EXPECT_TRUE(has(draw_home_note(plan, fells(), measure()).front(), "(Europe/Dublin)"));
  const auto card = draw_card(plan, measure(), {});
  EXPECT_TRUE(has(card.front(), "(Europe/Dublin)"));
}

TEST(SaidOnPaper, WhoDoesNotComeBackIsDue) {
  for (const auto language : {units::Language::english, units::Language::german}) {
    auto plan = full_plan(language);
    const auto said = [&](trip::Say what) {
      return has(draw_home_note(plan, fells(), measure()).front(), trip::say(what, language));
    };
    plan.schedule.one_way = true;
    EXPECT_TRUE(said(trip::Say::due_at));
    EXPECT_FALSE(said(trip::Say::back_at));
    plan.schedule.one_way = false;
    EXPECT_TRUE(said(trip::Say::back_at));
    EXPECT_FALSE(said(trip::Say::due_at));
  }
}

/// The page's words in one line, blanks that do not break as others.
std::string words_of(const std::vector<Drawing>& pages) {
  std::string out;
  for (const auto& page : pages) {
    for (const auto& t : texts_of(page)) out += t.text + " ";
  }
  for (auto at = out.find("\u00A0"); at != std::string::npos; at = out.find("\u00A0", at))
    out.replace(at, std::string("\u00A0").size(), " ");
  return out;
}

// What rescuers ask for, of the start, the end and each leg's end, on both papers.
TEST(SaidOnPaper, FullReferencesForRescuers) {
  auto plan = full_plan();
  plan.start_full_reference = "29U MA 8190 5050, 54.6012 N 9.3011 W";
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    plan.way.legs[i].full_reference =
        "29U MA 82" + std::to_string(10 + i) + " 5150, 54.6112 N 9.2811 W";
  }
  const auto home = words_of(draw_home_note(plan, fells(), measure())),
             escape = words_of(draw_escape_card(plan, measure()));
  for (const auto* text : {&home, &escape}) {
    EXPECT_NE(text->find(plan.start_full_reference), std::string::npos);
    for (const auto& leg : plan.way.legs)
      EXPECT_NE(text->find(leg.full_reference), std::string::npos) << leg.full_reference;
  }
}

// The figures are the card's: 74 kept is "73" nowhere else, harm is rounded up, keeping down.
TEST(SaidOnPaper, WhereToSearchFirstAndWhatWasNotMet) {
  for (const auto language : {units::Language::english, units::Language::german}) {
    auto plan = full_plan(language);
    plan.way.legs[3].judged.hazard_probability = 0.0712;
    const auto text = words_of(draw_home_note(plan, fells(), measure()));
    const auto& legs = plan.way.legs;
    const auto last = legs.size() - 1;
    const bool german = language == units::Language::german;
    const auto kept = units::of_hundred(legs[last].judged.certainty);
    for (const auto& words :
         {(german ? "Abschnitt " : "leg ") + std::to_string(last + 1) + ", " +
              legs[last].course.from + " → " + legs[last].course.to + "; " + kept +
              (german ? " von 100 halten ihn." : " in 100 keep it."),
          std::string(german ? "Am gefährlichsten: Abschnitt 4, " : "Most dangerous: leg 4, "),
          std::string(german ? "; 8 von 100 geraten" : "; 8 in 100 stray"),
          std::string(trip::say(trip::Say::not_got, language))})
      EXPECT_NE(text.find(words), std::string::npos) << words;
    const auto card = card_text(plan);
    EXPECT_NE(card.find(trip::say(trip::Say::not_got, language)), std::string::npos);
    EXPECT_LT(card.find(trip::verdict_headline(plan.verdict.band, language)), card.find("1. "));
  }
}

}  // namespace
}  // namespace lodeway::sheet
