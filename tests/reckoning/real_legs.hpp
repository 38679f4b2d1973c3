#pragma once
/// Random legs of every kind on a ground that is not made for it.
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

#include "lodeway/landmarks/handrails.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/result/overloaded.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::reckoning::real {

using earth::GridPoint;

/// How an end is found, as the tables name it.
inline std::string kind_of(const End& end) {
  const auto either = [](bool marked, const char* by_mark, const char* by_count) -> std::string {
    return marked ? by_mark : by_count;
  };
  return std::visit(
      result::overloaded{
          [](const OnNeedle&) { return std::string("turn"); },
          [](const AtMark&) { return std::string("point"); },
          [&](const AtLine& e) {
            return either(e.mark.has_value(), "line, along it to a mark", "line, by count");
          },
          [&](const ByHandrail& e) {
            return either(e.mark.has_value(), "handrail to a mark", "handrail by count");
          }},
      end);
}

/// A way of one leg, or of two where the second may start unsure of itself.
struct Drawn {
  walking::Way way;
};

class Drawer {
 public:
  Drawer(const walking::Ground& ground, const landmarks::Fixes& fixes, std::uint64_t seed)
      : ground_(ground),
        fixes_(fixes),
        rails_(landmarks::handrails(fixes, ground.map)),
        random_(seed, 0) {}

  [[nodiscard]] double between(double a, double b) { return a + (b - a) * random_.uniform(); }
  [[nodiscard]] std::size_t index(std::size_t n) {
    return std::min(static_cast<std::size_t>(random_.uniform() * static_cast<double>(n)), n - 1);
  }
  /// Nothing: this draw leads out of the ground or over a void.
  [[nodiscard]] std::optional<Drawn> draw(int sort, const walking::Party& party) {
    Drawn d;
    if (sort % 5 == 4) return handrail(party);
    const GridPoint end = sort % 5 == 1
                              ? on_some_line()
                              : fixes_[static_cast<std::uint32_t>(index(fixes_.all().size()))].at;
    const double bearing = between(0, 2 * std::numbers::pi);
    const GridPoint from = end - between(120, 900) * towards(bearing);
    if (sort % 5 == 2) {
      const double turn = bearing + between(0.3, 1.5) * (random_.uniform() < 0.5 ? 1 : -1);
      const GridPoint start = from - between(150, 700) * towards(turn);
      if (!add(d.way, {start, from}, party)) return std::nullopt;
    } else if (sort % 5 == 3) {
      const GridPoint on = on_some_line();
      if (!add(d.way, {on - between(150, 700) * towards(between(0, 6.28)), on}, party))
        return std::nullopt;
      if (!add(d.way, {on, end_near(on)}, party)) return std::nullopt;
      return d;
    }
    if (!add(d.way, {from, end}, party)) return std::nullopt;
    return d;
  }

 private:
  static GridPoint towards(double bearing) { return {std::sin(bearing), std::cos(bearing)}; }
  GridPoint on_some_line() {
    const auto& edges = fixes_.network().edges();
    const auto& e = edges[index(edges.size())];
    return mapdata::Measured(e.points).at(e.length_m * random_.uniform());
  }
  /// Some fix 120 to 900 m off, or a place there.
  GridPoint end_near(GridPoint p) {
    auto near = fixes_.near(p, 900);
    std::erase_if(near,
                  [&](std::uint32_t i) { return earth::grid_distance_m(fixes_[i].at, p) < 120; });
    if (near.empty()) return p + between(120, 900) * towards(between(0, 6.28));
    return fixes_[near[index(near.size())]].at;
  }
  std::optional<Drawn> handrail(const walking::Party& party) {
    const auto& rail = rails_[index(rails_.size())];
    if (rail.length_m < 150) return std::nullopt;
    Drawn d;
    double from = between(0, rail.length_m - 120), to = from + between(100, 1500);
    if (!rail.ticks.empty() && random_.uniform() < 0.5)
      to = rail.ticks[index(rail.ticks.size())].at_m;
    to = std::min(to, rail.length_m);
    if (to - from < 80) return std::nullopt;
    if (!add(d.way, mapdata::Measured(rail.points).piece(from, to), party)) return std::nullopt;
    auto& leg = d.way.legs.back();
    leg.course.kind = walking::LegKind::along;
    leg.course.followed.kind = rail.kind;
    for (const auto& t : rail.ticks) {
      if (t.at_m > from + 15 && t.at_m < to - 15 && t.away_m < 15 && random_.uniform() < 0.5)
        leg.ticks.push_back({"", fixes_[t.fix].kind, t.side, t.at_m - from, 0, fixes_[t.fix].at});
    }
    return d;
  }
  bool add(walking::Way& way, std::vector<GridPoint> line, const walking::Party& party) {
    walking::Leg leg;
    leg.course.line = std::move(line);
    for (const auto p : leg.course.line) {
      if (!std::isfinite(terrain::height_at(ground_.elevation, p)) ||
          !ground_.elevation.frame().contains(p))
        return false;
    }
    leg.figures = walking::figures_of(leg.course, ground_, party);
    if (leg.figures.touches_void || mapdata::length_m(leg.course.line) < 60) return false;
    way.legs.push_back(std::move(leg));
    return true;
  }

  const walking::Ground& ground_;
  const landmarks::Fixes& fixes_;
  std::vector<landmarks::Handrail> rails_;
  numeric::Random random_;
};

}  // namespace lodeway::reckoning::real
