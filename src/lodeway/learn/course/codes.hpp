#pragma once
/// What tells the sheets and marks of one training day from those of another.
#include <chrono>
#include <string>
#include <string_view>

#include "lodeway/learn/course/training_day.hpp"

namespace lodeway::learn {

/// "C1880F-7-3FA2": the ground's code, the seed, and four signs that depend on every place of the
/// day, the magnetic angle and the date. Another day of the same ground and seed (from another
/// place, on another date) has other signs, but for one pair of days in 65 536.
[[nodiscard]] std::string day_code(std::string_view ground_code, const TrainingDay& day,
                                   std::chrono::year_month_day date);

/// "B1-77C0": course B1 of this day and of no other.
[[nodiscard]] std::string course_code(std::string_view day_code, std::string_view course);
/// The four signs alone.
[[nodiscard]] std::string course_signs(std::string_view day_code, std::string_view course);
/// Whether a course's code belongs to that day.
[[nodiscard]] bool is_of_day(std::string_view day_code, std::string_view course_code);

}  // namespace lodeway::learn
