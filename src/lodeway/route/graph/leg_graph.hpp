#pragma once
/// The legs that may lead a party from one place to another, with their costs: what is searched.
/// Method: docs/method/legs-to-choose-from.md. Not for use outside route.
#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <utility>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/route/front/front.hpp"
#include "lodeway/route/front/wishes.hpp"
#include "lodeway/route/graph/both_ways.hpp"
#include "lodeway/route/graph/handrail_net.hpp"
#include "lodeway/route/graph/since_tick.hpp"
#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// One party on one ground: what every stretch of its trip is found with.
struct Seeking {
  const Cutting& cutting;
  const Lines& lines;
  const SinceTick& since;
  const reckoning::Judge& judge;
  const Wishes& wishes;
  numeric::Parallel& parallel;
  std::function<bool()> go_on = {};  ///< asked at least every tenth of a second, by one thread
  [[nodiscard]] bool stopped() const { return go_on && !go_on(); }
};

/// What is walked on an arc of the graph, from first to last.
struct Step {
  enum class What : unsigned char {
    stop,   ///< the end of a leg along a line is found; nothing is walked
    along,  ///< a run, or a part of it: `from_m` to `to_m`
    legs,   ///< straight legs from point to point
    round,  ///< barred straight on: to be gone round when it is judged; on no arc of the graph
  };
  What what = What::stop;
  std::uint32_t run = nothing;
  double from_m = 0, to_m = 0;
  std::vector<earth::GridPoint> points;
};

/// What is asked of each leg.
[[nodiscard]] Limits limits_of(const Wishes& wishes);

/// From `from` to `to`, the leader's places. Places of the graph: the fixes by their index, then
/// start and end, then one for each run: the party comes along it to its end and has not stopped;
/// then one for each straight leg to a line: where it meets it.
class LegGraph {
 public:
  struct Gathered;

  /// `before`: what another graph of this party between the same places gathered, whatever was
  /// wished for then; it is taken up and added to.
  LegGraph(const Seeking& seeking, const walking::Waypoint& from, const walking::Waypoint& to,
           std::shared_ptr<Gathered> before = nullptr);

  static constexpr double beside_line_m =
      75;                                   ///< a place this near to a line lies on it; *practice*
  static constexpr double never_loss = 15;  ///< a leg this unsure is none
  static constexpr double hopeless = 0.4;   ///< no bearing is set for what is found so seldom
  /// Of a leg's walking: what the unsure walk again at least, as legs are guessed. *Practice*, both.
  static constexpr double guessed_retry = 0.5;

  /// Makes candidates within an ellipse whose long axis is `reach_m`, judges those on the best ways
  /// and keeps these. False when no way leads through them, and when it was stopped.
  [[nodiscard]] bool build(double reach_m);
  /// What the last `build` rests on: for another graph.
  [[nodiscard]] const std::shared_ptr<Gathered>& gathered() const { return have_; }
  [[nodiscard]] double reach_m() const { return reach_m_; }  ///< of the last `build`
  /// What `build` is to do without, from now on.
  void leave_out(std::function<bool(const Step&)> what) { left_out_ = std::move(what); }

  [[nodiscard]] const std::vector<Arc>& arcs() const { return arcs_; }
  [[nodiscard]] const Step& step(std::uint32_t arc) const { return steps_[arc]; }
  [[nodiscard]] std::uint32_t first() const { return first_; }
  [[nodiscard]] std::uint32_t last() const { return first_ + 1; }
  [[nodiscard]] std::size_t places() const;
  /// Is it the place of a run, which goes on there?
  [[nodiscard]] bool goes_on(std::uint32_t place) const {
    return place > last() && place < first_met();
  }
  [[nodiscard]] earth::GridPoint at(std::uint32_t place) const;
  /// A fix's words where the arc ends at one; else empty.
  [[nodiscard]] std::string name(std::uint32_t place) const;

 private:
  struct Candidate {
    Arc arc;
    Step step;
    double likely = 0;  ///< of a leg on a bearing to a fix: guessed, before it is judged
  };
  /// A place at which a leg may begin or end.
  struct Stand {
    std::uint32_t place = nothing;
    earth::GridPoint at;
    bool marked = false;
    double seen_from_m = 0, recognised = 0;
    double line_known = 0;  ///< it lies on a line that is known so well when it is met
    double most_m = 0;      ///< farther off no bearing is set for it: it would hardly be found
  };
  /// A place near a piece.
  struct OnPiece {
    std::uint32_t piece = 0;
    double along_m = 0, away_m = 0;
    earth::GridPoint at;  ///< on it
  };
  struct RunCost {
    double seconds = 0, loss = 0;
    bool open = false;
  };

  /// Open ground in wide cells: how soon a leg gets from one to the next at best.
  struct Footing {
    terrain::Frame frame;
    std::vector<float> there_s;  ///< by cell, then its eight neighbours (moves()); endless: none
  };

  [[nodiscard]] bool inside(earth::GridPoint p, double reach_m) const;
  [[nodiscard]] std::uint32_t run_place(std::uint32_t run) const { return first_ + 2 + run; }
  [[nodiscard]] std::uint32_t first_met() const {
    return first_ + 2 + 2 * static_cast<std::uint32_t>(seeking_.lines.pieces.size());
  }
  [[nodiscard]] RunCost run_cost(std::uint32_t run, double from_m, double to_m) const;
  [[nodiscard]] double line_s(const std::vector<earth::GridPoint>& line, double own_factor) const;
  [[nodiscard]] double branch_loss(std::uint32_t run, std::uint32_t next) const;
  [[nodiscard]] double since_m(std::uint32_t run, double to_m) const;
  [[nodiscard]] LegCost stop_cost(std::uint32_t run, double since_m, const Stand& at) const;
  [[nodiscard]] Stand stand_at(std::uint32_t place) const;
  [[nodiscard]] std::vector<OnPiece> beside(earth::GridPoint at) const;
  void join_at(const std::vector<std::uint32_t>& spots, const walking::Waypoint& point, bool start,
               double pace_s, std::vector<Candidate>& out) const;
  void set_out(std::uint32_t run, double here_m, double away_s, std::vector<Candidate>& out) const;
  void arrive(std::uint32_t run, double here_m, double away_s, std::vector<Candidate>& out) const;
  void stand_on_lines(const walking::Waypoint& point, bool start,
                      std::vector<Candidate>& out) const;
  [[nodiscard]] double likely(const Stand& to, double length_m) const;
  [[nodiscard]] double most_m_to(const Stand& stand) const;
  [[nodiscard]] LegCost guess(double walk_s, std::size_t legs, double likely) const;
  void runs_between(std::vector<Candidate>& out) const;
  void bearings_from(const Stand& stand, std::vector<Candidate>& out) const;
  [[nodiscard]] std::vector<std::vector<earth::GridPoint>> gone_round(earth::GridPoint a,
                                                                      earth::GridPoint b) const;
  void entries_from(const Stand& stand, std::vector<Candidate>& out) const;
  void number_met(std::vector<Candidate>& all);
  [[nodiscard]] bool gather(double reach_m);  // false: stopped; so the two below
  [[nodiscard]] bool look_from(const std::vector<std::uint32_t>& stands);
  void judge(Candidate& candidate) const;
  [[nodiscard]] std::vector<Candidate> round(const Candidate& candidate) const;
  [[nodiscard]] bool judge_best(std::vector<Candidate>& candidates);

  [[nodiscard]] std::vector<std::uint32_t> may_join(BothWays& ways, const Limits& within,
                                                    const std::vector<std::uint32_t>& left) const;
  [[nodiscard]] std::vector<std::uint32_t> work_out_stops(const std::vector<double>& over,
                                                          double at_most);
  [[nodiscard]] Footing footing(double likeliest) const;
  void find_detours();

  const Seeking& seeking_;
  walking::Waypoint from_, to_;
  std::uint32_t first_;
  double reach_m_ = 0;
  std::shared_ptr<Gathered> have_;
  std::function<bool(const Step&)> left_out_;
  std::vector<Arc> arcs_;
  std::vector<Step> steps_;
};

/// What there is between two places for one party, whatever is wished for.
struct LegGraph::Gathered {
  double reach_m = 0;
  std::vector<std::uint32_t> live_fixes, live_pieces;
  std::vector<Stand> stands;            ///< of live fixes, then start and end
  std::vector<std::uint32_t> stand_of;  ///< by place: index into stands
  std::vector<OnPiece> start_on;        ///< pieces beside which the start lies
  std::vector<RunCost> run_costs;       ///< by run
  std::vector<earth::GridPoint> met;    ///< where straight legs meet lines
  std::vector<Candidate> along;         ///< all that follow lines
  /// Of `along`, by index: stops of which the least is known, for the count may have run longer.
  std::vector<std::uint32_t> guessed_stops;
  std::vector<std::vector<Candidate>> from_stand;  ///< by stand: legs that leave the lines ...
  std::vector<char> looked;                        ///< ... where they were looked for
  /// By stand: how many times the least time a way over it takes at least, roughly.
  std::vector<double> detour;
};

inline std::size_t LegGraph::places() const {
  return first_met() + (have_ ? have_->met.size() : 0);
}

}  // namespace lodeway::route
