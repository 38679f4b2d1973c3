#include "lodeway/io/trip/trip_file.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <utility>

#include <fmt/format.h>

#include "lodeway/io/gpx/gpx.hpp"
#include "lodeway/io/kinds/detail/kind_changes.hpp"
#include "lodeway/io/toml/detail/parse_toml.hpp"
#include "lodeway/io/trip/detail/trip_table.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/units/plain_text.hpp"
#include "lodeway/walking/choice.hpp"

namespace lodeway::io {

namespace {

constexpr std::uintmax_t most_bytes = 1U << 20U;
constexpr std::size_t most_shown = 60;
constexpr std::size_t most_corners = 2000;
const std::vector<std::string_view> stretches{"find", "along", "bearing"};

/// `set(target, reader.number(...))`: absent keys leave the default in place.
template <class T, class U>
void set(T& target, const std::optional<U>& value) {
  if (value) target = static_cast<T>(*value);
}

/// Where a reference lies on the ground, or the one thing of the map that is called so.
struct Places {
  const earth::GridArea& ground;
  const Called& called;

  struct Found {
    earth::GridPoint at;
    bool by_name = false;
  };
  Found of(TomlReader& reader, std::string_view key, const std::string& text) const {
    const auto at = earth::place_on_ground(text, ground);
    if (at) return {*at};
    if (called && at.error().code == FaultCode::bad_input) {
      const auto named = called(text);
      if (!named) reader.refuse_for(key, named.error().what);
      if (named->size() == 1) return {on_ground(reader, key, named->front()), true};
      if (named->size() > 1)
        reader.refuse_for(key, fmt::format("expected one place, \"{}\" is the name of {}; give a "
                                           "grid reference",
                                           units::plain(text, most_shown), named->size()));
    }
    if (called && std::ranges::none_of(text, [](unsigned char c) { return std::isdigit(c) != 0; }))
      reader.refuse_for(key, fmt::format("expected a grid reference or the name of a thing on the "
                                         "map, as it stands there; got \"{}\"",
                                         units::plain(text, most_shown)));
    reader.refuse_for(key, at.error().what);
  }
  earth::GridPoint on_ground(TomlReader& reader, std::string_view key, earth::GridPoint at) const {
    if (const auto inside = earth::on_ground(at, ground); !inside)
      reader.refuse_for(key, inside.error().what);
    return at;
  }
};

/// `folder`: where the party file is looked for; null: a document, which may name no files.
walking::Party read_party(TomlReader t, const std::string* folder, trip::Trip& trip) {
  walking::Party party;
  if (folder != nullptr) {
    if (const auto file = t.text("file"))
      trip.party_file = (std::filesystem::path(*folder) / *file).string();
    set(trip.compass_holder, t.text("compass"));
  }
  set(party.size, t.whole("size", 1, 50));
  set(party.flat_speed_kmh, t.number("flat_speed_kmh", 0.5, 10));
  set(party.stride_m, t.number("stride_m", 0.3, 1.5));
  set(party.load_kg, t.number("load_kg", 0, 60));
  set(party.model, t.choice("time_model", {"naismith-langmuir", "tobler", "swiss", "din-33466",
                                           "irmischer-clarke"}));
  set(party.rest_every_min, t.number("rest_every_min", 0, 600));
  set(party.rest_min, t.number("rest_min", 0, 120));
  set(party.instrument, t.choice("instrument", {"baseplate", "mirror"}));
  set(party.skill, t.choice("skill", {"novice", "practised", "expert"}));
  set(party.visibility, t.choice("visibility", {"clear", "cloud", "night", "snow"}));
  if (party.visibility == mapdata::Visibility::snow) party.max_slope_deg = trip::snow_max_slope_deg;
  set(party.max_slope_deg, t.number("max_slope_deg", 5, 60));
  set(party.max_leg_m, t.number("max_leg_m", 100, 10000));
  set(party.ford_streams, t.flag("ford_streams"));
  set(party.time_band, t.number("time_band", 0, 1));
  if (auto errors = t.table("errors")) {
    set(party.errors.bearing_sigma_deg, errors->number("bearing_sigma_deg", 0.01, 45));
    set(party.errors.sighting_sigma_deg, errors->number("sighting_sigma_deg", 0.01, 45));
    set(party.errors.sighting_every_m, errors->number("sighting_every_m", 1, 5000));
    set(party.errors.distance_sigma, errors->number("distance_sigma", 0.001, 1));
    set(party.errors.compass_sigma_deg, errors->number("compass_sigma_deg", 0.01, 45));
    set(party.errors.stride_sigma, errors->number("stride_sigma", 0.001, 1));
    errors->finish();
  }
  return t.finish(), party;
}

void read_home(TomlReader t, trip::Trip& trip) {
  set(trip.at_home.name, t.text("contact"));
  set(trip.at_home.phone, t.text("phone"));
  set(trip.leader.name, t.text("leader"));
  set(trip.leader.phone, t.text("leader_phone"));
  set(trip.emergency_number, t.text("emergency_number"));
  set(trip.signals, t.choice("signals", {"alpine", "north america"}));
  set(trip.transport, t.text("transport"));
  set(trip.gear, t.text("gear"));
  set(trip.medical, t.text("medical"));
  set(trip.clothing, t.text("clothing"));
  set(trip.beacon, t.text("beacon"));
  set(trip.experience, t.text("experience"));
  set(trip.check_in, t.text("check_in"));
  trip.members = t.texts("members", 50);
  t.finish();
}

void read_paper(TomlReader t, trip::Trip& trip) {
  set(trip.map_scale, t.number("scale", 1000, 1000000));
  set(trip.paper, t.choice("size", {"A5", "A4", "A3", "Letter"}));
  set(trip.landscape, t.flag("landscape"));
  set(trip.shade, t.choice("shade", {"relief", "slope", "none"}));
  set(trip.half_contours, t.flag("half_contours"));
  set(trip.language, t.choice("language", {"en", "de"}));
  set(trip.lengths, t.choice("units", {"metric", "imperial"}));
  set(trip.angles, t.choice("angle", {"degrees", "mils"}));
  t.finish();
}

void read_points(TomlReader& t, const Places& places, walking::Request& request) {
  for (auto& p : t.tables("point")) {
    walking::Waypoint point;
    set(point.name, p.text("name"));
    const auto at = p.text("at");
    if (!at) p.refuse("at", "a place, like \"481800 6050400\", a grid reference or a name");
    const auto found = places.of(p, "at", *at);
    point.at = found.at;
    if (found.by_name && point.name.empty()) point.name = *at;
    set(point.stretch, p.choice("get_here", stretches));
    set(point.stay_min, p.number("stay_min", 0, 1440));
    set(point.safe, p.flag("safe"));
    p.finish();
    request.points.push_back(std::move(point));
  }
}

void read_gpx_points(TomlReader& t, const std::string& folder, const earth::GridArea& ground,
                     walking::Request& request) {
  const auto gpx = t.text("gpx");
  const auto stretch = t.choice("gpx_stretch", stretches);
  if (!gpx) return;
  if (!request.points.empty()) t.refuse("gpx", "either gpx or [[point]] tables, not both");
  const auto route = read_gpx((std::filesystem::path(folder) / *gpx).string());
  if (!route) throw Refusal{route.error().what};
  for (const auto& mark : *route) {
    const auto at = ground.grid.to_grid(mark.at);
    if (!at) t.refuse_for("gpx", at.error().what);
    if (const auto inside = earth::on_ground(*at, ground); !inside)
      t.refuse_for("gpx", fmt::format("\"{}\": {}", mark.name, inside.error().what));
    request.points.push_back(
        {mark.name, *at, static_cast<walking::Stretch>(stretch.value_or(2)), 0.0});
  }
}

/// Nothing lies within such a ring, so it would be walked through without a word.
bool in_a_line(const std::vector<earth::GridPoint>& ring) {
  double spread_m2 = 0;
  for (std::size_t i = 2; i < ring.size(); ++i)
    spread_m2 += std::abs(mapdata::cross(ring[i - 1] - ring[0], ring[i] - ring[0]));
  return spread_m2 < 1;
}

void read_avoid(TomlReader& t, const earth::GridArea& ground, walking::Request& request) {
  for (auto& a : t.tables("avoid")) {
    walking::AvoidArea area;
    set(area.name, a.text("name"));
    for (const auto& corner : a.texts("ring", most_corners)) {
      const auto at = earth::place_about_ground(corner, ground);
      if (!at) a.refuse_for("ring", at.error().what);
      area.ring.push_back(*at);
    }
    if (area.ring.size() < 3 || in_a_line(area.ring))
      a.refuse("ring", "at least three places, with ground between them");
    a.finish();
    request.avoid.push_back(std::move(area));
  }
}

void read_safe(TomlReader& t, const Places& places, walking::Request& request) {
  for (auto& s : t.tables("safe")) {
    const auto name = s.text("name"), at = s.text("at");
    if (!name) s.refuse("name", "what the place is called");
    if (!at) s.refuse("at", "a place, like \"481800 6050400\", a grid reference or a name");
    request.safe.push_back({*name, places.of(s, "at", *at).at});
    s.finish();
  }
}

std::chrono::year_month_day read_date(TomlReader& t) {
  const auto d = t.date("date");
  const std::chrono::year_month_day day{std::chrono::year{d ? d->year : 0},
                                        std::chrono::month{static_cast<unsigned>(d ? d->month : 0)},
                                        std::chrono::day{static_cast<unsigned>(d ? d->day : 0)}};
  if (!d || !day.ok()) t.refuse("date", "a day of the calendar, like 2026-11-14");
  return day;
}

}  // namespace

sight::Changes read_chances(TomlReader t) {
  sight::Changes out;
  for (int k = 0; k < sight::setting_count; ++k) {
    const auto setting = static_cast<sight::Setting>(k);
    if (const auto value = t.number(sight::setting_name(setting), 0, 1))
      out.settings.push_back({setting, *value});
  }
  for (int k = 0; k < sight::chance_count; ++k) {
    const auto chance = static_cast<sight::ChanceOf>(k);
    auto of = t.table(sight::chance_name(chance));
    if (!of) continue;
    for (int c = 0; c < sight::kind_class_count; ++c) {
      const auto kind = static_cast<sight::KindClass>(c);
      const auto four = of->numbers(sight::class_name(kind), mapdata::visibility_count, 0, 1);
      if (!four) continue;
      sight::ChanceChange change{chance, kind, {}};
      std::ranges::copy(*four, change.value.begin());
      out.chances.push_back(change);
    }
    of->finish();
  }
  t.finish();
  return out;
}

namespace {

Result<std::string> slurp(const std::string& path) {
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  if (error) return fail(FaultCode::io_failed, path + ": expected a trip file that can be read");
  if (size > most_bytes) return fail(FaultCode::too_large, path + ": expected at most 1 MiB");
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) return fail(FaultCode::io_failed, path + ": could not be read");
  return text.str();
}

/// Parses the file and hands its top table to `use`; every throw becomes a Fault here.
template <class T, class Use>
Result<T> with_table(const std::string& path, Use&& use) {
  const auto text = slurp(path);
  if (!text) return std::unexpected(text.error());
  try {
    const toml::table table = parse_toml(*text, path);
    return use(TomlReader(table, path, ""));
  } catch (const Refusal& refusal) {
    return fail(FaultCode::bad_input, refusal.what);
  }
}

}  // namespace

Result<std::string> ground_of_trip(const std::string& path) {
  return with_table<std::string>(path, [&](TomlReader t) -> std::string {
    const auto ground = t.text("ground");
    if (!ground) t.refuse("ground", "the name of a ground file");
    return (std::filesystem::path(path).parent_path() / *ground).string();
  });
}

trip::Trip read_trip_table(TomlReader t, const std::string* folder, const earth::GridArea& ground,
                           const Called& called) {
  const Places places{ground, called};
  trip::Trip trip;
  if (folder != nullptr) (void)t.text("ground");
  set(trip.name, t.text("name"));
  trip.date = read_date(t);
  const auto start = t.clock("start");
  if (!start) t.refuse("start", "a time of day like \"09:15\"");
  trip.start = std::chrono::minutes{*start};
  set(trip.zone, t.text("zone"));
  if (auto party = t.table("party"))
    trip.request.party = read_party(*std::move(party), folder, trip);
  auto& stated = trip.request.party.chances;
  if (auto chances = t.table("chances")) stated = read_chances(*std::move(chances));
  if (auto kinds = t.table("kind")) {
    trip.kinds = read_kind_changes(*kinds);
    for (const auto& change : trip.kinds) {  // one kind's word goes before its class's
      if (!change.recognised) continue;
      for (const auto of : {sight::ChanceOf::know, sight::ChanceOf::notice})
        stated.kinds.push_back({of, change.kind, *change.recognised});
    }
  }
  if (auto home = t.table("home")) read_home(*std::move(home), trip);
  if (auto paper = t.table("paper")) read_paper(*std::move(paper), trip);
  set(trip.min_certainty, t.number("min_certainty", 0, 1));
  set(trip.most_keep_off, t.number("most_keep_off", 0, 1));
  set(trip.least_kept, t.number("least_kept", 0, 1));
  set(trip.light_margin_min, t.number("light_margin_min", 0, 600));
  read_points(t, places, trip.request);
  if (folder != nullptr) read_gpx_points(t, *folder, ground, trip.request);
  read_avoid(t, ground, trip.request);
  read_safe(t, places, trip.request);
  if (const auto word = t.text("pick")) {
    const auto choice = walking::choice_of(*word);
    if (!choice) t.refuse_for("pick", choice.error().what);
    trip.request.choice = *choice;
  }
  t.finish();
  if (trip.request.points.size() < 2)
    t.refuse("point", "at least two [[point]] tables, start and end");
  return trip;
}

Result<trip::Trip> read_trip(const std::string& path, const earth::GridArea& ground,
                             const Called& called) {
  const auto folder = std::filesystem::path(path).parent_path().string();
  return with_table<trip::Trip>(
      path, [&](TomlReader t) { return read_trip_table(std::move(t), &folder, ground, called); });
}

}  // namespace lodeway::io
