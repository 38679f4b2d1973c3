#pragma once
/// One party on its day. `day.cpp` leads it from leg to leg; `step.cpp` moves it and looks at the
/// ground; `needle.cpp` is a leg on a bearing, `line.cpp` one along a line; `lost.cpp` what it does
/// when it does not know where it is.
#include "lodeway/numeric/random.hpp"
#include "lodeway/walkers/detail/ready.hpp"
#include "lodeway/walkers/walked.hpp"

namespace lodeway::walkers::detail {

/// What became of one leg.
struct LegStory {
  bool set_out = false, on_course = false, ended = false, kept = false, there = false;
  bool keep_off = false;
  std::optional<Wrong> wrong;
  float lost_min = 0, lost_m = 0, minutes = 0;
  float ended_min = 0;  ///< since the start, the rests on the way in it
};

/// Where one block of parties writes to.
struct Sink {
  std::span<Stand> stands;  ///< of this party, one a moment asked for
  std::span<LegStory> legs;
  std::vector<std::uint32_t>* trodden = nullptr;
  const terrain::Frame* frame = nullptr;  ///< of trodden
  Track* track = nullptr;
};

struct Fate {
  State state = State::on_the_way;
  double end_min = 0;
  bool kept_all = true, lost = false, noticed = false, keep_off = false, off_ground = false,
       benighted = false;
  double lost_min = 0, unaware_min = 0, lost_m = 0;
};

/// How a piece of the way came out, as the party sees it.
enum class Came : unsigned char {
  there,  ///< it believes that it is where it wanted to be
  lost,   ///< it knows that something is wrong
  over,   ///< the story is at its end: no more time, or it stays
};

/// What a walk on the needle looks for.
enum class LooksFor : unsigned char {
  mark,
  line,     ///< of the card, then along it
  nothing,  ///< stops by the count
};

/// A walk on the needle.
struct Aim {
  GridPoint from, to;  ///< as believed; from where it counts, where the needle points
  GridPoint end;       ///< what is looked for
  LooksFor looks_for = LooksFor::mark;
  double beyond_m = 0;
  double seen_m = 0;  ///< of the end; 0: nothing to see
  double end_known = 1;  ///< by who has it in sight, before its own odds
  bool top = false;
  const ReadyLeg* leg = nullptr;  ///< of the card: ticks, line to meet, things alike; may be null
  bool goes_on = false;           ///< straight on from a turn: the same errors
};

class Walker {
 public:
  Walker(const World& world, const Ready& ready, const WalkRequest& request, std::size_t number,
         Sink sink);
  [[nodiscard]] Fate walk();

 private:
  // day.cpp
  Came do_leg(const ReadyLeg& leg, bool back);
  void begin_leg(const ReadyLeg& leg);
  void end_leg(const ReadyLeg& leg);
  void go_back(std::size_t ended_legs);
  void escape(const ReadyLeg& leg);
  void finish(State state);
  [[nodiscard]] bool goes_straight_on(std::size_t l) const;

  // step.cpp
  [[nodiscard]] Air air() const;
  [[nodiscard]] bool over() const { return over_; }
  void wait(double minutes);
  void step(GridPoint to, GridPoint believed, Surface surface, bool on_line);
  void go(GridPoint to, GridPoint believed, bool on_line, Surface surface);
  void walk_open(GridPoint to, GridPoint believed);
  void pass_time(double minutes, GridPoint from, GridPoint to, GridPoint thought_from,
                 GridPoint thought_to);
  void tread(GridPoint from, GridPoint to, bool on_line);
  void put_moment();
  [[nodiscard]] int tread_pieces(double length_m) const;
  [[nodiscard]] bool barred(GridPoint p) const;
  [[nodiscard]] std::optional<double> to_the_bank(GridPoint d) const;
  [[nodiscard]] GridPoint round_barred(GridPoint d, GridPoint& believed);
  void look(const GridPoint* line_there, const GridPoint* line_expected);
  void contradicts(double weight);
  [[nodiscard]] double own(double p) const;
  [[nodiscard]] double chance(sight::ChanceOf of, sight::KindClass kind) const {
    return own(world_.chance(air(), of, kind));
  }
  [[nodiscard]] double seen_today(double m) {
    return m * std::max(0.3, 1 + request_.truth.sight_log_sd * random_.normal());
  }
  [[nodiscard]] double map_error(GridPoint p, std::uint64_t salt) const;
  [[nodiscard]] bool luck(double p) { return random_.uniform() < p; }
  void sure(GridPoint believed);
  void went_wrong(Wrong wrong);
  void first_wrong(Wrong wrong);
  void knows_lost(bool does);
  [[nodiscard]] double spread_m() const;

  // needle.cpp
  Came needle(const Aim& aim);
  Came arrive(const Aim& aim);
  Came on_target(const Aim& aim, const reckoning::AtLine& end, double along_m);
  Came search(const Aim& aim);
  void go_up();
  struct Stretch {
    double from_m = 0, to_m = 0;
  };
  void check_ticks(const ReadyLeg& leg, double counted_m, double sd_m,
                   const std::optional<Stretch>& own_line);

  // line.cpp
  /// How far it has come on a line, in truth and by its count.
  struct OnLeg {
    double at_m = 0, counted_m = 0;
  };
  /// How a piece off the leg's own line ends.
  enum class Off : unsigned char { rejoined, ended, lost, over };
  Came along(const ReadyLeg& leg, double counted_m = 0);
  Off onto_line(const ReadyLeg& leg, OnLeg& on);
  Off off_line(const ReadyLeg& leg, OnLeg& on);
  Off wrong_arm(const ReadyLeg& leg, Way1 way, double on_edge_m, OnLeg& on);
  Came past_end(const ReadyLeg& leg, OnLeg& on);
  Came ended_by_count(const ReadyLeg& leg);
  [[nodiscard]] bool taken_for_end(const ReadyLeg& leg, std::size_t like, double counted_m,
                                   double length_m, double sd_m);
  void edge_step(const ReadyLeg& leg, Way1 way, double& on_edge_m, double by, OnLeg& on);
  [[nodiscard]] std::optional<Way1> straight_on(Way1 way) const;
  [[nodiscard]] int takes_arm(const ReadyLeg& leg, const Fork& fork, bool surely_looks);
  void retrace(Surface surface);
  [[nodiscard]] double counts() const { return std::max(1 + stride_ + length_error_, 0.2); }

  // lost.cpp
  Came find_again(const ReadyLeg& leg, bool back);
  [[nodiscard]] double relocate();
  void tell(std::vector<sight::Report>& reports);
  Came to_place(GridPoint to, const ReadyLeg* leg);
  Came to_stop(const ReadyLeg& leg);
  Came to_any_line();
  Came until_line(GridPoint to, std::optional<mapdata::Kind> kind, double most_m);
  [[nodiscard]] bool open_to(GridPoint to) const;

  const World& world_;
  const Ready& ready_;
  const WalkRequest& request_;
  Sink sink_;
  numeric::Random random_;
  // its own, drawn once
  double compass_ = 0, stride_ = 0, slowness_ = 1, know_odds_ = 1, owns_up_ = 0.5, doubt_ = 1;
  double height_off_ = 0, steeper_deg_ = 0, enough_ = 0.5;
  std::uint64_t map_seed_ = 0;
  // where it is and where it believes to be
  GridPoint at_, believed_, sure_;
  double minutes_ = 0, height_ = 0, since_sure_m_ = 0, sure_min_ = 0, climbed_ = 0,
         climb_scale_ = 0;
  double start_sd_m_ = 5;
  double since_look_m_ = 0, doubt_score_ = 0;
  bool over_ = false, noticed_ = false, knows_lost_ = false;
  State state_ = State::on_the_way;
  std::size_t leg_ = 0;
  std::int16_t lost_on_ = -1;
  std::size_t next_moment_ = 0;
  double horizon_ = 0;
  double bearing_error_ = 0, length_error_ = 0;  // of the leg under way
  std::size_t last_cell_ = static_cast<std::size_t>(-1);
  int round_side_ = 0;
  double round_left_m_ = 0;
  bool unaware_here_ = false;  // goes on through what it has not seen
  GridPoint last_open_;
  std::vector<bool> ticked_, tick_looked_;
  double ticked_at_ = -1;  // along the leg; below 0: nothing new
  GridPoint trail_from_;   // where the last step began
  std::vector<GridPoint> trail_;
  bool keeps_trail_ = false;
  std::vector<LineMet> met_;
  double leg_began_ = 0;
  Fate fate_;
  LegStory* story_ = nullptr;
  LegStory nowhere_;
  walking::TimeBands bands_;                  // how its times lie about the model's,
  double day_slowness_ = 1, leg_log_ = 0;     // all day, and what the leg adds (logarithm)
};

}  // namespace lodeway::walkers::detail
