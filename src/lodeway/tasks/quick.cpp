#include "lodeway/tasks/quick.hpp"

#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/earth/geodesic.hpp"
#include "lodeway/earth/place_text.hpp"
#include "lodeway/units/said.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks {

namespace {

constexpr double same_place_m = 0.01;

bool whole(std::string_view text, int& out) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  return error == std::errc{} && end == text.data() + text.size();
}

/// As wide as the trip file's own.
Result<void> within(const char* name, double value, double least, double most) {
  if (value >= least && value <= most) return {};
  return fail(FaultCode::bad_input,
              fmt::format("{}: expected a number from {} to {}, got {}", name, least, most, value));
}

}  // namespace

Result<std::chrono::year_month_day> parse_date(const std::string& text) {
  int y = 0, m = 0, d = 0;
  const std::string_view s(text);
  if (s.size() == 10 && s[4] == '-' && s[7] == '-' && whole(s.substr(0, 4), y) &&
      whole(s.substr(5, 2), m) && whole(s.substr(8, 2), d) && m > 0 && d > 0) {
    const auto day = std::chrono::year{y} / static_cast<unsigned>(m) / static_cast<unsigned>(d);
    if (day.ok()) return day;
  }
  return fail(
      FaultCode::bad_input,
      fmt::format("date \"{}\": expected a day of the calendar, like 2026-07-01", s.substr(0, 40)));
}

Result<Norths> norths(const std::string& place, const std::string& date, double height_m) {
  const auto at = earth::parse_place(place);
  if (!at) return std::unexpected(at.error());
  const auto day = parse_date(date);
  if (!day) return std::unexpected(day.error());
  const auto field = magnetic::field_at(*at, height_m, *day);
  if (!field) return std::unexpected(field.error());
  const auto grid = earth::utm_ups(*at);
  if (!grid) return std::unexpected(grid.error());
  Norths out{*at, *field, grid->convergence.east.in_degrees(), 0};
  out.grid_magnetic_deg =
      units::grid_magnetic_angle(grid->convergence, field->declination).in_degrees();
  return out;
}

Result<LegFigures> leg_figures(const LegRequest& r) {
  for (const auto& check :
       {within("scale", r.scale, 1000, 1000000), within("stride", r.stride_m, 0.3, 1.5),
        within("speed", r.speed_kmh, 0.5, 10)}) {
    if (!check) return std::unexpected(check.error());
  }
  const auto from = earth::parse_place(r.from), to = earth::parse_place(r.to);
  if (!from) return fail_in("from", from.error());
  if (!to) return fail_in("to", to.error());
  const auto grid = earth::MapGrid::utm_at(*from);
  if (!grid) return std::unexpected(grid.error());
  const auto start = grid->to_grid(*from), end = grid->to_grid(*to);
  if (!end) return fail_in("to", end.error());
  if (!start) return fail_in("from", start.error());
  const auto line = earth::geodesic(*from, *to);
  if (line.distance_m < same_place_m) {
    return fail(FaultCode::bad_input, "from, to: expected two places, they are the same");
  }
  const auto day = parse_date(r.date);
  if (!day) return std::unexpected(day.error());
  const auto field = magnetic::field_at(*from, r.height_m, *day);
  if (!field) return std::unexpected(field.error());
  const auto magnetic = units::to_magnetic(line.at_start, field->declination);
  LegFigures out;
  out.distance_m = line.distance_m;
  out.grid_distance_m = earth::grid_distance_m(*start, *end);
  out.true_bearing_deg = line.at_start.in_degrees();
  out.grid_bearing_deg = earth::grid_bearing(*start, *end).in_degrees();
  out.magnetic_bearing_deg = magnetic.in_degrees();
  out.back_bearing_deg = magnetic.back().in_degrees();
  out.map_mm = units::map_mm(out.grid_distance_m, r.scale);
  out.double_paces = units::double_paces(out.distance_m, r.stride_m);
  out.minutes = out.distance_m / (r.speed_kmh * 1000 / 60);
  return out;
}

Result<SunTimes> sun_times(const std::string& place, const std::string& date,
                           const std::string& zone) {
  const auto at = earth::parse_place(place);
  if (!at) return std::unexpected(at.error());
  const auto day = parse_date(date);
  if (!day) return std::unexpected(day.error());
  const auto sun = earth::sun_day(*at, *day, zone);
  if (!sun) return std::unexpected(sun.error());
  const auto ahead = earth::ahead_of_sun(*at, sun->noon, zone);
  if (!ahead) return std::unexpected(ahead.error());
  return SunTimes{*sun, zone, *day, *ahead};
}

std::string zone_question(const SunTimes& times, units::Language language) {
  const auto off = std::chrono::abs(times.ahead_of_sun).count();
  if (off <= earth::zone_asked_about.count()) return "";
  const bool ahead = times.ahead_of_sun.count() > 0;
  return units::said(
      language,
      "Is the time zone right? Without summer time the clock of {} is {} h {:02} min "
      "{} the sun here.",
      "Stimmt die Zeitzone? Ohne Sommerzeit geht die Uhr von {} der Sonne hier um {} h {:02} min "
      "{}.",
      times.zone, off / 60, off % 60,
      units::in(language, ahead ? "ahead of" : "behind", ahead ? "vor" : "nach"));
}

}  // namespace lodeway::tasks
