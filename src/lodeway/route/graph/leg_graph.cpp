#include "lodeway/route/graph/leg_graph.hpp"

#include <algorithm>
#include <span>
#include <cmath>
#include <iterator>
#include <numbers>
#include <optional>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/route/legs/open_stretch.hpp"
#include "lodeway/route/legs/under_wires.hpp"
#include "lodeway/route/legs/wades.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::route {

using earth::GridPoint;
using mapdata::Kind;
using walking::Waypoint;

LegGraph::LegGraph(const Seeking& seeking, const Waypoint& from, const Waypoint& to,
                   std::shared_ptr<Gathered> before)
    : seeking_(seeking),
      from_(from),
      to_(to),
      first_(static_cast<std::uint32_t>(seeking.lines.fixes.all().size())),
      have_(std::move(before)) {}

GridPoint LegGraph::at(std::uint32_t place) const {
  if (place == first()) return from_.at;
  if (place == last()) return to_.at;
  if (place < first_) return seeking_.lines.fixes[place].at;
  if (place >= first_met()) return have_->met[place - first_met()];
  return seeking_.lines.spots[seeking_.lines.end(place - first_ - 2)].at;
}

std::string LegGraph::name(std::uint32_t place) const {
  if (place == first()) return from_.name;
  if (place == last()) return to_.name;
  if (place > last()) return {};
  return landmarks::words(seeking_.lines.fixes[place], seeking_.wishes.language);
}

bool LegGraph::inside(GridPoint p, double reach_m) const {
  return earth::grid_distance_m(p, from_.at) + earth::grid_distance_m(p, to_.at) <= reach_m;
}

LegGraph::Stand LegGraph::stand_at(std::uint32_t place) const {
  Stand out{place, at(place), false, 0, 0};
  if (const auto mark =
          seeking_.judge.guides().mark_at(out.at, seeking_.judge.habits().least_known)) {
    out.marked = true;
    out.seen_from_m = mark->seen_from_m;
    out.recognised = mark->recognised;
  }
  for (const auto& on : seeking_.judge.guides().lines_at(out.at)) {
    const auto kind = seeking_.judge.guides().line(on.line).label.kind;
    out.line_known = std::max(out.line_known, seeking_.judge.guides().noticed(kind));
  }
  out.most_m = most_m_to(out);
  return out;
}

double LegGraph::line_s(const std::vector<GridPoint>& line, double own_factor) const {
  const auto& c = seeking_.cutting;
  const auto& cover = c.prepared.cover;
  const double most = 2.5 * cover.frame().cell_m;
  double seconds = 0, before = terrain::height_at(c.ground.elevation, line.front());
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double length = earth::grid_distance_m(line[i - 1], line[i]);
    const int steps = std::max(1, static_cast<int>(std::ceil(length / most)));
    for (int k = 1; k <= steps && length > 0; ++k) {
      const auto p = line[i - 1] + (static_cast<double>(k) / steps) * (line[i] - line[i - 1]);
      const double z = terrain::height_at(c.ground.elevation, p), rise = z - before;
      const auto [row, col] = cover.frame().cell_of(p);
      double factor =
          cover.frame().holds(row, col) ? static_cast<double>(cover.factor(row, col)) : 1.0;
      factor = own_factor < 0 ? -own_factor : std::min(factor, own_factor);
      seconds += static_cast<double>(c.prepared.pace.step_s(
          static_cast<float>(length / steps), std::isfinite(rise) ? static_cast<float>(rise) : 0.0F,
          static_cast<float>(1 / std::max(factor, 0.05))));
      if (std::isfinite(z)) before = z;
    }
  }
  return walking::bands_of(c.request.party).centre * seconds;
}

LegGraph::RunCost LegGraph::run_cost(std::uint32_t run, double from_m, double to_m) const {
  const auto& c = seeking_.cutting;
  const auto& label = seeking_.lines.label(run);
  RunCost out;
  if (label.kind == Kind::railway || label.kind == Kind::river) return out;
  const auto points = seeking_.lines.points(run, from_m, to_m);
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (along_bar(c, label.kind, points[i - 1], points[i]).bar != walking::Bar::none) return out;
  }
  const auto& traits = c.ground.kinds[label.kind];
  out.open = true;
  out.seconds =
      line_s(points, walking::is_path(label.kind) ? -traits.speed_factor : traits.speed_factor);
  const double keeps = reckoning::keeps_line(
      seeking_.judge.guides().chances().of(sight::ChanceOf::stay, label.kind),
      std::abs(to_m - from_m));
  out.loss = -std::log(std::max(keeps, 1e-6));
  out.seconds *= counts_times(walking::LegKind::along, label.kind);
  // who loses it goes back as far as this
  out.seconds += (1 - keeps) * (60 * seeking_.judge.habits().doubt_min + 2 * out.seconds);
  walking::Course course;
  course.kind = walking::LegKind::along;
  course.followed.kind = label.kind;
  course.line = points;
  out.seconds += wading_s(c, course);
  return out;
}

double LegGraph::branch_loss(std::uint32_t run, std::uint32_t next) const {
  const auto& lines = seeking_.lines;
  const auto& chances = seeking_.judge.guides().chances();
  constexpr double look_m = 20;
  const double length = lines.pieces[run / 2].length_m;
  const auto way_of = [](const std::vector<GridPoint>& points) {
    return points.back() - points.front();
  };
  const auto come = way_of(lines.points(run, std::max(length - look_m, 0.0), length));
  const auto straight = [&](std::uint32_t arm) {
    const auto way =
        way_of(lines.points(arm, 0, std::min(look_m, lines.pieces[arm / 2].length_m)));
    const double lengths = earth::length_of(come) * earth::length_of(way);
    return reckoning::straightness(lengths > 0 ? mapdata::dot(come, way) / lengths : 1);
  };
  reckoning::ForkMet fork{straight(next), 0};
  for (const auto other : lines.spots[lines.end(run)].out) {
    if (other == next || other == (run ^ 1U)) continue;
    const double alike = landmarks::looks_alike(lines.label(other).kind, lines.label(run).kind);
    if (alike > 0) fork.arms += alike * straight(other);
  }
  return -std::log(reckoning::takes_right_branch(
      chances.of(sight::Setting::fork_attention),
      chances.of(sight::ChanceOf::branch, lines.label(run).kind), fork));
}

LegCost LegGraph::stop_cost(std::uint32_t run, double since_m, const Stand& stand) const {
  const auto& judge = seeking_.judge;
  const double sigma = reckoning::handrail_sigma_m(judge.errors(), since_m);
  const bool marked = stand.marked && stand.recognised >= judge.habits().least_fix;
  const double stops = marked ? stand.recognised
                              : reckoning::passes_within(sigma, 0, judge.habits().near_enough_m);
  const double back = 60 * judge.habits().doubt_min + 2 * have_->run_costs[run].seconds;
  return {(1 - stops) * back, -std::log(std::max(stops, 1e-6)), 0};
}

/// How far the count has run where a party stands `to_m` on `run`: since the last thing that a card
/// ticks off, or the start.
double LegGraph::since_m(std::uint32_t run, double to_m) const {
  const auto& lines = seeking_.lines;
  const auto& c = seeking_.cutting;
  const auto visibility = c.request.party.visibility;
  const double since = to_m < lines.pieces[run / 2].length_m
                           ? seeking_.since.at(c.around, run, to_m, visibility)
                           : seeking_.since.at_end(c.around, run, visibility);
  double sum = to_m;  // back to where the run begins
  for (std::optional<std::uint32_t> on = run; on; on = seeking_.since.before(*on)) {
    const double whole = lines.pieces[*on / 2].length_m;
    if (*on != run) sum += whole;
    const auto start = std::ranges::find(have_->start_on, *on / 2, &OnPiece::piece);
    if (start != have_->start_on.end()) {
      const double here = *on % 2 == 0 ? start->along_m : whole - start->along_m;
      if (sum >= here) return std::min(since, sum - here);
    }
    if (sum >= since) break;
  }
  return since;
}

void LegGraph::runs_between(std::vector<Candidate>& out) const {
  const auto& lines = seeking_.lines;
  for (const auto piece : have_->live_pieces) {
    for (const auto run : {2 * piece, 2 * piece + 1}) {
      const auto& cost = have_->run_costs[run];
      if (!cost.open) continue;
      const double length = lines.pieces[piece].length_m;
      const auto from = lines.spots[lines.start(run)].fix, to = lines.spots[lines.end(run)].fix;
      if (from != nothing && have_->stand_of[from] != nothing) {
        out.push_back({{from, run_place(run), {cost.seconds + leg_costs_s, cost.loss, 0}},
                       {Step::What::along, run, 0, length, {}}});
      }
      if (to != nothing && have_->stand_of[to] != nothing) {
        out.push_back(
            {{run_place(run), to, stop_cost(run, 0, have_->stands[have_->stand_of[to]])}, {}});
      }
      for (const auto next : lines.spots[lines.end(run)].out) {
        if (!have_->run_costs[next].open || !lines.goes_on(run, next)) continue;
        out.push_back({{run_place(run),
                        run_place(next),
                        {have_->run_costs[next].seconds,
                         have_->run_costs[next].loss + branch_loss(run, next), 0}},
                       {Step::What::along, next, 0, lines.pieces[next / 2].length_m, {}}});
      }
    }
  }
}

namespace {
constexpr std::size_t block = 64, at_once = 256;  // between two looks whether to go on
void in_blocks(numeric::Parallel& parallel, std::size_t count, const auto& one) {
  parallel.for_each_block((count + block - 1) / block, [&](std::size_t b) {
    for (std::size_t i = b * block; i < std::min(count, (b + 1) * block); ++i) one(i);
  });
}
}  // namespace

/// The places within the ellipse, and what leads along lines between them.
bool LegGraph::gather(double reach_m) {
  if (have_ && have_->reach_m == reach_m) return true;
  have_ = std::make_shared<Gathered>();
  auto& have = *have_;
  const auto& lines = seeking_.lines;
  have.reach_m = reach_m;
  have.stand_of.assign(first_ + 2, nothing);
  const auto& cover = seeking_.cutting.prepared.cover;
  for (std::uint32_t f = 0; f < first_; ++f) {
    const auto at = lines.fixes[f].at;
    if (!inside(at, reach_m) || cover.bar_at(at) == walking::Bar::outside) continue;
    have.live_fixes.push_back(f);
  }
  have.live_fixes.push_back(first());
  have.live_fixes.push_back(last());
  have.stands.resize(have.live_fixes.size());
  have.from_stand.resize(have.stands.size());
  have.looked.assign(have.stands.size(), 0);
  for (std::uint32_t i = 0; i < have.live_fixes.size(); ++i) have.stand_of[have.live_fixes[i]] = i;
  have.run_costs.assign(2 * lines.pieces.size(), {});
  for (std::uint32_t p = 0; p < lines.pieces.size(); ++p) {
    const auto& piece = lines.pieces[p];
    if (inside(lines.spots[piece.from].at, reach_m) || inside(lines.spots[piece.to].at, reach_m)) {
      have.live_pieces.push_back(p);
    }
  }
  have.start_on = beside(from_.at);
  in_blocks(seeking_.parallel, have.stands.size(),
            [&](std::size_t i) { have.stands[i] = stand_at(have.live_fixes[i]); });
  if (seeking_.stopped()) return false;
  in_blocks(seeking_.parallel, have.live_pieces.size(), [&](std::size_t i) {
    for (const auto run : {2 * have.live_pieces[i], 2 * have.live_pieces[i] + 1}) {
      have.run_costs[run] = run_cost(run, 0, lines.pieces[run / 2].length_m);
    }
  });
  if (seeking_.stopped()) return false;
  runs_between(have.along);
  for (std::uint32_t i = 0; i < have.along.size(); ++i) {
    if (have.along[i].step.what == Step::What::stop) have.guessed_stops.push_back(i);
  }
  stand_on_lines(from_, true, have.along);
  stand_on_lines(to_, false, have.along);
  if (seeking_.stopped()) return false;
  find_detours();
  return true;
}

/// Legs that leave the lines from these stands, where they were not looked for before.
bool LegGraph::look_from(const std::vector<std::uint32_t>& stands) {
  auto& have = *have_;
  auto fresh = stands;
  std::erase_if(fresh, [&](std::uint32_t i) { return have.looked[i] != 0; });
  for (std::size_t done = 0; done < fresh.size(); done += at_once) {
    if (seeking_.stopped()) return false;
    const auto now = std::span(fresh).subspan(done, std::min(at_once, fresh.size() - done));
    in_blocks(seeking_.parallel, now.size(), [&](std::size_t k) {
      const auto i = now[k];
      if (have.stands[i].place == last()) return;
      bearings_from(have.stands[i], have.from_stand[i]);
      entries_from(have.stands[i], have.from_stand[i]);
    });
    for (const auto i : now) {
      number_met(have.from_stand[i]);
      have.looked[i] = 1;
    }
  }
  return true;
}

bool LegGraph::build(double reach_m) {
  reach_m_ = reach_m;
  arcs_.clear();
  steps_.clear();
  if (!gather(reach_m)) return false;
  std::vector<Candidate> all;
  if (!judge_best(all)) return false;
  std::vector<bool> is_met(have_->met.size(), false);  // others are left without a leg to them
  for (const auto& candidate : all) {
    if (candidate.arc.to >= first_met()) is_met[candidate.arc.to - first_met()] = true;
  }
  for (auto& candidate : all) {
    if (candidate.arc.cost.loss >= never_loss) continue;
    if (candidate.arc.from >= first_met()) {
      if (!is_met[candidate.arc.from - first_met()]) continue;
      const auto& step = candidate.step;  // so far its share of the whole run's
      const auto on = run_cost(step.run, step.from_m, step.to_m);
      candidate.arc.cost = {on.seconds + leg_costs_s, on.loss, 0};
    }
    arcs_.push_back(candidate.arc);
    steps_.push_back(std::move(candidate.step));
  }
  return true;
}

}  // namespace lodeway::route
