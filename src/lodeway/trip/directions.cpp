#include "lodeway/trip/directions.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/mapdata/bends.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::trip {

namespace {

using earth::GridPoint;
using mapdata::Kind;
using mapdata::Side;
using reckoning::JudgedLeg;
using units::GridBearing;
using walking::LegKind;
using Line = std::vector<GridPoint>;

// All *practice*:
constexpr double look_m = 30;        // a line's direction where lines part is that of so much of it
constexpr double told_m = 100;       // and what is told of it that of so much
constexpr double touch_m = 2;        // lines so near are one place
constexpr double one_place_m = 15;   // forks so near are one
constexpr double stub_m = 10;        // what goes on for less is no branch
constexpr double soon_deg = 20;      // a line that turns by more within that is told by its look_m
constexpr double same_deg = 12;      // two so alike in direction are one
constexpr double needle_deg = 5;     // *practice*: so well a compass in the hand is held
constexpr double straight_deg = 25, keep_deg = 60, half_deg = 60, sharp_deg = 120, back_deg = 160;
constexpr double from_behind_deg = 150;
constexpr std::size_t most_bends = 4;
constexpr double step_m = 5;         // how finely it is looked where a leg is on its line
constexpr double beside_leg_m = 40;  // a way that is never farther from a leg runs beside it
constexpr double least_fall_m = 2, beside_m = 12, onto_deg = 20;

double turn_deg(GridBearing from, GridBearing to) { return (to - from).in_degrees(); }

/// A way's line up to 100 m from a place, or to its end.
GridBearing bearing_over(const mapdata::Measured& line, double from_m, double by_m) {
  const double to = std::clamp(from_m + by_m, 0.0, line.length_m());
  return earth::grid_bearing(line.at(from_m), line.at(to));
}

/// Of what is told: over 100 m, unless the line turns before.
GridBearing told_bearing(const mapdata::Measured& line, double from_m, double by_m) {
  const auto far = bearing_over(line, from_m, by_m),
             near = bearing_over(line, from_m, std::clamp(by_m, -look_m, look_m));
  return std::abs(turn_deg(near, far)) > soon_deg ? near : far;
}

double distance_m(GridPoint p, std::span<const GridPoint> line) {
  double least = 1e300;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double t = mapdata::nearest_fraction(line[i - 1], line[i], p);
    least = std::min(least,
                     earth::grid_distance_m(line[i - 1] + t * (line[i] - line[i - 1]), p));
  }
  return least;
}

struct Branch {
  double at_m = 0;  ///< along the leg, by the grid
  GridBearing near, told;
  GridPoint looked;  ///< the place on it that `near` leads to
};

Turn turn_of(double deg, std::span<const double> others) {
  if (std::abs(deg) >= back_deg) return Turn::back;
  if (std::abs(deg) <= straight_deg) {
    double nearest = keep_deg;
    Turn out = Turn::straight_on;
    for (const double other : others) {
      if (std::abs(other - deg) >= nearest) continue;
      nearest = std::abs(other - deg);
      out = other > deg ? Turn::keep_left : Turn::keep_right;
    }
    return out;
  }
  // Left and right are told apart by how far only where two leave to the same side.
  const bool alone = std::ranges::none_of(
      others, [&](double other) { return other * deg > 0 && std::abs(other) > straight_deg; });
  const bool right = deg > 0;
  if (std::abs(deg) > sharp_deg) return right ? Turn::sharp_right : Turn::sharp_left;
  if (std::abs(deg) < half_deg && !alone) return right ? Turn::half_right : Turn::half_left;
  return right ? Turn::right : Turn::left;
}

bool may_be_taken(Kind kind, Kind followed) {
  return followed != Kind::other && landmarks::looks_alike(kind, followed) > 0;
}

bool inside(GridPoint p, const Line& ring) {
  bool in = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const auto &a = ring[i], &b = ring[j];
    if ((a.north_m > p.north_m) == (b.north_m > p.north_m)) continue;
    if (p.east_m < a.east_m + (p.north_m - a.north_m) / (b.north_m - a.north_m) *
                                  (b.east_m - a.east_m))
      in = !in;
  }
  return in;
}

struct Box {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  void take(const Line& line) {
    for (const auto& p : line) {
      west = std::min(west, p.east_m);
      east = std::max(east, p.east_m);
      south = std::min(south, p.north_m);
      north = std::max(north, p.north_m);
    }
  }
  [[nodiscard]] bool meets(const Box& b) const {
    return west <= b.east && b.west <= east && south <= b.north && b.south <= north;
  }
};

class Finder {
 public:
  Finder(std::span<const std::vector<const JudgedLeg*>> ways, const walking::Ground& ground)
      : ground_(ground) {
    Box all;
    for (const auto& way : ways) {
      for (const auto* leg : way) all.take(leg->course.line);
    }
    for (const auto& line : ground.map.lines) {
      if (line.tunnel || !ground.kinds[line.label.kind].leads) continue;
      Box box;
      box.take(line.points);
      if (box.meets(all)) lines_.push_back(line);
    }
    index_ = mapdata::LineIndex(lines_);
    for (const auto& line : lines_) measured_.emplace_back(line.points);
  }

  [[nodiscard]] std::vector<Directions> of(const std::vector<const JudgedLeg*>& way) const {
    std::vector<Directions> out;
    for (std::size_t i = 0; i < way.size(); ++i)
      out.push_back(of(i > 0 ? way[i - 1] : nullptr, *way[i],
                       i + 1 < way.size() ? way[i + 1] : nullptr));
    return out;
  }

 private:
  /// What a leg follows, and what the next one does: lines like these are taken for the way.
  struct Followed {
    Kind here = Kind::other, next = Kind::other;
    [[nodiscard]] bool like(Kind kind) const {
      // From bearing to bearing nothing is followed, and any path, track or road could be.
      if (here == Kind::other && next == Kind::other) return walking::is_path(kind);
      return may_be_taken(kind, here) || may_be_taken(kind, next);
    }
  };

  /// The part of a leg along a line that is on it: who starts or ends beside it steps on or off.
  struct OnLine {
    double from_m = 0, to_m = 0;
  };
  [[nodiscard]] OnLine on_line(const walking::Course& course, const mapdata::Measured& own) const {
    const double length = own.length_m();
    const auto on = [&](double at_m) {
      return std::ranges::any_of(index_.near(own.at(at_m), touch_m), [&](const auto& near) {
        return may_be_taken(lines_[near.ref.line].label.kind, course.followed.kind);
      });
    };
    const auto first = [&](bool from_end) {
      for (double off = 0; off < length; off += step_m) {
        const double at = from_end ? length - off : off;
        if (on(at) && on(std::clamp(from_end ? at - step_m : at + step_m, 0.0, length))) return at;
      }
      return from_end ? length : 0.0;
    };
    return {first(false), first(true)};
  }

  /// Where lines that could be taken for the way leave the leg, by distance along it.
  [[nodiscard]] std::vector<Branch> branches(const walking::Course& course,
                                             const mapdata::Measured& own, Followed followed,
                                             OnLine on_it) const {
    struct Touch {
      std::uint32_t line;
      double at_m, along_m;
    };
    std::vector<Touch> touches;
    const auto alike = [&](std::uint32_t line) {
      return followed.like(lines_[line].label.kind);
    };
    const auto near = [&](GridPoint p, double at_m, double within_m) {
      for (const auto& on : index_.near(p, within_m)) {
        if (alike(on.ref.line)) touches.push_back({on.ref.line, at_m, on.along_m});
      }
    };
    const auto& line = course.line;
    const auto at = own.distances();
    const bool along = course.kind == LegKind::along;
    for (std::size_t i = 0; i < line.size(); ++i) {
      const bool last = i + 1 == line.size();
      if (along || last) near(line[i], at[i], last ? one_place_m : touch_m);
      if (!along || i + 1 == line.size()) continue;
      for (const auto& met : index_.crossings(line[i], line[i + 1])) {
        if (!alike(met.ref.line)) continue;
        const double from = measured_[met.ref.line].distances()[met.ref.segment];
        touches.push_back(
            {met.ref.line, at[i] + met.at_fraction * (at[i + 1] - at[i]),
             from + earth::grid_distance_m(lines_[met.ref.line].points[met.ref.segment], met.at)});
      }
    }
    std::vector<Branch> out;
    for (const auto& touch : touches) {
      const auto& other = measured_[touch.line];
      const auto window = own.piece(std::max(0.0, touch.at_m - 2.5 * look_m),
                                    std::min(own.length_m(), touch.at_m + 2.5 * look_m));
      for (const double way : {1.0, -1.0}) {
        double left = way > 0 ? other.length_m() - touch.along_m : touch.along_m;
        // Where the leg's own line goes on behind its start or end it is no branch on the way.
        for (const double border : {on_it.from_m, on_it.to_m}) {
          const double away = std::abs(border - touch.at_m);
          if (away > step_m && away < std::min(left, look_m) &&
              earth::grid_distance_m(other.at(touch.along_m + way * away), own.at(border)) <
                  touch_m + 0.1 * away)
            left = away;
        }
        if (left < stub_m) continue;
        const double reach = std::min(look_m, left);
        const auto p = other.at(touch.along_m + way * reach);
        if (distance_m(p, window) < 0.25 * reach) continue;  // it goes where the leg goes
        out.push_back({touch.at_m, bearing_over(other, touch.along_m, way * reach),
                       told_bearing(other, touch.along_m, way * std::min(told_m, left)), p});
      }
    }
    std::ranges::stable_sort(out, {}, &Branch::at_m);
    return out;
  }

  /// The fork of those within one place, `from` to `to` of them; nothing where none may be taken.
  /// `onto_line` false: the way goes over open ground, and a line that leads the same way is wrong.
  static std::optional<Fork> fork_of(std::span<const Branch> here, GridBearing come, GridBearing go,
                                     GridBearing told, bool all_ways, bool onto_line = true) {
    std::vector<const Branch*> wrong;
    for (const auto& branch : here) {
      const double deg = turn_deg(come, branch.near);
      if (!all_ways && std::abs(deg) > from_behind_deg) continue;
      if ((onto_line && std::abs(turn_deg(go, branch.near)) < same_deg) ||
          std::abs(turn_deg(come.back(), branch.near)) < same_deg)
        continue;
      if (std::ranges::any_of(wrong, [&](const Branch* b) {
            return std::abs(turn_deg(b->near, branch.near)) < same_deg;
          }))
        continue;
      wrong.push_back(&branch);
    }
    if (wrong.empty()) return std::nullopt;
    Fork out;
    out.taken = told;
    std::vector<double> others;
    for (const auto* branch : wrong) {
      others.push_back(turn_deg(come, branch->near));
      out.wrong.push_back(branch->told);
    }
    out.turn = turn_of(turn_deg(come, go), others);
    std::ranges::sort(out.wrong, {}, [](GridBearing b) { return b.in_degrees(); });
    return out;
  }

  /// The forks of a leg along a line, where the line is left for its end, and where it is met from a
  /// start beside it.
  static std::vector<Fork> on_the_way(const std::vector<Branch>& all, const mapdata::Measured& own,
                                      OnLine on_it) {
    std::vector<Fork> out;
    const double length = own.length_m();
    const auto come_to = [&](double at) { return bearing_over(own, at, -std::min(look_m, at)).back(); };
    const bool begins_beside = on_it.from_m > one_place_m,
               ends_beside = on_it.to_m < length - one_place_m;
    const auto at_border = [&](double at, double border) { return std::abs(at - border) <= one_place_m; };
    if (begins_beside) {
      const double at = on_it.from_m;
      std::vector<Branch> here;
      std::ranges::copy_if(all, std::back_inserter(here), [&](const Branch& b) { return at_border(b.at_m, at); });
      const auto come = come_to(at), go = bearing_over(own, at, look_m);
      auto fork = fork_of(here, come, go, told_bearing(own, at, told_m), true);
      if (!fork) {
        fork.emplace();
        fork->turn = turn_of(turn_deg(come, go), {});
        fork->taken = told_bearing(own, at, told_m);
      }
      fork->at_m = at;
      fork->met = true;
      out.push_back(*std::move(fork));
    }
    for (std::size_t i = 0; i < all.size();) {
      std::size_t end = i + 1;
      while (end < all.size() && all[end].at_m - all[i].at_m <= one_place_m) ++end;
      const double at = all[i].at_m;
      const std::span here(all.begin() + static_cast<std::ptrdiff_t>(i), end - i);
      i = end;
      const bool off = ends_beside && at_border(at, on_it.to_m);
      if (at <= on_it.from_m + one_place_m || (at >= on_it.to_m - one_place_m && !off)) continue;
      auto fork = fork_of(here, come_to(at), bearing_over(own, off ? on_it.to_m : at, look_m),
                          told_bearing(own, off ? on_it.to_m : at, told_m), false);
      if (!fork) continue;
      fork->at_m = off ? on_it.to_m : at;
      if (off) fork->turn = Turn::leave_for_end;
      out.push_back(*std::move(fork));
    }
    return out;
  }

  /// Which of the ways that part at a leg's end is the next leg's, or that none is.
  [[nodiscard]] std::optional<Fork> at_end(const std::vector<Branch>& all, const JudgedLeg& leg,
                                           const mapdata::Measured& own,
                                           const JudgedLeg& next) const {
    const double length = own.length_m();
    const mapdata::Measured on(next.course.line);
    const auto from = std::ranges::lower_bound(all, length - one_place_m, {}, &Branch::at_m);
    std::vector<Branch> here(from, all.end());
    const auto start = on.piece(0, 2.5 * look_m);
    const bool goes_along = next.course.kind == LegKind::along;
    if (goes_along)
      std::erase_if(here, [&](const Branch& b) {
        return distance_m(b.looked, start) < 0.25 * look_m;
      });
    const auto& needle = next.judged.needle;
    const auto go = needle ? needle->bearing : bearing_over(on, 0, look_m);
    // Who has aimed off comes along the line that was met.
    const auto come = leg.judged.after && leg.judged.needle
                          ? earth::grid_bearing(leg.judged.needle->aim, leg.course.line.back())
                          : bearing_over(own, length, -std::min(look_m, length)).back();
    auto out =
        fork_of(here, come, go, needle ? go : told_bearing(on, 0, told_m), true, goes_along);
    if (!out || goes_along) return out;
    out->turn = leg.course.kind == LegKind::along ? Turn::leave : Turn::bearing;
    // What sets out beside the needle is no wrong way that a compass could tell. Where the way that was
    // followed is left it is one from a few degrees on.
    const bool leaves = out->turn == Turn::leave;
    out->beside_all_along = !leaves && way_beside(on);
    const double near = leaves ? needle_deg : out->beside_all_along ? straight_deg : same_deg;
    const auto [first, last] = std::ranges::partition(
        out->wrong, [&](GridBearing b) { return std::abs(turn_deg(go, b)) >= near; });
    out->beside.assign(first, last);
    out->wrong.erase(first, last);
    std::ranges::sort(out->wrong, {}, [](GridBearing b) { return b.in_degrees(); });
    return out;
  }

  /// Does a path, track or road run beside the whole of a leg?
  [[nodiscard]] bool way_beside(const mapdata::Measured& leg) const {
    for (double at = 0; at <= leg.length_m(); at += look_m) {
      if (std::ranges::none_of(index_.near(leg.at(at), beside_leg_m), [&](const auto& near) {
            return walking::is_path(lines_[near.ref.line].label.kind);
          }))
        return false;
    }
    return true;
  }

  [[nodiscard]] Directions of(const JudgedLeg* before, const JudgedLeg& leg,
                              const JudgedLeg* next) const {
    Directions out;
    const auto& course = leg.course;
    if (course.line.size() < 2) return out;
    const mapdata::Measured own(course.line);
    const double length = own.length_m();
    if (!(length > 0)) return out;
    const double scale = leg.figures.length_m > 0 ? leg.figures.length_m / length : 1;
    const bool along = course.kind == LegKind::along;
    const Followed followed{course.followed.kind,
                            next != nullptr ? next->course.followed.kind : Kind::other};
    const auto on_it = along ? on_line(course, own) : OnLine{0, length};
    const auto all = branches(course, own, followed, on_it);
    if (along) out.forks = on_the_way(all, own, on_it);
    for (auto& fork : out.forks) fork.at_m *= scale;
    if (next != nullptr && next->course.line.size() > 1) {
      out.at_end = at_end(all, leg, own, *next);
      if (out.at_end) out.at_end->at_m = length * scale;
    }
    if (along) {
      out.bends = bends_of(course.line, scale);
      out.flow = flow_of(course);
      out.keeps = side_of(before, leg, next);
    }
    return out;
  }

  static std::vector<MainBend> bends_of(const Line& line, double scale) {
    auto all = mapdata::main_bends(line);
    std::ranges::stable_sort(all, std::greater{},
                             [](const mapdata::BendMet& b) { return std::abs(b.turn_deg); });
    if (all.size() > most_bends) all.resize(most_bends);
    std::ranges::sort(all, {}, &mapdata::BendMet::at_m);
    std::vector<MainBend> out;
    for (const auto& bend : all) 
      out.push_back({bend.at_m * scale, bend.after, bend.turn_deg > 0 ? Side::right : Side::left});
    return out;
  }

  [[nodiscard]] Flow flow_of(const walking::Course& course) const {
    const auto kind = course.followed.kind;
    if (kind != Kind::stream && kind != Kind::river && kind != Kind::ditch) return Flow::none;
    const double rise = terrain::height_at(ground_.elevation, course.line.back()) -
                        terrain::height_at(ground_.elevation, course.line.front());
    if (std::abs(rise) >= least_fall_m) return rise > 0 ? Flow::upstream : Flow::downstream;
    if (kind == Kind::ditch) return Flow::none;
    // In a flat valley as the map draws it: water downstream.
    const mapdata::Measured own(course.line);
    const double middle = 0.5 * own.length_m();
    for (const auto& near : index_.near(own.at(middle), touch_m)) {
      if (lines_[near.ref.line].label.kind != kind) continue;
      const auto& water = measured_[near.ref.line];
      const double deg = turn_deg(bearing_over(own, middle - step_m, 2 * step_m),
                                  bearing_over(water, std::max(near.along_m - step_m, 0.0), 2 * step_m));
      return std::abs(deg) < 90 ? Flow::downstream : Flow::upstream;
    }
    return Flow::none;
  }

  /// Of a wood or a lake the side where it is; of what a party walks beside the side that asks for
  /// no crossing: who turns right onto a wall has it on the left.
  [[nodiscard]] Side side_of(const JudgedLeg* before, const JudgedLeg& leg,
                             const JudgedLeg* next) const {
    const auto kind = leg.course.followed.kind;
    const mapdata::Measured own(leg.course.line);
    if (kind == Kind::wood_edge || kind == Kind::shore) return surface_side(own, kind);
    constexpr std::array beside{Kind::wall,  Kind::fence,   Kind::hedge, Kind::stream,
                                Kind::river, Kind::railway, Kind::ditch};
    if (std::ranges::find(beside, kind) == beside.end()) return Side::none;
    const auto onto = [&](const JudgedLeg* from, const JudgedLeg* to) {
      if (from == nullptr || to == nullptr || from->course.line.size() < 2 ||
          to->course.line.size() < 2)
        return Side::none;
      const mapdata::Measured a(from->course.line), b(to->course.line);
      const double deg = turn_deg(bearing_over(a, a.length_m(), -look_m).back(),
                                  bearing_over(b, 0, look_m));
      if (std::abs(deg) < onto_deg || std::abs(deg) > back_deg) return Side::none;
      return deg > 0 ? Side::left : Side::right;
    };
    const auto in = onto(before, &leg);
    if (in != Side::none) return in;
    const auto off = onto(&leg, next);
    return off != Side::none || (kind != Kind::stream && kind != Kind::river) ? off
                                                                              : fewer_join(leg, own);
  }

  /// The hand on which water is kept by who walks where less other water joins it.
  [[nodiscard]] Side fewer_join(const JudgedLeg& leg, const mapdata::Measured& own) const {
    std::array<int, 2> joins{};  // from the left, from the right
    for (std::size_t l = 0; l < lines_.size(); ++l) {
      if (!may_be_taken(lines_[l].label.kind, leg.course.followed.kind)) continue;
      const auto& water = measured_[l];
      for (const double end : {0.0, water.length_m()}) {
        const auto mouth = water.at(end), up = water.at(end > 0 ? end - look_m : look_m);
        if (distance_m(mouth, leg.course.line) > touch_m || distance_m(up, leg.course.line) < stub_m)
          continue;
        for (double at = 0; at + step_m <= own.length_m(); at += step_m) {
          const auto a = own.at(at), b = own.at(at + step_m);
          if (earth::grid_distance_m(a, mouth) > step_m + touch_m) continue;
          ++joins[mapdata::cross(b - a, up - mouth) > 0 ? 0 : 1];
          break;
        }
      }
    }
    if (joins[0] == joins[1]) return Side::none;
    return joins[0] < joins[1] ? Side::right : Side::left;
  }

  [[nodiscard]] Side surface_side(const mapdata::Measured& own, Kind edge) const {
    int left = 0, right = 0;
    for (const double share : {0.25, 0.5, 0.75}) {
      const double at = share * own.length_m();
      const auto along = bearing_over(own, at, look_m).in_radians();
      const GridPoint to_right{std::cos(along), -std::sin(along)};
      for (const auto& area : ground_.map.areas) {
        const auto kind = area.label.kind;
        if (edge == Kind::wood_edge ? kind != Kind::wood
                                    : kind != Kind::lake && kind != Kind::sea)
          continue;
        const auto in = [&](double by) {
          const auto p = own.at(at) + by * to_right;
          return inside(p, area.outer) &&
                 std::ranges::none_of(area.holes, [&](const Line& h) { return inside(p, h); });
        };
        left += in(-beside_m) ? 1 : 0;
        right += in(beside_m) ? 1 : 0;
      }
    }
    if ((left > 0) == (right > 0)) return Side::none;
    return left > 0 ? Side::left : Side::right;
  }

  const walking::Ground& ground_;
  std::vector<mapdata::LineFeature> lines_;
  std::vector<mapdata::Measured> measured_;
  mapdata::LineIndex index_;
};

}  // namespace

GridBearing sets_out(const std::vector<GridPoint>& line) {
  return told_bearing(mapdata::Measured(line), 0, told_m);
}

std::vector<std::vector<Directions>> directions_of(
    std::span<const std::vector<const JudgedLeg*>> ways, const walking::Ground& ground) {
  const Finder finder(ways, ground);
  std::vector<std::vector<Directions>> out;
  for (const auto& way : ways) out.push_back(finder.of(way));
  return out;
}

}  // namespace lodeway::trip
