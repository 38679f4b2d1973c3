#pragma once
/// The move that works wherever the party is: from at least 95 in 100 of the places that fit it
/// meets something that catches, and at most 1 in 100 comes onto ground to keep off; else there is
/// none, and none is offered. Method: docs/method/where-are-we.md
#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "lodeway/belief/belief.hpp"
#include "lodeway/sight/chances.hpp"

namespace lodeway::belief {

enum class MoveKind : std::uint8_t { bearing, downhill, uphill, slope_on_left, slope_on_right };

/// What stops a walk. The first four are felt underfoot, the last must be seen.
enum class StopSort : std::uint8_t { crest, flat, water, wall, way_or_edge };
inline constexpr int stop_sort_count = 5;

struct Move {
  MoveKind kind = MoveKind::bearing;
  units::GridBearing bearing;  ///< of MoveKind::bearing
  double within_m = 0;         ///< walked by when so many have met it; nothing by then: stop
  /// Shares by then, of what is on this map: the low end of those who meet something, the high end
  /// of those who come onto ground to keep off, by what the draws leave open (Wilson 1927, one
  /// standard error): what may be promised.
  double met = 0, barred = 0;
  std::array<double, stop_sort_count> by_sort{};  ///< parts of `met`
  mapdata::Kind line = mapdata::Kind::other;      ///< the line that stops most of them
  double by_line = 0;                             ///< part of `met`
  [[nodiscard]] double felt() const { return by_sort[0] + by_sort[1] + by_sort[2] + by_sort[3]; }
};

struct WalkError {
  double bearing_sd_deg = 3;  ///< of a party on a bearing, the whole way
  double fall_sd_deg = 15;    ///< of one that goes by the slope
};

struct MoveLimits {
  double met = 0.95, barred = 0.01;  ///< never asked for less
  double most_m = 2000;
  double most_elsewhere = 0.2;  ///< more, and no move is offered: it may lead from nowhere
  std::size_t draws = 500;      ///< each candidate is tried from so many places ...
  std::size_t proof = 2000;     ///< ... and one that passes is walked again from so many others
};

struct Moves {
  double standing_barred =
      0;                      ///< already on ground to keep off, of what is on this map: said first
  std::vector<Move> offered;  ///< felt underfoot first, then the nearest; empty: there is none
};

/// What stops a party of this skill in this visibility, by cell of the planes. Made once where
/// several beliefs about the same planes are asked for their moves.
struct Stops {
  std::vector<std::uint8_t> at;      ///< 1 + index into `kinds`; 0: nothing
  std::vector<mapdata::Kind> kinds;  ///< lines that catch
  std::vector<double> noticed;       ///< by kind: chance that it stops, of 1
  std::vector<double> felt;          ///< the same of barred water
};
[[nodiscard]] Stops stops_of(const CuePlanes& planes, const sight::Chances& chances,
                             walking::Skill skill, mapdata::Visibility visibility);

/// Deterministic. Walks over voids or off the window meet nothing. Open water that is barred is
/// missed with the square of the chance of missing a stream: it is seen, then felt. `stops`: of the
/// same planes.
[[nodiscard]] Moves common_moves(const Belief& belief, const CuePlanes& planes, const Stops& stops,
                                 const WalkError& error = {}, const MoveLimits& limits = {});
[[nodiscard]] Moves common_moves(const Belief& belief, const CuePlanes& planes,
                                 const sight::Chances& chances, walking::Skill skill,
                                 mapdata::Visibility visibility, const WalkError& error = {},
                                 const MoveLimits& limits = {});

/// What becomes of a party that walks a move from each place, each drawing whether it notices what
/// it meets: for tests and tables.
/// Nobody walks beyond the stated distance.
struct Walked {
  bool met = false, barred = false;
  double length_m = 0;
};
[[nodiscard]] std::vector<Walked> walk(const Move& move, std::span<const GridPoint> from,
                                       const CuePlanes& planes, const Stops& stops,
                                       const WalkError& error, numeric::Random& random);

}  // namespace lodeway::belief
