// Route card, its text and CSV, home note, card of ways off.
#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/map/map_legs.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include <gtest/gtest.h>

#include "lodeway/sheet/notes/escape_card.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/trip/page_words.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/wording.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

const auto both_languages = {units::Language::english, units::Language::german};

std::string all_text(const std::vector<Drawing>& pages) {
  std::string out;
  for (const auto& page : pages) {
    for (const auto& t : texts_of(page)) out += t.text + "\n";
  }
  const std::string bound = "\u00A0";  // a figure and its unit: a blank to the reader
  for (auto at = out.find(bound); at != std::string::npos; at = out.find(bound, at))
    out.replace(at, bound.size(), " ");
  return out;
}

void expect_sound(const Drawing& d) {
  expect_text_on_page(d);
  EXPECT_EQ(overlaps(d), 0);
}

TEST(Card, SaysAllOfALegAndCutsNothing) {
  for (const auto language : both_languages) {
    for (const bool large : {false, true}) {
      for (const bool other_units : {false, true}) {
        auto plan = full_plan(language);
        if (other_units) {
          plan.trip.angles = trip::AngleUnit::mils;
          plan.trip.lengths = trip::LengthUnit::imperial;
        }
        const auto sides = draw_card(plan, measure(), {large});
        EXPECT_EQ(sides.size(), large ? 4U : 3U);
        for (const auto& side : sides) {
          expect_sound(side);
          expect_nothing_cut(side);
        }
      }
    }
  }
  auto text = all_text(draw_card(full_plan(), measure()));
  std::ranges::replace(text, '\n', ' ');  // sentences run over lines
  for (const char* words :
       {"legs 1–3",
        "legs 7–9",
        "side 1 of 3",
        "start 09:15",
        "turn 14:41",
        "sunset 16:37",
        "wall crosses",
        "735 m",
        "steepens",
        "36 min",
        "Keep off",
        "Brennow Edge, cliff, 142 m beyond the end",
        "Fallow Beck on your left",
        "Dog-leg.",
        "Aim off left.",
        "At plantation wall turn right: 110 m, 73 double paces, 2 min",
        "nothing to see",
        "none: rely on your count",
        "143° to Ostreldale road, 18 min",
        "Turn round if you are not at Kell Gap, end of leg 5, by",
        "14:41",
        "then 1 h 56 back to Fallow Bridge, there by 16:37, before sunset at 16:37",
        "If you do not know where you are",
        "112",
        "Six blasts or flashes a minute",
        "Your home contact raises the alarm at"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
}

// Every tick-off of a leg stands on the card with its place: in a box, or in a line of words. Before, the
// fourth was lost.
TEST(Card, NoTickOffIsLost) {
  for (const std::size_t more : {0U, 4U}) {
    auto plan = full_plan();
    for (auto& leg : plan.way.legs) {
      for (std::size_t k = 0; k < more && !leg.ticks.empty(); ++k)
        leg.ticks.insert(leg.ticks.begin(), {"cairn, left", mapdata::Kind::cairn, mapdata::Side::left,
                                             211.0 - 20 * static_cast<double>(k), 5, {}});
    }
    for (const bool large : {false, true}) {
      auto text = all_text(draw_card(plan, measure(), {large}));
      std::ranges::replace(text, '\n', ' ');
      for (const auto& tick : plan.way.legs.front().ticks)
        EXPECT_NE(text.find(std::to_string(std::lround(tick.at_m)) + " m"), std::string::npos)
            << tick.at_m << text;
    }
  }
}

// Seven legs of which a side holds three: no side is made for one leg alone.
TEST(Card, SidesShareTheLegs) {
  auto plan = full_plan();
  plan.way.legs.resize(7);
  plan.schedule.legs.resize(7);
  const auto sides = draw_card(plan, measure());
  for (const auto& side : sides) {
    for (const auto& t : texts_of(side)) EXPECT_FALSE(t.text.starts_with("leg ")) << t.text;
  }
}

// The figures are those of the plan: bearing, paces, minutes, clock, millimetres of leg 3.
TEST(Card, FiguresAreThePlans) {
  const auto plan = full_plan();
  const auto text = "\n" + all_text(draw_card(plan, measure()));
  const auto& leg = plan.way.legs[2];
  const auto has = [&](const std::string& line) {
    return text.find("\n" + line + "\n") != std::string::npos;
  };
  EXPECT_TRUE(has("089"));
  EXPECT_TRUE(has(std::to_string(std::lround(leg.counted.double_paces))));
  EXPECT_TRUE(has(std::to_string(std::lround(leg.counted.minutes))));
  EXPECT_TRUE(has(std::to_string(std::lround(leg.counted.length_m)) + " m"));
  EXPECT_TRUE(has(std::to_string(std::lround(mapdata::length_m(leg.course.line) / 25)) + " mm"));
  EXPECT_TRUE(has("821 505"));
}

// Who strays and who keeps every leg, of 100, at the head of the card: not the one for the other.
TEST(Card, BothFiguresOfTheWayHeadTheCard) {
  auto plan = full_plan();
  plan.keep_off = 0.123;  // harm is rounded up, what is kept down
  plan.way.certainty = 0.456;
  auto text = all_text(draw_card(plan, measure()));
  std::ranges::replace(text, '\n', ' ');
  EXPECT_NE(text.find("13 in 100 stray onto ground to keep off; 45 in 100 keep every leg"),
            std::string::npos)
      << text.substr(0, 400);
}

// Twenty-two legs with much that can be said of them: more than four sides as short days have them.
// They are told briefly, parted at the day's places; the escape routes stand on their own card.
TEST(Card, ALongDayFitsInTheHand) {
  for (const auto language : both_languages) {
    auto plan = full_plan(language);
    const auto legs = plan.way.legs;
    const auto times = plan.schedule.legs;
    auto& points = plan.trip.request.points;
    // the day's places: Quenna Hause, Harrik Pike, Kell Gap, Withen Bridge, each twice
    points = {points[0], points[2], points[4], points[5], points[7],
              points[2], points[4], points[5], points[7]};
    plan.way.legs.insert(plan.way.legs.end(), legs.begin(), legs.end());
    plan.schedule.legs.insert(plan.schedule.legs.end(), times.begin(), times.end());
    plan.way.legs.insert(plan.way.legs.end(), legs.begin(), legs.begin() + 4);
    plan.schedule.legs.insert(plan.schedule.legs.end(), times.begin(), times.begin() + 4);
    const auto sides = draw_card(plan, measure());
    EXPECT_LE(sides.size(), 4U);
    for (const auto& side : sides) {
      expect_sound(side);
      expect_nothing_cut(side);
    }
    auto text = all_text(sides);
    const bool german = language == units::Language::german;
    std::ranges::replace(text, '\n', ' ');
    // Help stands on the last side where it asks for no side more; else it is said where it stands.
    const auto says = [&](const char* words) { return text.find(words) != std::string::npos; };
    const bool helped =
        says(german ? "Notabstiege: auf dem Blatt" : "Escape routes: on the escape card");
    EXPECT_NE(helped, says(german ? "Notabstiege, Hilfe: auf ihren Blättern"
                                  : "Escape routes, help: on their cards"));
    if (!german) {
      EXPECT_EQ(helped, says("If you do not know where you are"));
    }
    const char* route = german ? "143° nach Ostreldale road" : "143° to Ostreldale road";
    EXPECT_EQ(text.find(route), std::string::npos);
    // Nor does its last side send anybody to what it does not have.
    EXPECT_FALSE(says(german ? "Notabstieg: beim Abschnitt" : "Escape route: beside the leg"));
    EXPECT_NE(text.find(": Quenna Hause"), std::string::npos);
    // A short day has it on the route card; what left that stands on the escape card.
    auto short_day = all_text(draw_card(full_plan(language), measure()));
    std::ranges::replace(short_day, '\n', ' ');
    EXPECT_NE(short_day.find(route), std::string::npos);
    auto escapes = all_text(draw_escape_card(plan, measure()));
    std::ranges::replace(escapes, '\n', ' ');
    for (const char* words : {"143°", "Ostreldale road"})
      EXPECT_NE(escapes.find(words), std::string::npos) << words;
  }
}

// Each sentence that can make a leg dangerous, on a long day: what the left half has no room for is
// whole in the right one.
TEST(Card, OnALongDayADangerStandsWholeSomewhere) {
  Page page(card::page_w, card::page_h, "", measure());
  std::string longest;
  for (const auto language : both_languages) {
    for (int what = 0; what < trip::fails_count; ++what) {
      const trip::Reason reason{trip::Band::outside, static_cast<trip::Fails>(what), 3, 1, 1};
      const auto words = trip::leg_reason_words(reason, language);
      if (page.width(words, danger_type(1)) > page.width(longest, danger_type(1))) longest = words;
      auto plan = plan_of(24);
      plan.trip.language = language;
      plan.verdict.reasons = {reason};
      auto text = all_text(draw_card(plan, measure()));
      std::ranges::replace(text, '\n', ' ');
      EXPECT_NE(text.find(words), std::string::npos) << words;
    }
  }
  EXPECT_TRUE(whole_on_left(page, longest, 1)) << longest;
  EXPECT_FALSE(whole_on_left(page, longest + " " + longest, 1));
}

/// By hand: five rows a side, and help takes the room of one. Told briefly six rows of 17.6 mm from 22 to
/// 144 mm on the first side, seven from 12.4 on the others, five above help (from 111 mm): four sides hold
/// 6 + 7 + 7 + 5; more legs than that have help elsewhere, 6 + 7 + 7 + 7 and so on.
std::size_t sides_for(int legs) {
  if (legs <= 19) return static_cast<std::size_t>((legs + 1 + 4) / 5);
  return legs <= 27 ? 4 : static_cast<std::size_t>((legs + 1 + 6) / 7);
}

TEST(Card, AnyNumberOfLegsAnyName) {
  std::string long_name;
  for (int i = 0; i < 50; ++i) long_name += "Harrikpike";
  for (const auto& name :
       {std::string("Hut"), long_name, std::string("Όλυμπος"), std::string("جبل"),
        std::string("玉山"), std::string("a\x01\x02\nb"), std::string("\xff\xfe"), std::string()}) {
    for (const int legs : {1, 5, 9, 23, 27, 200}) {
      const auto plan = plan_of(legs, name);
      const auto sides = draw_card(plan, measure());
      EXPECT_EQ(sides.size(), sides_for(legs));
      for (std::size_t s = 0; s < sides.size(); s += legs > 27 ? 13 : 1) expect_sound(sides[s]);
      const auto text = card_text(plan);
      EXPECT_TRUE(
          std::ranges::none_of(text, [](char c) { return c != '\n' && c > 0 && c < 0x20; }));
      std::istringstream lines(text);
      if (name.size() < 50) {
        for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 84U) << line;
      }
      for (const auto& side : draw_home_note(plan, flat_ground(), measure())) expect_sound(side);
      for (const auto& side : draw_escape_card(plan, measure())) expect_sound(side);
    }
  }
}

TEST(Card, CsvHasARowALegAndAsManyFieldsAsItsHead) {
  const auto csv = card_csv(full_plan());
  std::istringstream lines(csv);
  std::vector<std::size_t> fields;
  for (std::string line; std::getline(lines, line);) {
    ASSERT_EQ(line.back(), '\r');
    std::size_t n = 1;
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') quoted = !quoted;
      if (c == ',' && !quoted) ++n;
    }
    fields.push_back(n);
  }
  EXPECT_EQ(fields, std::vector<std::size_t>(10, 29));
  EXPECT_NE(card_csv(plan_of(3, "A \"B\", C")).find("\"A \"\"B\"\", C\""), std::string::npos);
  EXPECT_NE(card_csv(plan_of(1)).find(",33,213,"), std::string::npos);  // the needle and back
}

TEST(Home, AllThatIsAskedFor) {
  for (const auto language : both_languages) {
    for (auto plan : {full_plan(language), plan_of(14)}) {
      plan.trip.language = language;
      for (const auto& side : draw_home_note(
               plan, plan.trip.name == "Hut" ? flat_ground() : fells(), measure())) {
        expect_sound(side);
        expect_nothing_cut(side);
      }
    }
  }
  const auto plan = full_plan();
  auto text = all_text(draw_home_note(plan, fells(), measure()));
  const auto lines = text;
  std::ranges::replace(text, '\n', ' ');  // sentences run over lines
  for (const char* words :
       {"Back at", "Don't worry before", "Call for help at", "B. Leader 000 555 0177", "112", "819 505",
        "Clothing", "Beacon", "Experience", "Medical", "Will call", "blue van at Fallow Bridge",
        "They turn round if they are not at Kell Gap, the end of leg 5, by", "If they give up on legs 1–8, they will head for",
        "up to 81", "Least certain: leg 9", "This is only a plan."})
    EXPECT_NE(text.find(words), std::string::npos) << words;
  // Three times, the last the slow day's end and an hour.
  for (const auto at : {plan.schedule.end, plan.schedule.end_slow.value(), plan.schedule.act_by.value()}) {
    const auto m = at.count();
    const auto clock = (m / 60 < 10 ? "0" : "") + std::to_string(m / 60) + ":" +
                       (m % 60 < 10 ? "0" : "") + std::to_string(m % 60);
    EXPECT_NE(lines.find("\n" + clock + "\n"), std::string::npos) << clock;
  }
}

TEST(Home, DarkAndBlanksAreSaid) {
  auto plan = full_plan();
  EXPECT_NE(all_text(draw_home_note(plan, fells(), measure())).find("before dark (17:17)"),
            std::string::npos);
  plan.schedule.act_by = trip::Clock{18 * 60};
  plan.trip.emergency_number.clear();
  plan.trip.leader = {};
  const auto text = all_text(draw_home_note(plan, fells(), measure()));
  EXPECT_NE(text.find("after dark (17:17)"), std::string::npos);
  EXPECT_NE(text.find("write it here before they leave"), std::string::npos);
}

TEST(Home, TwoHundredLegsFit) {
  const auto note = draw_home_note(plan_of(200), flat_ground(), measure());
  for (const auto& side : note) expect_sound(side);
  EXPECT_NE(all_text(note).find("200 legs"), std::string::npos);
}

TEST(Escape, SignalIsTheRegions) {
  auto plan = full_plan();
  const auto text = [&] { return all_text(draw_escape_card(plan, measure())); };
  EXPECT_NE(text().find("Six blasts or flashes a minute"), std::string::npos);
  plan.trip.signals = trip::SignalRegion::north_america;
  EXPECT_NE(text().find("Three blasts"), std::string::npos);
  EXPECT_EQ(text().find("Six blasts"), std::string::npos);
  for (const char* words : {"143°", "no escape route is known to this plan",
                            "promise: look before you go down", "both arms up"})
    EXPECT_NE(text().find(words), std::string::npos) << words;
  for (const auto language : both_languages) {
    for (const auto& side : draw_escape_card(full_plan(language), measure())) {
      expect_sound(side);
      expect_nothing_cut(side);
    }
  }
}

// Of under half of one in 100 neither the route card nor the escape card says how many stray.
TEST(Escape, HowManyStrayIsSaidFromHalfOfOneIn100On) {
  auto plan = full_plan();
  auto& leg = plan.way.legs[1];
  ASSERT_FALSE(leg.escapes.empty());
  const std::string said = "1 in 100 stray onto ground to keep off";
  for (const double harmed : {0.004, 0.006}) {
    leg.judged.hazard_probability = harmed;
    EXPECT_EQ(leg_strays(plan, 1), harmed < 0.005 ? "" : said);
    for (auto& l : plan.way.legs) {
      for (auto& route : l.escapes) route.hazard_probability = harmed;
    }
    auto text = all_text(draw_escape_card(plan, measure()));
    std::ranges::replace(text, '\n', ' ');
    EXPECT_EQ(text.find(said) == std::string::npos, harmed < 0.005) << harmed;
  }
}

// By place: steps with needle, what is followed, metres and minutes; the middle of a leg in one line;
// what is worse than the limit is said, and back the way they came is always there with its time.
TEST(Escape, StepsByPlaceAndWhatIsSaidOfThem) {
  const auto sides = draw_escape_card(full_plan(), measure());
  for (const auto& side : sides) expect_sound(side);
  auto text = all_text(sides);
  std::ranges::replace(text, '\n', ' ');
  for (const char* words :
       {"143°", "163°", "335 m, 9 min", "along Kell path, to Low Hause fold", "end of leg 2",
        "Half way on leg 5:", "Ostreldale road is here", "12 in 100 stray onto ground to keep off",
        "or back the way you came, 45 min", "back the way you came to Ostreldale road",
        "ends after last light on a slow day", "93 in 100", "54 min"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
}

TEST(Words, EveryEntryInBothLanguagesWithTheSameBlanks) {
  for (int i = 0; i < static_cast<int>(trip::Say::count); ++i) {
    const std::string en = say(static_cast<trip::Say>(i), units::Language::english),
                      de = say(static_cast<trip::Say>(i), units::Language::german);
    EXPECT_FALSE(en.empty() || de.empty()) << i;
    for (char n = '0'; n <= '9'; ++n) {
      const auto blank = std::string("{") + n + "}";
      EXPECT_EQ(en.find(blank) == std::string::npos, de.find(blank) == std::string::npos) << en;
    }
    EXPECT_TRUE(measure().covers(en + de, Face::words)) << en;
  }
}

// How sure, in stones: four from 98 in 100 on, then 95, 90 and 75; under that none.
TEST(Card, StonesOfCertainty) {
  const std::vector<std::pair<double, int>> table{{1, 4},     {0.98, 4}, {0.979, 3}, {0.95, 3},
                                                  {0.949, 2}, {0.90, 2}, {0.899, 1}, {0.75, 1},
                                                  {0.749, 0}, {0, 0}};
  for (const auto& [certainty, stones] : table)
    EXPECT_EQ(stones_of(certainty), stones) << certainty;
}

// The page says in words from where each stone is given: the card's own rule, in both languages.
TEST(Card, ThePageSaysTheSameOfStones) {
  int told = 0;
  for (const auto& [english, german] : trip::page_sentences()) {
    if (!std::string_view(english).starts_with("Certainty: 4, 3, 2, 1 from ")) continue;
    for (const std::string text : {english, german}) {
      std::istringstream numbers(text.substr(text.find("1 ") + 2));
      std::string word;
      numbers >> word;  // from
      for (int stones = 4, share = 0; stones > 0 && numbers >> share; --stones, ++told) {
        EXPECT_EQ(stones_of(share / 100.0), stones) << text;
        EXPECT_EQ(stones_of((share - 1) / 100.0), stones - 1) << text;
        numbers.ignore(1, ',');
      }
    }
  }
  EXPECT_EQ(told, 8);
}

}  // namespace
}  // namespace lodeway::sheet
