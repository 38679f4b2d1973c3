#include "lodeway/reckoning/judge_words.hpp"

#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"

namespace lodeway::reckoning {

namespace {
using units::Language;

/// Up to whole tens: nobody counts finer when in doubt.
double tens(double metres) { return std::ceil(metres / 10) * 10; }
}  // namespace

std::string confusable_words(const std::string& what, double before_m, Language language) {
  return language == Language::german ? fmt::format("{}, {:.0f} m vor dem Ende", what, before_m)
                                      : fmt::format("a {} {:.0f} m before the end", what, before_m);
}

std::string if_lost_words(const walking::Leg& leg, const LegModel& model, double search,
                          bool to_stop, Language language, mapdata::Kind line) {
  const bool german = language == Language::german;
  if (model.end == EndKind::turn && model.window_m > 0) {
    return german
               ? fmt::format(
                     "{} ist durch nichts bezeichnet: nach der Zählung halten und im Umkreis von "
                     "{:.0f} m suchen.",
                     leg.to, tens(model.beyond_m))
               : fmt::format(
                     "Nothing marks {}: stop by the count, and look round for it within {:.0f} m.",
                     leg.to, tens(model.beyond_m));
  }
  if (model.end == EndKind::turn) {
    return german ? "Hier ist nichts zu sehen: zählen, und der nächsten Linie trauen."
                  : "Nothing marks this turn: count, and trust the next line you meet.";
  }
  if (model.end == EndKind::line && model.offset_m != 0) {
    const auto what = landmarks::thing(line, "", language);
    return german ? fmt::format(
                        "Kommt {} nicht nach {:.0f} m entlang ({}): umkehren und in die andere "
                        "Richtung folgen.",
                        leg.to, tens(search), what)
                  : fmt::format(
                        "If {} does not come within {:.0f} m along the {}, turn round and follow "
                        "it the other way.",
                        leg.to, tens(search), what);
  }
  if (!to_stop && leg.kind == walking::LegKind::along) {
    const auto what =
        landmarks::thing(line, leg.along == mapdata::kind_words(line) ? "" : leg.along, language);
    // back to the last thing that was sure
    const walking::Tick* last = nullptr;
    for (const auto& tick : leg.ticks) {
      if (tick.at_m < model.length_m - 1 && (last == nullptr || tick.at_m > last->at_m))
        last = &tick;
    }
    const double back = model.since_tick_m, past = tens(model.beyond_m);
    if (german) {
      const auto where = last != nullptr
                             ? fmt::format("{:.0f} m zurück ({}: „{}“)", back, what, last->what)
                             : fmt::format("zurück bis {} ({})", leg.from, what);
      return fmt::format("Kommt {} nicht bis {:.0f} m über die Zählung hinaus: {} und neu zählen.",
                         leg.to, past, where);
    }
    const auto where = last != nullptr
                           ? fmt::format("{:.0f} m along the {} (“{}”)", back, what, last->what)
                           : fmt::format("along the {} to {}", what, leg.from);
    return fmt::format(
        "If {} does not come within {:.0f} m past the count: go back {}, and count again.", leg.to,
        past, where);
  }
  if (!to_stop) {
    return german ? fmt::format(
                        "Nichts hält euch auf: {:.0f} m über die Zählung hinaus umkehren, zurück "
                        "zu {}.",
                        tens(model.beyond_m), leg.from)
                  : fmt::format(
                        "Nothing stops you: {:.0f} m past the count, turn round and go back to {}.",
                        tens(model.beyond_m), leg.from);
  }
  if (leg.stop->beyond_m > 1) {
    return german ? fmt::format(
                        "Kommt {} nicht: weiter bis {}, {:.0f} m dahinter, und von dort den Ort "
                        "suchen.",
                        leg.to, leg.stop->what, leg.stop->beyond_m)
                  : fmt::format(
                        "If {} does not come, go on to {}, {:.0f} m beyond, and find your place "
                        "from there.",
                        leg.to, leg.stop->what, leg.stop->beyond_m);
  }
  return german ? fmt::format("{} hält euch auf; ist es nicht {}, dort nach beiden Seiten suchen.",
                              leg.stop->what, leg.to)
                : fmt::format("You are stopped by {}; if it is not {}, search along it both ways.",
                              leg.stop->what, leg.to);
}

}  // namespace lodeway::reckoning
