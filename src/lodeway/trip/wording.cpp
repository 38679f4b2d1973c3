#include "lodeway/trip/wording.hpp"

#include <array>

namespace lodeway::trip {

namespace {

struct Entry {
  Say what;
  const char* english;
  const char* german;
};

constexpr std::array<Entry, static_cast<std::size_t>(Say::count)> table{{
    {Say::scale_line, "1 mm = {0} · {1} mm = {3} · contours {2}",
     "1 mm = {0} · {1} mm = {3} · Höhenlinien {2}"},
    {Say::norths_on, "Norths on {0}", "Nordrichtungen am {0}"},
    {Say::grid_letter, "G", "Gi"},
    {Say::true_letter, "T", "Ge"},
    {Say::magnetic_letter, "M", "M"},
    {Say::east_letter, "E", "O"},
    {Say::west_letter, "W", "W"},
    {Say::grid_to_magnetic, "Grid to magnetic", "Gitter zu magnetisch"},
    {Say::true_to_magnetic, "True to magnetic", "Geogr. zu magnetisch"},
    {Say::true_to_grid, "True to grid", "Geogr. zu Gitter"},
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
    {Say::double_paces_short, "Double paces, {0} to 100 m", "Doppelschritte, {0} auf 100 m"},
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
    {Say::foot_grid_short, "Grid {0} ({1}), MGRS {6}. Line {2}: {3} m east, line {4}: {5} m north.",
     "Gitter {0} ({1}), MGRS {6}. Linie {2}: {3} m Ost, Linie {4}: {5} m Nord."},
    {Say::foot_sources, "Sources {0}", "Quellen {0}"},
    {Say::foot_magnetism,
     "Magnetism World Magnetic Model 2025, for {0}, ± {1} (one sigma). Bearings hold to half a "
     "degree to the end of {2}; rock and iron nearby are not in them.",
     "Magnetismus World Magnetic Model 2025, für {0}, ± {1} (ein Sigma). Die Peilungen gelten auf "
     "ein halbes Grad bis Ende {2}; Gestein und Eisen in der Nähe sind nicht darin."},
    {Say::foot_magnetism_short,
     "Magnetism WMM 2025 for {0}, ± {1}; to half a degree to the end of {2}; not rock and iron "
     "nearby.",
     "Magnetismus WMM 2025 für {0}, ± {1}; auf ein halbes Grad bis Ende {2}; ohne Gestein und "
     "Eisen."},
    {Say::foot_caution,
     "Caution Nothing here says that a slope, ice or a crossing is safe. Paths, walls and bridges "
     "change: the map is as old as its sources. Follow local authorities and licensed guides.",
     "Vorsicht Nichts hier sagt, dass ein Hang, Eis oder eine Furt sicher ist. Wege, Mauern und "
     "Brücken ändern sich: die Karte ist so alt wie ihre Quellen. Örtlichen Behörden und geprüften "
     "Führern folgen."},
    {Say::foot_caution_short,
     "Caution Nothing here says that a slope, ice or a crossing is safe; the map is as old as its "
     "sources. Follow local authorities and licensed guides.",
     "Vorsicht Nichts hier sagt, dass ein Hang, Eis oder eine Furt sicher ist; die Karte ist so "
     "alt "
     "wie ihre Quellen. Örtlichen Behörden und geprüften Führern folgen."},
    {Say::foot_slope,
     "Slopes are of the height model ({0} m cells): true ground can be steeper. It is no avalanche "
     "forecast.",
     "Hangneigung nach dem Höhenmodell ({0}-m-Zellen): das Gelände kann steiler sein. Keine "
     "Lawinenvorhersage."},
    {Say::slope_from, "Slope from", "Neigung ab"},
    {Say::sheet_of, "sheet {0} of {1}", "Blatt {0} von {1}"},
    {Say::sheets, "The sheets", "Die Blätter"},
    {Say::sheets_note,
     "A dark arrow in a sheet's margin names the sheet on which the way goes on. Neighbouring "
     "sheets "
     "share {0} mm of the way at least.",
     "Ein dunkler Pfeil am Rand eines Blatts nennt das Blatt, auf dem es weitergeht. Benachbarte "
     "Blätter haben wenigstens {0} mm des Wegs gemeinsam."},
    {Say::unknown_licence, "licence not known", "Lizenz nicht bekannt"},
    {Say::void_note, "Part of this sheet has no heights: its ground is not known.",
     "Ein Teil dieses Blatts hat keine Höhen: das Gelände ist dort unbekannt."},
    {Say::legs, "legs {0}", "Abschnitte {0}"},
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
    {Say::before_sunset, ", before sunset at {0}", ", vor Sonnenuntergang um {0}"},
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
    {Say::then_turn, "At {0} turn {1}: {2}, {3} double paces, {4} min",
     "An {0} {1}: {2}, {3} Doppelschritte, {4} min"},
    {Say::dog_leg, "Dog-leg.", "Knick."},
    {Say::count_stop_turn, "Nothing to see at the end: count, stop, turn.",
     "Am Ende ist nichts zu sehen: zählen, halten, drehen."},
    {Say::side_left, "{0} on your left", "{0} zur Linken"},
    {Say::side_right, "{0} on your right", "{0} zur Rechten"},
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
    {Say::end_line, "End {0}, on a slow day {1}. Your home contact raises the alarm at {2}.",
     "Ende {0}, an einem langsamen Tag {1}. Der Kontakt daheim alarmiert um {2}."},
    {Say::start, "start", "Start"},
    {Say::turn, "turn", "Umkehr"},
    {Say::sunset, "sunset", "Sonnenuntergang"},
    {Say::home_title, "This page stays at home", "Dieses Blatt bleibt daheim"},
    {Say::home_keep,
     "Keep it where you can find it after dark. It says when to worry, and what to do then.",
     "Dort hinlegen, wo es auch im Dunkeln zu finden ist. Es sagt, ab wann Sorge richtig ist und "
     "was "
     "dann zu tun ist."},
    {Say::home_for, "for {0}", "für {0}"},
    {Say::back_at, "Back at", "Zurück um"},
    {Say::due_at, "Due at", "Ankunft um"},
    {Say::worry_after, "No worry until", "Keine Sorge bis"},
    {Say::act_at, "Call for help at", "Alarm um"},
    {Say::back_why, "if the day goes as planned", "wenn der Tag nach Plan geht"},
    {Say::worry_why, "a slow day: nine in ten such parties are back",
     "ein langsamer Tag: neun von zehn solcher Gruppen sind zurück"},
    {Say::due_why, "a slow day: 90 in 100 such parties are there",
     "ein langsamer Tag: 90 von 100 solcher Gruppen sind angekommen"},
    {Say::act_why, "slow day and one hour of calling", "langsamer Tag und eine Stunde Anrufen"},
    {Say::do_title, "What to do, by the clock", "Was zu tun ist, nach der Uhr"},
    {Say::do_1, "If they have not called, call {0}.",
     "Haben sie sich nicht gemeldet, {0} anrufen."},
    {Say::do_2, "No answer: call the others on this page, and anyone who may have heard from them.",
     "Keine Antwort: die anderen auf diesem Blatt anrufen und jeden, der von ihnen gehört haben "
     "kann."},
    {Say::do_3, "Wait. Call again every twenty minutes. No network is common in the hills.",
     "Warten. Alle zwanzig Minuten wieder anrufen. Kein Netz ist am Berg üblich."},
    {Say::do_4,
     "Still nothing: call {0}. Do not wait longer, not for morning. Do not go out to search "
     "yourself.",
     "Noch nichts: {0} anrufen. Nicht länger warten, nicht bis zum Morgen. Nicht selbst suchen "
     "gehen."},
    {Say::do_5, "When they are back, tell everyone whom you called.",
     "Sind sie zurück, allen Bescheid geben, die ihr angerufen habt."},
    {Say::do_5_one_way, "When they have arrived, tell everyone whom you called.",
     "Sind sie angekommen, allen Bescheid geben, die ihr angerufen habt."},
    {Say::many_legs, "{0} legs; the places named by the leader are here, all legs are on the card.",
     "{0} Abschnitte; hier die Orte der Leitung, alle Abschnitte stehen auf der Karte."},
    {Say::say_title, "What to say", "Was zu sagen ist"},
    {Say::say_words,
     "“A party of {0} on foot is overdue. They left {1} at {2} on {3} for {4}, by the way on this "
     "page. They should have been back at {5}. I have their plan, map references and numbers.”",
     "„Eine Gruppe von {0} zu Fuß ist überfällig. Sie ist am {3} um {2} von {1} nach {4} "
     "aufgebrochen, auf dem Weg dieses Blatts. Sie sollte um {5} zurück sein. Ich habe Plan, "
     "Kartenangaben und Nummern.“"},
    {Say::say_words_one_way,
     "“A party of {0} on foot is overdue. They left {1} at {2} on {3} for {4}, by the way on this "
     "page. They were due there at {5}. I have their plan, map references and numbers.”",
     "„Eine Gruppe von {0} zu Fuß ist überfällig. Sie ist am {3} um {2} von {1} nach {4} "
     "aufgebrochen, auf dem Weg dieses Blatts. Sie sollte um {5} dort sein. Ich habe Plan, "
     "Kartenangaben und Nummern.“"},
    {Say::way_title, "The way", "Der Weg"},
    {Say::party_of, "The party of {0}", "Die Gruppe, {0} Personen"},
    {Say::leader, "Leader", "Leitung"},
    {Say::members, "Members", "Mitglieder"},
    {Say::transport, "Transport", "Fahrzeug"},
    {Say::gear, "With them", "Dabei"},
    {Say::medical, "Medical", "Medizinisches"},
    {Say::clothing, "Clothing", "Kleidung"},
    {Say::beacon, "Beacon", "Notsender"},
    {Say::experience, "Experience", "Erfahrung"},
    {Say::check_in, "Will call", "Meldet sich"},
    {Say::number, "Emergency number", "Notruf"},
    {Say::blank_number, "____________ (write it here before they leave)",
     "____________ (vor dem Aufbruch hier eintragen)"},
    {Say::goes_wrong, "If it goes wrong", "Wenn es anders kommt"},
    {Say::they_turn,
     "They turn round if they are not at {0} by {1}, and are then back at {2} about {3}. "
     "It is the last time from which nine in ten such parties are through or back before anybody "
     "worries.",
     "Sie kehren um, wenn sie nicht bis {1} an {0} sind, und sind dann etwa um {3} wieder in {2}. "
     "Später könnten neun von zehn solcher Gruppen nicht mehr am Ziel oder zurück sein, bevor "
     "sich jemand sorgt."},
    {Say::they_leave, "From legs {0} they go off to {1}: up to {2} min.",
     "Von den Abschnitten {0} steigen sie ab nach {1}: bis {2} min."},
    {Say::look_first, "Search here first", "Zuerst hier suchen"},
    {Say::least_sure, "Least certain: leg {0}, {1} → {2}; {3} in 100 keep it.",
     "Am wenigsten zuverlässig: Abschnitt {0}, {1} → {2}; {3} von 100 halten ihn."},
    {Say::most_dangerous,
     "Most dangerous: leg {0}, {1} → {2}; {3} in 100 stray onto ground to keep off.",
     "Am gefährlichsten: Abschnitt {0}, {1} → {2}; {3} von 100 geraten auf zu meidendes Gelände."},
    {Say::not_got, "Asked for, not met", "Verlangt, nicht erfüllt"},
    {Say::promise,
     "This plan is a plan. Weather, ground and people change it; it promises nothing. Local "
     "authorities and rescue services decide.",
     "Dieser Plan ist ein Plan. Wetter, Gelände und Menschen ändern ihn; er verspricht nichts. "
     "Behörden und Rettung entscheiden vor Ort."},
    {Say::dark_note, "Help would be called before dark ({0}).",
     "Der Alarm käme vor der Dunkelheit ({0})."},
    {Say::no_dark_note,
     "Help would be called after dark ({0}): a search would start without light.",
     "Der Alarm käme nach Einbruch der Dunkelheit ({0}): eine Suche begänne ohne Licht."},
    {Say::map_title, "Where they are going, 1 : {0}", "Wohin sie gehen, 1 : {0}"},
    {Say::escape_title, "Ways off", "Abstiege"},
    {Say::escape_none, "no way off is known to this plan", "diesem Plan ist kein Abstieg bekannt"},
    {Say::escape_on_road, "the leg runs on a road", "der Abschnitt läuft auf einer Straße"},
    {Say::escape_caution,
     "A way off is the quickest known to the map, not a promise: look before you go down. The ways "
     "themselves are not judged for position error.",
     "Ein Abstieg ist der schnellste, den die Karte kennt, kein Versprechen: erst schauen, dann "
     "absteigen. Die Abstiege sind nicht auf Ortsfehler beurteilt."},
    {Say::aircraft_arms,
     "To an aircraft: both arms up, we need help; one arm up, one down, we do not.",
     "Zum Luftfahrzeug: beide Arme hoch, wir brauchen Hilfe; einer hoch, einer tief, wir brauchen "
     "keine."},
    {Say::minutes_long, "minutes", "Minuten"},
    {Say::set_out, "set out, and where to", "losgehen, und wohin"},
    {Say::climb, "up {0}", "auf {0}"},
    {Say::descent, "down {0}", "ab {0}"},
    {Say::weak_field, "Weak magnetic field: a compass may be off by many degrees, {0}",
     "Magnetfeld schwach: der Kompass kann um viele Grad falsch zeigen, {0}"},
    {Say::no_compass, "Do not use a compass here, the field is only {0}",
     "Hier keinen Kompass benutzen, Magnetfeld nur {0}"},
    {Say::sun_stays_up, "the sun does not set", "die Sonne geht nicht unter"},
    {Say::sun_stays_down, "the sun does not rise", "die Sonne geht nicht auf"},
    {Say::light_all_night, "it does not get dark that night",
     "es wird in dieser Nacht nicht dunkel"},
    {Say::dark_all_day, "it stays dark all day, without twilight",
     "es bleibt den ganzen Tag dunkel, ohne Dämmerung"},
    {Say::zone_off_sun,
     "Is the time zone right? Without summer time the clock of {0} is {1} {2} the sun at the "
     "start. Every time here is by that zone.",
     "Stimmt die Zeitzone? Ohne Sommerzeit geht die Uhr von {0} gegenüber der Sonne am Start {1} "
     "{2}. Alle Zeiten hier sind nach dieser Zone."},
    {Say::clocks_change,
     "Clocks are put {0} by {1} at {2} during this trip. Times after that are by the changed "
     "clock: change your watches, or tell everyone that you do not.",
     "Während der Tour werden die Uhren um {2} um {1} {0}gestellt. Spätere Zeiten gelten nach der "
     "umgestellten Uhr: Uhren umstellen oder allen sagen, dass ihr es nicht tut."},
    {Say::bearing_to, "{0} to {1}", "{0} nach {1}"},
    {Say::start_in_the_dark, "The start is in the dark, {0} before first light.",
     "Der Aufbruch liegt im Dunkeln, {0} vor der Dämmerung."},
    {Say::end_in_the_dark, "The way ends in the dark, {0} after the last light.",
     "Der Weg endet im Dunkeln, {0} nach dem letzten Licht."},
    {Say::slow_end_in_the_dark, "On a slow day the way ends in the dark, {0} after the last light.",
     "An einem langsamen Tag endet der Weg im Dunkeln, {0} nach dem letzten Licht."},
    {Say::end_after_sunset, "The way ends {0} after sunset.",
     "Der Weg endet {0} nach Sonnenuntergang."},
    {Say::leg_over_void, "Leg {0}: the height model has a hole here; climb and time are not known.",
     "Abschnitt {0}: das Höhenmodell hat hier ein Loch; Anstieg und Zeit sind unbekannt."},
    {Say::leg_is_steep, "Leg {0}: {1} on ground steeper than {2}° in the height model.",
     "Abschnitt {0}: {1} auf Gelände, das im Höhenmodell steiler als {2}° ist."},
    {Say::snow_limit,
     "In snow ground steeper than {0}° in the height model is kept off (practice). Another limit: "
     "max_slope_deg.",
     "Im Schnee wird Gelände gemieden, das im Höhenmodell steiler als {0}° ist (Übung). Eine "
     "andere Grenze: max_slope_deg."},
    {Say::snow_aspects, "Leg {0}: {1} on ground of 30 to 45° in the height model, facing {2}.",
     "Abschnitt {0}: {1} auf Gelände von 30 bis 45° im Höhenmodell, Ausrichtung {2}."},
    {Say::snow_aspects_escape,
     "Escape route of leg {0}: {1} on ground of 30 to 45° in the height model, facing {2}.",
     "Ausweg von Abschnitt {0}: {1} auf Gelände von 30 bis 45° im Höhenmodell, Ausrichtung {2}."},
    {Say::snow_above,
     "Snow: slopes above the way are not judged; what lies on them may come down on it. Ask the "
     "avalanche warning service of the region, and follow it.",
     "Schnee: Hänge oberhalb des Wegs sind nicht beurteilt; was dort liegt, kann herabkommen. Den "
     "Lawinenwarndienst der Region fragen und ihm folgen."},
    {Say::leg_without_stop, "Leg {0}: nothing stops you if you go past its end: count.",
     "Abschnitt {0}: nichts hält euch auf, wenn ihr zu weit geht: zählen."},
    {Say::leg_unsure, "Leg {0}: {1} of 100 parties end where they should; you asked for {2}.",
     "Abschnitt {0}: {1} von 100 Gruppen kommen an, wo sie sollen; verlangt sind {2}."},
    {Say::leg_near_hazard, "Leg {0}: {1} of 100 parties stray onto ground to keep off.",
     "Abschnitt {0}: {1} von 100 Gruppen geraten auf zu meidendes Gelände."},
    {Say::no_lines, "The ground file has no lines: paths, water and walls are not known.",
     "Die Geländedatei hat keine Linien: Wege, Wasser und Mauern sind unbekannt."},
    {Say::flat_water,
     "The map shows no lakes: {0} dead-flat areas of the heights are taken as water, kept off and "
     "drawn with a broken rim. There may be more water than that.",
     "Die Karte zeigt keine Seen: {0} ganz ebene Flächen im Höhenmodell gelten als Wasser, werden "
     "gemieden und mit unterbrochenem Rand gezeichnet. Es kann mehr Wasser geben."},
    {Say::licence_not_known, "Licence of {0} is not known.", "Lizenz von {0} ist nicht bekannt."},
    {Say::no_emergency_number, "No emergency number is given: write it on the home note.",
     "Keine Notrufnummer angegeben: auf dem Zettel für daheim nachtragen."},
    {Say::nobody_at_home, "Nobody at home is named.", "Niemand daheim ist genannt."},
    {Say::way_unsure, "less sure than the {0} of 100 asked for on each leg: {1}",
     "unsicherer als die {0} von 100, die auf jedem Abschnitt verlangt sind: {1}"},
    {Say::way_strays, "more than {0} of 100 stray onto ground to keep off: {1}",
     "mehr als {0} von 100 geraten auf zu meidendes Gelände: {1}"},
    {Say::way_late, "ends {0} after last light on a slow day; who starts by {1} ends before it",
     "endet an einem langsamen Tag {0} nach dem letzten Licht; wer bis {1} aufbricht, davor"},
    {Say::way_late_whenever,
     "ends {0} after last light on a slow day; who starts at first light does too",
     "endet an einem langsamen Tag {0} nach dem letzten Licht, auch bei Aufbruch in der Dämmerung"},
    {Say::leg_with, "leg {0} ({1})", "Abschnitt {0} ({1})"},
    {Say::spread_at_end, "One sigma of error at the end: {0} across, {1} along.",
     "Ein Sigma des Fehlers am Ende: {0} quer, {1} längs."},
    {Say::barred_share, "{0} of 100 set foot on ground that is barred.",
     "{0} von 100 betreten gesperrtes Gelände."},
    {Say::recovery_mean, "Those who miss need {0} minutes more, on average.",
     "Wer es verfehlt, braucht im Mittel {0} Minuten mehr."},
    {Say::both_figures, "{0} in 100 stray onto ground to keep off; {1} in 100 keep every leg.",
     "{0} von 100 geraten auf zu meidendes Gelände; {1} von 100 halten jeden Abschnitt."},
    {Say::more_fails, "and {0} more: see the warnings", "und {0} mehr: siehe Warnungen"},
    {Say::full_reference, "Full references and latitude, longitude, for rescuers:",
     "Volle Koordinaten und Breite, Länge, für die Rettung:"},
}};

constexpr bool in_order() {
  for (std::size_t i = 0; i < table.size(); ++i) {
    if (static_cast<std::size_t>(table[i].what) != i) return false;
  }
  return true;
}
static_assert(in_order(), "the table stands in the order of Say");

}  // namespace

const char* say(Say what, units::Language language) {
  const auto& entry = table[static_cast<std::size_t>(what)];
  return language == units::Language::german ? entry.german : entry.english;
}

std::string say(Say what, units::Language language, const std::vector<std::string>& values) {
  const std::string_view form = say(what, language);
  std::string out;
  for (std::size_t i = 0; i < form.size(); ++i) {
    if (form[i] == '{' && i + 2 < form.size() && form[i + 2] == '}' && form[i + 1] >= '0' &&
        form[i + 1] <= '9') {
      const auto n = static_cast<std::size_t>(form[i + 1] - '0');
      if (n < values.size()) out += values[n];
      i += 2;
    } else {
      out += form[i];
    }
  }
  return out;
}

}  // namespace lodeway::trip
