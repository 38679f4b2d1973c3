#pragma once
/// All ways between two places of which none is both slower and less sure than another: the front
/// of expected time against certainty. Method, proof of the pruning:
/// docs/method/two-objective-search.md
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::route {

/// What a leg costs. All three add along a way and are finite and not negative.
struct LegCost {
  double seconds = 0;  ///< expected, getting back after a failure in it
  double loss = 0;     ///< -ln(certainty): adds where certainties multiply
  double hazard = 0;   ///< exposure, in the unit of Limits::hazard
};

/// A leg that may be walked, from place to place. Places are numbered from 0.
struct Arc {
  std::uint32_t from = 0, to = 0;
  LegCost cost;       ///< of an arc that asks: lower bounds of it, whatever is carried
  bool asks = false;  ///< its cost is asked for when it is needed (see Ask)
};

/// What a party brings to a turn where it cannot find itself.
struct Carried {
  reckoning::Drift drift;
  int turns = 1;  ///< since the last fix, this one counted
};

struct Asked {
  LegCost cost;                    ///< not below the arc's own
  std::optional<Carried> carried;  ///< at the arc's end; expected where that is a turn
};
/// The real cost of an arc that asks, by its index, for a party that carries this (null: it stands
/// on a fix). No answer: this leg is not walked so. With less carried (see carries_no_more) an arc
/// must cost no more and not be refused; where that fails the ways found are real, but one may be
/// missed. From a fix an arc is asked for once.
using Ask = std::function<std::optional<Asked>(std::uint32_t arc, const Carried* carried)>;

inline constexpr double no_limit = std::numeric_limits<double>::infinity();

/// Chances nearer to a limit than this keep it: closed form and rehearsal are farther apart.
/// *Practice*.
inline constexpr double chance_rounding = 0.005;

/// What certainty may cost in the search: seconds for a loss of 1, which is 12 minutes for 1 in 100.
/// It bounds which legs are judged, not which way is named. *Practice*.
inline constexpr double most_price_s = 72000;

/// A way at a limit keeps it; sums may pass it by 1e-12 of its value.
struct Limits {
  double seconds = no_limit, hazard = no_limit;                               ///< of the whole way
  double leg_seconds = no_limit, leg_loss = no_limit, leg_hazard = no_limit;  ///< of each leg
};

struct FrontProblem {
  std::size_t places = 0;
  std::span<const Arc> arcs;  ///< parallel ones, loops and costs of 0 are allowed
  /// By place: not 0 where the party cannot find itself, so that its error is carried on. Every arc
  /// into a turn and out of one asks. Empty: all places are fixes. Start and end are fixes.
  std::span<const std::uint8_t> turns;
  std::uint32_t from = 0, to = 0;
  Limits limits;
  Ask ask;  ///< may be empty when no arc asks
  /// Thinning, off by default: a way is left out when a quicker one loses less than this more. The
  /// front then holds, for each way left out, a way no slower whose loss is at most this above.
  double least_gain = 0;
  /// The same for part ways at every fix, off by default: then for each way left out the front holds
  /// one no slower whose loss is at most this above for each leg. Not where the hazard has a limit.
  double least_gain_at_fixes = 0;
  std::size_t most_labels = 8'000'000;  ///< bounds the memory: about 80 bytes each
  std::function<bool()> go_on;          ///< asked every 1024 labels; false ends with `cancelled`
};

struct FrontWay {
  LegCost cost;
  std::vector<std::uint32_t> arcs;  ///< indices into FrontProblem::arcs, in order
};

struct Front {
  std::vector<FrontWay> ways;         ///< seconds strictly ascending, loss strictly descending
  std::size_t labels = 0, asked = 0;  ///< how much work it was
};

/// Exact but for the rounding of sums in 64 bits: for every way within the limits the front holds
/// one that is no slower and no less sure. Of ways equal in both the one of least hazard is kept
/// where the hazard has a limit, else the first that is met; the same answer on every run. No ways:
/// none keeps the limits. From a place to itself: one way without legs. Source: BOA*, Hernandez,
/// Yeoh, Baier, Zhang, Suazo & Koenig 2020, ICAPS 30:143-151; sets instead of its one figure where
/// a covariance or a limited hazard is carried. Faults: bad_input (a figure that is negative or not
/// finite, a place out of range, an asked cost below its bound), too_large (more than
/// `most_labels`), cancelled.
[[nodiscard]] Result<Front> find_front(const FrontProblem& problem);

/// The same where many ways lead, in bounded time: exact as long as `exact_labels` part ways do;
/// else thinned at fixes too, by 0.0005 of loss and then by four times as much each time.
[[nodiscard]] Result<Front> find_front_soon(FrontProblem problem,
                                            std::size_t exact_labels = 250'000);

/// Is a party with `a` at least as well off as one with `b`, wherever it turns to next? Drifts of
/// one party only. True when as many turns are left to it, both have come as far since their fix
/// (shared errors act on the net displacement, so that neither is the better elsewhere) and b's
/// covariance less a's is positive semidefinite. Accuracy: 1e-6 m, 1e-9 of the variances.
/// The next leg must turn: one that goes straight on is the same leg, and no turn stands there.
[[nodiscard]] bool carries_no_more(const Carried& a, const Carried& b);

}  // namespace lodeway::route
