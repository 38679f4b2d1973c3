// Ground to keep off that begins 100 m east of the leg: which of the lost come to it, by hand.
#include "lodeway/route/choose/harm_of_lost.hpp"

#include <gtest/gtest.h>

namespace {

using namespace lodeway;

reckoning::HazardGround east_of(double east_m) {
  terrain::Frame frame;
  frame.west_m = -3000;
  frame.north_m = 3000;
  frame.cell_m = 10;
  frame.rows = frame.cols = 600;
  reckoning::Forbidden cells(frame, 0);
  for (int r = 0; r < frame.rows; ++r) {
    for (int c = 0; c < frame.cols; ++c)
      if (frame.centre(r, c).east_m > east_m) cells[r, c] = 1;
  }
  return reckoning::HazardGround(std::move(cells));
}

reckoning::JudgedLeg leg(double from_north, double to_north, double kept) {
  reckoning::JudgedLeg out;
  out.course.line = {{0, from_north}, {0, to_north}};
  out.judged.certainty = kept;
  return out;
}

// Directions 11.25, 33.75, ... 168.75 degrees to either side of north. East ground 100 m off is met
// within 1000 m where the sine is over 0.1: all eight to the right, none to the left: one half.
TEST(HarmOfLost, HalfOfThoseBesideALongEdge) {
  const auto ground = east_of(100);
  EXPECT_NEAR(route::harm_of_lost({"", {leg(-800, 0, 0.6)}, 0.6}, ground), 0.4 / 2, 1e-12);
  // the second leg is lost by 0.7 of the 0.6 that kept the first
  EXPECT_NEAR(route::harm_of_lost({"", {leg(-800, 0, 0.6), leg(0, 500, 0.3)}, 0.18}, ground),
              (0.4 + 0.6 * 0.7) / 2, 1e-12);
}

// 900 m off the sine must be over 0.9, 64.2 degrees: 78.75 and 101.25 alone, 2 of 16.
TEST(HarmOfLost, WhatIsFarIsMetByFew) {
  EXPECT_NEAR(route::harm_of_lost({"", {leg(-800, 0, 0)}, 0}, east_of(900)), 2.0 / 16, 1e-12);
  EXPECT_EQ(route::harm_of_lost({"", {leg(-800, 0, 0)}, 0}, east_of(1100)), 0);
}

TEST(HarmOfLost, NobodyIsLostOnAWayThatAllKeep) {
  EXPECT_EQ(route::harm_of_lost({"", {leg(-800, 0, 1)}, 1}, east_of(50)), 0);
  EXPECT_EQ(route::harm_of_lost({"", {leg(-800, 0, 0)}, 0}, {}), 0);
}

}  // namespace
