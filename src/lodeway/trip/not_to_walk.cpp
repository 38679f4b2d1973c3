#include "lodeway/trip/not_to_walk.hpp"

#include <algorithm>

#include "lodeway/trip/verdict_words.hpp"

namespace lodeway::trip {

namespace {
bool german(const Plan& plan) { return plan.trip.language == units::Language::german; }
}  // namespace

bool not_to_walk(const Plan& plan) {
  const bool over = std::ranges::any_of(plan.verdict.reasons, [](const Reason& reason) {
    return reason.what == Fails::keep_off && reason.leg < 0;
  });
  return over && plan.keep_off > plan.way.certainty;
}

std::string not_to_walk_mark(const Plan& plan) {
  if (!not_to_walk(plan)) return {};
  return german(plan) ? "Nicht zu gehen" : "Not to be walked";
}

std::string headline_of(const Plan& plan) {
  auto mark = not_to_walk_mark(plan);
  return mark.empty() ? verdict_headline(plan.verdict.band, plan.trip.language) : mark;
}

std::vector<std::string> sentences_of(const Plan& plan) {
  auto out = verdict_sentences(plan.verdict, plan.trip.language);
  if (!not_to_walk(plan)) return out;
  const std::vector<std::string> first =
      german(plan)
          ? std::vector<std::string>{
                "Mehr Gruppen geraten auf zu meidendes Gelände, als alle Abschnitte halten. Die "
                "Abschnitte stehen nur da, um zu zeigen, wo.",
                "Als Nächstes: einen Ort an einer Straße, einem Weg oder Wasser dazwischen setzen, "
                "ein anderes Ziel oder einen anderen Anfang; dann neu fragen."}
          : std::vector<std::string>{
                "More parties stray onto ground to keep off than keep every leg. The legs stand here "
                "only to show where.",
                "Next: set a place on a road, path or water between, another end or another start; "
                "then ask again."};
  out.insert(out.begin(), first.begin(), first.end());
  return out;
}

}  // namespace lodeway::trip
