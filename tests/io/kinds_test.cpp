// Kinds: the built-in table is whole; the tags of OpenStreetMap as its wiki documents them;
// strictness.
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/io/kinds/kind_rules.hpp"
#include "support/support.hpp"

namespace {

using namespace lodeway;
using io::Tag;
using mapdata::Kind;
using Scratch = support::TemporaryFolder;

io::Meaning meaning(std::vector<Tag> tags) { return io::built_in_rules().meaning(tags); }

TEST(Kinds, every_kind_is_filled_and_worse_sight_never_shows_more) {
  const auto& table = io::built_in_rules().table();
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const auto& t = table[static_cast<Kind>(k)];
    SCOPED_TRACE(mapdata::kind_name(static_cast<Kind>(k)));
    EXPECT_GT(t.seen_from_m[0], 0);
    EXPECT_GT(t.speed_factor, 0);
    EXPECT_LE(t.speed_factor, 1);
    for (std::size_t v = 1; v < 4; ++v) {
      EXPECT_LE(t.seen_from_m[v], t.seen_from_m[0]);
      EXPECT_LE(t.recognised[v], t.recognised[0]);
    }
    EXPECT_FALSE(t.leads && t.forbids);
  }
  EXPECT_TRUE(table[Kind::cliff].forbids && table[Kind::lake].forbids && table[Kind::sea].forbids);
}

// Key:highway, Key:natural ... as documented in the OpenStreetMap wiki.
TEST(Kinds, tags_of_openstreetmap) {
  EXPECT_EQ(meaning({{"highway", "path"}}).line, Kind::path);
  EXPECT_EQ(meaning({{"highway", "path"}, {"trail_visibility", "horrible"}}).line,
            Kind::faint_path);
  EXPECT_EQ(meaning({{"highway", "track"}, {"trail_visibility", "bad"}}).line, Kind::track);
  EXPECT_EQ(meaning({{"highway", "trunk_link"}}).line, Kind::road);
  // Where nobody may walk: it is no road to be led along.
  for (const char* closed : {"motorway", "motorway_link"})
    EXPECT_EQ(meaning({{"highway", closed}}).line, Kind::forbidden) << closed;
  EXPECT_EQ(meaning({{"highway", "trunk"}, {"motorroad", "yes"}}).line, Kind::forbidden);
  EXPECT_EQ(meaning({{"highway", "primary"}, {"foot", "no"}}).line, Kind::forbidden);
  EXPECT_EQ(meaning({{"label", "interstate"}}).line, Kind::forbidden);
  EXPECT_EQ(meaning({{"label", "primary highway, hard surface"}}).line, Kind::road);
  EXPECT_EQ(meaning({{"highway", "proposed"}}).line, std::nullopt);
  EXPECT_EQ(meaning({{"waterway", "stream"}, {"name", "gill"}}).line, Kind::stream);
  EXPECT_EQ(meaning({{"natural", "water"}}).area, Kind::lake);
  EXPECT_EQ(meaning({{"natural", "water"}, {"intermittent", "yes"}}).area, std::nullopt);
  EXPECT_EQ(meaning({{"natural", "coastline"}}).line, Kind::shore);
  EXPECT_EQ(meaning({{"natural", "peak"}, {"ele", "2001"}}).point, Kind::summit);
  EXPECT_EQ(meaning({{"ele", "2001"}}).point, Kind::spot_height);
  EXPECT_EQ(meaning({{"ele", "2001"}, {"amenity", "restaurant"}}).point, std::nullopt);
  EXPECT_EQ(meaning({{"building", "yes"}}).centre, Kind::building);
  EXPECT_EQ(meaning({{"building", "no"}}).centre, std::nullopt);
  EXPECT_EQ(meaning({{"building", "yes"}, {"tourism", "alpine_hut"}}).centre, Kind::hut);
  // natural=cliff: "the cliff's lower side on the right of the way's direction"
  const auto cliff = meaning({{"natural", "cliff"}});
  EXPECT_EQ(cliff.line, Kind::cliff);
  EXPECT_EQ(cliff.falls, mapdata::Side::right);
  // one closed way, two things: a hedge round a meadow
  const auto both = meaning({{"barrier", "hedge"}, {"landuse", "meadow"}});
  EXPECT_EQ(both.line, Kind::hedge);
  EXPECT_EQ(both.area, Kind::grass);
}

// Classes as the OpenStreetMap wiki's key pages and the survey's road labels have them.
TEST(Kinds, how_busy_a_road_is) {
  using mapdata::Traffic;
  const auto traffic = [](std::vector<Tag> tags) {
    const auto m = meaning(std::move(tags));
    EXPECT_EQ(m.line, Kind::road);
    return m.traffic;
  };
  for (const char* fast : {"trunk", "trunk_link"})
    EXPECT_EQ(traffic({{"highway", fast}}), Traffic::fast) << fast;
  EXPECT_EQ(traffic({{"highway", "secondary"}, {"dual_carriageway", "yes"}}), Traffic::fast);
  for (const char* busy : {"primary", "secondary", "tertiary_link"})
    EXPECT_EQ(traffic({{"highway", busy}}), Traffic::busy) << busy;
  for (const char* quiet : {"unclassified", "residential", "living_street", "service"})
    EXPECT_EQ(traffic({{"highway", quiet}}), Traffic::quiet) << quiet;
  EXPECT_EQ(traffic({{"highway", "road"}}), Traffic::unknown);
  EXPECT_EQ(traffic({{"label", "primary highway, hard surface"}}), Traffic::busy);
  EXPECT_EQ(traffic({{"label", "light-duty road, improved surface"}}), Traffic::quiet);
  EXPECT_EQ(traffic({{"label", "road"}}), Traffic::unknown);
  EXPECT_EQ(traffic({{"fclass", "trunk"}}), Traffic::fast);
  EXPECT_EQ(traffic({{"@layer", "roads"}}), Traffic::unknown);
  EXPECT_EQ(meaning({{"highway", "track"}}).traffic, Traffic::unknown);
}

TEST(Kinds, attributes_of_agencies) {
  EXPECT_EQ(meaning({{"label", "unimproved road"}, {"@layer", "roads"}}).line, Kind::track);
  EXPECT_EQ(meaning({{"label", "light-duty road, improved surface"}}).line, Kind::road);
  EXPECT_EQ(meaning({{"@layer", "streams"}, {"cat", "3"}}).line, Kind::stream);
  EXPECT_EQ(meaning({{"@layer", "us-topo-topo_20-125-wood_area"}}).area, Kind::wood);
  EXPECT_EQ(meaning({{"@layer", "us-topo-topo_20-84-sheepshelter"}}).point, Kind::sheepfold);
  EXPECT_EQ(meaning({{"@layer", "fo_lakes"}}).area, Kind::lake);
  // class fields go before the layer's name: a layer of roads holds paths, one of water marshes
  EXPECT_EQ(meaning({{"@layer", "gis_roads"}, {"fclass", "path"}}).line, Kind::path);
  EXPECT_EQ(meaning({{"@layer", "gis_roads"}, {"fclass", "track_grade3"}}).line, Kind::track);
  EXPECT_EQ(meaning({{"@layer", "gis_water"}, {"fclass", "wetland"}}).area, Kind::marsh);
  EXPECT_EQ(meaning({{"class", "footpath, marked"}}).line, Kind::path);
  EXPECT_EQ(meaning({{"featuretype", "dry stone wall"}}).line, Kind::wall);
  EXPECT_EQ(meaning({{"class", "mountain hut"}}).centre, Kind::hut);
  EXPECT_EQ(meaning({{"class", "a"}, {"@layer", "roads"}}).line, Kind::road);
  EXPECT_EQ(meaning({{"class", "administrative boundary"}}).line, std::nullopt);
}

TEST(Kinds, tunnels_bridges_names_heights) {
  const auto& rules = io::built_in_rules();
  EXPECT_TRUE(rules.in_tunnel(std::vector<Tag>{{"tunnel", "yes"}}));
  // Key:tunnel=culvert: short, under a road or the like: the stream is followed across it
  EXPECT_FALSE(rules.in_tunnel(std::vector<Tag>{{"tunnel", "culvert"}}));
  EXPECT_FALSE(rules.in_tunnel(std::vector<Tag>{{"tunnel", "no"}}));
  EXPECT_TRUE(rules.on_bridge(std::vector<Tag>{{"bridge", "viaduct"}}));
  EXPECT_FALSE(rules.on_bridge(std::vector<Tag>{{"bridge", "no"}}));
  EXPECT_EQ(rules.name_tag(std::vector<Tag>{{"ele", "3"}, {"name", "x"}}), 1U);
  EXPECT_EQ(rules.name_tag(std::vector<Tag>{{"nam", "unk"}}), std::nullopt);
  const auto height = [&](std::string_view text) {
    return rules.height_m(std::vector<Tag>{{"ele", text}});
  };
  EXPECT_EQ(height("1203"), 1203);
  EXPECT_EQ(height("1203.5 m"), 1203.5);
  EXPECT_NEAR(height("1000 ft"), 304.8, 1e-9);  // 1 ft = 0.3048 m
  EXPECT_TRUE(std::isnan(height("about 1200")));
  EXPECT_TRUE(std::isnan(height("1200;1300")));
}

TEST(Kinds, a_users_file_goes_first) {
  const Scratch scratch;
  const auto rules = io::read_kind_rules(scratch.write("k.toml", R"(
[kind.wall]
seen_m = [60, 30, 10, 40]
[[map]]
when = ["fixme_class=SPOOR"]
line = "faint_path"
[[map]]
when = ["highway=track"]
line = "path"
)"));
  ASSERT_TRUE(rules) << rules.error().what;
  EXPECT_EQ(rules->table()[Kind::wall].seen_from_m[0], 60);
  EXPECT_TRUE(rules->table()[Kind::wall].leads) << "what the file does not say stays";
  EXPECT_EQ(rules->meaning(std::vector<Tag>{{"fixme_class", "spoor"}}).line, Kind::faint_path);
  EXPECT_EQ(rules->meaning(std::vector<Tag>{{"highway", "track"}}).line, Kind::path);
  EXPECT_EQ(rules->meaning(std::vector<Tag>{{"highway", "path"}}).line, Kind::path);
}

TEST(Kinds, a_wrong_file_is_refused_with_its_line) {
  const Scratch scratch;
  const auto refused = [&](const std::string& text, const std::string& part) {
    const auto rules = io::read_kind_rules(scratch.write("k.toml", text));
    ASSERT_FALSE(rules) << text;
    EXPECT_NE(rules.error().what.find(part), std::string::npos) << rules.error().what;
  };
  refused("[kind.wall]\nleads = true\ncolour = 3",
          "k.toml:3: kind.wall.colour: this key is not known");
  refused("[kind]\nwalls = { leads = true }", "k.toml:2: kind.walls: this key is not known");
  refused("[kind.wall]\nspeed = 1.5",
          "k.toml:2: kind.wall.speed: expected a number from 0.01 to 1");
  refused("[kind.wall]\nknown = [1, 1, 1]",
          "k.toml:2: kind.wall.known: expected a list of 4 numbers");
  refused("[[map]]\nwhen = [\"a=b\"]\nline = \"lake\"",
          "k.toml:3: map[1].line: expected a kind from path");
  refused("[[map]]\nwhen = [\"a=b\"]\narea = \"pond\"", "got \"pond\"");
  refused("[[map]]\nwhen = [\"a=b\"]\nline = \"road\"\ntraffic = \"slow\"",
          "k.toml:4: map[1].traffic: expected");
  refused("[[map]]\nwhen = [\"a=b\"]\nline = \"path\"\ntraffic = \"busy\"",
          "k.toml:4: map[1].traffic: expected");
  refused("[[map]]\nwhen = [\"!a\"]\nline = \"path\"", "k.toml:2: map[1].when: expected");
  refused("[[map]]\nwhen = [\"a=\"]\nline = \"path\"",
          "k.toml:2: map[1].when: expected conditions");
  refused("[[map]]\nwhen = [\"a\"]", "either ignore = true or one of");
  refused("[[map]\n", "k.toml:1: not valid TOML");
  const auto none = io::read_kind_rules(scratch / "none.toml");
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, FaultCode::io_failed);
}

}  // namespace
