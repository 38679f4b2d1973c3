// Paper of a training day: a place for every mark, no answers for those who learn, whole in German.
#include "lodeway/sheet/training/training_sheets.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

using learn::SettingItem;

/// A day with all parts, by hand, on the fells.
learn::TrainingDay whole_day(units::Language language) {
  learn::TrainingDay d;
  d.language = language;
  const auto& f = fells().elevation.frame();
  d.from = f.centre(f.rows / 2, f.cols / 2);
  d.from_words = "Kell Gap";
  d.magnetic_from_grid_deg = -2.25;
  const auto at = [&](double east, double north) {
    return earth::GridPoint{d.from.east_m + east, d.from.north_m + north};
  };
  const auto grid = [](double deg) { return units::GridBearing::degrees(deg); };
  const auto dial = [](double deg) { return units::MagneticBearing::degrees(deg); };
  using Mistake = SettingItem::Mistake;
  for (int i = 0; i < 20; ++i) {
    SettingItem s;
    s.from_words = "Hosk Tarn";
    s.to_words = "Ravock";
    s.right = dial(40 + i);
    s.answers = {{{dial(40 + i), Mistake::none},
                  {dial(220 + i), Mistake::back},
                  {dial(44.5 + i), Mistake::wrong_sign},
                  {dial(42.25 + i), Mistake::grid}}};
    d.settings.push_back(s);
  }
  d.paces = {{learn::PaceGround::level, at(0, 0), at(0, 100), 100, 0},
             {learn::PaceGround::up, at(50, 0), at(50, 100), 100, 9},
             {learn::PaceGround::rough, at(90, 0), at(90, 100), 100, 2},
             {learn::PaceGround::down, at(50, 100), at(50, 0), 100, -9}};
  for (int i = 0; i < 4; ++i) {
    learn::BearingCourse b;
    b.from = at(300 * i, 500);
    b.bearing = grid(90.0 * i);
    b.length_m = 400;
    b.peg = earth::step(b.from, b.bearing, 400);
    b.catches = "Zaunlinie";
    b.catches_beyond_m = 120;
    b.crosses = {"Mauerlinie", "Bachlinie"};
    b.may_plant = i == 0;
    d.bearings.push_back(b);
  }
  for (int i = 0; i < 10; ++i) {
    learn::FeatureFind x;
    x.from = at(-200, 120 * i);
    x.at = at(-400, 120 * i);
    x.from_words = "Ravock";
    x.words = "Hosk";
    x.length_m = 200;
    x.seen_from_m = 40;
    x.difficulty = 0.05 * (i + 1);
    x.attack_point = i % 2 == 0;
    x.like_near = i == 3;
    d.features.push_back(x);
  }
  learn::ForkWalk walk;
  walk.line = {at(0, -800), at(900, -800), at(900, -1500)};
  walk.length_m = 1600;
  for (int i = 0; i < 12; ++i)
    walk.forks.push_back(
        {at(100 + 60 * i, -800), 45, -45, "Lodd", "Wenn", 90, 0.5, 100.0 + 60 * i});
  d.forks = walk;
  for (const double radius : {100.0, 200.0, 400.0})
    d.drops.push_back({at(-900, -900), at(-600, -700), "Ravock", 411, 7, grid(135), radius});
  d.times = {{{at(0, -800), at(500, -800)}, 500}, {{at(500, -800), at(900, -800)}, 400}};
  d.missing = {"Lodd 7."};
  return d;
}

struct Paper {
  std::vector<Drawing> course, answers, marks;
  Drawing map;
};
Paper paper_of(const learn::TrainingDay& day) {
  const TrainingPaper p{day, fells(), "C1880F-7"};
  return {draw_course_sheet(p, measure()), draw_answer_sheet(p, measure()),
          draw_marking_sheet(p, measure()), draw_map_piece(p, measure())};
}
std::vector<std::string> words_of(const std::vector<Drawing>& pages) {
  std::vector<std::string> out;
  for (const auto& page : pages) {
    for (const auto& t : texts_of(page)) out.push_back(t.text);
  }
  return out;
}
/// Line ends are blanks to the reader.
bool says(const std::vector<std::string>& all, const std::string& what) {
  std::string text;
  for (const auto& t : all) text += t + " ";
  for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at))
    text.replace(at, 2, " ");
  return text.find(what) != std::string::npos;
}
long count(const std::vector<std::string>& all, const std::string& what) {
  return std::ranges::count(all, what);
}

TEST(TrainingSheets, TheMarkingSheetHasAPlaceForEveryMarkThatTheMarksFileAsksFor) {
  const auto day = whole_day(units::Language::english);
  const auto words = words_of(paper_of(day).marks);
  std::vector<std::pair<learn::Exercise, const char*>> headings{
      {learn::Exercise::setting, "Desk"},         {learn::Exercise::pacing, "Pace"},
      {learn::Exercise::bearing, "Open bearing"}, {learn::Exercise::lines, "Lines crossed"},
      {learn::Exercise::features, "Features"},    {learn::Exercise::forks, "Forks"},
      {learn::Exercise::drops, "Where are we?"},  {learn::Exercise::time, "Distance by time"},
      {learn::Exercise::doubt, "Planted bearing"}};
  for (const auto& m : learn::marks_of(day)) {
    const auto found =
        std::ranges::find(headings, m.exercise, [](const auto& h) { return h.first; });
    ASSERT_NE(found, headings.end());
    EXPECT_TRUE(says(words, found->second)) << found->second;
  }
  // Two of each pair at the desk; four pegs and three drops of three pairs.
  EXPECT_EQ(count(words, "set"), 6);
  EXPECT_EQ(count(words, "wrong"), 6);
  EXPECT_EQ(count(words, "left"), 12);
  EXPECT_EQ(count(words, "long"), 12);
  EXPECT_EQ(count(words, "height m"), 9);
  EXPECT_EQ(count(words, "guessed"), 6);
}

TEST(TrainingSheets, TheCourseSheetGivesNoAnswerAway) {
  const auto day = whole_day(units::Language::english);
  const auto paper = paper_of(day);
  const auto course = words_of(paper.course), answers = words_of(paper.answers);
  for (const char* secret :
       {"Zaunlinie", "Mauerlinie", "back bearing", "on the dial,", "planted"}) {
    EXPECT_FALSE(says(course, secret)) << secret;
    EXPECT_TRUE(says(answers, secret)) << secret;
  }
  EXPECT_TRUE(says(course, "Nobody goes alone"));
  EXPECT_TRUE(says(answers, "within 200 m"));
}

TEST(TrainingSheets, InGermanNoEnglishIsLeft) {
  const auto paper = paper_of(whole_day(units::Language::german));
  auto all = words_of(paper.course);
  for (const auto& pages : {paper.answers, paper.marks, std::vector{paper.map}})
    std::ranges::copy(words_of(pages), std::back_inserter(all));
  EXPECT_TRUE(says(all, "Übungstag"));
  for (const char* english :
       {" the ",    "The ",    " to ",     " from ", "from ",    " and ", " not ",
        " pair",    "pair ",   "Desk",     "Pace",   "Features", "Forks", "forks",
        "Lines",    "Where",   "Distance", "Strike", "Date",     "Clear", "Training",
        "Not here", "Sources", "east",     "level",  "rough",    "short", "left"}) {
    for (const auto& t : all) {
      if (t.starts_with("Quellen: ")) continue;  // as the ground's file names them
      EXPECT_EQ(t.find(english), std::string::npos) << "\"" << english << "\" in: " << t;
    }
  }
  EXPECT_TRUE(says(all, "2,2° "));  // -2.25, with the comma
}

TEST(TrainingSheets, NothingIsCutOrLiesOnOtherWordsOrBesideThePage) {
  for (const auto language : {units::Language::english, units::Language::german}) {
    const auto paper = paper_of(whole_day(language));
    auto pages = paper.course;
    for (const auto& more : {paper.answers, paper.marks})
      pages.insert(pages.end(), more.begin(), more.end());
    for (const auto& page : pages) {
      expect_text_on_page(page);
      expect_nothing_cut(page);
      EXPECT_EQ(overlaps(page), 0);
    }
    expect_text_on_page(paper.map);
  }
}

TEST(TrainingSheets, TheMapPieceHoldsTheWholeForkWalk) {
  const auto day = whole_day(units::Language::english);
  const auto texts = texts_of(paper_of(day).map);
  int starts = 0;
  for (const auto& t : texts) starts += t.text == "forks";
  EXPECT_EQ(starts, 2);  // where it begins and where it ends
  for (const auto& p : day.forks->line) EXPECT_TRUE(learn::on_map_piece(day.from, p));
}

}  // namespace
}  // namespace lodeway::sheet
