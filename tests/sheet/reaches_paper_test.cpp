// What is said on the screen and must be read where there is none: on the hill and at home.
#include <algorithm>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/draw/ink.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/wording.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

const auto both_languages = {units::Language::english, units::Language::german};

/// Words of the pages in one line, blanks that do not break as others.
std::string words_of(const std::vector<Drawing>& pages) {
  std::string out;
  for (const auto& page : pages) {
    for (const auto& t : texts_of(page)) out += t.text + " ";
  }
  for (auto at = out.find("\u00A0"); at != std::string::npos; at = out.find("\u00A0", at))
    out.replace(at, std::string("\u00A0").size(), " ");
  return out;
}

struct Papers {
  std::string card, card_as_text, home;
};
Papers papers_of(const trip::Plan& plan) {
  Papers out{words_of(draw_card(plan, measure())), card_text(plan),
             words_of(draw_home_note(plan, fells(), measure()))};
  std::ranges::replace(out.card_as_text, '\n', ' ');
  for (auto at = out.card_as_text.find("  "); at != std::string::npos;
       at = out.card_as_text.find("  "))
    out.card_as_text.erase(at, 1);
  return out;
}

void expect_on_all(const trip::Plan& plan, const std::string& words) {
  const auto papers = papers_of(plan);
  EXPECT_NE(papers.card.find(words), std::string::npos) << "card: " << words;
  EXPECT_NE(papers.card_as_text.find(words), std::string::npos) << "card as text: " << words;
  EXPECT_NE(papers.home.find(words), std::string::npos) << "home note: " << words;
}

// Snow: what lies above is not judged and who knows; and each leg's slopes with their aspect.
TEST(ReachesPaper, SnowAboveAndWhomToAsk) {
  for (const auto language : both_languages) {
    auto plan = full_plan(language);
    plan.trip.request.party.visibility = mapdata::Visibility::snow;
    plan.way.legs[3].course.line = {{482000, 6052000}, {484000, 6053500}};  // over steep ground
    plan.warnings = warnings_for(plan, fells());
    expect_on_all(plan, say(trip::Say::snow_above, language));
    const auto of_leg = trip::told_on(plan, trip::Reach::card, 3);
    ASSERT_FALSE(of_leg.empty());
    EXPECT_NE(papers_of(plan).card.find(of_leg.front()), std::string::npos) << of_leg.front();
  }
}

// A plan of a day that is past is read for today's: card and home note say so.
TEST(ReachesPaper, ADayThatIsPast) {
  for (const auto language : both_languages) {
    auto plan = full_plan(language);
    const auto past = trip::past_warning(plan, std::chrono::sys_days{plan.trip.date} +
                                                   std::chrono::days{7});
    ASSERT_TRUE(past);
    plan.warnings = {*past};
    expect_on_all(plan, past->text.substr(0, past->text.find(':')));
  }
}

// On 25 October 2026 clocks in Dublin go back at 02:00; the trip starts before that.
TEST(ReachesPaper, AClockChangeOnTheDay) {
  for (const auto language : both_languages) {
    auto plan = full_plan(language);
    plan.trip.zone = "Europe/Dublin";
    plan.trip.date = std::chrono::year{2026} / 10 / 25;
    plan.trip.start = plan.schedule.start = trip::Clock{30};
    const auto day =
        trip::daylight_of(fells(), plan.trip, plan.way.legs.front().course.line.front());
    ASSERT_TRUE(day);
    plan.daylight = *day;
    plan.warnings = warnings_for(plan, fells());
    const auto told = trip::told_on(plan, trip::Reach::card);
    ASSERT_EQ(told.size(), 1U);
    EXPECT_NE(told[0].find("02:00"), std::string::npos) << told[0];
    expect_on_all(plan, told[0]);
  }
}

// However many things fail, each stands on both papers; none is only counted.
TEST(ReachesPaper, EveryReasonOfTheVerdict) {
  using trip::Band, trip::Fails;
  for (const auto language : both_languages) {
    auto plan = full_plan(language);
    plan.verdict.band = Band::outside;
    plan.verdict.reasons = {
        {Band::outside, Fails::keep_off, -1, 0.31, 0.05},  {Band::outside, Fails::keep_off, 2, 0.2, 0.05},
        {Band::outside, Fails::water_stops, 1, 0, 0},      {Band::outside, Fails::dark, -1, 125, 0},
        {Band::outside, Fails::dark_start, -1, 61, 0},     {Band::outside, Fails::back_too_late, -1, 56, 0},
        {Band::outside, Fails::lost_leg, 4, 0.58, 0.7},    {Band::not_judged, Fails::no_heights, 5, 0, 0},
        {Band::not_judged, Fails::no_compass, -1, 0, 0},   {Band::not_judged, Fails::water_unknown, -1, 0, 0},
        {Band::close_to, Fails::unsure_leg, 6, 0.78, 0.9}, {Band::close_to, Fails::wade, 7, 1, 0}};
    for (const auto& sentence : trip::verdict_sentences(plan.verdict, language))
      expect_on_all(plan, sentence);
    for (const auto& side : draw_card(plan, measure())) {
      expect_text_on_page(side);
      EXPECT_EQ(overlaps(side), 0);
    }
    for (const auto& side : draw_home_note(plan, fells(), measure())) {
      expect_text_on_page(side);
      EXPECT_EQ(overlaps(side), 0);
    }
  }
}

// A leg's certainty never stands alone: how many stray is beside it also where that is within the
// limit; over it the danger says so, once.
TEST(ReachesPaper, WhoStraysStandsBesideEachLegsCertainty) {
  for (const auto language : both_languages) {
    auto plan = full_plan(language);
    for (auto& leg : plan.way.legs) leg.judged.hazard_probability = 0.004;
    plan.way.legs[4].judged.hazard_probability = 0.0231;
    const auto words = say(trip::Say::escape_strays, language, {"3"});
    const auto count = [&](const std::string& text) {
      int n = 0;
      for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++n;
      return n;
    };
    const auto papers = papers_of(plan);
    EXPECT_EQ(count(papers.card), 1) << papers.card;
    EXPECT_EQ(count(papers.card_as_text), 1) << papers.card_as_text;
    EXPECT_NE(card_text(plan).find("\n   " + words + "\n"), std::string::npos);
    for (const auto& side : draw_card(plan, measure())) {
      expect_text_on_page(side);
      EXPECT_EQ(overlaps(side), 0);
    }
    plan.verdict.reasons.push_back({trip::Band::outside, trip::Fails::keep_off, 4, 0.0231, 0.01});
    EXPECT_EQ(card_text(plan).find("\n   " + words + "\n"), std::string::npos);
  }
}

// Of thirty legs, in letters of 2.2 mm at least, none on another.
TEST(ReachesPaper, FullReferencesOfALongTrip) {
  for (const auto language : both_languages) {
    auto plan = plan_of(30, "Hut");
    plan.trip.language = language;
    plan.start_full_reference = "13TEK 9700 1850, 44.4133 N 103.7816 W";
    for (std::size_t i = 0; i < plan.way.legs.size(); ++i)
      plan.way.legs[i].full_reference = fmt::format("13TEK {} 2018, 44.4284 N 103.7690 W", 9700 + i);
    const auto note = draw_home_note(plan, flat_ground(), measure());
    const auto words = words_of(note);
    EXPECT_NE(words.find(plan.start_full_reference), std::string::npos);
    for (const auto& leg : plan.way.legs)
      EXPECT_NE(words.find(leg.full_reference), std::string::npos) << leg.full_reference;
    for (const auto& side : note) {
      expect_text_on_page(side);
      EXPECT_EQ(overlaps(side), 0);
      for (const auto& t : texts_of(side)) {
        if (t.text.find("13TEK") == 0) {
          EXPECT_GE(t.size_mm, 2.2) << t.text;
        }
      }
    }
  }
}

// No time to turn round by: it is said why, of both reasons.
TEST(ReachesPaper, WhyNoTurnRoundIsNamed) {
  for (const auto language : both_languages) {
    auto plan = full_plan(language);
    plan.schedule.turn_round.reset();
    plan.schedule.turn_round_leg = -1;
    expect_on_all(plan, say(trip::Say::no_turn_place, language));
    plan.schedule.turn_before_start = true;
    expect_on_all(plan, say(trip::Say::no_turn_hour, language));
  }
}

// A start never stands without its whole zone, nor in letters that nobody can read.
TEST(ReachesPaper, TheZoneOnTheCardIsWholeAndLegible) {
  for (const char* zone : {"America/Denver", "America/Argentina/Buenos_Aires"}) {
    auto plan = full_plan();
    plan.trip.zone = zone;
    plan.schedule.turn_round = plan.schedule.start + trip::Clock{90};
    const auto side = draw_card(plan, measure()).front();
    EXPECT_EQ(overlaps(side), 0);
    bool found = false;
    for (const auto& t : texts_of(side)) {
      if (t.text.find(std::string("(") + zone + ")") == std::string::npos) continue;
      found = true;
      EXPECT_GE(t.size_mm, 1.7) << t.text;
    }
    EXPECT_TRUE(found) << zone;
  }
}

// Ground over the limit under the ribbon of a leg: the hatch is drawn after the ribbon's surface.
TEST(ReachesPaper, TheHatchOfSteepGroundLiesOverTheRibbon) {
  auto plan = full_plan();
  plan.trip.request.party.max_slope_deg = 20;  // some of it everywhere on this sheet
  const auto sheets = draw_map_sheets(plan, fells(), measure());
  ASSERT_TRUE(sheets);
  std::size_t surfaces = 0, hatches = 0;
  for (const auto& sheet : *sheets) {
    std::size_t last_surface = 0, first_hatch = sheet.commands.size();
    bool mapped = true;
    for (std::size_t k = 0; k < sheet.commands.size(); ++k) {
      if (std::holds_alternative<UnclipCommand>(sheet.commands[k])) mapped = false;  // the key below
      const auto* path = std::get_if<PathCommand>(&sheet.commands[k]);
      if (!mapped || path == nullptr) continue;
      if (path->fill && path->fill_ink == ink::faint(ink::lamp_pale, 0.72)) {
        last_surface = k;
        ++surfaces;
      }
      if (path->width_mm == 0.22 && path->stroke == ink::rowan) {
        first_hatch = std::min(first_hatch, k);
        ++hatches;
      }
    }
    EXPECT_LT(last_surface, first_hatch);
  }
  EXPECT_GT(surfaces, 0U);
  EXPECT_GT(hatches, 0U);
}

}  // namespace
}  // namespace lodeway::sheet
