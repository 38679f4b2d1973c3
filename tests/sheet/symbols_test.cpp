// Every two symbols are told apart with the hue taken away: by tone, or by form as it is drawn.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/io/pdf/picture.hpp"
#include "lodeway/sheet/draw/ink.hpp"
#include "lodeway/sheet/map/map_hatch.hpp"
#include "lodeway/sheet/map/map_legs.hpp"
#include "lodeway/sheet/map/map_relief.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

using mapdata::Kind;

// Contrast after WCAG 2.2: text needs 4.5, marks 3 on paper.
TEST(Inks, ReadOnPaper) {
  for (const auto& i :
       {ink::night, ink::text, ink::stone, ink::peat, ink::tarn, ink::rowan, ink::haven}) {
    EXPECT_GE(ink::contrast(i, ink::paper), 4.5);
  }
  EXPECT_GE(ink::contrast(ink::holt, ink::paper), 3);
  EXPECT_GE(ink::contrast(ink::peat, ink::heath_4), 3.25);  // contours on the darkest slope
  EXPECT_GE(ink::contrast(ink::night, ink::peat), 1.5);     // the plan over contours, in grey too
}

// Greys of the project's own table of inks (docs/method/paper.md), to the figure.
TEST(Inks, GreysAreThoseOfTheTable) {
  const std::pair<Ink, int> table[] = {
      {ink::night, 31},      {ink::text, 33},     {ink::stone, 75},       {ink::rule, 147},
      {ink::peat, 82},       {ink::tarn, 84},     {ink::tarn_pale, 227},  {ink::holt, 107},
      {ink::holt_pale, 231}, {ink::rowan, 79},    {ink::rowan_pale, 230}, {ink::lamp, 180},
      {ink::lamp_pale, 232}, {ink::haven, 87},    {ink::heath_1, 237},    {ink::heath_2, 215},
      {ink::heath_3, 192},   {ink::heath_4, 168}, {ink::paper, 255}};
  for (const auto& [i, grey] : table) EXPECT_NEAR(ink::grey(i), grey, 1);
}

// Pairs that tone alone must part: a step of 20 in 255 at least.
TEST(Inks, WhatToneMustPartItParts) {
  const std::pair<Ink, Ink> pairs[] = {{ink::night, ink::peat},      {ink::night, ink::stone},
                                       {ink::night, ink::tarn},      {ink::lamp_pale, ink::paper},
                                       {ink::heath_1, ink::heath_2}, {ink::heath_2, ink::heath_3},
                                       {ink::heath_3, ink::heath_4}};
  for (const auto& [a, b] : pairs) EXPECT_GE(std::abs(ink::grey(a) - ink::grey(b)), 20);
}

/// How dark each pixel is when printed grey, 0 to 1.
struct Printed {
  int wide = 0, high = 0;
  std::vector<double> dark;
  [[nodiscard]] double at(int x, int y) const {
    return dark[static_cast<std::size_t>(y) * static_cast<std::size_t>(wide) +
                static_cast<std::size_t>(x)];
  }
};

Printed print(Page& page, double dots_a_mm) {
  const auto picture = io::paint(page.take(), dots_a_mm * 25.4);
  EXPECT_TRUE(picture);
  Printed out{picture->wide, picture->high, {}};
  for (std::size_t i = 0; i < picture->rgba.size(); i += 4) {
    const Ink pixel{picture->rgba[i], picture->rgba[i + 1], picture->rgba[i + 2]};
    out.dark.push_back(1 - ink::grey(pixel) / 255.0);
  }
  return out;
}

/// The share of ink that lies elsewhere, 0 (the same) to 1 (nothing in common), at the best of all
/// shifts: the print is blurred by a dot first, so that only what an eye sees counts.
double difference(const Printed& a, const Printed& b, int shift_x, int shift_y) {
  double best = 1;
  for (int dy = 0; dy <= shift_y; ++dy) {
    for (int dx = 0; dx <= shift_x; ++dx) {
      double apart = 0, both = 0;
      for (int y = 1; y + shift_y + 1 < a.high; ++y) {
        for (int x = 1; x + shift_x + 1 < a.wide; ++x) {
          const auto soft = [](const Printed& p, int u, int v) {
            return (p.at(u, v) * 2 + p.at(u + 1, v) + p.at(u, v + 1)) / 4;
          };
          const double p = soft(a, x, y), q = soft(b, x + dx, y + dy);
          apart += std::abs(p - q);
          both += p + q;
        }
      }
      if (both > 0) best = std::min(best, apart / both);
    }
  }
  return best;
}

MapFrame frame_of(double w, double h) {
  MapFrame f;
  f.page_w = f.w = w;
  f.page_h = f.h = h;
  f.at = {0, 0};
  f.south_west = {480000, 6048000};
  return f;
}

/// One line symbol along the middle of a strip, drawn by the sheet's own code.
Printed line_symbol(int which, const std::vector<Kind>& kinds) {
  const auto f = frame_of(64, 8);
  Page page(f.page_w, f.page_h, "", measure());
  Labels labels({0, 0, 64, 8});
  const std::vector<earth::GridPoint> line{{479000, 6048100}, {482600, 6048100}};
  const auto n = static_cast<std::size_t>(which);
  terrain::Elevation level(terrain::Frame{478000, 6052000, 50, 160, 160}, 200.0F);
  if (n < kinds.size()) {
    mapdata::MapData map;
    mapdata::LineFeature feature;
    feature.label.kind = kinds[n];
    feature.points = line;
    feature.falls = mapdata::Side::right;
    map.lines.push_back(feature);
    draw_lines(page, f, map, level);
    return print(page, 8);
  }
  trip::Plan plan;
  trip::PlannedLeg leg;
  leg.course.line = line;
  leg.figures.length_m = 3600;
  switch (n - kinds.size()) {
    case 0:    // contour, index contour: one level across a ramp of a metre in ten
    case 1: {  // the level runs along the middle
      const float at = n == kinds.size() ? 210 : 250;
      for (int r = 0; r < 160; ++r) {
        for (int c = 0; c < 160; ++c)
          level[r, c] =
              at + 0.04F * static_cast<float>(level.frame().centre(r, c).north_m - 6048100);
      }
      (void)draw_contours(page, f, level, 10);
      break;
    }
    case 2:
    case 3:
      leg.course.kind = n - kinds.size() == 2 ? walking::LegKind::along : walking::LegKind::bearing;
      plan.way.legs = {leg};
      draw_legs(page, labels, f, plan);
      break;
    case 4: {
      leg.course.line = {{400000, 6000000}, {400100, 6000000}};
      auto& route = leg.escapes.emplace_back();
      auto& step = route.legs.emplace_back();
      for (int i = 0; i <= 72; ++i) step.course.line.push_back({479000 + 50.0 * i, 6048100});
      plan.way.legs = {leg};
      draw_legs(page, labels, f, plan);
      break;
    }
    default:
      leg.course.line = {{400000, 6000000}, {400100, 6000000}};
      leg.stop = walking::Stop{};
      leg.stop->shape = line;
      plan.way.legs = {leg};
      draw_doubt(page, labels, f, plan);
  }
  return print(page, 8);
}

using Named = std::pair<std::string, Printed>;

/// Every symbol is there, and every two are `least` apart; says which are nearest.
void expect_apart(const std::vector<Named>& all, int shift_x, int shift_y, double least) {
  double nearest = 1;
  std::string which;
  for (std::size_t i = 0; i < all.size(); ++i) {
    double ink = 0;
    for (const double d : all[i].second.dark) ink += d;
    EXPECT_GT(ink, 10) << all[i].first << " is not there";
    EXPECT_LT(difference(all[i].second, all[i].second, 0, 0), 1e-12);
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const double d = difference(all[i].second, all[j].second, shift_x, shift_y);
      EXPECT_GE(d, least) << all[i].first << " and " << all[j].first;
      if (d >= nearest) continue;
      nearest = d;
      which = all[i].first + " and " + all[j].first;
    }
  }
  std::printf("nearest: %s, %.2f of their ink apart\n", which.c_str(), nearest);
}

TEST(Symbols, EveryTwoLinesDifferInForm) {
  const std::vector<Kind> kinds{Kind::path,    Kind::faint_path, Kind::track, Kind::road,
                                Kind::railway, Kind::stream,     Kind::river, Kind::wall,
                                Kind::fence,   Kind::power_line, Kind::cliff};
  const char* const plan_names[] = {"contour",     "index contour", "handrail leg",
                                    "bearing leg", "way off",       "catching feature"};
  std::vector<Named> all;
  for (std::size_t i = 0; i < kinds.size() + std::size(plan_names); ++i) {
    all.emplace_back(
        i < kinds.size() ? std::string(mapdata::kind_name(kinds[i])) : plan_names[i - kinds.size()],
        line_symbol(static_cast<int>(i), kinds));
  }
  constexpr int shift = 80;  // 10 mm: the longest mark repeats each 9.6 mm but for the barbs
  expect_apart(all, shift, 0, 0.15);
}

/// A patch wholly covered by one surface.
Printed area_symbol(Kind kind, int special) {
  const auto f = frame_of(14, 14);
  Page page(f.page_w, f.page_h, "", measure());
  terrain::Elevation heights(terrain::Frame{478000, 6052000, 50, 160, 160}, 200.0F);
  mapdata::MapData map;
  mapdata::AreaFeature area;
  area.label.kind = kind;
  area.outer = {{479500, 6047500}, {481000, 6047500}, {481000, 6049000}, {479500, 6049000}};
  if (special == 1) {  // unknown
    std::ranges::fill(heights.cells(), std::numeric_limits<float>::quiet_NaN());
    (void)draw_unknown(page, f, heights);
    return print(page, 5);
  }
  if (special == 2) {  // too steep: 45 degrees between two level shelves
    for (int r = 0; r < 160; ++r) {
      for (int c = 0; c < 160; ++c)
        heights[r, c] = std::clamp(50.0F * static_cast<float>(100 - r), 0.0F, 3000.0F);
    }
    draw_hazard(page, f, map, {}, heights, 35);
    return print(page, 5);
  }
  if (special == 3) {  // the leader's own
    draw_hazard(page, f, map, {area.outer}, heights, 90);
    return print(page, 5);
  }
  map.areas.push_back(area);
  draw_surfaces(page, f, map);
  draw_hazard(page, f, map, {}, heights, 90);
  draw_lines(page, f, map, heights);
  return print(page, 5);
}

TEST(Symbols, EveryTwoSurfacesDifferInForm) {
  const std::vector<Named> all{{"wood", area_symbol(Kind::wood, 0)},
                               {"scrub", area_symbol(Kind::scrub, 0)},
                               {"marsh", area_symbol(Kind::marsh, 0)},
                               {"scree", area_symbol(Kind::scree, 0)},
                               {"boulders", area_symbol(Kind::boulders, 0)},
                               {"bare rock", area_symbol(Kind::bare_rock, 0)},
                               {"closed", area_symbol(Kind::forbidden, 0)},
                               {"to avoid", area_symbol(Kind::other, 3)},
                               {"unknown", area_symbol(Kind::other, 1)},
                               {"too steep", area_symbol(Kind::other, 2)}};
  expect_apart(all, 14, 14, 0.25);
}

}  // namespace
}  // namespace lodeway::sheet
