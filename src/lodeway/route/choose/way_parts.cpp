#include "lodeway/route/choose/way_parts.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include <fmt/format.h>

#include "lodeway/route/front/front_limits.hpp"
#include "lodeway/route/legs/plan_way.hpp"
#include "lodeway/units/text.hpp"
#include "lodeway/walking/course.hpp"
#include "lodeway/walking/long_leg.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Leg;
using walking::Waypoint;

constexpr double least_leg_m = 60;  // less along a line is no leg of its own; *practice*
constexpr double straight_on_deg = 50;  // round no corner, as Lines::goes_on has it

/// Ascending seconds, descending loss; of many the nearest alike are left out, the ends never.
void thin_out(std::vector<WholeWay>& ways) {
  std::ranges::stable_sort(ways, [](const WholeWay& a, const WholeWay& b) {
    return std::pair(a.cost.seconds, a.cost.loss) < std::pair(b.cost.seconds, b.cost.loss);
  });
  std::vector<WholeWay> kept;
  for (auto& way : ways) {
    if (kept.empty() || way.cost.loss < kept.back().cost.loss) kept.push_back(std::move(way));
  }
  if (kept.size() > WayParts::most_kept) {
    const double step = (kept.front().cost.loss - kept.back().cost.loss) / WayParts::most_kept;
    std::vector<WholeWay> fewer;
    for (std::size_t i = 0; i < kept.size(); ++i) {
      if (fewer.empty() || i + 1 == kept.size() ||
          fewer.back().cost.loss - kept[i].cost.loss >= step) {
        fewer.push_back(std::move(kept[i]));
      }
    }
    kept = std::move(fewer);
  }
  ways = std::move(kept);
}

/// A piece of a way, with the runs that it begins and ends with where it goes along a line.
struct Part {
  Piece piece;
  std::uint32_t first_run = nothing, last_run = nothing;
  double own_m = 0;       ///< of what it is called by
  std::string end = {};  ///< words; empty: whatever the map calls it
  [[nodiscard]] bool along() const { return piece.line != no_parent; }
  [[nodiscard]] double length_m() const { return mapdata::length_m(piece.points); }
};

/// Where `run` ends: does a line of this kind leave, beside the one that is taken, at less of a
/// turn than this?
bool forks(const Lines& lines, std::uint32_t run, std::uint32_t taken, mapdata::Kind kind,
           double turn_deg) {
  return std::ranges::any_of(lines.spots[lines.end(run)].out, [&](std::uint32_t other) {
    return other != (run ^ 1U) && other != taken && lines.label(other).kind == kind &&
           lines.turn_deg(run, other) < turn_deg;
  });
}

/// Does a road, track or path without a name become another of the three there, straight on, with
/// nothing else to follow, and are both together no long leg? Who follows it walks on, and half of them
/// would not see the place. A faint path may be lost where it begins.
bool changes_only(const Lines& lines, const Part& a, const Part& b) {
  const auto is_way = [](mapdata::Kind kind) {
    return walking::is_path(kind) && kind != mapdata::Kind::faint_path;
  };
  const auto &from = lines.label(a.last_run), &to = lines.label(b.first_run);
  return from.kind != to.kind && is_way(from.kind) && is_way(to.kind) && from.name.empty() &&
         to.name.empty() && lines.spots[lines.end(a.last_run)].out.size() == 2 &&
         lines.turn_deg(a.last_run, b.first_run) < straight_on_deg &&
         a.length_m() + b.length_m() <= walking::long_leg_m;
}

/// Legs along one thing that goes on are one piece: where it is long the cutting parts it, by what a
/// leg, its length and its end cost (cut_legs.cpp). A stop there is demanded only where the way
/// turns off from what goes straighter on. Of two things a stub of under `least_leg_m` goes with
/// what comes before it, else with what comes after; where the thing itself goes on only if the
/// stub's end is seen from there.
void join_stubs(const Lines& lines, const reckoning::Judge& judge, std::vector<Part>& parts) {
  const auto is_one = [&](std::size_t i) {  // with the one before it
    const auto &a = parts[i - 1], &b = parts[i];
    if (!a.along() || !b.along()) return false;
    const double shorter = std::min(a.length_m(), b.length_m());
    if (lines.goes_on(a.last_run, b.first_run)) {
      const double turn = lines.turn_deg(a.last_run, b.first_run);
      return shorter < least_leg_m ||
             !forks(lines, a.last_run, b.first_run, lines.label(b.first_run).kind, turn);
    }
    if (changes_only(lines, a, b)) return true;
    const bool b_goes = b.length_m() < least_leg_m;
    if (shorter >= least_leg_m || (!b_goes && i > 1 && parts[i - 2].along())) return false;
    const auto kind = lines.label(b_goes ? a.last_run : b.first_run).kind;
    if (!forks(lines, a.last_run, b.first_run, kind, 180)) return true;
    const auto mark = judge.guides().mark_at(b.piece.points.back(), judge.habits().least_fix);
    return mark && mark->seen_from_m >= b.length_m();
  };
  for (std::size_t i = 1; i < parts.size();) {
    if (!is_one(i)) {
      ++i;
      continue;
    }
    auto &a = parts[i - 1], &b = parts[i];
    if (lines.goes_on(a.last_run, b.first_run)) {
      a.own_m += b.own_m;
    } else if (changes_only(lines, a, b) ? b.own_m > a.own_m : b.length_m() >= least_leg_m) {
      a.piece.line = b.piece.line;
      a.own_m = b.own_m;
    }
    a.piece.points.insert(a.piece.points.end(), b.piece.points.begin() + 1, b.piece.points.end());
    a.last_run = b.last_run;
    a.end = std::move(b.end);
    parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

/// Why there is only the raster's line.
std::string no_guide_words(const WayParts::Ends& ends, const Wishes& wishes) {
  return fmt::format(
      fmt::runtime(
          wishes.language == units::Language::german
              ? "von {} nach {} ist zu wenig zu sehen für einen Weg, der von einem zum "
                "andern führt: es bleibt die zeitlich kürzeste Linie, in Abschnitte geteilt"
              : "from {} to {} there is too little to see for a way that leads from one "
                "thing to the next: what is left is the least-time line, cut into legs"),
      ends.from, ends.to);
}

}  // namespace

Workshop::Workshop(const LocalGround& local, const walking::Request& request, const Wishes& wishes,
                   numeric::Parallel& parallel, std::function<bool()> go_on)
    : met(local.met_by.of(local.ground, request, local.lines.slopes, parallel)),
      judge(local.ground, request.party, wishes.declination_sigma_deg, {}, met->hazards,
            local.lines.shared_fixes, local.taken),
      cutting{local.ground,    *met->prepared, local.around, request,
              wishes.language, &told,          met.get()},
      seeking{cutting, local.lines, local.since, judge, wishes, parallel, std::move(go_on)} {}

std::unique_ptr<LegGraph> graph_of(const Seeking& seeking, const Waypoint& from, const Waypoint& to,
                                   const std::function<bool(const Step&)>& left_out,
                                   std::shared_ptr<LegGraph::Gathered> before) {
  const double straight = earth::grid_distance_m(from.at, to.at);
  const auto& f = seeking.cutting.prepared.cover.frame();
  const double whole = 2 * std::hypot(f.rows * f.cell_m, f.cols * f.cell_m);
  auto graph = std::make_unique<LegGraph>(seeking, from, to, std::move(before));
  graph->leave_out(left_out);
  for (double reach = first_reach_m(straight); reach < 2 * whole; reach *= 2) {
    if (graph->build(reach)) return graph;
    if (seeking.stopped()) return nullptr;
  }
  return nullptr;
}

FrontProblem problem_of(const LegGraph& graph, const Wishes& wishes, const std::function<bool()>& go_on) {
  FrontProblem out;
  out.places = graph.places();
  out.arcs = graph.arcs();
  out.from = graph.first();
  out.to = graph.last();
  out.limits = limits_of(wishes);
  out.least_gain = 1e-4;
  out.go_on = go_on;
  return out;
}

WayPieces pieces_through(const Seeking& seeking, const LegGraph& graph, const FrontWay& way) {
  const auto& lines = seeking.lines;
  std::vector<Part> parts;
  bool on_line = false;  // the last piece is a line that goes on
  for (const auto arc : way.arcs) {
    const auto& step = graph.step(arc);
    const auto from = graph.arcs()[arc].from, to = graph.arcs()[arc].to;
    if (!step.points.empty()) parts.push_back({{no_parent, step.points}});
    if (step.run != nothing) {
      auto run = lines.points(step.run, step.from_m, step.to_m);
      if (on_line) {
        auto& last = parts.back();
        last.piece.points.insert(last.piece.points.end(), run.begin() + 1, run.end());
        last.last_run = step.run;
        last.own_m += mapdata::length_m(run);
      } else {
        if (step.points.empty()) run.front() = graph.at(from);
        const double m = mapdata::length_m(run);
        parts.push_back(
            {{lines.pieces[step.run / 2].line, std::move(run)}, step.run, step.run, m});
      }
    }
    on_line = graph.goes_on(to);
    if (on_line) continue;
    parts.back().piece.points.back() = graph.at(to);
    parts.back().end = graph.name(to);
  }
  join_stubs(lines, seeking.judge, parts);
  WayPieces out;
  for (auto& part : parts) {
    out.pieces.push_back(std::move(part.piece));
    out.ends.push_back(std::move(part.end));
  }
  return out;
}

std::vector<Leg> legs_through(const Seeking& seeking, const LegGraph& graph, const FrontWay& way,
                              const Waypoint& from_point, const Waypoint& to_point) {
  const auto [pieces, ends] = pieces_through(seeking, graph, way);
  auto out = legs_of(seeking.cutting, pieces, from_point.name, to_point.name);
  for (std::size_t i = 0, leg = 0; i < pieces.size(); ++i) {
    while (leg < out.size() && !(out[leg].course.line.back() == pieces[i].points.back())) ++leg;
    if (leg >= out.size()) break;
    if (ends[i].empty()) continue;
    out[leg].course.to = ends[i];
    if (leg + 1 < out.size()) out[leg + 1].course.from = ends[i];
  }
  return out;
}

Missed missed_by(const reckoning::JudgedWay& way, const Wishes& wishes) {
  Missed out;
  for (const auto& leg : way.legs) {
    out.certainty = out.certainty || wishes.min_certainty - leg.judged.certainty > chance_rounding;
    out.hazard = out.hazard || leg.judged.hazard_probability - wishes.most_hazard > chance_rounding;
  }
  return out;
}

Result<void> WayParts::fixed(Stretch& stretch) const {
  const auto& c = seeking_.cutting;
  auto legs = given_stretch(c, stretch.from, stretch.to);
  if (!legs) return std::unexpected(legs.error());
  LegCost cost;
  const auto way = reckoning::Teller(seeking_.judge, c.language).judged({"", *legs});
  for (const auto& leg : way.legs) {
    const auto& s = leg.judged;
    cost.seconds += 60 * (s.minutes + (1 - s.certainty) * s.recovery_minutes);
    cost.loss -= std::log(std::max(s.certainty, 1e-9));
    cost.hazard = std::max(cost.hazard, s.hazard_probability);
  }
  stretch.missed = missed_by(way, seeking_.wishes);
  stretch.costs = {cost};
  stretch.legs = {*std::move(legs)};
  return {};
}

Result<void> WayParts::search(Stretch& stretch, std::vector<std::string>& remarks) {
  const auto& c = seeking_.cutting;
  for (const auto* point : {&stretch.from, &stretch.to}) {
    if (const auto ok = check_place(c.prepared, *point); !ok) return std::unexpected(ok.error());
  }
  const Ends ends{stretch.from.name, stretch.to.name};
  const auto index = stretches_.size();
  stretch.graph = graph_of(seeking_, stretch.from, stretch.to, {},
                           before_ != nullptr ? before_->stretches_[index].gathered : nullptr);
  if (seeking_.stopped()) return fail(FaultCode::cancelled, "stopped");
  if (stretch.graph) stretch.gathered = stretch.graph->gathered();
  const double straight = earth::grid_distance_m(stretch.from.at, stretch.to.at);
  went_farther_ =
      went_farther_ || !stretch.graph || stretch.graph->reach_m() > first_reach_m(straight);
  if (!stretch.graph) {
    remarks.push_back(no_guide_words(ends, seeking_.wishes));
    return fixed(stretch);
  }
  auto problem = problem_of(*stretch.graph, seeking_.wishes, seeking_.go_on);
  auto front = find_front_soon(problem);
  if (front && front->ways.empty()) {
    const auto nearest = nearest_to_limits(problem);
    if (!nearest) return std::unexpected(nearest.error());
    if (*nearest) {
      // what can be kept is kept: only the limits that are missed are left out
      for (const auto& missed : (*nearest)->missed) {
        const bool certainty = missed.which == Limit::leg_loss;
        (certainty ? stretch.missed.certainty : stretch.missed.hazard) = true;
        (certainty ? problem.limits.leg_loss : problem.limits.leg_hazard) = no_limit;
      }
      front = find_front_soon(problem);
    }
  }
  if (!front) return std::unexpected(front.error());
  if (front->ways.empty()) {
    stretch.graph.reset();
    remarks.push_back(no_guide_words(ends, seeking_.wishes));
    return fixed(stretch);
  }
  for (const auto& way : front->ways) stretch.costs.push_back(way.cost);
  stretch.ways = std::move(front->ways);
  return {};
}

Result<void> WayParts::add(const Waypoint& from, const Waypoint& to,
                           std::vector<std::string>& remarks) {
  Stretch stretch;
  stretch.from = from;
  stretch.to = to;
  const bool find =
      to.stretch == walking::Stretch::find && earth::grid_distance_m(from.at, to.at) >= 1;
  const auto done = find ? search(stretch, remarks) : fixed(stretch);
  if (!done) return std::unexpected(done.error());
  auto& missed = find ? missed_ : given_missed_;
  missed.certainty = missed.certainty || stretch.missed.certainty;
  missed.hazard = missed.hazard || stretch.missed.hazard;
  join(stretch);
  stretches_.push_back(std::move(stretch));
  return {};
}

void WayParts::join(const Stretch& stretch) {
  if (stretches_.empty()) front_ = {{}};
  std::vector<WholeWay> all;
  for (const auto& whole : front_) {
    for (std::uint32_t k = 0; k < stretch.costs.size(); ++k) {
      auto more = whole;
      const auto& cost = stretch.costs[k];
      more.cost.seconds += cost.seconds;
      more.cost.loss += cost.loss;
      more.cost.hazard += cost.hazard;
      more.taken.push_back(k);
      all.push_back(std::move(more));
    }
  }
  thin_out(all);
  front_ = std::move(all);
}

std::vector<Piece> WayParts::pieces(std::size_t index) const {
  std::vector<Piece> out;
  for (std::size_t s = 0; s < stretches_.size(); ++s) {
    const auto& part = stretches_[s];
    if (!part.graph) continue;
    auto more = pieces_through(seeking_, *part.graph, part.ways[front_[index].taken[s]]);
    std::ranges::move(more.pieces, std::back_inserter(out));
  }
  return out;
}

walking::Way WayParts::way(std::size_t index) const {
  walking::Way out;
  for (std::size_t s = 0; s < stretches_.size(); ++s) {
    const auto& part = stretches_[s];
    const auto taken = front_[index].taken[s];
    auto more = part.graph
                    ? legs_through(seeking_, *part.graph, part.ways[taken], part.from, part.to)
                    : part.legs[taken];
    name_apart(more, seeking_.wishes.language);  // the leader's own places keep their names
    std::ranges::move(more, std::back_inserter(out.legs));
  }
  return out;
}

}  // namespace lodeway::route
