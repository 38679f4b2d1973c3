#pragma once
/// Every word that paper says, in one place, in each language. "{0}", "{1}" are filled in by
/// fill_in().
#include <chrono>
#include <string>
#include <vector>

#include "lodeway/trip/plan.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::sheet {

enum class Say : unsigned char {
  scale_line,
  norths_on,
  grid_to_magnetic,
  true_to_magnetic,
  true_to_grid,
  change_a_year,
  map_to_compass,
  compass_to_map,
  add,
  take_off,
  not_to_scale,
  metres,
  feet,
  double_paces_bar,
  paces_note,
  check_line,
  romer,
  romer_note,
  foot_grid,
  foot_sources,
  foot_magnetism,
  foot_caution,
  foot_slope,
  sheet_of,
  next_sheet,
  unknown_licence,
  void_note,
  legs_from_to,
  side_of,
  what_you_see,
  card_head,
  double_paces,
  minutes_short,
  real,
  turn_round,
  turn_back,
  stops_you,
  nothing_stops,
  beyond,
  keep_off,
  if_lost,
  way_off,
  certainty_of,
  not_judged,
  no_fix,
  along_the,
  straight,
  aim_off_left,
  aim_off_right,
  then_turn,
  left,
  right,
  lost_title,
  lost_1,
  lost_2,
  lost_3,
  lost_4,
  help,
  signal_alpine,
  signal_america,
  help_say,
  marks,
  or_more,
  no_fix_mark,
  end_line,
  start,
  turn,
  sunset,
  home_title,
  back_at,
  worry_after,
  act_at,
  back_why,
  worry_why,
  act_why,
  do_title,
  do_1,
  do_2,
  do_3,
  do_4,
  do_5,
  say_title,
  say_words,
  way_title,
  party_title,
  leader,
  members,
  transport,
  gear,
  medical,
  number,
  blank_number,
  look_first,
  promise,
  dark_note,
  no_dark_note,
  map_title,
  escape_title,
  escape_none,
  escape_caution,
  distance_m,
  climb,
  descent,
  count
};

/// The words, with their blanks still in them.
[[nodiscard]] const char* say(Say what, units::Language language);
[[nodiscard]] std::string say(Say what, units::Language language,
                              const std::vector<std::string>& values);

/// "Sat 14 Nov 2026", "Sa 14. Nov. 2026"
[[nodiscard]] std::string date_text(std::chrono::year_month_day day, units::Language language);
/// "2.3° W", "41 mil W"
[[nodiscard]] std::string angle_text(double degrees, trip::AngleUnit unit, units::Language language,
                                     int decimals = 1);
/// Three figures for degrees, four for mils; no sign.
[[nodiscard]] std::string bearing_text(units::MagneticBearing b, trip::AngleUnit unit);
[[nodiscard]] const char* bearing_sign(trip::AngleUnit unit);
/// "25 000": whole, by thousands with a blank between.
[[nodiscard]] std::string thousands(double value);
/// "1018 m", "3340 ft", "2.1 mi"
[[nodiscard]] std::string length_text(double metres, trip::LengthUnit unit);
[[nodiscard]] std::string height_text(double metres, trip::LengthUnit unit);

}  // namespace lodeway::sheet
