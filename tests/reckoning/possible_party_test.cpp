// Certainty over what is not known of a party, beside the mean over drawn parties.
#include "lodeway/reckoning/judge/possible_party.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "lodeway/numeric/logit.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/judge/teller.hpp"
#include "knowing.hpp"
#include "made_ground.hpp"

namespace lodeway::reckoning {
namespace {

TEST(PossibleParties, HaveTheMeansAndSpreadsOfTheDoubt) {
  const walking::Doubt doubt{0.35, 0.2, 1};
  double all = 0, mean = 0, bearing = 0, distance = 0, chance = 0, third = 0;
  for (const auto& p : possible_parties(doubt)) {
    const double b = std::log(p.bearing), d = std::log(p.distance);
    all += p.weight;
    mean += p.weight * (b + d + p.chance_shift);
    bearing += p.weight * b * b;
    distance += p.weight * d * d;
    chance += p.weight * p.chance_shift * p.chance_shift;
    third += p.weight * (b * b * b + b * d + b * p.chance_shift + d * p.chance_shift);
  }
  EXPECT_NEAR(all, 1, 1e-12);
  EXPECT_NEAR(mean, 0, 1e-12);
  EXPECT_NEAR(bearing, 0.35 * 0.35, 1e-12);
  EXPECT_NEAR(distance, 0.2 * 0.2, 1e-12);
  EXPECT_NEAR(chance, 1, 1e-12);
  EXPECT_NEAR(third, 0, 1e-12);
}

TEST(PossibleParties, ArePartiesOfOneWhereAllIsKnown) {
  const auto one = possible_parties({0, 0, 0});
  ASSERT_EQ(one.size(), 1U);
  EXPECT_EQ(one[0].bearing, 1);
  EXPECT_EQ(one[0].chance_shift, 0);
  EXPECT_EQ(one[0].weight, 1);
}

/// A hut 800 m east, seen from 60 m and known by 90 of 100; another 700 m south of it.
walking::Ground with_huts() {
  auto g = made::ground();
  made::add_point(g, made::Kind::hut, {800, 0});
  made::add_point(g, made::Kind::hut, {800, -700});
  g.kinds[made::Kind::hut].seen_from_m = {60, 60, 60, 60};
  g.kinds[made::Kind::hut].recognised = {0.9, 0.9, 0.9, 0.9};
  return g;
}

const walking::Way two_legs{
    "", {made::bearing_leg({0, 0}, {800, 0}), made::bearing_leg({800, 0}, {800, -700})}};

double kept_by(const walking::Ground& ground, const walking::Party& party) {
  const Judge judge(ground, made::knowing(ground, party), Forbidden(ground.elevation.frame(), 0), 0);
  return Teller(judge).judged(two_legs).certainty;
}
double averaged_for(const walking::Ground& ground, const walking::Party& party) {
  return Judge(ground, made::knowing(ground, party), Forbidden(ground.elevation.frame(), 0), 0)
      .averaged_certainty(two_legs);
}

// 2000 drawn parties, each with its own table of errors and kinds, judged as one that is known. The
// mean of so many is within 0.01 (three standard errors); the few stand for them within 0.015.
TEST(PossibleParties, AverageAsDrawnPartiesDo) {
  walking::Party party;
  party.doubt = {0.35, 0.35, 1};
  numeric::Random random(6);
  const auto table = errors_of(party);
  constexpr double degree = 0.017453292519943295;
  double mean = 0, square = 0;
  constexpr int draws = 2000;
  const auto ground = with_huts();
  for (int i = 0; i < draws; ++i) {
    const double b = std::exp(0.35 * random.normal()), d = std::exp(0.35 * random.normal());
    auto mine = party;
    mine.errors.bearing_sigma_deg = table.bearing_sigma / degree * b;
    mine.errors.sighting_sigma_deg = table.sighting_sigma / degree * b;
    // the step-by-step part is small beside the leg's own here: 0.3 m by the root of 800 m
    mine.errors.distance_sigma =
        d * std::hypot(table.distance_sigma, table.distance_random / std::sqrt(750.0));
    auto as_they_know = ground;
    const double known = numeric::from_logit(numeric::logit(0.9) + random.normal());
    as_they_know.kinds[mapdata::Kind::hut].recognised = {known, known, known, known};
    // below this a mark is not relied on, which is a matter of the card and not of the party
    const double kept = known < 0.35 ? 0.1 : kept_by(as_they_know, mine);
    mean += kept / draws;
    square += kept * kept / draws;
  }
  const double error = std::sqrt((square - mean * mean) / draws);
  const double averaged = averaged_for(ground, party), as_known = kept_by(ground, party);
  EXPECT_NEAR(averaged, mean, 3 * error + 0.015);
  EXPECT_GT(as_known, averaged + 0.02);  // a table read as certain flatters
  RecordProperty("as_known_percent", static_cast<int>(std::lround(100 * as_known)));
  RecordProperty("averaged_percent", static_cast<int>(std::lround(100 * averaged)));
  RecordProperty("drawn_percent", static_cast<int>(std::lround(100 * mean)));
}

TEST(PossibleParties, WhatIsKnownIsNotAveraged) {
  walking::Party party;
  party.doubt = {0, 0, 0};
  const auto ground = with_huts();
  EXPECT_NEAR(averaged_for(ground, party), kept_by(ground, party), 1e-12);
}

TEST(PossibleParties, LessDoubtIsNearerToTheFiguresTakenAsKnown) {
  const auto ground = with_huts();
  walking::Party party;
  double before = kept_by(ground, party);
  for (const double sd : {0.2, 0.5, 1.0}) {
    party.doubt = {0.35 * sd, 0.35 * sd, sd};
    const double now = averaged_for(ground, party);
    EXPECT_LT(now, before) << sd;
    before = now;
  }
}

}  // namespace
}  // namespace lodeway::reckoning
