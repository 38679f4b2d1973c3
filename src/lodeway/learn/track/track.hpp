#pragma once
/// A recorded track, and what of it is a walk. Method, and what each figure rests on:
/// docs/method/learning-from-tracks.md
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/learn/record/record.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::learn {

struct TrackPoint {
  earth::Geographic at;
  double height_m = 0;        ///< as recorded; NaN: none
  double time_s = 0;          ///< since 1970, UTC; NaN: none
  std::uint32_t segment = 0;  ///< the recording was begun anew between two segments
};

struct Track {
  std::string file;  ///< name without folders
  std::vector<TrackPoint> points;
  bool route = false;  ///< the file holds no track but a drawn route
};

enum class Used : unsigned char { whole, part, refused };
/// "whole", "part", "refused".
[[nodiscard]] std::string_view used_name(Used used);

/// Why, or what was left out. One thing each, so that a page can say it in its own words.
enum class Why : unsigned char {
  walked,           ///< nothing against it
  no_track,         ///< a drawn route, or no points
  no_times,         ///< not one point has a time
  broken_times,     ///< times that do not rise, or before 1980
  made_up_times,    ///< one speed everywhere: a program wrote the times
  ride,             ///< fast from end to end, or fast and slow in turns
  run,              ///< too fast for a walk, and evenly so
  too_little,       ///< under 1 km, 20 min of moving or 20 pieces of 50 m
  no_heights,       ///< slopes are not known
  fast_cut,         ///< used in part: a ride before or after was cut off
  untimed_dropped,  ///< used in part: points without time were left out
  known,            ///< this very walk is learnt already, maybe under another name
};
[[nodiscard]] std::string_view why_name(Why why);

/// What a stretch of the track was taken for, for the picture: indices into Track::points.
enum class Mode : unsigned char { walked, standing, ride, dropped };
struct Stretch {
  Mode mode = Mode::walked;
  std::size_t from = 0, to = 0;  ///< both included
};

/// What was made of one track.
struct Reading {
  Used used = Used::refused;
  std::vector<Why> why;  ///< the reason first
  std::string words;     ///< one sentence for people, English
  WalkedDay day;         ///< pieces only when used
  double learned_km = 0;
  double median_kmh = 0, fast_kmh = 0;  ///< of 50 m pieces of what was judged: 0.5, 0.9 quantile
  std::vector<Stretch> stretches;
};

/// All *practice* but where docs/method/learning-from-tracks.md says otherwise.
struct TrackRules {
  double hop_kmh = 12;           ///< a step faster than that is a slip of the receiver, or a ride
  double ride_kmh = 10;          ///< 400 m above this, at most a minute slower between, are a ride
  double between_rides_s = 600;  ///< slower for less than that is still the ride: a light, a hill
  double thin_m = 15, smooth_m = 60;
  double stop_m = 15, stop_s = 120;
  double gap_s = 900, gap_m = 200;  ///< no recording for so long and so far: a hole
  double piece_m = 500;
  double most_median_kmh = 6.5, most_fast_kmh = 8, most_run_kmh = 16;
  double least_cv = 0.02, most_not_rising = 0.05;
  double least_km = 1, least_min = 20;
  int least_pieces = 20;
};

/// Parts moving from standing, walking from riding, and refuses what is no walk. One pass over the
/// points: a million take about a second.
[[nodiscard]] Reading read_track(const Track& track, const TrackRules& rules = {},
                                 units::Language language = units::Language::english);

}  // namespace lodeway::learn
