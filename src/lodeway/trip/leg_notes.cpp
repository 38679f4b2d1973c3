#include "lodeway/trip/leg_notes.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/house_among.hpp"
#include "lodeway/mapdata/point_index.hpp"
#include "lodeway/walking/long_leg.hpp"

namespace lodeway::trip {

namespace {

using reckoning::JudgedLeg;
using walking::LegKind;
using About = LegNote::About;

constexpr double same_place_m = 25, least_reach_m = 50;  // *practice*
constexpr double holds_95 = 2.448;  // sigmas: the ellipse that holds 95 in 100, √(−2 ln 0.05)

/// What stands about the end and looks like what stands at it.
class Likes {
 public:
  explicit Likes(const walking::Ground& ground)
      : ground_(ground), among_(mapdata::houses_among_others(ground.map)) {
    std::vector<earth::GridPoint> places;
    for (const auto& point : ground.map.points) places.push_back(point.at);
    index_ = mapdata::PointIndex(std::move(places));
  }
  [[nodiscard]] std::optional<LegNote> about(const JudgedLeg& leg,
                                             units::Language language) const {
    const auto end = leg.course.line.back();
    const auto& points = ground_.map.points;
    const auto away = [&](std::uint32_t i) { return earth::grid_distance_m(points[i].at, end); };
    const auto here = index_.near(end, same_place_m);
    const auto it = std::ranges::min_element(here, {}, away);
    if (it == here.end()) return std::nullopt;
    const auto kind = points[*it].label.kind;
    // A house of a settlement is taken for any of those that make it one, however sure the place.
    const bool house = kind == mapdata::Kind::building && among_[*it] != 0;
    const double least = house ? mapdata::among_within_m : least_reach_m;
    const double reach = std::max(least, holds_95 * numeric::axes_of(leg.judged.at_end).major);
    std::optional<std::uint32_t> nearest;
    int others = 0;
    for (const auto i : index_.near(end, reach)) {
      if (away(i) <= same_place_m || !ground_.kinds[points[i].label.kind].ticks ||
          landmarks::looks_alike(points[i].label.kind, kind) <= 0)
        continue;
      ++others;
      if (!nearest || away(i) < away(*nearest)) nearest = i;
    }
    if (!nearest) return std::nullopt;
    const auto& other = points[*nearest];
    LegNote out{.about = About::taken_for};
    out.what = landmarks::thing(other.label.kind, other.label.name, language);
    out.away_m = away(*nearest);
    out.towards = earth::grid_bearing(end, other.at);
    out.more = others - 1;
    return out;
  }

 private:
  const walking::Ground& ground_;
  std::vector<char> among_;
  mapdata::PointIndex index_;
};

}  // namespace

bool ends_at_attack_point(const JudgedLeg& leg, const JudgedLeg& next) {
  return leg.course.kind == LegKind::along && leg.judged.fix_at_end &&
         next.course.kind == LegKind::bearing && !next.judged.after && next.judged.fix_at_end &&
         next.figures.length_m <= attack_within_m;
}

std::vector<std::vector<LegNote>> notes_of(const reckoning::JudgedWay& way,
                                           const walking::Ground& ground,
                                           units::Language language) {
  const Likes likes(ground);
  std::vector<std::vector<LegNote>> out(way.legs.size());
  for (std::size_t i = 0; i < way.legs.size(); ++i) {
    const auto& leg = way.legs[i];
    const auto* next = i + 1 < way.legs.size() ? &way.legs[i + 1] : nullptr;
    if (next != nullptr && ends_at_attack_point(leg, *next))
      out[i].push_back({.about = About::attack_point, .what = next->course.to});
    if (next != nullptr && !leg.judged.fix_at_end && leg.turns_for)
      out[i].push_back({.about = About::turn, .turn = *leg.turns_for});
    if (leg.judged.minutes > walking::long_leg_min || leg.judged.length_m > walking::long_leg_m)
      out[i].push_back({.about = About::long_leg, .minutes = leg.judged.minutes});
    if (!leg.judged.confusable.empty()) continue;
    if (auto like = likes.about(leg, language)) out[i].push_back(*std::move(like));
  }
  return out;
}

}  // namespace lodeway::trip
