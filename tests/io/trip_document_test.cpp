// A trip as a JSON document: the same keys, the same reader, the same refusals as the trip file.
#include <gtest/gtest.h>

#include "lodeway/io/trip/trip_document.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/walking/choice.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;

const earth::GridArea& grid() {
  static const earth::GridArea made{*earth::MapGrid::from_text("EPSG:32629")};
  return made;
}

std::string example() {
  return support::read_text(support::tests_folder() + "/../examples/skarrow-round.toml");
}

std::string what(const std::string& json) {
  const auto trip = io::trip_of_document(json, grid());
  return trip ? "no fault" : trip.error().what;
}

TEST(TripDocument, SaysWhatTheTripFileSays) {
  const auto document = io::document_of_trip_file(example());
  ASSERT_TRUE(document) << document.error().what;
  const auto from_document = io::trip_of_document(*document, grid());
  ASSERT_TRUE(from_document) << from_document.error().what;
  const support::TemporaryFolder scratch;
  const auto from_file = io::read_trip(scratch.write("a.toml", example()), grid());
  ASSERT_TRUE(from_file) << from_file.error().what;
  const auto file_again = io::trip_file_of_document(*document, "skarrow.gpkg");
  ASSERT_TRUE(file_again) << file_again.error().what;
  const auto path = scratch.write("b.toml", *file_again);
  const auto from_file_again = io::read_trip(path, grid());
  ASSERT_TRUE(from_file_again) << from_file_again.error().what;
  EXPECT_EQ(*io::ground_of_trip(path), scratch / "skarrow.gpkg");
  for (const auto* trip : {&*from_document, &*from_file_again}) {
    EXPECT_EQ(trip->name, "Skarrow round");
    EXPECT_EQ(trip->date, from_file->date);
    EXPECT_EQ(trip->start, from_file->start);
    EXPECT_EQ(trip->members, from_file->members);
    EXPECT_EQ(trip->request.party.instrument, walking::Instrument::mirror);
    ASSERT_EQ(trip->request.points.size(), from_file->request.points.size());
    for (std::size_t i = 0; i < trip->request.points.size(); ++i) {
      EXPECT_EQ(trip->request.points[i].name, from_file->request.points[i].name);
      EXPECT_EQ(trip->request.points[i].at, from_file->request.points[i].at);
      EXPECT_EQ(trip->request.points[i].stay_min, from_file->request.points[i].stay_min);
    }
  }
}

TEST(TripDocument, PicksAWayByItsName) {
  const support::TemporaryFolder scratch;
  const auto picked = [&](const std::string& word) {
    const auto path = scratch.write("trip.toml", "pick = \"" + word + "\"\n" + example());
    const auto trip = io::read_trip(path, grid());
    return trip ? std::string(walking::choice_name(trip->request.choice))
                : trip.error().what.substr(scratch.path().size() + 1);
  };
  for (const char* name : {"quick", "middle", "sure"}) EXPECT_EQ(picked(name), name);
  EXPECT_EQ(picked("fast"), "trip.toml:1: pick: expected quick, middle or sure, got 'fast'");
  // a trip file of version 0.1
  EXPECT_EQ(picked("balanced"),
            "trip.toml:1: pick: the way called 'balanced' before is now called 'middle': expected "
            "quick, middle or sure");
  EXPECT_NE(picked("quickest").find("now called 'quick'"), std::string::npos);
  EXPECT_NE(picked("surest").find("now called 'sure'"), std::string::npos);
}

// A leader knows a place by its name: the one thing of the map that is called so, or a clear no.
TEST(TripDocument, TakesAPlaceByItsName) {
  const support::TemporaryFolder scratch;
  const io::Called called = [](const std::string& name) -> Result<std::vector<earth::GridPoint>> {
    if (name == "Harrik Pike") return std::vector<earth::GridPoint>{{483'055, 6'053'075}};
    if (name == "Tarn House") return std::vector<earth::GridPoint>{{1, 2}, {3, 4}};
    return std::vector<earth::GridPoint>{};
  };
  const auto read = [&](const std::string& at, const io::Called& by) {
    const auto path = scratch.write("trip.toml",
                                    "date = 2026-11-14\nstart = \"09:15\"\n"
                                    "[[point]]\nat = \"481949 6050540\"\n"
                                    "[[point]]\nat = \"" +
                                        at + "\"\n");
    return io::read_trip(path, grid(), by);
  };
  const auto named = read("Harrik Pike", called);
  ASSERT_TRUE(named) << named.error().what;
  EXPECT_EQ(named->request.points[1].at, (earth::GridPoint{483'055, 6'053'075}));
  EXPECT_EQ(named->request.points[1].name, "Harrik Pike");
  EXPECT_EQ(read("483055 6053075", called)->request.points[1].name, "");
  const auto refused = [&](const std::string& at) {
    return read(at, called).error().what.substr(scratch.path().size() + 1);
  };
  EXPECT_EQ(refused("Tarn House"),
            "trip.toml:6: point[2].at: expected one place, \"Tarn House\" is the name of 2; give a "
            "grid reference");
  EXPECT_EQ(
      refused("Harrick Pike"),
      "trip.toml:6: point[2].at: expected a grid reference or the name of a thing on the map, "
      "as it stands there; got \"Harrick Pike\"");
  EXPECT_FALSE(read("Harrik Pike", {}));
}

TEST(TripDocument, NamesTheKeyAndWhatIsExpected) {
  const std::string head = R"({"date": "2026-11-14", "start": "09:15", )";
  EXPECT_EQ(what(R"({"date": "2026-11-14"})"), R"(start: expected a time of day like "09:15")");
  EXPECT_EQ(what(head + R"("party": {"size": 0}})"),
            "party.size: expected a whole number from 1 to 50");
  EXPECT_EQ(what(head + R"("party": {"size": 2.5}})"),
            "party.size: expected a whole number from 1 to 50");
  EXPECT_EQ(what(head + R"("party": {"errors": {"distance_sigma": 9}}})"),
            "party.errors.distance_sigma: expected a number from 0.001 to 1");
  EXPECT_TRUE(what(head + R"("point": [{"at": "481949 6050540"}, {"at": "nowhere"}]})")
                  .starts_with("point[2].at: place \"nowhere\": expected "));
  EXPECT_TRUE(what(head + R"("point": []})").starts_with("point: expected at least two"));
}

// What the TOML parser does with a letter beyond ASCII where it looks for blanks is not defined.
TEST(TripDocument, LettersBeyondAsciiStandInQuotesOnly) {
  const std::string rest = "date = 2026-07-01\nstart = \"09:00\"\n";
  const auto carried_on =
      io::document_of_trip_file("name = \"\"\"\\\n  Øster\\\n  ålen \"\"\"\n" + rest);
  ASSERT_TRUE(carried_on) << carried_on.error().what;
  EXPECT_NE(carried_on->find("Østerålen "), std::string::npos) << *carried_on;
  for (const std::string text : {"næme = 1\n", "næ", "[ø]\n", "date = 2026-07-01 ø\n",
                                 "name = \"\"\"\\ø\"\"\"\n", "[{a]\n", "[[[a]]]\n", "[\n",
                                 "name = \"\"\"\\\n\xC3\"\"\"\n", "name = \"\"\"a \\  ø\"\"\"\n"}) {
    const auto refused = io::document_of_trip_file(text + rest);
    ASSERT_FALSE(refused) << text;
    EXPECT_NE(refused.error().what.find("not valid TOML: "), std::string::npos)
        << refused.error().what;
  }
}

// Nor what it does where quotes begin beside a key or value, and where a list ends with a brace. Quotes may
// stand before the three that end a text, and in keys with dots.
TEST(TripDocument, QuotesAndBracketsStandWhereTheParserLooksForThem) {
  const std::string rest = "date = 2026-07-01\nstart = \"09:00\"\n";
  for (const std::string good : {"name = \"\"\"a \"hut\"\"\"\"\n", "name = ''''a''''\n", "name = '' # ' {\n",
                                 "\"party\" . 'size' = 4\n", "party = { \"size\" = 4 }\n",
                                 "# a 1-2 3 4\n"}) {
    const auto read = io::document_of_trip_file(good + rest);
    EXPECT_TRUE(read) << good << read.error().what;
  }
  for (const std::string bad : {"name = +''''\n", "name = a\"b\"\n", "name = 'a''b'\n", "a = [1, }\n",
                                "a = { b = [1, 2}\n", "a = {b = 1]\n", "a = [2026-02-28 0]\n",
                                "a = 2_026-02-28 9\n", "a = [0.\"ä\" 0]\n", "a = -1.x.'ä'\n", "a = 2187-07-0{ 1\n"}) {
    const auto refused = io::document_of_trip_file(bad + rest);
    ASSERT_FALSE(refused) << bad;
    EXPECT_TRUE(refused.error().what.starts_with("line 1: not valid TOML: expected "))
        << refused.error().what;
  }
}

TEST(TripDocument, NamesNoFilesAndHoldsOnlyValues) {
  const std::string head = R"({"date": "2026-11-14", "start": "09:15", )";
  EXPECT_TRUE(what(head + R"("gpx": "/etc/passwd"})").starts_with("gpx: this key is not known"));
  EXPECT_TRUE(
      what(head + R"("ground": "/etc/passwd"})").starts_with("ground: this key is not known"));
  EXPECT_EQ(what(head + R"("name": null})"), "name: expected a value, or the key left out");
  EXPECT_EQ(what("[1]"), "expected a JSON object");
  EXPECT_EQ(what("{\"a\":"), "expected a JSON object");
  EXPECT_EQ(what(std::string(2U << 20U, ' ')), "expected at most 1 MiB");
  std::string deep = "{\"a\":";
  for (int i = 0; i < 5000; ++i) deep += "[";
  for (int i = 0; i < 5000; ++i) deep += "]";
  EXPECT_NE(what(deep + "}").find("expected JSON with at most"), std::string::npos);
  EXPECT_FALSE(io::document_of_trip_file("gpx = \"a.gpx\""));
  EXPECT_EQ(io::document_of_trip_file("a = = 1").error().what.substr(0, 7), "line 1:");
}

// In snow the limit of slope is lower unless the leader gives one.
TEST(TripDocument, SnowLowersTheLimitOfSlope) {
  const auto limit = [](const std::string& party) {
    const auto trip =
        io::trip_of_document(R"({"date":"2026-02-14","start":"09:00","party":{)" + party +
                                 R"(},"point":[{"at":"481000 6050000"},{"at":"482000 6050000"}]})",
                             grid());
    EXPECT_TRUE(trip) << (trip ? "" : trip.error().what);
    return trip ? trip->request.party.max_slope_deg : 0;
  };
  EXPECT_EQ(limit(R"("visibility":"snow")"), 30);
  EXPECT_EQ(limit(R"("visibility":"snow","max_slope_deg":35)"), 35);
  EXPECT_EQ(limit(R"("visibility":"cloud")"), 35);
}

}  // namespace
