// References to and fro on the borders of squares, and places asked for on a known ground.
#include "lodeway/earth/place_on_ground.hpp"

#include <cmath>
#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "lodeway/earth/place_text.hpp"

namespace lodeway::earth {
namespace {

/// Whole hundreds of metres in a zone, as grids of either hemisphere count them.
struct Border {
  int zone;
  bool north;
  long east_m, north_m;
};

Border random_border(std::mt19937& random) {
  const auto whole = [&](long low, long high) {
    return std::uniform_int_distribution<long>(low, high)(random);
  };
  const long step = std::array<long, 3>{100, 1000, 100'000}[static_cast<std::size_t>(whole(0, 2))];
  const bool north = whole(0, 1) == 1;
  // within the zone everywhere up to 60 degrees: 3 degrees are 166 km there
  return {static_cast<int>(whole(1, 60)), north,
          step * whole((340'000 + step - 1) / step, 660'000 / step),
          north ? step * whole(0, 6'600'000 / step)
                : step * whole((3'400'000 + step - 1) / step, 10'000'000 / step)};
}

/// The digits of the standard, by whole numbers alone.
std::string figures(long east_m, long north_m, int digits) {
  long side = 1;
  for (int k = digits; k < 5; ++k) side *= 10;
  return fmt::format("{:0{}} {:0{}}", east_m % 100'000 / side, digits, north_m % 100'000 / side,
                     digits);
}

std::string without_space(std::string text) {
  std::erase(text, ' ');
  return text;
}

// Every place on the borders of squares of 100 m, 1 km and 100 km, to degrees and back, in every
// form: it stays in the square that begins there.
TEST(References, places_on_borders_come_back_as_the_square_that_begins_there) {
  std::mt19937 random(20260914);
  std::vector<MapGrid> grids;
  for (const int hemisphere : {600, 700}) {
    for (int zone = 1; zone <= 60; ++zone)
      grids.push_back(MapGrid::from_text(fmt::format("EPSG:32{}", hemisphere + zone)).value());
  }
  int asked = 0;
  while (asked < 100'000) {
    const Border b = random_border(random);
    const MapGrid& grid = grids[static_cast<std::size_t>((b.north ? 0 : 60) + b.zone - 1)];
    const GridPoint exact{static_cast<double>(b.east_m), static_cast<double>(b.north_m)};
    const auto degrees = grid.to_geographic(exact);
    ASSERT_TRUE(degrees);
    if (utm_ups(*degrees)->zone != b.zone) continue;  // off Norway the letters are the next zone's
    ++asked;
    const auto there = [&](const Result<Geographic>& at, double within_m, const std::string& text) {
      ASSERT_TRUE(at) << text << ": " << at.error().what;
      const auto p = grid.to_grid(*at);
      ASSERT_TRUE(p) << text;
      ASSERT_NEAR(p->east_m, exact.east_m, within_m) << text;
      ASSERT_NEAR(p->north_m, exact.north_m, within_m) << text;
    };
    const auto back = grid.to_grid(*degrees);
    ASSERT_TRUE(back);
    for (int digits = 1; digits <= 5; ++digits) {
      const auto want = figures(b.east_m, b.north_m, digits);
      ASSERT_EQ(grid_reference(*back, digits), want) << asked;
      const auto lettered = mgrs(*degrees, digits);
      ASSERT_TRUE(lettered);
      ASSERT_TRUE(lettered->ends_with(without_space(want))) << *lettered << " " << want;
      const auto square = parse_mgrs(*lettered);
      ASSERT_TRUE(square) << *lettered;
      const auto side = static_cast<long>(square->side_m);
      // On the equator the square that begins is the northern one: 0, not 10 000 000.
      const bool equator = !b.north && b.north_m == 10'000'000;
      ASSERT_EQ(square->north, b.north || equator) << *lettered;
      ASSERT_EQ(square->south_west.east_m, static_cast<double>(b.east_m / side * side));
      ASSERT_EQ(square->south_west.north_m,
                static_cast<double>(equator ? 0 : b.north_m / side * side))
          << *lettered;
    }
    // what people type: metres, degrees as pages show them and to a tenth of a second
    const auto metres = fmt::format("{} {}", b.east_m, b.north_m);
    there(parse_place(metres, &grid), 1e-6, metres);
    const auto utm = fmt::format("{}{} {}", b.zone, b.north ? 'N' : 'S', metres);
    there(parse_place(utm), 1e-6, utm);
    const auto decimal = fmt::format("{:.9f} {:.9f}", degrees->lat_deg, degrees->lon_deg);
    there(parse_place(decimal), 1e-4, decimal);
    const auto dms = [](double v, const char* letters) {
      const long tenths = std::lround(std::abs(v) * 36'000);
      return fmt::format("{}°{:02}'{:02}.{}\"{}", tenths / 36'000, tenths / 600 % 60,
                         tenths / 10 % 60, tenths % 10, letters[v < 0 ? 1 : 0]);
    };
    const auto letters = dms(degrees->lat_deg, "NS") + " " + dms(degrees->lon_deg, "EW");
    there(parse_place(letters), 1.6, letters);
    // The reference as the card prints it, on a ground about the place.
    const GridArea ground{grid, exact.east_m - 20'000, exact.north_m - 20'000,
                          exact.east_m + 20'000, exact.north_m + 20'000};
    for (int digits = 3; digits <= 4; ++digits) {
      const double side = std::pow(10, 5 - digits);
      const auto at = place_on_ground(grid_reference(*back, digits), ground);
      ASSERT_TRUE(at) << at.error().what;
      ASSERT_EQ(*at, (GridPoint{exact.east_m + side / 2, exact.north_m + side / 2}));
    }
  }
  EXPECT_EQ(asked, 100'000);
}

GridArea fells() {
  return {MapGrid::from_text("EPSG:32629").value(), 478'000, 6'047'000, 488'000, 6'057'000};
}

TEST(PlaceOnGround, a_reference_is_completed_by_the_square_the_ground_lies_in) {
  for (const char* text : {"819 513", "819513", " 819  513 ", "8195 5135", "81955135"}) {
    const auto at = place_on_ground(text, fells());
    ASSERT_TRUE(at) << text << ": " << at.error().what;
    const double middle = std::string_view(text).find("8195 ") != std::string_view::npos ||
                                  std::string_view(text) == "81955135"
                              ? 5
                              : 50;
    EXPECT_NEAR(at->east_m, 481'950 + (middle == 5 ? 5 : 0), 1e-9) << text;
    EXPECT_NEAR(at->north_m, 6'051'350 + (middle == 5 ? 5 : 0), 1e-9) << text;
  }
  const auto ten = place_on_ground("81955 51355", fells());
  ASSERT_TRUE(ten);
  EXPECT_NEAR(ten->east_m, 481'955.5, 1e-9);
  // Degrees stay degrees, and metres of the grid metres.
  EXPECT_NEAR(place_on_ground("481800 6050400", fells())->east_m, 481'800, 1e-6);
  EXPECT_NEAR(place_on_ground("54.62 -9.25", fells())->north_m, 6'052'000, 3000);
}

// Near the equator 819 and 513 would be metres of the grid: nobody means that.
TEST(PlaceOnGround, six_figures_are_never_metres) {
  const GridArea equator{MapGrid::from_text("EPSG:32636").value(), 100, 100, 3000, 3000};
  const auto at = place_on_ground("819 513", equator);
  ASSERT_FALSE(at);
  EXPECT_NE(at.error().what.find("nowhere on it is this grid reference"), std::string::npos)
      << at.error().what;
  EXPECT_EQ(place_on_ground("012 009", equator).value(), (GridPoint{1250, 950}));
}

// What is read off a map's edge and is too short is refused with the way to write it; it is never
// metres near the grid's origin, a continent away.
TEST(PlaceOnGround, too_few_figures_are_refused_with_how_to_write_it) {
  for (const char* text : {"97 18", "97 185", "819 5133", "8 5", "4819 51", "99999 9"}) {
    const auto at = place_on_ground(text, fells());
    ASSERT_FALSE(at) << text;
    EXPECT_EQ(at.error().code, FaultCode::bad_input) << text;
    EXPECT_NE(at.error().what.find("three figures or more to the east and as many to the north, "
                                   "like 970 185; or write its easting and northing in metres (from "
                                   "478000 6047000 to 488000 6057000)"),
              std::string::npos)
        << at.error().what;
    EXPECT_EQ(at.error().what.find("km outside"), std::string::npos) << at.error().what;
  }
  // Whole degrees that lie on the ground are degrees; metres that lie on it are metres.
  const GridArea africa{MapGrid::from_text("EPSG:32636").value(), 0, 0, 1'000'000, 3'000'000};
  EXPECT_NEAR(place_on_ground("18 33", africa).value().north_m, 1'990'000, 10'000);
  const GridArea small{fells().grid, 0, 0, 2000, 2000};
  EXPECT_EQ(place_on_ground("970 18", small).value(), (GridPoint{970, 18}));
}

TEST(PlaceOnGround, two_squares_that_fit_are_both_named) {
  const GridArea wide{fells().grid, 350'000, 6'047'000, 488'000, 6'057'000};
  const auto at = place_on_ground("819 513", wide);
  ASSERT_FALSE(at);
  EXPECT_NE(at.error().what.find("2 on the ground have this grid reference: write 381950 6051350 "
                                 "or 481950 6051350 in full"),
            std::string::npos)
      << at.error().what;
  EXPECT_TRUE(place_on_ground("481950 6051350", wide));
  // Five figures each way may be metres of a grid that begins here; elsewhere they are a reference.
  const GridArea corner{MapGrid::from_text("EPSG:27700").value(), 80'000, 50'000, 190'000, 160'000};
  EXPECT_EQ(place_on_ground("90000 70000", corner).value(), (GridPoint{90'000, 70'000}));
  const auto several = place_on_ground("85000 55000", corner);
  ASSERT_FALSE(several);
  EXPECT_NE(several.error().what.find("write 85000.5 55000.5 or 185000.5"), std::string::npos)
      << several.error().what;
  EXPECT_NEAR(place_on_ground("85000.5 55000.5", corner).value().east_m, 85'000.5, 1e-6);
}

TEST(PlaceOnGround, outside_is_refused_with_how_far) {
  const auto what = [](const char* text) {
    const auto at = place_on_ground(text, fells());
    EXPECT_FALSE(at) << text;
    return at ? std::string() : at.error().what;
  };
  EXPECT_NE(what("490300 6050000").find("lies 2.3 km outside it, to the east"), std::string::npos);
  EXPECT_NE(what("477700 6046600").find("lies 500 m outside it, to the south-west"),
            std::string::npos);
  EXPECT_NE(what("47.1 9.5").find("km outside it, to the south-east"), std::string::npos)
      << what("47.1 9.5");
  EXPECT_EQ(place_on_ground("490300 6050000", fells()).error().code, FaultCode::outside_ground);
  EXPECT_TRUE(place_about_ground("490300 6050000", fells()));
  EXPECT_NE(what("119 513").find("nowhere on it"), std::string::npos);
  EXPECT_NE(what("119 513").find("478000 6047000 to 488000 6057000"), std::string::npos);
}

TEST(PlaceOnGround, without_a_ground_a_reference_needs_its_square) {
  for (const char* text : {"819 513", "045 120", "8195 5135"}) {
    const auto at = parse_place(text);
    ASSERT_FALSE(at) << text;
    EXPECT_NE(at.error().what.find("letters of its 100 km square"), std::string::npos)
        << at.error().what;
  }
  EXPECT_TRUE(parse_place("45 120"));
}

}  // namespace
}  // namespace lodeway::earth
