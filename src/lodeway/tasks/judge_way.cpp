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

Result<double> judge_way(const walking::Ground& ground, const trip::Trip& trip, walking::Way& way) {
  const auto sigma = declination_sigma_deg(ground, trip);
  if (!sigma) return std::unexpected(sigma.error());
  return reckoning::judge(ground, trip.request, *sigma, way, trip::speech_of(trip));
}

}  // namespace lodeway::tasks
