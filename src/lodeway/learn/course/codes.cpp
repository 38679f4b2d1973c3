#include "lodeway/learn/course/codes.hpp"

#include <bit>

#include <fmt/format.h>

namespace lodeway::learn {

namespace {

/// FNV-1a (Fowler, Noll & Vo), folded to 16 bits.
class Signs {
 public:
  void take(std::string_view text) {
    for (const char c : text) byte(static_cast<unsigned char>(c));
    byte(0);
  }
  void take(double value) {
    const auto bits = std::bit_cast<std::uint64_t>(value);
    for (int i = 0; i < 8; ++i) byte(static_cast<unsigned char>(bits >> (8 * i) & 0xff));
  }
  void take(GridPoint p) {
    take(p.east_m);
    take(p.north_m);
  }
  [[nodiscard]] std::string text() const {
    const auto folded = hash_ ^ hash_ >> 32;
    return fmt::format("{:04X}", (folded ^ folded >> 16) & 0xffff);
  }

 private:
  void byte(unsigned char b) { hash_ = (hash_ ^ b) * 1099511628211ULL; }
  std::uint64_t hash_ = 14695981039346656037ULL;
};

}  // namespace

std::string day_code(std::string_view ground_code, const TrainingDay& day,
                     std::chrono::year_month_day date) {
  Signs signs;
  signs.take(static_cast<double>(std::chrono::sys_days{date}.time_since_epoch().count()));
  signs.take(day.magnetic_from_grid_deg);
  signs.take(day.from);
  for (const auto& s : day.settings) {
    signs.take(s.from);
    signs.take(s.to);
    for (const auto& a : s.answers) signs.take(a.bearing.in_degrees());
  }
  for (const auto& p : day.paces) {
    signs.take(p.from);
    signs.take(p.to);
  }
  for (const auto& b : day.bearings) {
    signs.take(b.from);
    signs.take(b.peg);
  }
  for (const auto& f : day.features) {
    signs.take(f.from);
    signs.take(f.at);
  }
  if (day.forks) {
    for (const auto& p : day.forks->line) signs.take(p);
  }
  for (const auto& d : day.drops) signs.take(d.at);
  for (const auto& t : day.times) {
    for (const auto& p : t.line) signs.take(p);
  }
  return fmt::format("{}-{}-{}", ground_code, day.seed, signs.text());
}

std::string course_signs(std::string_view day_code, std::string_view course) {
  Signs signs;
  signs.take(day_code);
  signs.take(course);
  return signs.text();
}

std::string course_code(std::string_view day_code, std::string_view course) {
  return fmt::format("{}-{}", course, course_signs(day_code, course));
}

bool is_of_day(std::string_view day_code, std::string_view code) {
  const auto dash = code.rfind('-');
  return dash != std::string_view::npos &&
         code.substr(dash + 1) == course_signs(day_code, code.substr(0, dash));
}

}  // namespace lodeway::learn
