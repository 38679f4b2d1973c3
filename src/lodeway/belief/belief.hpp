#pragma once
/// Where may the party be: a share of probability for each cell of a window, and one for elsewhere.
/// Grid Bayes filter (Markov localization): Fox, Burgard, Thrun & Cremers 1998 (AAAI-98); Gutmann,
/// Burgard, Fox & Konolige 1998. Method, with a worked example: docs/method/where-are-we.md
#include <optional>
#include <span>
#include <variant>
#include <vector>

#include "lodeway/sight/likelihood.hpp"

namespace lodeway::belief {

using earth::GridPoint;
using sight::CuePlanes;
using sight::Perception;
using sight::Report;

/// Somewhere on this ground; nothing else is known.
struct Anywhere {};

/// The last sure place, and how one walked from there. *practice* but for what is told.
struct LastSure {
  GridPoint at;
  double minutes = 0;                              ///< walked since, above 0
  std::optional<units::GridBearing> heading = {};  ///< roughly; nothing: any way
  double heading_sd_deg = 25;
  double speed_kmh = 3.2;  ///< in a straight line: 0.8 of the party's speed on the flat
  double speed_cv = 0.3;
};

/// On a leg of the plan, since its start.
struct OnCourse {
  std::vector<GridPoint> line;  ///< at least two points
  double start_sd_m = 20;       ///< each way, at its start
  double end_cross_sd_m = 80;   ///< across it at its end, by reckoning
  double speed_kmh = 3.2;
  double speed_cv = 0.3;
  std::optional<double> minutes = {};  ///< since its start; nothing: anywhere along it
};

using Prior = std::variant<Anywhere, LastSure, OnCourse>;

struct Belief {
  terrain::Frame frame;      ///< that of the planes
  std::vector<float> share;  ///< of each cell, row by row; with `elsewhere` they make 1
  double elsewhere = 0.05;   ///< outside the window, or where the model does not hold
};

/// Share of the prior that is kept for elsewhere. *practice*.
inline constexpr double elsewhere_before = 0.05;

/// The prior alone. Half of it is where the party's reckoning puts it, half anywhere within the
/// distance that it may have walked: after a gross error its own reckoning is worth nothing. What
/// of it lies outside the window goes to elsewhere. Water counts a fiftieth, voids nothing: nobody
/// stands there.
[[nodiscard]] Belief before(const CuePlanes& planes, const Prior& prior);

/// The prior with all that was told. Never all zero, never NaN: what contradicts everything moves
/// the share to elsewhere.
[[nodiscard]] Belief locate(const CuePlanes& planes, const Prior& prior,
                            std::span<const Report> reports, const Perception& perception,
                            mapdata::Visibility visibility);

/// More tellings.
[[nodiscard]] Belief observe(Belief belief, const CuePlanes& planes,
                             std::span<const Report> reports, const Perception& perception,
                             mapdata::Visibility visibility);
[[nodiscard]] inline Belief observe(Belief belief, const CuePlanes& planes, const Report& report,
                                    const Perception& perception, mapdata::Visibility visibility) {
  return observe(std::move(belief), planes, {&report, 1}, perception, visibility);
}

/// Walked on: every cell's share goes `length_m` on a bearing, with errors of `bearing_sd_deg` and
/// `length_cv` (systematic draws of each cell's own). Ground to keep off stops nobody here. What
/// leaves the window or comes onto a void goes to elsewhere.
[[nodiscard]] Belief moved(const Belief& belief, const CuePlanes& planes,
                           units::GridBearing bearing, double length_m, double bearing_sd_deg = 5,
                           double length_cv = 0.1);

/// One of the places that fit: a connected part of the smallest area that holds 90 in 100 of what
/// is on this map (parts less than 100 m apart count as one).
struct Part {
  GridPoint middle;     ///< mean place of its probability
  GridPoint best;       ///< its likeliest cell
  double share = 0;     ///< of all, elsewhere included
  double radius_m = 0;  ///< of a circle as large
};

/// The smallest areas are of what is on this map: `elsewhere` is told beside them, not in them.
struct Summary {
  double area50_m2 = 0, area90_m2 = 0;
  double level50 = 0, level90 = 0;  ///< a cell with at least this share is in the area
  double elsewhere = 0;
  std::vector<Part> parts;  ///< likeliest first
  double kept_off = 0;      ///< share of what is on this map that stands on ground to keep off
};
/// Accuracy: areas within 1 % by a histogram of logarithms in steps of 0.01.
[[nodiscard]] Summary summary(const Belief& belief, const CuePlanes& planes);

/// Cells drawn in proportion to their share, by one systematic draw: the same belief and the same
/// offset (0 to 1) give the same cells. Empty when nothing is on this map.
[[nodiscard]] std::vector<std::size_t> draws(const Belief& belief, std::size_t count,
                                             double offset = 0.5);

/// How far a report is from what the best part's middle would give, for a warning.
struct Misfit {
  std::size_t report = 0;
  double by = 0;   ///< log-likelihood at the best place less that of nonsense: below 0
  double off = 0;  ///< metres (height) or degrees; 0 where there is no such figure
};
/// Reports that are better explained as mistaken than by the likeliest place.
[[nodiscard]] std::vector<Misfit> misfits(const CuePlanes& planes, GridPoint place,
                                          std::span<const Report> reports,
                                          const Perception& perception,
                                          mapdata::Visibility visibility);

}  // namespace lodeway::belief
