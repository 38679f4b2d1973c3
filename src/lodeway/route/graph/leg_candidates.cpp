/// Legs that leave the lines: which are worth looking at, and a first guess of what they cost.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"
#include "lodeway/route/legs/under_wires.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;

// All *practice*:
constexpr double least_leg_m = 80;  // no bearing is set for less
constexpr int sectors = 16;
constexpr std::size_t a_sector = 2;  // the best so many of a sector, and the nearest sure one
constexpr double sure_enough = 0.9;
constexpr std::size_t most_entries = 6;
constexpr double round_longer = 1.2, turned_loss = 1.5;  // guessed of legs round what bars
constexpr double box_step_m = 60, most_box_m = 480, keep_off_m = 40;
constexpr std::size_t most_boxed = 1;  // of a sector's targets
constexpr double never = no_limit;

}  // namespace

/// A guess, before a leg is judged, of how surely a stand is found from so far.
double LegGraph::likely(const Stand& to, double length_m) const {
  const auto spread = reckoning::single_leg_spread(seeking_.judge.errors(), length_m);
  const double sigma = std::sqrt(spread.cross_m2);
  double best = to.marked ? to.recognised * reckoning::passes_within(sigma, 0, to.seen_from_m) : 0;
  if (to.line_known > 0) {
    best = std::max(best, to.line_known * (to.marked ? 0.95 * to.recognised
                                                     : reckoning::passes_within(sigma, 0, 50)));
  }
  return best;
}

/// How far off a stand may be for a bearing to it: `likely` only falls with the distance. To 1 m,
/// on the far side.
double LegGraph::most_m_to(const Stand& stand) const {
  double near = 0, far = seeking_.cutting.request.party.max_leg_m;
  if (likely(stand, far) >= hopeless) return far;
  while (far - near > 1) {
    const double middle = 0.5 * (near + far);
    (likely(stand, middle) >= hopeless ? near : far) = middle;
  }
  return far;
}

/// What straight legs to a stand that is found so likely may cost, in the search's figures.
LegCost LegGraph::guess(double walk_s, std::size_t legs, double likely) const {
  const double again = 60 * seeking_.judge.habits().doubt_min + guessed_retry * walk_s;
  const double turned = legs > 1 ? turned_loss : 1;
  return {nothing_leads_counts * walk_s + static_cast<double>(legs) * leg_costs_s + nothing_leads_counts * (1 - likely) * again,
          turned * -std::log(std::max(likely, 1e-3)), 0};
}

void LegGraph::bearings_from(const Stand& stand, std::vector<Candidate>& out) const {
  const auto& c = seeking_.cutting;
  const double most_m = c.request.party.max_leg_m;
  struct Target {
    const Stand* stand;
    double length_m, likely, worth;
  };
  std::array<std::vector<Target>, sectors> by_sector;
  const auto consider = [&](const Stand& to, bool wanted) {
    const double length = earth::grid_distance_m(stand.at, to.at);
    if (length > (wanted ? most_m : to.most_m) || to.place == stand.place ||
        (length < least_leg_m && !wanted))
      return;
    if (length < 1) return;
    const double chance = likely(to, length);
    if (chance < hopeless && !wanted) return;
    const double angle =
        std::atan2(to.at.east_m - stand.at.east_m, to.at.north_m - stand.at.north_m);
    const auto sector = static_cast<std::size_t>(
        std::clamp(static_cast<int>((angle + std::numbers::pi) / (2 * std::numbers::pi) * sectors),
                   0, sectors - 1));
    const double worth = wanted ? never : length * std::pow(chance, 4);
    by_sector[sector].push_back({&to, length, chance, worth});
  };
  for (const auto f : seeking_.lines.fix_places.near_unsorted(stand.at, most_m)) {
    if (have_->stand_of[f] != nothing) consider(have_->stands[have_->stand_of[f]], false);
  }
  consider(have_->stands[have_->stand_of[last()]], true);
  const std::size_t most = stand.place == first() ? 3 * a_sector : a_sector;
  for (auto& targets : by_sector) {
    std::ranges::sort(targets, [](const Target& a, const Target& b) {
      return a.worth != b.worth ? a.worth > b.worth : a.stand->place < b.stand->place;
    });
    std::size_t taken = 0;
    const Target* near = nullptr;
    for (const auto& t : targets) {
      if (t.likely >= sure_enough && (near == nullptr || t.length_m < near->length_m)) near = &t;
    }
    std::size_t boxed = 0;
    for (const auto& t : targets) {
      if (t.worth < never && taken >= most && &t != near) continue;
      const bool clear = c.prepared.cover.clear(stand.at, t.stand->at);
      if (!clear && boxed >= most_boxed && t.worth < never) continue;
      ++(clear ? taken : boxed);
      std::vector<GridPoint> points{stand.at, t.stand->at};
      const double walk = (clear ? 1 : round_longer) * line_s(points, 1.0);
      out.push_back(
          {{stand.place, t.stand->place, guess(walk, clear ? 1 : 2, t.likely)},
           {clear ? Step::What::legs : Step::What::round, nothing, 0, 0, std::move(points)},
           t.likely});
    }
  }
}

/// A dog-leg round what bars the straight leg, on either side of it, as narrow as will do.
std::vector<std::vector<GridPoint>> LegGraph::gone_round(GridPoint a, GridPoint b) const {
  const auto& cover = seeking_.cutting.prepared.cover;
  const auto bar = cover.first_bar(a, b).at;
  std::vector<std::vector<GridPoint>> out;
  const double length = earth::grid_distance_m(a, b);
  const GridPoint on = (1 / length) * (b - a), right{on.north_m, -on.east_m};
  const auto clear = [&](GridPoint p, GridPoint q) { return cover.clear(p, q); };
  const double into = mapdata::dot(bar - a, on);
  for (const double side : {1.0, -1.0}) {
    bool found = false;
    for (double off = box_step_m; off <= std::min(most_box_m, 0.6 * length) && !found;
         off += box_step_m) {
      for (const double further : {0.5 * off, 1.5 * off}) {
        const auto turn = a + std::min(into + further, 0.9 * length) * on + side * off * right;
        if (cover.bar_at(turn) != walking::Bar::none || !clear(a, turn) || !clear(turn, b))
          continue;
        // a little more than is needed, for the party will not walk quite straight
        const auto wider = turn + side * keep_off_m * right;
        const bool room =
            cover.bar_at(wider) == walking::Bar::none && clear(a, wider) && clear(wider, b);
        out.push_back({a, room ? wider : turn, b});
        found = true;
        break;
      }
    }
  }
  return out;
}

void LegGraph::entries_from(const Stand& stand, std::vector<Candidate>& out) const {
  const auto& c = seeking_.cutting;
  const auto& lines = seeking_.lines;
  const double nearest = stand.place == first() ? beside_line_m : least_leg_m;
  const bool at_fix = stand.place < first_;
  const auto own = at_fix ? std::vector<Entry>() : lines.entries(stand.at);
  std::size_t taken = 0;
  for (const auto& entry : at_fix ? lines.entries_of_fix(stand.place) : own) {
    if (entry.away_m > c.request.party.max_leg_m || taken >= most_entries) break;
    const auto piece = entry.piece;
    if (entry.away_m < nearest) continue;
    if (!have_->run_costs[2 * piece].open && !have_->run_costs[2 * piece + 1].open) continue;
    if (!c.prepared.cover.clear(stand.at, entry.at)) continue;
    ++taken;
    const double known = seeking_.judge.guides().noticed(lines.label(2 * piece).kind);
    std::vector<GridPoint> points{stand.at, entry.at};
    const LegCost cost{nothing_leads_counts * line_s(points, 1.0) + leg_costs_s, -std::log(std::max(known, 1e-3)), 0};
    out.push_back(
        {{stand.place, nothing, cost}, {Step::What::legs, nothing, 0, 0, std::move(points)}});
    const double length = lines.pieces[piece].length_m;
    for (const auto run : {2 * piece, 2 * piece + 1}) {
      if (!have_->run_costs[run].open) continue;
      const double here = run % 2 == 0 ? entry.along_m : length - entry.along_m;
      const double share = 1 - here / length;
      const LegCost on{share * have_->run_costs[run].seconds + leg_costs_s,
                       share * have_->run_costs[run].loss, 0};
      out.push_back({{nothing, run_place(run), on}, {Step::What::along, run, here, length, {}}});
    }
  }
}

/// A place for each that `entries_from` found, which leaves it open.
void LegGraph::number_met(std::vector<Candidate>& all) {
  for (auto& candidate : all) {
    if (candidate.arc.to == nothing) {
      have_->met.push_back(candidate.step.points.back());
      candidate.arc.to = first_met() + static_cast<std::uint32_t>(have_->met.size()) - 1;
    } else if (candidate.arc.from == nothing) {
      candidate.arc.from = first_met() + static_cast<std::uint32_t>(have_->met.size()) - 1;
    }
  }
}

}  // namespace lodeway::route
