#include "lodeway/trip/verdict_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include <fmt/format.h>

#include "lodeway/trip/duration_text.hpp"
#include "lodeway/units/capital.hpp"
#include "lodeway/units/hundredths_up.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::trip {

namespace {

using units::Language;
using Two = std::array<const char*, 2>;

std::size_t at(Language language) { return language == Language::german ? 1 : 0; }

constexpr std::array<Two, 4> headlines{{{"Within your limits", "Innerhalb eurer Grenzen"},
                                        {"Close to your limits", "Nahe an euren Grenzen"},
                                        {"Not judged", "Nicht beurteilt"},
                                        {"Outside your limits", "Außerhalb eurer Grenzen"}}};

/// In the order of Fails: of the whole way. {0} value, {1} limit.
constexpr std::array<Two, fails_count> of_way{{
    {"{0} in 100 stray onto ground to keep off; your limit is {1} in 100",
     "{0} von 100 geraten auf zu meidendes Gelände; eure Grenze ist {1} von 100"},
    {"water that you do not cross bars the way", "Wasser, das ihr nicht quert, sperrt den Weg"},
    {"{0} in 100 parties like this one do not come home by themselves that day: too many to tell "
     "somebody at home when to worry",
     "{0} von 100 Gruppen wie dieser kommen an dem Tag nicht von selbst heim: zu viele, um daheim "
     "zu sagen, ab wann man sich sorgen soll"},
    {"on a slow day you are out for {0} after last light",
     "an einem langsamen Tag seid ihr noch {0} nach dem letzten Licht unterwegs"},
    {"you set out {0} before first light", "ihr brecht {0} vor dem ersten Licht auf"},
    {"you would have to turn round {0} before you are there: do not start like this",
     "ihr müsstet {0} vor der Ankunft umkehren: so nicht aufbrechen"},
    {"fewer than {1} in 100 keep a leg", "weniger als {1} von 100 halten einen Abschnitt"},
    {"the heights have a hole on the way", "die Höhen haben am Weg ein Loch"},
    {"the compass cannot be relied on here: see the note on magnetism",
     "auf den Kompass ist hier kein Verlass: siehe den Hinweis zum Magnetismus"},
    {"the ground file knows no rivers or lakes: water that stops you is not known",
     "die Geländedatei kennt keine Flüsse und Seen: Wasser, das euch aufhält, ist unbekannt"},
    {"fewer than {1} in 100 keep a leg", "weniger als {1} von 100 halten einen Abschnitt"},
    {"on a slow day only {0} are left to last light; you want {1}",
     "an einem langsamen Tag bleiben nur {0} bis zum letzten Licht; ihr wollt {1}"},
    {"water to wade", "Wasser zu durchwaten"},
}};

/// In the order of Fails: of legs. {0} the legs, {1} value, {2} limit.
constexpr std::array<Two, fails_count> of_legs{{
    {"{0}: {1} in 100 stray onto ground to keep off",
     "{0}: {1} von 100 geraten auf zu meidendes Gelände"},
    {"{0}: water that you do not cross", "{0}: Wasser, das ihr nicht quert"},
    {"{0}: not home by themselves that day", "{0}: an dem Tag nicht von selbst heim"},
    {"{0}: in the dark", "{0}: im Dunkeln"},
    {"{0}: before first light", "{0}: vor dem ersten Licht"},
    {"{0}: turn round before you are there", "{0}: umkehren vor der Ankunft"},
    {"{0}: only {1} in 100 keep it; fewer than {2} in 100 is too few",
     "{0}: nur {1} von 100 halten ihn; weniger als {2} von 100 sind zu wenig"},
    {"{0}: the heights have a hole here; climb, time and steep ground are not known",
     "{0}: die Höhen haben hier ein Loch; Anstieg, Zeit und Steilheit sind unbekannt"},
    {"{0}: the compass cannot be relied on", "{0}: auf den Kompass ist kein Verlass"},
    {"{0}: water is not known", "{0}: Wasser ist unbekannt"},
    {"{0}: {1} in 100 keep it; your limit is {2} in 100",
     "{0}: {1} von 100 halten ihn; eure Grenze ist {2} von 100"},
    {"{0}: little light left", "{0}: wenig Licht"},
    {"{0}: water to wade, no bridge", "{0}: Wasser zu durchwaten, keine Brücke"},
}};

/// {0} the legs, {1} limit, {2} the worst of them, {3} its value.
constexpr Two of_many{
    "{0}: fewer than {1} in 100 keep them; the worst is leg {2}, {3} in 100.",
    "{0}: weniger als {1} von 100 halten sie; der schlechteste ist Abschnitt {2}, "
    "{3} von 100."};

/// {0} the legs, {1} the worst of them, {2} its value.
constexpr Two of_harming{"{0} lead there most; on leg {1} it is {2} in 100{3}.",
                         "Am meisten: {0}; auf Abschnitt {1} sind es {2} von 100{3}."};

bool harms(Fails what) { return what == Fails::keep_off; }
bool keeps(Fails what) { return what == Fails::lost_leg || what == Fails::unsure_leg; }

std::string figure(Fails what, double value) {
  if (harms(what) || what == Fails::never_home) return harmed_of_hundred(value);
  if (keeps(what)) return units::of_hundred(value);
  return duration_text(std::max(1.0, std::abs(value)));
}

/// "Leg 3", "Legs 2, 5 and 6".
std::string legs_text(std::span<const int> legs, Language language) {
  const bool german = language == Language::german;
  std::string out = german            ? legs.size() > 1 ? "Abschnitte " : "Abschnitt "
                    : legs.size() > 1 ? "Legs "
                                      : "Leg ";
  for (std::size_t i = 0; i < legs.size(); ++i) {
    if (i > 0) out += i + 1 < legs.size() ? ", " : german ? " und " : " and ";
    out += std::to_string(legs[i] + 1);
  }
  return out;
}

std::string sentence(Fails what, std::span<const int> legs, double value, double limit,
                     Language language, const std::string& place = {}) {
  const auto which = static_cast<std::size_t>(what);
  if (legs.empty()) {
    return units::capital(fmt::format(fmt::runtime(of_way[which][at(language)]),
                                      figure(what, value),
                               figure(what, limit))) +
           ".";
  }
  return fmt::format(fmt::runtime(of_legs[which][at(language)]), legs_text(legs, language),
                     figure(what, value), figure(what, limit)) +
         place + ".";
}

/// ": Orrin Scar, cliff, 30 m to your right"
std::string place_of(const Reason& reason) {
  return reason.where.empty() ? "" : ": " + reason.where;
}

}  // namespace

std::string harmed_of_hundred(double chance) {
  return std::to_string(units::hundredths_up(chance));
}

std::string verdict_headline(Band band, Language language) {
  return headlines[static_cast<std::size_t>(band)][at(language)];
}

std::string within_caution(Language language) {
  return language == Language::german ? "Das heißt nicht, dass das Gelände ungefährlich ist."
                                      : "That does not mean that the ground holds no danger.";
}

std::string kept_words(std::optional<double> walked, double averaged, double as_known,
                       Language language) {
  const auto mean = units::of_hundred(averaged), known = units::of_hundred(as_known);
  if (!walked) {
    if (mean == known) return "";
    return fmt::format(fmt::runtime(language == Language::german
                                        ? "{} von 100 sind gemittelt über das, was man von dieser "
                                          "Gruppe nicht weiß; nähme man ihre Zahlen als gewiss: {}."
                                        : "{} in 100 is the mean over what is not known of this "
                                          "party; with its figures taken as known: {}."),
                       mean, known);
  }
  const auto share = units::of_hundred(*walked);
  if (share == mean && mean == known) return "";
  const bool german = language == Language::german;
  auto out = fmt::format(
      fmt::runtime(german ? "Simuliert, niemand wird auf den Weg zurückgesetzt: {} von 100. "
                            "Berechnet: {}."
                          : "Simulated, nobody put back on the way: {} in 100. Predicted: {}."),
      share, mean);
  if (share != mean) out += german ? " Genannt wird die kleinere." : " The lower is told.";
  return out + fmt::format(fmt::runtime(german ? " Mit den Zahlen der Gruppe als gewiss: {}."
                                               : " With the party's figures taken as known: {}."),
                           known);
}

std::string reason_words(const Reason& reason, Language language) {
  const std::array one{reason.leg};
  return sentence(reason.what, std::span(one).first(reason.leg < 0 ? 0 : 1), reason.value,
                  reason.limit, language, place_of(reason));
}

std::string leg_reason_words(const Reason& reason, Language language) {
  const auto text = reason_words(reason, language);
  const auto colon = text.find(": ");
  return reason.leg < 0 || colon == std::string::npos ? text
                                                      : units::capital(text.substr(colon + 2));
}

std::vector<std::string> verdict_sentences(const Verdict& verdict, Language language) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < verdict.reasons.size();) {
    const auto& first = verdict.reasons[i];
    std::vector<int> legs;
    const double worst = first.value;  // reasons of one kind stand worst first
    std::size_t next = i;
    while (next < verdict.reasons.size() && verdict.reasons[next].what == first.what &&
           (verdict.reasons[next].leg < 0) == (first.leg < 0)) {
      if (first.leg >= 0) legs.push_back(verdict.reasons[next].leg);
      ++next;
    }
    const bool many = legs.size() > 1;
    if (many) std::ranges::sort(legs);
    if (many && harms(first.what)) {
      out.push_back(fmt::format(fmt::runtime(of_harming[at(language)]), legs_text(legs, language),
                                first.leg + 1, figure(first.what, worst), place_of(first)));
    } else if (many && keeps(first.what)) {
      out.push_back(fmt::format(fmt::runtime(of_many[at(language)]), legs_text(legs, language),
                                figure(first.what, first.limit), first.leg + 1,
                                figure(first.what, worst)));
    } else {
      out.push_back(sentence(first.what, legs, worst, first.limit, language, place_of(first)));
    }
    i = next;
  }
  return out;
}

}  // namespace lodeway::trip
