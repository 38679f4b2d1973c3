#pragma once
/// What is known of a party from watching it: raw counts, as the party file keeps them. Figures are
/// derived from them whenever they are read (figures/party_figures.hpp), never stored.
#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lodeway/mapdata/kind.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::learn {

/// The exercises of a training day; a walked trip adds to `lines`, `features`, `forks` and
/// `followed` what its debrief says.
enum class Exercise : unsigned char {
  setting,   ///< bearings set from the map at a desk; missed: over 15 degrees wrong
  pacing,    ///< double paces over a taped course
  triangle,  ///< legs back to the start; the miss at each corner
  bearing,   ///< open bearing courses; the miss at each hidden peg
  features,  ///< small features found; missed: end not known for what it is
  forks,     ///< forks of a walk; missed: wrong branch
  lines,     ///< lines crossed; missed: not noticed, or not named
  drops,     ///< blind drops; missed: the place lay outside the area they drew
  time,      ///< distance by time: minutes guessed and true
  doubt,     ///< a planted wrong bearing: metres until they doubted
  followed,  ///< kilometres along lines; missed: times the line was lost
};
inline constexpr int exercise_count = static_cast<int>(Exercise::followed) + 1;
/// "bearing": the spelling of files, commands and JSON.
[[nodiscard]] std::string_view exercise_name(Exercise exercise);
[[nodiscard]] std::optional<Exercise> exercise_from_name(std::string_view name);

enum class PaceGround : unsigned char { level, up, down, rough };
inline constexpr int pace_ground_count = 4;
[[nodiscard]] std::string_view pace_ground_name(PaceGround ground);
[[nodiscard]] std::string_view visibility_name(mapdata::Visibility visibility);

/// One exercise of one day by one pair or person. Lists are parallel where two belong together.
/// Right and long are positive: `across_m` 7 is 7 m right of the peg, `along_m` -4 is 4 m short.
struct Measured {
  std::chrono::year_month_day date{};
  std::string who;  ///< empty: the party
  Exercise exercise = Exercise::setting;
  mapdata::Visibility conditions = mapdata::Visibility::clear;
  bool training = true;  ///< watched people try harder: counts half
  std::string course;    ///< which course it was, as its sheet says; empty: none
  mapdata::Kind kind = mapdata::Kind::other;  ///< of features, lines, forks, followed
  double trials = 0, missed = 0;
  double leg_m = 0;  ///< bearing, triangle
  std::vector<double> across_m, along_m;
  PaceGround ground = PaceGround::level;
  double course_m = 100;
  std::vector<double> double_paces;
  double found = 0, exposure_per_m = 0;  ///< features: finds, and sum of metres searched / area
  std::vector<double> after_m;           ///< forks, doubt: metres until noticed
  std::vector<double> height_off_m, fall_off_deg, bearing_off_deg;  ///< drops
  std::vector<double> guessed_min, true_min;                        ///< time
  double walked_km = 0;                                             ///< followed
};

inline constexpr int time_model_count = 5;

/// A piece of a walk, some 500 m of moving: what it was, what it took, what the models say of it
/// at 4 km/h on the flat on good path (by walking::TimeModel).
struct WalkedPiece {
  double length_m = 0, climb_m = 0, descent_m = 0, minutes = 0;
  double off_ease =
      0;  ///< mean of |slope + 0.05| over it: Tobler's distance from the easiest slope
  std::array<double, time_model_count> model_minutes{};
};

/// One day's walk, from a track.
struct WalkedDay {
  std::chrono::year_month_day date{};
  std::string file;    ///< the track's name, without folders
  std::string digest;  ///< of its places and times: the same walk under another name has the same
  double moving_min = 0, standing_min = 0;
  double stops = 0;
  std::vector<WalkedPiece> pieces;
  [[nodiscard]] double walked_km() const;
};

struct PartyRecord {
  std::string name;
  std::vector<Measured> measured;
  std::vector<WalkedDay> walked;
  /// Figures that the leader leaves at the table though they were measured (figure_id of
  /// figures/party_figures.hpp); their counts are kept, so that they can be used again.
  std::vector<std::string> refused;
};
inline constexpr int party_file_version = 1;

/// Adds what is not there yet. Faults: bad_input when this walk, or this exercise of this day,
/// course, person and figures, is already there.
[[nodiscard]] Result<void> add(PartyRecord& record, WalkedDay day);
[[nodiscard]] Result<void> add(PartyRecord& record, Measured measured);

/// What one `Measured` must keep to, whoever wrote it. Faults: bad_input, naming the field and what
/// was expected: more misses than trials, a list without its partner, a miss larger than the course
/// (900 m off in 400), counts that no walker makes.
[[nodiscard]] Result<void> check(const Measured& measured);
/// What is possible but odd, to be asked before it is kept: single for double paces, all misses to
/// one side (declination?), nothing missed in many trials. One sentence each.
[[nodiscard]] std::vector<std::string> odd(const Measured& measured,
                                           units::Language language = units::Language::english);

}  // namespace lodeway::learn
