#pragma once
/// Who is where when: three pairs, two instructors, half a day.
#include <string>
#include <vector>

#include "lodeway/learn/course/training_day.hpp"

namespace lodeway::learn {

enum class Station : unsigned char { base, bearings, features, forks, drops };
/// "bearings": the spelling of JSON; "open bearing": for people.
[[nodiscard]] std::string_view station_name(Station station);
[[nodiscard]] const char* station_words(Station station, units::Language language);
/// "1:05": hours and minutes from the beginning.
[[nodiscard]] std::string hours(int minutes);

inline constexpr int pair_count = 3, instructor_count = 2, briefing_min = 10;

/// One pair at one station. Minutes from the day's beginning.
struct Slot {
  int pair = 0;  ///< 0 is A
  Station station = Station::base;
  int begin_min = 0, end_min = 0;
  int instructor = -1;  ///< who is with them; -1: nobody (at the base), 2: both
};

struct Timetable {
  std::vector<Slot> slots;  ///< by beginning, then pair
  int minutes = 0;          ///< of the whole, briefing included
  /// In which order a pair takes the courses of a station, so that little is walked between.
  std::vector<std::size_t> bearings, features;
};

/// What a station takes one pair, going there and back included, rounded up to 5 minutes
/// [practice]: a bearing 25 min a km, a feature 20 min a km and 3 min, forks 15 min a km and a
/// minute each, a drop 5 min, between them 15 min for a km of 1.3 times the straight line; at the
/// base 25 min at the desk and 25 min for paces. 0 where the day has none.
[[nodiscard]] int minutes_at(const TrainingDay& day, Station station);

/// The shortest one in which no instructor has two pairs and nobody is out without an instructor;
/// the drops last, all together. Two pairs may be at one station, each with an instructor: one goes
/// round the other way. Some 50 ms.
[[nodiscard]] Timetable timetable_of(const TrainingDay& day);

}  // namespace lodeway::learn
