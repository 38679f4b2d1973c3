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
#include "lodeway/units/language.hpp"

namespace lodeway::earth {

/// Heights of the sun's centre, degrees: 34' of refraction and 16' of half diameter; civil
/// twilight.
inline constexpr double sunrise_height_deg = -0.833;
inline constexpr double civil_height_deg = -6.0;

/// What the sun does in a day when it does not cross a height.
enum class SunState : unsigned char { crosses, always_above, always_below };

struct Crossings {
  std::optional<UtcSeconds> up,
      down;  ///< the last before noon, the first after it, if there is one
  SunState state = SunState::crosses;
};

struct SunDay {
  UtcSeconds noon{};  ///< when the sun stands highest
  Crossings sun;      ///< rise and set over a flat horizon at sea level
  Crossings civil;    ///< first and last light: civil dawn and dusk
};

/// One day of the sun: from the night before the noon that lies nearest to twelve by the clock of
/// an IANA zone to the night after it. Dawn, rise, noon, set and dusk follow each other in this
/// order; in northern summers dusk may fall after the clock's midnight, and rise before it in a
/// zone far off the place's sun.
/// Accuracy: one minute within 72 degrees of latitude, ten beyond (NOAA); measured 7 s against a
/// full ephemeris, 20 s at 78 degrees. A sun that shows for under four minutes may be missed. Hills
/// to the sun's side make the real day shorter.
/// Faults: bad_input (zone, latitude, a date that is none).
[[nodiscard]] Result<SunDay> sun_day(Geographic at, std::chrono::year_month_day day,
                                     const std::string& zone);

/// Why a time of the day is absent, for each that is, parted by "; "; empty when all four are
/// there.
[[nodiscard]] std::string state_words(const SunDay& day,
                                      units::Language language = units::Language::english);

/// How far a zone's clock is ahead of the place's mean sun (15 degrees an hour), in the year of an
/// instant and without summer time: the lesser of its offsets in January and July.
/// Faults: as utc_offset.
[[nodiscard]] Result<std::chrono::minutes> ahead_of_sun(Geographic at, UtcSeconds when,
                                                        const std::string& zone);
/// Beyond this a zone is asked about: clock and sun are rarely so far apart unless the wrong zone
/// was given. Practice.
inline constexpr std::chrono::minutes zone_asked_about{90};

/// Height of the sun's centre without refraction, degrees. Accuracy 0.01 degrees.
[[nodiscard]] double sun_height_deg(Geographic at, UtcSeconds when);

}  // namespace lodeway::earth
