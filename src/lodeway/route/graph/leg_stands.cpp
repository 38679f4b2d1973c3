/// The leader's own places, joined to the lines at or beside them.
#include <algorithm>

#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"

namespace lodeway::route {

using earth::GridPoint;
using walking::Waypoint;

namespace {
constexpr double same_place_m = 25;  // a place this near to a fix is that fix; *practice*
}  // namespace

std::vector<LegGraph::OnPiece> LegGraph::beside(GridPoint at) const {
  const auto& lines = seeking_.lines;
  std::vector<OnPiece> out;
  for (const auto& on : lines.fixes.network().touch(at, beside_line_m)) {
    for (const auto piece : lines.pieces_of_edge[on.edge]) {
      const double along = on.along_m - lines.pieces[piece].from_m;
      if (along < 0 || along > lines.pieces[piece].length_m) continue;
      out.push_back({piece, along, on.away_m, on.at});
    }
  }
  return out;
}

/// At `spots`, which the place is taken for.
void LegGraph::join_at(const std::vector<std::uint32_t>& spots, const Waypoint& point, bool start,
                       double pace_s, std::vector<Candidate>& out) const {
  const auto& lines = seeking_.lines;
  const auto place = start ? first() : last();
  for (const auto spot : spots) {
    const double away = pace_s * earth::grid_distance_m(lines.spots[spot].at, point.at);
    for (const auto leaving : lines.spots[spot].out) {
      const auto run = start ? leaving : leaving ^ 1U;
      const auto& cost = have_->run_costs[run];
      if (!cost.open) continue;
      if (start) {
        out.push_back({{place, run_place(run), {cost.seconds + leg_costs_s + away, cost.loss, 0}},
                       {Step::What::along, run, 0, lines.pieces[run / 2].length_m, {}}});
      } else {
        auto stop = stop_cost(run, since_m(run, seeking_.lines.pieces[run / 2].length_m),
                              have_->stands[have_->stand_of[place]]);
        stop.seconds += away;
        out.push_back({{run_place(run), place, stop}, {}});
      }
    }
  }
}

/// From the start `away_s` off, `here_m` on a run, to the run's end.
void LegGraph::set_out(std::uint32_t run, double here_m, double away_s,
                       std::vector<Candidate>& out) const {
  const double length = seeking_.lines.pieces[run / 2].length_m;
  const auto cost = run_cost(run, here_m, length);
  out.push_back({{first(), run_place(run), {cost.seconds + leg_costs_s + away_s, cost.loss, 0}},
                 {Step::What::along, run, here_m, length, {}}});
}

/// To the end `away_s` off, `here_m` on a run: from the fix or the runs before it, and from the
/// start where that lies on the same piece.
void LegGraph::arrive(std::uint32_t run, double here_m, double away_s,
                      std::vector<Candidate>& out) const {
  const auto& lines = seeking_.lines;
  const auto& stand = have_->stands[have_->stand_of[last()]];
  const auto from = [&](std::uint32_t place, double from_m, double more_s, double more_loss) {
    const auto cost = run_cost(run, from_m, here_m);
    const auto stop = stop_cost(run, since_m(run, here_m), stand);
    out.push_back(
        {{place,
          last(),
          {cost.seconds + stop.seconds + away_s + more_s, cost.loss + stop.loss + more_loss, 0}},
         {Step::What::along, run, from_m, here_m, {}}});
  };
  const auto& spot = lines.spots[lines.start(run)];
  if (spot.fix != nothing && have_->stand_of[spot.fix] != nothing)
    from(spot.fix, 0, leg_costs_s, 0);
  for (const auto back : spot.out) {
    const auto before = back ^ 1U;
    if (have_->run_costs[before].open && lines.goes_on(before, run))
      from(run_place(before), 0, 0, branch_loss(before, run));
  }
  for (const auto& start : have_->start_on) {
    if (start.piece != run / 2) continue;
    const double length = lines.pieces[start.piece].length_m;
    const double there = run % 2 == 0 ? start.along_m : length - start.along_m;
    if (there < here_m) from(first(), there, leg_costs_s, 0);
  }
}

void LegGraph::stand_on_lines(const Waypoint& point, bool start,
                              std::vector<Candidate>& out) const {
  const auto& lines = seeking_.lines;
  std::vector<std::uint32_t> same;  // spots that the place is taken for
  for (const auto fix : lines.fixes.near(point.at, same_place_m)) {
    same.insert(same.end(), lines.spots_of_fix[fix].begin(), lines.spots_of_fix[fix].end());
  }
  const double pace_s = line_s({point.at, point.at + GridPoint{1, 0}}, 1.0);
  join_at(same, point, start, pace_s, out);
  const auto joined = [&](std::uint32_t spot, double away_m) {
    return away_m < same_place_m && std::ranges::find(same, spot) != same.end();
  };
  for (const auto& on : beside(point.at)) {
    const auto& p = lines.pieces[on.piece];
    if (joined(p.from, on.along_m) || joined(p.to, p.length_m - on.along_m)) continue;
    if (seeking_.cutting.prepared.cover.line_met(point.at, on.at).bar != walking::Bar::none)
      continue;
    for (const auto run : {2 * on.piece, 2 * on.piece + 1}) {
      if (!have_->run_costs[run].open) continue;
      const double here = run % 2 == 0 ? on.along_m : p.length_m - on.along_m;
      const double away = pace_s * on.away_m;
      start ? set_out(run, here, away, out) : arrive(run, here, away, out);
    }
  }
}

}  // namespace lodeway::route
