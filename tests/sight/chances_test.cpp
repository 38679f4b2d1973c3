#include "lodeway/sight/chances.hpp"

#include <gtest/gtest.h>

namespace lodeway::sight {
namespace {
using mapdata::Kind;
using mapdata::Visibility;
using walking::Skill;

template <class Use>
void for_all(Use&& use) {
  for (int c = 0; c < chance_count; ++c) {
    for (int k = 0; k < kind_class_count; ++k) {
      for (int v = 0; v < mapdata::visibility_count; ++v) {
        for (const Skill s : {Skill::novice, Skill::practised, Skill::expert})
          use(static_cast<ChanceOf>(c), static_cast<KindClass>(k), static_cast<Visibility>(v), s);
      }
    }
  }
}

TEST(Chances, EveryFigureHasItsRange) {
  const Chances chances;
  for_all([&](ChanceOf c, KindClass k, Visibility v, Skill s) {
    const Figure f = chances.of(c, k, v, s);
    EXPECT_GT(f.low, 0);
    EXPECT_LE(f.low, f.value);
    EXPECT_LE(f.value, f.high);
    EXPECT_LT(f.high, 1);
    EXPECT_EQ(f.rests, Rests::practice);
  });
  for (int k = 0; k < setting_count; ++k) {
    for (const Skill s : {Skill::novice, Skill::practised, Skill::expert}) {
      const Figure f = chances.of(static_cast<Setting>(k), s);
      EXPECT_LT(f.low, f.value);
      EXPECT_LT(f.value, f.high);
    }
  }
}

TEST(Chances, SkillAndAirOrderThem) {
  const Chances c;
  for_all([&](ChanceOf of, KindClass k, Visibility v, Skill) {
    EXPECT_LT(c.of(of, k, v, Skill::novice).value, c.of(of, k, v, Skill::practised).value);
    EXPECT_LT(c.of(of, k, v, Skill::practised).value, c.of(of, k, v, Skill::expert).value);
    if (v == Visibility::cloud) {
      EXPECT_LE(c.of(of, k, v, Skill::novice).value,
                c.of(of, k, Visibility::clear, Skill::novice).value);
      EXPECT_GE(c.of(of, k, v, Skill::novice).value,
                c.of(of, k, Visibility::night, Skill::novice).value);
    }
  });
  EXPECT_LT(c.of(Setting::gross_error, Skill::expert).value,
            c.of(Setting::gross_error, Skill::novice).value);
}

// By hand: a practised party keeps a path in cloud over a kilometre 98 times in 100, so over 2.5 km
// 0.98^2.5 = 0.9507; a novice's odds of losing it are 2.5 times those: 1 / (1 + 2.5 x 2 / 98).
TEST(Chances, ByHand) {
  const Chances c;
  EXPECT_NEAR(c.stay_over(2500, Kind::path, Visibility::cloud, Skill::practised), 0.9507, 5e-5);
  EXPECT_NEAR(c.of(ChanceOf::stay, Kind::path, Visibility::cloud, Skill::novice).value, 0.9515,
              5e-5);
  EXPECT_EQ(c.stay_over(0, Kind::path, Visibility::cloud, Skill::novice), 1);
  // looks 0.96 of the time and then is right 0.97, else guesses: 0.96 x 0.97 + 0.04 x 0.5
  EXPECT_NEAR(c.right_branch(Kind::path, Visibility::cloud, Skill::practised), 0.9512, 1e-9);
}

TEST(Chances, AnyFigureCanBeChanged) {
  Changes changes;
  changes.chances.push_back({ChanceOf::notice, KindClass::path, {0.5, 0.4, 0.3, 0.2}});
  changes.settings.push_back({Setting::search_at_end, 0.1});
  const Chances c(changes);
  EXPECT_NEAR(c.of(ChanceOf::notice, Kind::path, Visibility::night, Skill::expert).value, 0.3,
              1e-12);
  EXPECT_NEAR(c.of(Setting::search_at_end, Skill::novice).value, 0.1, 1e-12);
  EXPECT_EQ(c.of(ChanceOf::notice, Kind::wall, Visibility::night, Skill::expert).value,
            Chances().of(ChanceOf::notice, Kind::wall, Visibility::night, Skill::expert).value);
}

TEST(Chances, TheBandOfAThirdOff) {
  const Chances c, low = c.with_failing(4.0 / 3), high = c.with_failing(3.0 / 4);
  for_all([&](ChanceOf of, KindClass k, Visibility v, Skill s) {
    const double f = 1 - c.of(of, k, v, s).value;
    EXPECT_NEAR(1 - low.of(of, k, v, s).value, std::min(1.0, f * 4 / 3), 1e-12);
    EXPECT_NEAR(1 - high.of(of, k, v, s).value, f * 3 / 4, 1e-12);
  });
  EXPECT_NEAR(low.of(Setting::gross_error, Skill::novice).value, 0.08, 1e-12);
}

TEST(Chances, NamesGoBothWays) {
  for (int k = 0; k < kind_class_count; ++k) {
    const auto c = static_cast<KindClass>(k);
    EXPECT_EQ(class_from_name(class_name(c)), c);
  }
  EXPECT_FALSE(class_from_name("road"));
  EXPECT_EQ(class_of(Kind::junction), KindClass::mark);
}
}  // namespace
}  // namespace lodeway::sight
