#include "learn/made_tracks.hpp"

#include <chrono>
#include <cmath>

#include <fmt/format.h>

namespace lodeway::learn {

std::string stamp(double seconds) {
  const auto at = std::chrono::sys_seconds{
      std::chrono::seconds{1'780'000'000 + static_cast<long long>(seconds)}};
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day ymd{day};
  const std::chrono::hh_mm_ss clock{at - day};
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", static_cast<int>(ymd.year()),
                     static_cast<unsigned>(ymd.month()), static_cast<unsigned>(ymd.day()),
                     clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

std::string made_track(const MadeTrack& how) {
  std::string out =
      "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\" creator=\"t\" "
      "xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>\n";
  double walked_m = 0;
  const double degree_m = 111'200 * (how.eastward ? std::cos(how.lat * 0.017453292519943295) : 1);
  for (int i = 0; i < how.points; ++i) {
    const double t = i * how.step_s, degrees = walked_m / degree_m;
    const double lat = how.lat + (how.eastward ? 0 : degrees);
    const double lon = std::remainder(how.lon + (how.eastward ? degrees : 0), 360.0);
    out += fmt::format("<trkpt lat=\"{:.6f}\" lon=\"{:.6f}\">", lat, lon);
    if (how.heights) out += fmt::format("<ele>{:.1f}</ele>", 100 + 20 * std::sin(t / 900));
    out += fmt::format("<time>{}</time></trkpt>\n", stamp(t));
    walked_m += how.step_s * (1.1 + 0.25 * std::sin(t / 130) + 0.1 * std::sin(t / 37));
  }
  return out + "</trkseg></trk></gpx>\n";
}

std::string made_track(double lat, double lon, int points, double step_s) {
  return made_track({.lat = lat, .lon = lon, .points = points, .step_s = step_s});
}

}  // namespace lodeway::learn
