#include "apps/cli/help_words.hpp"

#include <algorithm>
#include <iterator>

namespace lodeway::cli {

namespace {

constexpr HelpWord table[] = {
    // the frame of every help
    {"Usage", "Aufruf"},
    {"OPTIONS", "OPTIONEN"},
    {"COMMAND", "BEFEHL"},
    {"Arguments", "Angaben"},
    {"Options", "Optionen"},
    {"Commands", "Befehle"},
    {"REQUIRED", "NOTWENDIG"},
    {"TEXT", "TEXT"},
    {"NUMBER", "ZAHL"},
    {"Show this help", "Diese Hilfe zeigen"},
    {"Show the version", "Die Version zeigen"},
    // what stands for a word of the line
    {"PLACE", "ORT"},
    {"DATE", "DATUM"},
    {"TRIP", "TOUR"},
    {"GROUND", "GELÄNDE"},
    {"FILE", "DATEI"},
    {"OUT", "ZIEL"},
    {"PARTY", "GRUPPE"},
    // the program
    {"Lodeway prepares, proves and prints a journey on foot by map and compass.",
     "Lodeway plant, prüft und druckt eine Tour zu Fuß mit Karte und Kompass."},
    {"Whose work is inside, with the licences", "Wessen Arbeit darin steckt, mit den Lizenzen"},
    // what several commands have
    {"Angles in degrees or mils (6400 a turn)", "Winkel in Grad oder Strich (6400 im Vollkreis)"},
    {"Lengths metric or imperial (feet, miles)", "Längen metrisch oder britisch (Fuß, Meilen)"},
    {"Language of the answer", "Sprache der Antwort"},
    {"Answer as JSON, figures unrounded, units in the names",
     "Antwort als JSON, Zahlen ungerundet, Einheiten in den Namen"},
    {"Answer as JSON, figures unrounded", "Antwort als JSON, Zahlen ungerundet"},
    {"Answer as JSON", "Antwort als JSON"},
    {"As JSON", "Als JSON"},
    {"The trip file (TOML)", "Die Tourdatei (TOML)"},
    {"The ground file", "Die Geländedatei"},
    {"The ground file to write", "Die Geländedatei, die entsteht"},
    {"Another ground file than the trip names", "Eine andere Geländedatei, als die Tour nennt"},
    {"Which of the ways found, instead of what the trip file picks",
     "Welcher der gefundenen Wege, statt der Wahl in der Tourdatei"},
    {"Place", "Ort"},
    {"Day, for the declination", "Tag, für die Missweisung"},
    // north
    {"True, grid and magnetic north at a place and date",
     "Geografisch, Gitter- und Magnetisch-Nord an einem Ort und Tag"},
    {"Example: lodeway north --at \"53.0685 -4.0763\" --date 2026-07-01\n"
     "PLACE is MGRS, UTM, or latitude and longitude (decimal, or degrees minutes seconds).",
     "Beispiel: lodeway north --at \"53.0685 -4.0763\" --date 2026-07-01\n"
     "ORT ist MGRS, UTM oder Breite und Länge (dezimal, oder Grad Minuten Sekunden)."},
    {"Day, 2025-01-01 to 2029-12-31", "Tag, 2025-01-01 bis 2029-12-31"},
    {"Metres above the ellipsoid; hardly matters on foot",
     "Meter über dem Ellipsoid; zu Fuß kaum von Belang"},
    // leg
    {"One leg between two places: bearings, millimetres, paces, minutes",
     "Ein Abschnitt zwischen zwei Orten: Peilungen, Millimeter, Schritte, Minuten"},
    {"Example: lodeway leg --from \"30UVD 27884 80432\" --to \"30UVD 28700 81200\" --date "
     "2026-07-01\n"
     "Bearings are those at the start. Minutes are for flat ground; `lodeway way` adds the "
     "climb.\n"
     "Millimetres are measured on the map's grid, double paces and minutes on the ground.\n"
     "With a stride of 0.8 m, 625 double paces make 1 km; if you count 620, you stop 8 m short.",
     "Beispiel: lodeway leg --from \"30UVD 27884 80432\" --to \"30UVD 28700 81200\" --date "
     "2026-07-01\n"
     "Peilungen gelten am Anfang. Minuten gelten in der Ebene; `lodeway way` rechnet den Anstieg "
     "dazu.\n"
     "Millimeter sind im Gitter der Karte gemessen, Doppelschritte und Minuten im Gelände.\n"
     "Bei 0,8 m Schrittlänge sind 625 Doppelschritte 1 km; zählt ihr 620, fehlen 8 m."},
    {"Start", "Anfang"},
    {"End", "Ende"},
    {"Map scale, 25000 for 1:25 000", "Kartenmaßstab, 25000 für 1:25 000"},
    {"One step, metres; a double pace is two", "Ein Schritt, Meter; ein Doppelschritt sind zwei"},
    {"Speed on the flat, km/h", "Tempo in der Ebene, km/h"},
    // sun
    {"First light, sunrise, sunset and last light at a place and date",
     "Erstes Licht, Sonnenaufgang, Sonnenuntergang und letztes Licht an einem Ort und Tag"},
    {"Example: lodeway sun --at \"60.39 5.32\" --date 2026-07-01 --zone Europe/Oslo",
     "Beispiel: lodeway sun --at \"60.39 5.32\" --date 2026-07-01 --zone Europe/Oslo"},
    {"Local day", "Tag am Ort"},
    {"Time zone by its IANA name, like Europe/Oslo",
     "Zeitzone mit ihrem IANA-Namen, wie Europe/Oslo"},
    // reckon
    {"How often a leg on a bearing is kept, and how long it may be",
     "Wie oft ein Abschnitt nach Peilung gehalten wird, und wie lang er sein darf"},
    {"The errors are one sigma. What is not given comes from the table of common practice in\n"
     "docs/method/dead-reckoning.md. A given bearing sigma is the whole error of the bearing, a "
     "given\n"
     "distance sigma the whole error of the distance.\n"
     "Examples: lodeway reckon --length 800 --visibility cloud --target point --seen-from 40\n"
     "          lodeway reckon --length 800 --target line --crossing-angle 70 --json",
     "Die Fehler sind ein Sigma: 68 von 100 liegen darin. Was nicht angegeben ist, kommt aus der\n"
     "Tabelle üblicher Praxis in docs/method/dead-reckoning.md. --bearing-sigma ist der ganze "
     "Fehler\n"
     "der Peilung, --distance-sigma der ganze Fehler der Strecke.\n"
     "Beispiele: lodeway reckon --length 800 --visibility cloud --target point --seen-from 40\n"
     "           lodeway reckon --length 800 --target line --crossing-angle 70 --json"},
    {"Length of the leg, metres", "Länge des Abschnitts, Meter"},
    {"point or line", "point (Punkt) oder line (Linie)"},
    {"From how far the point is seen, metres", "Aus welcher Entfernung man den Punkt sieht, Meter"},
    {"Angle between leg and line, degrees, above 0 to 90",
     "Winkel zwischen Abschnitt und Linie, Grad, über 0 bis 90"},
    {"baseplate or mirror", "baseplate (Plattenkompass) oder mirror (Spiegelkompass)"},
    {"clear, cloud, night or snow",
     "clear (klar), cloud (Nebel), night (Nacht) oder snow (Schneedecke)"},
    {"novice, practised or expert", "novice (Anfänger), practised (geübt) oder expert (erfahren)"},
    {"Error of the bearing, per leg, degrees", "Fehler der Peilung, je Abschnitt, Grad"},
    {"Error of each sighting, degrees", "Fehler jeder einzelnen Anpeilung, Grad"},
    {"Length of one sighting, metres", "Länge einer Anpeilung, Meter"},
    {"Error of the distance, as a fraction", "Fehler der Strecke, als Bruchteil"},
    // ground
    {"Ground files: everything known about an area",
     "Geländedateien: alles, was über ein Gebiet bekannt ist"},
    {"Make a ground file from elevation and map files",
     "Eine Geländedatei aus Höhen und Karten machen"},
    {"Example: lodeway ground build hills.gpkg --elevation dem.tif --features paths.osm.pbf\n"
     "Elevation: GeoTIFF, .hgt, ASCII grid (.asc), DTED, .img, .dem, .bt, GeoPackage; where "
     "files overlap the earlier one counts.\n"
     "Features: OpenStreetMap (.pbf, .osm), GeoPackage, Shapefile, GeoJSON.",
     "Beispiel: lodeway ground build hills.gpkg --elevation dem.tif --features paths.osm.pbf\n"
     "Höhen: GeoTIFF, .hgt, ASCII-Gitter (.asc), DTED, .img, .dem, .bt, GeoPackage; wo sich "
     "Dateien überdecken, zählt die frühere.\n"
     "Karte: OpenStreetMap (.pbf, .osm), GeoPackage, Shapefile, GeoJSON."},
    {"The ground file to write, ending in .gpkg",
     "Die Geländedatei, die entsteht; endet mit .gpkg"},
    {"Files of heights", "Dateien mit Höhen"},
    {"Files of map features", "Dateien mit Wegen, Wasser, Wald und anderem der Karte"},
    {"What the area is called; else the file's name",
     "Wie das Gebiet heißt; sonst der Name der Datei"},
    {"The ground's grid, EPSG:n; else the UTM zone of the centre",
     "Das Gitter des Geländes, EPSG:n; sonst die UTM-Zone der Mitte"},
    {"Cell in metres; else the finest elevation file's own",
     "Zelle in Metern; sonst die der feinsten Höhendatei"},
    {"West,south,east,north: degrees if all four can be degrees, else metres of the grid in --crs",
     "Westen,Süden,Osten,Norden: Grad, wenn alle vier Grad sein können, sonst Meter im Gitter von "
     "--crs"},
    {"Your own table of kinds, over the built-in one",
     "Eure eigene Tabelle der Arten; sie geht der eingebauten vor"},
    {"Dead-flat ground is land; else, where the map has no lakes, it is taken as water",
     "Völlig ebenes Gelände ist Land; sonst gilt es als Wasser, wo die Karte keine Seen hat"},
    {"Licence: FILE=TEXT for one file, TEXT for all that state none; may be repeated",
     "Lizenz: DATEI=TEXT für eine Datei, TEXT für alle, die keine nennen; auch mehrmals"},
    {"Whom to credit: FILE=TEXT for one file, TEXT for all that state none",
     "Wer zu nennen ist: DATEI=TEXT für eine Datei, TEXT für alle, die niemanden nennen"},
    {"Say what was built as JSON", "Was entstanden ist, als JSON sagen"},
    {"What a ground file holds, and what it lacks",
     "Was in einer Geländedatei steht, und was ihr fehlt"},
    {"Example: lodeway ground show skarrow.gpkg --png skarrow.png",
     "Beispiel: lodeway ground show skarrow.gpkg --png skarrow.png"},
    {"Also draw it into this picture", "Auch als Bild in diese Datei zeichnen"},
    {"Which summits and water are seen from a place",
     "Welche Gipfel und Gewässer von einem Ort zu sehen sind"},
    {"Example: lodeway ground seen skarrow.gpkg --from \"Harrik Pike\" --png seen.png",
     "Beispiel: lodeway ground seen skarrow.gpkg --from \"Harrik Pike\" --png seen.png"},
    {"A name on the map or a grid reference; may be repeated",
     "Ein Name der Karte oder Koordinaten; auch mehrmals"},
    {"Height of the eye above the ground, metres (1.6)",
     "Höhe des Auges über dem Boden, Meter (1,6)"},
    {"How far to look, metres; else to the edge of the ground",
     "Wie weit geschaut wird, Meter; sonst bis zum Rand des Geländes"},
    {"Refraction: share of the Earth's curve that bent light makes up for (0.13)",
     "Refraktion: Anteil der Erdkrümmung, den die Krümmung des Lichts ausgleicht (0,13)"},
    {"Also draw it: what is seen from none of the places is shaded",
     "Auch zeichnen: Schattiert ist, was von keinem der Orte zu sehen ist"},
    {"Make an invented upland to try everything on",
     "Ein erfundenes Bergland machen, um alles zu probieren"},
    {"Example: lodeway ground demo skarrow.gpkg", "Beispiel: lodeway ground demo skarrow.gpkg"},
    {"Another seed, another detail of the same land",
     "Andere Zufallszahl, andere Einzelheiten im selben Land"},
    // way
    {"Find the ways of a trip, cut them into legs, lay them out by the clock",
     "Die Wege einer Tour suchen, in Abschnitte teilen, mit Uhrzeiten versehen"},
    {"Exit status: 0 within or close to your limits, 3 outside them or not judged, 2 on faults.\n"
     "Example: lodeway way examples/skarrow-round.toml --gpx round.gpx",
     "Endet mit 0: innerhalb eurer Grenzen oder nahe daran; 3: außerhalb oder nicht beurteilt; "
     "2: Fehler.\n"
     "Beispiel: lodeway way examples/skarrow-round.toml --gpx round.gpx"},
    {"Write the way as GPX 1.1 too", "Den Weg auch als GPX 1.1 schreiben"},
    {"Write the legs as GeoJSON too", "Die Abschnitte auch als GeoJSON schreiben"},
    {"Write the legs and places as KML 2.2 too", "Abschnitte und Orte auch als KML 2.2 schreiben"},
    {"Write the three times of the home note as a calendar file (iCalendar) too",
     "Die drei Zeiten vom Zettel für daheim auch als Kalenderdatei (iCalendar) schreiben"},
    {"Why this leg of the picked way, and not the next best",
     "Warum dieser Abschnitt des gewählten Wegs, und nicht der nächstbeste"},
    {"The picked way as planned, in cloud, an hour late, with streams up, a fifth slower, "
     "in snow: the verdict each time, and what to fall back on",
     "Der gewählte Weg wie geplant, im Nebel, eine Stunde später, bei hohen Bächen, um ein Fünftel "
     "langsamer, im Schnee: jedes Mal das Urteil, und was dann noch geht"},
    // paper
    {"Write the printed set: map sheets, route card, home note",
     "Alles zum Drucken schreiben: Kartenblätter, Marschkarte, Zettel für daheim"},
    {"Example: lodeway paper examples/skarrow-round.toml --out paper\n"
     "Exit status: 0 within or close to your limits, 3 outside them or not judged, 2 on faults;\n"
     "paper is made in each case but the last, and its head carries the verdict.\n"
     "Print at 100 %, then measure the 100 mm check line on each sheet.",
     "Beispiel: lodeway paper examples/skarrow-round.toml --out paper\n"
     "Endet mit 0: innerhalb eurer Grenzen oder nahe daran; 3: außerhalb oder nicht beurteilt; "
     "2: Fehler.\n"
     "Papier entsteht außer bei Fehlern immer, und oben steht das Urteil.\n"
     "Mit 100 % drucken, dann die 100-mm-Prüfstrecke auf jedem Blatt nachmessen."},
    {"The folder to write to", "Der Ordner, in den geschrieben wird"},
    {"The card in larger letters", "Die Marschkarte in größerer Schrift"},
    {"Everything in one PDF too, to print at one go",
     "Alles auch in einem PDF, um es auf einmal zu drucken"},
    {"Each page as a picture too", "Jede Seite auch als Bild"},
    // rehearse
    {"Walk a trip with simulated parties: how many keep it, how long, where they get lost",
     "Eine Tour mit simulierten Gruppen gehen: wie viele sie halten, wie lange, wo sie sich "
     "verlaufen"},
    {"The same seed gives the same answer on any number of processors.\n"
     "Exit status: 0 within or close to your limits, 3 outside them or not judged, 2 on faults.\n"
     "Examples: lodeway rehearse examples/skarrow-round.toml --walkers 10000 --png strayed.png\n"
     "          lodeway rehearse TRIP --tracks 200 --gpx tracks.gpx\n"
     "          lodeway rehearse TRIP --at 17:55 --png overdue.png --looked 1=0.6",
     "Dieselbe Zufallszahl gibt dieselbe Antwort, auf jeder Zahl von Prozessoren.\n"
     "Endet mit 0: innerhalb eurer Grenzen oder nahe daran; 3: außerhalb oder nicht beurteilt; "
     "2: Fehler.\n"
     "Beispiele: lodeway rehearse examples/skarrow-round.toml --walkers 10000 --png strayed.png\n"
     "           lodeway rehearse TOUR --tracks 200 --gpx tracks.gpx\n"
     "           lodeway rehearse TOUR --at 17:55 --png overdue.png --looked 1=0.6"},
    {"How many simulated parties, 1 to 1000000", "Wie viele simulierte Gruppen, 1 bis 1000000"},
    {"Another seed, other parties", "Andere Zufallszahl, andere Gruppen"},
    {"Write a picture of where they stray", "Ein Bild schreiben, wohin sie geraten"},
    {"Write the same as GeoTIFF: steps set in each cell, for each party",
     "Dasselbe als GeoTIFF schreiben: Schritte in jeder Zelle, je Gruppe"},
    {"How many parties' tracks are written, at most 2000 (20 when a file is named)",
     "Von wie vielen Gruppen die Spur geschrieben wird, höchstens 2000 (20, wenn eine Datei "
     "genannt ist)"},
    {"Write them as GPX: \"walker N\" where it is, \"walker N believes\" where it thinks it is",
     "Die Spuren als GPX schreiben: \"walker N\", wo die Gruppe ist, \"walker N believes\", wo sie "
     "sich glaubt"},
    {"Write them as GeoJSON", "Die Spuren als GeoJSON schreiben"},
    {"Who is not home at this time, 14:55 (after midnight \"00:20 +1\"), and where they are; --png "
     "and --tif then show that. Left out: the time to call for help",
     "Wer zu dieser Zeit nicht zurück ist, 14:55 (nach Mitternacht \"00:20 +1\"), und wo sie sind; "
     "--png und --tif zeigen dann das. Ohne Angabe: die Alarmzeit"},
    {"AREA=CHANCE: searched there in vain; CHANCE is how often such a search finds them (0.6). Or "
     "AREA=WIDTH,LENGTH: sweep width and length of all tracks, metres",
     "FLÄCHE=ANTEIL: dort vergeblich gesucht; ANTEIL ist, wie oft so eine Suche sie findet (0.6). "
     "Oder FLÄCHE=BREITE,LÄNGE: wirksame Suchbreite und Länge aller Suchspuren, Meter"},
    // relocate
    {"Where are we? From what you see to the places that fit, and what to do next",
     "Wo sind wir? Von dem, was ihr seht, zu den Orten, die passen, und was dann zu tun ist"},
    {"Bearings and falls are as the needle shows, unless --north grid or true.\n"
     "Example: lodeway relocate examples/skarrow-round.toml --visibility cloud \\\n"
     "  --last \"Quenna Hause, 25 min, 20\" --height 640 --falls 210 --slope steep \\\n"
     "  --landform spur --on \"stream, 40\" --not-seen wall\n"
     "Go on from there: add --go-on --time 14:30 --next \"Kell Gap\" --out paper\n"
     "Run in a terminal without observations it asks, the most telling question first.\n"
     "The picture: dark 50, middle 90, light 99 in 100; ring: last sure place; circles: places\n"
     "that fit.",
     "Peilungen und Fallrichtungen, wie die Nadel sie zeigt, außer mit --north grid oder true.\n"
     "Beispiel: lodeway relocate examples/skarrow-round.toml --visibility cloud \\\n"
     "  --last \"Quenna Hause, 25 min, 20\" --height 640 --falls 210 --slope steep \\\n"
     "  --landform spur --on \"stream, 40\" --not-seen wall\n"
     "Von dort weiter: dazu --go-on --time 14:30 --next \"Kell Gap\" --out paper\n"
     "Im Terminal ohne Beobachtungen aufgerufen, fragt es; die Frage, die am meisten sagt, "
     "zuerst.\n"
     "Das Bild: dunkel 50, mittel 90, hell 99 von 100; Ring: letzter bekannter Ort; Kreise: Orte,\n"
     "die passen."},
    {"A ground file, or a trip that names one",
     "Eine Geländedatei, oder eine Tour, die eine nennt"},
    {"Height above sea level, metres", "Höhe über dem Meer, Meter"},
    {"contours, or altimeter set today at a known height",
     "contours (Höhenlinien), oder altimeter (Höhenmesser, heute an bekannter Höhe gestellt)"},
    {"The way the ground falls: a bearing, or nowhere",
     "Wohin das Gelände fällt: eine Peilung, oder nowhere (nirgends)"},
    {"Degrees, or flat, gentle, moderate, steep, very steep",
     "Grad, oder flat (eben), gentle (sanft), moderate (mäßig), steep (steil), very steep (sehr "
     "steil)"},
    {"flat, top, ridge, spur, slope, hollow, valley, saddle",
     "flat (eben), top (Kuppe), ridge (Rücken), spur (Sporn), slope (Hang), hollow (Mulde), valley "
     "(Tal), saddle (Sattel)"},
    {"Among trees: yes or no", "Unter Bäumen: yes (ja) oder no (nein)"},
    {"What you stand on: \"stream, 40\" with the way it runs, or \"bridge\"",
     "Worauf ihr steht: \"stream, 40\" (Bach) mit seinem Verlauf, oder \"bridge\" (Brücke)"},
    {"A line in sight: \"wall, left\" or \"wall, 270\"",
     "Eine Linie in Sicht: \"wall, left\" (Mauer, links) oder \"wall, 270\""},
    {"A thing in sight: \"Harrik Pike, 312\", \"lake, 200\", \"lake\"",
     "Etwas in Sicht: \"Harrik Pike, 312\", \"lake, 200\" (See), \"lake\""},
    {"Looked for and not in sight: a name or a kind",
     "Gesucht und nicht zu sehen: ein Name oder eine Art"},
    {"Last sure place: \"PLACE, 25 min, 340\", the bearing if known",
     "Letzter bekannter Ort: \"ORT, 25 min, 340\", die Marschrichtung, falls bekannt"},
    {"Lost on this leg of the trip's plan", "Verirrt auf diesem Abschnitt der Tour"},
    {"Minutes since the leg's start", "Minuten seit dem Anfang des Abschnitts"},
    {"magnetic, grid or true", "magnetic (Nadel), grid (Gitternord) oder true (geografisch Nord)"},
    {"Day, for the declination; else the trip's, else today",
     "Tag, für die Missweisung; sonst der der Tour, sonst heute"},
    {"clear, cloud, night or snow; else the trip's",
     "clear (klar), cloud (Nebel), night (Nacht) oder snow (Schneedecke); sonst wie in der Tour"},
    {"novice, practised or expert; else the trip's",
     "novice (Anfänger), practised (geübt) oder expert (erfahren); sonst wie in der Tour"},
    {"en or de; else the trip's, else the computer's",
     "en oder de; sonst die der Tour, sonst die des Rechners"},
    {"Write a picture of where you may be", "Ein Bild schreiben, wo ihr sein könnt"},
    {"Write the probability of each cell as GeoTIFF; they and elsewhere make 1",
     "Die Wahrscheinlichkeit jeder Zelle als GeoTIFF schreiben; mit anderswo zusammen 1"},
    {"The place is settled: the ways and escape routes for the rest of the trip from there, as "
     "`way` tells them",
     "Der Ort steht fest: Wege und Notabstiege für den Rest der Tour von dort, wie `way` sie sagt"},
    {"With --go-on: clock time now, 14:30", "Mit --go-on: die Uhrzeit jetzt, 14:30"},
    {"With --go-on: the trip's place to go on to; else the one after --leg",
     "Mit --go-on: zu welchem Ort der Tour es weitergeht; sonst der nach --leg"},
    {"With --go-on: which of the places that fit; else the likeliest, if it is settled",
     "Mit --go-on: welcher der Orte, die passen; sonst der wahrscheinlichste, wenn er feststeht"},
    {"With --go-on: a folder for the card and sheets of what is left",
     "Mit --go-on: ein Ordner für Marschkarte und Kartenblätter der restlichen Tour"},
    // serve
    {"Plan, compare, rehearse and print in the browser",
     "Im Browser planen, vergleichen, proben und drucken"},
    {"Nothing leaves this machine and nothing is fetched. Trips are kept in the state folder.\n"
     "Example: lodeway serve --ground hills.gpkg --open",
     "Nichts verlässt diesen Rechner und nichts wird geholt. Touren bleiben im Ordner von "
     "--state.\n"
     "Beispiel: lodeway serve --ground hills.gpkg --open"},
    {"A ground file to begin with", "Eine Geländedatei für den Anfang"},
    {"0 takes any that is free", "0 nimmt irgendeinen freien"},
    {"Another address than this machine's own", "Eine andere Adresse als die eigene des Rechners"},
    {"Folder for trips and grounds; else $XDG_STATE_HOME/lodeway or ~/.local/state/lodeway",
     "Ordner für Touren und Gelände; sonst $XDG_STATE_HOME/lodeway oder ~/.local/state/lodeway"},
    {"Open the page in the browser", "Die Seite im Browser öffnen"},
    // learn
    {"Learn what a party does from its walked tracks and a training day's marks",
     "Lernen, wie eine Gruppe geht: aus ihren Aufzeichnungen und den Bögen eines Übungstags"},
    {"Shows the figures before and after, each with the range that holds 90 in 100 such parties.\n"
     "Asks before it keeps them. Exit status 0 if anything was learnt, 2 if every track was "
     "refused.\n"
     "Example: lodeway learn party.toml --track walk.gpx --track ride.gpx --png tracks.png --json",
     "Zeigt die Zahlen vorher und nachher, je mit dem Bereich, in dem 90 von 100 solchen Gruppen "
     "liegen.\n"
     "Fragt, ehe es sie behält. Endet mit 0, wenn etwas gelernt wurde, mit 2, wenn keine "
     "Aufzeichnung brauchbar war.\n"
     "Beispiel: lodeway learn party.toml --track walk.gpx --track ride.gpx --png tracks.png "
     "--json"},
    {"The party file; a new one is made when kept",
     "Die Datei der Gruppe; eine neue entsteht beim Behalten"},
    {"A recorded track (GPX with times), again for more",
     "Eine Aufzeichnung (GPX mit Zeiten); für mehrere wiederholen"},
    {"A filled-in marks file of a training day", "Der ausgefüllte Bogen eines Übungstags"},
    {"A figure that stays at the table, by its name; its counts are kept",
     "Eine Zahl, die bei der Tabelle bleibt, mit ihrem Namen; Gezähltes bleibt erhalten"},
    {"A figure that was refused, and counts again", "Eine Zahl, die abgelehnt war und wieder gilt"},
    {"The ground that the marks were made on", "Das Gelände, in dem der Bogen entstand"},
    {"Figures of one of the party, who holds the compass",
     "Zahlen für eine Person der Gruppe, die den Kompass hält"},
    {"Row of the table: novice, practised, expert",
     "Zeile der Tabelle: novice (Anfänger), practised (geübt), expert (erfahren)"},
    {"baseplate, mirror", "baseplate (Plattenkompass), mirror (Spiegelkompass)"},
    {"clear, cloud, night, snow", "clear (klar), cloud (Nebel), night (Nacht), snow (Schneedecke)"},
    {"Against which walking times", "Gegen welche Gehzeiten"},
    {"Draw what of each track was used", "Zeichnen, was von jeder Aufzeichnung gebraucht wurde"},
    {"A trip file, the last one walked: which of its legs change their verdict",
     "Eine Tourdatei, die zuletzt gegangene: bei welchen Abschnitten sich das Urteil ändert"},
    {"Keep it without asking", "Behalten, ohne zu fragen"},
    {"Answer as JSON, figures unrounded; keeps only with --keep",
     "Antwort als JSON, Zahlen ungerundet; behält nur mit --keep"},
    // train
    {"Lay out a training day on real ground: courses, their paper, marks to fill in",
     "Einen Übungstag in echtes Gelände legen: Aufgaben, Papier dazu, Bogen zum Ausfüllen"},
    {"Every course keeps clear of ground over 30 degrees and of ground to keep off: by three "
     "times\n"
     "a novice's usual error and 60 m. It has a catching feature beyond. What cannot be made so "
     "is\n"
     "said.\n"
     "The same seed gives the same bytes.\n"
     "Example: lodeway train skarrow.gpkg --from \"Kell Gap\" --out day --seed 7",
     "Jede Aufgabe hält Abstand von Gelände über 30 Grad und von zu meidendem Gelände: das "
     "Dreifache\n"
     "des üblichen Fehlers von Anfängern und 60 m. Dahinter liegt eine Auffanglinie. Was so nicht\n"
     "geht, wird gesagt.\n"
     "Dieselbe Zufallszahl gibt dieselben Dateien, Byte für Byte.\n"
     "Beispiel: lodeway train skarrow.gpkg --from \"Kell Gap\" --out day --seed 7"},
    {"Where the day begins: a name or a grid reference",
     "Wo der Tag beginnt: ein Name oder Koordinaten"},
    {"Another seed, other courses", "Andere Zufallszahl, andere Aufgaben"},
    {"Day of the training, for the declination; left out: today",
     "Tag der Übung, für die Missweisung; ohne Angabe heute"},
    {"Folder for the paper and marks.toml", "Ordner für das Papier und marks.toml"},
    {"Language of the paper and of the answer", "Sprache des Papiers und der Antwort"},
    {"Each page as PNG too", "Jede Seite auch als PNG"},
    // debrief
    {"Compare a walked trip with its plan: minutes, where you left the way, what you passed",
     "Eine gegangene Tour mit ihrem Plan vergleichen: Minuten, wo ihr vom Weg abkamt, woran ihr "
     "vorbeikamt"},
    {"With --out it writes debrief.pdf to talk over, and seen.toml: fill in what was seen and "
     "known,\n"
     "then: lodeway learn PARTY --marks seen.toml.\n"
     "Example: lodeway debrief examples/skarrow-round.toml --track round.gpx --out debrief",
     "Mit --out schreibt es debrief.pdf für das Gespräch, und seen.toml: tragt ein, was zu sehen "
     "und\n"
     "bekannt war, dann: lodeway learn GRUPPE --marks seen.toml.\n"
     "Beispiel: lodeway debrief examples/skarrow-round.toml --track round.gpx --out debrief"},
    {"The recorded track (GPX with times)", "Die Aufzeichnung (GPX mit Zeiten)"},
    {"Or the card's actual times, one a leg: 10:15,10:52,-,11:40",
     "Oder die tatsächlichen Zeiten der Marschkarte, eine je Abschnitt: 10:15,10:52,-,11:40"},
    {"When they set out; left out: as planned", "Wann sie losgingen; ohne Angabe wie geplant"},
    {"Folder for debrief.pdf and seen.toml", "Ordner für debrief.pdf und seen.toml"},
};

}  // namespace

std::span<const HelpWord> help_words() { return table; }

std::string help_in(units::Language language, std::string_view english) {
  if (language == units::Language::english) return std::string(english);
  const auto* found = std::ranges::find(table, english, &HelpWord::english);
  return std::string(found == std::end(table) ? english : found->german);
}

}  // namespace lodeway::cli
