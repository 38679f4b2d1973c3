#include "lodeway/trip/figure_text.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/earth/place_text.hpp"

#include "lodeway/trip/wording.hpp"

namespace lodeway::trip {

namespace {

units::TextStyle style(AngleUnit a, LengthUnit l = LengthUnit::metric) {
  return {a == AngleUnit::mils, l == LengthUnit::imperial};
}

}  // namespace

std::string date_text(std::chrono::year_month_day day, Language language) {
  constexpr const char* english_days[] = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  constexpr const char* german_days[] = {"So", "Mo", "Di", "Mi", "Do", "Fr", "Sa"};
  constexpr const char* english_months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                            "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  constexpr const char* german_months[] = {"Jan.", "Feb.", "März", "Apr.", "Mai",  "Juni",
                                           "Juli", "Aug.", "Sep.", "Okt.", "Nov.", "Dez."};
  const auto weekday = std::chrono::weekday{std::chrono::sys_days{day}}.c_encoding();
  const auto month = static_cast<unsigned>(day.month()) - 1;
  const int d = static_cast<int>(static_cast<unsigned>(day.day())),
            y = static_cast<int>(day.year());
  if (language == Language::german)
    return fmt::format("{}., {}. {} {}", german_days[weekday], d, german_months[month], y);
  return fmt::format("{} {} {} {}", english_days[weekday], d, english_months[month], y);
}

std::string decimal_text(double value, int decimals, Language language) {
  auto out = fmt::format("{:.{}f}", value, decimals);
  if (language == Language::german) std::ranges::replace(out, '.', ',');
  return out;
}

std::string millimetre_text(double scale, LengthUnit unit) {
  const double metres = scale / 1000;
  return unit == LengthUnit::metric ? fmt::format("{:.4g} m", metres)
                                    : fmt::format("{:.0f} ft", metres / units::metres_per_foot);
}

std::string size_text(double degrees, AngleUnit unit, Language language) {
  auto out = units::angle_text(units::Angle::degrees(degrees), style(unit));
  if (language == Language::german) std::ranges::replace(out, '.', ',');
  return out;
}

std::string angle_text(double degrees, AngleUnit unit, Language language, int decimals) {
  const char* const side = say(degrees < 0 ? Say::west_letter : Say::east_letter, language);
  const double size = std::abs(degrees);
  if (unit == AngleUnit::mils) return fmt::format("{:.0f} mil {}", size * 6400 / 360, side);
  return fmt::format("{}° {}", decimal_text(size, decimals, language), side);
}

const char* bearing_sign(AngleUnit unit) { return unit == AngleUnit::mils ? " mil" : "°"; }

std::string bearing_text(units::MagneticBearing b, AngleUnit unit) {
  auto text = units::bearing_text(b, style(unit), 0);
  text.resize(text.find_first_not_of("0123456789"));
  return text;
}

std::string thousands(double value) {
  auto out = fmt::format("{:.0f}", value);
  for (auto i = static_cast<std::ptrdiff_t>(out.size()) - 3; i > 0; i -= 3) {
    out.insert(out.begin() + i, ' ');
  }
  return out;
}

std::string length_text(double m, LengthUnit unit) {
  return units::length_text(m, style(AngleUnit::degrees, unit));
}

std::string height_text(double m, LengthUnit unit) {
  return units::height_text(m, style(AngleUnit::degrees, unit));
}

units::Speech speech_of(const Trip& trip) {
  return {trip.language, style(trip.angles, trip.lengths)};
}

std::string full_reference(const earth::MapGrid& grid, earth::GridPoint at) {
  constexpr int digits = 4;  // squares of 10 m
  const auto place = grid.to_geographic(at);
  if (!place) return "";
  const auto degrees =
      fmt::format("{:.4f} {} {:.4f} {}", std::abs(place->lat_deg), place->lat_deg < 0 ? "S" : "N",
                  std::abs(place->lon_deg), place->lon_deg < 0 ? "W" : "E");
  const auto square = earth::mgrs(*place, digits);
  if (!square || square->size() <= 2 * digits) return degrees;
  const auto letters = square->size() - 2 * digits;
  return square->substr(0, letters) + " " + square->substr(letters, digits) + " " +
         square->substr(letters + digits) + ", " + degrees;
}

std::string hours_text(double minutes) {
  const auto m = std::lround(std::abs(minutes));
  return m < 60 ? fmt::format("{} min", m) : fmt::format("{} h {:02}", m / 60, m % 60);
}

std::string escape_words(const EscapeRoute& route, const Trip& trip) {
  if (route.line.empty()) return say(Say::escape_here, trip.language, {route.haven});
  if (route.from_end) {
    EscapeRoute same = route;
    same.from_end = false;
    return say(Say::escape_from_end, trip.language, {escape_words(same, trip)});
  }
  if (route.back) return say(Say::escape_back, trip.language, {route.haven});
  auto first = bearing_text(route.first_magnetic, trip.angles) + bearing_sign(trip.angles);
  if (!route.follows.empty()) first += " " + say(Say::escape_along, trip.language, {route.follows});
  const auto out = say(Say::bearing_to, trip.language, {first, route.haven});
  if (route.more_steps == 0) return out;
  return out + say(route.more_steps == 1 ? Say::escape_step_more : Say::escape_steps_more,
                   trip.language, {std::to_string(route.more_steps)});
}

}  // namespace lodeway::trip
