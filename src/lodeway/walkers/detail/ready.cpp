#include "lodeway/walkers/detail/ready.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/result/overloaded.hpp"
#include "lodeway/walkers/manner.hpp"

namespace lodeway::walkers::detail {

using walking::LegKind;

namespace {
constexpr double on_line_m = 5, arm_m = 20, arm_apart_m = 6, shared_look_m = 15;

sight::KindClass class_of_fix(const landmarks::Fix& fix) {
  using enum landmarks::FixSort;
  switch (fix.sort) {
    case junction:
    case crossing:
      return sight::KindClass::mark;
    default:
      return sight::class_of(fix.kind);
  }
}

GridPoint on_way(const World& world, Way1 way, double m) {
  const double length = world.net().edges()[way.edge].length_m;
  const double along = std::min(m, length);
  return world.on_edge(way.edge, way.forward ? along : length - along);
}

/// How likely somebody who does not look goes that way: straight on before turns.
double straightness(GridPoint come, GridPoint go) {
  const double c = 0.5 * (1 + mapdata::dot(come, go));
  return c * c;
}

void find_shared(const World& world, ReadyLeg& leg) {
  const auto& line = leg.card->leg.course.line;
  const auto edges = world.net().edges();
  double west = 1e300, east = -1e300, south = 1e300, north = -1e300;
  for (const GridPoint p : line) {
    west = std::min(west, p.east_m - on_line_m);
    east = std::max(east, p.east_m + on_line_m);
    south = std::min(south, p.north_m - on_line_m);
    north = std::max(north, p.north_m + on_line_m);
  }
  const auto inside = [&](GridPoint p) {
    return p.east_m >= west && p.east_m <= east && p.north_m >= south && p.north_m <= north;
  };
  const auto near = [&](GridPoint p) { return nearest_on(line, leg.at, p); };
  for (std::uint32_t e = 0; e < edges.size(); ++e) {
    const double length = edges[e].length_m;
    const auto& points = edges[e].points;
    const auto [w, o] = std::ranges::minmax(points, {}, &GridPoint::east_m);
    const auto [s, n] = std::ranges::minmax(points, {}, &GridPoint::north_m);
    if (o.east_m < west || w.east_m > east || n.north_m < south || s.north_m > north) continue;
    // on it where two of its inner places are: the leg may begin or end within the edge, and be a
    // small part of it
    const int pieces = std::max(10, static_cast<int>(length / shared_look_m));
    int on = 0;
    NearOn first{}, last{};
    double first_at = 0, last_at = 0;
    for (int k = 1; k < pieces; ++k) {
      const double at = length * k / pieces;
      const GridPoint p = world.on_edge(e, at);
      if (!inside(p)) continue;
      const auto found = near(p);
      if (found.away_m > on_line_m) continue;
      if (on++ == 0) {
        first = found;
        first_at = at;
      }
      last = found;
      last_at = at;
    }
    if (on < 2 || last_at <= first_at) continue;
    const double way = last.along_m >= first.along_m ? 1 : -1;
    leg.shared.push_back(
        {e, first.along_m - way * first_at, last.along_m + way * (length - last_at)});
  }
}

/// A leg that ends within an edge: the line goes on.
void find_past_end(ReadyLeg& leg) {
  for (const Shared& s : leg.shared) {
    const double first = std::min(s.from_m, s.to_m), last = std::max(s.from_m, s.to_m);
    if (first > leg.length_m() - 3 || last < leg.length_m() + 3) continue;
    leg.past_end = Way1{s.edge, s.to_m > s.from_m};
    leg.past_end_m = leg.length_m() - first;
  }
}

void find_forks(const World& world, ReadyLeg& leg, const ReadyLeg* before) {
  const auto& line = leg.card->leg.course.line;
  const auto nodes = world.net().nodes();
  const auto edges = world.net().edges();
  std::vector<std::uint32_t> seen;
  for (const Shared& s : leg.shared) {
    for (const auto n : {edges[s.edge].from, edges[s.edge].to}) seen.push_back(n);
  }
  std::ranges::sort(seen);
  seen.erase(std::unique(seen.begin(), seen.end()), seen.end());
  for (const std::uint32_t n : seen) {
    const auto at = nearest_on(line, leg.at, nodes[n].at);
    if (at.away_m > on_line_m) continue;
    const bool at_end = at.along_m > leg.length_m() - 3;
    const auto came_by = [&](GridPoint there) {
      return before != nullptr && at.along_m < 3 &&
             nearest_on(before->card->leg.course.line, before->at, there).away_m < arm_apart_m;
    };
    if (came_by(leg.place(arm_m))) continue;  // turned round: back by the arm that was just walked
    const GridPoint here = leg.place(at.along_m),
                    come =
                        at.along_m > 3 ? unit(here - leg.place(at.along_m - arm_m)) : leg.ahead(0),
                    on = at_end ? come : unit(leg.place(at.along_m + arm_m) - here);
    Fork fork{at.along_m, n, std::max(straightness(come, on), 0.02), 0, {}};
    double best = 0.25;
    auto own = nodes[n].edges;
    own.erase(std::unique(own.begin(), own.end()), own.end());
    for (const std::uint32_t e : own) {
      for (const bool forward : {true, false}) {
        if ((forward ? edges[e].from : edges[e].to) != n) continue;
        const Way1 way{e, forward};
        const GridPoint there = on_way(world, way, arm_m);
        const GridPoint away = there - nodes[n].at;
        if (earth::length_of(away) < 0.25 * arm_m) continue;
        if (nearest_on(line, leg.at, there).away_m < arm_apart_m) continue;
        if (came_by(there)) continue;
        const double alike =
            landmarks::looks_alike(world.kind_of(e), leg.card->leg.course.followed.kind);
        if (alike <= 0) continue;
        const double straight = straightness(come, unit(away));
        if (at_end) {
          if (straight > best) {
            best = straight;
            leg.past_end = way;
          }
          continue;
        }
        fork.arms.push_back({way, alike * std::max(straight, 0.02)});
        fork.arms_weight += fork.arms.back().weight;
      }
    }
    if (!fork.arms.empty()) leg.forks.push_back(std::move(fork));
  }
  std::ranges::sort(leg.forks, {}, &Fork::at_m);
}

/// The card names what is likeliest taken for the end.
void find_told(ReadyLeg& leg) {
  double most = 0;
  for (std::size_t k = 0; k < leg.alike.size(); ++k) {
    if (leg.alike[k].place.probability <= most) continue;
    most = leg.alike[k].place.probability;
    leg.told_alike = k;
  }
}

ReadyLeg ready_leg(const World& world, const CardLeg& card, const ReadyLeg* before) {
  ReadyLeg leg;
  leg.card = &card;
  leg.at = mapdata::distances_along(card.leg.course.line);
  if (card.leg.figures.length_m > 0) leg.tick_scale = leg.at.back() / card.leg.figures.length_m;
  const auto& model = card.model;
  const auto& guides = world.judge().guides();
  const auto day = static_cast<std::size_t>(world.visibility(Air::day)),
             dark = static_cast<std::size_t>(world.visibility(Air::dark));
  if (const auto* mark = reckoning::mark_of(model.end)) {
    const auto& fix = guides.fixes()[mark->fix];
    leg.end_known = {world.knows(Air::day, fix), world.knows(Air::dark, fix)};
    leg.end_is_top = fix.sort == landmarks::FixSort::summit;
    leg.end_seen_m = {fix.seen_from_m[day], fix.seen_from_m[dark]};
  }
  const auto line_seen = [&](mapdata::Kind kind) {
    const auto& seen = world.ground().kinds[kind].seen_from_m;
    return std::array{std::max(seen[day], 8.0), std::max(seen[dark], 8.0)};
  };
  const double reach = 4 * (model.length_m + reckoning::beyond_m(model.end));
  for (const auto& d : model.decoys) {
    leg.alike.push_back(std::visit(
        result::overloaded{
            [&](const reckoning::LikeLine& like) -> Lookalike {
              const auto& line = guides.line(like.line);
              return {d, reckoning::MetLine(line.points, model.to, reach),
                      sight::class_of(line.label.kind)};
            },
            [&](const reckoning::LikeMark& like) -> Lookalike {
              return {d, {}, class_of_fix(guides.fixes()[like.fix])};
            }},
        d.thing));
  }
  find_told(leg);
  if (card.leg.course.kind == LegKind::along) {
    leg.followed = sight::class_of(card.leg.course.followed.kind);
    leg.line_seen_m = line_seen(card.leg.course.followed.kind);
    find_shared(world, leg);
    find_forks(world, leg, before);
    find_past_end(leg);
    return leg;
  }
  if (const auto* met = std::get_if<reckoning::AtLine>(&model.end)) {
    const auto& line = guides.line(met->place.line);
    leg.target = reckoning::MetLine(line.points, model.to, reach);
    leg.target_line = line.label.kind;
    leg.target_kind = sight::class_of(line.label.kind);
    leg.target_at = mapdata::distances_along(line.points);
    leg.line_seen_m = line_seen(line.label.kind);
  }
  return leg;
}

CardLeg turned_round(const World& world, const CardLeg& leg) {
  CardLeg out;
  out.leg.course = leg.leg.course;
  std::ranges::reverse(out.leg.course.line);
  std::swap(out.leg.course.from, out.leg.course.to);
  out.leg.figures = leg.leg.figures;
  reckoning::Drift carried = world.judge().at_fix();
  out.model = world.judge().weigh(out.leg, carried);
  return out;
}

}  // namespace

GridPoint place_on(std::span<const GridPoint> line, std::span<const double> at, double along) {
  const auto next = std::ranges::upper_bound(at, along);
  if (next == at.end()) return line.back();
  const auto i = static_cast<std::size_t>(next - at.begin());
  if (i == 0) return line.front();
  return line[i - 1] + ((along - at[i - 1]) / (at[i] - at[i - 1])) * (line[i] - line[i - 1]);
}

NearOn nearest_on(std::span<const GridPoint> line, std::span<const double> at, GridPoint p) {
  NearOn best{0, 1e300};
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double t = mapdata::nearest_fraction(line[i - 1], line[i], p);
    const double away = earth::grid_distance_m(line[i - 1] + t * (line[i] - line[i - 1]), p);
    if (away < best.away_m) best = {at[i - 1] + t * (at[i] - at[i - 1]), away};
  }
  return best;
}

GridPoint ReadyLeg::place(double along) const { return place_on(card->leg.course.line, at, along); }
GridPoint ReadyLeg::ahead(double along) const {
  const double a = std::clamp(along, 0.0, std::max(length_m() - 1, 0.0));
  return unit(place(a + 1) - place(a));
}
const Shared* ReadyLeg::shares(std::uint32_t edge) const {
  const auto found = std::ranges::lower_bound(shared, edge, {}, &Shared::edge);
  return found != shared.end() && found->edge == edge ? &*found : nullptr;
}

Ready make_ready(const World& world, const Card& card) {
  Ready out;
  out.card = &card;
  for (const CardLeg& leg : card.legs) {
    const ReadyLeg before = out.legs.empty() ? ReadyLeg{} : out.legs.back();
    const bool lines = !out.legs.empty() && before.card->leg.course.kind == LegKind::along;
    out.legs.push_back(ready_leg(world, leg, lines ? &before : nullptr));
  }
  for (std::size_t k = card.legs.size(); k-- > 0;)
    out.back_cards.push_back(turned_round(world, card.legs[k]));
  for (const CardLeg& leg : out.back_cards) out.back.push_back(ready_leg(world, leg, nullptr));
  const auto& f = world.cover().frame();
  out.keep_off.reserve(f.size());
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      const auto bar = world.cover().bar(r, c);
      const bool open = bar == walking::Bar::none || bar == walking::Bar::void_height;
      out.keep_off.push_back(open ? 0 : 1);
    }
  }
  for (const CardLeg& leg : card.legs) {
    const auto& line = leg.leg.course.line;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const GridPoint d = line[i] - line[i - 1];
      const int steps =
          std::max(1, static_cast<int>(std::ceil(4 * earth::length_of(d) / f.cell_m)));
      for (int k = 0; k <= steps; ++k) {
        const auto [r, c] = f.cell_of(line[i - 1] + (static_cast<double>(k) / steps) * d);
        if (f.holds(r, c))
          out.keep_off[static_cast<std::size_t>(r) * static_cast<std::size_t>(f.cols) +
                       static_cast<std::size_t>(c)] = 0;
      }
    }
  }
  return out;
}

}  // namespace lodeway::walkers::detail
