#include "lodeway/sight/likelihood.hpp"

#include <gtest/gtest.h>

#include "lodeway/sight/information.hpp"
#include "sight/made_ground.hpp"

namespace lodeway::sight {
namespace {
using mapdata::Kind;
using mapdata::Visibility;
using units::GridBearing;
using walking::Skill;

Report like(Cue cue, Kind kind = Kind::other, bool direction = false) {
  Report r;
  r.cue = cue;
  r.kind = kind;
  r.has_direction = direction;
  return r;
}

class Likelihood : public ::testing::Test {
 protected:
  CuePlanes planes = made::planes_of(made::ground());
  Perception robust = perception_of(Skill::practised);
  double of(earth::GridPoint p, const Report& r) const {
    const auto cell = planes.cell(p);
    return likelihood(planes, facts_at(planes, *cell, r, robust, Visibility::clear), r, robust,
                      Visibility::clear);
  }
};

// Everything that can be told at a place has a probability of 1 together.
TEST_F(Likelihood, AnswersSumToOne) {
  for (const earth::GridPoint p : {earth::GridPoint{made::west + 1500, made::south + 1170},
                                   earth::GridPoint{made::west + 1010, made::south + 2500},
                                   earth::GridPoint{made::west + 3000, made::south + 628}}) {
    double sum = 0;
    Report r = like(Cue::height);
    // nonsense heights reach 60 m beyond the ground's own on both sides
    for (double z = planes.lowest_m - 200; z < planes.highest_m + 200; z += 1) {
      r.value = z;
      const double in = of(p, r) - (z < planes.lowest_m - 30 || z > planes.highest_m + 30
                                        ? robust.mix / (planes.highest_m - planes.lowest_m + 60)
                                        : 0);
      sum += in;
    }
    EXPECT_NEAR(sum, 1, 0.01);
    sum = 0;
    r = like(Cue::fall, Kind::other, true);
    for (int d = 0; d < 360; ++d) {
      r.direction = GridBearing::degrees(d);
      sum += of(p, r);
    }
    r.level = true;
    r.has_direction = false;
    EXPECT_NEAR(sum + of(p, r), 1, 1e-3);
    sum = 0;
    r = like(Cue::steepness);
    for (double s = 0.05; s < 60; s += 0.1) {
      r.value = s;
      sum += 0.1 * of(p, r);
    }
    EXPECT_NEAR(sum, 1, 1e-3);
    sum = 0;
    r = like(Cue::landform);
    for (int k = 1; k < form_count; ++k) {
      r.form = static_cast<Form>(k);
      sum += of(p, r);
    }
    EXPECT_NEAR(sum, 1, 1e-9);
    for (const Cue cue : {Cue::on_line, Cue::beside_line}) {
      for (const Kind kind : {Kind::path, Kind::wall, Kind::river}) {
        sum = 0;
        r = like(cue, kind, true);
        const int turn = cue == Cue::on_line ? 180 : 360;
        for (int d = 0; d < turn; ++d) {
          r.direction = GridBearing::degrees(d);
          sum += of(p, r);
        }
        r.seen = false;
        r.has_direction = false;
        EXPECT_NEAR(sum + of(p, r), 1, 2e-3);
        r.seen = true;
        EXPECT_NEAR(sum, of(p, r), 2e-3);  // without a direction it is the sum over all of them
      }
    }
    r = like(Cue::sees_thing, Kind::other, true);
    for (std::size_t t = 0; t < planes.things.size(); ++t) {
      sum = 0;
      r.thing = static_cast<std::int32_t>(t);
      r.seen = r.has_direction = true;
      for (double d = 0; d < 360; d += 0.5) {
        r.direction = GridBearing::degrees(d);
        sum += 0.5 * of(p, r);
      }
      r.seen = r.has_direction = false;
      EXPECT_NEAR(sum + of(p, r), 1, 2e-3);
    }
  }
}

// Figures by hand, docs/method/seen.md: height 640 told where the map has 617.3, sigma
// hypot(1.15 x 15, 4) = 17.708 m: normal density 0.009907 a metre.
TEST(LikelihoodByHand, Height) {
  auto planes = made::planes_of(made::ground());
  Facts facts;
  facts.height_m = 617.3;
  Report r = like(Cue::height);
  r.value = 640;
  Perception p = perception_of(Skill::practised);
  p.mix = 0;
  EXPECT_NEAR(likelihood(planes, facts, r, p, Visibility::clear), 0.009907, 1e-6);
}

// A table's answer is the formula's.
TEST_F(Likelihood, ScorerAgreesWithTheFormula) {
  numeric::Random random(3);
  numeric::Serial serial;
  const std::int32_t top = 0;
  look_from(planes, {&top, 1}, serial);
  std::vector<Report> kinds{like(Cue::height),
                            like(Cue::fall, Kind::other, true),
                            like(Cue::steepness),
                            like(Cue::landform),
                            like(Cue::on_line, Kind::path, true),
                            like(Cue::beside_line, Kind::wall, true),
                            like(Cue::in_wood),
                            like(Cue::at_point, Kind::summit),
                            like(Cue::sees_thing, Kind::other, true),
                            like(Cue::sees_kind, Kind::summit, true),
                            like(Cue::on_line, Kind::river)};
  kinds[8].thing = 0;
  for (const Report& ask : kinds) {
    for (int k = 0; k < 40; ++k) {
      const earth::GridPoint from{made::west + made::side * random.uniform(),
                                  made::south + made::side * random.uniform()};
      const auto told = perceive(planes, from, ask, robust, Visibility::clear, random);
      ASSERT_TRUE(told);
      const Scorer scorer(planes, *told, robust, Visibility::clear);
      for (int j = 0; j < 40; ++j) {
        const earth::GridPoint at{made::west + made::side * random.uniform(),
                                  made::south + made::side * random.uniform()};
        const auto cell = planes.cell(at);
        ASSERT_TRUE(cell);
        ASSERT_NEAR(static_cast<double>(scorer.at(*cell)),
                    log_likelihood(planes, at, *told, robust, Visibility::clear), 1e-4)
            << static_cast<int>(ask.cue);
        float sum = 1;
        std::vector<float> log_p(planes.frame.size(), 0.0F);
        if (j == 0) {
          scorer.add(*cell, *cell + 1, log_p.data(), -1);
          sum = log_p[*cell];
          EXPECT_EQ(sum, scorer.at(*cell));
        }
      }
    }
  }
}

// What is drawn is what is likely: shares of drawn answers against the model's own sums.
TEST_F(Likelihood, DrawnTellingsFollowTheModel) {
  numeric::Random random(11);
  const earth::GridPoint p{made::west + 1500, made::south + 1180};
  const auto cell = planes.cell(p);
  const int n = 20000;
  const Report ask = like(Cue::fall, Kind::other, true);
  const Facts f = facts_at(planes, *cell, ask, robust, Visibility::clear);
  int within = 0, level = 0;
  for (int k = 0; k < n; ++k) {
    const auto r = perceive(planes, p, ask, robust, Visibility::clear, random);
    level += r->level;
    if (!r->level)
      within += std::abs(std::remainder(r->direction.in_degrees() - f.fall_deg, 360)) < 20;
  }
  double expected = 0;
  Report r = ask;
  for (double d = -19.95; d < 20; d += 0.1) {
    r.direction = GridBearing::degrees(f.fall_deg + d);
    expected += 0.1 * likelihood(planes, f, r, robust, Visibility::clear);
  }
  EXPECT_NEAR(static_cast<double>(within) / n, expected, 4 * std::sqrt(0.25 / n));
  r.level = true;
  EXPECT_NEAR(static_cast<double>(level) / n, likelihood(planes, f, r, robust, Visibility::clear),
              4 * std::sqrt(0.25 / n));
  int on = 0;
  const Report line = like(Cue::on_line, Kind::path);
  const earth::GridPoint beside{made::west + 2000, made::south + 1510};
  const auto at = planes.cell(beside);
  for (int k = 0; k < n; ++k)
    on += perceive(planes, beside, line, robust, Visibility::clear, random)->seen;
  EXPECT_NEAR(static_cast<double>(on) / n,
              likelihood(planes, facts_at(planes, *at, line, robust, Visibility::clear), line,
                         robust, Visibility::clear),
              4 * std::sqrt(0.25 / n));
}

TEST_F(Likelihood, NotSeenIsWeakAndNeverFatal) {
  Report r = like(Cue::on_line, Kind::path);
  r.seen = false;
  const earth::GridPoint on{made::west + 2000, made::south + 1500};
  const double there = log_likelihood(planes, on, r, robust, Visibility::clear);
  EXPECT_GT(there, std::log(0.03));
  EXPECT_LT(there, std::log(0.2));
  const double away =
      log_likelihood(planes, {on.east_m, on.north_m + 500}, r, robust, Visibility::clear);
  EXPECT_GT(away, std::log(0.9));
}

TEST_F(Likelihood, FlatGroundIsAnAnswer) {
  Report level = like(Cue::fall);
  level.level = true;
  Facts flat, steep;
  flat.slope_deg = 1;
  steep.slope_deg = 20;
  EXPECT_GT(likelihood(planes, flat, level, robust, Visibility::clear),
            10 * likelihood(planes, steep, level, robust, Visibility::clear));
}

TEST_F(Likelihood, OutsideAndVoidsHaveNone) {
  EXPECT_EQ(log_likelihood(planes, {made::west - 5, made::south}, like(Cue::height), robust,
                           Visibility::clear),
            -std::numeric_limits<double>::infinity());
  numeric::Random random(1);
  EXPECT_FALSE(perceive(planes, {made::west - 5, made::south}, like(Cue::height), robust,
                        Visibility::clear, random));
}

// To the east the ground rises evenly, so only height tells anything there:
// J_xx = 0.12^2 / (20^2 + 4^2) with nothing climbed; heights are kept to 0.25 m.
TEST_F(Likelihood, InformationOnASlopeIsTheGradients) {
  const earth::GridPoint p{made::west + 2500, made::south + 400 * 2.5 * std::numbers::pi + 15};
  Look look;
  look.since_look_m = 150;
  const auto cell = planes.cell(p);
  ASSERT_TRUE(cell);
  const auto j = information(planes, p, look, robust, Visibility::cloud);
  const double sigma2 = 400 + 16;
  EXPECT_NEAR(j.xx, 0.12 * 0.12 / sigma2, 0.08 * 0.12 * 0.12 / sigma2);
  EXPECT_GE(j.xx * j.yy - j.xy * j.xy, -1e-12);
  // twice as often, each look counts half
  Look often = look;
  often.since_look_m = 75;
  const auto half = information(planes, p, often, robust, Visibility::cloud);
  EXPECT_NEAR(half.xx, j.xx / 2, 1e-9);
  EXPECT_NEAR(half.yy, j.yy / 2, 1e-9);
}

TEST(Information, UpdateByHand) {
  // P = diag(1600, 100), J = diag(1/400, 0): 1 / (1/1600 + 1/400) = 320
  const auto p = informed({1600, 0, 100}, {1.0 / 400, 0, 0});
  EXPECT_NEAR(p.xx, 320, 1e-9);
  EXPECT_NEAR(p.yy, 100, 1e-9);
  EXPECT_NEAR(p.xy, 0, 1e-12);
}
}  // namespace
}  // namespace lodeway::sight
