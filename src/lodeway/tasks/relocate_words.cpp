// What came out, in words that can be read aloud.
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/tasks/detail/relocate_parts.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks::detail {

namespace {
using belief::Do;
using sight::Cue;

std::string wind(double deg, units::Language in) {
  static constexpr std::array<const char*, 8> winds{"north", "north-east", "east", "south-east",
                                                    "south", "south-west", "west", "north-west"};
  return trip::told(
      in, winds[static_cast<std::size_t>(std::lround(std::fmod(deg + 360, 360) / 45)) % 8]);
}
std::string line_lie(double deg, units::Language in) {
  static constexpr std::array<const char*, 4> lies{"north to south", "north-east to south-west",
                                                   "east to west", "south-east to north-west"};
  return trip::told(
      in, lies[static_cast<std::size_t>(std::lround(std::fmod(deg + 360, 180) / 45)) % 4]);
}
std::string name_of(const belief::Report& r, const std::vector<sight::Thing>& things,
                    units::Language in) {
  if (r.cue == Cue::sees_thing && r.thing >= 0)
    return things[static_cast<std::size_t>(r.thing)].name;
  return landmarks::thing(r.kind, "", in);
}
/// "a wall", "an old fence"; German has its sentences without the article, whose gender it would
/// need.
std::string a(const std::string& thing, units::Language in) {
  if (in == units::Language::german) return thing;
  return (std::string_view("aeiou").contains(thing.empty() ? 'x' : thing[0]) ? "an " : "a ") +
         thing;
}
}  // namespace

std::string on_the_needle(units::GridBearing b, const Needle& needle) {
  return units::bearing_text(units::GridBearing::degrees(b.in_degrees() - needle.to_grid_deg), {},
                             0);
}

std::string report_words(const belief::Report& r, const std::vector<sight::Thing>& things,
                         const Needle& needle, units::Language in) {
  const std::string name = name_of(r, things, in);
  const std::string way = r.has_direction ? on_the_needle(r.direction, needle) : std::string();
  const auto with_way = [&](std::string words) { return words + (way.empty() ? "" : " " + way); };
  switch (r.cue) {
    case Cue::height:
      return trip::told(in, "height {} m", {r.value});
    case Cue::fall:
      return r.level ? trip::told(in, "the ground falls nowhere")
                     : with_way(trip::told(in, "the ground falls"));
    case Cue::steepness:
      return trip::told(in, "slope {}°", {r.value});
    case Cue::landform:
      return trip::told(in, sight::form_words(r.form));
    case Cue::in_wood:
      return r.seen ? trip::told(in, "among trees") : trip::told(in, "no trees");
    case Cue::on_line:
      if (!r.seen) return trip::told(in, "on no {}", {name});
      return r.has_direction ? trip::told(in, "on {}, running {}", {a(name, in), way})
                             : trip::told(in, "on {}", {a(name, in)});
    case Cue::beside_line:
      if (!r.seen) return trip::told(in, "no {} in sight", {name});
      return r.has_direction ? trip::told(in, "beside {}, it lies {}", {a(name, in), way})
                             : trip::told(in, "beside {}", {a(name, in)});
    case Cue::at_point:
      return r.seen ? trip::told(in, "at {}", {a(name, in)}) : trip::told(in, "at no {}", {name});
    case Cue::sees_thing:
      return r.seen ? with_way(trip::told(in, "sees {}", {name}))
                    : trip::told(in, "{} not in sight", {name});
    case Cue::sees_kind:
      return r.seen ? with_way(trip::told(in, "sees {}", {a(name, in)}))
                    : trip::told(in, "no {} in sight", {name});
  }
  return {};
}

std::string question_words(const belief::Question& q, const std::vector<sight::Thing>& things,
                           units::Language in) {
  switch (q.act) {
    case Do::walk_left:
      return trip::told(
          in,
          "Walk 250 m along the slope, the high ground on your right hand. How much higher or "
          "lower are you, and which way does the ground fall there?");
    case Do::walk_right:
      return trip::told(
          in,
          "Walk 250 m along the slope, the high ground on your left hand. How much higher or "
          "lower are you, and which way does the ground fall there?");
    case Do::walk_up:
      return trip::told(in,
                        "Walk 250 m straight uphill. How much did you climb, and which way does "
                        "the ground fall there?");
    case Do::walk_down:
      return trip::told(in,
                        "Walk 250 m straight downhill. How much did you go down, and which way "
                        "does the ground fall there?");
    case Do::tell:
      break;
  }
  const std::string name = name_of(q.ask, things, in);
  switch (q.ask.cue) {
    case Cue::height:
      return trip::told(in, "How high are you?");
    case Cue::fall:
      return trip::told(in, "Which way does the ground fall, over the next 50 m?");
    case Cue::steepness:
      return trip::told(in, "How steep is the ground, over the next 50 m?");
    case Cue::landform:
      return trip::told(
          in, "What sort of place is it: flat, top, ridge, spur, slope, hollow or valley?");
    case Cue::in_wood:
      return trip::told(in, "Are you among trees?");
    case Cue::on_line:
      return trip::told(in, "Are you on {}? Which way does it run?", {a(name, in)});
    case Cue::beside_line:
      return trip::told(in, "Can you see {}? On which hand?", {a(name, in)});
    case Cue::at_point:
      return trip::told(in, "Are you at {}?", {a(name, in)});
    case Cue::sees_thing:
    case Cue::sees_kind:
      return trip::told(in, "Can you see {}? On what bearing?",
                        {q.ask.cue == Cue::sees_thing ? name : a(name, in)});
  }
  return {};
}

std::string meaning_words(const belief::Meaning& m, const belief::Question& q, const Needle& needle,
                          units::Language in) {
  std::string answer;
  const auto& r = m.told;
  const double way = r.direction.in_degrees() - needle.to_grid_deg;
  const auto yes_no = [&] { return r.seen ? trip::told(in, "yes") : trip::told(in, "no"); };
  if (q.act != Do::tell) {
    const std::string height = std::abs(r.value) < 20 ? trip::told(in, "about level")
                               : r.value > 0 ? trip::told(in, "about {} m higher", {r.value})
                                             : trip::told(in, "about {} m lower", {-r.value});
    answer = height + (r.level ? trip::told(in, ", flat ground")
                               : trip::told(in, ", falling {}", {wind(way, in)}));
  } else if (r.cue == Cue::fall) {
    answer = r.level ? trip::told(in, "nowhere") : trip::told(in, "to the {}", {wind(way, in)});
  } else if (r.cue == Cue::height) {
    answer = trip::told(in, "about {} m", {r.value});
  } else if (r.cue == Cue::steepness) {
    static constexpr std::array<std::pair<double, const char*>, 5> words{
        {{5, "almost flat"},
         {12, "gentle (5 to 12°)"},
         {20, "moderate (12 to 20°)"},
         {30, "steep (20 to 30°)"},
         {91, "very steep (over 30°)"}}};
    for (const auto& [below, text] : words) {
      if (r.value >= below) continue;
      answer = trip::told(in, text);
      break;
    }
  } else if (r.cue == Cue::on_line && r.seen) {
    answer = trip::told(in, "yes, it runs {}", {line_lie(way, in)});
  } else if (r.cue == Cue::landform) {
    answer = trip::told(in, sight::form_words(r.form));
  } else if (r.cue == Cue::sees_thing && r.seen) {
    answer = trip::told(in, "yes, about {}", {on_the_needle(r.direction, needle)});
  } else {
    answer = yes_no();
  }
  const std::string then = m.part < 0 ? trip::told(in, "no place stands out")
                                      : trip::told(in, "place {} has {} in 100",
                                                   {m.part + 1, units::of_hundred(m.share)});
  return trip::told(in, "{} ({} in 100): {}", {answer, units::of_hundred(m.chance), then});
}

Telling telling_of(const belief::Meaning& m, const belief::Question& q,
                   const std::vector<sight::Thing>& things, const Needle& needle) {
  const auto& r = m.told;
  if (q.act != Do::tell) return {};
  const std::string name = name_of(q.ask, things, units::Language::english);
  const auto degrees = [&] {
    const double deg = std::round(r.direction.in_degrees() - needle.to_grid_deg);
    return fmt::format("{:.0f}", std::fmod(deg + 720, 360));
  };
  const std::string with = r.has_direction ? name + ", " + degrees() : name;
  switch (r.cue) {
    case Cue::height:
      return {"height", fmt::format("{:.0f}", r.value)};
    case Cue::fall:
      return {"falls", r.level ? "nowhere" : degrees()};
    case Cue::steepness:
      return {"slope", r.value < 5    ? "flat"
                       : r.value < 12 ? "gentle"
                       : r.value < 20 ? "moderate"
                       : r.value < 30 ? "steep"
                                      : "very steep"};
    case Cue::landform:
      return {"landform", r.form == sight::Form::flat ? "flat" : sight::form_words(r.form)};
    case Cue::in_wood:
      return {"wood", r.seen ? "yes" : "no"};
    case Cue::on_line:
      return {"on", r.seen ? with : "no " + name};
    case Cue::at_point:
      return {"on", r.seen ? name : "no " + name};
    case Cue::beside_line:
      return r.seen ? Telling{"beside", with} : Telling{"not_seen", name};
    case Cue::sees_thing:
    case Cue::sees_kind:
      return r.seen ? Telling{"sees", with} : Telling{"not_seen", name};
  }
  return {};
}

}  // namespace lodeway::tasks::detail

namespace lodeway::tasks {

std::string relocation_text(const Relocation& r) {
  const auto in = r.language;
  std::string out;
  for (const auto& w : r.warnings)
    out +=
        (w.starts_with(trip::told(in, "DANGER")) ? w : trip::told(in, "warning: {}", {w})) + "\n";
  if (!r.warnings.empty()) out += "\n";
  out += trip::told(in, "told: ");
  auto all = r.told;
  if (!r.from.empty()) all.insert(all.begin(), r.from);
  for (std::size_t k = 0; k < all.size(); ++k) out += (k > 0 ? "; " : "") + all[k];
  out += (all.empty() ? trip::told(in, "nothing yet") : "") + "\n(" + r.norths + ")\n\n";
  // A whole piece of ground is no place: what was told has hardly narrowed it.
  constexpr double no_place_m = 1500;
  out += r.places.size() == 1 && r.places[0].part.radius_m > no_place_m
             ? trip::told(in, "Hardly narrowed down yet:\n")
         : r.places.size() == 1
             ? trip::told(in, "One place fits:\n")
                              : trip::told(in, "{} places fit:\n", {r.places.size()});
  for (std::size_t k = 0; k < r.places.size(); ++k) {
    const auto& p = r.places[k];
    out += trip::told(in, "  {}. {} in 100  [{}] within about {} m",
                      {k + 1, units::of_hundred(p.part.share), p.grid_reference, p.part.radius_m});
    if (std::isfinite(p.height_m)) out += trip::told(in, ", {} m high", {p.height_m});
    out += (p.near.empty() ? "" : ", " + p.near) + "\n";
  }
  out += trip::told(in, "  elsewhere: {} in 100\n",
                    {std::max(1, units::hundredths(r.summary.elsewhere))});
  const auto km2 = [&](double m2) { return trip::decimal_text(m2 / 1e6, 2, in); };
  out +=
      trip::told(in, "half of what is on this map lies within {} km², nine tenths within {} km²\n",
                 {km2(r.summary.area50_m2), km2(r.summary.area90_m2)});
  if (!r.resection_words.empty()) out += r.resection_words + "\n";
  out += trip::told(in, "\nWhat tells most next:\n");
  for (std::size_t k = 0; k < std::min<std::size_t>(3, r.asks.size()); ++k) {
    out += trip::told(in, "  {}. {} (about {} min)\n",
                      {k + 1, r.asks[k], std::ceil(r.questions[k].minutes)});
    for (std::size_t m = 0; m < std::min<std::size_t>(6, r.means[k].size()); ++m)
      out += "       " + r.means[k][m] + "\n";
  }
  out += trip::told(in, "\nThe move that works wherever you are:\n");
  for (const auto& g : r.goes) out += "  " + g + "\n";
  return out + trip::told(in,
                          "Chances are those of the model, not measured on people. In danger or in "
                          "doubt stay together and call for help.\n");
}

}  // namespace lodeway::tasks
