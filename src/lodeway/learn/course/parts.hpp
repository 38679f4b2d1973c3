#pragma once
/// Internal to course: the makers of a day's parts. Each adds to `day.missing` why it made nothing.
#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/training_day.hpp"
#include "lodeway/numeric/random.hpp"

namespace lodeway::learn::detail {

void make_settings(const TrainingGround& ground, numeric::Random random, TrainingDay& day);
void make_paces(const TrainingGround& ground, numeric::Random random, TrainingDay& day);
void make_bearings(const TrainingGround& ground, numeric::Random random, TrainingDay& day);
void make_features(const TrainingGround& ground, numeric::Random random, TrainingDay& day);
void make_forks(const TrainingGround& ground, numeric::Random random, TrainingDay& day);
void make_drops(const TrainingGround& ground, numeric::Random random, TrainingDay& day);

/// Evenly over a disc.
[[nodiscard]] inline GridPoint place_within(GridPoint middle, double radius_m,
                                            numeric::Random& random) {
  const double r = radius_m * std::sqrt(random.uniform());
  return earth::step(middle, units::GridBearing::degrees(360 * random.uniform()), r);
}
/// What a road or railway is called.
[[nodiscard]] inline std::string road_words(const TrainingGround& ground,
                                            const TrainingGround::RoadNear& road,
                                            units::Language language) {
  const auto& label = ground.ground().map.lines[road.line].label;
  return landmarks::thing(label.kind, label.name, language);
}
/// A line of water that is stepped over; rivers bar a course.
[[nodiscard]] inline bool is_stream(mapdata::Kind kind) {
  return kind == mapdata::Kind::stream || kind == mapdata::Kind::ditch;
}
/// One of n, evenly.
[[nodiscard]] inline std::size_t pick(std::size_t n, numeric::Random& random) {
  return std::min(n - 1, static_cast<std::size_t>(random.uniform() * static_cast<double>(n)));
}

}  // namespace lodeway::learn::detail
