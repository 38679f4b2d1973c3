// A figure that the leader refuses stays at the table, and its counts stay in the file.
#include <gtest/gtest.h>

#include "lodeway/io/party/party_file.hpp"
#include "lodeway/learn/figures/party_figures.hpp"
#include "lodeway/reckoning/defaults.hpp"

namespace lodeway::learn {
namespace {
using std::chrono::day, std::chrono::month, std::chrono::year, std::chrono::year_month_day;
constexpr year_month_day today{year{2026}, month{11}, day{29}};

Measured counted(Exercise exercise, mapdata::Kind kind, double trials, double missed) {
  Measured m;
  m.date = today;
  m.exercise = exercise;
  m.kind = kind;
  m.training = false;
  m.trials = trials;
  m.missed = missed;
  return m;
}

/// Bearings that go right, ends of two kinds, double paces, and two slow hours of walking.
PartyRecord record() {
  PartyRecord out;
  Measured pegs;
  pegs.date = today;
  pegs.exercise = Exercise::bearing;
  pegs.training = false;
  pegs.leg_m = 400;
  pegs.across_m = {40, 25, 31, 44};
  pegs.along_m = {60, 20, -10, 45};
  Measured paces;
  paces.date = today;
  paces.exercise = Exercise::pacing;
  paces.double_paces = {74, 76};
  WalkedDay walk;
  walk.date = today;
  walk.digest = "0123456789abcdef";
  walk.moving_min = 130;
  walk.standing_min = 60;
  walk.stops = 3;
  for (int i = 0; i < 12; ++i)
    walk.pieces.push_back({500, 20, 10, i % 2 == 0 ? 11.0 : 14.0, 0.07, {8, 7, 8, 9, 7}});
  EXPECT_TRUE(add(out, pegs));
  EXPECT_TRUE(add(out, paces));
  EXPECT_TRUE(add(out, counted(Exercise::features, mapdata::Kind::stream, 20, 12)));
  EXPECT_TRUE(add(out, counted(Exercise::features, mapdata::Kind::cairn, 20, 1)));
  EXPECT_TRUE(add(out, walk));
  return out;
}

Basis basis() {
  Basis b;
  b.today = today;
  mapdata::KindChange stream;
  stream.kind = mapdata::Kind::stream;
  stream.recognised = {0.9, 0.8, 0.7, 0.5};
  b.kinds.take(stream);
  return b;
}
walking::Party party_of(const PartyRecord& record, const walking::Party& set = {}) {
  return learnt_party(set, figures_of(record, basis()), basis());
}

TEST(Refused, NamesAreThoseOfTheFiguresThatWereMeasured) {
  std::vector<std::string> names;
  for (const auto& f : figures_of(record(), basis()).measured()) names.push_back(figure_id(f));
  EXPECT_EQ(names, (std::vector<std::string>{"bearing", "distance", "compass", "stride",
                                             "paces.level", "know.stream", "know.cairn", "know"}));
  for (const auto& name : names) EXPECT_TRUE(names_a_figure(name)) << name;
  for (const char* name : {"minutes", "leg", "rests", "paces.up", "losses.path"})
    EXPECT_TRUE(names_a_figure(name)) << name;
  for (const char* name : {"", "bearing_sigma", "know.", "know.unicorn", "paces.stream", ".know"})
    EXPECT_FALSE(names_a_figure(name)) << name;
}

TEST(Refused, AFigureStaysAtTheTableAndTheOthersAreAsTheyWere) {
  auto with = record();
  const auto before = party_of(with);
  const auto table = reckoning::errors_of({});
  with.refused = {"compass"};
  const auto after = party_of(with);
  EXPECT_GT(reckoning::errors_of(before).compass_sigma, 1.5 * table.compass_sigma);
  EXPECT_EQ(reckoning::errors_of(after).compass_sigma, table.compass_sigma);
  EXPECT_EQ(after.errors.bearing_sigma_deg, before.errors.bearing_sigma_deg);
  EXPECT_EQ(after.errors.stride_sigma, before.errors.stride_sigma);
  EXPECT_EQ(after.stride_m, before.stride_m);
  const auto figures = figures_of(with, basis());
  EXPECT_EQ(figures.find(Quantity::compass), nullptr);
  ASSERT_EQ(figures.left.size(), 1U);
  EXPECT_EQ(figures.left[0].quantity, Quantity::compass);
  EXPECT_EQ(figures.left[0].trials, 4);
}

// All refused: the party is the one that nothing was ever measured of.
TEST(Refused, AllOfThemLeaveThePartyAsItWasSet) {
  auto none = record();
  for (const auto& f : figures_of(none, basis()).measured()) none.refused.push_back(figure_id(f));
  for (const auto id : {minutes_id, leg_id, rests_id}) none.refused.emplace_back(id);
  const walking::Party set;
  const auto p = party_of(none, set);
  EXPECT_EQ(p.errors.bearing_sigma_deg, set.errors.bearing_sigma_deg);
  EXPECT_EQ(p.errors.distance_sigma, set.errors.distance_sigma);
  EXPECT_EQ(p.stride_m, set.stride_m);
  EXPECT_EQ(p.rest_min, set.rest_min);
  EXPECT_EQ(p.doubt.chance_logit_sd, set.doubt.chance_logit_sd);
  const auto bands = walking::bands_of(p), table = walking::bands_of(set);
  EXPECT_EQ(bands.centre, table.centre);
  EXPECT_EQ(bands.shared, table.shared);
  EXPECT_EQ(bands.leg, table.leg);
  const auto figures = figures_of(none, basis());
  EXPECT_TRUE(learnt_kinds(figures, basis()).empty());
  EXPECT_TRUE(learnt_chances(figures, basis()).chances.empty());
}

TEST(Refused, PartsOfThePaceAreRefusedOneByOne) {
  auto with = record();
  const auto all = *party_of(with).bands;
  const auto table = walking::bands_of({});
  EXPECT_GT(all.centre, 1.1 * table.centre);
  with.refused = {"minutes"};
  const auto legs_only = *party_of(with).bands;
  EXPECT_EQ(legs_only.centre, table.centre);
  EXPECT_EQ(legs_only.shared, table.shared);
  EXPECT_EQ(legs_only.leg, all.leg);
  with.refused = {"leg"};
  const auto minutes_only = *party_of(with).bands;
  EXPECT_EQ(minutes_only.centre, all.centre);
  EXPECT_EQ(minutes_only.leg, table.leg);
  with.refused = {"rests"};
  EXPECT_EQ(party_of(with).rest_min, walking::Party{}.rest_min);
  EXPECT_NE(party_of(record()).rest_min, walking::Party{}.rest_min);
}

// One kind refused: it moves as other kinds do, by half of what all ends showed.
TEST(Refused, AKindThatIsRefusedFollowsWhatAllKindsShowed) {
  auto with = record();
  const auto known = [&](mapdata::Kind kind) {
    for (const auto& change : learnt_kinds(figures_of(with, basis()), basis())) {
      if (change.kind == kind) return (*change.recognised)[0];
    }
    return -1.0;
  };
  const double own = known(mapdata::Kind::stream);
  with.refused = {"know.stream"};
  const double by_all = known(mapdata::Kind::stream);
  EXPECT_GT(by_all, own + 0.05);  // 12 of 20 streams missed, 13 of 40 of all ends
  EXPECT_LT(by_all, 0.9);
}

// A band that the trip itself states is the leader's word.
TEST(Refused, ATimeBandThatTheTripStatesStays) {
  walking::Party set;
  set.time_band = 0.3;
  const auto bands = walking::bands_of(party_of(record(), set));
  EXPECT_EQ(bands.centre, 1);
  EXPECT_EQ(bands.shared, 0.3);
}

TEST(Refused, ThePartyFileKeepsWhatIsRefusedBesideItsCounts) {
  auto with = record();
  with.refused = {"know.stream", "minutes"};
  const auto text = io::party_file_text(with);
  EXPECT_NE(text.find("refused = [\"know.stream\", \"minutes\"]"), std::string::npos) << text;
  const auto again = io::party_of_text(text, "p.toml");
  ASSERT_TRUE(again) << again.error().what;
  EXPECT_EQ(again->refused, with.refused);
  EXPECT_EQ(again->measured.size(), with.measured.size());
  EXPECT_EQ(io::party_file_text(*again), text);
  const auto wrong = io::party_of_text("version = 1\nrefused = [\"know.unicorn\"]\n", "p.toml");
  ASSERT_FALSE(wrong);
  EXPECT_NE(wrong.error().what.find("p.toml:2: refused: expected names of figures"),
            std::string::npos)
      << wrong.error().what;
}

}  // namespace
}  // namespace lodeway::learn
