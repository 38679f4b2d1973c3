#include "sheet/paper_support.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

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

const walking::Ground& fells() {
  static const auto made = fells::make_skarrow_fells();
  return made;
}

namespace {
/// On the needle from the start to the end of its line: figures of the plan, not of any ground.
void on_a_bearing(trip::PlannedLeg& leg, units::MagneticBearing needle, double minutes,
                  double scale) {
  const double length = leg.figures.length_m;
  leg.judged.length_m = length;
  leg.judged.minutes = minutes;
  leg.counted = {length, units::map_mm(mapdata::length_m(leg.course.line), scale), length / 1.5,
                 minutes};
  leg.magnetic_bearing = needle;
  if (leg.course.kind == walking::LegKind::bearing)
    leg.needle = trip::OnTheNeedle{leg.counted, leg.course.line.back(), needle, {}};
}
}  // namespace

trip::Plan plan_of(int legs, const std::string& name) {
  trip::Plan plan;
  plan.trip.name = name;
  plan.trip.date = std::chrono::year{2026} / 7 / 1;
  plan.trip.request.points = {{name, {480000, 6048000}}, {name, {480400, 6048000}}};
  GridPoint at{480000, 6048000};
  trip::Clock clock{9 * 60};
  for (int i = 0; i < legs; ++i) {
    trip::PlannedLeg leg;
    const GridPoint to = at + GridPoint{i % 2 == 0 ? 250.0 : -150.0, 31.0};
    leg.course.line = {at, to};
    leg.course.from = leg.course.to = name;
    leg.figures.length_m = earth::grid_distance_m(at, to);
    leg.reference = "800 480";
    on_a_bearing(leg, units::MagneticBearing::degrees(33 + i), 6, plan.trip.map_scale);
    plan.schedule.legs.push_back({clock, clock + trip::Clock{6}, clock + trip::Clock{7}, 0});
    clock += trip::Clock{6};
    plan.way.legs.push_back(leg);
    at = to;
  }
  plan.schedule.start = trip::Clock{9 * 60};
  plan.schedule.end = clock;
  plan.schedule.end_slow = clock;
  plan.schedule.act_by = clock + trip::Clock{60};
  plan.start_reference = "800 480";
  return plan;
}

trip::Plan full_plan(units::Language language) {
  const bool de = language == units::Language::german;
  trip::Plan plan;
  auto& t = plan.trip;
  t.name = "Skarrow round";
  t.language = language;
  t.date = std::chrono::year{2026} / 11 / 14;
  t.request.party.size = 4;
  t.at_home = {"A. Holder", "000 555 0143"};
  t.leader = {"B. Leader", "000 555 0177"};
  t.members = {"B. Leader", "C. Walker", "D. Walker", "E. Walker"};
  t.emergency_number = "112";
  t.transport = de ? "blauer Bus an der Fallow Bridge" : "blue van at Fallow Bridge";
  t.gear = de ? "Biwaksack, zwei Lampen, Pfeifen, Verbandszeug"
              : "group shelter, two torches, whistle each, first aid";
  const std::vector<std::pair<const char*, GridPoint>> ends{
      {"Fallow Bridge", {481949, 6050540}},
      {"Hause path at Low Hause", {481905, 6051745}},
      {"Quenna Hause", {482595, 6052025}},
      {de ? "Knick ohne Marke" : "unmarked turn", {482700, 6052540}},
      {"Harrik Pike", {483055, 6053075}},
      {"Kell Gap", {483865, 6052805}},
      {"Kell path at Ostreldale road", {483480, 6050360}},
      {"Withen Bridge", {483530, 6050380}},
      {"Ostrel House", {484700, 6050400}},
      {"Ostrel Plantation corner", {484680, 6049900}}};
  for (const auto& [name, at] : ends) t.request.points.push_back({name, at});
  trip::Clock clock{9 * 60 + 15};
  plan.schedule.start = clock;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    trip::PlannedLeg leg;
    leg.course.from = ends[i].first;
    leg.course.to = ends[i + 1].first;
    const auto a = ends[i].second, b = ends[i + 1].second;
    const bool along = i == 0 || i == 4 || i == 5 || i == 6;
    leg.course.kind = along ? walking::LegKind::along : walking::LegKind::bearing;
    leg.course.line = {a, b};
    if (along) {
      leg.course.followed.kind = i == 4 ? mapdata::Kind::faint_path : mapdata::Kind::path;
      leg.course.followed.name = de ? "Hause path" : "Hause path";
      leg.remark = de ? "Fallow Beck zur Linken" : "Fallow Beck on your left";
      leg.course.line = {a, a + 0.5 * (b - a) + GridPoint{60, 20}, b};
      leg.ticks = {{de ? "Zaun quert" : "fence crosses", mapdata::Kind::fence, mapdata::Side::none,
                    262, 9, a},
                   {de ? "Mauer quert" : "wall crosses", mapdata::Kind::wall, mapdata::Side::none,
                    589, 22, a},
                   {de ? "Brindle Beck mündet, rechts" : "Brindle Beck joins, right",
                    mapdata::Kind::stream, mapdata::Side::right, 735, 31, a},
                   {de ? "wird steiler" : "steepens", mapdata::Kind::other, mapdata::Side::none,
                    900, 36, a, true}};
    }
    leg.figures.length_m = mapdata::length_m(leg.course.line);
    leg.figures.climb_m = 20.0 * static_cast<double>(i);
    leg.figures.descent_m = 200 - leg.figures.climb_m;
    on_a_bearing(leg, units::MagneticBearing::degrees(7 + 41 * static_cast<double>(i)),
                 leg.figures.length_m / 50, t.map_scale);
    leg.reference = "8" + std::to_string(19 + i) + " 505";
    if (i != 3)
      leg.stop = walking::Stop{de ? "Kell path" : "Kell path",
                               mapdata::Kind::path,
                               i % 2 == 0 ? 270.0 : 0.0,
                               5,
                               {b + GridPoint{-60, 80}, b + GridPoint{60, 110}}};
    if (i >= 3 && i < 6)
      leg.dangers = {{de ? "Brennow Edge, Fels, 142 m hinter dem Ende"
                         : "Brennow Edge, cliff, 142 m beyond the end",
                      mapdata::Side::none, 142}};
    leg.judged.certainty = 1 - 0.033 * static_cast<double>(i);
    plan.way.certainty = (i == 0 ? 1.0 : plan.way.certainty) * leg.judged.certainty;
    leg.judged.cross_sigma_m = 15;
    leg.judged.fix_at_end = i != 2;
    leg.judged.at_end.xx = 400;
    leg.judged.at_end.yy = 225;
    leg.judged.if_lost =
        de ? std::string("Kommt ") + ends[i + 1].first +
                 " nicht: weiter bis Kell path, 270 m dahinter, und von dort den Ort suchen."
           : std::string("If ") + ends[i + 1].first +
                 " does not come, go on to Kell path, 270 m beyond, and find your place from "
                 "there.";
    if (i == 7) {
      leg.needle->aim = b + GridPoint{-100, 40};
      leg.after = trip::AlongAfter{{110, 4.4, 73, 2},
                                   mapdata::Side::left,
                                   de ? "Mauer der Pflanzung" : "plantation wall"};
    }
    if (i < 8) {
      // From the first leg's start, of the others' middle or end, in one to three steps; the last
      // but one begins on safe ground.
      const auto escape_from = [&](reckoning::LeavesAt from, GridPoint at, std::size_t steps) {
        auto& route = leg.escapes.emplace_back();
        route.from = from;
        route.to = "Ostreldale road";
        route.certainty = 0.97 - 0.04 * static_cast<double>(i);
        route.minutes = 18 + 9.0 * static_cast<double>(i);
        route.back_minutes = 25 + 20.0 * static_cast<double>(i);
        for (std::size_t k = 0; k < steps; ++k) {
          trip::PlannedLeg step;
          step.course.line = {at, at + GridPoint{-150, -300}};
          at = step.course.line.back();
          step.course.to = k + 1 == steps ? route.to : k == 0 ? "Kell path" : "Low Hause fold";
          if (k == 1) {
            step.course.kind = walking::LegKind::along;
            step.course.followed = {mapdata::Kind::path, "Kell path"};
          }
          step.figures.length_m = 335;
          on_a_bearing(step, units::MagneticBearing::degrees(143 + 20 * static_cast<double>(k)), 9,
                       t.map_scale);
          step.first_magnetic_bearing = step.magnetic_bearing;
          route.legs.push_back(std::move(step));
        }
      };
      using enum reckoning::LeavesAt;
      escape_from(start, a, i % 3 + 1);
      if (i == 4) escape_from(middle, 0.5 * (a + b), 2);
      escape_from(end, b, i == 6 ? 0 : (i + 1) % 3 + 1);
      leg.escapes.back().back = i == 5;
      if (i == 3) leg.escapes.back().hazard_probability = 0.12;
      leg.escapes.back().after_last_light = i == 2;
      leg.escape.emplace();
      leg.escape->first_magnetic = units::MagneticBearing::degrees(143);
      leg.escape->haven = "Ostreldale road";
      leg.escape->minutes = 18 + 9.0 * static_cast<double>(i);
      leg.escape->line = trip::line_of(leg.escapes.front());
    }
    const auto took = trip::Clock{std::lround(leg.judged.minutes)};
    plan.schedule.legs.push_back({clock, clock + took, clock + took + trip::Clock{9}, 0});
    clock += took;
    plan.way.legs.push_back(leg);
  }
  plan.start_reference = "819 505";
  plan.schedule.end = clock;
  plan.schedule.end_slow = clock + trip::Clock{41};
  plan.schedule.act_by = clock + trip::Clock{101};
  plan.schedule.turn_round = trip::Clock{14 * 60 + 41};
  plan.schedule.turn_round_leg = 4;
  plan.schedule.turn_round_back_min = 116;
  plan.daylight = {trip::Clock{445}, trip::Clock{485}, trip::Clock{997}, trip::Clock{1037}, ""};
  plan.norths.at = {units::Declination(units::Angle::degrees(-2.5)),
                    units::Convergence(units::Angle::degrees(-0.2))};
  plan.norths.declination_sigma_deg = 0.4;
  plan.norths.annual_change_deg = 0.2;
  return plan;
}

TextBox box_of(const TextCommand& t) {
  const double w = measure().width_mm(t.text, t.face, t.size_mm),
               a = t.turn_deg * std::acos(-1.0) / 180;
  const double x = t.anchor == Anchor::left ? 0 : t.anchor == Anchor::middle ? -w / 2 : -w;
  TextBox out{1e9, 1e9, -1e9, -1e9};
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

std::vector<TextCommand> texts_of(const Drawing& d) {
  std::vector<TextCommand> out;
  for (const auto& c : d.commands) {
    if (const auto* t = std::get_if<TextCommand>(&c)) out.push_back(*t);
  }
  return out;
}

void expect_text_on_page(const Drawing& d) {
  constexpr double least = clear_edge_mm - 0.05;
  for (const auto& t : texts_of(d)) {
    const auto b = box_of(t);
    EXPECT_TRUE(b.x0 >= least && b.y0 >= least && b.x1 <= d.width_mm - least &&
                b.y1 <= d.height_mm - least)
        << d.width_mm << " x " << d.height_mm << ": \"" << t.text << "\" " << b.x0 << " " << b.y0
        << " " << b.x1 << " " << b.y1;
  }
}

namespace {

/// The four corners of a line of text, turned as it is, drawn in by a little.
std::vector<Mm> corners_of(const TextCommand& t) {
  constexpr double in = 0.08;
  const double w = measure().width_mm(t.text, t.face, t.size_mm),
               a = t.turn_deg * std::acos(-1.0) / 180;
  const double x = t.anchor == Anchor::left ? 0 : t.anchor == Anchor::middle ? -w / 2 : -w;
  std::vector<Mm> out;
  for (const auto& p : {Mm{x + in, -0.72 * t.size_mm + in}, Mm{x + w - in, -0.72 * t.size_mm + in},
                        Mm{x + w - in, -in}, Mm{x + in, -in}})
    out.push_back({t.at.x + p.x * std::cos(a) - p.y * std::sin(a),
                   t.at.y + p.x * std::sin(a) + p.y * std::cos(a)});
  return out;
}

/// Two convex shapes are apart when a side of one of them parts them.
bool apart(const std::vector<Mm>& a, const std::vector<Mm>& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    const Mm p = a[i], q = a[(i + 1) % a.size()];
    const auto side = [&](Mm m) { return (q.x - p.x) * (m.y - p.y) - (q.y - p.y) * (m.x - p.x); };
    if (std::ranges::all_of(b, [&](Mm m) { return side(m) < 0; })) return true;
  }
  return false;
}

}  // namespace

int overlaps(const Drawing& d) {
  std::vector<std::pair<std::vector<Mm>, std::string>> boxes;
  for (const auto& t : texts_of(d)) boxes.emplace_back(corners_of(t), t.text);
  int count = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t j = i + 1; j < boxes.size(); ++j) {
      const auto &a = boxes[i].first, &b = boxes[j].first;
      if (apart(a, b) || apart(b, a)) continue;
      ++count;
      ADD_FAILURE() << "\"" << boxes[i].second << "\" lies on \"" << boxes[j].second << "\" at "
                    << b[0].x << " " << b[0].y;
    }
  }
  return count;
}

void expect_nothing_cut(const Drawing& d) {
  for (const auto& t : texts_of(d)) EXPECT_EQ(t.text.find("…"), std::string::npos) << t.text;
}

}  // namespace lodeway::sheet
