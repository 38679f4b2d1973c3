#include "lodeway/trip/told.hpp"

#include <algorithm>
#include <cassert>
#include <iterator>

#include <fmt/format.h>

namespace lodeway::trip {

namespace {

constexpr ToldWord table[] = {
    // rehearse: parties that are put back
    {"{} simulated parties like yours walked this way. {} in 100 (± {}) kept every leg at\n"
     "the first try, {} in 100 turned back, {} in 100 set foot on ground to keep off.\n",
     "{} simulierte Gruppen wie eure gingen diesen Weg. {} von 100 (± {}) hielten jeden Abschnitt\n"
     "im ersten Anlauf, {} von 100 kehrten um, {} von 100 betraten zu meidendes Gelände.\n"},
    {"Walking time without rests: 50 in 100 took less than {} min, 10 in 100 less than {} "
     "min,\n90 in 100 less than {} min.\n",
     "Gehzeit ohne Rasten: 50 von 100 brauchten weniger als {} min, 10 von 100 weniger als "
     "{} min,\n90 von 100 weniger als {} min.\n"},
    {"Weakest leg: {} ({} to {}). Most who failed there {}.\n",
     "Schwächster Abschnitt: {} ({} bis {}). Die meisten, die dort scheiterten: {}.\n"},
    {"Leg {} crosses ground without heights. It was not simulated, and the figures for the whole\n"
     "way leave it out. Its time is the route card's.\n",
     "Abschnitt {} führt über Gelände ohne Höhen. Er wurde nicht simuliert und fehlt in den "
     "Zahlen\n"
     "für den ganzen Weg. Seine Zeit ist die der Marschkarte.\n"},
    {"{} in 100 strayed where no heights are known; there the ground is taken as level.\n",
     "{} von 100 gerieten dorthin, wo keine Höhen bekannt sind; dort gilt das Gelände als eben.\n"},
    {"leg", "Nr."},
    {"kept, in 100", "gehalten, von 100"},
    {"predicted", "vorausgesagt"},
    {"minutes (50, 90 in 100)", "Minuten (50, 90 von 100)"},
    {"onto ground to keep off", "in zu meidendes Gelände"},
    {"{} in 100", "{} von 100"},
    {"to", "nach"},
    {"not simulated", "nicht simuliert"},
    {"walked past it", "gingen daran vorbei"},
    {"turned the wrong way at the line", "bogen an der Linie falsch ab"},
    {"did not know it for what it was", "erkannten es nicht"},
    {"took something else for it", "hielten etwas anderes dafür"},
    {"lost the line", "verloren die Linie"},
    {"went on past the end", "gingen über das Ende hinaus"},
    {"came off the line", "kamen von der Linie ab"},
    {"took a wrong branch", "nahmen einen falschen Abzweig"},
    {"walked on a wrong bearing", "gingen nach falscher Peilung"},
    {"stopped because the ground seemed wrong",
     "hielten an, weil das Gelände nicht zu passen schien"},
    {"did not find the line to follow", "fanden die Linie nicht"},
    // rehearse: parties that are lost and stay so
    {"\nAnd when it goes wrong: parties with a true place and a believed one, never put back.\n",
     "\nUnd wenn es schiefgeht: Gruppen mit einem wahren und einem geglaubten Ort, nie "
     "zurückgesetzt.\n"},
    {"Stopped: {} of {} walked; all that follows is of those.\n",
     "Abgebrochen: {} von {} sind gegangen; alles Weitere gilt für diese.\n"},
    {"{} in 100 kept every leg at the first try; {} in 100 came to the end, {} took an escape\n"
     "route to safe ground, {} turned round and came back, {} stayed out.\n",
     "{} von 100 hielten jeden Abschnitt im ersten Anlauf; {} von 100 kamen ans Ende, {} nahmen "
     "einen\nNotabstieg, {} kehrten um und kamen zurück, {} blieben draußen.\n"},
    {"{} in 100 were lost at some time: half of them {} min or less, 90 in 100 {} or "
     "less, of which\n{} and {} before they noticed; {} m and {} m from where they "
     "believed to be. {} in 100 never noticed.\n",
     "{} von 100 hatten sich irgendwann verlaufen: die Hälfte davon bis zu {} min, 90 von 100 "
     "bis zu {},\ndavon {} und {}, ehe sie es merkten; {} m und {} m von dem "
     "Ort, an dem sie sich glaubten. {} von 100 merkten es nie.\n"},
    {"{} in 100 were still out after last light; {} set foot on ground to keep off.\n",
     "{} von 100 waren nach dem letzten Licht noch draußen; {} betraten zu meidendes Gelände.\n"},
    {"Home, rests in it: half of them by {}, 90 in 100 by {}.\n",
     "Zurück, mit Rasten: die Hälfte bis {}, 90 von 100 bis {}.\n"},
    {"Fewer than 90 in 100 came home by themselves.\n",
     "Weniger als 90 von 100 kamen allein nach Hause.\n"},
    {"{} in 100 strayed where no heights are known; there they walk as on the level.\n",
     "{} von 100 gerieten dorthin, wo keine Höhen bekannt sind; dort gehen sie wie in der "
     "Ebene.\n"},
    {"first try, in 100", "erster Anlauf, von 100"},
    {"in the end", "am Ende"},
    {"lost, min (half, 90 in 100)", "verirrt, min (Hälfte, 90 von 100)"},
    {"most went wrong so", "die meisten Fehler"},
    {"leg {} ({} to {})", "Abschnitt {} ({} bis {})"},
    {"slow or held up, and on their way", "langsam oder aufgehalten, noch unterwegs"},
    {"lost on {}", "verirrt auf {}"},
    {"on an escape route", "auf einem Notabstieg"},
    {"turned round, and on their way back", "umgekehrt und auf dem Rückweg"},
    {"\nAt {}: {} in 100 parties are home or on safe ground, {} are not.\n",
     "\nUm {}: {} von 100 Gruppen sind zurück oder am Ende eines Notabstiegs, {} nicht.\n"},
    {"Of those that are not:\n", "Von denen, die es nicht sind:\n"},
    {"{} in 100 of them stay where they are.\n", "{} von 100 dieser bleiben, wo sie sind.\n"},
    {"Only {} parties are out: take the shares as rough, or walk more of them.\n",
     "Nur {} Gruppen sind draußen: Die Anteile sind grob; lasst mehr Gruppen gehen.\n"},
    {"Look first, in this order (what a look finds for each hectare). This is for police and\n"
     "rescue services, who decide; it does not say where anybody is. Nobody goes alone.\n",
     "Zuerst suchen, in dieser Reihenfolge (nach dem, was die Suche je Hektar findet). Das ist "
     "für\n"
     "Polizei und Bergrettung, die entscheiden; es sagt nicht, wo jemand ist. Niemand geht "
     "allein.\n"},
    {"area", "Fläche"},
    {"grid reference", "Koordinaten"},
    {"hectares", "Hektar"},
    {"in 100", "von 100"},
    {"most of them", "die meisten davon"},
    {"elsewhere", "anderswo"},
    // way --conditions
    {"if the day changes", "wenn der Tag anders wird"},
    {"keep every leg", "halten alles"},
    {"end", "Ende"},
    {"slow day", "langsam"},
    {"your limits", "eure Grenzen"},
    {"then", "dann"},
    {"{}, leg {}", "{}, Abschnitt {}"},
};

}  // namespace

std::span<const ToldWord> told_words() { return table; }

std::string_view told_in(units::Language language, std::string_view english) {
  if (language == units::Language::english) return english;
  const auto* found = std::ranges::find(table, english, &ToldWord::english);
  return found == std::end(table) ? english : found->german;
}

ToldValue::ToldValue(double value) : text(fmt::format("{:.0f}", value)) {}

std::string told(units::Language language, std::string_view english,
                 std::initializer_list<ToldValue> values) {
  std::string_view words = told_in(language, english);
  std::string out;
  for (const auto& value : values) {
    const auto field = words.find("{}");
    assert(field != std::string_view::npos);
    out += std::string(words.substr(0, field)) + value.text;
    words.remove_prefix(field + 2);
  }
  return out + std::string(words);
}

}  // namespace lodeway::trip
