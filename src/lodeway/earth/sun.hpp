#pragma once
/// The sun's day: rise, set, civil twilight. Method and checks: docs/method/daylight.md
/// Source: NOAA's solar calculator after Meeus, Astronomical Algorithms (low precision), 1800 to
/// 2100.
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "lodeway/earth/place.hpp"
#include "lodeway/earth/time_zone.hpp"

namespace lodeway::earth {

/// Heights of the sun's centre, degrees: 34' of refraction and 16' of half diameter; civil
/// twilight.
inline constexpr double sunrise_height_deg = -0.833;
inline constexpr double civil_height_deg = -6.0;

/// What the sun does in a day when it does not cross a height.
enum class SunState : unsigned char { crosses, always_above, always_below };

struct Crossings {
  std::optional<UtcSeconds> up, down;  ///< both within the local day, where they exist
  SunState state = SunState::crosses;
};

struct SunDay {
  Crossings sun;    ///< rise and set over a flat horizon at sea level
  Crossings civil;  ///< first and last light: civil dawn and dusk
};

/// Rise, set and twilight between local midnight and the next, for an IANA zone.
/// Accuracy: one minute within 72 degrees of latitude, ten beyond (NOAA); measured 7 s against a
/// full ephemeris, 20 s at 78 degrees. A sun that shows for under four minutes may be missed. Where
/// a day holds two of a kind (once a year, far north) it is the first. Hills to the sun's side make
/// the real day shorter.
/// Faults: bad_input (zone, latitude, a date that is none).
[[nodiscard]] Result<SunDay> sun_day(Geographic at, std::chrono::year_month_day day,
                                     const std::string& zone);

/// "the sun does not set", "the sun does not rise"; empty when it does both. English.
[[nodiscard]] std::string_view state_words(SunState state);
/// Why a time of the day is absent, for each that is, parted by "; "; empty when all four are
/// there.
[[nodiscard]] std::string state_words(const SunDay& day);

/// Height of the sun's centre without refraction, degrees. Accuracy 0.01 degrees.
[[nodiscard]] double sun_height_deg(Geographic at, UtcSeconds when);

}  // namespace lodeway::earth
