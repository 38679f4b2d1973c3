#include "lodeway/landmarks/surroundings.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

#include "lodeway/landmarks/tick_reach.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/bends.hpp"
#include "lodeway/mapdata/house_among.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/terrain/profile.hpp"

namespace lodeway::landmarks {

namespace {

using mapdata::Kind;
using mapdata::Side;

constexpr double apart_m = 40;  // nearer things of one sort are one thing
constexpr double point_reach_m = 40, line_reach_m = 15, stop_half_m = 60;
constexpr double on_it_m = 3;       // nearer to the way a thing lies on no hand
// *Practice*: on a shorter leg no bend is told for want of other things; and a tick-off this near
// to the end tells that it comes.
constexpr double bend_told_m = 300, last_tick_m = 300;
// Where no bend is so sharp that it is a main one: what a slow one turns, chord against chord.
constexpr double swing_chord_m = 150, least_swing_deg = 15, swing_step_m = 25;
constexpr double across_sine = 0.5735764363510460;  // 35 degrees
constexpr double window_m = 100, level_slope = 0.05, steep_slope = 0.20;

using mapdata::cross;

bool is_way(Kind k) {
  return k == Kind::path || k == Kind::faint_path || k == Kind::track || k == Kind::road;
}

bool is_running_water(Kind k) {
  return k == Kind::stream || k == Kind::river || k == Kind::ditch;
}

/// Shapes of the ground: nothing to see on the spot, and no junction where a way meets one.
bool is_shape(Kind k) { return k == Kind::ridge_line || k == Kind::valley_line; }

/// Sum of segment lengths before each point.
std::vector<double> distances(const std::vector<GridPoint>& line) {
  std::vector<double> out{0};
  for (std::size_t i = 1; i < line.size(); ++i)
    out.push_back(out.back() + earth::grid_distance_m(line[i - 1], line[i]));
  return out;
}

/// How much a walker is helped by it: named and solid things first.
int weight(const Sighting& s) {
  if (s.meeting == Meeting::top) return 6;
  int w = s.meeting == Meeting::crosses                                 ? 4
          : s.meeting == Meeting::joins || s.meeting == Meeting::passes ? 3
                                                                        : 2;
  if (!s.name.empty()) ++w;
  if (s.kind == Kind::wood_edge || s.kind == Kind::faint_path || s.kind == Kind::ditch) --w;
  if (is_shape(s.kind)) w -= 2;
  return w;
}

/// The piece of a line within `half` metres of a place on it.
std::vector<GridPoint> piece_around(const std::vector<GridPoint>& line, double at, double half) {
  std::vector<GridPoint> out;
  const auto d = distances(line);
  const auto point = [&](double s) {
    const auto i = static_cast<std::size_t>(std::ranges::upper_bound(d, s) - d.begin());
    if (i == 0) return line.front();
    if (i >= d.size()) return line.back();
    return line[i - 1] + ((s - d[i - 1]) / (d[i] - d[i - 1])) * (line[i] - line[i - 1]);
  };
  const double from = std::max(0.0, at - half), to = std::min(d.back(), at + half);
  out.push_back(point(from));
  for (std::size_t i = 0; i < d.size(); ++i) {
    if (d[i] > from && d[i] < to) out.push_back(line[i]);
  }
  out.push_back(point(to));
  return out;
}

/// So many of them: first what tells that the end is near, then one by one what is farthest from
/// those and from the leg's ends, the distance counted by how much it tells.
std::vector<Sighting> spread(std::vector<Sighting> all, double length_m, std::size_t most) {
  std::vector<Sighting> out;
  const auto take = [&](std::vector<Sighting>::iterator i) {
    out.push_back(std::move(*i));
    all.erase(i);
  };
  const double near_end_m = length_m - std::min(last_tick_m, 0.25 * length_m);
  const auto last = std::ranges::max_element(all, {}, [&](const Sighting& s) {
    return s.at_m < near_end_m ? std::pair{-1, s.at_m} : std::pair{weight(s), s.at_m};
  });
  if (most > 0 && last->at_m >= near_end_m) take(last);
  while (out.size() < most && !all.empty()) {
    take(std::ranges::max_element(all, {}, [&](const Sighting& s) {
      double gap = std::min(s.at_m, length_m - s.at_m);
      for (const auto& k : out) gap = std::min(gap, std::abs(k.at_m - s.at_m));
      return gap * weight(s);
    }));
  }
  return out;
}

bool alike(const Sighting& a, const Sighting& b) {
  return a.meeting == b.meeting && a.kind == b.kind && a.name == b.name;
}

/// The middle one of the first three alike in a row, by distance; the end where there are none.
std::vector<Sighting>::const_iterator middle_of_row(const std::vector<Sighting>& all) {
  for (std::size_t i = 1; i + 1 < all.size(); ++i) {
    if (alike(all[i - 1], all[i]) && alike(all[i], all[i + 1]))
      return all.begin() + static_cast<std::ptrdiff_t>(i);
  }
  return all.end();
}

/// Of three and more alike in a row, by distance, the first and the last: nobody counts walls.
void thin_rows(std::vector<Sighting>& all) {
  for (auto i = middle_of_row(all); i != all.end(); i = middle_of_row(all)) all.erase(i);
}

/// `spread`, in order, without three alike in a row: what stood between them may be left out, and
/// then they are a row. The middle one makes room for another.
std::vector<Sighting> spread_in_order(std::vector<Sighting> all, double length_m,
                                      std::size_t most) {
  for (;;) {
    auto out = all.size() > most ? spread(all, length_m, most) : all;
    std::ranges::stable_sort(out, {}, &Sighting::at_m);
    const auto middle = middle_of_row(out);
    if (middle == out.end()) return out;
    std::erase_if(all, [&](const Sighting& s) {
      return s.at_m == middle->at_m && alike(s, *middle);
    });
  }
}

/// Bends of what is followed: they tell where a party is when nothing else does.
std::vector<Sighting> bends_of(const std::vector<GridPoint>& line) {
  std::vector<Sighting> out;
  for (const auto& bend : mapdata::main_bends(line)) {
    out.push_back({Meeting::bends, Kind::other, "", bend.turn_deg > 0 ? Side::right : Side::left,
                   bend.at_m, mapdata::point_along(line, bend.at_m)});
  }
  return out;
}

/// Where the last half of a line that is followed swings round most, as a compass shows it over
/// `swing_chord_m` before and after; none where that is less than `least_swing_deg`.
std::optional<Sighting> swing_of(const std::vector<GridPoint>& line, double length_m) {
  std::optional<Sighting> out;
  double most = least_swing_deg;
  for (double at = 0.5 * length_m + swing_step_m; at < length_m - apart_m; at += swing_step_m) {
    const auto here = mapdata::point_along(line, at);
    const auto before = mapdata::point_along(line, std::max(at - swing_chord_m, 0.0));
    const auto after = mapdata::point_along(line, std::min(at + swing_chord_m, length_m));
    const double turn =
        (earth::grid_bearing(here, after) - earth::grid_bearing(before, here)).in_degrees();
    if (std::abs(turn) < most) continue;
    most = std::abs(turn);
    out = Sighting{Meeting::bends, Kind::other, "", turn > 0 ? Side::right : Side::left, at, here};
  }
  return out;
}

}  // namespace

Surroundings::Surroundings(const terrain::Elevation& heights, const mapdata::MapData& map,
                           const mapdata::KindTable& kinds)
    : heights_(heights),
      map_(map),
      kinds_(kinds),
      index_(map.lines),
      among_houses_(mapdata::houses_among_others(map)) {
  std::vector<GridPoint> places;
  for (const auto& point : map.points) places.push_back(point.at);
  points_ = mapdata::PointIndex(std::move(places));
  std::vector<mapdata::LineFeature> cliffs;
  std::ranges::copy_if(map.lines, std::back_inserter(cliffs),
                       [](const auto& line) { return line.label.kind == Kind::cliff; });
  cliffs_ = mapdata::LineIndex(cliffs);
  for (const auto& cliff : cliffs) cliff_names_.push_back(cliff.label.name);
}

void Surroundings::crossings_along(const std::vector<GridPoint>& line, int followed,
                                   std::vector<Sighting>& out) const {
  const auto d = distances(line);
  std::map<std::uint32_t, double> last;  // of each line, where it was met before
  std::map<std::uint32_t, bool>
      walked;  // lines that the leg itself runs on: two of their points are its own
  const auto by_place = [](GridPoint p, GridPoint q) {
    return std::pair(p.east_m, p.north_m) < std::pair(q.east_m, q.north_m);
  };
  auto own = line;
  std::ranges::sort(own, by_place);
  const auto [south, north] = std::ranges::minmax(own, {}, &GridPoint::north_m);
  const auto runs_on = [&](std::uint32_t l) {
    const auto [found, fresh] = walked.try_emplace(l, false);
    if (fresh) {
      int shared = 0;
      for (const auto p :
           map_.lines[l].points) {  // most lie far off: looked up are only those near
        if (p.east_m < own.front().east_m || p.east_m > own.back().east_m ||
            p.north_m < south.north_m || p.north_m > north.north_m)
          continue;
        if (std::ranges::binary_search(own, p, by_place) && ++shared == 2) break;
      }
      found->second = shared >= 2;
    }
    return found->second;
  };
  for (std::size_t i = 1; i < line.size(); ++i) {
    for (const auto& c : index_.crossings(line[i - 1], line[i])) {
      const auto& met = map_.lines[c.ref.line];
      const double at = d[i - 1] + c.at_fraction * (d[i] - d[i - 1]);
      if (static_cast<int>(c.ref.line) == followed || met.tunnel || !kinds_[met.label.kind].ticks)
        continue;
      if (at < line_reach_m || at > d.back() - line_reach_m || runs_on(c.ref.line)) continue;
      if (const auto before = last.find(c.ref.line);
          before != last.end() && at - before->second < apart_m)
        continue;
      last[c.ref.line] = at;
      // A line that ends where it is met joins from one side; any other goes across.
      const auto& p = met.points;
      const double to_first = earth::grid_distance_m(c.at, p.front()),
                   to_last = earth::grid_distance_m(c.at, p.back());
      Sighting s{Meeting::crosses, met.label.kind, met.label.name, Side::none, at, c.at};
      if (std::min(to_first, to_last) < 1.0 && p.size() >= 2) {
        const auto away = to_first < to_last ? p[1] - p[0] : p[p.size() - 2] - p.back();
        s.meeting = Meeting::joins;
        s.side = cross(line[i] - line[i - 1], away) > 0 ? Side::left : Side::right;
      }
      out.push_back(std::move(s));
    }
  }
}

void Surroundings::points_along(const std::vector<GridPoint>& line, mapdata::Visibility visibility,
                                std::vector<Sighting>& out) const {
  const auto d = distances(line);
  for (const auto index : points_.near_line(line, tick_reach_m)) {
    const auto& point = map_.points[index];
    const auto& traits = kinds_[point.label.kind];
    const double reach =
        std::min(tick_reach_m, traits.seen_from_m[static_cast<std::size_t>(visibility)]);
    if (!traits.ticks || reach <= 0 || among_houses_[index] != 0) continue;
    double nearest = reach, at = -1;
    Side side = Side::none;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const auto v = line[i] - line[i - 1], q = point.at - line[i - 1];
      const double run = length_of(v);
      if (run == 0) continue;
      const double t =
          std::clamp((q.east_m * v.east_m + q.north_m * v.north_m) / (run * run), 0.0, 1.0);
      const double off = length_of(q - t * v);
      if (off >= nearest) continue;
      nearest = off;
      at = d[i - 1] + t * run;
      side = off < on_it_m ? Side::none : cross(v, q) > 0 ? Side::left : Side::right;
    }
    if (at > line_reach_m && at < d.back() - line_reach_m) {
      out.push_back({Meeting::passes, point.label.kind, point.label.name, side, at, point.at});
    }
  }
}

void Surroundings::slope_changes(const std::vector<GridPoint>& line,
                                 std::vector<Sighting>& out) const {
  const auto profile = terrain::profile(heights_, line);
  if (profile.touches_void || profile.points.back().at_m < 2 * window_m) return;
  // Mean slope over windows that follow one another; a change of class between two is told at their
  // seam.
  const auto height_at = [&](double at) {
    const auto i = std::ranges::lower_bound(profile.points, at, {}, &terrain::ProfilePoint::at_m);
    return i == profile.points.end() ? profile.points.back().height_m : i->height_m;
  };
  const auto d = distances(line);
  const auto place = [&](double at) {
    const auto i = std::max<std::size_t>(
        1, static_cast<std::size_t>(std::ranges::lower_bound(d, at) - d.begin()));
    const auto k = std::min(i, d.size() - 1);
    const double run = d[k] - d[k - 1];
    return run > 0 ? line[k - 1] + ((at - d[k - 1]) / run) * (line[k] - line[k - 1]) : line[k];
  };
  const double total = profile.points.back().at_m;
  for (double at = window_m; at + window_m <= total; at += 0.5 * window_m) {
    const double before = (height_at(at) - height_at(at - window_m)) / window_m;
    const double after = (height_at(at + window_m) - height_at(at)) / window_m;
    std::optional<Meeting> met;
    if (before > level_slope && after < -level_slope) {
      met = Meeting::top;
    } else if (std::abs(before) > steep_slope && std::abs(after) < level_slope) {
      met = Meeting::level;
    } else if (std::abs(before) < 0.5 * steep_slope && std::abs(after) > steep_slope) {
      met = Meeting::steepens;
    } else if (std::abs(before) > steep_slope && std::abs(after) < 0.5 * steep_slope) {
      met = Meeting::eases;
    }
    if (!met || (!out.empty() && out.back().meeting == *met && at - out.back().at_m < 2 * window_m))
      continue;
    out.push_back({*met, Kind::other, "", Side::none, at, place(at)});
  }
}

std::vector<Sighting> Surroundings::along(const std::vector<GridPoint>& line, int followed,
                                          mapdata::Visibility visibility, std::size_t most) const {
  std::vector<Sighting> slopes, out;
  slope_changes(line, slopes);
  crossings_along(line, followed, out);
  points_along(line, visibility, out);
  // Water does not climb: where the heights say so along it they are not fine enough.
  if (followed >= 0 && is_running_water(map_.lines[static_cast<std::size_t>(followed)].label.kind))
    std::erase_if(slopes, [](const Sighting& s) { return s.meeting == Meeting::top; });
  out.insert(out.end(), slopes.begin(), slopes.end());
  // The most telling first; then what is too near to one that tells more is dropped.
  std::ranges::stable_sort(out, [](const Sighting& a, const Sighting& b) {
    return weight(a) != weight(b) ? weight(a) > weight(b) : a.at_m < b.at_m;
  });
  std::vector<Sighting> kept;
  for (auto& s : out) {
    if (std::ranges::none_of(
            kept, [&](const Sighting& k) { return std::abs(k.at_m - s.at_m) < apart_m; }))
      kept.push_back(std::move(s));
  }
  std::ranges::stable_sort(kept, {}, &Sighting::at_m);
  thin_rows(kept);
  const double length = distances(line).back();
  // Nothing in the last half: the last bend there, else where it swings most, says that the end
  // comes.
  if (followed >= 0 && most > 0 && length >= bend_told_m &&
      (kept.empty() || kept.back().at_m <= 0.5 * length)) {
    const auto bends = bends_of(line);
    const auto last = std::ranges::find_if(bends.rbegin(), bends.rend(), [&](const Sighting& s) {
      return s.at_m < length - apart_m;
    });
    if (last != bends.rend() && last->at_m > 0.5 * length) {
      kept.push_back(*last);
    } else if (auto swing = swing_of(line, length)) {
      kept.push_back(*std::move(swing));
    }
  }
  return spread_in_order(std::move(kept), length, most);
}

std::optional<StopFound> Surroundings::stop_beyond(GridPoint end, units::GridBearing direction,
                                                   int followed, double reach_m) const {
  const auto ahead = earth::step({0, 0}, direction, 1.0);
  const auto from = end - line_reach_m * ahead, to = end + reach_m * ahead;
  const auto goes_on = [&](const mapdata::LineFeature& met) {
    const auto& own = map_.lines[static_cast<std::size_t>(followed)];
    if (&met == &own) return true;
    if (met.label.kind != own.label.kind || met.label.name != own.label.name) return false;
    return !own.label.name.empty() || earth::grid_distance_m(met.points.front(), end) < 1 ||
           earth::grid_distance_m(met.points.back(), end) < 1;
  };
  // Who has arrived stands at such a thing already, and would be sent back from the end.
  constexpr double at_end_m = 15;
  std::vector<const mapdata::Label*> at_the_end;
  for (const auto& near : index_.near(end, at_end_m)) at_the_end.push_back(&map_.lines[near.ref.line].label);
  const auto like_the_end = [&](const mapdata::Label& label) {
    return std::ranges::any_of(at_the_end, [&](const auto* l) { return l->kind == label.kind && l->name == label.name; });
  };
  for (const auto& c : index_.crossings(from, to)) {
    const auto& met = map_.lines[c.ref.line];
    // Who comes to an edge has gone too far, and what lies behind it is no help either.
    if (met.label.kind == Kind::cliff && !met.tunnel) return std::nullopt;
    if (met.tunnel || !kinds_[met.label.kind].catches || (followed >= 0 && goes_on(met))) continue;
    const auto v = met.points[c.ref.segment + 1] - met.points[c.ref.segment];
    if (std::abs(cross(ahead, v)) / length_of(v) < across_sine) continue;
    double at = 0;
    for (std::uint32_t k = 0; k < c.ref.segment; ++k)
      at += earth::grid_distance_m(met.points[k], met.points[k + 1]);
    at += earth::grid_distance_m(met.points[c.ref.segment], c.at);
    const double beyond = c.at_fraction * (reach_m + line_reach_m) - line_reach_m;
    if (beyond > at_end_m && like_the_end(met.label)) continue;
    return StopFound{met.label.kind, met.label.name, beyond < line_reach_m ? 0.0 : beyond,
                     piece_around(met.points, at, stop_half_m)};
  }
  return std::nullopt;
}

std::vector<DangerFound> Surroundings::dangers(const std::vector<GridPoint>& line,
                                               double reach_m) const {
  std::vector<DangerFound> out;
  const auto add = [&](const DangerFound& found) {
    const auto same =
        std::ranges::find_if(out, [&](const DangerFound& d) { return d.name == found.name; });
    if (same == out.end()) {
      out.push_back(found);
    } else if (found.distance_m < same->distance_m) {
      *same = found;
    }
  };
  const auto consider = [&](GridPoint p, GridPoint heading, bool beyond) {
    for (const auto& near : cliffs_.near(p, reach_m)) {
      const auto off = near.at - p;
      const bool ahead = beyond && off.east_m * heading.east_m + off.north_m * heading.north_m >
                                       0.7 * length_of(off) * length_of(heading);
      add({Kind::cliff, cliff_names_[near.ref.line],
           ahead                     ? Side::none
           : cross(heading, off) > 0 ? Side::left
                                     : Side::right,
           near.distance_m});
    }
  };
  for (std::size_t i = 1; i < line.size(); ++i) {
    const auto v = line[i] - line[i - 1];
    const int pieces = std::max(1, static_cast<int>(length_of(v) / 50));
    for (int k = 0; k < pieces; ++k)
      consider(line[i - 1] + (static_cast<double>(k) / pieces) * v, v, false);
    if (i + 1 == line.size()) consider(line[i], v, true);
  }
  std::ranges::stable_sort(out, {}, &DangerFound::distance_m);
  return out;
}

PlaceFound Surroundings::place(GridPoint at) const {
  PlaceFound best;
  best.distance_m = point_reach_m;
  for (const auto index : points_.near(at, point_reach_m)) {
    const auto& p = map_.points[index];
    if (p.label.kind == Kind::spot_height || p.label.kind == Kind::settlement ||
        p.label.kind == Kind::other || among_houses_[index] != 0)
      continue;
    const double d = earth::grid_distance_m(p.at, at) + (p.label.name.empty() ? 15 : 0);
    if (d < best.distance_m) best = {p.label.kind, Kind::other, p.label.name, "", d};
  }
  if (best.kind != Kind::other) return best;
  auto near = index_.near(at, line_reach_m);
  std::erase_if(near, [&](const mapdata::NearLine& n) {
    const Kind kind = map_.lines[n.ref.line].label.kind;
    return map_.lines[n.ref.line].tunnel || !(kinds_[kind].ticks || is_shape(kind));
  });
  const auto rank = [&](const mapdata::NearLine& n) {
    const Kind kind = map_.lines[n.ref.line].label.kind;
    return is_way(kind) ? 0 : is_shape(kind) ? 2 : 1;
  };
  std::ranges::stable_sort(near, {}, rank);
  best.distance_m = 0;
  for (const auto& n : near) {
    const auto& label = map_.lines[n.ref.line].label;
    if (best.kind == Kind::other) {
      best.kind = label.kind;
      best.name = label.name;
      best.distance_m = n.distance_m;
    } else if (is_shape(label.kind)) {
      break;
    } else if (label.kind != best.kind || label.name != best.name || is_way(label.kind)) {
      best.second = label.kind;
      best.second_name = label.name;
      break;
    }
  }
  return best;
}

}  // namespace lodeway::landmarks
