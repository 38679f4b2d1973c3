#pragma once
/// Names of the ground file's tables and columns, once for writing and reading. Internal to io.
#include <cstdint>

namespace lodeway::io::schema {

inline constexpr const char* version = "1";

inline constexpr const char* about = "about";  // key, value
inline constexpr const char* sources = "sources";
inline constexpr const char* kinds = "kinds";
inline constexpr const char* points = "points";
inline constexpr const char* lines = "lines";
inline constexpr const char* areas = "areas";
inline constexpr const char* elevation = "elevation";
inline constexpr const char* landforms = "landforms";

/// By mapdata::Origin; what the map itself shows has NULL.
inline constexpr const char* origins[] = {"", "derived from areas", "derived from elevation"};

/// By mapdata::Traffic; NULL where the map has no class for a road.
inline constexpr const char* traffic_words[] = {"", "quiet", "busy", "fast"};

/// Stands for a void in the coverage: GeoPackage has no place for NaN as "no data".
inline constexpr float void_height = -99999.0F;
inline constexpr std::int64_t most_cells = 400'000'000;
inline constexpr std::int64_t most_points = 50'000'000;

inline constexpr const char* visibilities[] = {"clear", "cloud", "night", "snow"};

}  // namespace lodeway::io::schema
