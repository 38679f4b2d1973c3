#include "lodeway/earth/sun.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/units/said.hpp"

namespace lodeway::earth {

namespace {

constexpr double rad = std::numbers::pi / 180;
double sin_deg(double x) { return std::sin(x * rad); }
double cos_deg(double x) { return std::cos(x * rad); }

struct Sun {
  double declination_deg;
  double equation_of_time_min;
};

/// Meeus's low-precision sun as NOAA uses it; t in days from 2000-01-01 12:00 UTC.
Sun sun_at(double days) {
  const double t = days / 36525;
  const double mean = 280.46646 + t * (36000.76983 + t * 0.0003032);
  const double anomaly = 357.52911 + t * (35999.05029 - t * 0.0001537);
  const double e = 0.016708634 - t * (0.000042037 + t * 1.267e-7);
  const double centre = sin_deg(anomaly) * (1.914602 - t * (0.004817 + t * 0.000014)) +
                        sin_deg(2 * anomaly) * (0.019993 - 0.000101 * t) +
                        sin_deg(3 * anomaly) * 0.000289;
  const double node = 125.04 - 1934.136 * t;
  const double longitude = mean + centre - 0.00569 - 0.00478 * sin_deg(node);
  const double tilt = 23 + (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60 +
                      0.00256 * cos_deg(node);
  const double half = std::tan(tilt / 2 * rad), y = half * half;
  const double equation = y * sin_deg(2 * mean) - 2 * e * sin_deg(anomaly) +
                          4 * e * y * sin_deg(anomaly) * cos_deg(2 * mean) -
                          0.5 * y * y * sin_deg(4 * mean) - 1.25 * e * e * sin_deg(2 * anomaly);
  return {std::asin(sin_deg(tilt) * sin_deg(longitude)) / rad, 4 * equation / rad};
}

double days_since_2000(UtcSeconds t) {
  constexpr double noon_2000 = 946728000;  // Unix time of 2000-01-01 12:00 UTC
  return (static_cast<double>(t.time_since_epoch().count()) - noon_2000) / 86400;
}

/// The first crossing, upward or downward, within [from, to), to the second by halving. Steps of
/// four minutes find every one that lasts.
std::optional<UtcSeconds> crossing(Geographic at, double height, UtcSeconds from, UtcSeconds to,
                                   bool up) {
  using std::chrono::seconds;
  constexpr seconds step{240};
  const auto above = [&](UtcSeconds t) { return sun_height_deg(at, t) >= height; };
  bool before = above(from);
  for (auto t = from; t < to; t += step) {
    const auto next = std::min(t + step, to);
    const bool after = above(next);
    if (before != after && after == up) {
      auto low = t, high = next;
      while (high - low > seconds{1}) {
        const auto middle = low + (high - low) / 2;
        (above(middle) == after ? high : low) = middle;
      }
      return high;
    }
    before = after;
  }
  return std::nullopt;
}

constexpr std::chrono::seconds half_day{43200};

/// The night before and the night after a noon each hold one midnight of the sun.
Crossings crossings(Geographic at, double height, UtcSeconds noon) {
  Crossings out{crossing(at, height, noon - half_day, noon, true),
                crossing(at, height, noon, noon + half_day, false), SunState::crosses};
  if (!out.up && !out.down) {
    out.state =
        sun_height_deg(at, noon) >= height ? SunState::always_above : SunState::always_below;
  }
  return out;
}

/// Degrees since the sun stood highest, -180 to 180.
double hour_angle_deg(Geographic at, UtcSeconds when) {
  const double days = days_since_2000(when);
  const double minutes_utc = (days + 0.5 - std::floor(days + 0.5)) * 1440;
  return std::remainder((minutes_utc + sun_at(days).equation_of_time_min) / 4 + at.lon_deg - 180,
                        360);
}

/// The noon nearest to an instant; the equation of time moves by under 30 s in half a day, so that
/// the second step is exact to a second.
UtcSeconds noon_near(Geographic at, UtcSeconds when) {
  for (int k = 0; k < 2; ++k)
    when -= std::chrono::seconds{std::lround(240 * hour_angle_deg(at, when))};
  return when;
}

}  // namespace

double sun_height_deg(Geographic at, UtcSeconds when) {
  const double days = days_since_2000(when);
  const Sun sun = sun_at(days);
  const double sine =
      sin_deg(at.lat_deg) * sin_deg(sun.declination_deg) +
      cos_deg(at.lat_deg) * cos_deg(sun.declination_deg) * cos_deg(hour_angle_deg(at, when));
  return std::asin(std::fmin(1.0, std::fmax(-1.0, sine))) / rad;
}

Result<SunDay> sun_day(Geographic at, std::chrono::year_month_day day, const std::string& zone) {
  if (!(std::abs(at.lat_deg) <= 90) || !std::isfinite(at.lon_deg) || !day.ok()) {
    return fail(FaultCode::bad_input,
                "sun: expected a latitude within 90 and a day of the calendar");
  }
  const auto midday = to_utc(zone, day, std::chrono::hours{12});
  if (!midday) return std::unexpected(midday.error());
  const UtcSeconds noon = noon_near(at, *midday);
  return SunDay{noon, crossings(at, sunrise_height_deg, noon),
                crossings(at, civil_height_deg, noon)};
}

Result<std::chrono::minutes> ahead_of_sun(Geographic at, UtcSeconds when, const std::string& zone) {
  const auto year = std::chrono::year_month_day{std::chrono::floor<std::chrono::days>(when)}.year();
  const auto winter = utc_offset(zone, std::chrono::sys_days{year / 1 / 1});
  const auto summer = utc_offset(zone, std::chrono::sys_days{year / 7 / 1});
  if (!winter || !summer) return std::unexpected(winter ? summer.error() : winter.error());
  return std::chrono::minutes{
      std::lround(static_cast<double>(std::min(*winter, *summer).count()) / 60 - 4 * at.lon_deg)};
}

std::string state_words(const SunDay& day, units::Language language) {
  std::string out;
  const auto add = [&](const char* english, const char* german) {
    if (!out.empty()) out += "; ";
    out += units::in(language, english, german);
  };
  switch (day.sun.state) {
    case SunState::always_above:
      add("the sun does not set", "die Sonne geht nicht unter");
      return out;
    case SunState::always_below:
      add("the sun does not rise", "die Sonne geht nicht auf");
      break;
    case SunState::crosses:
      if (!day.sun.up)
        add("no sunrise: the sun was up all the night before",
            "kein Sonnenaufgang: die Sonne stand die ganze Nacht davor am Himmel");
      if (!day.sun.down)
        add("no sunset: the sun stays up all the night after",
            "kein Sonnenuntergang: die Sonne bleibt die ganze Nacht danach am Himmel");
  }
  switch (day.civil.state) {
    case SunState::always_above:
      add("it does not get dark: civil twilight lasts all night",
          "es wird nicht dunkel: die bürgerliche Dämmerung dauert die ganze Nacht");
      break;
    case SunState::always_below:
      add("there is no civil twilight: it stays dark all day",
          "es gibt keine bürgerliche Dämmerung: es bleibt den ganzen Tag dunkel");
      break;
    case SunState::crosses:
      if (!day.civil.up)
        add("no first light: it was not dark the night before",
            "kein erstes Licht: in der Nacht davor war es nicht dunkel");
      if (!day.civil.down)
        add("no last light: it does not get dark the night after",
            "kein letztes Licht: in der Nacht danach wird es nicht dunkel");
  }
  return out;
}

}  // namespace lodeway::earth
