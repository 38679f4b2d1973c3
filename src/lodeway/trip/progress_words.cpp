#include "lodeway/trip/progress_words.hpp"

namespace lodeway::trip {

namespace {

constexpr std::string_view name_hole = "{0}";

constexpr PageWord table[] = {
    {"opening the ground", "das Gelände wird geöffnet"},
    {"reading the ground", "das Gelände wird gelesen"},
    {"making the ground ready", "das Gelände wird bereitet"},
    {"finding ways", "Wege werden gesucht"},
    {"walking them", "die Wege werden gegangen"},
    {"walking them if it changes", "die Wege werden gegangen, wenn der Tag anders wird"},
    {"rehearsing", "der Weg wird geprobt"},
    {"simulated parties walk the way", "simulierte Gruppen gehen den Weg"},
    {"drawing the paper", "das Papier wird gezeichnet"},
    {"judging the way anew", "der Weg wird neu beurteilt"},
    {"weighing what was told", "das Gesagte wird abgewogen"},
    {"trying moves", "mögliche Wege von hier werden geprüft"},
    {"looking where nothing can hurt", "Gelände ohne Gefahren wird gesucht"},
    {"laying out courses", "Aufgaben werden gelegt"},
    {"making the Skarrow Fells", "die Skarrow Fells entstehen"},
    {"looking for flat water", "ebenes Wasser wird gesucht"},
    {"finding crests", "Grate werden gesucht"},
    {"finding valleys", "Täler werden gesucht"},
    {"finding tops and saddles", "Kuppen und Sättel werden gesucht"},
    {"finding landforms", "Geländeformen werden gesucht"},
    {"bringing the heights into the grid", "die Höhen kommen ins Gitter"},
    {"reading {0}", "{0} wird gelesen"},
    {"looking from {0}", "Blick von {0}"},
    // a work of the server, before and after
    {"waiting", "wartet"},
    {"beginning", "beginnt"},
    {"stopped", "abgebrochen"},
    {"failed", "nicht gelungen"},
};

}  // namespace

std::span<const PageWord> progress_words() { return table; }

std::string progress_in(units::Language language, std::string_view doing) {
  if (language == units::Language::english) return std::string(doing);
  for (const auto& word : table) {
    if (doing == word.english) return word.german;
  }
  for (const auto& word : table) {
    const std::string_view english = word.english;
    if (!english.ends_with(name_hole)) continue;
    const auto before = english.substr(0, english.size() - name_hole.size());
    if (!doing.starts_with(before)) continue;
    std::string out = word.german;
    return out.replace(out.find(name_hole), name_hole.size(), doing.substr(before.size()));
  }
  return std::string(doing);
}

}  // namespace lodeway::trip
