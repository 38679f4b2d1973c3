#pragma once
/// Grounds with as many lines as a real mountain country's map has, to measure on.
#include <optional>

#include "lodeway/walking/ground.hpp"

namespace lodeway::route {

/// The whole of a country's map (Liechtenstein, OpenStreetMap, 307 000 nodes) over an invented
/// relief, for there is no free elevation of it: 18 x 32 km of 10 m cells, smooth enough that paths
/// may run on it, with all that `ground build` derives. Nothing where the folder of real data is
/// not there ($LODEWAY_SHARED_DATA, or ../shared/data) or its file cannot be read.
[[nodiscard]] std::optional<walking::Ground> dense_country();

/// A ground beside itself, `across` times east and `down` times south, each copy the same: what a
/// trip on the first copy costs must not depend on the others. Lines end at the seams as they end
/// at the ground's own rim.
[[nodiscard]] walking::Ground side_by_side(const walking::Ground& ground, int across, int down);

/// A ground with its lines laid over it `times` times, each copy turned by a few degrees about
/// another centre so that the copies cross: the density of lines alone.
[[nodiscard]] walking::Ground with_lines(const walking::Ground& ground, int times);

}  // namespace lodeway::route
