#include "lodeway/reckoning/judge/teller.hpp"

#include <utility>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/reckoning/judge/judge_words.hpp"
#include "lodeway/result/overloaded.hpp"

namespace lodeway::reckoning {

using result::overloaded;
using walking::Leg;

Judged Teller::judged(const Leg& leg, const Weighed& model) const {
  const Guides& guides = judge_.guides();
  const Walked walk = walked(leg, model);
  Judged out;
  if (walk.needle)
    out.needle = NeedlePart{model.aim,
                            model.bearing,
                            walk.needle->map_m,
                            walk.needle->length_m,
                            walk.needle->double_paces,
                            walk.needle->minutes};
  if (const AtLine* aimed = aimed_off(model.end)) {
    const mapdata::Label& met = guides.line(aimed->place.line).label;
    out.after = AfterAim{aimed->aim_is_left ? mapdata::Side::left : mapdata::Side::right,
                         landmarks::thing(met.kind, met.name, speech_),
                         walk.after->map_m,
                         walk.after->length_m,
                         walk.after->double_paces,
                         walk.after->minutes};
  }
  out.length_m = walk.length_m;
  out.minutes = walk.minutes;
  out.minutes_slow = walk.minutes_slow;
  out.certainty = model.certainty;
  out.cross_sigma_m = model.spread.cross_sigma_m;
  out.along_sigma_m = model.spread.along_sigma_m;
  out.hazard_probability = model.hazard_probability;
  out.recovery_minutes = model.recovery_minutes;
  out.fix_at_end = is_fix(model.end);
  out.at_end = model.at_end;
  for (const DecoyPlace& d : model.decoys) {
    if (d.probability <= out.confusable_probability) continue;
    const auto what = std::visit(
        overloaded{[&](const LikeLine& like) {
                     return landmarks::thing(guides.line(like.line).label.kind, "", speech_);
                   },
                   [&](const LikeMark& like) {
                     return landmarks::words(guides.fixes()[like.fix], speech_);
                   }},
        d.thing);
    out.confusable = confusable_words(what, model.length_m - d.along_m, speech_);
    out.confusable_probability = d.probability;
  }
  const auto* met = std::get_if<AtLine>(&model.end);
  const auto line =
      met != nullptr ? guides.line(met->place.line).label.kind : leg.course.followed.kind;
  const double search = met != nullptr ? search_m(*met, judge_.habits()) : 0;
  out.if_lost = if_lost_words(leg, model, search, goes_on_to_stop(leg, model), speech_, line,
                              drill_room(judge_.hazards(), guides, leg, model, search), model.certainty);
  return out;
}

JudgedWay Teller::judged(const walking::Way& way) const {
  Drift carried = judge_.at_fix();
  JudgedWay out{way.name, {}, 1};
  for (const Leg& leg : way.legs) {
    auto model = judge_.weigh(leg, carried);
    if (&leg == &way.legs.back()) model = judge_.as_end_of_way(leg, std::move(model));
    out.legs.push_back({leg, judged(leg, model)});
    out.certainty *= out.legs.back().judged.certainty;
  }
  return out;
}

}  // namespace lodeway::reckoning
