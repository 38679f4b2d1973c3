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
    {Say::true_to_magnetic, "True to magnetic", "Geografisch zu magnetisch"},
    {Say::true_to_grid, "True to grid", "Geografisch zu Gitter"},
    {Say::change_a_year, "Change in a year", "Änderung im Jahr"},
    {Say::map_to_compass, "Map to compass: {0} {1}", "Blatt zu Kompass: {1} {0}"},
    {Say::compass_to_map, "Compass to map: {0} {1}", "Kompass zu Blatt: {1} {0}"},
    {Say::add, "add", "dazu"},
    {Say::take_off, "take off", "abziehen"},
    {Say::not_to_scale, "not to scale", "nicht maßstäblich"},
    {Say::metres, "Metres", "Meter"},
    {Say::feet, "Feet", "Fuß"},
    {Say::double_paces_bar, "Double paces of this party, {0} to {1} on a path",
     "Doppelschritte dieser Gruppe, {0} auf {1} Weg"},
    {Say::double_paces_short, "Double paces, {0} to {1}", "Doppelschritte, {0} auf {1}"},
    {Say::paces_note, "Off paths you take more; the route card already allows for this.",
     "Abseits der Wege sind es mehr; die Marschkarte rechnet das schon ein."},
    {Say::check_line, "100 mm. Measure it. If it differs, trust no length on this sheet.",
     "100 mm. Nachmessen. Stimmt es nicht, gilt keine Länge auf diesem Kartenblatt."},
    {Say::romer, "Romer, 100 m.", "Planzeiger, 100 m."},
    {Say::romer_note,
     "Put the corner on the place. Read off the distance to the grid lines west and south of "
     "it.",
     "Ecke auf den Ort legen. Abstand zu den Gitterlinien westlich und südlich ablesen."},
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
     "Caution Nothing here says that a slope, ice or a crossing is safe. Paths, walls and "
     "bridges change: the map is as old as its sources. Follow local authorities and licensed "
     "guides.",
     "Vorsicht Nichts hier sagt, dass ein Hang, Eis oder eine Furt gefahrlos ist. Wege, "
     "Mauern und Brücken ändern sich: das Kartenblatt ist so alt wie seine Quellen. Örtlichen "
     "Behörden und geprüften Führern folgen."},
    {Say::foot_caution_short,
     "Caution Nothing here says that a slope, ice or a crossing is safe; the map is as old as "
     "its sources. Follow local authorities and licensed guides.",
     "Vorsicht Nichts hier sagt, dass ein Hang, Eis oder eine Furt gefahrlos ist; das "
     "Kartenblatt ist so alt wie seine Quellen. Örtlichen Behörden und geprüften Führern "
     "folgen."},
    {Say::danger_row, "Danger", "Gefahr"},
    {Say::map_lacks, "This map knows no {0} here: there may be some all the same.",
     "Diese Karte kennt hier keine {0}: es kann sie trotzdem geben."},
    {Say::lack_cliffs, "cliffs", "Felswände"},
    {Say::lack_lakes, "lakes", "Seen"},
    {Say::lack_rivers, "rivers", "Flüsse"},
    {Say::foot_slope,
     "Slopes are those of the height model ({0} m cells); true ground can be steeper. This is "
     "not an avalanche forecast.",
     "Hangneigung nach dem Höhenmodell ({0}-m-Zellen); das Gelände kann steiler sein. Kein "
     "Lawinenlagebericht."},
    {Say::slope_from, "Slope from", "Neigung ab"},
    {Say::sheet_of, "sheet {0} of {1}", "Blatt {0} von {1}"},
    {Say::sheets, "The sheets", "Die Blätter"},
    {Say::sheets_note,
     "A dark arrow in a sheet's margin names the sheet on which the way goes on. Neighbouring "
     "sheets share at least {0} mm of the way.",
     "Ein dunkler Pfeil am Rand nennt das Blatt, auf dem es weitergeht. Benachbarte Blätter "
     "haben mindestens {0} mm des Wegs gemeinsam."},
    {Say::unknown_licence, "licence not known", "Lizenz nicht bekannt"},
    {Say::void_note, "Part of this sheet has no heights: its ground is not known.",
     "Ein Teil dieses Blatts hat keine Höhen: das Gelände ist dort unbekannt."},
    {Say::legs, "legs {0}", "Abschnitte {0}"},
    {Say::side_of, "side {0} of {1}", "Seite {0} von {1}"},
    {Say::what_you_see, "What you see", "Was ihr seht"},
    {Say::card_head,
     "{0}, party of {1}. Bearings are magnetic, ready for the dial. Double paces allow for the "
     "ground. On the sheet 1 mm is {2}.",
     "{0}, Gruppe von {1}. Peilungen magnetisch, zum Einstellen. Doppelschritte ans Gelände "
     "angepasst. 1 mm auf dem Blatt: {2}."},
    {Say::double_paces, "double paces", "Doppelschritte"},
    {Say::minutes_short, "min", "min"},
    {Say::real, "actual", "tatsächlich"},
    {Say::turn_round, "Turn round if you are not at {0}, end of leg {1}, by",
     "Umkehren, wenn {0}, Ende von Abschnitt {1}, nicht erreicht ist bis"},
    {Say::turn_back, "then {0} back to {1}, there by {2}",
     "dann {0} zurück nach {1}, dort bis {2}"},
    {Say::before_sunset, ", before sunset at {0}", ", vor Sonnenuntergang um {0}"},
    {Say::stops_you, "Catching feature", "Auffanglinie"},
    {Say::nothing_stops, "none: rely on your count", "keine: auf die Zählung verlassen"},
    {Say::beyond, "+{0}", "+{0}"},
    {Say::keep_off, "Keep off", "Meiden"},
    {Say::if_lost, "If you miss it", "Falls verfehlt"},
    {Say::more_ticks, "Tick off", "Abhaken"},
    {Say::taken_for, "Looks like it", "Sieht gleich aus"},
    {Say::leg_note, "Note", "Hinweis"},
    {Say::way_off, "Escape route", "Notabstieg"},
    {Say::certainty_of, "{0} in 100", "{0} von 100"},
    {Say::not_judged, "not judged", "nicht beurteilt"},
    {Say::no_fix, "nothing to see", "nichts zu sehen"},
    {Say::along_the, "Along: {0}", "Entlang: {0}"},
    {Say::straight, "On the bearing, straight.", "Auf der Peilung, geradeaus."},
    {Say::aim_off_left, "Aim off left.", "Links vorbeizielen."},
    {Say::aim_off_right, "Aim off right.", "Rechts vorbeizielen."},
    {Say::then_turn, "At {0} turn {1}: {2}, {3} double paces, {4} min",
     "Bei {0} {1}: {2}, {3} Doppelschritte, {4} min"},
    {Say::dog_leg, "Dog-leg.", "Knick ohne Marke."},
    {Say::count_stop_turn, "Nothing to see at the end: count, stop, turn.",
     "Am Ende ist nichts zu sehen: zählen, anhalten, neue Richtung."},
    {Say::turn_straight_on, "straight on", "geradeaus"},
    {Say::turn_keep_left, "keep left", "links halten"},
    {Say::turn_keep_right, "keep right", "rechts halten"},
    {Say::turn_half_left, "half left", "halb links"},
    {Say::turn_half_right, "half right", "halb rechts"},
    {Say::turn_left, "left", "links"},
    {Say::turn_right, "right", "rechts"},
    {Say::turn_sharp_left, "sharp left", "scharf links"},
    {Say::turn_sharp_right, "sharp right", "scharf rechts"},
    {Say::turn_about, "back", "zurück"},
    {Say::turn_leave, "leave it, on the bearing", "verlassen, nach Peilung"},
    {Say::turn_leave_for_end, "leave it, over open ground", "verlassen, über freies Gelände"},
    {Say::turn_bearing, "by the needle, along no way", "nach der Nadel, auf keinem Weg"},
    {Say::fork_not, "; not {0}", "; nicht {0}"},
    {Say::fork_beside, "; {0} runs beside you", "; {0} führt daneben her"},
    {Say::fork_turns_off, "; {0} sets out alike and turns off", "; {0} beginnt ebenso und biegt ab"},
    {Say::fork_at, "at {0} {1}", "bei {0} {1}"},
    {Say::fork_met, "first {0} over open ground to it, there {1}",
     "zuerst {0} über freies Gelände dorthin, da {1}"},
    {Say::bend_at, "{0} at {1}", "{0} bei {1}"},
    {Say::at_the_end, "At the end", "Am Ende"},
    {Say::at_forks, "Forks", "Gabelungen"},
    {Say::sets_out, "sets out", "geht los"},
    {Say::ford, "Ford", "Furt"},
    {Say::ford_at, "after {0}: {1}", "nach {0}: {1}"},
    {Say::ford_at_start, "at the start: {0}, if you stand on its other bank",
     "am Start: {0}, wenn ihr am anderen Ufer steht"},
    {Say::ford_round, "; high water: round by {0}, {1} at {2}, at least {3} min more",
     "; Hochwasser: außen herum über {0}, {1} auf {2}, mindestens {3} min mehr"},
    {Say::ford_no_round, "; high water: turn back, no bridge over it within {0} on the map",
     "; Hochwasser: umkehren, im Umkreis von {0} ist keine Brücke darüber bekannt"},
    {Say::ford_no_bridges, "; high water: turn back, the map shows no bridges",
     "; Hochwasser: umkehren, die Karte zeigt keine Brücken"},
    {Say::upstream, "upstream", "bachaufwärts"},
    {Say::downstream, "downstream", "bachabwärts"},
    {Say::side_left, "{0} on your left", "{0} zur Linken"},
    {Say::side_right, "{0} on your right", "{0} zur Rechten"},
    {Say::left, "left", "nach links"},
    {Say::right, "right", "nach rechts"},
    {Say::lost_title, "If you do not know where you are", "Wenn ihr nicht wisst, wo ihr seid"},
    {Say::lost_1, "1. Stop, stay together. Time ________ Last known place ____________",
     "1. Anhalten, zusammenbleiben. Zeit ________ Letzter bekannter Ort ____________"},
    {Say::lost_2, "2. Height ________ The ground falls to ________°",
     "2. Höhe ________ Der Hang fällt nach ________°"},
    {Say::lost_3, "3. Which line, water or wall is near? ____________________",
     "3. Welche Linie, welches Wasser, welche Mauer ist nah? ____________________"},
    {Say::lost_4, "4. Go to the catching feature of this leg. Still unsure? Escape route: {0}.",
     "4. Zur Auffanglinie dieses Abschnitts gehen. Noch unklar? Notabstieg: {0}."},
    {Say::help, "Help", "Hilfe"},
    {Say::signal_alpine,
     "Six blasts or flashes a minute, then one minute's pause; repeat. The answer is three.",
     "Sechs Pfiffe oder Lichtzeichen je Minute, eine Minute Pause, von vorn. Antwort: drei."},
    {Say::signal_america, "Three blasts, flashes or fires, then a minute's pause; repeat.",
     "Drei Pfiffe, Lichtzeichen oder Feuer, eine Minute Pause, von vorn."},
    {Say::help_say,
     "Tell them: where (grid reference), how many, injuries, kit, your phone number.",
     "Durchgeben: wo (Koordinaten), wie viele, Verletzungen, Ausrüstung, eure Telefonnummer."},
    {Say::marks, "Marks", "Zeichen"},
    {Say::or_more, "{0} in 100 or more", "{0} von 100 oder mehr"},
    {Say::no_fix_mark, "nothing to see at the end", "am Ende nichts zu sehen"},
    {Say::end_line, "End {0}, on a slow day {1}. Your home contact raises the alarm at {2}.",
     "Ende {0}, an einem langsamen Tag {1}. Kontakt daheim alarmiert um {2}."},
    {Say::end_line_no_hour, "End {0}. No hour for home: {1} in 100 such parties stay out.",
     "Ende {0}. Keine Uhrzeit für daheim: von 100 solchen Gruppen bleiben {1} draußen."},
    {Say::start, "start", "Start"},
    {Say::turn, "turn", "Umkehr"},
    {Say::sunset, "sunset", "Sonnenuntergang"},
    {Say::home_title, "This page stays at home", "Dieses Blatt bleibt daheim"},
    {Say::home_keep,
     "Keep it where you can find it after dark. It says when to worry, and what to do then.",
     "Dort hinlegen, wo es auch im Dunkeln zu finden ist. Es sagt, ab wann Grund zur Sorge "
     "besteht und was dann zu tun ist."},
    {Say::home_for, "for {0}", "für {0}"},
    {Say::back_at, "Back at", "Zurück um"},
    {Say::due_at, "Due at", "Ankunft um"},
    {Say::worry_after, "Don't worry before", "Keine Sorge vor"},
    {Say::no_hour, "No hour can be named: {0} in 100 such parties do not come home by themselves.",
     "Keine Uhrzeit lässt sich nennen: von 100 solchen Gruppen kommen {0} nicht von selbst heim."},
    {Say::agree_hour, "Agree before they go by when you will call for help.",
     "Vor dem Aufbruch ausmachen, wann Alarm geschlagen wird."},
    {Say::act_at, "Call for help at", "Alarm um"},
    {Say::back_why, "if the day goes as planned", "wenn der Tag nach Plan läuft"},
    {Say::worry_why, "a slow day: 90 in 100 are back, if the lost find their way again",
     "langsamer Tag: 90 von 100 sind zurück, wenn Verirrte auf den Weg zurückfinden"},
    {Say::due_why, "a slow day: 90 in 100 are there, if the lost find their way again",
     "langsamer Tag: 90 von 100 sind da, wenn Verirrte auf den Weg zurückfinden"},
    {Say::act_why, "slow-day finish plus one hour of trying to phone",
     "Ende des langsamen Tags plus eine Stunde Anrufversuche"},
    {Say::do_title, "What to do, by the clock", "Was zu tun ist, nach der Uhr"},
    {Say::do_1, "If they have not called, call {0}.",
     "Haben sie sich nicht gemeldet: {0} anrufen."},
    {Say::do_2, "No answer? Call the others on this page, and anyone who may have heard from them.",
     "Keine Antwort? Die anderen auf diesem Blatt anrufen und alle, die von ihnen gehört "
     "haben können."},
    {Say::do_3,
     "Wait, and call again every twenty minutes. Phones often have no signal in the hills; "
     "silence alone is not a bad sign.",
     "Warten und alle zwanzig Minuten wieder anrufen. Am Berg gibt es oft kein Netz; Stille "
     "allein ist kein schlechtes Zeichen."},
    {Say::do_4,
     "Still nothing: call {0}. Do not wait longer, and do not wait for morning. Do not go out "
     "to search yourself.",
     "Immer noch nichts: {0} anrufen. Nicht länger warten, auch nicht bis zum Morgen. Nicht "
     "selbst suchen gehen."},
    {Say::do_5, "When they are back, tell everyone whom you called.",
     "Sind sie zurück, allen Bescheid geben, die ihr angerufen habt."},
    {Say::do_5_one_way, "When they have arrived, tell everyone whom you called.",
     "Sind sie angekommen, allen Bescheid geben, die ihr angerufen habt."},
    {Say::many_legs,
     "{0} legs. Here are the places named by the leader; the route card has all legs.",
     "{0} Abschnitte. Hier stehen die Orte der Leitung; alle Abschnitte stehen auf der "
     "Marschkarte."},
    {Say::say_title, "What to say", "Was zu sagen ist"},
    {Say::say_words,
     "“A party of {0} on foot is overdue. They left {1} at {2} on {3} for {4}, by the way on "
     "this page. They should have been back at {5}. I have their plan, grid references and "
     "phone numbers.”",
     "„Eine Gruppe von {0} zu Fuß ist überfällig. Sie ist am {3} um {2} von {1} nach {4} "
     "aufgebrochen, auf dem Weg dieses Blatts. Sie sollte um {5} zurück sein. Ich habe Plan, "
     "Koordinaten und Nummern.“"},
    {Say::say_words_one_way,
     "“A party of {0} on foot is overdue. They left {1} at {2} on {3} for {4}, by the way on "
     "this page. They were due there at {5}. I have their plan, grid references and "
     "phone numbers.”",
     "„Eine Gruppe von {0} zu Fuß ist überfällig. Sie ist am {3} um {2} von {1} nach {4} "
     "aufgebrochen, auf dem Weg dieses Blatts. Sie sollte um {5} dort sein. Ich habe Plan, "
     "Koordinaten und Nummern.“"},
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
     "They turn round if they are not at {0}, the end of leg {4}, by {1}; they are then back at "
     "{2} at about {3}. "
     "Up to that time, 90 in 100 such parties are through or back before anyone worries.",
     "Sie kehren um, wenn sie {0}, das Ende von Abschnitt {4}, nicht bis {1} erreicht haben, und "
     "sind dann etwa um {3} "
     "wieder in {2}. Bis dahin sind 90 von 100 solcher Gruppen am Ziel oder zurück, bevor "
     "sich jemand sorgt."},
    {Say::they_leave, "If they give up on {0}, they will head for {1} (up to {2} min).",
     "Brechen sie ab ({0}), gehen sie nach {1} (bis {2} min)."},
    {Say::look_first, "Search here first", "Hier zuerst suchen"},
    {Say::least_sure, "Least certain: leg {0}, {1} → {2}; {3} in 100 keep it.",
     "Am wenigsten zuverlässig: Abschnitt {0}, {1} → {2}; {3} von 100 halten ihn."},
    {Say::most_dangerous,
     "Most dangerous: leg {0}, {1} → {2}; {3} in 100 stray onto ground to keep off.",
     "Am gefährlichsten: Abschnitt {0}, {1} → {2}; {3} von 100 geraten auf zu meidendes Gelände."},
    {Say::not_got, "Asked for, not met", "Verlangt, nicht erfüllt"},
    {Say::promise,
     "This is only a plan. Weather, ground and people change it. Local authorities and rescue "
     "services decide.",
     "Das ist nur ein Plan. Wetter, Gelände und Menschen ändern ihn. Behörden und Rettung "
     "entscheiden vor Ort."},
    {Say::dark_note, "Help would be called before dark ({0}).",
     "Der Alarm liegt vor der Dunkelheit ({0})."},
    {Say::no_dark_note,
     "Help would be called after dark ({0}); a search would start without light.",
     "Der Alarm liegt nach Einbruch der Dunkelheit ({0}); eine Suche begänne ohne Licht."},
    {Say::map_title, "Where they are going, 1:{0}", "Wohin sie gehen, 1:{0}"},
    {Say::escape_title, "Escape routes", "Notabstiege"},
    {Say::escape_none, "no escape route is known to this plan",
     "diesem Plan ist kein Notabstieg bekannt"},
    {Say::escape_on_road, "the leg runs on a road", "der Abschnitt läuft auf einer Straße"},
    {Say::escape_here, "{0} is here", "{0} ist hier"},
    {Say::escape_from_end, "from its end {0}", "vom Ende aus {0}"},
    {Say::escape_back, "back the way you came to {0}", "zurück, wie ihr kamt, nach {0}"},
    {Say::escape_along, "along {0}", "entlang {0}"},
    {Say::escape_step_more, ", {0} more leg", ", noch {0} Abschnitt"},
    {Say::escape_steps_more, ", {0} more legs", ", noch {0} Abschnitte"},
    {Say::escape_after_dark, "ends after last light on a slow day",
     "endet an einem langsamen Tag nach Ende der Dämmerung"},
    {Say::escape_on_snow_slope, "over slopes of 30 to 45° that snow slides on",
     "über Hänge von 30 bis 45°, auf denen Schnee abgeht"},
    {Say::escape_on, "on along your way to {0}", "weiter auf eurem Weg nach {0}"},
    {Say::escape_or_back, "or back the way you came, {0}", "oder zurück, wie ihr kamt, {0}"},
    {Say::escape_strays, "{0} in 100 stray onto ground to keep off",
     "{0} von 100 geraten auf zu meidendes Gelände"},
    {Say::escape_find,
     "Find where you are on the left. Steps are legs: the needle as it sets out (magnetic), what "
     "you follow, how far, minutes.",
     "Links suchen, wo ihr seid. Schritte sind Abschnitte: die Nadel beim Losgehen (magnetisch), "
     "woran entlang, wie weit, Minuten."},
    {Say::escape_end_of, "end of leg {0}", "Ende von Abschnitt {0}"},
    {Say::escape_half_way, "Half way on leg {0}:", "Auf halbem Abschnitt {0}:"},
    {Say::escape_to, "to {0}", "nach {0}"},
    {Say::escape_caution,
     "An escape route is judged as your trip is and in cloud, from the map alone. Who loses the way "
     "on it may stray too, and is not counted. It is not a promise: look before you go down.",
     "Ein Notabstieg ist beurteilt wie eure Tour und bei Nebel, allein nach der Karte. Wer sich "
     "darauf verirrt, ist nicht mitgezählt. Er ist kein Versprechen: erst schauen, dann absteigen."},
    {Say::aircraft_arms,
     "To an aircraft: both arms up, we need help; one arm up, one down, we do not.",
     "Zum Luftfahrzeug: beide Arme hoch, wir brauchen Hilfe; einer hoch, einer tief, wir brauchen "
     "keine."},
    {Say::minutes_long, "minutes", "Minuten"},
    {Say::set_out, "direction to set off, and where it leads", "Richtung am Anfang, und wohin"},
    {Say::climb, "up {0}", "Anstieg {0}"},
    {Say::descent, "down {0}", "Abstieg {0}"},
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
    {Say::zone_is_utc,
     "All times here are UTC, no place's summer time. Is that the clock you walk by? If not, name "
     "the trip's zone by its city, such as Europe/Dublin.",
     "Alle Zeiten hier sind UTC, ohne Sommerzeit. Geht ihr nach dieser Uhr? Wenn nicht, gebt "
     "der Tour ihre Zeitzone, nach deren Stadt, etwa Europe/Dublin."},
    {Say::clocks_change,
     "Clocks are put {0} by {1} at {2} during this trip. Times after that are by the changed "
     "clock: change your watches, or tell everyone that you do not.",
     "Während der Tour werden die Uhren um {2} um {1} {0}gestellt. Spätere Zeiten gelten nach der "
     "umgestellten Uhr: Uhren umstellen oder allen sagen, dass ihr es nicht tut."},
    {Say::bearing_to, "{0} to {1}", "{0} nach {1}"},
    {Say::start_in_the_dark, "You start in the dark, {0} before first light.",
     "Der Aufbruch liegt im Dunkeln, {0} vor dem ersten Licht."},
    {Say::end_in_the_dark, "The way ends in the dark, {0} after last light.",
     "Der Weg endet im Dunkeln, {0} nach dem letzten Licht."},
    {Say::slow_end_in_the_dark, "On a slow day the way ends in the dark, {0} after last light.",
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
     "Im Schnee wird Gelände gemieden, das im Höhenmodell steiler als {0}° ist (übliche Praxis). "
     "Eine "
     "andere Grenze: max_slope_deg."},
    {Say::snow_aspects, "Leg {0}: {1} on ground of 30 to 45° in the height model, facing {2}.",
     "Abschnitt {0}: {1} auf Gelände von 30 bis 45° im Höhenmodell, Ausrichtung {2}."},
    {Say::snow_aspects_escape,
     "Escape route of leg {0}: {1} on ground of 30 to 45° in the height model, facing {2}.",
     "Notabstieg von Abschnitt {0}: {1} auf Gelände von 30 bis 45° im Höhenmodell, Ausrichtung "
     "{2}."},
    {Say::snow_above,
     "Snow: slopes above the way are not judged; what lies on them may come down on it. Ask the "
     "avalanche warning service of the region, and follow it.",
     "Schnee: Hänge oberhalb des Wegs sind nicht beurteilt; was dort liegt, kann herabkommen. Den "
     "Lawinenwarndienst der Region fragen und ihm folgen."},
    {Say::leg_without_stop, "Leg {0}: no catching feature beyond its end. Rely on your pace count.",
     "Abschnitt {0}: keine Auffanglinie hinter dem Ende. Auf die Zählung verlassen."},
    {Say::leg_unsure, "Leg {0}: {1} in 100 keep it; your limit is {2} in 100.",
     "Abschnitt {0}: {1} von 100 halten ihn; eure Grenze ist {2} von 100."},
    {Say::leg_near_hazard, "Leg {0}: {1} in 100 stray onto ground to keep off.",
     "Abschnitt {0}: {1} von 100 geraten auf zu meidendes Gelände."},
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
    {Say::way_unsure, "fewer than your limit of {0} in 100 keep these: {1}",
     "weniger als eure Grenze von {0} von 100 halten: {1}"},
    {Say::way_strays, "more than {0} in 100 stray onto ground to keep off: {1}",
     "mehr als {0} von 100 geraten auf zu meidendes Gelände: {1}"},
    {Say::way_late, "ends {0} after last light on a slow day; start by {1} to end before it",
     "endet an einem langsamen Tag {0} nach dem letzten Licht; wer bis {1} aufbricht, davor"},
    {Say::way_late_whenever,
     "ends {0} after last light on a slow day, even if you start at first light",
     "endet an einem langsamen Tag {0} nach dem letzten Licht, auch bei Aufbruch beim ersten "
     "Licht"},
    {Say::leg_with, "leg {0} ({1})", "Abschnitt {0} ({1})"},
    {Say::spread_at_end, "One sigma of error at the end: {0} across, {1} along.",
     "Ein Sigma des Fehlers am Ende: {0} quer, {1} längs."},
    {Say::barred_share, "{0} in 100 set foot on ground to keep off.",
     "{0} von 100 betreten zu meidendes Gelände."},
    {Say::recovery_mean, "Those who miss it need {0} minutes more, on average.",
     "Wer es verfehlt, braucht im Mittel {0} Minuten mehr."},
    {Say::both_figures, "{0} in 100 stray onto ground to keep off; {1} in 100 keep every leg.",
     "{0} von 100 geraten auf zu meidendes Gelände; {1} von 100 halten jeden Abschnitt."},
    {Say::more_fails, "and {0} more: see side 2", "und {0} mehr: siehe Seite 2"},
    {Say::full_reference, "Full references and latitude, longitude, for rescuers:",
     "Volle Koordinaten und Breite, Länge, für die Rettung:"},
    {Say::if_as_planned, "as planned", "wie geplant"},
    {Say::if_cloud, "cloud comes down", "Nebel zieht auf"},
    {Say::if_clears, "the cloud lifts", "der Nebel lichtet sich"},
    {Say::if_hour_late, "an hour late", "eine Stunde später"},
    {Say::if_streams_up, "streams up", "Bäche hoch"},
    {Say::if_slower, "a fifth slower", "ein Fünftel langsamer"},
    {Say::if_snow, "in snow", "im Schnee"},
    {Say::then_as_planned, "as planned", "wie geplant"},
    {Say::then_other_way, "take the other way: {0}", "den anderen Weg nehmen: {0}"},
    {Say::then_turn_at, "turn at {0}: {1}", "umkehren ({0}): {1}"},
    {Say::then_start_by, "start by {0}", "bis {0} aufbrechen"},
    {Say::then_stay_home, "do not start", "nicht aufbrechen"},
    {Say::one_leg, "leg {0}", "Abschnitt {0}"},
    {Say::the_plan, "The plan", "Der Plan"},
    {Say::the_ground, "The ground", "Das Gelände"},
    {Say::sign_handrail, "handrail leg", "an einer Leitlinie"},
    {Say::sign_bearing, "leg on a bearing", "auf einer Peilung"},
    {Say::sign_place, "place you can know", "erkennbarer Ort"},
    {Say::sign_attack_point, "attack point", "Ansatzpunkt"},
    {Say::sign_turn, "dog-leg turn", "Knick ohne Marke"},
    {Say::sign_error, "95 in 100 walk inside", "95 von 100 gehen darin"},
    {Say::sign_error_at_end, "95 in 100 turn inside", "95 von 100 drehen darin"},
    {Say::sign_tick_off, "tick-off feature", "Kontrollpunkt"},
    {Say::sign_catching, "catching feature", "Auffanglinie"},
    {Say::sign_aiming_off, "aiming off", "Abseitszielen"},
    {Say::sign_escape, "escape route", "Notabstieg"},
    {Say::sign_safe_ground, "escape route ends", "Ende des Notabstiegs"},
    {Say::sign_contour, "contour, {0}", "Höhenlinie, {0}"},
    {Say::sign_steep, "steeper than {0}°", "steiler als {0}°"},
    {Say::sign_closed, "no entry", "nicht betreten"},
    {Say::sign_unknown, "heights not known", "Höhen unbekannt"},
    {Say::sign_magnetic, "magnetic north", "magnetisch Nord"},
    {Say::one_flat_water,
     "The map shows no lakes: one dead-flat area of the heights is taken as water, kept off and "
     "drawn with a broken rim. There may be more water than that.",
     "Die Karte zeigt keine Seen: eine ganz ebene Fläche im Höhenmodell gilt als Wasser, wird "
     "gemieden und mit unterbrochenem Rand gezeichnet. Es kann mehr Wasser geben."},
    {Say::what_to_know, "What to know", "Was zu wissen ist"},
    {Say::overleaf,
     "On side {0}: full grid reference, latitude and longitude of each leg's end, for rescuers.",
     "Auf Seite {0}: volle Koordinaten, Breite und Länge jedes Abschnittsendes, für die Rettung."},
    {Say::no_turn_place,
     "No turn-round time: no leg ends at a place that can be recognised from which the way back "
     "is shorter than the way on.",
     "Keine Umkehrzeit: Kein Abschnitt endet an einem erkennbaren Ort, von dem der Rückweg kürzer "
     "ist als der Weg nach vorn."},
    {Say::no_turn_hour,
     "No turn-round time: the last time to turn round would be before the start.",
     "Keine Umkehrzeit: Die letzte Zeit zum Umkehren läge vor dem Aufbruch."},
    {Say::traffic, "mind the traffic", "auf den Verkehr achten"},
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
