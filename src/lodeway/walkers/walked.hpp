#pragma once
/// Parties that really walk a way: each has a true place and a believed one, goes by the card on
/// what it believes, notices or does not, looks for its place, goes on, back, off, or stays. Nobody
/// is ever set down where it should be. The second judge of the closed forms.
/// Method, with a worked example, and what is not in it: docs/method/walkers.md
#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/walkers/card.hpp"
#include "lodeway/walkers/manner.hpp"
#include "lodeway/walkers/world.hpp"
#include "lodeway/walking/walked_days.hpp"

namespace lodeway::walkers {

/// What a party first went wrong by on a leg.
enum class Wrong : unsigned char {
  missed,         ///< walked past the end
  wrong_side,     ///< turned the wrong way at the line
  not_known,      ///< had the end in sight and did not know it
  mistaken,       ///< took something else for it
  left_line,      ///< came off the line it followed
  wrong_branch,   ///< took another line at a fork
  overshot,       ///< went on along the line past the end
  wrong_bearing,  ///< had set or read the bearing far wrong
  doubted,        ///< the ground seemed wrong, and it stopped
  no_line,        ///< the line to follow was not where it stood
};
inline constexpr std::size_t wrong_count = 10;
[[nodiscard]] std::string_view wrong_words(Wrong wrong);

/// How a party stands at a moment.
enum class State : unsigned char {
  on_the_way,
  lost,        ///< and does not know it, or looks for its place
  going_back,  ///< turned round
  escaping,    ///< on an escape route
  staying,     ///< stays where it is until it is found
  through,     ///< at the way's end
  back_at_start,
  at_haven,  ///< on safe ground by an escape route
};
inline constexpr std::size_t state_count = 8;
[[nodiscard]] std::string_view state_words(State state);
[[nodiscard]] constexpr bool is_home(State s) {
  return s == State::through || s == State::back_at_start || s == State::at_haven;
}

/// A party at a moment.
struct Stand {
  GridPoint at, believed;
  State state = State::on_the_way;
  std::int16_t leg = 0;       ///< the leg it is on or thinks it is on
  std::int16_t lost_on = -1;  ///< the leg on which it was last lost; -1: never
};

struct Moment {
  double minutes = 0;  ///< clock, as Card::start_min
  GridPoint at, believed;
  State state = State::on_the_way;
  std::int16_t leg = 0;
};
struct Track {
  /// Where it first went wrong on a leg of the way, or where that showed.
  struct Slip {
    std::int16_t leg = 0;
    Wrong wrong = Wrong::missed;
    GridPoint at;            ///< truly
    std::size_t moment = 0;  ///< the first of `moments` after it; their number: none is
  };
  std::vector<Moment> moments;  ///< straight between them
  std::vector<Slip> slips;      ///< in their order, at most one a leg
};

struct WalkedLeg {
  std::size_t set_out = 0;     ///< who began it, wherever they stood
  std::size_t kept = 0;        ///< ended where they should, nothing noticed, nothing searched
  std::size_t in_the_end = 0;  ///< ended where they should, however
  std::size_t on_course = 0, kept_on_course = 0;  ///< of those who began it where it begins
  std::size_t elsewhere = 0;  ///< believed to have ended it, and stood somewhere else
  std::size_t keep_off = 0;   ///< set foot on ground to keep off
  std::array<std::size_t, wrong_count> wrong{};
  double predicted = 1;
  double lost_min_50 = 0, lost_min_90 = 0;  ///< of those lost on it
  double lost_m_50 = 0, lost_m_90 = 0;      ///< how far from where they believed to be, at most
  double minutes_10 = 0, minutes_50 = 0, minutes_90 = 0;  ///< of those who ended it
};

struct Walked {
  std::size_t asked = 0, walked = 0;             ///< fewer walked: stopped before the end
  std::array<std::size_t, state_count> ended{};  ///< states at the end of the story
  std::size_t kept_all = 0;                      ///< every leg at the first try
  std::size_t lost = 0;                          ///< at any time
  std::size_t never_noticed = 0;                 ///< of the lost: went on without ever noticing
  std::size_t benighted = 0;                     ///< out after last light
  std::size_t keep_off = 0, off_ground = 0;
  double lost_min_50 = 0, lost_min_90 = 0, unaware_min_50 = 0, unaware_min_90 = 0;
  double lost_m_50 = 0, lost_m_90 = 0;
  double end_10 = 0, end_50 = 0, end_90 = 0;  ///< clock; 9 in 10 of ALL are home by end_90; never:
                                              ///< fewer are
  std::vector<WalkedLeg> legs;
  walking::WalkedDays days;  ///< of all who walked, in their order
  std::vector<std::vector<Stand>> stands;  ///< [moment asked for][party], those who walked alone
  terrain::Raster<float> trodden;          ///< share of parties that set foot in a cell
  std::vector<Track> tracks;
};

struct WalkRequest {
  std::size_t parties = 10000;
  std::uint64_t seed = 1;
  std::size_t tracks = 0;      ///< of the first parties; does not change what they do
  std::vector<double> at_min;  ///< clock: where is everybody then; ascending
  bool trodden = true;
  Manner manner;
  Truth truth;
};
inline constexpr std::size_t most_parties = 1'000'000, most_tracks = 2000, most_moments = 64;

/// The same seed gives the same bytes on any number of threads: one stream a party, blocks joined
/// in their order, no vector code. Where `parallel` leaves blocks out (it was stopped), the answer
/// is of those who walked. Faults: bad_input (no parties, no legs, a leg of no length), too_large.
[[nodiscard]] Result<Walked> walk(const World& world, const Card& card, const WalkRequest& request,
                                  numeric::Parallel& parallel);

}  // namespace lodeway::walkers
