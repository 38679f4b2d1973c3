#include "lodeway/tasks/judge_way.hpp"

#include "lodeway/magnetic/declination.hpp"
#include "lodeway/trip/figure_text.hpp"

namespace lodeway::tasks {

Result<double> declination_sigma_deg(const walking::Ground& ground, const trip::Trip& trip) {
  const auto place = ground.grid.to_geographic(trip.request.points.front().at);
  if (!place) return std::unexpected(place.error());
  const auto field = magnetic::field_at(*place, 0, trip.date);
  if (!field) return std::unexpected(field.error());
  return field->declination_sigma_deg;
}

}  // namespace lodeway::tasks
