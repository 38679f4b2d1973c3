#include "lodeway/tasks/relocate.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/tasks/derive.hpp"
#include "lodeway/terrain/visibility.hpp"

namespace lodeway::tasks {
namespace {

const walking::Ground& fells() {
  static const auto made = [] {
    auto g = fells::make_skarrow_fells();
    g.kinds = io::built_in_rules().table();
    (void)derive_from_relief(g);
    return g;
  }();
  return made;
}
RelocateGround& ready() {
  static auto made = ready_to_relocate(fells(), walking::Request{});
  return made;
}
Result<Relocation> ask(Told told) {
  if (told.date.empty()) told.date = "2026-11-14";
  return relocate(fells(), nullptr, nullptr, told, &ready());
}
Told near_pike() {
  Told t;
  t.last = "Harrik Pike, 25 min, 200";
  t.visibility = "cloud";
  return t;
}

TEST(Relocate, WhatCannotBeReadIsOneLine) {
  const auto refused = [](Told t, const char* expected) {
    const auto answer = ask(std::move(t));
    ASSERT_FALSE(answer) << expected;
    EXPECT_EQ(answer.error().code, FaultCode::bad_input);
    EXPECT_NE(answer.error().what.find(expected), std::string::npos) << answer.error().what;
    EXPECT_EQ(answer.error().what.find('\n'), std::string::npos);
  };
  Told t;
  t.falls = "400";
  refused(t, "falls: expected 0 to 360 degrees");
  t = {};
  t.sees = {"Nowhere Fell, 20"};
  refused(t, "sees: expected a thing on the map");
  t = {};
  t.on = {"stream, 40, 50"};
  refused(t, "on: expected");
  t = {};
  t.height = "high";
  refused(t, "height: expected");
  t = {};
  t.last = "Harrik Pike";
  refused(t, "last: expected");
  t = {};
  t.last = "Harrik Pike, 0 min";
  refused(t, "last: expected 1 to 1440 min");
  t = {};
  t.leg = 3;
  refused(t, "leg: expected a trip file");
  t = {};
  t.language = "Welsh";
  refused(t, "language: expected one of en, de");
  t = {};
  t.north = "east";
  refused(t, "north: expected one of");
  t = {};
  t.date = "1999-01-01";
  EXPECT_FALSE(ask(t));  // the magnetic model does not reach there
}

TEST(Relocate, WhatCannotBeTrueIsWarnedOf) {
  Told t = near_pike();
  t.height = "2900";
  auto answer = ask(t);
  ASSERT_TRUE(answer);
  EXPECT_NE(answer->warnings.at(answer->warnings[0].starts_with("DANGER") ? 1 : 0).find("2900"),
            std::string::npos);
  t = near_pike();
  t.on = {"path", "stream"};
  t.not_seen = {"path"};
  t.falls = "nowhere";
  t.slope = "very steep";
  answer = ask(t);
  ASSERT_TRUE(answer) << answer.error().what;
  EXPECT_FALSE(answer->warnings.empty());
  EXPECT_FALSE(answer->places.empty());
  t = {};
  t.last = "53.0 -4.0, 20 min";  // in another country
  answer = ask(t);
  ASSERT_TRUE(answer) << answer.error().what;
  std::string warned;
  for (const auto& warning : answer->warnings) warned += warning + "\n";
  EXPECT_NE(warned.find("outside this ground"), std::string::npos) << warned;
}

// Told exactly what the map has at a place, with two tops taken from there, the party is found.
TEST(Relocate, FindsAPartyThatTellsTrue) {
  const auto& planes = ready().planes;
  const earth::GridPoint truth{483300, 6052300};
  const auto cell = *planes.cell(truth);
  Told t;
  t.north = "grid";
  t.visibility = "clear";
  t.height = std::to_string(planes.height_m(cell));
  t.height_from = "altimeter";
  t.falls = std::to_string(planes.fall_deg(cell));
  t.slope = std::to_string(planes.slope_deg(cell));
  int tops = 0;
  for (const auto& thing : planes.things) {
    if (thing.kind != mapdata::Kind::summit || thing.name.empty() || tops == 2) continue;
    terrain::Sight sight;
    sight.target_m = 2;
    if (earth::grid_distance_m(truth, thing.at) < 400 ||
        terrain::sees(fells().elevation, truth, thing.at, sight) != terrain::Seen::seen)
      continue;
    t.sees.push_back(thing.name + ", " +
                     std::to_string(earth::grid_bearing(truth, thing.at).in_degrees()));
    ++tops;
  }
  ASSERT_EQ(tops, 2);
  const auto answer = ask(t);
  ASSERT_TRUE(answer) << answer.error().what;
  ASSERT_FALSE(answer->places.empty());
  EXPECT_LT(earth::grid_distance_m(answer->places[0].part.best, truth), 200);
  EXPECT_GT(answer->places[0].part.share, 0.5);
  ASSERT_TRUE(answer->resection);
  EXPECT_LT(earth::grid_distance_m(answer->resection->at, truth), 5);
  EXPECT_NE(answer->resection_words.find("nothing checks two bearings"), std::string::npos);
}

// Bearings as the needle shows: 10 degrees more of declination told, 10 degrees turned back.
TEST(Relocate, TheNeedleIsTurnedToTheGrid) {
  Told grid = near_pike(), needle = near_pike();
  grid.north = "grid";
  const auto on_grid = ask(grid);
  ASSERT_TRUE(on_grid);
  const double angle = on_grid->grid_magnetic_deg;
  grid.falls = "210";
  needle.falls = std::to_string(210 - angle);
  const auto a = ask(grid), b = ask(needle);
  ASSERT_TRUE(a && b);
  EXPECT_NEAR(a->reports[0].direction.in_degrees(), 210, 1e-6);
  EXPECT_NEAR(b->reports[0].direction.in_degrees(), 210, 1e-3);
  EXPECT_NE(b->norths.find("2026-11-14"), std::string::npos);
}

TEST(Relocate, JsonSaysWhatTheAnswerSays) {
  Told t = near_pike();
  t.height = "640";
  const auto answer = ask(t);
  ASSERT_TRUE(answer);
  const auto json = nlohmann::json::parse(relocation_json(*answer));
  EXPECT_EQ(json["places"].size(), answer->places.size());
  EXPECT_EQ(json["elsewhere_share"], answer->summary.elsewhere);
  EXPECT_EQ(json["questions"].size(), answer->questions.size());
  EXPECT_EQ(json["moves"].size(), answer->moves.offered.size());
  EXPECT_EQ(json["no_move"].is_null(), !answer->moves.offered.empty());
  double sum = answer->belief.elsewhere;
  for (const float v : answer->belief.share) sum += static_cast<double>(v);
  EXPECT_NEAR(sum, 1, 1e-4);
  const auto text = relocation_text(*answer);
  EXPECT_NE(text.find("elsewhere"), std::string::npos);
  EXPECT_EQ(text.find("safe"), std::string::npos);
}

// A cell lies within a set of rings when a ray from it crosses them an odd number of times.
double share_within(const Relocation& answer,
                    const std::vector<std::vector<earth::GridPoint>>& rings) {
  const auto& f = answer.belief.frame;
  double out = 0;
  for (int r = 0; r < f.rows; ++r) {
    std::vector<double> crossings;
    const double north = f.centre(r, 0).north_m;
    for (const auto& ring : rings) {
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const auto a = ring[i], b = ring[(i + 1) % ring.size()];
        if ((a.north_m > north) == (b.north_m > north)) continue;
        crossings.push_back(a.east_m +
                            (north - a.north_m) / (b.north_m - a.north_m) * (b.east_m - a.east_m));
      }
    }
    std::ranges::sort(crossings);
    std::size_t passed = 0;
    for (int c = 0; c < f.cols; ++c) {
      while (passed < crossings.size() && crossings[passed] < f.centre(r, c).east_m) ++passed;
      if (passed % 2 == 1)
        out += static_cast<double>(answer.belief.share[static_cast<std::size_t>(r * f.cols + c)]);
    }
  }
  return out / (1 - answer.belief.elsewhere);
}

TEST(Relocate, TheOutlinesHoldHalfAndNineInTen) {
  Told t = near_pike();
  t.height = "640";
  t.falls = "210";
  const auto answer = ask(t);
  ASSERT_TRUE(answer);
  const auto areas = likely_areas(*answer);
  EXPECT_NEAR(share_within(*answer, areas.half), 0.5, 0.02);
  EXPECT_NEAR(share_within(*answer, areas.nine_in_ten), 0.9, 0.02);
  double double_area = 0;
  for (const auto& ring : areas.nine_in_ten) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const auto a = ring[i], b = ring[(i + 1) % ring.size()];
      double_area += a.north_m * b.east_m - a.east_m * b.north_m;  // right of the line counts
    }
  }
  EXPECT_NEAR(double_area / 2, answer->summary.area90_m2, 0.15 * answer->summary.area90_m2);
}

// Whatever a question offers can be typed: it is then understood as just that cue.
/// The same answer in words of the other language: no English word is left, and no figure differs.
TEST(Relocate, AnswersInGerman) {
  Told t = near_pike();
  t.height = "640";
  t.falls = "210";
  t.on = {"Bach, 40"};
  t.not_seen = {"Mauer"};
  t.language = "de";
  const auto german = ask(t);
  ASSERT_TRUE(german) << german.error().what;
  t.language = "en";
  t.on = {"stream, 40"};
  t.not_seen = {"wall"};
  const auto english = ask(t);
  ASSERT_TRUE(english);
  EXPECT_EQ(german->told[2], "auf: Bach, Verlauf 040°");
  EXPECT_EQ(english->told[2], "on a stream, running 040°");
  EXPECT_EQ(german->belief.share, english->belief.share);
  ASSERT_EQ(german->means.size(), english->means.size());
  ASSERT_FALSE(german->means.empty());
  for (std::size_t k = 0; k < german->means.size(); ++k) {
    ASSERT_EQ(german->means[k].size(), english->means[k].size());
    for (std::size_t m = 0; m < german->means[k].size(); ++m)
      EXPECT_EQ(german->tells[k][m].text, english->tells[k][m].text);
  }
  const auto text = relocation_text(*german);
  for (const char* word : {" the ", " of ", " you ", " in 100", " and ", "ground", "within"})
    EXPECT_EQ(text.find(word), std::string::npos) << word << " in\n" << text;
  EXPECT_NE(text.find("Was überall hilft, wo ihr auch seid:"), std::string::npos) << text;
}

TEST(Relocate, EachAnswerCanBeTold) {
  const auto answer = ask(near_pike());
  ASSERT_TRUE(answer);
  int tried = 0;
  for (std::size_t k = 0; k < answer->questions.size(); ++k) {
    const auto& q = answer->questions[k];
    ASSERT_EQ(answer->tells[k].size(), q.meanings.size());
    for (std::size_t m = 0; m < q.meanings.size(); ++m) {
      const auto& telling = answer->tells[k][m];
      if (q.act != belief::Do::tell) {
        EXPECT_TRUE(telling.key.empty());
        continue;
      }
      const bool list = telling.key == "on" || telling.key == "beside" || telling.key == "sees" ||
                        telling.key == "not_seen";
      nlohmann::json body;
      body[telling.key] = list ? nlohmann::json{telling.text} : nlohmann::json(telling.text);
      const auto told = told_of_json(body.dump());
      ASSERT_TRUE(told) << body.dump();
      const auto again = ask(*told);
      ASSERT_TRUE(again) << body.dump() << ": " << again.error().what;
      ASSERT_EQ(again->reports.size(), 1U) << body.dump();
      if (q.ask.cue != sight::Cue::sees_kind) {
        EXPECT_EQ(again->reports[0].cue, q.ask.cue);
      }
      EXPECT_EQ(again->reports[0].seen, q.meanings[m].told.seen) << body.dump();
      ++tried;
    }
  }
  EXPECT_GT(tried, 6);
}

TEST(Relocate, StandingOnNoneIsNotTheSameAsSeeingNone) {
  Told t = near_pike();
  t.on = {"no path"};
  const auto answer = ask(t);
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->reports[0].cue, sight::Cue::on_line);
  EXPECT_FALSE(answer->reports[0].seen);
  t.on = {"no path, 40"};
  EXPECT_FALSE(ask(t));
}

TEST(Relocate, ToldReadsItsOwnKeys) {
  const auto told =
      told_of_json(R"({"height": 640, "falls": "210", "on": ["stream, 40"], "leg": 2})");
  ASSERT_TRUE(told);
  EXPECT_EQ(told->height, "640");
  EXPECT_EQ(told->on.at(0), "stream, 40");
  EXPECT_EQ(told->leg, 2);
  EXPECT_FALSE(told_of_json("[1]"));
  EXPECT_FALSE(told_of_json(R"({"heigth": 1})"));
  EXPECT_FALSE(told_of_json(R"({"on": "stream"})"));
  EXPECT_FALSE(told_of_json(R"({"on": [1]})"));
}
// What --go-on asks of plan_trip, and what it refuses.
TEST(GoOn, FromASettledPlaceToThePlaceThatIsNamed) {
  RelocateRequest request;
  request.file = "round.toml";
  Relocated found;
  PlaceThatFits pike, moor;
  pike.part.share = 0.86;
  pike.part.best = {483055, 6053075};
  pike.near = "Harrik Pike";
  moor.part.share = 0.1;
  moor.part.best = {482000, 6052000};
  moor.grid_reference = "820 520";
  found.answer.places = {pike, moor};
  found.answer.visibility = mapdata::Visibility::cloud;
  const auto refused = [&](const GoOn& go_on, const char* expected) {
    const auto plan = plan_from_here(request, found, go_on);
    ASSERT_FALSE(plan) << expected;
    EXPECT_EQ(plan.error().code, FaultCode::bad_input);
    EXPECT_NE(plan.error().what.find(expected), std::string::npos) << plan.error().what;
  };
  const GoOn good{0, "14:30", "Gap"};
  refused(good, "round.toml: to go on expected a trip file");
  found.trip.emplace();
  for (const char* name : {"Bridge", "Pike", "Gap", "Inn"}) {
    walking::Waypoint p;
    p.name = name;
    found.trip->request.points.push_back(p);
  }
  const auto plan = plan_from_here(request, found, good);
  ASSERT_TRUE(plan) << plan.error().what;
  EXPECT_EQ(plan->trip_file, "round.toml");
  EXPECT_EQ(plan->from_here->at, pike.part.best);
  EXPECT_EQ(plan->from_here->name, "Harrik Pike");
  EXPECT_EQ(plan->from_here->next_point, 2U);
  EXPECT_EQ(plan->from_here->start, std::chrono::minutes(870));
  EXPECT_EQ(plan->from_here->visibility, mapdata::Visibility::cloud);
  const auto other = plan_from_here(request, found, {2, "14:30", "inn"});
  ASSERT_TRUE(other);
  EXPECT_EQ(other->from_here->name, "820 520");  // nothing with a name is near

  refused({3, "14:30", "Gap"}, "place: expected 1 to 2, got 3");
  refused({0, "25:00", "Gap"}, "time: expected a clock time such as 14:55");
  refused({0, "", "Gap"}, "time: expected");
  refused({0, "14:30x", "Gap"}, "time: expected");
  refused({0, "14:3", "Gap"}, "time: expected");
  refused({0, "00:20 +1", "Gap"}, "time: expected an hour of the trip's day");
  refused({0, "14:30", ""}, "next: expected the name");
  refused({0, "14:30", "Moor"}, "next: expected one of \"Pike\", \"Gap\", \"Inn\"");
  found.answer.places[0].part.share = 0.79;
  refused(good, "the place is not settled: 79 in 100");
  EXPECT_TRUE(plan_from_here(request, found, {1, "14:30", "Gap"}));
  found.answer.places.clear();
  refused(good, "there is none");
}

}  // namespace
}  // namespace lodeway::tasks
