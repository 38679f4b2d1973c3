#include "lodeway/walking/energy.hpp"

#include <gtest/gtest.h>

namespace lodeway::walking {
namespace {

// Pandolf et al. 1977 and Santee et al. 2001/2003 worked from the published formulas
// (rows W, L, eta, V, G): half of the last digit printed there.
TEST(Energy, PandolfWithSanteesCorrection) {
  const double rows[][6] = {{70, 0, 1, 1.34, 0, 293.54},    {70, 15, 1, 1.34, 0, 341.75},
                            {70, 15, 1.2, 1.34, 5, 626.72}, {70, 15, 2.1, 1.0, 0, 380.56},
                            {80, 20, 1, 1.2, 10, 768.50},   {70, 15, 1, 1.34, -5, 283.14},
                            {70, 15, 1, 1.34, -10, 264.75}, {70, 15, 1, 1.34, -20, 410.10}};
  for (const auto& [w, l, eta, v, g, watts] : rows) {
    EXPECT_NEAR(pandolf_w(w, l, eta, v, g), watts, 0.0051) << l << " " << g;
  }
}

// Looney et al. 2019: the first three are worked values printed by a reader of the paper
// (ironhiker.blogspot.com, 2021-12), the others computed in NumPy from the formula
// (computed apart from this code).
TEST(Energy, Looney) {
  const double printed[][3] = {{0.4768426667, 13.24968434, 5.002098962},
                               {0.89408, 15.15151515, 8.04202677},
                               {0.54395076, -11.83712121, 2.305600338}};
  for (const auto& [s, g, w] : printed) EXPECT_NEAR(looney_w_per_kg(s, g), w, 1e-5);
  const double computed[][3] = {{0, 0, 1.44},       {0.5, 0, 2.89499},  {1, 0, 3.62},
                                {1.34, 0, 4.41398}, {1, 10, 6.94828},   {1, -10, 2.41878},
                                {1, -40, 4.00085},  {1.34, 5, 6.45666}, {1.34, -5, 3.19295}};
  for (const auto& [s, g, w] : computed)
    EXPECT_NEAR(looney_w_per_kg(s, g), w, 6e-6) << s << " " << g;
  // Cheapest at -10.568 % at every speed.
  EXPECT_LT(looney_w_per_kg(1, -10.568), looney_w_per_kg(1, -10.5));
  EXPECT_LT(looney_w_per_kg(1, -10.568), looney_w_per_kg(1, -10.64));
}

// Minetti et al. 2002, the published polynomial computed in SciPy, J/(kg m).
TEST(Energy, Minetti) {
  const double rows[][2] = {{-0.45, 3.605}, {-0.40, 3.504}, {-0.20, 1.087}, {-0.10, 1.127},
                            {0, 2.500},     {0.10, 4.899},  {0.30, 11.184}, {0.45, 17.600}};
  for (const auto& [i, j] : rows) EXPECT_NEAR(minetti_j_per_kg_m(i), j, 0.00051) << i;
  EXPECT_NEAR(minetti_j_per_kg_m(-0.15253), 0.9355, 5e-5);
  EXPECT_EQ(minetti_j_per_kg_m(0.8), minetti_j_per_kg_m(0.45));
}

// By hand: 3.6 km level in an hour is 1 m/s: 3.62 W/kg for 3600 s and 80 kg are 1042.56 kJ.
TEST(Energy, LevelLegByHand) {
  const auto level = terrain::profile_of({{0, 100}, {1000, 100}, {3600, 100}});
  EXPECT_NEAR(leg_kj(level, 60, 80), 1042.56, 0.01);
  const auto up = terrain::profile_of({{0, 100}, {3600, 460}});
  EXPECT_NEAR(leg_kj(up, 60, 80), 6.94828 * 80 * 3.6, 0.01);
  EXPECT_EQ(leg_kj(up, 0, 80), 0);
}

}  // namespace
}  // namespace lodeway::walking
