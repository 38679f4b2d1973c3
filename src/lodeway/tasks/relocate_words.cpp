// What came out, in words that can be read aloud.
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/tasks/detail/relocate_parts.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks::detail {

namespace {
using belief::Do;
using belief::MoveKind;
using sight::Cue;

std::string wind(double deg) {
  static constexpr std::array<const char*, 8> winds{"north", "north-east", "east", "south-east",
                                                    "south", "south-west", "west", "north-west"};
  return winds[static_cast<std::size_t>(std::lround(std::fmod(deg + 360, 360) / 45)) % 8];
}
std::string line_lie(double deg) {
  static constexpr std::array<const char*, 4> lies{"north to south", "north-east to south-west",
                                                   "east to west", "south-east to north-west"};
  return lies[static_cast<std::size_t>(std::lround(std::fmod(deg + 360, 180) / 45)) % 4];
}
std::string name_of(const belief::Report& r, const std::vector<sight::Thing>& things) {
  if (r.cue == Cue::sees_thing && r.thing >= 0)
    return things[static_cast<std::size_t>(r.thing)].name;
  return std::string(mapdata::kind_words(r.kind));
}
std::string a(const std::string& thing) {
  return (std::string_view("aeiou").contains(thing.empty() ? 'x' : thing[0]) ? "an " : "a ") +
         thing;
}
}  // namespace

std::string on_the_needle(units::GridBearing b, const Needle& needle) {
  return units::bearing_text(units::GridBearing::degrees(b.in_degrees() - needle.to_grid_deg), {},
                             0);
}

std::string report_words(const belief::Report& r, const std::vector<sight::Thing>& things,
                         const Needle& needle) {
  const std::string name = name_of(r, things);
  const std::string way =
      r.has_direction ? " " + on_the_needle(r.direction, needle) : std::string();
  switch (r.cue) {
    case Cue::height:
      return fmt::format("height {:.0f} m", r.value);
    case Cue::fall:
      return r.level ? "the ground falls nowhere" : "the ground falls" + way;
    case Cue::steepness:
      return fmt::format("slope {:.0f}°", r.value);
    case Cue::landform:
      return sight::form_words(r.form);
    case Cue::in_wood:
      return r.seen ? "among trees" : "no trees";
    case Cue::on_line:
      return r.seen ? "on " + a(name) + (r.has_direction ? ", running" + way : "")
                    : "on no " + name;
    case Cue::beside_line:
      return r.seen ? "beside " + a(name) + (r.has_direction ? ", it lies" + way : "")
                    : "no " + name + " in sight";
    case Cue::at_point:
      return r.seen ? "at " + a(name) : "at no " + name;
    case Cue::sees_thing:
      return r.seen ? "sees " + name + way : name + " not in sight";
    case Cue::sees_kind:
      return r.seen ? "sees " + a(name) + way : "no " + name + " in sight";
  }
  return {};
}

std::string question_words(const belief::Question& q, const std::vector<sight::Thing>& things,
                           const Needle& needle) {
  switch (q.act) {
    case Do::walk_left:
      return "Walk 250 m along the slope, the high ground on your right hand. How much higher or "
             "lower are you, and which way does the ground fall there?";
    case Do::walk_right:
      return "Walk 250 m along the slope, the high ground on your left hand. How much higher or "
             "lower are you, and which way does the ground fall there?";
    case Do::walk_up:
      return "Walk 250 m straight uphill. How much did you climb, and which way does the ground "
             "fall there?";
    case Do::walk_down:
      return "Walk 250 m straight downhill. How much did you go down, and which way does the "
             "ground "
             "fall there?";
    case Do::tell:
      break;
  }
  (void)needle;
  const std::string name = name_of(q.ask, things);
  switch (q.ask.cue) {
    case Cue::height:
      return "How high are you?";
    case Cue::fall:
      return "Which way does the ground fall, over the next 50 m?";
    case Cue::steepness:
      return "How steep is the ground, over the next 50 m?";
    case Cue::landform:
      return "What sort of place is it: flat, top, ridge, spur, slope, hollow or valley?";
    case Cue::in_wood:
      return "Are you among trees?";
    case Cue::on_line:
      return fmt::format("Are you on {}? Which way does it run?", a(name));
    case Cue::beside_line:
      return fmt::format("Can you see {}? On which hand?", a(name));
    case Cue::at_point:
      return fmt::format("Are you at {}?", a(name));
    case Cue::sees_thing:
    case Cue::sees_kind:
      return fmt::format("Can you see {}? On what bearing?",
                         q.ask.cue == Cue::sees_thing ? name : a(name));
  }
  return {};
}

std::string meaning_words(const belief::Meaning& m, const belief::Question& q,
                          const std::vector<sight::Thing>& things, const Needle& needle) {
  std::string answer;
  const auto& r = m.told;
  if (q.act != Do::tell) {
    const std::string height = std::abs(r.value) < 20 ? std::string("about level")
                               : r.value > 0 ? fmt::format("about {:.0f} m higher", r.value)
                                             : fmt::format("about {:.0f} m lower", -r.value);
    answer =
        height + (r.level ? ", flat ground"
                          : ", falling " + wind(r.direction.in_degrees() - needle.to_grid_deg));
  } else if (r.cue == Cue::fall) {
    answer = r.level ? "nowhere" : "to the " + wind(r.direction.in_degrees() - needle.to_grid_deg);
  } else if (r.cue == Cue::height) {
    answer = fmt::format("about {:.0f} m", r.value);
  } else if (r.cue == Cue::steepness) {
    static constexpr std::array<std::pair<double, const char*>, 5> words{
        {{5, "almost flat"},
         {12, "gentle (5 to 12°)"},
         {20, "moderate (12 to 20°)"},
         {30, "steep (20 to 30°)"},
         {91, "very steep (over 30°)"}}};
    for (const auto& [below, text] : words) {
      if (r.value >= below) continue;
      answer = text;
      break;
    }
  } else if (r.cue == Cue::on_line && r.seen) {
    answer = "yes, it runs " + line_lie(r.direction.in_degrees() - needle.to_grid_deg);
  } else if (r.cue == Cue::landform) {
    answer = sight::form_words(r.form);
  } else if (r.cue == Cue::sees_thing && r.seen) {
    answer = "yes, about " + on_the_needle(r.direction, needle);
  } else {
    answer = r.seen ? "yes" : "no";
  }
  (void)things;
  const std::string then =
      m.part < 0 ? "no place stands out"
                 : fmt::format("place {} has {} in 100", m.part + 1, units::of_hundred(m.share));
  return fmt::format("{} ({} in 100): {}", answer, units::of_hundred(m.chance), then);
}

Telling telling_of(const belief::Meaning& m, const belief::Question& q,
                   const std::vector<sight::Thing>& things, const Needle& needle) {
  const auto& r = m.told;
  if (q.act != Do::tell) return {};
  const std::string name = name_of(q.ask, things);
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

std::string move_words(const belief::Move& m, const Needle& needle) {
  std::string go;
  switch (m.kind) {
    case MoveKind::bearing:
      go = "Walk on bearing " + on_the_needle(m.bearing, needle);
      break;
    case MoveKind::downhill:
      go = "Walk straight downhill";
      break;
    case MoveKind::uphill:
      go = "Walk straight uphill";
      break;
    case MoveKind::slope_on_left:
      go = "Walk along the slope, the high ground on your left hand";
      break;
    case MoveKind::slope_on_right:
      go = "Walk along the slope, the high ground on your right hand";
      break;
  }
  static constexpr std::array<const char*, belief::stop_sort_count> sorts{
      "the top of the rise", "flat ground", "water", "a wall or fence", "a path, track or edge"};
  std::string stops;
  for (std::size_t k = 0; k < sorts.size(); ++k) {
    if (m.by_sort[k] < 0.05) continue;
    stops += (stops.empty() ? "" : " or ") + std::string(sorts[k]);
  }
  return fmt::format(
      "{} until you meet {}: {} in 100 do within {:.0f} m, {} in 1000 come onto ground "
      "to keep off. Nothing by then: stop.",
      go, stops.empty() ? "a catching feature" : stops, units::of_hundred(m.met), m.within_m,
      static_cast<int>(std::ceil(1000 * m.barred - 1e-9)));
}

}  // namespace lodeway::tasks::detail

namespace lodeway::tasks {

std::string relocation_text(const Relocation& r) {
  std::string out;
  for (const auto& w : r.warnings) out += (w.starts_with("DANGER") ? "" : "warning: ") + w + "\n";
  if (!r.warnings.empty()) out += "\n";
  out += "told: ";
  for (std::size_t k = 0; k < r.told.size(); ++k) out += (k > 0 ? "; " : "") + r.told[k];
  out += (r.told.empty() ? "nothing yet" : "") + std::string("\n(") + r.norths + ")\n\n";
  out +=
      r.places.size() == 1 ? "One place fits:\n" : fmt::format("{} places fit:\n", r.places.size());
  for (std::size_t k = 0; k < r.places.size(); ++k) {
    const auto& p = r.places[k];
    out += fmt::format("  {}. {} in 100  [{}] within about {:.0f} m{}{}\n", k + 1,
                       units::of_hundred(p.part.share), p.grid_reference, p.part.radius_m,
                       std::isfinite(p.height_m) ? fmt::format(", {:.0f} m high", p.height_m) : "",
                       p.near.empty() ? "" : ", " + p.near);
  }
  out +=
      fmt::format("  elsewhere: {} in 100\n", std::max(1, units::hundredths(r.summary.elsewhere)));
  out += fmt::format(
      "half of what is on this map lies within {:.2f} km², nine tenths within {:.2f} km²\n",
      r.summary.area50_m2 / 1e6, r.summary.area90_m2 / 1e6);
  if (!r.resection_words.empty()) out += r.resection_words + "\n";
  out += "\nWhat tells most next:\n";
  for (std::size_t k = 0; k < std::min<std::size_t>(3, r.asks.size()); ++k) {
    out += fmt::format("  {}. {} (about {:.0f} min)\n", k + 1, r.asks[k],
                       std::ceil(r.questions[k].minutes));
    for (std::size_t m = 0; m < std::min<std::size_t>(6, r.means[k].size()); ++m)
      out += "       " + r.means[k][m] + "\n";
  }
  out += "\nThe move that works wherever you are:\n";
  for (const auto& g : r.goes) out += "  " + g + "\n";
  out +=
      "Chances are those of the model, not measured on people. In danger or in doubt stay "
      "together and call for help.\n";
  return out;
}

}  // namespace lodeway::tasks
