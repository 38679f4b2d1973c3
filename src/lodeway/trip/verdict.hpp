#pragma once
/// The first thing said of a way: is it within what its leader set, close to it, outside it, or not
/// to be judged? It is made from figures alone and holds no words (verdict_words.hpp). It never
/// says that ground is safe. Rules and why these: docs/method/verdict.md
#include <optional>
#include <vector>

namespace lodeway::trip {

/// Ascending harm: of several reasons the greatest band is the verdict's.
enum class Band : unsigned char { within, close_to, not_judged, outside };

/// What fails. Within a band the earlier one is said first: what can hurt before what costs time.
enum class Fails : unsigned char {
  keep_off,       ///< parties that set foot on ground to keep off, of 1; outside
  water_stops,    ///< water that the party does not cross; outside
  never_home,     ///< parties not home by themselves that day, of 1: no hour for home; outside
  dark,           ///< the slow day ends after last light, minutes; outside
  dark_start,     ///< sets out before first light, minutes; outside
  back_too_late,  ///< the turn-round time is before the party is there, minutes; outside
  lost_leg,       ///< a leg kept by fewer than `Limits::least_kept`; outside
  no_heights,     ///< a leg crosses a hole in the height model; not judged
  no_compass,     ///< magnetic model out of its dates, or the field too weak; not judged
  water_unknown,  ///< the ground file knows no rivers or lakes; not judged
  unsure_leg,     ///< a leg under the certainty asked for; close to
  little_light,   ///< minutes from the slow day's end to last light, fewer than asked; close to
  wade,           ///< one water or more to wade; close to
};
inline constexpr int fails_count = 13;

/// What the leader set. Each can be changed in the trip file; the defaults are common practice, no
/// source.
struct Limits {
  double most_keep_off =
      0.05;                  ///< parties that set foot on ground to keep off on the whole way, of 1
  double least_kept = 0.70;  ///< a leg kept by fewer is a leg that loses people, of 1
  double asked_kept = 0.90;  ///< of each leg, of 1
  double light_margin_min = 60;  ///< from the slow day's end to last light, minutes
  double most_never_home = 0.1;  ///< of 1; not to be set: beyond it home has no hour to go by
};

/// What is known of one leg. Chances are the low end of their range where one is known.
struct LegFacts {
  std::optional<double> kept;  ///< at the first try, of 1; absent: no place to be known at its end
  double keep_off = 0;         ///< parties that set foot on ground to keep off, of 1
  bool no_heights = false;
  int wades = 0;  ///< crossings of water without a bridge
  bool water_stops = false;
};

/// What is known of a way.
struct WayFacts {
  std::vector<LegFacts> legs;
  double keep_off = 0;                            ///< of the whole way, of 1
  double never_home = 0;                          ///< parties not home by themselves that day, of 1
  std::optional<double> slow_to_dark_min;         ///< negative: after it; absent: no last light, or
                                                  ///< planned for the night
  std::optional<double> start_to_light_min;       ///< positive: sets out before first light;
                                                  ///< absent: as above
  std::optional<double> turn_round_to_there_min;  ///< planned arrival minus turn-round time, at the
                                                  ///< place where the party would turn; positive:
                                                  ///< too late to start like this
  bool no_compass = false;
  bool water_unknown = false;
};

/// One thing that fails. `value` and `limit` have the unit that `Fails` states.
struct Reason {
  Band band = Band::within;
  Fails what = Fails::unsure_leg;
  int leg = -1;  ///< index; -1: the whole way
  double value = 0, limit = 0;
  std::string where = {};  ///< of a leg's keep_off: which ground, on which hand; may be empty
  friend bool operator==(const Reason&, const Reason&) = default;
};

struct Verdict {
  Band band = Band::within;
  std::vector<Reason> reasons;  ///< worst first; empty when within
  friend bool operator==(const Verdict&, const Verdict&) = default;
};

/// The verdict on a way: the greatest band of its reasons. Reasons are ordered by band from the
/// worst, then as Fails stands, then by how far past the limit, then by leg. A share that equals
/// its limit keeps it. Where the whole way sends more parties onto ground to keep off than the
/// limit allows, its worst leg is named as a reason of its own with the leg's share, and each other
/// leg that is over the limit by itself.
/// Accuracy: exact; figures that are not finite count as not known (`no_heights` of their leg).
[[nodiscard]] Verdict verdict_of(const WayFacts& way, const Limits& limits);

/// Not to be started like this: outside the limits, or not judged.
[[nodiscard]] constexpr bool goes_wrong(Band band) {
  return band == Band::outside || band == Band::not_judged;
}
/// "within", "close_to", "not_judged", "outside": for programs.
[[nodiscard]] const char* band_name(Band band);
/// "keep_off", "water_stops", ...: for programs.
[[nodiscard]] const char* fails_name(Fails what);

}  // namespace lodeway::trip
