#pragma once
/// Is a ring so tangled that mending it would take longer than anybody waits? Internal to io.
#include <ogr_geometry.h>

namespace lodeway::io {

/// True where the polygon's sides meet one another more than `most_crossings` times otherwise than
/// at corners that they share, or where that cannot be told within a hundred million pairs of sides
/// that may meet (half a second). Who mends a ring cuts every side at every crossing: n sides can
/// have n^2 / 4 of them.
[[nodiscard]] bool is_tangled(const OGRPolygon& polygon);

inline constexpr int most_crossings = 1000;

}  // namespace lodeway::io
