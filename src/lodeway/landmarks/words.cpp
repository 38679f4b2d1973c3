#include "lodeway/landmarks/words.hpp"

#include <array>
#include <cmath>

#include <fmt/format.h>

namespace lodeway::landmarks {

namespace {

using mapdata::Kind;
using mapdata::Side;
using units::Language;

// In the order of mapdata::Kind.
constexpr std::array<const char*, mapdata::kind_count> german{"Pfad",       "undeutlicher Pfad",
                                                              "Fahrweg",    "Straße",
                                                              "Bahn",       "Bach",
                                                              "Fluss",      "Graben",
                                                              "Mauer",      "Zaun",
                                                              "Hecke",      "Stromleitung",
                                                              "Felswand",   "Waldrand",
                                                              "Ufer",       "Grat",
                                                              "Talgrund",   "Seilbahn",
                                                              "See",        "Meer",
                                                              "Wald",       "Gebüsch",
                                                              "Moor",       "Geröll",
                                                              "Blockwerk",  "Felsboden",
                                                              "Gletscher",  "Gras",
                                                              "Heide",      "Acker",
                                                              "Siedlung",   "Sperrgebiet",
                                                              "Gebäude",    "Ruine",
                                                              "Hütte",      "Brücke",
                                                              "Furt",       "Gipfel",
                                                              "Sattel",     "Höhenpunkt",
                                                              "Steinmann",  "Mast",
                                                              "Höhle",      "Quelle",
                                                              "Wasserfall", "Schafpferch",
                                                              "Gatter",     "Messpfeiler",
                                                              "Wegzeichen", "Unterstand",
                                                              "Ort",        "Abzweig",
                                                              "Sonstiges"};

std::string side_words(Side side, Language l) {
  if (side == Side::none) return "";
  const bool left = side == Side::left;
  return l == Language::german ? (left ? ", links" : ", rechts") : (left ? ", left" : ", right");
}

}  // namespace

std::string thing(Kind kind, const std::string& name, Language l) {
  if (!name.empty()) return name;
  return l == Language::german ? german[static_cast<std::size_t>(kind)]
                               : std::string(mapdata::kind_words(kind));
}

std::string words(const Sighting& s, Language l) {
  const bool de = l == Language::german;
  const auto what = thing(s.kind, s.name, l);
  switch (s.meeting) {
    case Meeting::crosses:
      return what + (de ? " kreuzt" : " crosses");
    case Meeting::joins:
      return what + (de ? " mündet" : " joins") + side_words(s.side, l);
    case Meeting::passes:
      return what + side_words(s.side, l);
    case Meeting::steepens:
      return de ? "wird steiler" : "steepens";
    case Meeting::eases:
      return de ? "wird flacher" : "slope eases";
    case Meeting::level:
      return de ? "wird eben" : "goes level";
    case Meeting::bends:
      return (de ? "Biegung" : "bend") + side_words(s.side, l);
    case Meeting::top:
      break;
  }
  return de ? "höchster Punkt" : "top of the rise";
}

std::string words(const DangerFound& d, const units::Speech& speech) {
  const bool de = speech == Language::german;
  const auto kind = thing(d.kind, "", speech);
  const auto what = d.name.empty() ? kind : d.name + ", " + kind;
  const char* const where = d.side == Side::none   ? (de ? "hinter dem Ende" : "beyond the end")
                            : d.side == Side::left ? (de ? "links" : "to your left")
                                                   : (de ? "rechts" : "to your right");
  return fmt::format("{}, {} {}", what, units::length_text(d.distance_m, speech.style), where);
}

std::string words(const Fix& f, Language l) {
  const bool de = l == Language::german;
  const auto line = thing(f.kind, f.name, l);
  switch (f.sort) {
    case FixSort::junction:
    case FixSort::crossing:
      if (f.kind == Kind::junction) return line;  // a point of the map
      return words(PlaceFound{f.kind, f.second, f.name, f.second_name, 0}, l);
    case FixSort::lake_end: {
      constexpr std::array english{"north", "north-east", "east", "south-east",
                                   "south", "south-west", "west", "north-west"};
      constexpr std::array other{"Nordende", "Nordostende", "Ostende",  "Südostende",
                                 "Südende",  "Südwestende", "Westende", "Nordwestende"};
      const auto wind = static_cast<std::size_t>(std::lround(f.toward_deg / 45)) % 8;
      return de ? fmt::format("{} von {}", other[wind], line)
                : fmt::format("{} end of {}", english[wind], line);
    }
    case FixSort::inlet:
      return fmt::format("{} {} {}", thing(f.second, f.second_name, l),
                         de ? "mündet in" : "flows into", line);
    case FixSort::outlet:
      return fmt::format("{} {} {}", thing(f.second, f.second_name, l), de ? "verlässt" : "leaves",
                         line);
    case FixSort::corner:
      return line + (de ? "-Ecke" : " corner");
    case FixSort::bend:
      return line + (de ? "-Knick" : " bend");
    case FixSort::line_end:
      if (f.second != Kind::other)
        return fmt::format("{} {} {}", line, de ? "wird" : "becomes",
                           thing(f.second, f.second_name, l));
      return line + (de ? "-Ende" : " end");
    default:
      return line;
  }
}

std::string words(const PlaceFound& p, Language l) {
  if (p.kind == Kind::other) return "";
  const bool de = l == Language::german;
  const auto first = thing(p.kind, p.name, l);
  if (p.second == Kind::other) return first;
  const auto second = thing(p.second, p.second_name, l);
  if (first == second) return first + (de ? "-Abzweig" : " junction");
  return first + (de ? " an " : " at ") + second;
}

}  // namespace lodeway::landmarks
