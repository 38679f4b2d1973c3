// Pictures against pictures that somebody has looked at. When a change of looks is meant:
// LODEWAY_RENEW_PICTURES=1 (script/renew-pictures), then look at them, then commit them.
#include <cmath>
#include <cstdlib>
#include <filesystem>

#include <cairo.h>
#include <gtest/gtest.h>

#include "lodeway/io/pdf/picture.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/notes/escape_card.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "sheet/paper_support.hpp"
#include "support/support.hpp"

namespace lodeway::sheet {
namespace {

constexpr double page_dpi = 72, map_dpi = 46;  // a map has more to it: kept under 150 kB
// Tolerance: letters and curves may fall a shade otherwise with another build of the drawing
// library; a moved or missing mark is far beyond either bound.
constexpr double most_mean = 1.0, most_share = 0.004;
constexpr int far_off = 48;

struct Pixels {
  int wide = 0, high = 0;
  std::vector<std::uint8_t> rgb;
};

Pixels read_png(const std::string& path) {
  Pixels out;
  cairo_surface_t* s = cairo_image_surface_create_from_png(path.c_str());
  if (cairo_surface_status(s) == CAIRO_STATUS_SUCCESS) {
    out.wide = cairo_image_surface_get_width(s);
    out.high = cairo_image_surface_get_height(s);
    for (int y = 0; y < out.high; ++y) {
      const auto* row = cairo_image_surface_get_data(s) +
                        static_cast<std::ptrdiff_t>(y) * cairo_image_surface_get_stride(s);
      for (int x = 0; x < out.wide; ++x) {
        for (const int channel : {2, 1, 0}) out.rgb.push_back(row[4 * x + channel]);
      }
    }
  }
  cairo_surface_destroy(s);
  return out;
}

void expect_picture(const std::string& name, const Drawing& drawing, double dpi = page_dpi) {
  const auto folder = support::tests_folder() + "/pictures/" + name,
             file = folder + "/expected.png";
  if (std::getenv("LODEWAY_RENEW_PICTURES") != nullptr) {
    std::filesystem::create_directories(folder);
    ASSERT_TRUE(io::write_png(drawing, file, dpi));
  }
  const auto expected = read_png(file);
  ASSERT_GT(expected.wide, 0) << file << ": expected a picture; script/renew-pictures makes it";
  const auto got = io::paint(drawing, dpi);
  ASSERT_TRUE(got);
  ASSERT_EQ(got->wide, expected.wide);
  ASSERT_EQ(got->high, expected.high);
  double sum = 0;
  long off = 0;
  const auto pixels = static_cast<std::size_t>(got->wide) * static_cast<std::size_t>(got->high);
  for (std::size_t i = 0; i < pixels; ++i) {
    int most = 0;
    for (std::size_t c = 0; c < 3; ++c) {
      const int d = std::abs(int{got->rgba[4 * i + c]} - int{expected.rgb[3 * i + c]});
      sum += d;
      most = std::max(most, d);
    }
    off += most > far_off ? 1 : 0;
  }
  const double mean = sum / (3 * static_cast<double>(pixels)),
               share = static_cast<double>(off) / static_cast<double>(pixels);
  if (mean > most_mean || share > most_share) {
    const auto seen = std::filesystem::temp_directory_path().string() + "/lodeway-" + name + ".png";
    (void)io::write_png(drawing, seen, dpi);
    ADD_FAILURE() << name << ": mean difference " << mean << " of 255, " << 100 * share
                  << " % of the pixels far off; drawn now: " << seen << ", expected: " << file;
  }
}

/// A piece of the fells under the plan, small enough to be kept.
Drawing piece_of_sheet(trip::Shade shade) {
  auto plan = full_plan();
  plan.trip.paper = trip::Paper::a5;
  plan.trip.landscape = false;
  plan.trip.shade = shade;
  plan.way.legs.erase(plan.way.legs.begin() + 5, plan.way.legs.end());
  plan.way.legs.erase(plan.way.legs.begin(), plan.way.legs.begin() + 1);
  return draw_map_sheets(plan, fells(), measure())->front();
}

TEST(Pictures, Sheet) { expect_picture("sheet-a5", piece_of_sheet(trip::Shade::relief), map_dpi); }
TEST(Pictures, SheetWithSlopes) {
  expect_picture("sheet-a5-slope", piece_of_sheet(trip::Shade::slope), map_dpi);
}
TEST(Pictures, Card) {
  const auto sides = draw_card(full_plan(), measure());
  expect_picture("card-1", sides[0]);
  expect_picture("card-2", sides[1]);
}
TEST(Pictures, CardInLargeTypeInGermanWithMils) {
  auto plan = full_plan(units::Language::german);
  plan.trip.angles = trip::AngleUnit::mils;
  expect_picture("card-large-german", draw_card(plan, measure(), {true})[1]);
}
TEST(Pictures, EscapeCard) {
  expect_picture("escape-card", draw_escape_card(full_plan(), measure())[0]);
}

// The comparison itself: a leg number moved by a millimetre is found.
TEST(Pictures, AMovedMarkIsFound) {
  auto drawing = draw_escape_card(full_plan(), measure())[0];
  const auto before = io::paint(drawing, page_dpi);
  for (auto& command : drawing.commands) {
    if (auto* t = std::get_if<TextCommand>(&command)) t->at.x += 1;
  }
  const auto after = io::paint(drawing, page_dpi);
  long off = 0;
  for (std::size_t i = 0; i < before->rgba.size(); i += 4)
    off += std::abs(int{before->rgba[i]} - int{after->rgba[i]}) > far_off ? 1 : 0;
  EXPECT_GT(static_cast<double>(off) / (static_cast<double>(before->rgba.size()) / 4), most_share);
}

}  // namespace
}  // namespace lodeway::sheet
