#include "lodeway/reckoning/rehearsal/rehearsed_walk.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/reckoning/judge/counted_from.hpp"
#include "lodeway/reckoning/rehearsal/leg_end.hpp"
#include "lodeway/reckoning/ends/line_target.hpp"

namespace lodeway::reckoning {

namespace {
constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
constexpr double computed_step_m = 25;  // heights are looked up at least so often

/// A walker's own figures, drawn once.
struct Walker {
  numeric::Random random;
  GridPoint at;                           ///< where it really is
  double compass = 0, stride = 0;         ///< shared errors: radians, fraction
  double slowness = 1;  ///< minutes for one of the party's middle minutes, all day
  double leg_log = 0;   ///< logarithm of what the leg under way adds to that,
  double pace = 1;      ///< and both together
  double leg_bearing = 0, leg_scale = 0;  ///< of the leg under way: as long as it goes straight on
  double minutes = 0;
  bool kept_all = true, hazard = false, turned_back = false;
  bool kept_last = true;    ///< the leg before this one
  bool off_ground = false;  ///< was where no height is known
};

class Block {
 public:
  Block(const Stage& stage, Tally& tally)
      : s_(stage), tally_(tally), errors_(stage.judge.errors()), habits_(stage.judge.habits()),
        bands_(walking::bands_of(stage.judge.party())) {}

  void walk(std::size_t first, std::size_t count, std::size_t stride, std::span<double> minutes,
            std::span<float> leg_minutes) {
    first_ = first;
    start(first, count);
    for (std::size_t l = 0; l < s_.legs.size(); ++l) {
      const LegModel& m = s_.models[l];
      set_paces();
      if (s_.skip[l])
        pass_over(l, m);
      else if (const auto* handrail = std::get_if<ByHandrail>(&m.end))
        along(l, m, *handrail);
      else
        bearing(l, m);
      for (std::size_t i = 0; i < count; ++i)
        leg_minutes[l * stride + first + i] = static_cast<float>(spent_[i]);
    }
    for (std::size_t i = 0; i < count; ++i) {
      const Walker& w = walkers_[i];
      minutes[first + i] = w.turned_back ? nothing : w.minutes;
      tally_.kept_all += w.kept_all ? 1 : 0;
      tally_.hazard += w.hazard ? 1 : 0;
      tally_.turned_back += w.turned_back ? 1 : 0;
      tally_.off_ground += w.off_ground ? 1 : 0;
    }
  }

 private:
  void start(std::size_t first, std::size_t count) {
    walkers_.clear();
    lanes_ = Walkers(count);
    spent_.assign(count, nothing);
    for (std::size_t i = 0; i < count; ++i) {
      Walker w{.random = numeric::Random(s_.seed, first + i), .at = {}};
      lanes_.seed(i, s_.seed ^ 0x5851f42d4c957f2dU, first + i);
      w.compass =
          w.random.normal() * std::hypot(errors_.compass_sigma, s_.judge.declination_sigma());
      w.stride = w.random.normal() * errors_.stride_sigma;
      w.slowness = std::exp(bands_.shared * w.random.normal());
      w.leg_log = bands_.leg * w.random.normal();
      at_fix(w, s_.models.front().from);
      walkers_.push_back(w);
    }
  }

  /// How fast each goes on the next leg: neighbouring legs are alike, as the bands say.
  void set_paces() {
    const double new_share = std::sqrt(1 - bands_.neighbours * bands_.neighbours);
    for (Walker& w : walkers_) {
      w.leg_log = bands_.neighbours * w.leg_log + new_share * bands_.leg * w.random.normal();
      w.pace = w.slowness * std::exp(w.leg_log);
    }
  }

  void at_fix(Walker& w, GridPoint place) const {
    w.at.east_m = place.east_m + habits_.fix_sigma_m * w.random.normal();
    w.at.north_m = place.north_m + habits_.fix_sigma_m * w.random.normal();
  }

  /// No ground to walk on: everybody stands at the leg's end, in the card's time.
  void pass_over(std::size_t l, const LegModel& m) {
    for (std::size_t i = 0; i < walkers_.size(); ++i) {
      Walker& w = walkers_[i];
      spent_[i] = w.turned_back ? nothing : s_.card_minutes[l] * w.pace;
      if (w.turned_back) continue;
      w.minutes += spent_[i];
      w.kept_last = true;
      at_fix(w, m.to);
    }
  }

  /// From the last thing that this party has noticed on the line, or from its start.
  static double since_noticed(const std::vector<CountedFrom>& counts, numeric::Random& random) {
    double pick = random.uniform();
    for (const auto& from : counts) {
      pick -= from.chance;
      if (pick < 0) return from.since_m;
    }
    return counts.back().since_m;
  }

  /// A handrail: the line is kept or not, then the end is known in passing or by the count.
  void along(std::size_t l, const LegModel& m, const ByHandrail& end) {
    const walking::Leg& leg = s_.legs[l];
    const double pace = leg.figures.length_m > 0 ? leg.figures.minutes / leg.figures.length_m : 0;
    const auto counts = counted_from(s_.judge, leg, m.length_m);
    std::vector<std::vector<CountedFrom>> at_decoys;
    for (const DecoyPlace& d : m.decoys)
      at_decoys.push_back(counted_from(s_.judge, leg, m.length_m, 0, d.along_m));
    for (std::size_t i = 0; i < walkers_.size(); ++i) {
      Walker& w = walkers_[i];
      if (w.turned_back) {
        spent_[i] = nothing;
        continue;
      }
      const bool keeps = w.random.uniform() < end.keeps;
      const double scale = w.stride + errors_.distance_sigma * w.random.normal();
      const double since = end.mark ? end.since_tick_m : since_noticed(counts, w.random);
      const double off =
          since * scale + std::sqrt(since) * errors_.distance_random * w.random.normal();
      const bool known = w.random.uniform() < (end.mark ? end.mark->recognised : 0.0);
      LegEnd out;
      out.minutes = leg.figures.minutes;
      out.at = m.to;
      const bool counted = end.goes_on ? std::abs(off) < end.window_m : off > -end.window_m;
      out.kept = keeps && (end.mark ? known || !end.goes_on : counted);
      out.loss = keeps ? Loss::overshot : Loss::line_lost;
      out.recovery = habits_.doubt_min + 2 * (keeps ? std::abs(off) : 0.25 * m.length_m) * pace;
      // something on the line taken for its end: nearer to it by the count than to where it is
      for (std::size_t k = 0; k < m.decoys.size(); ++k) {
        const DecoyPlace& d = m.decoys[k];
        const double run = since_noticed(at_decoys[k], w.random),
                     apart = m.length_m - d.along_m,
                     more = run * scale +
                            std::sqrt(run) * errors_.distance_random * w.random.normal();
        const bool looks_so = w.random.uniform() < d.recognised * d.looks_alike;
        if (!looks_so || more < 0.5 * apart || !out.kept) continue;
        out.kept = false;
        out.loss = Loss::mistaken;
        out.recovery = habits_.doubt_min + apart * pace;
      }
      follow_line(i, leg);
      finish(i, l, out);
      if (!end.mark && !w.turned_back && out.kept) {
        const double there = end.goes_on ? off : std::min(off, 0.0);
        const double lie = mapdata::direction_at(leg.course.line, m.length_m).in_radians();
        w.at = w.at + GridPoint{there * std::sin(lie), there * std::cos(lie)};
      }
    }
  }

  void bearing(std::size_t l, const LegModel& m) {
    const walking::Leg& leg = s_.legs[l];
    const terrain::Frame& f = s_.ground.elevation.frame();
    const double reach = m.length_m + beyond_m(m.end);
    const double sighting =
        m.length_m / std::max(1.0, std::round(m.length_m / errors_.sighting_every_m));
    const int hold = std::max(1, static_cast<int>(std::ceil(sighting / computed_step_m)));
    const double step = sighting / hold;
    WalkPlan plan;
    plan.steps = static_cast<int>(std::ceil(reach / step - 1e-6));
    plan.step_m = static_cast<float>(step);
    plan.hold = hold;
    // whole sightings, a little longer or shorter than the party's: their wandering is the party's
    plan.sighting_sigma =
        static_cast<float>(errors_.sighting_sigma *
                           std::sqrt(std::min(errors_.sighting_every_m, m.length_m) / sighting));
    plan.noise_m = static_cast<float>(errors_.distance_random * std::sqrt(sighting));
    plan.pace_s_per_m = s_.pace[l];
    for (std::size_t i = 0; i < walkers_.size(); ++i) {
      Walker& w = walkers_[i];
      if (!goes_on(l)) {
        w.leg_bearing = errors_.bearing_sigma * w.random.normal() + gross_error(w.random);
        w.leg_scale = errors_.distance_sigma * w.random.normal();
      }
      const double b = m.bearing.in_radians() + w.compass + w.leg_bearing;
      lanes_.col[i] = static_cast<float>(f.col_of(w.at));
      lanes_.row[i] = static_cast<float>(f.row_of(w.at));
      lanes_.east[i] = static_cast<float>(std::sin(b));
      lanes_.north[i] = static_cast<float>(std::cos(b));
      lanes_.scale[i] = static_cast<float>(std::max(1 + w.stride + w.leg_scale, 0.05));
      lanes_.seconds[i] = 0;
    }
    reckoning::walk(s_.ground.elevation, plan, lanes_, &trace_);
    LookOut look_out(s_.judge, leg, m, step, plan.steps);
    const auto* on_line = std::get_if<AtLine>(&m.end);
    for (std::size_t i = 0; i < walkers_.size(); ++i) {
      if (walkers_[i].turned_back) {
        spent_[i] = nothing;
        continue;
      }
      const Path path(f, trace_, lanes_.padded, i);
      const LegEnd out = look_out.end_of(path, walkers_[i].random);
      foot(i, l, path, out);
      follow_path(i, path, out);
      finish(i, l, out);
      if (nothing_to_see(m.end)) walkers_[i].at = out.at;
      if (on_line != nullptr && !on_line->mark && out.kept)
        at_fix(walkers_[i], out.at);  // somewhere on the line
    }
  }

  /// Of the leg's bearing, radians: mostly none.
  [[nodiscard]] double gross_error(numeric::Random& random) const {
    constexpr double degree = std::numbers::pi / 180;
    const double chance = s_.judge.guides().chances().of(sight::Setting::gross_error);
    const double pick = random.uniform(), size = random.uniform(), side = random.uniform();
    if (pick >= chance) return 0;
    return (side < 0.5 ? -1 : 1) * degree *
           (sight::gross_least_deg + (sight::gross_most_deg - sight::gross_least_deg) * size);
  }

  /// Straight on from a turn without a fix: for the party it is one and the same leg.
  [[nodiscard]] bool goes_on(std::size_t l) const {
    if (l == 0 || !nothing_to_see(s_.models[l - 1].end)) return false;
    const GridPoint a = s_.models[l - 1].to - s_.models[l - 1].from,
                    b = s_.models[l].to - s_.models[l].from;
    return std::abs(std::atan2(a.east_m * b.north_m - a.north_m * b.east_m,
                               a.east_m * b.east_m + a.north_m * b.north_m)) <= 1e-6;
  }

  /// Counts the leg; those who lost it find the end again, try once more from its start, or turn
  /// back.
  void finish(std::size_t i, std::size_t l, const LegEnd& out) {
    Walker& w = walkers_[i];
    const LegModel& m = s_.models[l];
    RehearsedLeg& leg = tally_.legs[l];
    ++leg.walkers;
    leg.walkers_on_course += w.kept_last ? 1 : 0;
    double spent = out.minutes;
    if (out.kept) {
      ++leg.kept;
      leg.kept_on_course += w.kept_last ? 1 : 0;
    } else {
      w.kept_all = false;
      ++leg.lost[static_cast<std::size_t>(out.loss)];
      if (!std::isnan(out.recovery)) {
        spent += out.recovery;
      } else {
        spent += habits_.doubt_min + earth::grid_distance_m(out.at, m.from) *
                                         rehearsed_pace(s_.legs[l], s_.judge.party());
        spent += s_.card_minutes[l];
        w.turned_back = w.random.uniform() >= m.certainty;
      }
    }
    w.kept_last = out.kept;
    if (!nothing_to_see(m.end)) at_fix(w, m.to);
    spent_[i] = spent * w.pace;
    w.minutes += spent_[i];
    if (Trail* trail = trail_of(i)) {
      if (!out.kept && trail->lost_on_leg < 0) trail->lost_on_leg = static_cast<int>(l);
      const GridPoint found = nothing_to_see(m.end) ? out.at : w.at;
      trail->points.push_back({w.minutes, w.turned_back ? m.from : found});
    }
  }

  /// Null for all but the first walkers of the first block.
  [[nodiscard]] Trail* trail_of(std::size_t i) {
    return first_ + i < tally_.trails.size() ? &tally_.trails[first_ + i] : nullptr;
  }

  void follow_line(std::size_t i, const walking::Leg& leg) {
    Trail* trail = trail_of(i);
    if (trail == nullptr) return;
    const double all_m = mapdata::length_m(leg.course.line);
    double run = 0;
    for (std::size_t k = 0; k < leg.course.line.size(); ++k) {
      if (k > 0) run += earth::grid_distance_m(leg.course.line[k - 1], leg.course.line[k]);
      const double share = all_m > 0 ? run / all_m : 1;
      trail->points.push_back(
          {walkers_[i].minutes + share * leg.figures.minutes * walkers_[i].pace,
           leg.course.line[k]});
    }
  }

  void follow_path(std::size_t i, const Path& path, const LegEnd& end) {
    Trail* trail = trail_of(i);
    if (trail == nullptr) return;
    const Walker& w = walkers_[i];
    const auto put = [&](double seconds, GridPoint at) {
      trail->points.push_back({w.minutes + seconds / 60 * w.pace, at});
    };
    put(0, path.at(0));
    for (int k = 0; k < end.steps; ++k) {
      const double part = k + 1 == end.steps ? end.part : 1;
      put(path.seconds(k, part), path.between(k, part));
    }
  }

  /// Marks the cells that were trodden, and whether one of them was forbidden.
  void foot(std::size_t i, std::size_t l, const Path& path, const LegEnd& end) {
    const Forbidden& forbidden = s_.judge.forbidden();
    const terrain::Elevation& heights = s_.ground.elevation;
    const terrain::Frame& f = forbidden.frame();
    const double stride = forbidden.empty() ? 10.0 : 0.5 * f.cell_m;
    bool trod = false;
    std::size_t before = std::numeric_limits<std::size_t>::max();
    GridPoint from = path.at(0);
    for (int k = 0; k < end.steps; ++k) {
      const GridPoint to = path.at(k + 1);
      const double share = k + 1 == end.steps ? end.part : 1.0,
                   length = earth::grid_distance_m(from, to) * share;
      const int pieces = std::max(1, static_cast<int>(std::ceil(length / stride)));
      for (int p = 1; p <= pieces; ++p) {
        const GridPoint here = from + (share * p / pieces) * (to - from);
        const auto [row, col] = f.cell_of(here);
        if (!trod && f.holds(row, col) && forbidden[row, col] != 0) trod = true;
        const auto [hr, hc] = heights.frame().cell_of(here);
        if (!heights.frame().holds(hr, hc) || !terrain::is_height(heights[hr, hc]))
          walkers_[i].off_ground = true;
        const auto [r, c] = s_.strayed.cell_of(here);
        if (!s_.strayed.holds(r, c)) continue;
        const std::size_t cell =
            static_cast<std::size_t>(r) * static_cast<std::size_t>(s_.strayed.cols) +
            static_cast<std::size_t>(c);
        if (cell != before) ++tally_.strayed[cell];
        before = cell;
      }
      from = to;
    }
    if (trod) {
      walkers_[i].hazard = true;
      ++tally_.legs[l].hazard;
    }
  }

  const Stage& s_;
  Tally& tally_;
  const Errors& errors_;
  const Habits& habits_;
  const walking::TimeBands bands_;
  std::size_t first_ = 0;  ///< number of the first walker at hand
  std::vector<Walker> walkers_;
  Walkers lanes_{0};
  Trace trace_;
  std::vector<double> spent_;
};
}  // namespace

void walk_block(const Stage& stage, std::size_t first, std::size_t count, std::size_t stride,
                std::span<double> minutes, std::span<float> leg_minutes, Tally& tally) {
  constexpr std::size_t at_once = 1024;  // a trace then stays in the second cache
  Block block(stage, tally);
  for (std::size_t done = 0; done < count; done += at_once)
    block.walk(first + done, std::min(at_once, count - done), stride, minutes, leg_minutes);
}

}  // namespace lodeway::reckoning
