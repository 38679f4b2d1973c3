#include <cmath>
#include <cstdio>
#include <memory>
#include <numbers>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "apps/cli/command.hpp"
#include "apps/cli/flat_json.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/reckoning/judge/single_leg.hpp"
#include "lodeway/units/said.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::cli {

namespace {
using reckoning::SingleLeg;
using reckoning::SingleLegAnswer;

struct Options {
  double length_m = 0, bearing_sigma = 0, sighting_sigma = 0, sighting_every = 0,
         distance_sigma = 0;
  double seen_from = 0, crossing_deg = 0;
  std::string instrument = "baseplate", visibility = "clear", skill = "practised", target;
  bool json = false, german = false;
  Option *has_bearing{}, *has_sighting{}, *has_every{}, *has_distance{}, *has_seen{},
      *has_crossing{};
};

template <class E>
E word(const std::string& option, const std::string& given,
       const std::vector<std::pair<const char*, E>>& words) {
  std::string expected;
  for (const auto& [name, value] : words) {
    if (given == name) return value;
    expected += (expected.empty() ? "" : ", ") + std::string(name);
  }
  throw Stopped{{FaultCode::bad_input,
                 fmt::format("--{}: expected one of {}, got '{}'", option, expected, given)}};
}

/// The party takes anything below 0 for "the default"; someone who types it means something else.
void take(const Option* given, double value, double& into) {
  if (!given->given()) return;
  if (!(value > 0)) {
    throw Stopped{{FaultCode::bad_input,
                   fmt::format("{}: expected a number above 0, got {}", given->name(), value)}};
  }
  into = value;
}

SingleLeg leg_of(const Options& o) {
  walking::Party party;
  party.instrument = word<walking::Instrument>(
      "instrument", o.instrument,
      {{"baseplate", walking::Instrument::baseplate}, {"mirror", walking::Instrument::mirror}});
  party.visibility = word<mapdata::Visibility>("visibility", o.visibility,
                                               {{"clear", mapdata::Visibility::clear},
                                                {"cloud", mapdata::Visibility::cloud},
                                                {"night", mapdata::Visibility::night},
                                                {"snow", mapdata::Visibility::snow}});
  party.skill = word<walking::Skill>("skill", o.skill,
                                     {{"novice", walking::Skill::novice},
                                      {"practised", walking::Skill::practised},
                                      {"expert", walking::Skill::expert}});
  take(o.has_bearing, o.bearing_sigma, party.errors.bearing_sigma_deg);
  take(o.has_sighting, o.sighting_sigma, party.errors.sighting_sigma_deg);
  take(o.has_every, o.sighting_every, party.errors.sighting_every_m);
  take(o.has_distance, o.distance_sigma, party.errors.distance_sigma);
  SingleLeg leg;
  leg.length_m = o.length_m;
  leg.errors = value_or_stop(reckoning::checked_errors_of(party));
  const bool point = word<bool>("target", o.target, {{"point", true}, {"line", false}});
  if (point && (!o.has_seen->given() || o.has_crossing->given()))
    throw Stopped{{FaultCode::bad_input,
                   "--target point: expected --seen-from M with it, and no --crossing-angle"}};
  if (!point && (!o.has_crossing->given() || o.has_seen->given()))
    throw Stopped{{FaultCode::bad_input,
                   "--target line: expected --crossing-angle DEG with it, and no --seen-from"}};
  if (point)
    leg.seen_from_m = o.seen_from;
  else
    leg.crossing_angle_rad = o.crossing_deg * std::numbers::pi / 180;
  return leg;
}

/// At a right angle neither side of a line is nearer.
const char* aim_side(const SingleLeg& leg) {
  return *leg.crossing_angle_rad < std::numbers::pi / 2 - 1e-9 ? "near" : "either";
}

JsonObject as_json(const SingleLeg& leg, const SingleLegAnswer& a) {
  JsonObject j{{"length_m", leg.length_m},
               {"cross_sigma_m", a.cross_sigma_m},
               {"along_sigma_m", a.along_sigma_m}};
  if (leg.seen_from_m) {
    j.insert(j.end(), {{"seen_from_m", *leg.seen_from_m},
                       {"pass_within_probability", a.pass_within_probability},
                       {"gives_up_beyond_m", a.gives_up_beyond_m}});
  } else if (!a.catches) {
    j.emplace_back("catches", false);
    return j;
  } else {
    j.insert(j.end(), {{"catches", true},
                       {"line_sigma_m", a.line_sigma_m},
                       {"aim_off_m", a.aim_off_m},
                       {"aim_side", std::string(aim_side(leg))},
                       {"gives_up_beyond_m", a.gives_up_beyond_m},
                       {"wrong_side_probability", a.wrong_side_probability},
                       {"never_met_probability", a.never_met_probability},
                       {"saving_min", a.saving_min}});
  }
  j.emplace_back("certainty", a.certainty);
  return j;
}

/// Of a hundred such legs, as a leader would say it.
std::string of_hundred(double p, units::Language in) {
  if (p < 0.01) return units::in(in, "fewer than 1 in 100", "weniger als 1 von 100");
  return units::said(in, "{} in 100", "{} von 100", units::of_hundred(p));
}

/// Of 100, to a tenth; what rounds to nothing is not nothing.
std::string tenths(double p, units::Language in) {
  return units::decimals(in, p > 0 && p < 0.0005 ? "< 0.1" : fmt::format("{:.1f}", 100 * p));
}

void print(const std::string& text) { std::fputs(text.c_str(), stdout); }

void print_point(SingleLeg leg, const SingleLegAnswer& a, units::Language in) {
  print(units::said(
      in,
      "After {:.0f} m, 68 in 100 parties are within {:.0f} m to either side of their line, and as\n"
      "many within {:.0f} m of the distance they counted. Of legs to a point that you can see "
      "from\n"
      "{:.0f} m away, {} end there. You go on for {:.0f} m past your count before you give up.\n",
      "Nach {:.0f} m sind 68 von 100 Gruppen bis zu {:.0f} m links oder rechts ihrer Linie, und\n"
      "ebenso viele bis zu {:.0f} m neben der gezählten Strecke. Von Abschnitten zu einem Punkt, "
      "den\nman auf {:.0f} m sieht, enden {} dort. Ihr geht {:.0f} m über die Zählung hinaus, ehe "
      "ihr "
      "aufgebt.\n",
      leg.length_m, a.cross_sigma_m, a.along_sigma_m, *leg.seen_from_m, of_hundred(a.certainty, in),
      a.gives_up_beyond_m));
  print(units::in(in, "\nHow long may a leg to such a point be?\n  kept by          longest leg\n",
                  "\nWie lang darf ein Abschnitt zu so einem Punkt sein?\n"
                  "  gehalten von     längster Abschnitt\n"));
  for (const double p : {0.95, 0.9, 0.8, 0.7, 0.5}) {
    const double longest = value_or_stop(reckoning::longest_leg_m(leg, p));
    print(units::said(in, "  {:>3.0f} in 100    {:>7.0f} m\n", "  {:>3.0f} von 100   {:>7.0f} m\n",
                      100 * p, longest));
  }
}

/// A line too oblique for this leg, and what to do instead.
void print_no_catching_feature(const SingleLeg& leg, const SingleLegAnswer& a, units::Language in) {
  print(units::said(
      in,
      "After {:.0f} m, 68 in 100 parties are within {:.0f} m to either side of their line. A line "
      "at\n{:.0f}° to the leg is no catching feature: you walk beside it, and may meet it anywhere "
      "or never.\nWalk straight to the nearest part of the line, at {:.0f}° or more, then along "
      "it.\n",
      "Nach {:.0f} m sind 68 von 100 Gruppen bis zu {:.0f} m links oder rechts ihrer Linie. Eine "
      "Linie,\ndie den Abschnitt unter {:.0f}° trifft, ist keine Auffanglinie: ihr geht neben ihr "
      "her und trefft\nsie irgendwo oder nie. Geht auf kürzestem Weg zu ihr, unter {:.0f}° oder "
      "mehr, "
      "dann an ihr entlang.\n",
      leg.length_m, a.cross_sigma_m, *leg.crossing_angle_rad * 180 / std::numbers::pi, 30.0));
}

void print_line(SingleLeg leg, const SingleLegAnswer& a, units::Language in) {
  if (!a.catches) return print_no_catching_feature(leg, a, in);
  const bool near = std::string_view(aim_side(leg)) == "near";
  print(units::said(
      in,
      "After {:.0f} m, 68 in 100 parties are within {:.0f} m to either side of their line, so "
      "they\n"
      "meet the line within {:.0f} m of the mark. Aim off by {:.0f} m along the line, to {}.\n"
      "At the line turn towards the mark. Go on for {:.0f} m past your count before you give up.\n"
      "Of 100 such legs, {} meet the line and turn the right way, {} meet it beyond the mark and\n"
      "turn the wrong way, {} never meet it. Aiming off saves {:.0f} min on average.\n",
      "Nach {:.0f} m sind 68 von 100 Gruppen bis zu {:.0f} m links oder rechts ihrer Linie. So "
      "treffen sie\ndie Auffanglinie bis zu {:.0f} m neben dem Ziel. Zielt {:.0f} m daneben, nach "
      "{}.\nBiegt an der Linie zum Ziel ab. Geht {:.0f} m über die Zählung hinaus, ehe ihr "
      "aufgebt.\n"
      "Von 100 solchen Abschnitten treffen {} die Linie und biegen richtig ab, {} treffen sie "
      "hinter\ndem Ziel und biegen falsch ab, {} treffen sie nie. Das Abseitszielen spart im "
      "Mittel "
      "{:.0f} min.\n",
      leg.length_m, a.cross_sigma_m, a.line_sigma_m, a.aim_off_m,
      near ? units::in(in, "the side where it comes nearer to you",
                       "der Seite, auf der sie näher kommt")
           : units::in(in, "either side", "einer der beiden Seiten"),
      a.gives_up_beyond_m, units::of_hundred(a.certainty), tenths(a.wrong_side_probability, in),
      tenths(a.never_met_probability, in), a.saving_min));
  print(units::in(
      in,
      "\nHow long may a leg to such a line be?\n"
      "   leg     spread on the line    aim off    go on    wrong way    never met, in 100\n",
      "\nWie lang darf ein Abschnitt zu so einer Linie sein?\n"
      "Abschnitt   Streuung an der Linie  daneben   weiter    falsch ab    nie getroffen, von "
      "100\n"));
  for (const double length : {250.0, 500.0, 750.0, 1000.0, 1500.0, 2000.0}) {
    leg.length_m = length;
    const auto row = value_or_stop(reckoning::reckon_leg(leg));
    if (!row.catches) {
      print(units::said(in, "  {:>5.0f} m        the line is no catching feature\n",
                        "  {:>5.0f} m        die Linie ist keine Auffanglinie\n", length));
      continue;
    }
    fmt::print(
        "  {:>5.0f} m        {:>6.0f} m       {:>5.0f} m   {:>5.0f} m      {:>5}            "
        "{:>5}\n",
        length, row.line_sigma_m, row.aim_off_m, row.gives_up_beyond_m,
        tenths(row.wrong_side_probability, in), tenths(row.never_met_probability, in));
  }
}

void run_reckon(const Options& o) {
  const SingleLeg leg = leg_of(o);
  const auto answer = value_or_stop(reckoning::reckon_leg(leg));
  if (o.json) return print_json(as_json(leg, answer));
  const auto in = o.german ? units::Language::german : units::Language::english;
  leg.seen_from_m ? print_point(leg, answer, in) : print_line(leg, answer, in);
}
}  // namespace

void add_reckon(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c =
      app.add_subcommand("reckon", "How often a leg on a bearing is kept, and how long it may be");
  c->footer(
      "The errors are one sigma. What is not given comes from the table of common practice in\n"
      "docs/method/dead-reckoning.md. A given bearing sigma is the whole error of the bearing, a "
      "given\n"
      "distance sigma the whole error of the distance.\n"
      "Examples: lodeway reckon --length 800 --visibility cloud --target point --seen-from 40\n"
      "          lodeway reckon --length 800 --target line --crossing-angle 70 --json");
  c->add_option("--length", o->length_m, "Length of the leg, metres")->required();
  c->add_option("--target", o->target, "point or line")->required();
  o->has_seen =
      c->add_option("--seen-from", o->seen_from, "From how far the point is seen, metres");
  o->has_crossing = c->add_option("--crossing-angle", o->crossing_deg,
                                  "Angle between leg and line, degrees, above 0 to 90");
  c->add_option("--instrument", o->instrument, "baseplate or mirror")->capture_default_str();
  c->add_option("--visibility", o->visibility, "clear, cloud, night or snow")
      ->capture_default_str();
  c->add_option("--skill", o->skill, "novice, practised or expert")->capture_default_str();
  o->has_bearing =
      c->add_option("--bearing-sigma", o->bearing_sigma, "Error of the bearing, per leg, degrees");
  o->has_sighting =
      c->add_option("--sighting-sigma", o->sighting_sigma, "Error of each sighting, degrees");
  o->has_every =
      c->add_option("--sighting-every", o->sighting_every, "Length of one sighting, metres");
  o->has_distance =
      c->add_option("--distance-sigma", o->distance_sigma, "Error of the distance, as a fraction");
  add_language(*c, o->german, "Language of the answer");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded");
  c->callback([o] { run_reckon(*o); });
}

}  // namespace lodeway::cli
