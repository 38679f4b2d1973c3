#include "lodeway/route/escape/escape_routes.hpp"

#include <algorithm>
#include <map>
#include <numbers>
#include <optional>
#include <string>
#include <utility>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/route/escape/cut_ring.hpp"
#include "lodeway/route/escape/escape_judge.hpp"
#include "lodeway/route/escape/safe_ground.hpp"
#include "lodeway/route/escape/snow_slopes.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using reckoning::Escape;
using reckoning::Judge;
using reckoning::JudgedWay;
using walking::Leg;
using walking::LegKind;
using Line = std::vector<GridPoint>;

/// Where a way is left, and what is there.
struct Place : LeftAt {
  Line behind, ahead;  ///< of a place midway: that leg's two halves
  std::string name;
  std::vector<Seed> near;
  std::optional<std::string> safe;  ///< what the safe ground here is called
};

/// A way, its places and its legs turned round.
struct OnWay {
  const JudgedWay* way;
  std::vector<std::size_t> ends;                    ///< places: the start, and each leg's end
  std::vector<std::optional<std::size_t>> midways;  ///< places, of the legs that have one
  std::vector<Leg> turned;
};

std::pair<Line, Line> halves(const Line& line) {
  const mapdata::Measured measured(line);
  const double half = 0.5 * measured.length_m();
  return {measured.piece(0, half), measured.piece(half, measured.length_m())};
}

/// What a leg follows, over another line: part of its own, or that turned round.
Leg along_same(const Cutting& c, const walking::Course& course, Line line, std::string from,
               std::string to) {
  auto next = course_of(c, course.kind, std::move(line), line_followed(c, course));
  next.from = std::move(from);
  next.to = std::move(to);
  if (next.followed.name.empty()) next.followed = course.followed;
  const int followed = line_followed(c, next);
  return described(c, std::move(next), followed);
}

Line reversed(Line line) {
  std::ranges::reverse(line);
  return line;
}

std::string midway_name(const Cutting& c, const Leg& leg, GridPoint at) {
  if (auto seen = landmarks::words(c.around.place(at), c.language); !seen.empty()) return seen;
  return (c.language == units::Language::german ? "halbwegs nach " : "half way to ") +
         leg.course.to;
}

double walking_minutes(const std::vector<Leg>& legs) {
  double sum = 0;
  for (const auto& leg : legs) sum += leg.figures.minutes;
  return sum;
}

walking::Request in_cloud(walking::Request request) {
  request.party.visibility = mapdata::Visibility::cloud;
  return request;
}

/// The ways of one question: their places, what leads from them, and which of it is chosen.
class Finder {
 public:
  Finder(const Cutting& cutting, const Judge& judge, const Judge& cloud_judge, double most_hazard,
         const EscapeGround& ground, bool snow)
      : c_(cutting),
        most_hazard_(most_hazard),
        ground_(ground),
        snow_(snow),
        judge_(judge, cloud_judge, cutting.prepared.cover, *ground.hazards,
               snow ? &ground.slopes : nullptr, cutting.language) {}

  void lay_out(const std::vector<const JudgedWay*>& ways,
               const std::vector<walking::SafePlace>& named) {
    std::vector<walking::SafePlace> safe;
    for (const auto* way : ways) {
      const auto &first = way->legs.front().course, &last = way->legs.back().course;
      if (start_is_safe()) safe.push_back({first.from, first.line.front()});
      if (end_is_safe()) safe.push_back({last.to, last.line.back()});
    }
    safe.insert(safe.end(), named.begin(), named.end());
    safe_ = safe_ground(c_.ground, safe, c_.prepared, c_.language);
    for (const auto* way : ways) ways_.push_back(places_of(*way));
  }

  void work_out(numeric::Parallel& parallel, const std::function<bool()>& go_on) {
    std::vector<std::pair<OnWay*, std::size_t>> legs;
    for (auto& on : ways_) {
      for (std::size_t k = 0; k < on.turned.size(); ++k) legs.emplace_back(&on, k);
    }
    parallel.for_each_block(1 + legs.size(), [&](std::size_t block) {
      if (block == 0) {
        find_field();
        return;
      }
      const auto [on, k] = legs[block - 1];
      const auto& course = on->way->legs[k].course;
      on->turned[k] = along_same(c_, course, reversed(course.line), course.to, course.from);
    });
    routes_.resize(places_.size());
    constexpr std::size_t at_once = 8;
    for (std::size_t done = 0; done < places_.size(); done += at_once) {
      if (go_on && !go_on()) return;
      parallel.for_each_block(std::min(at_once, places_.size() - done), [&](std::size_t i) {
        if (auto route = route_from(places_[done + i])) routes_[done + i] = *std::move(route);
      });
    }
  }

  [[nodiscard]] Escapes answer() const {
    Escapes out;
    out.nearer_beyond = nearer_beyond_;
    for (const auto& on : ways_) {
      EscapesOfWay of_way(on.way->legs.size());
      for (std::size_t k = 0; k < of_way.size(); ++k) {
        const auto add = [&](std::size_t place, reckoning::LeavesAt from) {
          if (!routes_[place]) return;
          of_way[k].push_back(*routes_[place]);
          of_way[k].back().from = from;
        };
        add(on.ends[k], reckoning::LeavesAt::start);
        if (on.midways[k]) add(*on.midways[k], reckoning::LeavesAt::middle);
        add(on.ends[k + 1], reckoning::LeavesAt::end);
      }
      out.of_ways.push_back(std::move(of_way));
    }
    return out;
  }

 private:
  [[nodiscard]] bool start_is_safe() const {
    return c_.request.points.empty() || c_.request.points.front().safe;
  }
  [[nodiscard]] bool end_is_safe() const {
    return c_.request.points.empty() || c_.request.points.back().safe;
  }
  std::size_t add(Place place) {
    place.near = nodes_near(c_.ground, c_.prepared, place.at, true);
    for (const auto& seed : place.near) {
      const auto known = safe_.find(seed.node);
      if (known != safe_.end() && !place.safe) place.safe = known->second;
    }
    const bool outer =
        place.part_m <= 0 && ((place.done == 0 && start_is_safe()) ||
                              (place.done == place.way->legs.size() && end_is_safe()));
    if (outer) place.safe = place.name;  // by the leader's own name, and though it be barred
    places_.push_back(std::move(place));
    return places_.size() - 1;
  }

  OnWay places_of(const JudgedWay& way) {
    OnWay out{&way, {}, {}, std::vector<Leg>(way.legs.size())};
    const auto& start = way.legs.front().course;
    out.ends.push_back(add({{&way, 0, 0, start.line.front()}, {}, {}, start.from, {}, {}}));
    for (std::size_t k = 0; k < way.legs.size(); ++k) {
      const auto& leg = way.legs[k];
      out.midways.emplace_back();
      if (leg.judged.minutes > left_midway_min) {
        const auto line = leg.judged.needle ? Line{leg.course.line.front(), leg.judged.needle->aim}
                                            : leg.course.line;
        auto [behind, ahead] = halves(line);
        if (leg.judged.needle) ahead.back() = leg.course.line.back();
        const auto at = ahead.front();
        const double part = 0.5 * mapdata::length_m(line);
        out.midways.back() = add({{&way, k, part, at},
                                  std::move(behind),
                                  std::move(ahead),
                                  midway_name(c_, leg, at),
                                  {},
                                  {}});
      }
      out.ends.push_back(
          add({{&way, k + 1, 0, leg.course.line.back()}, {}, {}, leg.course.to, {}, {}}));
    }
    return out;
  }

  void find_field() {
    std::vector<std::uint32_t> nodes, targets;
    std::vector<Seed> seeds;
    for (const auto& [node, name] : safe_) {
      nodes.push_back(node);
      seeds.push_back({node, 0});
    }
    for (const auto& place : places_) {
      for (const auto& seed : place.near) targets.push_back(seed.node);
    }
    const auto to_safe = nodes.size();
    if (ground_.cut) {
      for (const auto node : cut_ring(c_.prepared, ground_.cut->whole, ground_.cut->within_m)) {
        if (safe_.contains(node)) continue;
        nodes.push_back(node);
        seeds.push_back({node, 0});
      }
    }
    solve(nodes, seeds, targets);
    if (seeds.size() == to_safe) return;
    nearer_beyond_ = ends_beyond(*field_) || (snow_ && ends_beyond(snow_field_));
    if (!nearer_beyond_) return;  // what was found is what would be found without the ring
    nodes.resize(to_safe);
    seeds.resize(to_safe);
    solve(nodes, seeds, targets);
  }
  void solve(const std::vector<std::uint32_t>& nodes, const std::vector<Seed>& seeds,
             const std::vector<std::uint32_t>& targets) {
    if (snow_) snow_field_ = off_snow_slopes(c_.prepared, ground_.slopes, seeds);
    field_ = field_back(ground_.kept, nodes, c_.prepared, seeds, targets);
  }
  [[nodiscard]] bool ends_beyond(const Field& field) const {
    return std::ranges::any_of(places_, [&](const Place& place) {
      const auto best = place.safe ? no_parent : nearest(field, place);
      return best != no_parent && !safe_.contains(trace(field, best).front());
    });
  }

  /// The node from which this place is left in least time; no_parent where it is not reached.
  [[nodiscard]] static std::uint32_t nearest(const Field& field, const Place& place) {
    Seed best{no_parent, unreached_s};
    for (const auto& seed : place.near) {
      const float all = seed.seconds + field.seconds[seed.node];
      if (all < best.seconds) best = {seed.node, all};
    }
    return best.node;
  }

  /// The legs of the least time to safe ground; none where it is not reached.
  [[nodiscard]] std::vector<Leg> quickest(const Field& field, const Place& place,
                                          std::string& to) const {
    const auto best = nearest(field, place);
    if (best == no_parent) return {};
    auto ids = trace(field, best);
    to = safe_.at(ids.front());
    const auto end = place_of_node(c_.prepared, ids.front());
    std::ranges::reverse(ids);
    return cut_legs(c_, raw_path(c_.prepared, ids, place.at, end), place.name, to);
  }

  [[nodiscard]] const OnWay& on_way(const Place& place) const {
    return *std::ranges::find(ways_, place.way, &OnWay::way);
  }

  /// Back along the way's own legs to the nearest safe ground behind; none where there is none.
  [[nodiscard]] std::vector<Leg> back(const Place& place, std::string& to) const {
    const auto& on = on_way(place);
    std::vector<Leg> out;
    if (place.part_m > 0) {
      const auto& course = place.way->legs[place.done].course;
      out.push_back(along_same(c_, course, reversed(place.behind), place.name, course.from));
    }
    std::size_t k = place.done;
    while (k > 0 && (out.empty() || !places_[on.ends[k]].safe)) out.push_back(on.turned[--k]);
    if (!places_[on.ends[k]].safe) return {};  // not even where the way begins or ends
    to = *places_[on.ends[k]].safe;
    return out;
  }

  /// On along the way to the next safe ground ahead; none where there is none.
  [[nodiscard]] std::vector<Leg> onward(const Place& place, std::string& to) const {
    const auto& on = on_way(place);
    const auto& legs = place.way->legs;
    std::vector<Leg> out;
    std::size_t k = place.done;
    if (place.part_m > 0 && k < legs.size()) {
      const auto& course = legs[k].course;
      if (course.kind == LegKind::bearing &&
          !c_.prepared.cover.clear(place.ahead.front(), place.ahead.back()))
        return {};
      out.push_back(along_same(c_, course, place.ahead, place.name, course.to));
      ++k;
    }
    while (k < legs.size() && (out.empty() || !places_[on.ends[k]].safe)) out.push_back(legs[k++]);
    if (!places_[on.ends[k]].safe) return {};  // not even where the way begins or ends
    to = *places_[on.ends[k]].safe;
    return out;
  }

  [[nodiscard]] std::optional<Escape> route_from(const Place& place) const {
    if (place.safe) {
      Escape here;
      here.to = *place.safe;
      return here;
    }
    std::vector<EscapeCandidate> all;
    double enough = 1e300;  // minutes: one that takes longer is not chosen
    const auto add = [&](std::vector<Leg> legs, const std::string& to, bool on_the_card,
                         bool is_back) {
      if (legs.empty() || walking_minutes(legs) > enough) return;
      EscapeCandidate next = judge_.judged(legs, place, to, on_the_card);
      next.route.back = is_back;
      next.rise_m = rise_m(c_.ground.elevation, legs);
      if (passes_all_rules(next, most_hazard_))
        enough = std::min(enough, times_quickest * next.route.minutes);
      all.push_back(std::move(next));
    };
    std::string to;
    if (snow_) add(quickest(snow_field_, place, to), to, false, false);
    add(quickest(*field_, place, to), to, false, false);
    const auto way_back = back(place, to);
    const double back_minutes = walking_minutes(way_back);
    add(way_back, to, true, true);
    add(onward(place, to), to, true, false);
    if (all.empty()) return std::nullopt;
    auto out = chosen_of(std::move(all), most_hazard_);
    out.back_minutes = back_minutes;
    return out;
  }

  const Cutting& c_;
  double most_hazard_;
  const EscapeGround& ground_;
  bool snow_;
  EscapeJudge judge_;
  std::map<std::uint32_t, std::string> safe_;
  std::vector<Place> places_;
  std::vector<OnWay> ways_;
  std::shared_ptr<const Field> field_;
  Field snow_field_;
  bool nearer_beyond_ = false;
  std::vector<std::optional<Escape>> routes_;
};

}  // namespace

EscapeRoutes::EscapeRoutes(const Cutting& cutting, const Judge& judge, double most_hazard,
                           EscapeGround ground)
    : in_cloud_(in_cloud(cutting.request)),
      cutting_{cutting.ground, cutting.prepared, cutting.around, in_cloud_, cutting.language},
      request_(cutting.request),
      judge_(judge),
      cloud_judge_(cutting.ground, in_cloud_.party,
                   judge.declination_sigma() * 180 / std::numbers::pi, judge.habits(),
                   ground.hazards, ground.fixes),
      most_hazard_(most_hazard),
      ground_(std::move(ground)) {}

Escapes EscapeRoutes::of(const std::vector<const JudgedWay*>& ways,
                         numeric::Parallel& parallel, const std::function<bool()>& go_on) const {
  if (ways.empty()) return {};
  const bool snow = request_.party.visibility == mapdata::Visibility::snow;
  Finder finder(cutting_, judge_, cloud_judge_, most_hazard_, ground_, snow);
  finder.lay_out(ways, request_.safe);
  finder.work_out(parallel, go_on);
  return finder.answer();
}

}  // namespace lodeway::route
