#pragma once
/// From the quickest line to legs that a party can walk. Method: docs/method/cutting-legs.md
#include "lodeway/landmarks/surroundings.hpp"
#include "lodeway/route/field/find_path.hpp"
#include "lodeway/units/text.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::route {

class ToldLegs;
struct PartyGround;

struct Cutting {
  const walking::Ground& ground;
  const Prepared& prepared;
  const landmarks::Surroundings& around;
  const walking::Request& request;
  units::Speech language;
  const ToldLegs* told = nullptr;     ///< pieces whose legs are described already
  const PartyGround* kept = nullptr;  ///< that `prepared` is of, where its paths may be kept
};

/// Legs along what is followed, and straight legs over open ground: the fewest and quickest, each
/// no longer than party.max_leg_m, none over barred ground that the path does not cross itself. Off
/// a path for under 60 m is part of the leg along it. A path is left and met at something to see
/// within 300 m where that costs under 90 s; a handrail of over 2 km is parted at something to see.
/// Names of the outer ends are the caller's.
[[nodiscard]] std::vector<walking::Leg> cut_legs(const Cutting& c, const RawPath& path,
                                                 const std::string& from, const std::string& to);

/// Legs of pieces that are final: one along each line (parted where long), one a straight of an
/// open piece, named and described.
[[nodiscard]] std::vector<walking::Leg> legs_of(const Cutting& c, const std::vector<Piece>& pieces,
                                                const std::string& from, const std::string& to);

/// A leg from one thing to another of the same name ends at "the next": no leg joins a place to
/// itself. The last end keeps its name.
void name_apart(std::vector<walking::Leg>& legs, units::Language language);

/// The courses of one of them, in order; where it is parted the ends are named.
[[nodiscard]] std::vector<walking::Course> cut_piece(const Cutting& c, const Piece& piece);
/// As `described` wants it.
[[nodiscard]] inline int followed_on(const Piece& piece) {
  return piece.line == no_parent ? -1 : static_cast<int>(piece.line);
}

/// Along the lines of the map that lead and join two places (both within 75 m of one), the shortest
/// way; a leg for each thing followed. Faults: no_way, saying what is missing, or what bars where:
/// on a path areas to avoid and forbidden ground, on other lines whatever bars the party.
[[nodiscard]] Result<std::vector<walking::Leg>> leg_along(const Cutting& c,
                                                          const walking::Waypoint& from,
                                                          const walking::Waypoint& to);

/// What forbids following a line of this kind from a to b: on a path only ground that is forbidden
/// itself, on others whatever bars; but not the water that the line is.
[[nodiscard]] walking::Cover::Blocked along_bar(const Cutting& c, mapdata::Kind kind,
                                                earth::GridPoint a, earth::GridPoint b);

/// One straight leg. Faults: no_way where it would cross barred ground: says what and where.
[[nodiscard]] Result<std::vector<walking::Leg>> leg_straight(const Cutting& c,
                                                             const walking::Waypoint& from,
                                                             const walking::Waypoint& to);

/// The legs of one stretch as the leader wants it, or along the quickest line. Faults: as
/// check_place, find_path, leg_along, leg_straight; bad_input when the two places are one.
[[nodiscard]] Result<std::vector<walking::Leg>> given_stretch(const Cutting& c,
                                                              const walking::Waypoint& from,
                                                              const walking::Waypoint& to);

/// The request's points; those without a name get one from the map, or from their place in the
/// order.
[[nodiscard]] std::vector<walking::Waypoint> named_points(const Cutting& c);

/// Where a leg goes, its ends without names: what it follows, and how the ground slows it.
/// `followed`: index of the line that is followed, -1 on a bearing.
[[nodiscard]] walking::Course course_of(const Cutting& c, walking::LegKind kind,
                                        std::vector<earth::GridPoint> line, int followed);
/// `followed` of a course that is known already; -1 on a bearing, or where no line of its kind runs.
[[nodiscard]] int line_followed(const Cutting& c, const walking::Course& course);
/// A course with all that the map says of it: figures, tick-offs, what stops the party, what to
/// keep off.
[[nodiscard]] walking::Leg described(const Cutting& c, walking::Course course, int followed);

}  // namespace lodeway::route
