#include "lodeway/belief/moves.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "lodeway/numeric/random.hpp"

namespace lodeway::belief {

namespace {
using mapdata::Kind;
using walking::Bar;

StopSort sort_of(Kind kind) {
  switch (sight::class_of(kind)) {
    case sight::KindClass::water:
      return StopSort::water;
    case sight::KindClass::wall:
      return StopSort::wall;
    default:
      return StopSort::way_or_edge;
  }
}

struct Field {
  const CuePlanes& planes;
  const Stops& stops;
  double a_metre = 1 / planes.frame.cell_m;  ///< in cells
  std::array<GridPoint, 256> falls = fall_ways();  ///< unit vectors, by the byte of the plane

  [[nodiscard]] double step_m() const { return 0.7 * planes.frame.cell_m; }
  /// As CuePlanes::cell, but for places within a cell's rounding of an edge.
  [[nodiscard]] std::optional<std::size_t> cell(GridPoint p) const {
    const auto& f = planes.frame;
    const double c = (p.east_m - f.west_m) * a_metre, r = (f.north_m - p.north_m) * a_metre;
    if (!(c >= 0 && r >= 0 && c < f.cols && r < f.rows)) return std::nullopt;
    const std::size_t i = planes.index(static_cast<int>(r), static_cast<int>(c));
    return planes.known(i) ? std::optional(i) : std::nullopt;
  }

 private:
  static std::array<GridPoint, 256> fall_ways() {
    std::array<GridPoint, 256> out;
    for (std::size_t k = 0; k < out.size(); ++k)
      out[k] = earth::step({0, 0}, units::GridBearing::degrees(360.0 / 256 * static_cast<double>(k)), 1);
    return out;
  }
};

/// One party on its way; `on` gives the chance that it has neither been stopped nor come to harm.
struct Walker {
  GridPoint at;
  std::size_t cell = 0;
  /// Its own error is the same the whole way: the way itself of a move on a bearing; else what the
  /// fall's direction is turned by.
  GridPoint way;
  bool started_barred = false;
  double left = 1;  ///< chance that it still walks
  double length_m = 0;
  std::uint8_t last_stop = 0;
  int level_steps = 0;
};

enum class Went : std::uint8_t { on, felt_crest, felt_flat, line, barred, lost };

/// One step. Lines: the caller weighs the chance; the rest is certain.
Went step(const Field& f, const Move& move, Walker& w) {
  const CuePlanes& p = f.planes;
  const std::size_t from = w.cell;
  GridPoint way = w.way;
  if (move.kind != MoveKind::bearing) {
    const GridPoint fall = f.falls[p.fall[w.cell]];  // turned clockwise
    way = {fall.east_m * w.way.north_m + fall.north_m * w.way.east_m,
           fall.north_m * w.way.north_m - fall.east_m * w.way.east_m};
  }
  w.at = w.at + f.step_m() * way;
  w.length_m += f.step_m();
  const auto next = f.cell(w.at);
  if (!next) return Went::lost;
  w.cell = *next;
  if (p.bar[w.cell] == Bar::none) w.started_barred = false;
  const std::uint8_t stop = f.stops.at[w.cell];
  if (stop != 0 && stop != w.last_stop) {
    w.last_stop = stop;
    return Went::line;
  }
  w.last_stop = stop;
  if (p.bar[w.cell] != Bar::none && !w.started_barred) return Went::barred;
  if (move.kind == MoveKind::uphill || move.kind == MoveKind::downhill) {
    const double climbed = p.height_m(w.cell) - p.height_m(from);
    const bool done = move.kind == MoveKind::uphill ? climbed <= 0 : climbed >= 0;
    // some 60 m without going on up (or down): it is felt
    w.level_steps = done || p.slope_deg(w.cell) < 2 ? w.level_steps + 1 : 0;
    if (w.level_steps * f.step_m() >= 60)
      return move.kind == MoveKind::uphill ? Went::felt_crest : Went::felt_flat;
  }
  return Went::on;
}

GridPoint way_of(const Move& move, double error_deg) {
  double turn = error_deg;
  switch (move.kind) {
    case MoveKind::bearing:
      turn += move.bearing.in_degrees();
      break;
    case MoveKind::downhill:
      break;
    case MoveKind::uphill:
      turn += 180;
      break;
    case MoveKind::slope_on_left:  // high ground on the left hand
      turn -= 90;
      break;
    case MoveKind::slope_on_right:
      turn += 90;
      break;
  }
  return earth::step({0, 0}, units::GridBearing::degrees(turn), 1);
}

bool is_barred_water(const Field& f, std::size_t cell) {
  const Bar b = f.planes.bar[cell];
  return b == Bar::water || b == Bar::river;
}

struct Tally {
  std::vector<double> met, barred;  ///< by tens of metres
  std::array<double, stop_sort_count> by_sort{};
  std::vector<double> by_kind;
};

/// Walks a move from drawn places. Ends early when more than `barred` come to harm.
bool tally(const Field& f, const Move& move, std::span<const std::size_t> cells,
           std::span<const double> normals, const WalkError& error, const MoveLimits& limits,
           double most_m, Tally& out) {
  const auto bins = static_cast<std::size_t>(most_m / 10) + 2;
  out = {std::vector<double>(bins, 0.0),
         std::vector<double>(bins, 0.0),
         {},
         std::vector<double>(f.stops.kinds.size(), 0.0)};
  const auto cols = static_cast<std::size_t>(f.planes.frame.cols);
  const double each = 1 / static_cast<double>(cells.size());
  const double sd = move.kind == MoveKind::bearing ? error.bearing_sd_deg : error.fall_sd_deg;
  double harmed = 0;
  for (std::size_t k = 0; k < cells.size(); ++k) {
    Walker w;
    w.cell = cells[k];
    w.at = f.planes.frame.centre(static_cast<int>(w.cell / cols), static_cast<int>(w.cell % cols));
    w.way = way_of(move, sd * normals[k]);
    w.started_barred = f.planes.bar[w.cell] != Bar::none;
    w.last_stop = f.stops.at[w.cell];
    while (w.length_m < most_m && w.left > 0.002) {
      const Went went = step(f, move, w);
      const auto bin = std::min(static_cast<std::size_t>(w.length_m / 10), bins - 1);
      if (went == Went::on) continue;
      if (went == Went::lost) break;
      double stopped = w.left;
      if (went == Went::line) {
        const auto id = static_cast<std::size_t>(f.stops.at[w.cell] - 1);
        const bool wet = is_barred_water(f, w.cell);
        stopped *= wet ? f.stops.felt[id] : f.stops.noticed[id];
        out.by_sort[static_cast<std::size_t>(sort_of(f.stops.kinds[id]))] += each * stopped;
        out.by_kind[id] += each * stopped;
        out.met[bin] += each * stopped;
        w.left -= stopped;
        if (f.planes.bar[w.cell] != Bar::none && !w.started_barred) {
          out.barred[bin] += each * w.left;
          harmed += each * w.left;
          w.left = 0;
        }
        continue;
      }
      w.left = 0;
      if (went == Went::barred) {
        out.barred[bin] += each * stopped;
        harmed += each * stopped;
      } else {
        out.met[bin] += each * stopped;
        out.by_sort[static_cast<std::size_t>(
            went == Went::felt_crest ? StopSort::crest : StopSort::flat)] += each * stopped;
      }
    }
    // who may come to harm only beyond the stated distance is not yet counted out
    if (harmed > 4 * limits.barred) return false;
  }
  return true;
}

/// The ends of a share that `n` draws leave open: score interval, one standard error (Wilson 1927,
/// Journal of the American Statistical Association 22:209-212). Of 0 in n the high end is 1/(n+1).
struct Ends {
  double low = 0, high = 0;
};
Ends ends_of(double share, double n) {
  const double middle = (share + 0.5 / n) / (1 + 1 / n),
               half = std::sqrt(share * (1 - share) / n + 0.25 / (n * n)) / (1 + 1 / n);
  return {std::max(middle - half, 0.0), std::min(middle + half, 1.0)};
}

/// The least share whose low end is as much as asked for.
double least_of(double asked, double n) {
  double low = asked, high = 1;
  for (int k = 0; k < 40; ++k) {
    const double middle = 0.5 * (low + high);
    (ends_of(middle, n).low < asked ? low : high) = middle;
  }
  return high;
}

/// The least distance by which enough have met something and few enough come to harm.
bool settle(const Field& f, const Tally& t, double met, double barred, Move& move) {
  double m = 0, b = 0;
  for (std::size_t k = 0; k < t.met.size(); ++k) {
    m += t.met[k];
    b += t.barred[k];
    if (b > barred) return false;
    if (m < met) continue;
    move.within_m = 10.0 * static_cast<double>(k + 1);
    move.met = m;
    move.barred = b;
    move.by_sort = t.by_sort;
    const auto most = std::ranges::max_element(t.by_kind);
    if (most != t.by_kind.end()) {
      move.line =
          *most > 0 ? f.stops.kinds[static_cast<std::size_t>(most - t.by_kind.begin())] : Kind::other;
      move.by_line = *most;
    }
    return true;
  }
  return false;
}

std::vector<double> normals_of(std::size_t count, std::uint64_t stream) {
  numeric::Random random(20260101, stream);
  std::vector<double> out(count);
  for (double& v : out) v = random.normal();
  return out;
}
}  // namespace

Stops stops_of(const CuePlanes& planes, const sight::Chances& chances, walking::Skill skill,
               mapdata::Visibility visibility) {
  Stops out;
  out.at.assign(planes.frame.size(), 0);
  const double on = 0.8 * planes.frame.cell_m;
  const auto most = static_cast<std::uint8_t>(std::min(on / CuePlanes::distance_step_m, 250.0));
  for (const auto& plane : planes.near) {
    const auto& traits = planes.kinds[plane.kind];
    const bool shore = plane.kind == Kind::shore || plane.kind == Kind::river;
    if (!plane.line || !traits.catches || (traits.forbids && !shore)) continue;
    out.kinds.push_back(plane.kind);
    const double q = chances.of(sight::ChanceOf::notice, plane.kind, visibility, skill).value;
    out.noticed.push_back(q);
    out.felt.push_back(1 - (1 - q) * (1 - q));
    const auto id = static_cast<std::uint8_t>(out.kinds.size());
    for (std::size_t i = 0; i < out.at.size(); ++i) {
      if (plane.distance[i] <= most) out.at[i] = id;
    }
  }
  return out;
}

Moves common_moves(const Belief& belief, const CuePlanes& planes, const sight::Chances& chances,
                   walking::Skill skill, mapdata::Visibility visibility, const WalkError& error,
                   const MoveLimits& limits) {
  return common_moves(belief, planes, stops_of(planes, chances, skill, visibility), error, limits);
}

Moves common_moves(const Belief& belief, const CuePlanes& planes, const Stops& stops,
                   const WalkError& error, const MoveLimits& limits) {
  Moves out;
  double on_map = 0, standing = 0;
  for (std::size_t i = 0; i < belief.share.size(); ++i) {
    on_map += static_cast<double>(belief.share[i]);
    if (planes.bar[i] != Bar::none) standing += static_cast<double>(belief.share[i]);
  }
  if (!(on_map > 0)) return out;
  out.standing_barred = standing / on_map;
  if (belief.elsewhere > limits.most_elsewhere) return out;
  const Field field{planes, stops};
  const auto cells = draws(belief, limits.draws, 0.5);
  const auto proof = draws(belief, limits.proof, 0.25);
  const auto normals = normals_of(cells.size(), 1), proof_normals = normals_of(proof.size(), 2);
  std::vector<Move> tried;
  for (const MoveKind kind :
       {MoveKind::downhill, MoveKind::uphill, MoveKind::slope_on_left, MoveKind::slope_on_right})
    tried.push_back({kind, {}, 0, 0, 0, {}, Kind::other, 0});
  for (int b = 0; b < 360; b += 10)
    tried.push_back(
        {MoveKind::bearing, units::GridBearing::degrees(b), 0, 0, 0, {}, Kind::other, 0});
  Tally t;
  std::vector<Move> good;
  for (Move& move : tried) {
    if (tally(field, move, cells, normals, error, limits, limits.most_m, t) &&
        settle(field, t, limits.met, limits.barred, move))
      good.push_back(move);
  }
  // felt underfoot before seen, then near before far
  const auto later = [](const Move& m) { return std::pair(m.felt() < 0.8 * m.met, m.within_m); };
  std::ranges::stable_sort(good, {}, later);
  // the best of many was lucky with its draws: it is walked again from other places. What is asked
  // for must hold at the end that those leave open, and that end is what is told: of the moves that
  // passed, those whose draws came out well are more than their share
  const double n = static_cast<double>(std::max<std::size_t>(proof.size(), 1));
  for (Move& move : good) {
    if (out.offered.size() >= 4) break;
    if (!tally(field, move, proof, proof_normals, error, limits, limits.most_m, t) ||
        !settle(field, t, least_of(limits.met, n), limits.barred, move))
      continue;
    const double met = std::min(move.met, 1.0), low = ends_of(met, n).low;
    move.barred = ends_of(std::min(move.barred, 1.0), n).high;
    if (low < limits.met || move.barred > limits.barred) continue;
    for (double& part : move.by_sort) part *= low / met;
    move.by_line *= low / met;
    move.met = low;
    out.offered.push_back(move);
  }
  std::ranges::stable_sort(out.offered, {}, later);
  return out;
}

namespace {
Walked walk_one(const Field& field, const Move& move, GridPoint from, double sd,
                numeric::Random& random) {
  Walked out;
  Walker w;
  const auto cell = field.planes.cell(from);
  if (!cell) return out;
  w.cell = *cell;
  w.at = from;
  w.way = way_of(move, random.normal() * sd);
  w.started_barred = field.planes.bar[w.cell] != Bar::none;
  w.last_stop = field.stops.at[w.cell];
  while (w.length_m + field.step_m() < move.within_m) {
    const Went went = step(field, move, w);
    out.length_m = w.length_m;
    if (went == Went::on) continue;
    if (went == Went::lost) return out;
    if (went == Went::line) {
      const auto id = static_cast<std::size_t>(field.stops.at[w.cell] - 1);
      const bool wet = is_barred_water(field, w.cell);
      if (random.uniform() < (wet ? field.stops.felt[id] : field.stops.noticed[id])) {
        out.met = true;
        return out;
      }
      if (field.planes.bar[w.cell] == Bar::none || w.started_barred) continue;
      out.barred = true;
      return out;
    }
    (went == Went::barred ? out.barred : out.met) = true;
    return out;
  }
  return out;
}
}  // namespace

std::vector<Walked> walk(const Move& move, std::span<const GridPoint> from, const CuePlanes& planes,
                         const Stops& stops, const WalkError& error, numeric::Random& random) {
  const Field field{planes, stops};
  const double sd = move.kind == MoveKind::bearing ? error.bearing_sd_deg : error.fall_sd_deg;
  std::vector<Walked> out;
  out.reserve(from.size());
  for (const GridPoint p : from) out.push_back(walk_one(field, move, p, sd, random));
  return out;
}

}  // namespace lodeway::belief
