#include "lodeway/io/gpx/kml.hpp"

#include <fmt/format.h>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/gpx/detail/geographic_line.hpp"

namespace lodeway::io {

namespace detail {

std::string xml(const std::string& text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20 || c == '\t') out += c;
    }
  }
  return out;
}

Result<Line> geographic(const std::vector<earth::GridPoint>& line, const earth::MapGrid& grid) {
  Line out;
  for (const auto& p : line) {
    const auto at = grid.to_geographic(p);
    if (!at) return std::unexpected(at.error());
    out.push_back(*at);
  }
  return out;
}

Result<Line> walked_line(const trip::PlannedLeg& leg, const earth::MapGrid& grid) {
  auto walked = leg.course.line;
  if (leg.after) walked.insert(walked.end() - 1, leg.needle->aim);
  return geographic(walked, grid);
}

}  // namespace detail

namespace {

using detail::xml;

std::string told(const trip::PlannedLeg& leg) {
  const auto way = leg.course.kind == walking::LegKind::along
                       ? leg.course.followed.name
                       : fmt::format("{:03.0f}\u00b0 magnetic", leg.magnetic_bearing.in_degrees());
  return fmt::format("{}; {:.0f} m, up {:.0f} m, down {:.0f} m, {:.0f} min", way,
                     leg.judged.length_m, leg.figures.climb_m, leg.figures.descent_m,
                     leg.judged.minutes);
}

std::string point(const std::string& name, earth::Geographic at) {
  return fmt::format(
      "      <Placemark><name>{}</name><Point><coordinates>{:.7f},{:.7f}</coordinates></Point>"
      "</Placemark>\n",
      xml(name), at.lon_deg, at.lat_deg);
}

}  // namespace

Result<void> write_kml(const trip::PlannedWay& way, const earth::MapGrid& grid,
                       const std::string& path) {
  std::string legs, places;
  for (std::size_t i = 0; i < way.legs.size(); ++i) {
    const auto& leg = way.legs[i];
    const auto line = detail::walked_line(leg, grid);
    if (!line) return std::unexpected(line.error());
    std::string coordinates;
    for (const auto& at : *line)
      coordinates +=
          fmt::format("{}{:.7f},{:.7f}", coordinates.empty() ? "" : " ", at.lon_deg, at.lat_deg);
    legs += fmt::format(
        "      <Placemark><name>{} {} - {}</name><description>{}</description><LineString>"
        "<tessellate>1</tessellate><coordinates>{}</coordinates></LineString></Placemark>\n",
        i + 1, xml(leg.course.from), xml(leg.course.to), xml(told(leg)), coordinates);
    if (i == 0) places += point(leg.course.from, line->front());
    places += point(leg.course.to, line->back());
  }
  return write_beside(
      path, fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                        "<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n  <Document>\n"
                        "    <name>{}</name>\n    <Folder>\n      <name>Legs</name>\n{}    "
                        "</Folder>\n    <Folder>\n      <name>Places</name>\n{}    </Folder>\n"
                        "  </Document>\n</kml>\n",
                        xml(way.name), legs, places));
}

}  // namespace lodeway::io
