#include "lodeway/reckoning/judge/judge_words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"

namespace lodeway::reckoning {

namespace {
using units::Language;

/// Up to whole tens of metres or feet: nobody counts finer when in doubt.
std::string tens(double metres, const units::Speech& speech) {
  const double unit = 10 * (speech.style.imperial ? units::metres_per_foot : 1);
  return units::length_text(std::ceil(metres / unit) * unit, speech.style);
}

/// The nearest ground to keep off straight ahead of a leg's end.
const walking::Danger* ahead_of(const walking::Leg& leg) {
  const walking::Danger* nearest = nullptr;
  for (const auto& d : leg.dangers) {
    if (d.side == mapdata::Side::none && (nearest == nullptr || d.distance_m < nearest->distance_m))
      nearest = &d;
  }
  return nearest;
}

/// How far past its count a party may go: as far as it would, but stopping two sigmas short of what
/// lies ahead, by which 2 in 100 are still too far; under 20 m nobody is sent on.
double may_go_on_m(const walking::Leg& leg, const LegModel& model) {
  constexpr double sigmas = 2, least_m = 20;
  const auto* danger = ahead_of(leg);
  if (danger == nullptr) return model.beyond_m;
  const double room = danger->distance_m - sigmas * model.spread.along_sigma_m;
  return room < least_m ? 0 : std::min(model.beyond_m, room);
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

std::string if_lost_words(const walking::Leg& leg, const LegModel& model, double search,
                          bool to_stop, const units::Speech& speech, mapdata::Kind line) {
  const bool german = speech == Language::german;
  const auto past = tens(model.beyond_m, speech);
  if (model.end == EndKind::turn && model.window_m > 0) {
    return german
               ? fmt::format(
                     "{} ist durch nichts bezeichnet: nach der Zählung halten und im Umkreis von "
                     "{} suchen.",
                     leg.course.to, past)
               : fmt::format(
                     "Nothing marks {}: stop by the count, and look round for it within {}.",
                     leg.course.to, past);
  }
  if (model.end == EndKind::turn) {
    return german ? "Hier ist nichts zu sehen: zählen, und der nächsten Linie trauen."
                  : "Nothing marks this turn: count, and trust the next line you meet.";
  }
  if (model.end == EndKind::line && model.offset_m != 0) {
    const auto what = landmarks::thing(line, "", speech);
    return german ? fmt::format(
                        "Kommt {} nicht nach {} entlang ({}): umkehren und in die andere "
                        "Richtung folgen.",
                        leg.course.to, tens(search, speech), what)
                  : fmt::format(
                        "If {} does not come within {} along the {}, turn round and follow "
                        "it the other way.",
                        leg.course.to, tens(search, speech), what);
  }
  if (!to_stop && leg.course.kind == walking::LegKind::along) {
    const auto what = landmarks::thing(
        line, leg.course.followed.name == mapdata::kind_words(line) ? "" : leg.course.followed.name,
        speech);
    // back to the last thing that was sure
    const walking::Tick* last = nullptr;
    for (const auto& tick : leg.ticks) {
      if (tick.at_m < model.length_m - 1 && (last == nullptr || tick.at_m > last->at_m))
        last = &tick;
    }
    const auto back = units::length_text(model.since_tick_m, speech.style);
    if (german) {
      const auto where = last != nullptr
                             ? fmt::format("{} zurück ({}: „{}“)", back, what, last->what)
                             : fmt::format("zurück bis {} ({})", leg.course.from, what);
      return fmt::format("Kommt {} nicht bis {} über die Zählung hinaus: {} und neu zählen.",
                         leg.course.to, past, where);
    }
    const auto where = last != nullptr
                           ? fmt::format("{} along the {} (“{}”)", back, what, last->what)
                           : fmt::format("along the {} to {}", what, leg.course.from);
    return fmt::format("If {} does not come within {} past the count: go back {}, and count again.",
                       leg.course.to, past, where);
  }
  if (!to_stop && may_go_on_m(leg, model) < model.beyond_m) {
    const double on = may_go_on_m(leg, model);
    const auto& danger = *ahead_of(leg);
    const auto far = units::length_text(danger.distance_m, speech.style);
    if (on <= 0) {
      return german ? fmt::format(
                          "Nicht über die Zählung hinaus: {} dahinter liegt {}. Kommt {} nicht: "
                          "umkehren, zurück zu {}.",
                          far, danger.what, leg.course.to, leg.course.from)
                    : fmt::format(
                          "Do not go past your count: {} lies {} beyond. Not at {}? Turn round and "
                          "go back to {}.",
                          danger.what, far, leg.course.to, leg.course.from);
    }
    const auto past_m = down_to_tens(on, speech);
    return german ? fmt::format(
                        "Nichts hält euch auf, und {} dahinter liegt {}: höchstens {} über die "
                        "Zählung hinaus, dann umkehren, zurück zu {}.",
                        far, danger.what, past_m, leg.course.from)
                  : fmt::format(
                        "Nothing stops you, and {} lies {} beyond: at most {} past the count, then "
                        "turn round and go back to {}.",
                        danger.what, far, past_m, leg.course.from);
  }
  if (!to_stop) {
    return german
               ? fmt::format(
                     "Nichts hält euch auf: {} über die Zählung hinaus umkehren, zurück "
                     "zu {}.",
                     past, leg.course.from)
               : fmt::format("Nothing stops you: {} past the count, turn round and go back to {}.",
                             past, leg.course.from);
  }
  if (leg.stop->beyond_m > 1) {
    const auto beyond = units::length_text(leg.stop->beyond_m, speech.style);
    if (leg.stop->kind == mapdata::Kind::cliff) {  // it stops a party, but nobody is sent to it
      return german ? fmt::format(
                          "Kommt {} nicht: nicht weitergehen, {} dahinter liegt {}; zurück "
                          "zu {}.",
                          leg.course.to, beyond, leg.stop->what, leg.course.from)
                    : fmt::format(
                          "If {} does not come, do not go on: {} lies {} beyond; go back "
                          "to {}.",
                          leg.course.to, leg.stop->what, beyond, leg.course.from);
    }
    return german ? fmt::format(
                        "Kommt {} nicht: weiter bis {}, {} dahinter, und von dort den Ort "
                        "suchen.",
                        leg.course.to, leg.stop->what, beyond)
                  : fmt::format(
                        "If {} does not come, go on to {}, {} beyond, and find your place "
                        "from there.",
                        leg.course.to, leg.stop->what, beyond);
  }
  return german ? fmt::format("{} hält euch auf; ist es nicht {}, dort nach beiden Seiten suchen.",
                              leg.stop->what, leg.course.to)
                : fmt::format("You are stopped by {}; if it is not {}, search along it both ways.",
                              leg.stop->what, leg.course.to);
}

}  // namespace lodeway::reckoning
