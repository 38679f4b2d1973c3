#pragma once
/// Figures as a trip's paper writes them: dates by language, angles and lengths in the trip's
/// units.
#include <chrono>
#include <string>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/trip/planned_leg.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::trip {

/// "Sat 14 Nov 2026", "Sa., 14. Nov. 2026"
[[nodiscard]] std::string date_text(std::chrono::year_month_day day, Language language);
/// An angle east or west: "2.3° W", "41 mil W"; German "2,3° W", and O for east.
[[nodiscard]] std::string angle_text(double degrees, AngleUnit unit, Language language,
                                     int decimals = 1);
/// An angle without a side: "2.3°", "41 mil".
[[nodiscard]] std::string size_text(double degrees, AngleUnit unit,
                                    Language language = Language::english);
/// "62.5"; German "62,5".
[[nodiscard]] std::string decimal_text(double value, int decimals, Language language);
/// What stands on the dial, figures alone: "044", mils "0782".
[[nodiscard]] std::string bearing_text(units::MagneticBearing b, AngleUnit unit);
/// "°" or " mil", to be set behind it.
[[nodiscard]] const char* bearing_sign(AngleUnit unit);
/// "25 000": whole, by thousands with a blank between.
[[nodiscard]] std::string thousands(double value);
/// units::length_text and units::height_text, in the trip's unit.
[[nodiscard]] std::string length_text(double metres, LengthUnit unit);
[[nodiscard]] std::string height_text(double metres, LengthUnit unit);
/// What a millimetre of a map is on the ground, not rounded to what one paces: "25 m", "82 ft".
[[nodiscard]] std::string millimetre_text(double scale, LengthUnit unit);
/// In the trip's language and units.
[[nodiscard]] units::Speech speech_of(const Trip& trip);
using units::of_hundred;
/// What rescuers ask for: "30UVF 8195 5054, 54.6352 N 3.2799 W": the lettered square of 10 m of the
/// standard grid, and degrees to 11 m. Empty where the place cannot be given so.
[[nodiscard]] std::string full_reference(const earth::MapGrid& grid, earth::GridPoint at);
/// "1 h 05"; under an hour "11 min"
[[nodiscard]] std::string hours_text(double minutes);

/// "146° to Low road", "099° along Kell path to Low road, 2 more legs", "back the way you came to
/// Kell bridge": the needle first, as everywhere on the card.
[[nodiscard]] std::string escape_words(const EscapeRoute& route, const Trip& trip);

}  // namespace lodeway::trip
