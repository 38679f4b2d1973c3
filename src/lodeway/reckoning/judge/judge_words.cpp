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
  return units::length_text(std::ceil(metres / unit - 1e-6) * unit, speech.style);
}

constexpr double least_m = 20;  ///< under it nobody is sent on

/// What lies ahead of a leg's end, and how far.
struct Ahead {
  std::string what;
  double distance_m = DrillRoom::free;
};

/// The nearest ground to keep off straight ahead of a leg's end: by its name where it has one.
Ahead ahead_of(const walking::Leg& leg, const DrillRoom& room, bool german) {
  Ahead nearest{german ? "zu meidendes Gelände" : "ground to keep off", room.ahead_m};
  if (leg.course.kind == walking::LegKind::along) return nearest;  // what it follows may bend away
  for (const auto& d : leg.dangers) {
    if (d.side == mapdata::Side::none && d.distance_m <= nearest.distance_m)
      nearest = {d.what, d.distance_m};
  }
  return nearest;
}

/// How far past its count a party may go: as far as it would, but stopping two sigmas short of what
/// lies ahead, by which 2 in 100 are still too far; under 20 m nobody is sent on.
double may_go_on_m(const Ahead& ahead, const LegModel& model) {
  constexpr double sigmas = 2;
  const double left = ahead.distance_m - sigmas * model.spread.along_sigma_m;
  return left < least_m ? 0 : std::min(model.beyond_m, left);
}

/// On a line met: turned round after `search`, or sooner where ground to keep off lies on it.
std::string along_words(const walking::Leg& leg, const LegModel& model, double search,
                        const std::string& what, const units::Speech& speech,
                        const DrillRoom& room);

std::string down_to_tens(double metres, const units::Speech& speech) {
  const double unit = 10 * (speech.style.imperial ? units::metres_per_foot : 1);
  return units::length_text(std::floor(metres / unit) * unit, speech.style);
}

std::string along_words(const walking::Leg& leg, const LegModel& model, double search,
                        const std::string& what, const units::Speech& speech,
                        const DrillRoom& room) {
  const bool german = speech == Language::german;
  const double aimed = std::abs(model.offset_m),
               on = aimed + std::max(room.line_on_m - least_m, 0.0);
  const bool on_bounded = on < search, back_bounded = room.line_back_m < DrillRoom::free;
  const auto first = on_bounded ? down_to_tens(on, speech) : tens(search, speech);
  auto out = german ? fmt::format(
                          "Kommt {} nicht nach {} entlang ({}): umkehren und in die andere "
                          "Richtung folgen",
                          leg.course.to, first, what)
                    : fmt::format(
                          "If {} does not come within {} along the {}, turn round and "
                          "follow it the other way",
                          leg.course.to, first, what);
  if (back_bounded) {
    const double back = std::min(on, search) + room.line_back_m - aimed - least_m;
    out += german ? fmt::format(", höchstens {}", down_to_tens(std::max(back, 0.0), speech))
                  : fmt::format(", at most {}", down_to_tens(std::max(back, 0.0), speech));
  }
  if (!on_bounded && !back_bounded) return out + ".";
  return out +
         (german ? ": weiter liegt zu meidendes Gelände." : ": ground to keep off lies beyond.");
}
}  // namespace

std::string confusable_words(const std::string& what, double before_m,
                             const units::Speech& speech) {
  const auto before = units::length_text(before_m, speech.style);
  return speech == Language::german ? fmt::format("{}, {} vor dem Ende", what, before)
                                    : fmt::format("a {} {} before the end", what, before);
}

std::string if_lost_words(const walking::Leg& leg, const LegModel& model, double search,
                          bool to_stop, const units::Speech& speech, mapdata::Kind line,
                          const DrillRoom& room) {
  const bool german = speech == Language::german;
  const auto past = tens(model.beyond_m, speech);
  const auto ahead = ahead_of(leg, room, german);
  // What would stop the party lies behind ground to keep off: then nothing does.
  if (to_stop && ahead.distance_m + least_m < leg.stop->beyond_m) to_stop = false;
  if (model.end == EndKind::turn && model.window_m > 0 && room.around_m < model.beyond_m) {
    const auto near = down_to_tens(room.around_m, speech);
    if (room.around_m < least_m) {
      return german
                 ? fmt::format(
                       "{} ist durch nichts bezeichnet: nach der Zählung halten und nicht "
                       "suchen, zu meidendes Gelände ist nahe.",
                       leg.course.to)
                 : fmt::format(
                       "Nothing marks {}: stop by the count and do not look round for it, ground "
                       "to keep off is near.",
                       leg.course.to);
    }
    return german
               ? fmt::format(
                     "{} ist durch nichts bezeichnet: nach der Zählung halten und nur im "
                     "Umkreis von {} suchen, dahinter liegt zu meidendes Gelände.",
                     leg.course.to, near)
               : fmt::format(
                     "Nothing marks {}: stop by the count, and look round for it within {} only, "
                     "ground to keep off lies beyond.",
                     leg.course.to, near);
  }
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
    return along_words(leg, model, search, landmarks::thing(line, "", speech), speech, room);
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
    const double on = may_go_on_m(ahead, model);
    const bool bounded = on < model.beyond_m;
    const auto far = units::length_text(ahead.distance_m, speech.style);
    const auto least = bounded ? down_to_tens(on, speech) : past;
    if (german) {
      const auto where = last != nullptr
                             ? fmt::format("{} zurück ({}: „{}“)", back, what, last->what)
                             : fmt::format("zurück bis {} ({})", leg.course.from, what);
      if (bounded && on <= 0)
        return fmt::format(
            "Nicht über die Zählung hinaus: {} dahinter liegt {}. Kommt {} nicht: {} und neu "
            "zählen.",
            far, ahead.what, leg.course.to, where);
      return fmt::format("Kommt {} nicht bis {} über die Zählung hinaus: {} und neu zählen.{}",
                         leg.course.to, least, where,
                         bounded ? fmt::format(" Weiter vorn liegt {}.", ahead.what) : "");
    }
    const auto where = last != nullptr
                           ? fmt::format("{} along the {} (“{}”)", back, what, last->what)
                           : fmt::format("along the {} to {}", what, leg.course.from);
    if (bounded && on <= 0)
      return fmt::format(
          "Do not go past your count: {} lies {} beyond. Not at {}? Go back {}, and count again.",
          ahead.what, far, leg.course.to, where);
    return fmt::format(
        "If {} does not come within {} past the count: go back {}, and count again.{}",
        leg.course.to, least, where,
        bounded ? fmt::format(" Further on lies {}.", ahead.what) : "");
  }
  if (!to_stop && may_go_on_m(ahead, model) < model.beyond_m) {
    const double on = may_go_on_m(ahead, model);
    const auto far = units::length_text(ahead.distance_m, speech.style);
    if (on <= 0) {
      return german ? fmt::format(
                          "Nicht über die Zählung hinaus: {} dahinter liegt {}. Kommt {} nicht: "
                          "umkehren, zurück zu {}.",
                          far, ahead.what, leg.course.to, leg.course.from)
                    : fmt::format(
                          "Do not go past your count: {} lies {} beyond. Not at {}? Turn round and "
                          "go back to {}.",
                          ahead.what, far, leg.course.to, leg.course.from);
    }
    const auto past_m = down_to_tens(on, speech);
    return german ? fmt::format(
                        "Nichts hält euch auf, und {} dahinter liegt {}: höchstens {} über die "
                        "Zählung hinaus, dann umkehren, zurück zu {}.",
                        far, ahead.what, past_m, leg.course.from)
                  : fmt::format(
                        "Nothing stops you, and {} lies {} beyond: at most {} past the count, then "
                        "turn round and go back to {}.",
                        ahead.what, far, past_m, leg.course.from);
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
  auto both =
      german ? fmt::format("{} hält euch auf; ist es nicht {}, dort nach beiden Seiten suchen.",
                           leg.stop->what, leg.course.to)
             : fmt::format("You are stopped by {}; if it is not {}, search along it both ways.",
                           leg.stop->what, leg.course.to);
  const double side = std::min(room.line_on_m, room.line_back_m);
  if (side == DrillRoom::free) return both;
  const auto most = down_to_tens(std::max(side - least_m, 0.0), speech);
  return both + (german ? fmt::format(" Höchstens {}: dort liegt zu meidendes Gelände.", most)
                        : fmt::format(" At most {}: ground to keep off lies there.", most));
}

}  // namespace lodeway::reckoning
