#include "lodeway/tasks/conditions_json.hpp"
#include "lodeway/tasks/plan.hpp"
#include "lodeway/tasks/say.hpp"
#include "lodeway/trip/verdict_words.hpp"

namespace lodeway::tasks {

std::string plan_as_json(const PlannedTrip& planned) {
  const auto& plan = planned.plan;
  auto legs = Json::array();
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) legs.push_back(leg_json(plan, i));
  auto ways = Json::array();
  for (std::size_t i = 0; i < planned.ways.ways.size(); ++i) {
    const auto& way = planned.ways.ways[i];
    ways.push_back(way_json(way, way.plan, planned.ground, i == planned.ways.picked));
  }
  const auto& picked = planned.ways.ways[planned.ways.picked];
  const Json out{{"verdict", verdict_json(plan)},
                 {"trip", plan.trip.name},
                 {"ground", planned.ground.name},
                 {"crs", planned.ground.grid.name()},
                 {"epsg", planned.ground.grid.epsg()},
                 {"way", plan.way.name},
                 {"length_m", plan.length_m},
                 {"climb_m", plan.climb_m},
                 {"descent_m", plan.descent_m},
                 {"minutes", plan.minutes},
                 {"certainty", plan.way.certainty},
                 {"certainty_walked", number_or_null(picked.walked_kept())},
                 {"certainty_worked_out", picked.averaged},
                 {"certainty_as_known", picked.as_known},
                 {"certainty_words",
                  text_or_null(trip::kept_words(picked.walked_kept(), picked.averaged,
                                                picked.as_known, plan.trip.language))},
                 {"hazard_probability", plan.keep_off},
                 {"norths", norths_json(plan)},
                 {"schedule", schedule_json(plan.schedule, plan.daylight)},
                 {"legs", std::move(legs)},
                 {"ways", std::move(ways)},
                 {"picked_why", text_or_null(planned.ways.picked_why)},
                 {"remarks", planned.ways.remarks},
                 {"conditions", conditions_json(planned.conditions, plan.trip)},
                 {"explained", text_or_null(planned.explained)},
                 {"warnings", warnings_json(plan)}};
  return out.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
