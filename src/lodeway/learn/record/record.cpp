#include "lodeway/learn/record/record.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace lodeway::learn {

namespace {
constexpr std::array<std::string_view, exercise_count> exercises{
    "setting", "pacing", "triangle", "bearing", "features", "forks",
    "lines",   "drops",  "time",     "doubt",   "followed"};
constexpr std::array<std::string_view, pace_ground_count> grounds{"level", "up", "down", "rough"};
constexpr std::array<std::string_view, mapdata::visibility_count> visibilities{"clear", "cloud",
                                                                               "night", "snow"};

bool same(const Measured& a, const Measured& b) {
  return a.date == b.date && a.who == b.who && a.exercise == b.exercise &&
         a.conditions == b.conditions && a.training == b.training && a.course == b.course &&
         a.kind == b.kind && a.trials == b.trials && a.missed == b.missed &&
         a.across_m == b.across_m && a.along_m == b.along_m && a.ground == b.ground &&
         a.double_paces == b.double_paces && a.found == b.found &&
         a.exposure_per_m == b.exposure_per_m && a.after_m == b.after_m &&
         a.height_off_m == b.height_off_m && a.fall_off_deg == b.fall_off_deg &&
         a.bearing_off_deg == b.bearing_off_deg && a.guessed_min == b.guessed_min &&
         a.true_min == b.true_min && a.walked_km == b.walked_km;
}

std::string date_text(std::chrono::year_month_day d) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(d.year()),
                     static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()));
}
}  // namespace

std::string_view exercise_name(Exercise exercise) {
  return exercises[static_cast<std::size_t>(exercise)];
}

std::optional<Exercise> exercise_from_name(std::string_view name) {
  const auto found = std::ranges::find(exercises, name);
  if (found == exercises.end()) return std::nullopt;
  return static_cast<Exercise>(found - exercises.begin());
}

std::string_view pace_ground_name(PaceGround ground) {
  return grounds[static_cast<std::size_t>(ground)];
}

std::string_view visibility_name(mapdata::Visibility visibility) {
  return visibilities[static_cast<std::size_t>(visibility)];
}

double WalkedDay::walked_km() const {
  double metres = 0;
  for (const auto& piece : pieces) metres += piece.length_m;
  return metres / 1000;
}

Result<void> add(PartyRecord& record, WalkedDay day) {
  for (const auto& known : record.walked) {
    if (known.digest == day.digest) {
      return fail(FaultCode::bad_input, fmt::format("{}: this walk is already learnt, as {} of {}",
                                                    day.file, known.file, date_text(known.date)));
    }
  }
  record.walked.push_back(std::move(day));
  return {};
}

Result<void> add(PartyRecord& record, Measured measured) {
  if (auto good = check(measured); !good) return good;
  for (const auto& known : record.measured) {
    if (same(known, measured)) {
      return fail(FaultCode::bad_input,
                  fmt::format("{} of {}{}: these marks are already in the party file",
                              exercise_name(measured.exercise), date_text(measured.date),
                              measured.who.empty() ? "" : " by " + measured.who));
    }
  }
  record.measured.push_back(std::move(measured));
  return {};
}

}  // namespace lodeway::learn
