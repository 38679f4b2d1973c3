#include "lodeway/trip/told.hpp"

#include <algorithm>
#include <cassert>
#include <iterator>

#include <fmt/format.h>

namespace lodeway::trip {

namespace {

constexpr ToldWord table[] = {
    // way: legs and the day
    {"left", "links"},
    {"right", "rechts"},
    {"along {}, sets out {}", "entlang {}, geht los {}"},
    {"escape route from its start: ", "Notabstieg vom Anfang: "},
    {"escape route from half way: ", "Notabstieg von der Mitte: "},
    {"escape route from its end: ", "Notabstieg vom Ende: "},
    {"none needed, {} is here", "nicht nötig, {} ist hier"},
    {"back the way you came to {}", "zurück, wie ihr kamt, nach {}"},
    {"{}, {} min, {} in 100 keep it", "{}, {} min, {} von 100 halten ihn"},
    {", {} in 100 stray onto ground to keep off", ", {} von 100 geraten auf zu meidendes Gelände"},
    {"{}. {}, {}, {} double paces, {} min, to {}",
     "{}. {}, {}, {} Doppelschritte, {} min, nach {}"},
    {"aim off {}; at {} turn {}: {}", "{} vorbeizielen; an {} nach {}: {}"},
    {"at its end {}", "an seinem Ende {}"},
    {"keep off: {}", "meiden: {}"},
    {"{}, {}, {} mm, {} double paces, up {}, down {}, {} min, there {}",
     "{}, {}, {} mm, {} Doppelschritte, auf {}, ab {}, {} min, dort {}"},
    {"aim off {}; at {} turn {}: {}, {} mm, {} double paces, {} min to the end",
     "{} vorbeizielen; an {} nach {}: {}, {} mm, {} Doppelschritte, {} min bis zum Ende"},
    {"ford {}", "Furt {}"},
    {"Its end is the attack point for {}.", "Sein Ende ist der Ansatzpunkt für {}."},
    {"Long leg, {} min: halt every {} min, compare count and time.",
     "Langer Abschnitt, {} min: alle {} min anhalten, Schritte und Zeit vergleichen."},
    {"{}, {} at {} from the end", "{}, {} in {} vom Ende"},
    {", looks like it", ", sieht gleich aus"},
    {"; 1 more about", "; 1 weiteres umher"},
    {"; {} more about", "; {} weitere umher"},
    {"Stop here and check count and time, for no leg on a bearing is longer than {}.",
     "Hier halten, Zählung und Zeit prüfen, denn kein Abschnitt nach Kompass ist länger als {}."},
    {"Turn here, for straight on takes {} min more.",
     "Hier abbiegen, denn geradeaus dauert es {} min länger."},
    {"Escape routes: on the escape card.", "Notabstiege: auf dem Blatt Notabstiege."},
    {"Escape routes, help: on their cards.", "Notabstiege, Hilfe: auf ihren Blättern."},
    {"Turn here; straight on lies: {}.", "Hier abbiegen; geradeaus liegt: {}."},
    {"nothing", "nichts"},
    {"the edge of the ground file", "der Rand der Geländedatei"},
    {"ground of unknown height", "Gelände unbekannter Höhe"},
    {"motorway or other road closed to walkers", "Autobahn oder andere für Fußgänger gesperrte Straße"},
    {"{} across after {}: the map does not say how it is crossed",
     "{} quert nach {}: wie sie überquert wird, sagt die Karte nicht"},
    {"{} across after {}: over it by a bridge", "{} quert nach {}: auf einer Brücke darüber"},
    {"{} across after {}: under its bridge", "{} quert nach {}: unter ihrer Brücke hindurch"},
    {"railway", "Bahn"},
    {"power line overhead nearly all the way", "Stromleitung fast immer über euch"},
    {"{}, {} to your left after {}", "{}, {} links nach {}"},
    {"{}, {} to your right after {}", "{}, {} rechts nach {}"},
    {"ground over the party's slope limit", "Gelände, das steiler ist als eure Grenze"},
    {"a river without a crossing", "ein Fluss ohne Übergang"},
    {"a cliff", "eine Felswand"},
    {"an area to avoid", "ein Gebiet, das zu meiden ist"},
    {"closed ground", "gesperrtes Gelände"},
    {"also {}", "auch {}"},
    {"none is known", "keiner bekannt"},
    {"on its own card", "auf seinem Blatt"},
    {"beside the leg", "beim Abschnitt"},
    {"nothing for {}, from {}", "nichts auf {}, ab {}"},
    {"nothing on the whole leg", "nichts auf dem ganzen Abschnitt"},
    {"; also {}", "; auch {}"},
    {"Nothing to see at the end: count, stop, look round.",
     "Am Ende ist nichts zu sehen: zählen, anhalten, umsehen."},
    {"busy road: walk facing the traffic, one behind another",
     "viel Verkehr: dem Verkehr entgegen gehen, hintereinander"},
    {"fast road: keep off the carriageway", "schneller Verkehr: nicht auf die Fahrbahn"},
    {"bends: {}", "Biegungen: {}"},
    {"at the end {}", "am Ende {}"},
    {"no catching feature: rely on your count", "keine Auffanglinie: auf die Zählung verlassen"},
    {"catching feature: {}, {} beyond", "Auffanglinie: {}, {} dahinter"},
    {"catching feature: {}", "Auffanglinie: {}"},
    {"nothing to see at the end: the error carries into the next leg",
     "am Ende nichts zu sehen: der Fehler geht in den nächsten Abschnitt ein"},
    {"{} to {} in 100 keep it at the first try; {} end there in the end",
     "{} bis {} von 100 halten ihn beim ersten Versuch; {} kommen am Ende hin"},
    {"{} in 100 keep it", "{} von 100 halten ihn"},
    {", easily confused with: {}", ", leicht zu verwechseln mit: {}"},
    {"within", "innerhalb"},
    {"close to", "nahe an"},
    {"not judged", "nicht beurteilt"},
    {"OUTSIDE", "AUSSERHALB"},
    {"walking", "Gehzeit"},
    {"with mistakes", "mit Fehlern"},
    {"length", "Länge"},
    {"climb", "Anstieg"},
    {"verdict", "Urteil"},
    {"{} in 100 stray onto ground to keep off", "{} von 100 geraten auf zu meidendes Gelände"},
    {"Picked is the {} way, not the {} one. On the {} one {} in 100 stray onto ground to keep off, "
     "over your limit of {}; on the {} one {}.",
     "Gewählt ist „{}“, nicht „{}“. Bei „{}“ geraten {} von 100 auf zu meidendes Gelände, über "
     "eurer Grenze von {}; bei „{}“ {}."},
    {"Escape routes: predicted, in these conditions or in cloud, whichever is worse. Who loses the "
     "way on one is not counted.\n\n",
     "Notabstiege: berechnet, wie geplant oder bei Nebel, was schlechter ist. Wer sich darauf "
     "verirrt, ist nicht mitgezählt.\n\n"},
    {"figures taken as known", "Zahlen als gewiss genommen"},
    {"simulated", "simuliert"},
    {"slow day to last light", "langsamer Tag bis letztes Licht"},
    {"legs", "Abschnitte"},
    {"the trip", "die Tour"},
    {"{} ({}): {} legs, {}, up {}, down {}, {} walking\n",
     "{} ({}): {} Abschnitte, {}, auf {}, ab {}, {} Gehzeit\n"},
    {"Bearings are magnetic, for the trip's date. In brackets: where a leg ends, a grid reference "
     "of six figures. Millimetres are on a map sheet of 1:{}.\n",
     "Peilungen sind magnetisch, für den Tag der Tour. In Klammern: wo ein Abschnitt endet, in "
     "sechs "
     "Ziffern. Millimeter gelten auf einem Kartenblatt 1:{}.\n"},
    {"start {}, {} {}, don't worry before {}, call for help at {}\n",
     "Start {}, {} {}, keine Sorge vor {}, Alarm um {}\n"},
    {"start {}, {} {}\n", "Start {}, {} {}\n"},
    {"due at", "am Ziel um"},
    {"back at", "zurück um"},
    {"{} simulated parties, with time lost to mistakes: 50 in 100 are {} by {}, 90 in 100 by {}\n",
     "{} simulierte Gruppen, mit Zeit für Fehler: 50 von 100 sind {} bis {}, 90 von 100 bis {}\n"},
    {"there", "am Ziel"},
    {"back", "zurück"},
    {"first light {}, sunrise {}, sunset {}, last light {} ({}){}\n",
     "erstes Licht {}, Sonnenaufgang {}, Sonnenuntergang {}, letztes Licht {} ({}){}\n"},
    {"latest start {}\n", "spätester Start {}\n"},
    {"No turn-round time: too many such parties do not come home by themselves.",
     "Keine Umkehrzeit: Zu viele solche Gruppen kommen nicht von selbst heim."},
    {"turn round if not at the end of leg {}, {}, by {}: {} back\n",
     "umkehren, wenn ihr am Ende von Abschnitt {}, {}, nicht seid bis {}: {} zurück\n"},
    {"The day of this trip, {}, is past: daylight, magnetism and times are that day's.",
     "Der Tag dieser Tour, {}, ist vorbei: Tageslicht, Magnetfeld und Zeiten sind die jenes "
     "Tages."},
    {"DANGER: {}", "GEFAHR: {}"},
    {"CAUTION: {}", "VORSICHT: {}"},
    {"note: {}", "Hinweis: {}"},
    {"mind: {}", "Achtung: {}"},
    // rehearse: parties that are put back
    {"{} simulated parties like yours walked this way. {} in 100 (± {}) kept every leg at\n"
     "the first try, {} in 100 turned back, {} in 100 set foot on ground to keep off.\n",
     "{} simulierte Gruppen wie eure gingen diesen Weg. {} von 100 (± {}) hielten jeden Abschnitt\n"
     "beim ersten Versuch, {} von 100 kehrten um, {} von 100 betraten zu meidendes Gelände.\n"},
    {"Walking time without rests: 50 in 100 took less than {}, 10 in 100 less than {},\n"
     "90 in 100 less than {}.\n",
     "Gehzeit ohne Rasten: 50 von 100 brauchten weniger als {}, 10 von 100 weniger als "
     "{},\n90 von 100 weniger als {}.\n"},
    {"The card's middle day is {} of walking: each leg at its middle time, nobody lost.\n",
     "Der mittlere Tag der Marschkarte sind {} Gehen: jeder Abschnitt in seiner mittleren "
     "Zeit, "
     "niemand verläuft sich.\n"},
    {"The middle one of these parties is {} quicker.\n",
     "Die mittlere dieser Gruppen ist {} schneller.\n"},
    {"Searches, second tries, and slow legs that cost more than quick ones save make the middle\n"
     "one of these parties {} slower.\n",
     "Suchen, zweite Versuche, und langsame Abschnitte, die mehr kosten, als schnelle sparen, "
     "machen "
     "die mittlere\ndieser Gruppen {} langsamer.\n"},
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
    {"predicted", "berechnet"},
    {"minutes (50, 90 in 100)", "Minuten (50, 90 von 100)"},
    {"onto ground to keep off", "auf zu meidendes Gelände"},
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
    {"took a wrong branch", "nahmen eine falsche Abzweigung"},
    {"walked on a wrong bearing", "gingen nach falscher Peilung"},
    {"stopped because the ground seemed wrong",
     "hielten an, weil das Gelände nicht zu passen schien"},
    {"did not find the line to follow", "fanden die Linie nicht"},
    // rehearse: parties that are lost and stay so
    {"\nAnd when it goes wrong: parties with a true place and a believed one, never put back.\n",
     "\nUnd wenn es anders kommt: Gruppen mit einem wahren und einem geglaubten Ort, nie "
     "zurückgesetzt.\n"},
    {"Stopped: {} of {} walked; all that follows is of those.\n",
     "Abgebrochen: {} von {} sind gegangen; alles Weitere gilt für diese.\n"},
    {"{} in 100 kept every leg at the first try; {} in 100 came to the end, {} took an escape\n"
     "route to safe ground, {} turned round and came back, {} stayed out.\n",
     "{} von 100 hielten jeden Abschnitt beim ersten Versuch; {} von 100 kamen ans Ende, {} nahmen "
     "einen\nNotabstieg, {} kehrten um und kamen zurück, {} blieben draußen.\n"},
    {"{} in 100 were lost at some time: half of them {} min or less, 90 in 100 {} or "
     "less, of which\n{} and {} before they noticed; {} and {} from where they "
     "believed to be. {} in 100 never noticed.\n",
     "{} von 100 hatten sich irgendwann verlaufen: die Hälfte davon bis zu {} min, 90 von 100 "
     "bis zu {},\ndavon {} und {}, ehe sie es merkten; {} und {} von dem "
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
    {"first try, in 100", "erster Versuch, von 100"},
    {"in the end", "am Ende"},
    {"lost, min (half, 90 in 100)", "verirrt, min (Hälfte, 90 von 100)"},
    {"most went wrong so", "die meisten Fehler"},
    {"leg {} ({} to {})", "Abschnitt {} ({} bis {})"},
    {"slow or held up, and on their way", "langsam oder aufgehalten, noch unterwegs"},
    {"lost on {}", "verirrt auf {}"},
    {"on an escape route", "auf einem Notabstieg"},
    {"turned round, and on their way back", "umgekehrt und auf dem Rückweg"},
    {"\nAt {}: {} in 100 parties are home or out by an escape route, {} are not.\n",
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
    {"slow day", "langsamer Tag"},
    {"your limits", "eure Grenzen"},
    {"then", "dann"},
    {"{}, leg {}", "{}, Abschnitt {}"},
    // relocate: what was told
    {"north", "Norden"},
    {"north-east", "Nordosten"},
    {"east", "Osten"},
    {"south-east", "Südosten"},
    {"south", "Süden"},
    {"south-west", "Südwesten"},
    {"west", "Westen"},
    {"north-west", "Nordwesten"},
    {"N", "N"},
    {"NE", "NO"},
    {"E", "O"},
    {"SE", "SO"},
    {"S", "S"},
    {"SW", "SW"},
    {"W", "W"},
    {"NW", "NW"},
    {"north to south", "von Nord nach Süd"},
    {"north-east to south-west", "von Nordost nach Südwest"},
    {"east to west", "von Ost nach West"},
    {"south-east to north-west", "von Südost nach Nordwest"},
    {"bearings as the needle shows; declination {} on {}",
     "Peilungen, wie die Nadel sie zeigt; Missweisung {} am {}"},
    {"bearings from grid north, as measured on the map",
     "Peilungen von Gitternord, wie auf der Karte gemessen"},
    {"bearings from true north", "Peilungen von geografisch Nord"},
    {"height {} m", "Höhe {} m"},
    {"the ground falls", "das Gelände fällt nach"},
    {"the ground falls nowhere", "das Gelände fällt nirgends"},
    {"slope {}°", "Hang {}°"},
    {"not known", "nicht bekannt"},
    {"flat ground", "ebenes Gelände"},
    {"top", "Kuppe"},
    {"ridge", "Rücken"},
    {"spur", "Sporn"},
    {"slope", "Hang"},
    {"hollow", "Mulde"},
    {"valley", "Tal"},
    {"among trees", "unter Bäumen"},
    {"no trees", "keine Bäume"},
    {"on {}", "auf: {}"},
    {"on {}, running {}", "auf: {}, Verlauf {}"},
    {"on no {}", "nicht auf: {}"},
    {"beside {}", "neben: {}"},
    {"beside {}, it lies {}", "neben: {}, Peilung dorthin {}"},
    {"no {} in sight", "nicht zu sehen: {}"},
    {"at {}", "an: {}"},
    {"at no {}", "nicht an: {}"},
    {"sees {}", "zu sehen: {}"},
    {"{} not in sight", "nicht zu sehen: {}"},
    {"beside {}: the side is left out, as no heading is told with the last sure place",
     "neben {}: Die Seite zählt nicht, denn zum letzten bekannten Ort fehlt die Marschrichtung"},
    // relocate: what to ask next
    {"Walk 250 m along the slope, the high ground on your right hand. How much higher or lower are "
     "you, and which way does the ground fall there?",
     "Geht 250 m am Hang entlang, bergauf ist rechts. Wie viel höher oder tiefer seid ihr, und "
     "wohin fällt dort das Gelände?"},
    {"Walk 250 m along the slope, the high ground on your left hand. How much higher or lower are "
     "you, and which way does the ground fall there?",
     "Geht 250 m am Hang entlang, bergauf ist links. Wie viel höher oder tiefer seid ihr, und "
     "wohin "
     "fällt dort das Gelände?"},
    {"Walk 250 m straight uphill. How much did you climb, and which way does the ground fall "
     "there?",
     "Geht 250 m gerade bergauf. Wie viel seid ihr gestiegen, und wohin fällt dort das Gelände?"},
    {"Walk 250 m straight downhill. How much did you go down, and which way does the ground fall "
     "there?",
     "Geht 250 m gerade bergab. Wie viel seid ihr abgestiegen, und wohin fällt dort das Gelände?"},
    {"How high are you?", "Wie hoch seid ihr?"},
    {"Which way does the ground fall, over the next 50 m?",
     "Wohin fällt das Gelände auf den nächsten 50 m?"},
    {"How steep is the ground, over the next 50 m?", "Wie steil sind die nächsten 50 m?"},
    {"What sort of place is it: flat, top, ridge, spur, slope, hollow or valley?",
     "Was für ein Ort ist es: eben, Kuppe, Grat, Rücken, Hang, Mulde oder Tal?"},
    {"Are you among trees?", "Seid ihr unter Bäumen?"},
    {"Are you on {}? Which way does it run?", "{}: Steht ihr darauf? In welche Richtung läuft es?"},
    {"Can you see {}? On which hand?", "{}: Ist das zu sehen? Auf welcher Seite?"},
    {"Are you at {}?", "{}: Seid ihr dort?"},
    {"Can you see {}? On what bearing?", "{}: Ist das zu sehen? In welcher Peilung?"},
    {"yes", "ja"},
    {"no", "nein"},
    {"about level", "etwa gleich hoch"},
    {"about {} m higher", "etwa {} m höher"},
    {"about {} m lower", "etwa {} m tiefer"},
    {", flat ground", ", eben"},
    {", falling {}", ", fällt nach {}"},
    {"nowhere", "nirgends"},
    {"to the {}", "nach {}"},
    {"about {} m", "etwa {} m"},
    {"almost flat", "fast eben"},
    {"gentle (5 to 12°)", "sanft (5 bis 12°)"},
    {"moderate (12 to 20°)", "mäßig (12 bis 20°)"},
    {"steep (20 to 30°)", "steil (20 bis 30°)"},
    {"very steep (over 30°)", "sehr steil (über 30°)"},
    {"yes, it runs {}", "ja, es läuft {}"},
    {"yes, about {}", "ja, etwa {}"},
    {"no place stands out", "kein Ort ragt heraus"},
    {"place {} has {} in 100", "Ort {} hat {} von 100"},
    {"{} ({} in 100): {}", "{} ({} von 100): {}"},
    // relocate: where to go
    {"Walk on bearing {}", "Geht nach Peilung {}"},
    {"Walk straight downhill", "Geht gerade bergab"},
    {"Walk straight uphill", "Geht gerade bergauf"},
    {"Walk along the slope, the high ground on your left hand",
     "Geht am Hang entlang, bergauf ist links"},
    {"Walk along the slope, the high ground on your right hand",
     "Geht am Hang entlang, bergauf ist rechts"},
    {"the top of the rise", "höchster Punkt"},
    {"water", "Wasser"},
    {"a wall or fence", "Mauer oder Zaun"},
    {"a path, track or edge", "Pfad, Fahrweg oder Waldrand"},
    {"a catching feature", "Auffanglinie"},
    {"{} or {}", "{} oder {}"},
    {"{} until you meet {}: {} in 100 do within {}, {} in 1000 come onto ground to keep off. "
     "Nothing by then: stop.",
     "{}, bis zu: {}. {} von 100 kommen innerhalb von {} dorthin, {} von 1000 auf zu meidendes "
     "Gelände. Bis dahin nichts: anhalten."},
    {"No single move works from all the places that fit. Answer the next question, or stay where "
     "you are, together and sheltered.",
     "Von allen Orten, die passen, führt kein einziger Weg gut weiter. Beantwortet die nächste "
     "Frage, oder bleibt, wo ihr seid, zusammen und geschützt."},
    // relocate: the answer
    {"DANGER", "GEFAHR"},
    {"DANGER: {} in 100 that you stand on ground to keep off already: look before you step",
     "GEFAHR: {} von 100, dass ihr schon auf zu meidendem Gelände steht: vor jedem Schritt "
     "schauen"},
    {"warning: {}", "Achtung: {}"},
    {"told: ", "gesagt: "},
    {"nothing yet", "noch nichts"},
    {"last sure place {}", "letzter bekannter Ort {}"},
    {"on leg {} of the plan", "auf Abschnitt {} des Plans"},
    {"One place fits:\n", "Ein Ort passt:\n"},
    {"Hardly narrowed down yet:\n", "Noch kaum eingegrenzt:\n"},
    {"{} places fit:\n", "{} Orte passen:\n"},
    {"  {}. {} in 100  [{}] within about {} m", "  {}. {} von 100  [{}] auf etwa {} m"},
    {", {} m high", ", {} m hoch"},
    {"{} m {} of {}", "{} m {} von {}"},
    {"  elsewhere: {} in 100\n", "  anderswo: {} von 100\n"},
    {"half of what is on this map lies within {} km², nine tenths within {} km²\n",
     "die Hälfte dessen, was auf dieser Karte ist, liegt auf {} km², neun Zehntel auf {} km²\n"},
    {"\nWhat tells most next:\n", "\nWas als Nächstes am meisten sagt:\n"},
    {"  {}. {} (about {} min)\n", "  {}. {} (etwa {} min)\n"},
    {"\nThe move that works wherever you are:\n", "\nWas überall hilft, wo ihr auch seid:\n"},
    {"Chances are those of the model, not measured on people. In danger or in doubt stay together "
     "and call for help.\n",
     "Die Anteile sind die des Modells, nicht an Menschen gemessen. Bei Gefahr oder im Zweifel "
     "bleibt zusammen und ruft Hilfe.\n"},
    // pictures
    {"50 in 100: you are here", "50 von 100: hier seid ihr"},
    {"90 in 100: here or darker", "90 von 100: hier oder dunkler"},
    {"99 in 100: here or darker", "99 von 100: hier oder dunkler"},
    {"green ring: last sure place", "grüner Ring: letzter bekannter Ort"},
    {"50 in 100 who are not home", "50 von 100, die nicht zurück sind"},
    {"80 in 100: here or darker", "80 von 100: hier oder dunkler"},
    {"95 in 100: here or darker", "95 von 100: hier oder dunkler"},
    {"a step here by 1 in 100 walkers or more", "ein Schritt hier bei 1 von 100 oder mehr"},
    {"by 1 in 1000 or more", "bei 1 von 1000 oder mehr"},
    {"by anyone", "bei irgendwem"},
    // the rest of a trip
    {"{}, from {}", "{}, ab {}"},
    {"Trip", "Tour"},
    {"Go on from place {}, [{}], at {}, to {}:", "Weiter von Ort {}, [{}], um {}, nach {}:"},
    // the lost card
    {"Lost card", "Karte für Verirrte"},
    {"Stop, together.", "Anhalten, zusammenbleiben."},
    {"Time ______ Height ______. Look about you before you go a step.",
     "Zeit ______ Höhe ______. Erst umsehen, dann einen Schritt tun."},
    {"Last sure place", "Letzter bekannter Standort"},
    {"____________ at ______. Minutes since: ____, so about ____ {} on leg ____. How far you go in "
     "10 minutes stands at the head of each leg.",
     "____________ um ______. Minuten seitdem: ____, also etwa ____ {} auf Abschnitt ____. Wie "
     "weit "
     "ihr in 10 Minuten geht, steht am Kopf jedes Abschnitts."},
    {"Look, and write", "Schauen und aufschreiben,"},
    {"before you open the map. The ground falls towards ____° and is ____° steep. A path, wall or "
     "stream near you runs ____°. On the left ________, on the right ________.",
     "bevor ihr die Karte aufmacht. Das Gelände fällt nach ____° und ist ____° steil. Ein Weg, "
     "eine Mauer oder ein Bach bei euch verläuft ____°. Links ________, rechts ________."},
    {"Find the row.", "Die Zeile suchen."},
    {"Height within {} and fall within 30°: both must fit. Then look for one thing that the row "
     "names and you have not used yet.",
     "Höhe auf {} und Fallrichtung auf 30°: Beides muss passen. Dann nach etwas sehen, das in der "
     "Zeile steht und noch nicht gebraucht ist."},
    {"One row fits: go on.", "Eine Zeile passt: weitergehen."},
    {"Two rows fit, or none: do not guess. Make the move in the frame under your leg. It is "
     "reckoned from everywhere that a party on this leg may be.",
     "Zwei Zeilen passen oder keine: nicht raten. Geht, wie es im Rahmen unter eurem Abschnitt "
     "steht. Das ist von überall gerechnet, wo eine Gruppe auf diesem Abschnitt sein kann."},
    {"No move can be made", "Gehen ist nicht möglich"},
    {"(danger, dark, someone hurt): stay together, shelter, keep warm, and call {}.",
     "(Gefahr, Dunkelheit, Verletzte): zusammenbleiben, Schutz suchen, warm halten und {} rufen."},
    {"10 min: {}", "10 min: {}"},
    {"{} in 100 of the places where you may be lie on ground to keep off: look before each step.",
     "{} von 100 der Orte, an denen ihr sein könnt, liegen auf zu meidendem Gelände: vor jedem "
     "Schritt schauen."},
    {"Or:", "Oder:"},
    {"No one move works from everywhere on leg {}.",
     "Auf Abschnitt {} führt kein einzelner Weg von überall weiter."},
    {"Find the row; if none fits stay together, sheltered, and call for help.",
     "Die Zeile suchen; passt keine, geschützt zusammenbleiben und Hilfe rufen."},
    {"Not straight downhill: from {} in 100 of these places that leads onto ground to keep off.",
     "Nicht gerade hinunter: Bei {} von 100 dieser Orte führt das auf zu meidendes Gelände."},
    {"Else stay together, sheltered, and call for help.",
     "Sonst geschützt zusammenbleiben und Hilfe rufen."},
    {"Where the ground falls towards {} to {}: {}", "Wo das Gelände nach {} bis {} fällt: {}"},
    {"bearing {}", "Richtung {}"},
    {"goes on", "geht weiter"},
    {"height", "Höhe"},
    {"falls", "fällt"},
    {"form", "Form"},
    {"across", "quer"},
    {"on the left", "links"},
    {"on the right", "rechts"},
    {"the elevation data has no height here", "die Höhendaten haben hier keine Höhe"},
    {"the ground falls this way; magnetic north is up",
     "dahin fällt das Gelände; magnetisch Nord ist oben"},
    {"the ground {} to each hand, at its true slope",
     "das Gelände {} nach jeder Seite, in wahrer Neigung"},
    {"ground to keep off within {} of the leg, and how far it is",
     "zu meidendes Gelände bis {} neben dem Abschnitt, und wie weit"},
    {"How to read a row", "So liest man eine Zeile"},
    {"too steep", "zu steil"},
    {"flat", "eben"},
    {"gentle", "sanft"},
    {"moderate", "mäßig"},
    {"steep", "steil"},
    {"very steep", "sehr steil"},
    {"{} m", "{} m"},
    // relocate: asked in a terminal
    {"Answer with a figure or a word; bearings as the needle shows; \"-\" passes a question, an "
     "empty line ends.",
     "Antwortet mit einer Zahl oder einem Wort; Peilungen, wie die Nadel sie zeigt; „-“ "
     "übergeht eine Frage, eine leere Zeile beendet."},
    {"likeliest: [{}], {} in 100", "am wahrscheinlichsten: [{}], {} von 100"},
    // serve
    {"Ctrl-C ends it; your trips are kept.", "Strg-C beendet es; eure Touren bleiben erhalten."},
    {"no browser was found; open the address above",
     "kein Browser gefunden; öffnet die Adresse, die oben steht"},
    {"this kernel cannot keep the reading of files from the network (seccomp); memory and time "
     "are bounded",
     "dieser Systemkern kann das Lesen von Dateien nicht vom Netz fernhalten (seccomp); Speicher "
     "und Zeit sind begrenzt"},
    {"this kernel cannot keep the reading of files from writing elsewhere (Landlock); memory and "
     "time are bounded",
     "dieser Systemkern kann das Lesen von Dateien nicht vom Schreiben anderswo abhalten "
     "(Landlock); Speicher und Zeit sind begrenzt"},
    {"this kernel cannot keep the reading of files from the network (seccomp) or from writing "
     "elsewhere (Landlock); memory and time are bounded",
     "dieser Systemkern kann das Lesen von Dateien weder vom Netz fernhalten (seccomp) noch vom "
     "Schreiben anderswo abhalten (Landlock); Speicher und Zeit sind begrenzt"},
    // relocate: what does not fit
    {" (off by {} m)", " (um {} m daneben)"},
    {" (off by {}°)", " (um {}° daneben)"},
    {"\"{}\" does not fit the likeliest place{}: check it",
     "„{}“ passt nicht zum wahrscheinlichsten Ort{}: nachprüfen"},
    {": the bearings give no place by themselves", ": Die Peilungen allein ergeben keinen Ort"},
    {"from the bearings alone: {}, within {} by {} m (95 in 100), longest towards {} grid",
     "allein aus den Peilungen: {}, auf {} mal {} m (95 von 100), am längsten nach {} Gitter"},
    {"the two bearings cross at {}°: under 30° they fix a place poorly",
     "die zwei Peilungen schneiden sich mit {}°: unter 30° legen sie einen Ort schlecht fest"},
    {"; nothing checks two bearings: take a third",
     "; zwei Peilungen prüft nichts: nehmt eine dritte"},
    {"\"{}\": the bearings meet only behind your back: one of them is wrong or the wrong thing",
     "„{}“: Die Peilungen treffen sich nur in eurem Rücken: Eine ist falsch oder gilt etwas "
     "anderem"},
    {"the bearings do not meet: one of them is wrong, and they cannot say which",
     "die Peilungen treffen sich nicht: eine ist falsch, und sie können nicht sagen, welche"},
    {"\"{}\" does not meet the others: off by {}°",
     "„{}“ trifft die anderen nicht: um {}° daneben"},
    {"\"{}\": it may be {} [{}] that was sighted; then the bearings meet",
     "„{}“: Angepeilt war vielleicht {} [{}]; dann treffen sich die Peilungen"},
    {"the last sure place lies outside this ground: it is left out, and the whole ground looked at",
     "der letzte bekannte Ort liegt außerhalb dieses Geländes: Er zählt nicht, und das ganze "
     "Gelände "
     "wird betrachtet"},
    {"what was told fits this piece of ground poorly: {} in 100 that you are elsewhere",
     "das Gesagte passt schlecht zu diesem Stück Gelände: {} von 100, dass ihr anderswo seid"},
    {"height {} m: nowhere on this piece of ground is so {} (it lies between {} and {} m)",
     "Höhe {} m: Nirgends ist dieses Stück Gelände so {} (es liegt zwischen {} und {} m)"},
    {"low", "tief"},
    {"high", "hoch"},
    {"{} in 100 of the ground here has no heights: nobody is looked for there",
     "{} von 100 des Geländes hier haben keine Höhen: Dort wird niemand gesucht"},
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
