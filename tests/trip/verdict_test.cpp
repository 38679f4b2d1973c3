/// The verdict's rules, each by a case small enough to be judged by eye.
#include "lodeway/trip/verdict.hpp"

#include <limits>

#include <gtest/gtest.h>

#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/way_kept_told.hpp"

namespace lodeway::trip {
namespace {

using units::Language;

WayFacts fine() {
  WayFacts way;
  way.legs = {{.kept = 0.97}, {.kept = 0.93}, {.kept = 0.95}};
  way.keep_off = 0.01;
  way.slow_to_dark_min = 130;
  return way;
}

std::vector<Fails> what(const Verdict& v) {
  std::vector<Fails> out;
  for (const auto& r : v.reasons) out.push_back(r.what);
  return out;
}

TEST(Verdict, WithinHasNoReasons) {
  const auto v = verdict_of(fine(), {});
  EXPECT_EQ(v.band, Band::within);
  EXPECT_TRUE(v.reasons.empty());
}

TEST(Verdict, ALimitThatIsMetIsKept) {
  auto way = fine();
  way.keep_off = 0.05;
  way.legs[1].kept = 0.90;
  way.slow_to_dark_min = 60;
  EXPECT_EQ(verdict_of(way, {}).band, Band::within);
}

TEST(Verdict, EachFailingHasItsBand) {
  const auto band = [](const auto& change) {
    auto way = fine();
    change(way);
    return verdict_of(way, {}).band;
  };
  EXPECT_EQ(band([](WayFacts& w) { w.keep_off = 0.051; }), Band::outside);
  EXPECT_EQ(band([](WayFacts& w) { w.legs[2].water_stops = true; }), Band::outside);
  EXPECT_EQ(band([](WayFacts& w) { w.slow_to_dark_min = -1; }), Band::outside);
  EXPECT_EQ(band([](WayFacts& w) { w.turn_round_to_there_min = 4; }), Band::outside);
  EXPECT_EQ(band([](WayFacts& w) { w.turn_round_to_there_min = -4; }), Band::within);
  EXPECT_EQ(band([](WayFacts& w) { w.legs[0].kept = 0.69; }), Band::outside);
  EXPECT_EQ(band([](WayFacts& w) { w.legs[0].no_heights = true; }), Band::not_judged);
  EXPECT_EQ(band([](WayFacts& w) { w.no_compass = true; }), Band::not_judged);
  EXPECT_EQ(band([](WayFacts& w) { w.water_unknown = true; }), Band::not_judged);
  EXPECT_EQ(band([](WayFacts& w) { w.legs[0].kept = 0.70; }), Band::close_to);
  EXPECT_EQ(band([](WayFacts& w) { w.slow_to_dark_min = 59; }), Band::close_to);
  EXPECT_EQ(band([](WayFacts& w) { w.legs[1].wades = 1; }), Band::close_to);
}

TEST(Verdict, OutsideStandsBeforeNotJudgedBeforeCloseTo) {
  auto way = fine();
  way.legs[0].kept = 0.85;        // close to
  way.legs[1].no_heights = true;  // not judged
  EXPECT_EQ(verdict_of(way, {}).band, Band::not_judged);
  way.legs[2].kept = 0.5;  // outside
  const auto v = verdict_of(way, {});
  EXPECT_EQ(v.band, Band::outside);
  EXPECT_EQ(what(v), (std::vector{Fails::lost_leg, Fails::no_heights, Fails::unsure_leg}));
}

TEST(Verdict, WhatHurtsIsSaidBeforeWhatIsLost) {
  auto way = fine();
  way.legs[0].kept = 0.4;
  way.legs[1].keep_off = 0.30;
  way.keep_off = 0.34;
  way.slow_to_dark_min = -20;
  const auto v = verdict_of(way, {});
  ASSERT_EQ(v.reasons.size(), 4U);
  EXPECT_EQ(v.reasons[0], (Reason{Band::outside, Fails::keep_off, -1, 0.34, 0.05}));
  EXPECT_EQ(v.reasons[1], (Reason{Band::outside, Fails::keep_off, 1, 0.30, 0.05}));
  EXPECT_EQ(v.reasons[2], (Reason{Band::outside, Fails::dark, -1, 20, 0}));
  EXPECT_EQ(v.reasons[3], (Reason{Band::outside, Fails::lost_leg, 0, 0.4, 0.70}));
}

TEST(Verdict, OfTwoLegsTheWorseIsSaidFirst) {
  auto way = fine();
  way.legs[0].kept = 0.88;
  way.legs[2].kept = 0.75;
  const auto v = verdict_of(way, {});
  ASSERT_EQ(v.reasons.size(), 2U);
  EXPECT_EQ(v.reasons[0].leg, 2);
  EXPECT_EQ(v.reasons[1].leg, 0);
}

TEST(Verdict, AFigureThatIsNoNumberIsNotKnown) {
  auto way = fine();
  way.legs[1].kept = std::numeric_limits<double>::quiet_NaN();
  const auto v = verdict_of(way, {});
  EXPECT_EQ(v.band, Band::not_judged);
  EXPECT_EQ(what(v), std::vector{Fails::no_heights});
}

TEST(Verdict, ALegWithoutAPlaceAtItsEndIsNotJudgedByItsEnd) {
  auto way = fine();
  way.legs[1].kept.reset();
  EXPECT_EQ(verdict_of(way, {}).band, Band::within);
}

TEST(Verdict, TheTripsOwnLimitsRule) {
  auto way = fine();
  way.keep_off = 0.08;
  Limits wide;
  wide.most_keep_off = 0.10;
  EXPECT_EQ(verdict_of(way, wide).band, Band::within);
  Limits strict;
  strict.asked_kept = 0.96;
  EXPECT_EQ(verdict_of(fine(), strict).band, Band::close_to);
}

TEST(VerdictWords, SayWhatFailsWhereAndByHowMuch) {
  EXPECT_EQ(verdict_headline(Band::outside, Language::english), "Outside your limits");
  EXPECT_EQ(reason_words({Band::outside, Fails::keep_off, -1, 0.3401, 0.05}, Language::english),
            "35 in 100 stray onto ground to keep off; your limit is 5 in 100.");
  EXPECT_EQ(reason_words({Band::outside, Fails::keep_off, 3, 0.30, 0.05}, Language::english),
            "Leg 4: 30 in 100 stray onto ground to keep off.");
  EXPECT_EQ(reason_words({Band::outside, Fails::keep_off, 3, 0.30, 0.05, "Orrin Scar, cliff, 30 m to your right"},
                         Language::english),
            "Leg 4: 30 in 100 stray onto ground to keep off: Orrin Scar, cliff, 30 m to your right.");
  EXPECT_EQ(reason_words({Band::outside, Fails::lost_leg, 1, 0.36, 0.7}, Language::english),
            "Leg 2: only 36 in 100 keep it; fewer than 70 in 100 is too few.");
  EXPECT_EQ(reason_words({Band::outside, Fails::dark, -1, 75, 0}, Language::english),
            "On a slow day you are out for 1 h 15 min after last light.");
  EXPECT_EQ(reason_words({Band::close_to, Fails::unsure_leg, 0, 0.849, 0.9}, Language::english),
            "Leg 1: 84 in 100 keep it; your limit is 90 in 100.");
  EXPECT_EQ(
      reason_words({Band::close_to, Fails::little_light, -1, 40, 60}, Language::german),
      "An einem langsamen Tag bleiben nur 40 min bis zum letzten Licht; ihr wollt 1 h 00 min.");
}

TEST(VerdictWords, LegsThatFailAlikeShareASentence) {
  auto way = fine();
  way.legs[0].kept = 0.88;
  way.legs[2].kept = 0.75;
  way.legs[1].wades = 1;
  const auto lines = verdict_sentences(verdict_of(way, {}), Language::english);
  ASSERT_EQ(lines.size(), 2U);
  EXPECT_EQ(lines[0],
            "Legs 1 and 3: fewer than 90 in 100 keep them; the worst is leg 3, 75 in 100.");
  EXPECT_EQ(lines[1], "Leg 2: water to wade, no bridge.");
}

TEST(VerdictWords, HarmIsRoundedUpAndNothingIsNothing) {
  EXPECT_EQ(harmed_of_hundred(0), "0");
  EXPECT_EQ(harmed_of_hundred(0.0004), "1");
  EXPECT_EQ(harmed_of_hundred(0.29), "29");
  EXPECT_EQ(harmed_of_hundred(0.995), "100");
}

TEST(VerdictWords, NothingIsCalledSafe) {
  for (int b = 0; b < 4; ++b) {
    for (const auto language : {Language::english, Language::german}) {
      const auto text = verdict_headline(static_cast<Band>(b), language) + within_caution(language);
      EXPECT_EQ(text.find("safe"), std::string::npos) << text;
      EXPECT_EQ(text.find("sicher"), std::string::npos) << text;
    }
  }
}

// 61 of 100 that walked it against 68 worked out: the lower is said, with both beside it.
TEST(WayKept, TheLowerOfWalkedAndWorkedOut) {
  walking::WalkedDays days;
  EXPECT_DOUBLE_EQ(way_kept_told(0.68, days), 0.68);  // nobody walked
  days.parties = 500;
  days.kept = 305;
  EXPECT_DOUBLE_EQ(way_kept_told(0.68, days), 0.61);
  EXPECT_DOUBLE_EQ(way_kept_told(0.55, days), 0.55);
}

TEST(WayKept, BothFiguresAreTold) {
  const auto words = kept_words(0.61, 0.68, 0.72, Language::english);
  EXPECT_NE(words.find("put back on the way: 61 in 100."), std::string::npos) << words;
  EXPECT_NE(words.find("Predicted: 68. The lower is told."), std::string::npos) << words;
  EXPECT_NE(words.find("figures taken as known: 72."), std::string::npos) << words;
  // Whichever is the higher, each stands under its own name.
  const auto walked_more = kept_words(0.74, 0.68, 0.72, Language::english);
  EXPECT_NE(walked_more.find("put back on the way: 74 in 100."), std::string::npos) << walked_more;
  EXPECT_NE(walked_more.find("Predicted: 68. The lower is told."), std::string::npos)
      << walked_more;
  // Where both are shown alike there is no lower one.
  for (const auto language : {Language::english, Language::german}) {
    const auto equal = kept_words(0.684, 0.68, 0.72, language);
    EXPECT_NE(equal.find(language == Language::german ? "68 von 100. Berechnet: 68. Mit "
                                                      : "68 in 100. Predicted: 68. With "),
              std::string::npos)
        << equal;
    EXPECT_NE(equal.find(": 72."), std::string::npos) << equal;
  }
  const auto german = kept_words(0.61, 0.68, 0.72, Language::german);
  EXPECT_NE(german.find("61 von 100. Berechnet: 68. Genannt wird die kleinere."), std::string::npos)
      << german;
  EXPECT_EQ(kept_words(0.682, 0.68, 0.689, Language::english), "");  // all shown as 68
  EXPECT_EQ(kept_words(std::nullopt, 0.68, 0.683, Language::english), "");
  EXPECT_NE(kept_words(std::nullopt, 0.68, 0.72, Language::english).find("72"), std::string::npos);
}

}  // namespace
}  // namespace lodeway::trip
