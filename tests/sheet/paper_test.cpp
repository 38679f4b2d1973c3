#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_pdf.hpp"
#include "lodeway/sheet/card.hpp"
#include "lodeway/sheet/cover.hpp"
#include "lodeway/sheet/escape_card.hpp"
#include "lodeway/sheet/home_note.hpp"
#include "lodeway/sheet/ink.hpp"
#include "lodeway/sheet/map_sheet.hpp"
#include "lodeway/sheet/words.hpp"
#include "support/support.hpp"

namespace lodeway::sheet {
namespace {

using earth::GridPoint;

const TextMeasure& measure() {
  static const auto made = io::make_text_measure();
  return **made;
}

walking::Ground flat_ground() {
  walking::Ground g;
  g.name = "Flat";
  g.grid = *earth::MapGrid::from_text("EPSG:32629");
  g.elevation = terrain::Elevation(terrain::Frame{478000, 6058000, 50, 240, 240}, 200.0F);
  return g;
}

/// A way of `legs` legs of 400 m, to the north-east and back by turns.
trip::Plan plan_of(int legs, const std::string& name = "Hut") {
  trip::Plan plan;
  plan.trip.name = name;
  plan.trip.date = std::chrono::year{2026} / 7 / 1;
  plan.trip.request.points = {{name, {480000, 6048000}}, {name, {480400, 6048000}}};
  GridPoint at{480000, 6048000};
  trip::Clock clock{9 * 60};
  for (int i = 0; i < legs; ++i) {
    walking::Leg leg;
    const GridPoint to = at + GridPoint{i % 2 == 0 ? 250.0 : -150.0, 31.0};
    leg.line = {at, to};
    leg.from = leg.to = name;
    leg.length_m = earth::grid_distance_m(at, to);
    leg.minutes = 6;
    leg.magnetic_bearing = units::MagneticBearing::degrees(33 + i);
    plan.schedule.legs.push_back({clock, clock + trip::Clock{6}, clock + trip::Clock{7}, 0});
    clock += trip::Clock{6};
    plan.references.push_back("800 480");
    plan.way.legs.push_back(leg);
    at = to;
  }
  plan.schedule.start = trip::Clock{9 * 60};
  plan.schedule.end = plan.schedule.end_slow = clock;
  plan.schedule.act_by = clock + trip::Clock{60};
  plan.start_reference = "800 480";
  return plan;
}

/// Box of a text command, by the fonts themselves.
struct Box {
  double x0, y0, x1, y1;
};
Box box_of(const TextCommand& t) {
  const double w = measure().width_mm(t.text, t.face, t.size_mm),
               a = t.turn_deg * std::acos(-1.0) / 180;
  const double x = t.anchor == Anchor::left ? 0 : t.anchor == Anchor::middle ? -w / 2 : -w;
  Box out{1e9, 1e9, -1e9, -1e9};
  for (const double u : {x, x + w}) {
    for (const double v : {-0.72 * t.size_mm, 0.0}) {
      const double px = t.at.x + u * std::cos(a) - v * std::sin(a),
                   py = t.at.y + u * std::sin(a) + v * std::cos(a);
      out = {std::min(out.x0, px), std::min(out.y0, py), std::max(out.x1, px),
             std::max(out.y1, py)};
    }
  }
  return out;
}

void expect_text_on_page(const Drawing& d) {
  for (const auto& c : d.commands) {
    const auto* t = std::get_if<TextCommand>(&c);
    if (t == nullptr) continue;
    const Box b = box_of(*t);
    EXPECT_TRUE(b.x0 >= 0 && b.y0 >= 0 && b.x1 <= d.width_mm && b.y1 <= d.height_mm)
        << t->text << " " << b.x1 << " " << b.y1;
  }
}

int overlaps(const Drawing& d) {
  std::vector<std::pair<Box, std::string>> boxes;
  for (const auto& c : d.commands) {
    if (const auto* t = std::get_if<TextCommand>(&c); t != nullptr && t->turn_deg == 0)
      boxes.emplace_back(box_of(*t), t->text);
  }
  int count = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t j = i + 1; j < boxes.size(); ++j) {
      const auto &a = boxes[i].first, &b = boxes[j].first;
      const double w = std::min(a.x1, b.x1) - std::max(a.x0, b.x0),
                   h = std::min(a.y1, b.y1) - std::max(a.y0, b.y0);
      if (w <= 0.15 || h <= 0.15) continue;
      ++count;
      ADD_FAILURE() << "\"" << boxes[i].second << "\" lies on \"" << boxes[j].second << "\"";
    }
  }
  return count;
}

TEST(MapFrame, ScaleIsTrue) {
  for (const double scale : {10000.0, 25000.0, 40000.0, 63360.0}) {
    const auto frames = cover(plan_of(3).way, scale, trip::Paper::a4, false);
    ASSERT_TRUE(frames);
    const auto& f = frames->front().frame;
    const auto a = f.on_page({480000, 6048000}), b = f.on_page({481000, 6048000});
    EXPECT_NEAR(b.x - a.x, 1e6 / scale, 1e-9);  // 1 km: 40.000 mm at 1:25 000, 15.7828 at 1:63 360
    const auto back = f.on_ground(b);
    EXPECT_NEAR(back.east_m, 481000, 1e-6);
  }
}

TEST(MapFrame, SheetsHoldTheWholeWayAndAreFew) {
  const auto way = plan_of(200).way;
  const auto frames = cover(way, 10000, trip::Paper::a5, false);
  ASSERT_TRUE(frames) << frames.error().what;
  for (const auto& leg : way.legs) {
    EXPECT_TRUE(std::ranges::any_of(
        *frames, [&](const SheetPlace& s) { return s.frame.near(leg.line.back(), -8); }));
  }
}

TEST(MapFrame, TooManySheetsProposesAScale) {
  auto plan = plan_of(1);
  plan.way.legs[0].line = {{480000, 6048000}, {980000, 6548000}};
  const auto frames = cover(plan.way, 10000, trip::Paper::a5, false);
  ASSERT_FALSE(frames);
  EXPECT_NE(frames.error().what.find("1:"), std::string::npos);
  EXPECT_FALSE(cover(plan.way, 0, trip::Paper::a4, false));
}

TEST(Sheets, CheckLineIsHundredMillimetres) {
  const auto sheets = draw_map_sheets(plan_of(3), flat_ground(), measure());
  ASSERT_TRUE(sheets);
  bool found = false;
  for (const auto& c : sheets->front().commands) {
    const auto* p = std::get_if<PathCommand>(&c);
    if (p == nullptr || p->rings.size() != 1 || p->rings[0].size() != 2) continue;
    const auto a = p->rings[0][0], b = p->rings[0][1];
    found |= std::abs(std::hypot(b.x - a.x, b.y - a.y) - 100) < 1e-9 && a.y == b.y;
  }
  EXPECT_TRUE(found);
}

TEST(Sheets, TextStaysOnThePageInEveryForm) {
  const auto ground = flat_ground();
  for (const auto paper :
       {trip::Paper::a5, trip::Paper::a4, trip::Paper::a3, trip::Paper::letter}) {
    for (const bool lying : {false, true}) {
      for (const auto language : {units::Language::english, units::Language::german}) {
        auto plan = plan_of(3);
        plan.trip.paper = paper;
        plan.trip.landscape = lying;
        plan.trip.language = language;
        const auto sheets = draw_map_sheets(plan, ground, measure());
        ASSERT_TRUE(sheets);
        for (const auto& s : *sheets) expect_text_on_page(s);
      }
    }
  }
}

TEST(Sheets, NoLabelOnAnotherOnTheFells) {
  const auto fells = fells::make_skarrow_fells();
  auto plan = plan_of(4, "Harrik Pike");
  for (auto& leg : plan.way.legs) {
    for (auto& p : leg.line) p = p + GridPoint{3000, 4800};
  }
  const auto sheets = draw_map_sheets(plan, fells, measure());
  ASSERT_TRUE(sheets);
  EXPECT_EQ(overlaps(sheets->front()), 0);
  expect_text_on_page(sheets->front());
}

TEST(Card, AnyNumberOfLegsAnyName) {
  std::string long_name;
  for (int i = 0; i < 50; ++i) long_name += "Harrikpike";
  for (const auto& name :
       {std::string("Hut"), long_name, std::string("Όλυμπος"), std::string("جبل"),
        std::string("玉山"), std::string("a\x01\x02\nb"), std::string()}) {
    for (const int legs : {1, 5, 9, 200}) {
      const auto plan = plan_of(legs, name);
      const auto sides = draw_card(plan, measure());
      EXPECT_EQ(sides.size(), static_cast<std::size_t>((legs + 1 + 4) / 5));
      if (legs <= 9) {
        for (const auto& side : sides) {
          expect_text_on_page(side);
          EXPECT_EQ(overlaps(side), 0) << name;
        }
      }
      EXPECT_FALSE(card_text(plan).empty());
    }
  }
}

TEST(Card, CsvHasARowALegAndTheFigures) {
  const auto csv = card_csv(plan_of(3, "A \"B\", C"));
  EXPECT_EQ(std::ranges::count(csv, '\n'), 4);
  EXPECT_NE(csv.find("\"A \"\"B\"\", C\""), std::string::npos);
  EXPECT_NE(csv.find(",33,"), std::string::npos);
}

TEST(Home, NoteFitsAndSaysTheTimes) {
  for (const auto language : {units::Language::english, units::Language::german}) {
    auto plan = plan_of(14);
    plan.trip.language = language;
    const auto note = draw_home_note(plan, flat_ground(), measure());
    expect_text_on_page(note);
    EXPECT_EQ(overlaps(note), 0);
    bool act = false;
    for (const auto& c : note.commands) {
      if (const auto* t = std::get_if<TextCommand>(&c))
        act |= t->text == "11:24";  // 84 min and an hour
    }
    EXPECT_TRUE(act);
  }
}

// Contrast after WCAG 2.2: text needs 4.5, marks 3 on paper; what is told apart by tone alone needs
// a step.
TEST(Inks, ReadOnPaper) {
  for (const auto& i :
       {ink::night, ink::text, ink::stone, ink::peat, ink::tarn, ink::rowan, ink::haven}) {
    EXPECT_GE(ink::contrast(i, ink::paper), 4.5);
  }
  EXPECT_GE(ink::contrast(ink::holt, ink::paper), 3);
  EXPECT_GE(ink::contrast(ink::night, ink::peat), 1.5);  // the plan over contours, in grey too
}

TEST(Words, EveryEntryInBothLanguagesWithTheSameBlanks) {
  for (int i = 0; i < static_cast<int>(Say::count); ++i) {
    const std::string en = say(static_cast<Say>(i), units::Language::english),
                      de = say(static_cast<Say>(i), units::Language::german);
    EXPECT_FALSE(en.empty() || de.empty()) << i;
    for (const char* blank : {"{0}", "{1}", "{2}", "{3}", "{4}", "{5}", "{6}"}) {
      EXPECT_EQ(en.find(blank) == std::string::npos, de.find(blank) == std::string::npos) << en;
    }
  }
  EXPECT_EQ(date_text(std::chrono::year{2026} / 11 / 14, units::Language::english),
            "Sat 14 Nov 2026");
  EXPECT_EQ(thousands(6050000), "6 050 000");
}

TEST(Pdf, RefusesWhatIsNoPage) {
  const support::TemporaryFolder folder;
  const auto day = std::chrono::year{2026} / 7 / 1;
  EXPECT_FALSE(io::write_pdf({}, folder / "a.pdf", day));
  Drawing none;
  none.width_mm = 0;
  EXPECT_FALSE(io::write_pdf(std::vector{none}, folder / "a.pdf", day));
  EXPECT_FALSE(io::write_pdf(std::vector{Drawing{}}, folder / "no/such/a.pdf", day));
  EXPECT_FALSE(io::write_pdf(std::vector{Drawing{}}, "/dev/full/a.pdf", day));
}

}  // namespace
}  // namespace lodeway::sheet
