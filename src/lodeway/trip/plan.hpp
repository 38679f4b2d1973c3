#pragma once
/// A finished plan: everything that card, sheet and home note say, worked out. `sheet` draws it and
/// computes nothing.
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "lodeway/magnetic/declination.hpp"
#include "lodeway/trip/crossed_bars.hpp"
#include "lodeway/trip/planned_leg.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/trip/verdict.hpp"

namespace lodeway::trip {

/// Minutes as they pass, counted from 00:00 of the trip's date by the zone's clock as it goes at
/// the start; may pass 24 h. Two of them may be subtracted on any day; what is shown of one goes
/// through clock_text, which knows where clocks change.
using Clock = std::chrono::minutes;

/// Where the zone's clocks are put forward or back near the trip, and how far a clock is then ahead
/// of one that still goes as at the start.
struct ClocksChange {
  Clock at{};
  std::chrono::minutes before{}, after{};
};

/// Clock times of one leg. `rest_min` is spent at its end, before the next leg's `leave`;
/// `rest_within_min` on the way.
struct LegTimes {
  Clock leave{}, arrive{}, arrive_slow{};
  double rest_min = 0;
  double rest_within_min = 0;
};

/// Absent times come with a state in words: "the sun does not set".
struct Daylight {
  std::optional<Clock> dawn, rise, set, dusk;  ///< one after the other; dawn and dusk are civil
  std::string state;
  std::optional<ClocksChange> change{};  ///< within a day before the start or two after it
};

struct Schedule {
  std::vector<LegTimes> legs;  ///< one a leg
  Clock start{}, end{};        ///< of the day as planned: no mistakes, the middle time of each leg
  /// Half of the parties that were walked are through, back or on safe ground.
  std::optional<Clock> end_half;
  /// Nine in ten of all are: no worry until then. Absent: more than one in ten are never home by
  /// themselves that day, and no hour can be named; then `act_by` is absent too.
  std::optional<Clock> end_slow;
  double never_home = 0;      ///< the share of those, of 1
  std::size_t rehearsed = 0;  ///< parties that all this was counted of; 0: by the bands of times
  std::string zone;            ///< whose clock it is: an IANA name
  bool one_way = false;        ///< ends elsewhere than where it starts: nobody comes "back"
  std::optional<Clock> act_by;  ///< when the contact at home acts
  std::optional<Clock> latest_start;  ///< to end before dusk on a slow day
  std::optional<Clock> turn_round;    ///< if not at `turn_round_leg`'s end by then, go back
  int turn_round_leg = -1;            ///< index of the leg that ends where the party turns
  double turn_round_back_min = 0;     ///< walking time from there back to safe ground
  bool turn_before_start = false;  ///< no `turn_round`, for the last time to turn is before the start
  std::optional<double> to_sunset_min,
      to_dusk_min;  ///< margins of the middle time; may be negative
};

/// The three norths at the middle of the way, on the trip's date.
struct Norths {
  units::Norths at;
  double declination_sigma_deg = 0, annual_change_deg = 0;
  magnetic::Zone zone = magnetic::Zone::normal;
  double horizontal_nT = 0;  ///< how strongly the needle is drawn
};

enum class Severity : unsigned char { note, caution, danger };
/// How far a warning goes: who reads the card has no screen, and who is at home has no card.
enum class Reach : unsigned char { screen, home_note, card };
struct Warning {
  Severity severity = Severity::caution;
  std::string text;
  int leg = -1;  ///< index, or -1 for the whole trip
  Reach reach = Reach::screen;  ///< each includes those before it
};

/// What was found for a trip's way and day: places, figures, times. It rests on the ground and on
/// those keys of the trip that the way depends on; not on its name, scale, units or home note.
struct Outcome {
  reckoning::JudgedWay way;
  std::vector<std::vector<reckoning::Escape>> escapes;   ///< a list a leg
  std::vector<units::Norths> norths_of_legs;             ///< one a leg, at its start
  std::vector<std::string> remarks;                      ///< one a leg: what keeps to one side
  std::vector<std::vector<Ford>> fords;                  ///< a list a leg
  std::vector<std::vector<CrossedBar>> crossed;          ///< a list a leg
  std::vector<std::vector<LegNote>> notes;               ///< a list a leg
  std::vector<Directions> directions;                    ///< one a leg
  std::vector<std::vector<std::vector<Directions>>> escape_directions;  ///< one a leg of `escapes`
  Schedule schedule;
  Daylight daylight;
  Norths norths;
};

/// The finished plan of one trip as it stands. Made whole by plan_of, never changed afterwards.
struct Plan {
  Trip trip;
  PlannedWay way;
  Schedule schedule;
  Daylight daylight;
  Norths norths;
  Verdict verdict;      ///< the first thing said of it
  double keep_off = 0;  ///< parties that set foot on ground to keep off, on any leg, of 1
  std::vector<Warning> warnings;
  double length_m = 0, climb_m = 0, descent_m = 0, minutes = 0;  ///< as walked
  std::string start_reference, start_full_reference;
};

}  // namespace lodeway::trip
