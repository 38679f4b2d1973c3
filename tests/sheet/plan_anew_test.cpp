// A plan is made of the trip as it stands: every key that stands on paper is changed in turn, and
// plan, warnings and paper have it.
#include <algorithm>
#include <functional>

#include <gtest/gtest.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/notes/escape_card.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

using trip::Trip;

Trip a_trip() {
  Trip t;
  t.name = "Flat walk";
  t.date = std::chrono::year{2026} / 11 / 14;
  t.start = std::chrono::minutes{9 * 60};
  t.zone = "Europe/Dublin";
  t.request.points = {{"Fold", {480000, 6048000}}, {"Cairn", {480900, 6048400}}};
  t.emergency_number = "112";
  t.at_home = {"A. Holder", "000 555 0143"};
  t.leader = {"B. Leader", "000 555 0177"};
  return t;
}

/// One leg on a bearing, aimed off; figures by hand, nothing of them rests on the trip.
reckoning::JudgedWay a_way() {
  reckoning::JudgedLeg leg;
  leg.course.from = "Fold";
  leg.course.to = "Cairn";
  leg.course.line = {{480000, 6048000}, {480900, 6048400}};
  leg.figures.length_m = 985;
  auto& j = leg.judged;
  j.needle = reckoning::NeedlePart{
      {480850, 6048500}, units::GridBearing::degrees(59.5), 986.2, 986, 640, 15};
  j.after = reckoning::AfterAim{mapdata::Side::left, "wall", 112, 112, 70, 2};
  j.length_m = 1098;
  j.minutes = 17;
  j.minutes_slow = 20;
  j.certainty = 0.92;
  j.if_lost = "Go back.";
  return {"quick", {leg}, 0.92};
}

/// Everything that a leader can read of a plan.
std::string read_all(const trip::Plan& plan, const walking::Ground& ground) {
  auto out = card_text(plan) + card_csv(plan);
  std::vector<Drawing> pages = draw_card(plan, measure());
  std::ranges::copy(draw_home_note(plan, ground, measure()), std::back_inserter(pages));
  std::ranges::copy(draw_escape_card(plan, measure()), std::back_inserter(pages));
  const auto sheets = draw_map_sheets(plan, ground, measure());
  EXPECT_TRUE(sheets);
  if (sheets) std::ranges::copy(*sheets, std::back_inserter(pages));
  for (const auto& page : pages) {
    out += std::to_string(page.width_mm) + " " + std::to_string(page.commands.size()) + "\n";
    for (const auto& text : texts_of(page)) out += text.text + "\n";
  }
  for (const auto& w : plan.warnings) out += w.text + "\n";
  return out;
}

struct Change {
  const char* key;
  std::function<void(Trip&)> make;
  std::string shows;  ///< what is then read; empty: whatever it is, another text than before
};

std::vector<Change> changes() {
  std::vector<Change> out{
      {"name", [](Trip& t) { t.name = "Qzk walk"; }, "Qzk walk"},
      {"date", [](Trip& t) { t.date = std::chrono::year{2026} / 6 / 20; }, "20 Jun 2026"},
      {"start", [](Trip& t) { t.start = std::chrono::minutes{10 * 60 + 7}; }, "10:07"},
      {"zone", [](Trip& t) { t.zone = "Europe/Vienna"; }, ""},
      {"min_certainty", [](Trip& t) { t.min_certainty = 0.97; }, "97"},
      {"party.size", [](Trip& t) { t.request.party.size = 7; }, ""},
      {"home.members", [](Trip& t) { t.members = {"Qzk Walker"}; }, "Qzk Walker"},
      {"home.at_home", [](Trip& t) { t.at_home = {"Qzk Holder", "000 555 0199"}; }, "Qzk Holder"},
      {"home.leader", [](Trip& t) { t.leader = {"Qzk Leader", "000 555 0188"}; }, "Qzk Leader"},
      {"home.emergency_number", [](Trip& t) { t.emergency_number = "999"; }, "999"},
      {"home.signals", [](Trip& t) { t.signals = trip::SignalRegion::north_america; }, ""},
      {"paper.scale", [](Trip& t) { t.map_scale = 50000; }, "20 mm"},
      {"paper.size", [](Trip& t) { t.paper = trip::Paper::a3; }, ""},
      {"paper.landscape", [](Trip& t) { t.landscape = true; }, ""},
      {"paper.language", [](Trip& t) { t.language = units::Language::german; }, ""},
      {"paper.units", [](Trip& t) { t.lengths = trip::LengthUnit::imperial; }, "ft"},
      {"paper.angle", [](Trip& t) { t.angles = trip::AngleUnit::mils; }, "mil"}};
  const std::pair<const char*, std::string Trip::*> texts[] = {
      {"home.transport", &Trip::transport}, {"home.gear", &Trip::gear},
      {"home.medical", &Trip::medical},     {"home.clothing", &Trip::clothing},
      {"home.beacon", &Trip::beacon},       {"home.experience", &Trip::experience},
      {"home.check_in", &Trip::check_in}};
  for (const auto& [key, member] : texts)
    out.push_back({key, [member](Trip& t) { t.*member = "Qzk here"; }, "Qzk here"});
  return out;
}

TEST(PlanAnew, EveryKeyThatStandsOnPaper) {
  const auto ground = flat_ground();
  const auto made = [&](const Trip& t) {
    const auto outcome = trip::outcome_of(ground, t, a_way());
    EXPECT_TRUE(outcome);
    return trip::plan_of(*outcome, t, ground);
  };
  const auto before = read_all(made(a_trip()), ground);
  for (const auto& change : changes()) {
    auto t = a_trip();
    change.make(t);
    const auto after = read_all(made(t), ground);
    EXPECT_NE(after, before) << change.key;
    EXPECT_NE(after.find(change.shows), std::string::npos) << change.key;
  }
}

// The outcome stays, the plan is of the newest trip: no warning of the old one is left, no figure
// of the old scale.
TEST(PlanAnew, OfOneOutcome) {
  const auto ground = flat_ground();
  auto t = a_trip();
  t.emergency_number.clear();
  t.at_home.name.clear();
  const auto outcome = trip::outcome_of(ground, t, a_way());
  ASSERT_TRUE(outcome);
  const auto without = trip::plan_of(*outcome, t, ground);
  const auto with = trip::plan_of(*outcome, a_trip(), ground);
  EXPECT_EQ(without.warnings.size(), with.warnings.size() + 2);
  t = a_trip();
  t.map_scale = 50000;
  const auto leg = trip::plan_of(*outcome, t, ground).way.legs.at(0);
  EXPECT_NEAR(leg.needle->map_mm, 986.2 / 50, 1e-9);  // by hand: 986.2 m of grid, 1 mm is 50 m
  EXPECT_NEAR(leg.after->map_mm, 112 / 50.0, 1e-9);
  EXPECT_NEAR(with.way.legs.at(0).needle->map_mm, 986.2 / 25, 1e-9);
}

}  // namespace
}  // namespace lodeway::sheet
