#pragma once
/// How a party walks a leg and finds its end: what its certainty is worked out from, what the
/// rehearsal walks by, and what the card says. An end is one of five things, each of which has only
/// what it needs. Method: docs/method/ends-of-legs.md
#include <optional>
#include <variant>
#include <vector>

#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/reckoning/ends/guides.hpp"
#include "lodeway/reckoning/growth/growth.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::reckoning {

/// What all ends that are come to on the needle have.
struct OnNeedle {
  LegGrowth growth;      ///< how the error comes to that at the end
  double set_right = 1;  ///< no bearing since the last fix is set far wrong
  double from_fix_m = 0;  ///< from the last fix to its start; 0: it starts where the party knows its place
};

/// Nothing to see: a dog-leg's turn. The error is carried on.
struct AtTurn : OnNeedle {};

/// Nothing to see where a way ends: there is who stands near enough.
struct AtNothing : OnNeedle {
  double window_m = 0;      ///< near enough
  double look_round_m = 0;  ///< who is farther off looks for it so far about
};

/// A mark seen from around.
struct AtMark : OnNeedle {
  Mark mark;            ///< as this party knows it
  double beyond_m = 0;  ///< so far past the count it goes on that has not seen it
};

/// A place on a line of the map that is met.
struct PlaceOnLine {
  std::size_t line = 0;  ///< Guides::line
  double along_m = 0;    ///< from its first point
  double noticed = 1;    ///< by who comes to it
  double leaving_m = 0;  ///< a line left at the start is not met nearer to it
};

/// A line met, then along it to a mark; or to where the count says that the place is.
struct AtLine : OnNeedle {
  PlaceOnLine place;
  std::optional<Mark> mark;   ///< as this party knows it; none: by the count
  double window_m = 0;        ///< along the line, about the place: there it is seen, or near enough
  double offset_m = 0;        ///< aimed off, along the line, + towards its last point
  bool aim_is_left = false;   ///< of the straight way to the end; when aimed off
  double line_sigma_m = 0;    ///< of where the line is met
  /// So far a party follows it that has not seen the mark: search_m, or less where ground to keep off
  /// lies on it; 0: it goes only where it sees the mark
  double follows_m = 0;
  double beyond_m = 0;        ///< past the aim, of those who have not met it
};

/// Along a line to its end, to a mark on it, or by the count alone.
struct ByHandrail {
  std::optional<Mark> mark;  ///< as this party knows it; none: by the count
  double window_m = 0;       ///< of the count
  double since_tick_m = 0;   ///< after the last thing ticked off
  double keeps = 1;          ///< line and branches kept
  bool goes_on = true;       ///< something like it goes on past the end
  double beyond_m = 0;       ///< past the count, of those who have not seen the end
};

using End = std::variant<AtTurn, AtNothing, AtMark, AtLine, ByHandrail>;

/// How a leg is walked, and what ends it.
struct Approach {
  GridPoint from, to, aim;  ///< aim = to when not aimed off
  units::GridBearing bearing;  ///< from its start to the aim
  double length_m = 0;         ///< to the aim; of a handrail: its own length
  LegAxes spread;              ///< at the end, shared errors and start in it
  numeric::Covariance at_end;  ///< the same, x east, y north
  End end;
};

/// A thing that is no end, but like it.
struct LikeMark {
  std::uint32_t fix = 0;  ///< index into Guides::fixes()
  GridPoint at;
  double seen_from_m = 0;
};
struct LikeLine {
  std::size_t line = 0;  ///< Guides::line
  double lie_apart_deg = 0;
};
/// Something on the way that could be taken for the end.
struct DecoyPlace {
  std::variant<LikeMark, LikeLine> thing;
  double along_m = 0;  ///< where it is met, along the leg
  double recognised = 1, looks_alike = 1;
  double probability = 0;  ///< of being taken for the end
};

/// A leg with the chance to keep it at the first try.
struct LegModel : Approach {
  std::vector<DecoyPlace> decoys;
  double decoy_probability = 0;  ///< of taking any of them for the end
  double certainty = 0;
};

/// A leg with all that is worked out of it.
struct Weighed : LegModel {
  double hazard_probability = 0;  ///< of setting foot on forbidden ground
  double minutes = 0;             ///< walking, as aimed; on a line to its end
  double recovery_minutes = 0;    ///< expected, when it fails
};

/// A part of a leg, with its share of the figures that the straight way has.
struct WalkedPart {
  double map_m = 0;     ///< by the grid, as a ruler on the map has it
  double length_m = 0;  ///< on the ground
  double double_paces = 0, minutes = 0;
};
/// How far and how long a leg is walked, all its parts together.
struct Walked {
  std::optional<WalkedPart> needle;  ///< to the end, or to the aim; none along a line
  std::optional<WalkedPart> after;   ///< from the aim along the line met
  double length_m = 0, minutes = 0, minutes_slow = 0;
};
[[nodiscard]] Walked walked(const walking::Leg& leg, const Approach& way);

/// Null along a line.
[[nodiscard]] const OnNeedle* on_needle(const End& end);
/// What is known when it is seen; null where nothing is.
[[nodiscard]] const Mark* mark_of(const End& end);
/// So far past the count a party goes that has not found the end; 0 where there is nothing to find.
[[nodiscard]] double beyond_m(const End& end);
/// A dog-leg's turn, or a way's end at which there is nothing to see.
[[nodiscard]] bool nothing_to_see(const End& end);
/// Is the party where it believes, once it knows that the leg is ended? Not by the count.
[[nodiscard]] bool is_fix(const End& end);
/// The line met, where the leg is aimed off from its end; else null.
[[nodiscard]] const AtLine* aimed_off(const End& end);
/// How far a party follows the line it met before it turns round.
[[nodiscard]] double search_m(const AtLine& end, const Habits& habits);
/// Is there something near enough ahead for those who missed the end to go on to?
[[nodiscard]] bool goes_on_to_stop(const walking::Leg& leg, const Approach& way);

}  // namespace lodeway::reckoning
