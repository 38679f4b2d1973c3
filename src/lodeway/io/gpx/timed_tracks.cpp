#include "lodeway/io/gpx/timed_tracks.hpp"

#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/earth/time_zone.hpp"
#include "lodeway/io/files/write_beside.hpp"

namespace lodeway::io {

namespace {

/// "2026-11-14T09:15:00.25Z"
std::string utc_text(std::chrono::sys_seconds base, double minutes) {
  const auto hundredths = static_cast<long long>(std::llround(minutes * 6000));
  const auto whole = hundredths >= 0 ? hundredths / 100 : -((99 - hundredths) / 100);
  const auto at = base + std::chrono::seconds(whole);
  return earth::iso_text(at, {}).substr(0, 19) +
         fmt::format(".{:02}Z", static_cast<int>(hundredths - whole * 100));
}

std::string xml(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else
      out += c;
  }
  return out;
}

double round_to(double x, double steps) { return std::round(x * steps) / steps; }

}  // namespace

Result<void> write_gpx_tracks(const std::vector<TimedTrack>& tracks, const earth::MapGrid& grid,
                              std::chrono::sys_seconds base, const std::string& path) {
  std::string text =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<gpx version=\"1.1\" creator=\"Lodeway\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n";
  for (const TimedTrack& track : tracks) {
    text += fmt::format("  <trk>\n    <name>{}</name>\n", xml(track.name));
    if (!track.what.empty()) text += fmt::format("    <desc>{}</desc>\n", xml(track.what));
    text += "    <trkseg>\n";
    for (const TimedPoint& p : track.points) {
      const auto at = grid.to_geographic(p.at);
      if (!at) return std::unexpected(at.error());
      text += fmt::format("      <trkpt lat=\"{:.7f}\" lon=\"{:.7f}\"><time>{}</time></trkpt>\n",
                          at->lat_deg, at->lon_deg, utc_text(base, p.minutes));
    }
    text += "    </trkseg>\n  </trk>\n";
  }
  return write_beside(path, text + "</gpx>\n");
}

Result<void> write_geojson_tracks(const std::vector<TimedTrack>& tracks, const earth::MapGrid& grid,
                                  std::chrono::sys_seconds base, const std::string& path) {
  auto features = nlohmann::ordered_json::array();
  for (const TimedTrack& track : tracks) {
    auto coordinates = nlohmann::ordered_json::array(), times = nlohmann::ordered_json::array();
    for (const TimedPoint& p : track.points) {
      const auto at = grid.to_geographic(p.at);
      if (!at) return std::unexpected(at.error());
      coordinates.push_back({round_to(at->lon_deg, 1e7), round_to(at->lat_deg, 1e7)});
      times.push_back(utc_text(base, p.minutes));
    }
    const bool line = coordinates.size() > 1;
    features.push_back(
        {{"type", "Feature"},
         {"properties", {{"name", track.name}, {"what", track.what}, {"times", std::move(times)}}},
         {"geometry",
          {{"type", line ? "LineString" : "Point"},
           {"coordinates", line ? std::move(coordinates) : coordinates[0]}}}});
  }
  const nlohmann::ordered_json out{{"type", "FeatureCollection"},
                                   {"features", std::move(features)}};
  return write_beside(path,
                      out.dump(1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
}

}  // namespace lodeway::io
