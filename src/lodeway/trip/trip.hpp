#pragma once
/// What a leader writes down: the trip file's content as plain values, in the ground's grid.
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "lodeway/units/language.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::trip {

using units::Language;
enum class LengthUnit : unsigned char { metric, imperial };
enum class AngleUnit : unsigned char { degrees, mils };
enum class Paper : unsigned char { a5, a4, a3, letter };
enum class Shade : unsigned char { relief, slope, none };
enum class SignalRegion : unsigned char { alpine, north_america };

/// In snow nobody walks on steeper ground unless the leader gives another limit: from here on slabs
/// commonly start. Practice; avalanche services name 30 degrees as the usual beginning.
inline constexpr double snow_max_slope_deg = 30;

struct Contact {
  std::string name, phone;
};

struct Trip {
  std::string name;
  std::chrono::year_month_day date{};
  std::chrono::minutes start{};            ///< local clock time since midnight
  std::string zone = "UTC";                ///< IANA name
  walking::Request request;                ///< points, areas to avoid, the party
  std::vector<mapdata::KindChange> kinds;  ///< said otherwise than by the ground, for this trip
  std::vector<std::string> members;
  Contact at_home, leader;
  std::string emergency_number;  ///< as the user gives it; empty is said so on the note
  SignalRegion signals = SignalRegion::alpine;
  std::string transport;  ///< car, plate, where it stands
  std::string gear, medical, clothing, beacon, experience;
  std::string check_in;  ///< when and where the party will call
  double map_scale = 25000;
  Paper paper = Paper::a4;
  std::optional<bool> landscape;  ///< absent: each sheet as it covers more of the way
  Shade shade = Shade::relief;
  bool half_contours = false;
  Language language = Language::english;
  LengthUnit lengths = LengthUnit::metric;
  AngleUnit angles = AngleUnit::degrees;
  double min_certainty = 0.9;  ///< per leg; below it a warning is given
};

}  // namespace lodeway::trip
