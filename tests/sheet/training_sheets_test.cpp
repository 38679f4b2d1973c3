// Paper of a training day: a place for every mark, no answers for those who learn, whole in German.
#include "lodeway/sheet/training/training_sheets.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

#include <gtest/gtest.h>

#include "lodeway/learn/course/codes.hpp"
#include "lodeway/learn/course/timetable.hpp"
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

// Who reads the walk off the piece needs its order: a figure at each fork, arrows between.
TEST(TrainingSheets, TheMapPieceNumbersTheForksAlongTheWalkAndPointsTheWay) {
  auto day = whole_day(units::Language::english);
  auto& forks = day.forks->forks;
  forks.push_back(forks.front());  // met again: both figures at one place
  const auto map = paper_of(day).map;
  const auto words = words_of({map});
  for (std::size_t i = 2; i <= 12; ++i) EXPECT_EQ(count(words, std::to_string(i)), 1) << i;
  EXPECT_EQ(count(words, "1 13"), 1);
  // East for 900 m, then south for 700 m: 36 and 28 mm, an arrow each 9 mm from 4.5 on, 3 mm long.
  int east = 0, south = 0;
  for (const auto& command : map.commands) {
    const auto* shape = std::get_if<PathCommand>(&command);
    if (shape == nullptr || !shape->fill || shape->rings.size() != 1 || shape->rings[0].size() != 3)
      continue;
    const auto& r = shape->rings[0];
    const double dx = r[0].x - 0.5 * (r[1].x + r[2].x), dy = r[0].y - 0.5 * (r[1].y + r[2].y);
    if (std::abs(std::hypot(dx, dy) - 3.0) > 1e-6) continue;
    east += dx > 2.9;
    south += dy > 2.9;
  }
  EXPECT_EQ(east, 4);   // at 4.5, 13.5, 22.5, 31.5 of 36 mm
  EXPECT_EQ(south, 3);  // at 40.5, 49.5, 58.5 of 64 mm
}

// Drops are told by heights and desk items by names: the piece has both.
TEST(TrainingSheets, TheMapPieceHasContourFiguresAndEveryNameThatTheDeskUses) {
  auto day = whole_day(units::Language::english);
  day.settings.resize(2);
  const auto& f = fells().elevation.frame();
  day.settings[0].from = f.centre(f.rows / 2 - 20, f.cols / 2);
  day.settings[0].to = f.centre(f.rows / 2 + 20, f.cols / 2);
  day.settings[1].from = day.settings[0].to;
  day.settings[1].from_words = "Ravock";
  day.settings[1].to_words = "west end of Mirk Tarn";
  day.settings[1].to = f.centre(f.rows / 2, f.cols / 2 - 30);
  const auto words = words_of({paper_of(day).map});
  for (const char* name : {"Hosk Tarn", "Ravock", "west end of Mirk Tarn"})
    EXPECT_EQ(count(words, name), 1) << name;
  const auto figures = std::ranges::count_if(words, [](const auto& t) {
    return t.size() == 3 && t.ends_with("0") && std::ranges::all_of(t, ::isdigit);
  });
  EXPECT_GE(figures, 5);
}

TEST(TrainingSheets, WhoSetsTheCourseGetsPegsToTheMetreAndIsToldOfRoads) {
  auto day = whole_day(units::Language::english);
  day.bearings[1].road_catches = true;
  day.bearings[1].catches = "Ostreldale road";
  day.bearings[2].road_beside_m = 87;
  day.bearings[2].road_words = "Hosk road";
  day.features[0].road = true;
  day.features[0].road_words = "Lodd road";
  const auto paper = paper_of(day);
  const auto answers = words_of(paper.answers), course = words_of(paper.course);
  for (const auto& b : day.bearings) {
    EXPECT_TRUE(says(answers, fmt::format("E {:.0f} N {:.0f}", b.peg.east_m, b.peg.north_m)));
    // to the nearest 10 m, as one reads it off the full one
    EXPECT_TRUE(says(course, fmt::format("{:04} {:04}", std::lround(b.peg.east_m / 10) % 10000,
                                         std::lround(b.peg.north_m / 10) % 10000)));
  }
  EXPECT_TRUE(says(answers, "A road or railway: they stop before it."));
  EXPECT_TRUE(says(answers, "Hosk road lies 87 m beside: a third person stands there."));
  EXPECT_TRUE(says(answers, "Lodd road is on the way: see them off it."));
  EXPECT_TRUE(says(answers, "how busy it is, except where a course says so"));
  EXPECT_TRUE(says(answers, "This ground says it of no road."));
  // Who goes reads the same on the own sheet.
  EXPECT_TRUE(says(course, "Ostreldale road is the catching feature: stop before it."));
  EXPECT_TRUE(says(course, "Hosk road is near: stop before it."));
  EXPECT_TRUE(says(course, "Lodd road is on the way: wait until you are seen off it."));
  EXPECT_TRUE(says(course, "Keep off main roads and railways"));
  EXPECT_FALSE(says(course, "Traffic:"));
  // A ground that tells, a walk that is road in part, a course over a quiet one
  day.roads_told = true;
  day.forks->road_m = 700;
  day.bearings[3].road_beside_m = 4;
  day.bearings[3].road_words = "Lodd road";
  const auto told = paper_of(day);
  EXPECT_TRUE(says(words_of(told.course), "Traffic: 700 m of it are road."));
  EXPECT_TRUE(
      says(words_of(told.answers), "Traffic: 700 m of the walk are roads that the map has"));
  EXPECT_TRUE(says(words_of(told.answers), "Crosses Lodd road, which the map has as quiet"));
  EXPECT_TRUE(says(words_of(told.answers), "nobody has counted"));
}

// Heights alone: what the map cannot know comes first on the sheet of who sets the courses.
TEST(TrainingSheets, AMapWithoutRoadsIsSaidToKnowOfNone) {
  auto day = whole_day(units::Language::english);
  day.roads_known = false;
  const auto paper = paper_of(day);
  EXPECT_TRUE(says(words_of(paper.answers), "it knows of none"));
  EXPECT_TRUE(says(words_of(paper.answers), "Set no course without another map."));
  EXPECT_FALSE(says(words_of(paper.answers), "No course goes along or over"));
  EXPECT_TRUE(says(words_of(paper.course), "has no roads and railways: there may be some"));
  EXPECT_FALSE(says(words_of(paper.course), "draws all roads alike"));
  for (const auto& page : paper.answers) EXPECT_EQ(overlaps(page), 0);
  day.roads_known = true;
  EXPECT_FALSE(says(words_of(paper_of(day).answers), "it knows of none"));
}

// A stream on the way is said to who sets the course, and each pair is told when not to cross.
TEST(TrainingSheets, WaterOnTheWayIsSaid) {
  auto day = whole_day(units::Language::english);
  EXPECT_FALSE(says(words_of(paper_of(day).answers), "Crosses water"));
  day.bearings[1].water = true;
  day.features[0].water = true;
  const auto paper = paper_of(day);
  EXPECT_TRUE(says(words_of(paper.answers), "Crosses water: look at it that day"));
  EXPECT_TRUE(says(words_of(paper.answers), "Water on the way: look at it first."));
  EXPECT_TRUE(says(words_of(paper.course), "In doubt do not cross: stop and whistle."));
  // and beside the two courses themselves, on the sheet of those who go
  EXPECT_EQ(count(words_of(paper.course), "Water on the way: ask first."), 2);
  EXPECT_EQ(count(words_of(paper_of(whole_day(units::Language::english)).course),
                  "Water on the way: ask first."),
            0);
}

// One rule: the count ends a course, and nobody passes the catching feature.
TEST(TrainingSheets, TheCourseSheetHasOneRuleForNoPegAtTheCount) {
  const auto course = words_of(paper_of(whole_day(units::Language::english)).course);
  EXPECT_TRUE(says(course, "No peg at your count: stop. Never pass the catching feature."));
  EXPECT_FALSE(says(course, "Past the count"));
  EXPECT_FALSE(says(course, "go no further than"));
}

// Three sigmas of 41 m are 123 m: at 120 m past the peg some pairs come to it, at 124 m the box's
// promise holds.
TEST(TrainingSheets, ACatchingFeatureWithinAPairsReachNeedsSomebodyThere) {
  auto day = whole_day(units::Language::english);
  for (auto& b : day.bearings) {
    b.along_sigma_m = 41;
    b.catches_beyond_m = 124;
  }
  const auto near = "some pairs come to it, a third person stands there.";
  EXPECT_FALSE(says(words_of(paper_of(day).answers), near));
  EXPECT_FALSE(says(words_of(paper_of(day).answers), "leave it out."));
  day.bearings[2].catches_beyond_m = 120;
  const auto answers = words_of(paper_of(day).answers);
  EXPECT_TRUE(says(answers, near));
  EXPECT_TRUE(
      says(answers, "where a course needs a third person, and there is none, leave it out."));
}

// From (4, 4) to (104, 16): atan(100 / 12) = 83.2 degrees. The nearest references are (0, 0) and
// (100, 20): atan(100 / 20) = 78.7 degrees.
TEST(TrainingSheets, AShortLegsBearingIsGivenByItsReferencesTooWhereTheyDiffer) {
  auto day = whole_day(units::Language::english);
  day.magnetic_from_grid_deg = 0;
  auto& f = day.features[0];
  const double east = 100 * std::floor(day.from.east_m / 100),
               north = 100 * std::floor(day.from.north_m / 100);
  f.from = {east + 4, north + 4};
  f.at = {east + 104, north + 16};
  f.bearing = earth::grid_bearing(f.from, f.at);
  EXPECT_TRUE(says(words_of(paper_of(day).answers), "083° on the dial (079° by the references)"));
  f.from = {east, north};
  f.at = {east + 100, north + 20};
  f.bearing = earth::grid_bearing(f.from, f.at);
  EXPECT_TRUE(says(words_of(paper_of(day).answers), "079° on the dial, "));
  EXPECT_FALSE(says(words_of(paper_of(day).answers), "by the references"));
}

// A pair knows from its own sheet when it does what.
TEST(TrainingSheets, TheCourseSheetHasEachPairsTimes) {
  const auto day = whole_day(units::Language::english);
  const auto course = words_of(paper_of(day).course);
  for (const auto& s : learn::timetable_of(day).slots) {
    const auto what = s.station == learn::Station::base
                          ? "desk and pace"
                          : learn::station_words(s.station, units::Language::english);
    EXPECT_TRUE(says(course, fmt::format("{} {}", learn::hours(s.begin_min), what))) << what;
  }
  // Who has not paced yet, with the stride of 0.8 m that the answers are counted by: 125 for 200 m.
  EXPECT_TRUE(says(course, "not paced yet: 125 for 200 m"));
}

// Order of drawing: every light rim lies under every ring and cross.
TEST(TrainingSheets, NoMarkOfTheMapPieceIsWipedOutByAnothersRim) {
  auto day = whole_day(units::Language::english);
  day.features[1].from = {day.features[0].from.east_m + 30, day.features[0].from.north_m};
  const auto map = paper_of(day).map;
  std::size_t last_light = 0, first_ring = map.commands.size();
  for (std::size_t i = 0; i < map.commands.size(); ++i) {
    const auto* path = std::get_if<PathCommand>(&map.commands[i]);
    if (path == nullptr || path->fill) continue;
    if (std::abs(path->width_mm - 1.2) < 1e-9) last_light = i;
    if (std::abs(path->width_mm - 0.5) < 1e-9 && path->closed) first_ring = std::min(first_ring, i);
  }
  EXPECT_GT(last_light, 0U);
  EXPECT_LT(first_ring, map.commands.size());
  EXPECT_LT(last_light, first_ring);
  EXPECT_TRUE(says(words_of({map}), "Start, Kell Gap"));
}

// Thirty marks in 500 m: names find room, each once, and none lies on another.
TEST(TrainingSheets, NamesOfACrowdedMapPieceLieOnNoOther) {
  auto day = whole_day(units::Language::english);
  const auto at = [&](double east, double north) {
    return earth::GridPoint{day.from.east_m + east, day.from.north_m + north};
  };
  day.forks.reset();
  day.times.clear();
  for (std::size_t i = 0; i < day.features.size(); ++i) {
    const auto k = static_cast<double>(i);
    day.features[i].from = at(90 * std::cos(0.7 * k), 90 * std::sin(0.7 * k));
    day.features[i].at = at(200 * std::cos(0.6 * k), 200 * std::sin(0.6 * k));
  }
  for (std::size_t i = 0; i < day.bearings.size(); ++i)
    day.bearings[i].from = at(40.0 * static_cast<double>(i), -60);
  const auto map = paper_of(day).map;
  EXPECT_EQ(overlaps(map), 0);
  for (std::size_t i = 1; i <= day.features.size(); ++i)
    EXPECT_TRUE(says(words_of({map}), fmt::format("F{} ", i))) << i;
}

TEST(TrainingSheets, TheAnswerSheetSaysWhoIsWhereWhen) {
  const auto day = whole_day(units::Language::english);
  const auto answers = words_of(paper_of(day).answers);
  const auto table = learn::timetable_of(day);
  for (const char* who : {"pair A", "pair B", "pair C", "instructor 1", "instructor 2"})
    EXPECT_EQ(count(answers, who), 1) << who;
  for (const auto& s : table.slots)
    EXPECT_TRUE(says(answers, learn::hours(s.begin_min))) << s.begin_min;
}

// The signs under a course's name on the sheet are those of the marks file.
TEST(TrainingSheets, TheMarkingSheetCarriesEachCoursesOwnCode) {
  const auto day = whole_day(units::Language::english);
  const auto paper = paper_of(day);
  const auto words = words_of(paper.marks);
  for (const auto& m : learn::marks_of(day, "C1880F-7")) {
    const auto signs = m.course.substr(m.course.rfind('-') + 1);
    EXPECT_TRUE(says(words, signs)) << m.course;
  }
}

TEST(TrainingSheets, TheMapPieceHoldsTheWholeForkWalk) {
  const auto day = whole_day(units::Language::english);
  const auto texts = texts_of(paper_of(day).map);
  int starts = 0;
  for (const auto& t : texts) starts += t.text.starts_with("forks");
  EXPECT_EQ(starts, 2);  // where it begins and where it ends
  for (const auto& p : day.forks->line) EXPECT_TRUE(learn::on_map_piece(day.from, p));
}

}  // namespace
}  // namespace lodeway::sheet
