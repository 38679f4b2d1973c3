#include "lodeway/tasks/conditions_json.hpp"

#include "lodeway/trip/verdict_words.hpp"

namespace lodeway::tasks {

Json conditions_json(const std::vector<ConditionRow>& rows, const trip::Trip& trip) {
  const bool for_clear = trip.request.party.visibility == mapdata::Visibility::clear;
  auto out = Json::array();
  for (const auto& row : rows) {
    Json of{{"condition", condition_name(row.condition, for_clear)},
            {"title", row.title},
            {"verdict", trip::band_name(row.verdict.band)},
            {"sentences", trip::verdict_sentences(row.verdict, trip.language)},
            {"certainty", row.certainty},
            {"hazard_probability", row.keep_off},
            {"minutes", row.minutes},
            {"leg", row.leg < 0 ? Json() : Json(row.leg + 1)},
            {"fallback", fallback_name(row.fallback)},
            {"then", row.then}};
    add_clock(of, "end", row.end, row.daylight);
    add_clock(of, "end_slow", row.end_slow, row.daylight);
    out.push_back(std::move(of));
  }
  return out;
}

}  // namespace lodeway::tasks
