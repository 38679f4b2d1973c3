#pragma once
/// The stretches of a trip, each with its front, joined to whole ways. Not for use outside route.
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "lodeway/reckoning/judge/teller.hpp"
#include "lodeway/route/choose/local_ground.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/route/field/party_ground.hpp"
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/told_legs.hpp"

namespace lodeway::route {

/// A whole way of the joined front: its cost, and which way is taken on each stretch.
struct WholeWay {
  LegCost cost;
  std::vector<std::uint32_t> taken;
};

/// Everything that the stretches of one request are found with.
struct Workshop {
  std::shared_ptr<const PartyGround> met;
  reckoning::Judge judge;
  ToldLegs told;
  Cutting cutting;
  Seeking seeking;
  /// Refers to all of its arguments but `go_on`.
  Workshop(const LocalGround& local, const walking::Request& request, const Wishes& wishes,
           numeric::Parallel& parallel, std::function<bool()> go_on = {});
  Workshop(const Workshop&) = delete;
  Workshop& operator=(const Workshop&) = delete;
  [[nodiscard]] reckoning::Teller teller() const {
    return reckoning::Teller(judge, cutting.language);
  }
};

/// The graph of a stretch, without what is left out, as wide as it must be to lead; null where it
/// leads nowhere, or when it was stopped.
[[nodiscard]] std::unique_ptr<LegGraph> graph_of(
    const Seeking& seeking, const walking::Waypoint& from, const walking::Waypoint& to,
    const std::function<bool(const Step&)>& left_out = {},
    std::shared_ptr<LegGraph::Gathered> before = nullptr);
/// What is searched of it, with the limits that are wished for. Refers to the graph.
[[nodiscard]] FrontProblem problem_of(const LegGraph& graph, const Wishes& wishes,
                                      const std::function<bool()>& go_on = {});
/// What a way through it follows and crosses, in order.
struct WayPieces {
  std::vector<Piece> pieces;
  std::vector<std::string> ends;  ///< what each ends at; empty: whatever the map calls it
};
[[nodiscard]] WayPieces pieces_through(const Seeking& seeking, const LegGraph& graph,
                                       const FrontWay& way);
/// The legs of a way through it, named and described, not judged.
[[nodiscard]] std::vector<walking::Leg> legs_through(const Seeking& seeking, const LegGraph& graph,
                                                     const FrontWay& way,
                                                     const walking::Waypoint& from,
                                                     const walking::Waypoint& to);
/// Limits on legs that are not kept, past `chance_rounding`.
struct Missed {
  bool certainty = false, hazard = false;
};
/// By any leg of a way that is judged.
[[nodiscard]] Missed missed_by(const reckoning::JudgedWay& way, const Wishes& wishes);

/// What the front counts of it.
[[nodiscard]] LegCost cost_of(const NamedWay& way);

class WayParts {
 public:
  /// `before`: the same stretches, sought with other wishes; what was gathered then is taken up.
  explicit WayParts(const Seeking& seeking, const WayParts* before = nullptr)
      : seeking_(seeking), before_(before) {}

  /// The next stretch. A limit on legs that no way of it keeps is left out; where too little is to
  /// be seen the least-time line is taken, and the remarks say so. Faults: as plan_way where no way
  /// leads.
  [[nodiscard]] Result<void> add(const walking::Waypoint& from, const walking::Waypoint& to,
                                 std::vector<std::string>& remarks);
  /// Every way over all stretches that none other beats: seconds ascending, loss descending. Of
  /// more than `most_kept` the nearest alike are left out.
  [[nodiscard]] const std::vector<WholeWay>& front() const { return front_; }
  /// Was a way looked for farther off than in the first ellipse (reach.hpp)?
  [[nodiscard]] bool went_farther() const { return went_farther_; }
  /// What it follows and crosses, given stretches left out: what there is to tell of it.
  [[nodiscard]] std::vector<Piece> pieces(std::size_t index) const;
  /// Its legs, named and described, not judged.
  [[nodiscard]] walking::Way way(std::size_t index) const;
  /// What could not be kept on the stretches that were sought, and on those that the leader set
  /// out.
  [[nodiscard]] const Missed& missed() const { return missed_; }
  [[nodiscard]] const Missed& given_missed() const { return given_missed_; }

  static constexpr std::size_t most_kept = 400;
  struct Ends {
    std::string from, to;
  };

 private:
  struct Stretch {
    std::vector<LegCost> costs;
    std::vector<std::vector<walking::Leg>>
        legs;                         ///< of each, when it was given or cut by the field
    std::unique_ptr<LegGraph> graph;  ///< else ways of the graph
    std::vector<FrontWay> ways;
    std::shared_ptr<LegGraph::Gathered> gathered;  ///< of the graph, though that leads nowhere
    walking::Waypoint from, to;
    Missed missed;
  };
  [[nodiscard]] Result<void> search(Stretch& stretch, std::vector<std::string>& remarks);
  [[nodiscard]] Result<void> fixed(Stretch& stretch) const;
  void join(const Stretch& stretch);

  const Seeking& seeking_;
  const WayParts* before_;
  std::vector<Stretch> stretches_;
  std::vector<WholeWay> front_;
  Missed missed_, given_missed_;
  bool went_farther_ = false;
};

}  // namespace lodeway::route
