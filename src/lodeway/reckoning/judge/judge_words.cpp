#include "lodeway/reckoning/judge/judge_words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/units/capital.hpp"

namespace lodeway::reckoning {

namespace {
using units::capital;
using units::Language;

/// Up to whole tens of metres or feet: nobody counts finer when in doubt.
std::string tens(double metres, const units::Speech& speech) {
  const double unit = 10 * (speech.style.imperial ? units::metres_per_foot : 1);
  return units::length_text(std::ceil(metres / unit - 1e-6) * unit, speech.style);
}

constexpr double least_m = least_on_m;

/// What lies ahead of a leg's end, and how far.
struct Ahead {
  std::string what;
  double distance_m = DrillRoom::free;
};

/// "Brennow Edge, cliff" of "Brennow Edge, cliff, 142 m beyond the end": how far is said anew.
std::string without_place(const std::string& danger) {
  return danger.substr(0, danger.rfind(", "));
}

/// The nearest ground to keep off straight ahead of a leg's end: by its name where it has one.
Ahead ahead_of(const walking::Leg& leg, const DrillRoom& room, bool german) {
  Ahead nearest{german ? "zu meidendes Gelände" : "ground to keep off", room.ahead_m};
  if (leg.course.kind == walking::LegKind::along) return nearest;  // what it follows may bend away
  for (const auto& d : leg.dangers) {
    if (d.side == mapdata::Side::none && d.distance_m <= nearest.distance_m)
      nearest = {without_place(d.what), d.distance_m};
  }
  return nearest;
}

std::string down_to_tens(double metres, const units::Speech& speech) {
  const double unit = 10 * (speech.style.imperial ? units::metres_per_foot : 1);
  return units::length_text(std::floor(metres / unit) * unit, speech.style);
}
}  // namespace

std::string confusable_words(const std::string& what, double before_m,
                             const units::Speech& speech) {
  const auto before = units::length_text(before_m, speech.style);
  return speech == Language::german ? fmt::format("{}, {} vor dem Ende", what, before)
                                    : fmt::format("a {} {} before the end", what, before);
}

namespace {

/// "the path junction", "Kell Gap": what has no name of its own has an article.
std::string with_article(const std::string& name, bool german) {
  const bool plain = !name.empty() && name[0] >= 'a' && name[0] <= 'z' && !name.starts_with("the ");
  return !german && plain ? "the " + name : name;
}

/// A leg of which the words are made: names as they stand in a sentence.
struct Told {
  const walking::Leg& leg;
  const Approach& way;
  const units::Speech& speech;
  const DrillRoom& room;
  bool sure = true;  ///< kept by most
  bool german = speech == Language::german;
  Ahead ahead = ahead_of(leg, room, german);
  std::string from = with_article(leg.course.from, german);
  std::string to = with_article(leg.course.to, german);

  [[nodiscard]] std::string length(double m) const { return units::length_text(m, speech.style); }
  /// Counted is in double paces: "81 double paces".
  [[nodiscard]] std::string paces(double m) const {
    const double each = leg.figures.length_m > 0 ? leg.figures.double_paces / leg.figures.length_m : 0;
    return fmt::format("{:.0f} {}", m * each, german ? "Doppelschritte" : "double paces");
  }
  /// "130 m past your count (81 double paces)", in whole tens, up or down.
  [[nodiscard]] std::string past_count(double m, bool down) const {
    const double unit = 10 * (speech.style.imperial ? units::metres_per_foot : 1);
    const double tens_m = unit * (down ? std::floor(m / unit) : std::ceil(m / unit - 1e-6));
    const auto out = length(tens_m) + in_either(" past your count", " über die Zählung hinaus");
    return leg.figures.double_paces > 0 ? fmt::format("{} ({})", out, paces(tens_m)) : out;
  }
  /// A catching feature stands on the card, though it is no help here.
  [[nodiscard]] bool stop_is_told() const { return leg.stop && leg.stop->beyond_m > 1; }
  [[nodiscard]] std::string unstopped() const {
    return stop_is_told() ? "" : in_either("Nothing will stop you: ", "Keine Auffanglinie: ");
  }
  [[nodiscard]] std::string whole_tens(double m) const { return tens(m, speech); }
  [[nodiscard]] std::string in_either(std::string english, std::string deutsch) const {
    return german ? std::move(deutsch) : std::move(english);
  }
};

// *Practice*: nobody walks farther back for a place to count from.
constexpr double most_back_m = 500;
// *Practice*: of a leg that fewer keep nobody says that where it ends is the end.
constexpr double sure_from = 0.75;

/// What stops the party farther on, where it may come to it; else that nothing does.
std::string nothing_marks(const Told& t, bool to_stop) {
  return to_stop ? t.in_either(fmt::format("Nothing marks {}", t.to),
                               fmt::format("{} ist durch nichts erkennbar", t.to))
                 : t.in_either(fmt::format("Nothing will stop you and nothing marks {}", t.to),
                               fmt::format("Keine Auffanglinie, und {} ist durch nichts erkennbar",
                                           t.to));
}
std::string too_far_at_stop(const Told& t, bool to_stop) {
  if (!to_stop || t.leg.stop->beyond_m <= 1) return "";
  const auto what = with_article(t.leg.stop->what, t.german);
  const auto beyond = t.length(t.leg.stop->beyond_m);
  return t.in_either(fmt::format(" At {} you are {} too far.", what, beyond),
                     fmt::format(" An {} seid ihr {} zu weit.", what, beyond));
}

std::string at_nothing(const Told& t, const AtNothing& end, bool to_stop) {
  const auto past = t.whole_tens(end.look_round_m);
  const auto nothing = nothing_marks(t, to_stop);
  if (t.room.around_m < least_m)
    return t.in_either(
        fmt::format("{}: stop on your count and do not look round for it, ground to keep off is near.",
                    nothing),
        fmt::format("{}: nach der Zählung anhalten und nicht suchen, zu meidendes Gelände ist nahe.",
                    nothing));
  if (t.room.around_m < end.look_round_m) {
    const auto near = down_to_tens(t.room.around_m, t.speech);
    return t.in_either(
        fmt::format("{}: stop on your count, and look round for it within {} only; ground to keep off "
                    "lies beyond.",
                    nothing, near),
        fmt::format("{}: nach der Zählung anhalten und nur im Umkreis von {} suchen; dahinter liegt "
                    "zu meidendes Gelände.",
                    nothing, near));
  }
  return t.in_either(
             fmt::format("{}: stop on your count, and look round for it within {}.", nothing, past),
             fmt::format("{}: nach der Zählung anhalten und im Umkreis von {} suchen.", nothing,
                         past)) +
         too_far_at_stop(t, to_stop);
}

/// Where the party then knows its place again hangs on the legs after this one, so nothing is said
/// of it.
std::string at_a_turn(const Told& t, bool to_stop) {
  constexpr double nine_in_ten = 2.146;  // sigmas of a round normal error, sqrt(-2 ln 0.1)
  const auto count = t.leg.figures.double_paces > 0 ? t.paces(t.way.length_m) : t.length(t.way.length_m),
             off = t.whole_tens(nine_in_ten * numeric::axes_of(t.way.at_end).major);
  return t.in_either(
             fmt::format("Nothing marks this turn{}: stop on your count, {}, and turn. Here you may be "
                         "up to {} off, and nothing tells you.",
                         to_stop ? "" : " and nothing will stop you", count, off),
             fmt::format("Hier zu erkennen ist nichts{}: nach der Zählung, {}, anhalten und abbiegen. "
                         "Ihr könnt bis zu {} daneben sein, und nichts zeigt es.",
                         to_stop ? "" : ", und keine Auffanglinie", count, off)) +
         too_far_at_stop(t, to_stop);
}

/// Along a line, for who has not known its end, be there something across it or not (`at_stop`): back to what was sure if that is near, else back over
/// what the end may lie on. Past the count only as far as what lies on along it allows.
std::string past_the_end(const Told& t, const ByHandrail& end, const std::string& what,
                         bool at_stop) {
  const double on = may_go_on_m(t.ahead.distance_m, t.way);
  const bool bounded = on < end.beyond_m, far_back = end.since_tick_m > most_back_m;
  const auto past = t.past_count(bounded ? on : end.beyond_m, bounded);
  std::string out;
  if (bounded && on <= 0) {
    out = t.in_either(fmt::format("Do not go past your count: {} lies {} beyond. Not at {}? ",
                                  t.ahead.what, t.length(t.ahead.distance_m), t.to),
                      fmt::format("Nicht über die Zählung hinaus: {} dahinter liegt {}. Nicht an {}? ",
                                  t.length(t.ahead.distance_m), t.ahead.what, t.to));
  } else if (far_back) {
    out = (at_stop ? "" : t.unstopped()) +
          t.in_either(fmt::format("{} turn round, and ", past),
                      fmt::format("{} umkehren und ", past));
  } else {
    out = t.in_either(fmt::format("Not at {} by {}? ", t.to, past),
                      fmt::format("{} nicht an {}? ", past, t.to));
  }
  if (far_back) {
    const bool begins = bounded && on <= 0;
    const auto look = t.whole_tens(end.beyond_m + (bounded ? on : end.beyond_m));
    out += t.in_either(fmt::format("{} for {} on the last {} of {}.", begins ? "Look" : "look", t.to,
                                    look, what),
                       fmt::format("{} auf den letzten {} suchen ({}).", t.to, look, what));
  } else {
    const walking::Tick* last = nullptr;
    for (const auto& tick : t.leg.ticks) {
      if (tick.counted_from() && tick.at_m < t.way.length_m - 1 && (last == nullptr || tick.at_m > last->at_m))
        last = &tick;
    }
    const auto back = t.length(end.since_tick_m);
    const auto where =
        last == nullptr ? t.from
                        : t.in_either("“" + last->what + "”", "„" + last->what + "“");
    out += t.in_either(
        fmt::format("Turn back along {} to {}, {}, and count again.", what, where, back),
        fmt::format("Zurück ({}) bis {}, {}, und neu zählen.", what, where, back));
  }
  if (bounded && on > 0)
    out += t.in_either(fmt::format(" Farther on lies {}.", t.ahead.what),
                       fmt::format(" Weiter vorn liegt {}.", t.ahead.what));
  return out;
}

/// Who does not come to the line by the count: how far on, where something lies behind it. Empty
/// where nothing does within what the party would go.
std::string not_met(const Told& t, const std::string& line) {
  const double on = may_go_on_m(t.room.ahead_m, t.way);
  if (on >= beyond_m(t.way.end)) return "";
  if (on <= 0)
    return t.in_either(
        fmt::format(" {} not met by your count? Turn round: ground to keep off lies ahead.",
                    capital(line)),
        fmt::format(" {} nach der Zählung nicht erreicht? Umkehren: voraus liegt zu meidendes "
                    "Gelände.",
                    line));
  const auto past = t.past_count(on, true);
  return t.in_either(
      fmt::format(" {} not met by {}? Turn round: ground to keep off lies ahead.",
                  capital(line), past),
      fmt::format(" {} bei {} nicht erreicht? Umkehren: voraus liegt zu "
                  "meidendes Gelände.",
                  line, past));
}

/// There is no search along a line met where ground to keep off lies so near behind the end that
/// who met it two sigmas nearer than aimed would come to it by the count: `on` is less than was
/// aimed off, or nothing.
std::string no_search(const Told& t, double on, const std::string& met) {
  const auto beyond = t.length(t.room.line_on_m);
  const auto why = t.in_either(
      fmt::format("Ground to keep off lies {} beyond {}; you may be nearer than you think.",
                  beyond, t.to),
      fmt::format("{} hinter {} liegt zu meidendes Gelände; ihr könnt näher daran sein, "
                  "als ihr denkt.",
                  beyond, t.to));
  if (on < least_m)
    return t.in_either(
        fmt::format("Do not follow {} unless you see {}. {} {} not in sight? Turn round, back to "
                    "{}, {}.",
                    met, t.to, why, capital(t.to), t.from, t.length(t.way.length_m)),
        fmt::format("{}: nur folgen, wenn ihr {} seht. {} {} nicht zu sehen? Umkehren, zurück zu "
                    "{}, {}.",
                    met, t.to, why, t.to, t.from, t.length(t.way.length_m)));
  const auto by = down_to_tens(on, t.speech);
  return t.in_either(
      fmt::format("Not at {} after {} along {}? Turn round, though your count goes on. Go back to "
                  "where you met it, no farther. {}",
                  t.to, by, met, why),
      fmt::format("Nach {} daran entlang ({}) nicht an {}? Umkehren, auch wenn die Zählung "
                  "weitergeht. Zurück bis dahin, wo ihr darauf getroffen seid, nicht weiter. {}",
                  by, met, t.to, why));
}

/// On a line met: turned round after `search`, or sooner where ground to keep off lies on it.
std::string along_a_line_met(const Told& t, const AtLine& end, double search,
                             const std::string& met) {
  // It met the line within two sigmas of the aim: those nearest to the end and farthest from it too
  // turn round before what lies there.
  const double short_of = short_of_m(end.line_sigma_m);
  const double aimed = std::abs(end.offset_m), room_on = aimed + t.room.line_on_m - short_of,
               on = std::min(room_on, search);
  if (on < aimed) return no_search(t, on, met) + not_met(t, met);
  const bool on_bounded = room_on < search, back_bounded = t.room.line_back_m < DrillRoom::free;
  const auto by = on_bounded ? down_to_tens(on, t.speech) : t.whole_tens(search);
  auto out = t.in_either(fmt::format("Not at {} after {} along {}? ", t.to, by, met),
                         fmt::format("Nach {} daran entlang ({}) nicht an {}? ", by, met, t.to));
  const double room_back = on + t.room.line_back_m - aimed - short_of;
  if (back_bounded && room_back < on + least_m)  // nothing is left past where it was met
    return out +
           t.in_either("Turn round and go back to where you met it, and no farther: ground to keep "
                       "off lies beyond.",
                       "Umkehren, zurück bis dahin, wo ihr darauf getroffen seid, und nicht weiter: "
                       "dahinter liegt zu meidendes Gelände.") +
           not_met(t, met);
  out += t.in_either("Turn round and follow it the other way, past where you met it",
                     "Umkehren und in die andere Richtung folgen, über die Stelle hinaus, wo ihr "
                     "darauf getroffen seid");
  // As far past there as it looked past the end, if nothing forbids it.
  const double past_met = std::max(search - aimed, least_look_m);
  const bool bounds = back_bounded && room_back - on < past_met;
  const auto most = bounds ? down_to_tens(room_back - on, t.speech) : t.whole_tens(past_met);
  out += t.in_either(", at most " + most, ", höchstens " + most);
  if (!on_bounded && !bounds) return out + "." + not_met(t, met);
  return out +
         t.in_either(": ground to keep off lies beyond.", ": weiter liegt zu meidendes Gelände.") +
         not_met(t, met);
}

/// "turn round and go back to the gate, 420 m"; where that is far, or a place that nobody can find again,
/// the party looks for the end as it goes back, so far as it may have gone past it.
std::string back_again(const Told& t, double past_m) {
  const auto* needle = on_needle(t.way.end);
  const bool known = needle == nullptr || needle->from_fix_m <= 0;
  if (known && t.way.length_m <= most_back_m)
    return t.in_either(fmt::format("turn round and go back to {}, {}", t.from, t.length(t.way.length_m)),
                       fmt::format("umkehren, zurück zu {}, {}", t.from, t.length(t.way.length_m)));
  const double across = std::max(least_look_m, 2 * t.way.spread.cross_sigma_m);
  const auto look = t.whole_tens(past_m + std::max(least_look_m, 2 * t.way.spread.along_sigma_m)),
             beside = t.whole_tens(across);
  if (t.room.around_m < 2 * across)  // who is aside already may come to it
    return t.in_either(fmt::format("turn round and look for {} as you go back, for {}", t.to, look),
                       fmt::format("umkehren und auf dem Rückweg {} suchen, {} weit", t.to, look));
  return t.in_either(fmt::format("turn round and look for {} as you go back, for {}, within {} to either "
                                 "hand", t.to, look, beside),
                     fmt::format("umkehren und auf dem Rückweg {} suchen, {} weit, höchstens {} links "
                                 "oder rechts", t.to, look, beside));
}

std::string straight_unstopped(const Told& t) {
  const double on = may_go_on_m(t.ahead.distance_m, t.way);
  if (on >= beyond_m(t.way.end)) {
    const auto past = t.past_count(beyond_m(t.way.end), false), back = back_again(t, beyond_m(t.way.end));
    return units::capital(t.unstopped() +
                          t.in_either(fmt::format("{}, {}.", past, back),
                                      fmt::format("{} {}.", past, back)));
  }
  const auto& danger = t.ahead;
  const auto far = t.length(danger.distance_m);
  const auto back = back_again(t, std::max(on, 0.0));
  if (on <= 0) {
    const auto turn = units::capital(back);
    if (danger.distance_m < 10)
      return t.in_either(
          fmt::format("Do not go past your count: at the end lies {}. Not at {}? {}.", danger.what, t.to, turn),
          fmt::format("Nicht über die Zählung hinaus: am Ende liegt {}. Nicht an {}? {}.", danger.what, t.to,
                      turn));
    return t.in_either(
        fmt::format("Do not go past your count: {} lies {} beyond. Not at {}? {}.", danger.what, far, t.to,
                    turn),
        fmt::format("Nicht über die Zählung hinaus: {} dahinter liegt {}. Nicht an {}? {}.", far, danger.what,
                    t.to, turn));
  }
  const auto past = t.past_count(on, true);
  const bool stop = t.stop_is_told();
  return t.in_either(
      fmt::format("{} lies {} beyond: at most {}, then {}.",
                  stop ? units::capital(danger.what) : "Nothing will stop you, and " + danger.what, far, past,
                  back),
      fmt::format("{} liegt {}: höchstens {}, dann {}.",
                  (stop ? far : "Keine Auffanglinie, und " + far) + " dahinter", danger.what, past, back));
}

/// At what stops the party: how far too far it is, and where the end lies from there.
std::string stopped(const Told& t, const std::string& line) {
  const auto& stop = *t.leg.stop;
  const auto what = with_article(stop.what, t.german);
  const auto beside = t.whole_tens(std::max(least_look_m, 2 * t.way.spread.cross_sigma_m));
  if (stop.beyond_m <= 1) {
    if (const auto* along = std::get_if<ByHandrail>(&t.way.end))
      return past_the_end(t, *along, line, true);
    if (stop.what == t.leg.course.to && !t.sure) {
      const auto off = t.whole_tens(2 * t.way.spread.along_sigma_m);
      return t.in_either(fmt::format("At {} sooner than {} before your count ends? It may be another: look "
                                     "whether it runs as on the map.", what, off),
                         fmt::format("An {} eher als {} vor dem Ende der Zählung? Es kann etwas anderes sein: "
                                     "prüfen, ob der Verlauf zur Karte passt.", what, off));
    }
    if (stop.what == t.leg.course.to)
      return t.in_either(fmt::format("Anywhere on {} you are at the end, within {} to either hand.",
                                     what, beside),
                         fmt::format("Überall an {} seid ihr am Ende, höchstens {} links oder rechts.",
                                     what, beside));
    const auto* met = std::get_if<AtLine>(&t.way.end);
    const double side = std::min(t.room.line_on_m, t.room.line_back_m) -
                        short_of_m(met != nullptr ? met->line_sigma_m : 0);
    if (side < least_m)
      return t.in_either(
          fmt::format("At {}, but not at {}? Do not look along it: ground to keep off lies there. "
                      "Turn round and go back to {}.",
                      what, t.to, t.from),
          fmt::format(
              "An {}, aber nicht an {}? Nicht daran entlang suchen: dort liegt zu meidendes "
              "Gelände. Umkehren, zurück zu {}.",
              what, t.to, t.from));
    if (side < std::max(least_look_m, 2 * t.way.spread.cross_sigma_m)) {
      const auto most = down_to_tens(side, t.speech);
      return t.in_either(
          fmt::format("At {}, but not at {}? Look along it, at most {} each way: ground to keep off "
                      "lies there.",
                      what, t.to, most),
          fmt::format("An {}, aber nicht an {}? Daran entlang suchen, höchstens {} nach jeder Seite: "
                      "dort liegt zu meidendes Gelände.",
                      what, t.to, most));
    }
    return t.in_either(fmt::format("At {}, but not at {}? Look along it, up to {} to the left, then as far "
                                   "to the right of where you met it.", what, t.to, beside),
                       fmt::format("An {}, aber nicht an {}? Daran entlang suchen, bis {} nach links, dann "
                                   "ebenso weit nach rechts von da, wo ihr darauf getroffen seid.",
                                   what, t.to, beside));
  }
  const auto beyond = t.length(stop.beyond_m);
  if (stop.kind == mapdata::Kind::cliff)  // it stops a party, but nobody is sent to it
    return t.in_either(
        fmt::format("Do not go on past your count: {} lies {} beyond. Not at {}? Turn round and go "
                    "back to {}.",
                    what, beyond, t.to, t.from),
        fmt::format("Nicht über die Zählung hinaus: {} dahinter liegt {}. Nicht an {}? Umkehren, "
                    "zurück zu {}.",
                    beyond, what, t.to, t.from));
  if (t.leg.course.kind == walking::LegKind::along)
    return t.in_either(fmt::format("At {} you are {} too far: turn round, back along {} to {}.",
                                   what, beyond, line, t.to),
                       fmt::format("An {} seid ihr {} zu weit: umkehren, zurück ({}) bis {}.", what,
                                   beyond, line, t.to));
  return t.in_either(fmt::format("At {} you are {} too far: turn round; {} lies so far back, within "
                                 "{} to either hand.",
                                 what, beyond, t.to, beside),
                     fmt::format("An {} seid ihr {} zu weit: umkehren; {} liegt so weit zurück, "
                                 "höchstens {} links oder rechts.",
                                 what, beyond, t.to, beside));
}

}  // namespace

std::string if_lost_words(const walking::Leg& leg, const Approach& way, double search,
                          bool to_stop, const units::Speech& speech, mapdata::Kind line,
                          const DrillRoom& room, double certainty) {
  const Told t{leg, way, speech, room, certainty >= sure_from};
  // What would stop the party lies behind ground to keep off: then nothing does.
  if (to_stop && t.ahead.distance_m + least_m < leg.stop->beyond_m) to_stop = false;
  const bool named = leg.course.followed.name != mapdata::kind_words(line);
  const auto followed =
      with_article(landmarks::thing(line, named ? leg.course.followed.name : "", speech), t.german);
  if (std::holds_alternative<AtTurn>(way.end)) return at_a_turn(t, to_stop);
  if (const auto* end = std::get_if<AtNothing>(&way.end)) return at_nothing(t, *end, to_stop);
  if (const AtLine* aimed = aimed_off(way.end)) {
    const auto met = with_article(landmarks::thing(line, "", speech), t.german);
    return along_a_line_met(t, *aimed, search, met);
  }
  if (to_stop) return stopped(t, followed);
  const auto* handrail = std::get_if<ByHandrail>(&way.end);
  return handrail != nullptr ? past_the_end(t, *handrail, followed, false) : straight_unstopped(t);
}

}  // namespace lodeway::reckoning
