#include "lodeway/walking/time_model.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace lodeway::walking {
namespace {

Stretches legs(double km, double up, double moderate = 0, double steep = 0) {
  return {km * 1000, up, moderate + steep, moderate, steep};
}

// Naismith 1892, metric form 5 km/h and 1 h for 600 m: worked cases.
TEST(TimeModel, Naismith) {
  EXPECT_NEAR(naismith_langmuir_s(legs(10, 0), 5) / 3600, 2.0, 1e-9);
  EXPECT_NEAR(naismith_langmuir_s(legs(10, 600), 5) / 3600, 3.0, 1e-9);
  EXPECT_NEAR(naismith_langmuir_s(legs(5, 300), 5) / 3600, 1.5, 1e-9);
  EXPECT_NEAR(naismith_langmuir_s(legs(20, 1600), 5) / 3600, 6.6667, 5e-5);
}

// Langmuir 1984, worked on leg totals. The source's 1.9998 s/m is 10 min for
// 300 m written with four digits; ours is 2: 0.0002 s/m over 600 m is 0.00004 h.
TEST(TimeModel, LangmuirsCorrections) {
  EXPECT_NEAR(naismith_langmuir_s(legs(10, 0, 600, 0), 5) / 3600, 1.6667, 9e-5);
  EXPECT_NEAR(naismith_langmuir_s(legs(10, 0, 0, 600), 5) / 3600, 2.3333, 9e-5);
  EXPECT_NEAR(naismith_langmuir_s(legs(8, 500, 200, 300), 5) / 3600, 2.4889, 9e-5);
}

// DIN 33466: 8 km and 900 m up are 4 h (bergwelten.com); the others computed from the rule.
TEST(TimeModel, Din) {
  EXPECT_NEAR(din_33466_s(legs(8, 900), 4) / 3600, 4.0, 1e-9);
  EXPECT_NEAR(din_33466_s(legs(10, 0), 4) / 3600, 2.5, 1e-9);
  EXPECT_NEAR(din_33466_s(legs(12, 600, 600), 4) / 3600, 4.7, 1e-9);
  EXPECT_NEAR(din_33466_s(legs(20, 1200, 900), 4) / 3600, 8.3, 1e-9);
}

// The Swiss geoportal's published constants, computed with NumPy, min/km.
TEST(TimeModel, SwissTable) {
  const double table[][2] = {{-0.40, 36.000}, {-0.35, 32.010}, {-0.25, 23.568}, {-0.10, 14.209},
                             {-0.05, 13.244}, {0, 14.271},     {0.05, 16.631},  {0.10, 19.999},
                             {0.25, 40.236},  {0.40, 68.000}};
  for (const auto& [slope, minutes] : table)
    EXPECT_NEAR(swiss_min_per_km(slope), minutes, 0.0006) << slope;
}

// Computed apart from this code, km/h at slopes of -40 to 40 %.
TEST(TimeModel, ToblerAndIrmischerClarke) {
  const double slopes[] = {-0.4, -0.3, -0.2, -0.1, -0.05, 0, 0.05, 0.1, 0.2, 0.3, 0.4};
  const double tobler[] = {1.763, 2.501, 3.549, 5.037, 6.000, 5.037,
                           4.228, 3.549, 2.501, 1.763, 1.242};
  const double on[] = {2.219, 2.940, 3.573, 3.946, 3.996, 3.946, 3.801, 3.573, 2.940, 2.219, 1.565};
  const double off[] = {1.477, 1.956, 2.411, 2.724, 2.796, 2.803,
                        2.743, 2.623, 2.239, 1.762, 1.301};
  for (std::size_t i = 0; i < std::size(slopes); ++i) {
    EXPECT_NEAR(tobler_kmh(slopes[i]), tobler[i], 0.0006);
    EXPECT_NEAR(irmischer_clarke_kmh(slopes[i], true), on[i], 0.0006);
    EXPECT_NEAR(irmischer_clarke_kmh(slopes[i], false), off[i], 0.0006);
  }
}

TEST(TimeModel, FlatGoodPathIsThePartysSpeed) {
  const auto flat = terrain::profile_of({{0, 100}, {500, 100}, {1000, 100}});
  for (const auto model : {TimeModel::naismith_langmuir, TimeModel::tobler, TimeModel::swiss,
                           TimeModel::din_33466, TimeModel::irmischer_clarke}) {
    EXPECT_NEAR(leg_minutes(model, flat, true, 4, 1), 15, 1e-9) << static_cast<int>(model);
    EXPECT_NEAR(pace_s_per_m(model, 0, true, 4, 1), 0.9, 1e-12);
    EXPECT_NEAR(leg_minutes(model, flat, true, 4, 0.5), 30, 1e-9);
  }
}

// Search and schedule agree on even ground: uphill exactly; Naismith downhill within the smoothing.
TEST(TimeModel, LocalFormAgreesWithTheLegWhereTheSlopeIsEven) {
  for (const auto model : {TimeModel::naismith_langmuir, TimeModel::tobler, TimeModel::swiss,
                           TimeModel::din_33466, TimeModel::irmischer_clarke}) {
    for (const double slope : {-0.3, -0.05, 0.02, 0.15, 0.3}) {
      const auto even =
          terrain::profile_of({{0, 500}, {100, 500 + 100 * slope}, {200, 500 + 200 * slope}});
      const double tolerance_s = model == TimeModel::naismith_langmuir && slope < -0.2 ? 22 : 1e-6;
      EXPECT_NEAR(200 * pace_s_per_m(model, slope, true, 5, 1),
                  60 * leg_minutes(model, even, true, 5, 1), tolerance_s)
          << static_cast<int>(model) << " " << slope;
    }
  }
}

TEST(TimeModel, LocalFormHasNoJumps) {
  for (const auto model : {TimeModel::naismith_langmuir, TimeModel::tobler, TimeModel::din_33466}) {
    for (double s = -1; s < 1; s += 0.001) {
      EXPECT_NEAR(pace_s_per_m(model, s, true, 5, 1), pace_s_per_m(model, s + 0.001, true, 5, 1),
                  0.01 + 0.005 * pace_s_per_m(model, s, true, 5, 1));
    }
  }
}

TEST(TimeModel, DescentsArePartedBySteepness) {
  // 100 m at 8 degrees down, 100 m at 20 degrees down, 100 m at 2 degrees down.
  const double a = 100 * std::tan(0.139626340159546), b = 100 * std::tan(0.349065850398866),
               c = 100 * std::tan(0.034906585);
  const auto s = stretches_of(
      terrain::profile_of({{0, 500}, {100, 500 - a}, {200, 500 - a - b}, {300, 500 - a - b - c}}));
  EXPECT_NEAR(s.down_moderate_m, a, 1e-9);
  EXPECT_NEAR(s.down_steep_m, b, 1e-9);
  EXPECT_NEAR(s.down_m, a + b + c, 1e-9);
}

}  // namespace
}  // namespace lodeway::walking
