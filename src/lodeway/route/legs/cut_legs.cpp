#include "lodeway/route/legs/cut_legs.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/route/legs/open_stretch.hpp"
#include "lodeway/route/legs/told_legs.hpp"
#include "lodeway/route/legs/turn_reasons.hpp"
#include "lodeway/walking/course.hpp"
#include "lodeway/walking/long_leg.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Course;
using walking::Leg;
using walking::LegKind;

// All *practice*:
constexpr double short_gap_m = 60;  // off a path for less than this is not a leg of its own
constexpr double short_leg_m = 60, corner_cut_m = 120;
constexpr double sharp_turn_deg = 50;
constexpr double joint_reach_m = 300;  // a path is left or met rather at a thing to see this near,
constexpr double joint_worth_s = 90;   // when it costs no more than this
constexpr double least_part_m = 300;    // no part of a long handrail is shorter
constexpr double stops_surely =
    0.98;  // where a party stops so surely: to miss it is to lose the leg
constexpr double missed_stop_s = 1800;  // what a missed end costs, as in leg_worth.cpp
constexpr double unnamed_end_s = 60;

double length(const std::vector<GridPoint>& p) { return mapdata::length_m(p); }

const mapdata::LineFeature* line_of(const Cutting& c, const Piece& piece) {
  return piece.line == no_parent ? nullptr : &c.ground.map.lines[piece.line];
}

void append(std::vector<GridPoint>& to, const std::vector<GridPoint>& more) {
  to.insert(to.end(), more.begin() + (to.empty() ? 0 : 1), more.end());
}

/// Do two lines end where they meet, and does nothing like them lead on from there? The map cuts one
/// thing at its bend; no leader does.
bool one_bent(const Cutting& c, std::uint32_t a, std::uint32_t b, GridPoint at) {
  constexpr double there_m = 3;
  const auto ends = [&](std::uint32_t line) {
    const auto& p = c.ground.map.lines[line].points;
    return earth::grid_distance_m(p.front(), at) < there_m ||
           earth::grid_distance_m(p.back(), at) < there_m;
  };
  const auto kind = c.ground.map.lines[a].label.kind;
  return ends(a) && ends(b) &&
         std::ranges::none_of(c.around.lines().near(at, there_m), [&](const auto& near) {
           const auto other = near.ref.line;
           return other != a && other != b &&
                  landmarks::looks_alike(c.ground.map.lines[other].label.kind, kind) > 0;
         });
}

/// Pieces joined where a gap is short, or the same thing is followed on straight ahead or round a
/// bend where nothing else leads.
std::vector<Piece> merged(const Cutting& c, const RawPath& path) {
  std::vector<Piece> out;
  const auto turn_deg = [](const Piece& a, const Piece& b) {
    const auto in = earth::grid_bearing(a.points[a.points.size() - 2], a.points.back());
    return std::abs((earth::grid_bearing(b.points[0], b.points[1]) - in).in_degrees());
  };
  std::uint32_t line_before = no_parent;  // of the piece before, joined or not
  for (const auto& piece : path.pieces) {
    if (piece.points.size() < 2) continue;
    const auto came_on = std::exchange(line_before, piece.line);
    if (out.empty()) {
      out.push_back(piece);
      continue;
    }
    auto& last = out.back();
    const auto *a = line_of(c, last), *b = line_of(c, piece);
    const bool same = (a == nullptr && b == nullptr) ||
                      (a != nullptr && b != nullptr && a->label.kind == b->label.kind &&
                       a->label.name == b->label.name &&
                       (!a->label.name.empty() || turn_deg(last, piece) < sharp_turn_deg ||
                        (came_on != no_parent &&
                         one_bent(c, came_on, piece.line, piece.points.front()))));
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
  // A stub along a line is walked with what comes before it, at the start with what comes after.
  while (out.size() > 1 && length(out[0].points) < short_leg_m && out[0].line != no_parent &&
         out[1].line != no_parent) {
    append(out[0].points, out[1].points);
    out[0].line = out[1].line;
    out.erase(out.begin() + 1);
  }
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

/// A line up to `at` metres along it, or from there on.
std::vector<GridPoint> head(const std::vector<GridPoint>& line, double at) {
  std::vector<GridPoint> out{line.front()};
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece = earth::grid_distance_m(line[i - 1], line[i]);
    if (piece >= at) {
      out.push_back(line[i - 1] + (at / piece) * (line[i] - line[i - 1]));
      return out;
    }
    at -= piece;
    out.push_back(line[i]);
  }
  return out;
}
std::vector<GridPoint> reversed(std::vector<GridPoint> line) {
  std::ranges::reverse(line);
  return line;
}
std::vector<GridPoint> tail(const std::vector<GridPoint>& line, double at) {
  return reversed(head(reversed(line), length(line) - at));
}

/// Things to see along a line that is followed: not mere changes of slope.
std::vector<landmarks::Sighting> things_along(const Cutting& c, const std::vector<GridPoint>& line,
                                              std::uint32_t followed) {
  using landmarks::Meeting;
  auto out = c.around.along(line, static_cast<int>(followed), c.request.party.visibility, 60);
  std::erase_if(out, [](const landmarks::Sighting& s) {
    return s.meeting != Meeting::crosses && s.meeting != Meeting::joins &&
           s.meeting != Meeting::passes;
  });
  return out;
}

bool told_apart(const landmarks::PlaceFound& place) {
  return place.second != mapdata::Kind::other ||
         (place.kind >= mapdata::Kind::building && place.kind != mapdata::Kind::other);
}

double walk_along_s(const Cutting& c, const std::vector<GridPoint>& line) {
  double seconds = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double rise = terrain::height_at(c.ground.elevation, line[i]) -
                        terrain::height_at(c.ground.elevation, line[i - 1]);
    const double run = earth::grid_distance_m(line[i - 1], line[i]);
    if (run <= 0) continue;
    seconds += static_cast<double>(c.prepared.pace.step_s(
        static_cast<float>(run), std::isfinite(rise) ? static_cast<float>(rise) : 0.0F, 1.0F));
  }
  return seconds;
}

/// Where a followed line and an open leg meet: `line` runs away from the joint, `corner` is the
/// open leg's other end. Returns how far along it the joint is better placed, at a thing to see; 0
/// to stay.
double better_joint_m(const Cutting& c, const Piece& line, GridPoint corner, bool leaving) {
  if (told_apart(c.around.place(line.points.front()))) return 0;
  const auto near = head(line.points, std::min(joint_reach_m, length(line.points) - short_leg_m));
  const auto straight = [&](GridPoint p) {
    return leaving ? straight_s(c, p, corner) : straight_s(c, corner, p);
  };
  const double now = straight(line.points.front());
  if (now >= static_cast<double>(unreached_s)) return 0;
  double best_m = 0, least = joint_worth_s;
  for (const auto& s : things_along(c, near, line.line)) {
    const auto part = head(line.points, s.at_m);
    const double old_s = now + walk_along_s(c, leaving ? reversed(part) : part);
    const double more = straight(part.back()) - old_s;
    if (more < least) {
      least = more;
      best_m = s.at_m;
    }
  }
  return best_m;
}

/// Moves the joints between what is followed and what is open to things to see.
void place_joints(const Cutting& c, std::vector<Piece>& parts) {
  for (std::size_t i = 0; i + 1 < parts.size(); ++i) {
    auto &a = parts[i], &b = parts[i + 1];
    if ((a.line == no_parent) == (b.line == no_parent)) continue;
    if (b.line == no_parent) {
      const Piece back{a.line, reversed(a.points)};
      if (length(a.points) < 2 * short_leg_m) continue;
      if (const double m = better_joint_m(c, back, b.points[1], true); m > 0) {
        a.points = reversed(tail(back.points, m));
        b.points.front() = a.points.back();
      }
    } else if (length(b.points) >= 2 * short_leg_m) {
      const double m = better_joint_m(c, b, a.points[a.points.size() - 2], false);
      if (m > 0) {
        b.points = tail(b.points, m);
        a.points.back() = b.points.front();
      }
    }
  }
}

/// A place on a long handrail where a leg may end.
struct PartEnd {
  double at_m = 0, minutes = 0;  ///< from the piece's start
  double costs_s = 0;            ///< to stop there beside a leg's own cost: missed, unseen, unnamed
  bool unsure = false;           ///< only where the leg would be too long else
};

/// Minutes to each of the places along a line that is followed, and to its end.
std::vector<double> minutes_along(const Cutting& c, const Piece& piece,
                                  const std::vector<landmarks::Sighting>& places) {
  auto course = course_of(c, LegKind::along, piece.points, followed_on(piece));
  std::vector<double> out;
  const auto add = [&](std::vector<GridPoint> line) {
    const double before = out.empty() ? 0 : out.back();
    course.line = std::move(line);
    out.push_back(before + walking::figures_of(course, c.ground, c.request.party).minutes);
  };
  double from = 0;
  for (const auto& p : places) {
    add(tail(head(piece.points, p.at_m), from));
    from = p.at_m;
  }
  add(tail(piece.points, from));
  return out;
}

std::vector<PartEnd> ends_along(const Cutting& c, const Piece& piece) {
  auto things = things_along(c, piece.points, piece.line);
  const double total = length(piece.points);
  std::erase_if(things, [&](const landmarks::Sighting& s) {
    return s.at_m < least_part_m || s.at_m > total - least_part_m;
  });
  const auto minutes = minutes_along(c, piece, things);
  const auto errors = reckoning::errors_of(c.request.party);
  const auto chances = sight::chances_of(c.request.party);
  std::vector<PartEnd> out;
  for (std::size_t i = 0; i < things.size(); ++i) {
    const auto& s = things[i];
    // By the count since what was ticked off before it, or known in passing.
    const double known = chances.of(sight::ChanceOf::know, s.kind);
    const double by_count = reckoning::passes_within(
        reckoning::handrail_sigma_m(errors, s.at_m - (i > 0 ? things[i - 1].at_m : 0)), 0,
        reckoning::Habits{}.near_enough_m);
    const double stops = known + (1 - known) * by_count;
    // A bend of what is followed, or nothing, is no end unless the leg is too long without it.
    const auto place = c.around.place(mapdata::point_along(piece.points, s.at_m));
    const bool marked = place.kind != mapdata::Kind::other &&
                        (place.second != mapdata::Kind::other || !walking::is_path(place.kind));
    out.push_back({s.at_m, minutes[i],
                   missed_stop_s * -std::log(std::max(stops, 1e-3)) + (marked ? 0 : unseen_end_s) +
                       (s.name.empty() ? unnamed_end_s : 0),
                   stops < stops_surely || !marked});
  }
  out.push_back({total, minutes.back(), 0, false});
  return out;
}

/// Seconds that a part is dearer for its length: beyond what a leader keeps in the head as much as
/// it takes longer, beyond the longest ten times that.
double too_long_s(double minutes, double metres) {
  const double more_min =
      metres > walking::long_leg_m ? minutes * (1 - walking::long_leg_m / metres) : 0;
  return 60 * (std::max(minutes - walking::in_the_head_min, 0.0) +
               10 * std::max({minutes - walking::long_leg_min, more_min, 0.0}));
}

/// A long handrail in parts, each ending at something to see, by the least sum of what each part
/// costs; whole where there is nothing. An end that is not sure is taken only to keep within the
/// longest.
std::vector<std::vector<GridPoint>> parts_of_long(const Cutting& c, const Piece& piece) {
  const auto course = course_of(c, LegKind::along, piece.points, followed_on(piece));
  if (length(piece.points) <= walking::long_leg_m &&
      walking::figures_of(course, c.ground, c.request.party).minutes <= walking::in_the_head_min)
    return {piece.points};
  const auto ends = ends_along(c, piece);
  struct Best {
    double sum_s = 0;
    std::size_t before = 0;  ///< 0: the start, else one more than its index
  };
  std::vector<Best> best(ends.size());
  for (std::size_t j = 0; j < ends.size(); ++j) {
    const auto from = [&](double at_m, double minutes, bool unsure) {
      const double m = ends[j].minutes - minutes, metres = ends[j].at_m - at_m;
      return leg_costs_s + ends[j].costs_s + too_long_s(m, metres) +
             (unsure ? missed_stop_s : 0);
    };
    best[j] = {from(0, 0, ends[j].unsure), 0};
    for (std::size_t i = 0; i < j; ++i) {
      const double sum = best[i].sum_s + from(ends[i].at_m, ends[i].minutes, ends[j].unsure);
      if (sum < best[j].sum_s) best[j] = {sum, i + 1};
    }
  }
  std::vector<double> cuts;
  for (auto j = best.back().before; j > 0; j = best[j - 1].before) cuts.push_back(ends[j - 1].at_m);
  std::vector<std::vector<GridPoint>> out;
  double from = 0;
  for (auto at = cuts.rbegin(); at != cuts.rend(); ++at) {
    out.push_back(tail(head(piece.points, *at), from));
    from = *at;
  }
  out.push_back(from > 0 ? tail(piece.points, from) : piece.points);
  return out;
}

std::string end_name(const Cutting& c, GridPoint at, bool along_both) {
  const bool german = c.language == units::Language::german;
  const auto place = c.around.place(at);
  const auto name = landmarks::words(place, c.language);
  if (name.empty()) return german ? "Knick ohne Marke" : "unmarked turn";
  if (along_both && place.second == mapdata::Kind::other && walking::is_path(place.kind))
    return (german ? "Knick: " : "bend of ") + name;
  return name;
}

}  // namespace

std::vector<Course> cut_piece(const Cutting& c, const Piece& piece) {
  std::vector<Course> out;
  const bool along = piece.line != no_parent;
  const auto add = [&](std::vector<GridPoint> line) {
    auto next = course_of(c, along ? LegKind::along : LegKind::bearing, std::move(line),
                          followed_on(piece));
    if (!out.empty()) next.from = out.back().to = end_name(c, out.back().line.back(), along);
    out.push_back(std::move(next));
  };
  if (along) {
    for (auto& line : parts_of_long(c, piece)) add(std::move(line));
  } else {
    auto corners = piece.points;
    mend_turns(c, corners);
    for (std::size_t i = 1; i < corners.size(); ++i) add({corners[i - 1], corners[i]});
  }
  return out;
}

void name_apart(std::vector<Leg>& legs, units::Language language) {
  for (std::size_t i = 0; i + 1 < legs.size(); ++i) {
    auto& to = legs[i].course.to;
    if (to != legs[i].course.from) continue;
    to = language == units::Language::german ? to + " (der nächste Ort)" : "next " + to;
    legs[i + 1].course.from = to;
  }
}

std::vector<Leg> legs_of(const Cutting& c, const std::vector<Piece>& pieces,
                         const std::string& from, const std::string& to) {
  std::vector<Leg> out;
  const Piece* before = nullptr;
  for (const auto& piece : pieces) {
    const auto* told = c.told != nullptr ? c.told->find(piece) : nullptr;
    std::vector<Leg> legs;
    if (told != nullptr) {
      legs = *told;
    } else {
      for (auto& course : cut_piece(c, piece))
        legs.push_back(described(c, std::move(course), followed_on(piece)));
    }
    if (legs.empty()) continue;
    auto& first = legs.front().course;
    if (before == nullptr) {
      first.from = from;
    } else {
      auto& last = out.back().course;
      first.from = last.to =
          end_name(c, last.line.back(), before->line != no_parent && piece.line != no_parent);
    }
    before = &piece;
    std::ranges::move(legs, std::back_inserter(out));
  }
  if (!out.empty()) out.back().course.to = to;
  tell_turns(c, out);
  return out;
}

std::vector<Leg> cut_legs(const Cutting& c, const RawPath& path, const std::string& from,
                          const std::string& to) {
  auto parts = merged(c, path);
  for (auto& part : parts) {
    if (part.line == no_parent) part.points = corners(c, part.points);
  }
  place_joints(c, parts);
  return legs_of(c, parts, from, to);
}

}  // namespace lodeway::route
