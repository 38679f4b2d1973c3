#include "lodeway/trip/options.hpp"

#include <numbers>

#include <fmt/format.h>

#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::trip {

namespace {

struct Range {
  double least, most, step;
};

Option base(std::string key, std::string group, std::string words, std::string changes,
            OptionType type) {
  Option out;
  out.key = std::move(key);
  out.group = std::move(group);
  out.words = std::move(words);
  out.changes = std::move(changes);
  out.type = type;
  return out;
}

Option figure(Option out, std::string unit, Range range, std::optional<double> standard) {
  out.unit = std::move(unit);
  out.least = range.least;
  out.most = range.most;
  out.step = range.step;
  if (standard) {
    out.standard = *standard;
    out.standard_words = fmt::format("{:.6g}{}{}", *standard,
                                     out.unit.empty() || out.unit == "°" ? "" : " ", out.unit);
  }
  return out;
}

Option party(const char* key, const char* words, const char* changes, const char* unit, Range range,
             double standard, OptionType type = OptionType::number) {
  return figure(base(std::string("party.") + key, "party", words, changes, type), unit, range,
                standard);
}

Option choice(std::string key, std::string group, std::string words, std::string changes,
              std::vector<OptionChoice> choices, std::size_t standard) {
  Option out = base(std::move(key), std::move(group), std::move(words), std::move(changes),
                    OptionType::choice);
  out.standard = choices[standard].value;
  out.standard_words = choices[standard].words;
  out.choices = std::move(choices);
  return out;
}

template <class E>
std::size_t at(E value) {
  return static_cast<std::size_t>(value);
}

void add_trip(std::vector<Option>& out) {
  const Trip t;
  out.push_back(
      base("name", "trip", "Name", "Stands on everything that is printed.", OptionType::text));
  out.push_back(base("date", "trip", "Day",
                     "Sets daylight and the declination of the magnetic bearings.",
                     OptionType::date));
  out.push_back(
      base("start", "trip", "Set out at", "Moves every clock time of the way.", OptionType::clock));
  auto zone = base("zone", "trip", "Time zone", "In which clock times are given: its IANA name.",
                   OptionType::text);
  zone.standard = zone.standard_words = t.zone;
  out.push_back(zone);
  out.push_back(figure(base("min_certainty", "trip", "Least certainty of a leg",
                            "A leg that is less sure is warned of, and avoided where it can be.",
                            OptionType::number),
                       "", {0, 1, 0.01}, t.min_certainty));
  out.push_back(figure(
      base("most_keep_off", "trip", "Most parties on ground to keep off",
           "On the whole way; with more the verdict is outside your limits.", OptionType::number),
      "", {0, 1, 0.01}, t.most_keep_off));
  out.push_back(figure(base("least_kept", "trip", "A leg that loses people",
                            "A leg kept by fewer is outside your limits.", OptionType::number),
                       "", {0, 1, 0.01}, t.least_kept));
  out.push_back(figure(base("light_margin_min", "trip", "Light left after a slow day",
                            "With less the verdict is close to your limits.", OptionType::number),
                       "min", {0, 600, 5}, t.light_margin_min));
  out.push_back(
      base("point.name", "point", "Name", "What the card calls the place.", OptionType::text));
  out.push_back(base("point.at", "point", "Place",
                     "Easting and northing of the ground's grid, MGRS, UTM, or latitude and "
                     "longitude.",
                     OptionType::text));
  out.push_back(choice("point.get_here", "point", "How the party gets here",
                       "Whether Lodeway looks for the way from the point before.",
                       {{"find", "Lodeway finds the way", "All the ways that this party can keep."},
                        {"along", "Along the line that joins them", "A path, beck or wall."},
                        {"bearing", "Straight on a bearing", "One leg, whatever lies between."}},
                       at(walking::Stretch::find)));
  out.push_back(figure(
      base("point.stay_min", "point", "Stay", "Time spent here by plan.", OptionType::number),
      "min", {0, 1440, 5}, walking::Waypoint{}.stay_min));
  auto safe = base("point.safe", "point", "Counts as safe ground",
                   "Of the start and the end: whether escape routes may lead there.",
                   OptionType::flag);
  safe.standard = walking::Waypoint{}.safe;
  safe.standard_words = "yes";
  out.push_back(safe);
}

void add_party(std::vector<Option>& out) {
  const walking::Party p;
  out.push_back(party("size", "How many walk", "Stands on the card and the home note.", "",
                      {1, 50, 1}, p.size, OptionType::whole));
  out.push_back(party("flat_speed_kmh", "Speed of the slowest on a good flat path",
                      "Used for all walking times.", "km/h", {0.5, 10, 0.5}, p.flat_speed_kmh));
  out.push_back(party("stride_m", "Length of one step",
                      "The double paces on the card: a double pace is two steps.", "m",
                      {0.3, 1.5, 0.05}, p.stride_m));
  out.push_back(party("load_kg", "Load each carries",
                      "Used for energy only. Enter your walking speed with this load on.", "kg",
                      {0, 60, 1}, p.load_kg));
  out.push_back(choice(
      "party.instrument", "party", "Compass", "How accurately bearings are taken.",
      {{"baseplate", "Baseplate", "Held at the chest."},
       {"mirror", "With sighting mirror", "Held at the eye: a smaller error of the bearing."}},
      at(p.instrument)));
  out.push_back(choice("party.skill", "party", "Practice with map and compass",
                       "How far wrong a bearing and a count of paces go.",
                       {{"novice", "Beginners", "Wider error, shorter legs."},
                        {"practised", "Practised", "Some days with map and compass a year."},
                        {"expert", "Expert", "Narrower error, longer legs."}},
                       at(p.skill)));
  out.push_back(
      choice("party.visibility", "party", "What can be seen",
             "From how far things are seen, how long a sighting is, what can be confused.",
             {{"clear", "Clear day", "Far things guide the party."},
              {"cloud", "In cloud", "Short sightings; things are met, not seen from afar."},
              {"night", "At night", "By the light of a lamp."},
              {"snow", "Snow cover", "Paths and streams are hidden."}},
             at(p.visibility)));
  out.push_back(party("max_slope_deg", "Steepest ground to walk on",
                      "Steeper ground is not entered, except on a path.", "°", {5, 60, 1},
                      p.max_slope_deg));
  out.push_back(party("max_leg_m", "Longest leg on a bearing",
                      "Shorter legs are surer and more work.", "m", {100, 10000, 100},
                      p.max_leg_m));
  auto ford =
      base("party.ford_streams", "party", "Streams may be forded",
           "Whether a stream may be crossed without a bridge; rivers never are.", OptionType::flag);
  ford.standard = p.ford_streams;
  ford.standard_words = p.ford_streams ? "yes" : "no";
  out.push_back(ford);
  out.push_back(party("rest_every_min", "Rest after walking", "Clock times; 0 for no rests.", "min",
                      {0, 600, 5}, p.rest_every_min));
  out.push_back(
      party("rest_min", "Length of a rest", "Clock times.", "min", {0, 120, 5}, p.rest_min));
  out.push_back(choice("party.time_model", "party", "How walking time is reckoned",
                       "How slopes change the speed; the flat speed is the party's own.",
                       {{"naismith-langmuir", "Naismith with Langmuir's corrections",
                         "Distance, climb and descent of each leg."},
                        {"tobler", "Tobler", "A curve over slope."},
                        {"swiss", "Swiss hiking time", "A polynomial over slope."},
                        {"din-33466", "DIN 33466", "The larger time, and half the smaller."},
                        {"irmischer-clarke", "Irmischer and Clarke", "Measured on and off paths."}},
                       at(p.model)));
  auto band = figure(base("party.time_band", "party", "How much times vary",
                          "The slow day, and with it the turn-round time: one sigma of the day's "
                          "time about the model's, as a share of it.",
                          OptionType::number),
                     "", {0, 1, 0.05}, std::nullopt);
  band.standard_words = "as recorded walks vary";
  out.push_back(std::move(band));
}

void add_errors(std::vector<Option>& out) {
  const auto e = reckoning::errors_of(walking::Party{});
  constexpr double deg = 180 / std::numbers::pi;
  const auto add = [&](const char* key, const char* words, const char* changes, const char* unit,
                       Range range, double standard) {
    auto one = figure(
        base(std::string("party.errors.") + key, "errors", words, changes, OptionType::number),
        unit, range, std::nullopt);
    one.standard_words = fmt::format(
        "from the table; {:.3g}{}{} for a practised party on a clear "
        "day",
        standard, *unit == '\0' || one.unit == "°" ? "" : " ", unit);
    out.push_back(std::move(one));
  };
  add("bearing_sigma_deg", "Error of a bearing, whole leg",
      "One sigma of how the bearing is set and held; measured by yourselves.", "°", {0.01, 45, 0.1},
      e.bearing_sigma * deg);
  add("sighting_sigma_deg", "Error of one sighting", "One sigma, new with each sighting.", "°",
      {0.01, 45, 0.1}, e.sighting_sigma * deg);
  add("sighting_every_m", "Length of a sighting", "How far ahead the mark is that is walked to.",
      "m", {1, 5000, 10}, e.sighting_every_m);
  add("distance_sigma", "Error of the count of paces",
      "One sigma, as a share of the distance, new with each leg.", "", {0.001, 1, 0.01},
      e.distance_sigma);
  add("compass_sigma_deg", "Error of the compass, all legs",
      "One sigma of what all legs share: needle, declination, habit. A triangle cannot show it.",
      "°", {0.01, 45, 0.1}, e.compass_sigma * deg);
  add("stride_sigma", "Error of the stride, all legs",
      "One sigma of what all legs share, as a share of the distance.", "", {0.001, 1, 0.01},
      e.stride_sigma);
}

void add_home(std::vector<Option>& out) {
  const auto add = [&](const char* key, const char* words, const char* changes,
                       OptionType type = OptionType::text) {
    out.push_back(base(std::string("home.") + key, "home", words, changes, type));
  };
  add("contact", "Who holds the home note", "Whom the party calls when it is back.");
  add("phone", "Their telephone", "Stands on the escape card.");
  add("leader", "Leader", "Stands on the home note.");
  add("leader_phone", "Leader's telephone", "The first number to be called.");
  add("members", "Members", "Names for those who may have to look.", OptionType::texts);
  add("emergency_number", "Emergency number", "The number used in that country; left blank, there is a gap to fill in.");
  out.push_back(choice("home.signals", "home", "Distress signal", "Which signal the card explains.",
                       {{"alpine", "Six a minute", "Answer: three a minute."},
                        {"north america", "Three", "Three of anything."}},
                       at(Trip{}.signals)));
  add("transport", "Transport", "Car, plate, where it stands: the first thing to look for.");
  add("gear", "Gear", "What helps the party to wait.");
  add("medical", "Medical", "What helpers should know.");
  add("clothing", "Clothing", "Colours, by which the party is known from afar.");
  add("beacon", "Beacon, radio, satellite telephone", "How helpers may reach or find the party.");
  add("experience", "Experience", "What helpers may expect the party to do.");
  add("check_in", "Check-in", "When and where the party will call; stands on the home note.");
}

void add_paper(std::vector<Option>& out) {
  const Trip t;
  out.push_back(
      figure(base("paper.scale", "paper", "Scale of the map sheets, 1 to",
                  "How many sheets there are and how much they show.", OptionType::number),
             "", {1000, 1000000, 5000}, t.map_scale));
  out.push_back(
      choice("paper.size", "paper", "Paper", "The size of the map sheets.",
             {{"A5", "A5", ""}, {"A4", "A4", ""}, {"A3", "A3", ""}, {"Letter", "Letter", ""}},
             at(t.paper)));
  auto turned =
      base("paper.landscape", "paper", "Landscape", "Sheets wider than high.", OptionType::flag);
  turned.standard_words = "each sheet as it covers more of the way";
  out.push_back(turned);
  out.push_back(choice("paper.shade", "paper", "Shade of the land", "On the map sheets.",
                       {{"relief", "Relief", "Light from the north-west."},
                        {"slope", "Steepness", "From 20 degrees, darker each five."},
                        {"none", "None", "Contours alone."}},
                       at(t.shade)));
  auto half = base("paper.half_contours", "paper", "Half contours",
                   "Where they show a knoll or a hollow.", OptionType::flag);
  half.standard = t.half_contours;
  half.standard_words = t.half_contours ? "yes" : "no";
  out.push_back(half);
  out.push_back(choice("paper.language", "paper", "Language of card and sheets",
                       "Everything that is printed, and the legs on the page.",
                       {{"en", "English", ""}, {"de", "Deutsch", ""}}, at(t.language)));
  out.push_back(choice("paper.units", "paper", "Lengths", "On card, sheets and page.",
                       {{"metric", "Metres", ""}, {"imperial", "Feet and miles", ""}},
                       at(t.lengths)));
  out.push_back(choice(
      "paper.angle", "paper", "Angles", "On card, sheets and page.",
      {{"degrees", "Degrees", "360 to the circle."}, {"mils", "Mils", "6400 to the circle."}},
      at(t.angles)));
}

}  // namespace

const std::vector<Option>& options() {
  static const auto all = [] {
    std::vector<Option> out;
    add_trip(out);
    add_party(out);
    add_errors(out);
    add_home(out);
    add_paper(out);
    return out;
  }();
  return all;
}

}  // namespace lodeway::trip
