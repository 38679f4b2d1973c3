#include "lodeway/units/refusal_words.hpp"

namespace lodeway::units {

namespace {

constexpr RefusalWord table[] = {
    // what a ground lacks
    {"no map features at all: only the relief is known",
     "keine Kartenobjekte: nur das Relief ist bekannt"},
    {"no streams on the map: those worked out from the relief stand in; some may be dry",
     "keine Bäche auf der Karte: an ihrer Stelle stehen die aus dem Relief berechneten; manche "
     "können trocken sein"},
    {"no streams on the map: neither led by, nor stopped by, nor kept off",
     "keine Bäche auf der Karte: sie leiten nicht, fangen nicht auf und werden nicht gemieden"},
    {"no lakes on the map: one dead-flat area of the heights ({} km2) taken as water, drawn with a "
     "broken rim and never walked over; if this is land, build with --dry-flats. Smaller or "
     "rougher lakes are not found: a way may lead into water",
     "keine Seen auf der Karte: eine völlig ebene Fläche der Höhen ({,} km²) gilt als Wasser, mit "
     "gestricheltem Rand, und wird nie betreten; ist es Land, baut mit --dry-flats. Kleinere oder "
     "unebene Seen werden nicht gefunden: ein Weg kann ins Wasser führen"},
    {"no lakes on the map: {} dead-flat areas of the heights ({} km2) taken as water, drawn with a "
     "broken rim and never walked over; if this is land, build with --dry-flats. Smaller or "
     "rougher lakes are not found: a way may lead into water",
     "keine Seen auf der Karte: {} völlig ebene Flächen der Höhen ({,} km²) gelten als Wasser, mit "
     "gestricheltem Rand, und werden nie betreten; ist es Land, baut mit --dry-flats. Kleinere "
     "oder unebene Seen werden nicht gefunden: ein Weg kann ins Wasser führen"},
    {"no lakes on the map, and no dead-flat area of the heights is taken as one: a way may lead "
     "into water",
     "keine Seen auf der Karte, und keine ebene Fläche der Höhen gilt als See: ein Weg kann ins "
     "Wasser führen"},
    {"no rivers on the map: a way may cross one without a word of it",
     "keine Flüsse auf der Karte: ein Weg kann einen kreuzen, ohne dass es gesagt wird"},
    {"no cliffs on the map: steep ground is known from the heights alone, and a drop narrower than "
     "two of their cells may not show in them",
     "keine Felswände auf der Karte: steiles Gelände ist nur aus den Höhen bekannt, und ein "
     "Abbruch "
     "schmaler als zwei ihrer Zellen kann darin fehlen"},
    {"no paths or tracks on the map: every leg is on a bearing or along water, ridges and valleys",
     "keine Pfade oder Fahrwege auf der Karte: jeder Abschnitt geht nach Kompass oder an Wasser, "
     "Rücken und Tälern entlang"},
    {"no roads on the map: escape routes do not end at one",
     "keine Straßen auf der Karte: kein Notabstieg endet an einer"},
    {"no woods on the map: walked through and seen through as if open",
     "keine Wälder auf der Karte: begangen und durchblickt, als wäre es offen"},
    {"no walls or fences on the map: neither led by nor climbed",
     "keine Mauern oder Zäune auf der Karte: sie leiten nicht und werden nicht überstiegen"},
    {"no heights on {} % of the ground", "keine Höhen auf {,} % des Geländes"},
    {"the licence of {}", "die Lizenz von {}"},
    {"whom to credit for the use of {}", "wen man für die Nutzung von {} nennen muss"},
    // what was odd about its files
    {"{} features have no kind and were left out; a rule in --kinds FILE can give one (first: {~})",
     "{} Objekte haben keine Art und fehlen; eine Regel in --kinds DATEI kann eine geben (das "
     "erste: {})"},
    {"{} features could not be brought into the grid and were left out (first: {~})",
     "{} Objekte ließen sich nicht ins Gitter bringen und fehlen (das erste: {})"},
    {"{} features have too few points and were left out (first: {~})",
     "{} Objekte haben zu wenige Punkte und fehlen (das erste: {})"},
    {"{} rings touch or cross themselves slightly and were mended (first: {~})",
     "{} Ringe berühren oder kreuzen sich ein wenig und wurden berichtigt (der erste: {})"},
    {"{} areas could not be cut to the ground and were left out (first: {~})",
     "{} Flächen ließen sich nicht auf das Gelände zuschneiden und fehlen (die erste: {})"},
    {"heights in {} turned into metres", "Höhen in „{}“ wurden in Meter umgerechnet"},
    {"heights beyond -12000 to 9000 m were taken for voids",
     "Höhen jenseits von -12000 bis 9000 m gelten als Lücken"},
    {"{} ways have nodes that are not in the file and were cut there",
     "{} Wege haben Knoten, die nicht in der Datei sind, und enden dort"},
    {"expected map features, found none", "erwartet werden Kartenobjekte, gefunden ist keines"},
    {"nothing of it lies on the heights, though it goes round them: the map is at {} to {}, {} to "
     "{}; the heights at {} to {}, {} to {}",
     "nichts davon liegt auf den Höhen, obwohl es um sie herumreicht: die Karte liegt von {} bis "
     "{}, {} bis {}; die Höhen von {} bis {}, {} bis {}"},
    {"expected a map that lies on the heights; the map is at {} to {}, {} to {}; the heights at {} "
     "to {}, {} to {}, less than 1 km apart",
     "erwartet wird eine Karte, die auf den Höhen liegt; die Karte liegt von {} bis {}, {} bis {}; "
     "die Höhen von {} bis {}, {} bis {}, weniger als 1 km entfernt"},
    {"expected a map that lies on the heights; the map is at {} to {}, {} to {}; the heights at {} "
     "to {}, {} to {}, {} apart",
     "erwartet wird eine Karte, die auf den Höhen liegt; die Karte liegt von {} bis {}, {} bis {}; "
     "die Höhen von {} bis {}, {} bis {}, {} entfernt"},
};

}  // namespace

std::span<const RefusalWord> refusal_words_of_grounds() { return table; }

}  // namespace lodeway::units
