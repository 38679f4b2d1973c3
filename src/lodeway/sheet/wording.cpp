#include "lodeway/sheet/wording.hpp"

#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/plain_text.hpp"

namespace lodeway::sheet {

namespace {

struct Entry {
  Say what;
  const char* english;
  const char* german;
};

constexpr std::array<Entry, static_cast<std::size_t>(Say::count)> table{{
    {Say::scale_line, "1 mm = {0} · {1} mm = 1 km · contours {2}",
     "1 mm = {0} · {1} mm = 1 km · Höhenlinien {2}"},
    {Say::norths_on, "Norths on {0}", "Nordrichtungen am {0}"},
    {Say::grid_to_magnetic, "Grid to magnetic", "Gitter zu magnetisch"},
    {Say::true_to_magnetic, "True to magnetic", "Geographisch zu magnetisch"},
    {Say::true_to_grid, "True to grid", "Geographisch zu Gitter"},
    {Say::change_a_year, "Change in a year", "Änderung im Jahr"},
    {Say::map_to_compass, "Map to compass: {0} {1}", "Karte zu Kompass: {1} {0}"},
    {Say::compass_to_map, "Compass to map: {0} {1}", "Kompass zu Karte: {1} {0}"},
    {Say::add, "add", "dazu"},
    {Say::take_off, "take off", "abziehen"},
    {Say::not_to_scale, "not to scale", "nicht maßstäblich"},
    {Say::metres, "Metres", "Meter"},
    {Say::feet, "Feet", "Fuß"},
    {Say::double_paces_bar, "Double paces of this party, {0} to 100 m on a path",
     "Doppelschritte dieser Gruppe, {0} auf 100 m Weg"},
    {Say::paces_note, "Off a path there are more: the card counts them in.",
     "Abseits der Wege sind es mehr: die Karte zählt sie mit."},
    {Say::check_line, "100 mm. Measure it. If it differs, trust no length on this sheet.",
     "100 mm. Nachmessen. Stimmt es nicht, gilt keine Länge auf diesem Blatt."},
    {Say::romer, "Romer, 100 m.", "Planzeiger, 100 m."},
    {Say::romer_note, "Corner on the place, read back to the lines west and south.",
     "Ecke an den Ort, zurück zu den Linien im Westen und Süden lesen."},
    {Say::foot_grid,
     "Grid {0} ({1}). The line {2} is {3} m east, the line {4} is {5} m north. A six-figure "
     "reference names a square of 100 m by its south-west corner. MGRS square {6}.",
     "Gitter {0} ({1}). Die Linie {2} ist {3} m Ost, die Linie {4} ist {5} m Nord. Eine "
     "sechsstellige Angabe nennt ein 100-m-Quadrat nach seiner Südwestecke. MGRS-Quadrat {6}."},
    {Say::foot_sources, "Sources {0}", "Quellen {0}"},
    {Say::foot_magnetism,
     "Magnetism World Magnetic Model 2025, for {0}, ± {1} (one sigma), valid to the end of 2029; "
     "rock and iron nearby are not in it.",
     "Magnetismus World Magnetic Model 2025, für {0}, ± {1} (ein Sigma), gültig bis Ende 2029; "
     "Gestein und Eisen in der Nähe sind nicht darin."},
    {Say::foot_caution,
     "Caution Nothing here says that a slope, ice or a crossing is safe. Paths, walls and bridges "
     "change: the map is as old as its sources. Follow local authorities and licensed guides.",
     "Vorsicht Nichts hier sagt, dass ein Hang, Eis oder eine Furt sicher ist. Wege, Mauern und "
     "Brücken ändern sich: die Karte ist so alt wie ihre Quellen. Örtlichen Behörden und geprüften "
     "Führern folgen."},
    {Say::foot_slope,
     "Slopes are of the height model ({0} m cells): true ground can be steeper. It is no avalanche "
     "forecast.",
     "Hangneigung nach dem Höhenmodell ({0}-m-Zellen): das Gelände kann steiler sein. Keine "
     "Lawinenvorhersage."},
    {Say::sheet_of, "sheet {0} of {1}", "Blatt {0} von {1}"},
    {Say::next_sheet, "sheet {0}", "Blatt {0}"},
    {Say::unknown_licence, "licence not known", "Lizenz nicht bekannt"},
    {Say::void_note, "Part of this sheet has no heights: its ground is not known.",
     "Ein Teil dieses Blatts hat keine Höhen: das Gelände ist dort unbekannt."},
    {Say::legs_from_to, "legs {0}–{1}", "Abschnitte {0}–{1}"},
    {Say::side_of, "side {0} of {1}", "Seite {0} von {1}"},
    {Say::what_you_see, "What you see", "Was du siehst"},
    {Say::card_head,
     "{0}, party of {1}. Bearings are magnetic, ready for the dial. Double paces allow for the "
     "ground. On the map 1 mm is {2}.",
     "{0}, Gruppe von {1}. Peilungen sind magnetisch, fertig für die Dose. Doppelschritte nach dem "
     "Boden. Auf der Karte ist 1 mm {2}."},
    {Say::double_paces, "double paces", "Doppelschritte"},
    {Say::minutes_short, "min", "min"},
    {Say::real, "real", "wirklich"},
    {Say::turn_round, "Turn round if not at {0} by", "Umkehren, wenn nicht an {0} bis"},
    {Say::turn_back, "then {0} back to {1}, there by {2}",
     "dann {0} zurück nach {1}, dort bis {2}"},
    {Say::stops_you, "Stops you", "Hält auf"},
    {Say::nothing_stops, "nothing: count", "nichts: zählen"},
    {Say::beyond, "+{0}", "+{0}"},
    {Say::keep_off, "Keep off", "Meiden"},
    {Say::if_lost, "If lost", "Verirrt"},
    {Say::way_off, "Way off", "Abstieg"},
    {Say::certainty_of, "{0} of 100", "{0} von 100"},
    {Say::not_judged, "not judged", "nicht beurteilt"},
    {Say::no_fix, "no fix", "kein Fixpunkt"},
    {Say::along_the, "Along: {0}", "Entlang: {0}"},
    {Say::straight, "On the bearing, straight.", "Auf der Peilung, geradeaus."},
    {Say::aim_off_left, "Aim off left.", "Links vorbeizielen."},
    {Say::aim_off_right, "Aim off right.", "Rechts vorbeizielen."},
    {Say::then_turn, "At {0} turn {1}, {2} to the end", "An {0} {1}, {2} bis zum Ende"},
    {Say::left, "left", "nach links"},
    {Say::right, "right", "nach rechts"},
    {Say::lost_title, "If you do not know where you are", "Wenn ihr nicht wisst, wo ihr seid"},
    {Say::lost_1, "1. Stop, together. Time ________ Last sure place ____________",
     "1. Halt, zusammen. Zeit ________ Letzter sicherer Ort ____________"},
    {Say::lost_2, "2. Height ________ Ground falls to ________°",
     "2. Höhe ________ Hang fällt nach ________°"},
    {Say::lost_3, "3. What line, water, wall is near? ____________________",
     "3. Welche Linie, Wasser, Mauer ist nah? ____________________"},
    {Say::lost_4, "4. Go to what stops this leg. Still not sure: the way off.",
     "4. Zu dem gehen, was den Abschnitt aufhält. Noch unsicher: Abstieg."},
    {Say::help, "Help", "Hilfe"},
    {Say::signal_alpine, "Six blasts or flashes a minute, one minute pause, again. Answer: three.",
     "Sechs Pfiffe oder Lichtzeichen je Minute, eine Minute Pause, wieder. Antwort: drei."},
    {Say::signal_america, "Three blasts, flashes or fires, a minute's pause, again.",
     "Drei Pfiffe, Lichtzeichen oder Feuer, eine Minute Pause, wieder."},
    {Say::help_say, "Say: grid reference, how many, what is hurt, what you have, your number.",
     "Sagen: Gitterangabe, wie viele, welche Verletzung, was ihr habt, eure Nummer."},
    {Say::marks, "Marks", "Zeichen"},
    {Say::or_more, "{0} of 100 or more", "{0} von 100 oder mehr"},
    {Say::no_fix_mark, "no fix at the end", "kein Fixpunkt am Ende"},
    {Say::end_line, "End {0}, on a slow day {1}. At home they act at {2}.",
     "Ende {0}, an einem langsamen Tag {1}. Daheim wird um {2} gehandelt."},
    {Say::start, "start", "Start"},
    {Say::turn, "turn", "Umkehr"},
    {Say::sunset, "sunset", "Sonnenuntergang"},
    {Say::home_title, "This page stays at home", "Dieses Blatt bleibt daheim"},
    {Say::back_at, "Back at", "Zurück um"},
    {Say::worry_after, "No worry until", "Keine Sorge bis"},
    {Say::act_at, "Act at", "Handeln um"},
    {Say::back_why, "if the day goes as planned", "wenn der Tag nach Plan geht"},
    {Say::worry_why, "a slow day: nine in ten such parties are back",
     "ein langsamer Tag: neun von zehn solcher Gruppen sind zurück"},
    {Say::act_why, "slow day and one hour of calling", "langsamer Tag und eine Stunde Anrufen"},
    {Say::do_title, "What to do, by the clock", "Was zu tun ist, nach der Uhr"},
    {Say::do_1, "{0}: if they have not called, call {1}.",
     "{0}: haben sie sich nicht gemeldet, {1} anrufen."},
    {Say::do_2, "No answer: call the others on this page, and anyone who may have heard from them.",
     "Keine Antwort: die anderen auf diesem Blatt anrufen und jeden, der von ihnen gehört haben "
     "kann."},
    {Say::do_3, "Wait. Call again every twenty minutes. No network is common in the hills.",
     "Warten. Alle zwanzig Minuten wieder anrufen. Kein Netz ist am Berg üblich."},
    {Say::do_4,
     "{0}: still nothing: call {1}. Do not wait longer. Do not go out to search yourself.",
     "{0}: noch nichts: {1} anrufen. Nicht länger warten. Nicht selbst suchen gehen."},
    {Say::do_5, "When they are back, tell everyone whom you called.",
     "Sind sie zurück, allen Bescheid geben, die ihr angerufen habt."},
    {Say::say_title, "What to say", "Was zu sagen ist"},
    {Say::say_words,
     "“A party of {0} on foot is overdue. They left {1} at {2} on {3} for {4}, by the way on this "
     "page. They should have been back at {5}. I have their plan, map references and numbers.”",
     "„Eine Gruppe von {0} zu Fuß ist überfällig. Sie ist am {3} um {2} von {1} nach {4} "
     "aufgebrochen, auf dem Weg dieses Blatts. Sie sollte um {5} zurück sein. Ich habe Plan, "
     "Kartenangaben und Nummern.“"},
    {Say::way_title, "The way", "Der Weg"},
    {Say::party_title, "The party", "Die Gruppe"},
    {Say::leader, "Leader", "Leitung"},
    {Say::members, "Members", "Mitglieder"},
    {Say::transport, "Transport", "Fahrzeug"},
    {Say::gear, "With them", "Dabei"},
    {Say::medical, "Medical", "Medizinisches"},
    {Say::number, "Emergency number", "Notruf"},
    {Say::blank_number, "____________ (write it here before they leave)",
     "____________ (vor dem Aufbruch hier eintragen)"},
    {Say::look_first, "Look first: {0}", "Zuerst suchen: {0}"},
    {Say::promise,
     "This plan is a plan. Weather, ground and people change it; it promises nothing. Local "
     "authorities and rescue services decide.",
     "Dieser Plan ist ein Plan. Wetter, Gelände und Menschen ändern ihn; er verspricht nichts. "
     "Behörden und Rettung entscheiden vor Ort."},
    {Say::dark_note, "The act-by time is before dark ({0}).",
     "Die Handlungszeit liegt vor der Dunkelheit ({0})."},
    {Say::no_dark_note, "The act-by time is after dark ({0}): a search would start without light.",
     "Die Handlungszeit liegt nach Einbruch der Dunkelheit ({0}): eine Suche begänne ohne Licht."},
    {Say::map_title, "Where they are going, 1 : {0}", "Wohin sie gehen, 1 : {0}"},
    {Say::escape_title, "Ways off", "Abstiege"},
    {Say::escape_none, "no way off is known to this plan", "diesem Plan ist kein Abstieg bekannt"},
    {Say::escape_caution,
     "A way off is the quickest known to the map, not a promise: look before you go down. The ways "
     "themselves are not judged for position error.",
     "Ein Abstieg ist der schnellste, den die Karte kennt, kein Versprechen: erst schauen, dann "
     "absteigen. Die Abstiege sind nicht auf Ortsfehler beurteilt."},
    {Say::distance_m, "{0}", "{0}"},
    {Say::climb, "up {0}", "auf {0}"},
    {Say::descent, "down {0}", "ab {0}"},
}};

constexpr bool in_order() {
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (static_cast<std::size_t>(table[i].what) != i) return false;
  }
  return true;
}
static_assert(in_order(), "the table stands in the order of Say");

constexpr double metres_a_foot = 0.3048, metres_a_mile = 1609.344;

}  // namespace

const char* say(Say what, units::Language language) {
  const auto& entry = table[static_cast<std::size_t>(what)];
  return language == units::Language::german ? entry.german : entry.english;
}

std::string say(Say what, units::Language language, const std::vector<std::string>& values) {
  return fill_in(say(what, language), values);
}

std::string date_text(std::chrono::year_month_day day, units::Language language) {
  constexpr const char* english_days[] = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  constexpr const char* german_days[] = {"So", "Mo", "Di", "Mi", "Do", "Fr", "Sa"};
  constexpr const char* english_months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                            "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  constexpr const char* german_months[] = {"Jan.", "Feb.", "März", "Apr.", "Mai",  "Juni",
                                           "Juli", "Aug.", "Sep.", "Okt.", "Nov.", "Dez."};
  const auto weekday = std::chrono::weekday{std::chrono::sys_days{day}}.c_encoding();
  const auto month = static_cast<unsigned>(day.month()) - 1;
  const int d = static_cast<int>(static_cast<unsigned>(day.day())),
            y = static_cast<int>(day.year());
  if (language == units::Language::german)
    return fmt::format("{} {}. {} {}", german_days[weekday], d, german_months[month], y);
  return fmt::format("{} {} {} {}", english_days[weekday], d, english_months[month], y);
}

std::string angle_text(double degrees, trip::AngleUnit unit, units::Language language,
                       int decimals) {
  const char* const side = degrees < 0 ? "W" : language == units::Language::german ? "O" : "E";
  const double size = std::abs(degrees);
  if (unit == trip::AngleUnit::mils) return fmt::format("{:.0f} mil {}", size * 6400 / 360, side);
  return fmt::format("{:.{}f}° {}", size, decimals, side);
}

std::string bearing_text(units::MagneticBearing b, trip::AngleUnit unit) {
  if (unit == trip::AngleUnit::mils)
    return fmt::format("{:04.0f}", std::fmod(std::round(b.in_mils()), 6400));
  return fmt::format("{:03.0f}", std::fmod(std::round(b.in_degrees()), 360));
}

const char* bearing_sign(trip::AngleUnit unit) {
  return unit == trip::AngleUnit::mils ? " mil" : "°";
}

std::string thousands(double value) {
  auto out = fmt::format("{:.0f}", value);
  for (auto i = static_cast<std::ptrdiff_t>(out.size()) - 3; i > 0; i -= 3) {
    out.insert(static_cast<std::size_t>(i), " ");
  }
  return out;
}

std::string length_text(double m, trip::LengthUnit unit) {
  if (unit == trip::LengthUnit::metric) return fmt::format("{:.0f} m", m);
  return m < 1000 ? fmt::format("{:.0f} ft", m / metres_a_foot)
                  : fmt::format("{:.1f} mi", m / metres_a_mile);
}

std::string height_text(double m, trip::LengthUnit unit) {
  return unit == trip::LengthUnit::metric ? fmt::format("{:.0f} m", m)
                                          : fmt::format("{:.0f} ft", m / metres_a_foot);
}

}  // namespace lodeway::sheet
