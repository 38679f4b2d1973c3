#include "lodeway/route/cut_legs.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/walking/leg_figures.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Leg;
using walking::LegKind;

constexpr double short_gap_m = 40;  // off a path for less than this is not a leg of its own
constexpr double short_leg_m = 60, corner_cut_m = 120;
constexpr double leg_costs_s = 150;  // attention: stop, read the map, set the compass; *practice*
constexpr double sharp_turn_deg = 50;
constexpr std::size_t most_candidates = 90;

double length(const std::vector<GridPoint>& p) { return mapdata::length_m(p); }

const mapdata::LineFeature* line_of(const Cutting& c, const Piece& piece) {
  return piece.line == no_parent ? nullptr : &c.ground.map.lines[piece.line];
}

void append(std::vector<GridPoint>& to, const std::vector<GridPoint>& more) {
  to.insert(to.end(), more.begin() + (to.empty() ? 0 : 1), more.end());
}

/// Pieces joined where a gap is short, or the same thing is followed on straight ahead.
std::vector<Piece> merged(const Cutting& c, const RawPath& path) {
  std::vector<Piece> out;
  const auto turn_deg = [](const Piece& a, const Piece& b) {
    const auto in = earth::grid_bearing(a.points[a.points.size() - 2], a.points.back());
    return std::abs((earth::grid_bearing(b.points[0], b.points[1]) - in).in_degrees());
  };
  for (const auto& piece : path.pieces) {
    if (piece.points.size() < 2) continue;
    if (out.empty()) {
      out.push_back(piece);
      continue;
    }
    auto& last = out.back();
    const auto *a = line_of(c, last), *b = line_of(c, piece);
    const bool same = (a == nullptr && b == nullptr) ||
                      (a != nullptr && b != nullptr && a->label.kind == b->label.kind &&
                       a->label.name == b->label.name &&
                       (!a->label.name.empty() || turn_deg(last, piece) < sharp_turn_deg));
    const bool gap = b == nullptr ? length(piece.points) < short_gap_m
                                  : a == nullptr && length(last.points) < short_gap_m;
    if (same || (gap && b == nullptr)) {
      append(last.points, piece.points);
    } else if (gap) {
      last.line = piece.line;
      append(last.points, piece.points);
    } else {
      out.push_back(piece);
    }
  }
  // Off a path and soon back on it: a corner cut, no leg of its own.
  for (std::size_t i = 1; i + 1 < out.size();) {
    const auto *before = line_of(c, out[i - 1]), *after = line_of(c, out[i + 1]);
    if (out[i].line == no_parent && before != nullptr && after != nullptr &&
        before->label.kind == after->label.kind && before->label.name == after->label.name &&
        length(out[i].points) < corner_cut_m) {
      append(out[i - 1].points, out[i].points);
      append(out[i - 1].points, out[i + 1].points);
      out.erase(out.begin() + static_cast<std::ptrdiff_t>(i),
                out.begin() + static_cast<std::ptrdiff_t>(i) + 2);
    } else {
      ++i;
    }
  }
  // A stub along a line is walked with what comes before it.
  for (std::size_t i = 1; i < out.size();) {
    if (length(out[i].points) < short_leg_m && out[i].line != no_parent &&
        out[i - 1].line != no_parent) {
      append(out[i - 1].points, out[i].points);
      out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
    } else {
      ++i;
    }
  }
  return out;
}

/// Seconds along a straight line over open ground; unreached_s when it is barred or too long.
double straight_s(const Cutting& c, GridPoint a, GridPoint b) {
  const double total = earth::grid_distance_m(a, b);
  if (total > c.request.party.max_leg_m ||
      c.prepared.cover.first_bar(a, b).bar != walking::Bar::none)
    return static_cast<double>(unreached_s);
  const auto& f = c.prepared.cost.frame;
  const int steps = std::max(1, static_cast<int>(std::ceil(total / f.cell_m)));
  double seconds = 0, before = terrain::height_at(c.ground.elevation, a);
  for (int k = 1; k <= steps; ++k) {
    const auto p = a + (static_cast<double>(k) / steps) * (b - a);
    const double z = terrain::height_at(c.ground.elevation, p), rise = z - before;
    const auto [r, col] = f.cell_of(p);
    const float slowness =
        f.holds(r, col) ? std::min(20.0F, c.prepared.cost.slowness[c.prepared.cost.index(r, col)])
                        : 1.0F;
    seconds += static_cast<double>(
        c.prepared.pace.step_s(static_cast<float>(total / steps),
                               std::isfinite(rise) ? static_cast<float>(rise) : 0.0F, slowness));
    if (std::isfinite(z)) before = z;
  }
  return seconds;
}

/// Corners of the open stretch: of all choices the one with the least time and legs' cost together.
/// Where even neighbours cannot be joined straight (beside barred cells) the line itself is kept.
std::vector<GridPoint> corners(const Cutting& c, const std::vector<GridPoint>& open) {
  const std::size_t stride =
      std::max<std::size_t>(1, (open.size() + most_candidates - 1) / most_candidates);
  std::vector<GridPoint> at;
  for (std::size_t i = 0; i + 1 < open.size(); i += stride) at.push_back(open[i]);
  at.push_back(open.back());
  std::vector<double> best(at.size(), 1e300);
  std::vector<std::size_t> before(at.size(), 0);
  best[0] = 0;
  for (std::size_t j = 1; j < at.size(); ++j) {
    for (std::size_t i = 0; i < j; ++i) {
      double s = straight_s(c, at[i], at[j]);
      if (s >= static_cast<double>(unreached_s)) {
        if (i + 1 < j) continue;
        s = 1e6;  // the last resort: two neighbours of the found line
      }
      if (best[i] + s + leg_costs_s < best[j]) {
        best[j] = best[i] + s + leg_costs_s;
        before[j] = i;
      }
    }
  }
  std::vector<GridPoint> out;
  for (std::size_t j = at.size() - 1;; j = before[j]) {
    out.push_back(at[j]);
    if (j == 0) break;
  }
  std::ranges::reverse(out);
  return out;
}

std::string end_name(const Cutting& c, GridPoint at, bool along_both) {
  const bool german = c.language == units::Language::german;
  const auto place = c.around.place(at);
  const auto name = landmarks::words(place, c.language);
  if (name.empty()) return german ? "Wendepunkt" : "turn";
  if (along_both && place.second == mapdata::Kind::other && walking::is_path(place.kind))
    return (german ? "Knick: " : "bend of ") + name;
  return name;
}

}  // namespace

void describe(Leg& leg, const Cutting& c, int followed) {
  const auto& map = c.ground.map;
  const bool along = leg.kind == LegKind::along;
  if (followed >= 0) {
    const auto& label = map.lines[static_cast<std::size_t>(followed)].label;
    leg.along_kind = label.kind;
    leg.along = landmarks::thing(label.kind, label.name, c.language);
  }
  leg.ground_factor = along && walking::is_path(leg.along_kind)
                          ? c.ground.kinds[leg.along_kind].speed_factor
                          : c.prepared.cover.mean_factor(leg.line);
  leg.ground_factor = std::clamp(leg.ground_factor, 0.05, 1.0);
  walking::set_figures(leg, c.ground, c.request.party);
  const double grid_m = length(leg.line), scale = leg.length_m / grid_m;
  leg.ticks.clear();
  for (const auto& s : c.around.along(leg.line, followed, c.request.party.visibility)) {
    leg.ticks.push_back({landmarks::words(s, c.language), s.kind, s.side, s.at_m * scale, 0, s.at});
    auto& tick = leg.ticks.back();
    Leg part = leg;  // the time to it, by the same model
    part.line = {leg.line.front()};
    double run = 0;
    for (std::size_t i = 1; i < leg.line.size() && run < s.at_m; ++i) {
      const double piece = earth::grid_distance_m(leg.line[i - 1], leg.line[i]);
      const double t = std::min(1.0, (s.at_m - run) / piece);
      part.line.push_back(leg.line[i - 1] + t * (leg.line[i] - leg.line[i - 1]));
      run += piece;
    }
    walking::set_figures(part, c.ground, c.request.party);
    tick.minutes = part.minutes;
  }
  const auto heading = earth::grid_bearing(leg.line[leg.line.size() - 2], leg.line.back());
  leg.stop.reset();
  if (const auto stop = c.around.stop_beyond(leg.line.back(), heading, followed)) {
    const double minutes = stop->beyond_m / leg.length_m * leg.minutes;
    leg.stop = walking::Stop{landmarks::thing(stop->kind, stop->name, c.language), stop->kind,
                             stop->beyond_m, minutes, stop->shape};
  }
  leg.dangers.clear();
  for (const auto& d : c.around.dangers(leg.line)) {
    leg.dangers.push_back({landmarks::words(d, c.language), d.side, d.distance_m});
  }
}

std::vector<Leg> cut_legs(const Cutting& c, const RawPath& path, const std::string& from,
                          const std::string& to) {
  std::vector<Leg> out;
  std::vector<int> followed;
  for (const auto& piece : merged(c, path)) {
    if (piece.line != no_parent) {
      Leg leg;
      leg.kind = LegKind::along;
      leg.line = piece.points;
      out.push_back(std::move(leg));
      followed.push_back(static_cast<int>(piece.line));
      continue;
    }
    const auto turns = corners(c, piece.points);
    for (std::size_t i = 1; i < turns.size(); ++i) {
      Leg leg;
      leg.line = {turns[i - 1], turns[i]};
      out.push_back(std::move(leg));
      followed.push_back(-1);
    }
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i].from = i == 0 ? from : out[i - 1].to;
    out[i].to = i + 1 == out.size()
                    ? to
                    : end_name(c, out[i].line.back(), followed[i] >= 0 && followed[i + 1] >= 0);
    describe(out[i], c, followed[i]);
  }
  return out;
}

Result<std::vector<Leg>> leg_straight(const Cutting& c, const walking::Waypoint& from,
                                      const walking::Waypoint& to) {
  const auto blocked = c.prepared.cover.first_bar(from.at, to.at);
  if (blocked.bar != walking::Bar::none) {
    return fail(FaultCode::no_way, "the bearing from " + from.name + " to " + to.name + " meets " +
                                       std::string(walking::bar_words(blocked.bar)) + " at " +
                                       std::to_string(std::lround(blocked.at.east_m)) + " " +
                                       std::to_string(std::lround(blocked.at.north_m)) +
                                       ": set a point to go round it");
  }
  Leg leg;
  leg.from = from.name;
  leg.to = to.name;
  leg.line = {from.at, to.at};
  describe(leg, c, -1);
  return std::vector{std::move(leg)};
}

}  // namespace lodeway::route
