/// A party that knows that it is lost: it stops, tells what it sees, weighs where it may be, and
/// goes on, back, to what stops it, off by the escape route, or stays.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "lodeway/sight/likelihood.hpp"
#include "lodeway/walkers/detail/walker.hpp"

namespace lodeway::walkers::detail {

using mapdata::Kind;
using sight::ChanceOf;
using sight::Cue;
using sight::Report;

namespace {
constexpr double degree = std::numbers::pi / 180;
constexpr double beside_m = 80;
constexpr double any_line_m = 1500;
constexpr double short_m = 500;     // so near it finds its way round what lies between
constexpr double mark_seen_m = 40;  // of a place where it was before
constexpr std::size_t first_draws = 160, finer_draws = 48;
constexpr double one_place_m = 200, finer_m = 60;
constexpr double walks_m_per_min = 3200.0 / 60;
constexpr double turns_for_good = 0.25;  // once back at a place it knows, after having been lost
constexpr std::array lines_told{Kind::road, Kind::track, Kind::path,     Kind::stream,
                                Kind::wall, Kind::fence, Kind::wood_edge};
}  // namespace

/// What it tells of the place where it stands, by its own eyes, not by the estimator's model.
void Walker::tell(std::vector<Report>& reports) {
  const auto& planes = world_.planes();
  const auto cell = planes.cell(at_);
  if (!cell) return;
  const auto& truth = request_.truth;
  const auto& sigma = world_.perception().sigma;
  const double slope = planes.slope_deg(*cell);
  const auto nonsense = [&] { return luck(truth.nonsense); };
  Report height;
  height.cue = Cue::height;
  height.sigma = std::hypot(20.0, 0.2 * climbed_);
  height.value = planes.height_m(*cell) + height_off_ + climb_scale_ * climbed_ +
                 truth.map_noise * planes.height_sd_m * map_error(at_, 1);
  reports.push_back(height);
  Report fall;
  fall.cue = Cue::fall;
  const double grade_sd =
      truth.map_noise * planes.gradient_sd / std::max(std::tan(slope * degree), 0.05) / degree;
  fall.level = slope + 3 * random_.normal() < 4;
  fall.has_direction = !fall.level;
  if (fall.has_direction)
    fall.direction = units::GridBearing::degrees(
        nonsense() ? 360 * random_.uniform()
                   : planes.fall_deg(*cell) +
                         std::hypot(truth.noise * sigma.fall_deg, grade_sd) * random_.normal());
  reports.push_back(fall);
  Report steep;
  steep.cue = Cue::steepness;
  steep.value = std::abs(nonsense() ? 45 * random_.uniform()
                                    : slope + steeper_deg_ +
                                          truth.noise * sigma.steepness_deg * random_.normal());
  reports.push_back(steep);
  // what stands underfoot, and that there is no path where there is none
  int told = 0;
  for (const Kind kind : lines_told) {
    const auto* plane = planes.plane_of(kind);
    if (plane == nullptr) continue;
    const auto near = sight::nearest_of(*plane, *cell);
    const bool on =
        near && near->distance_m < 15 && luck(chance(ChanceOf::notice, sight::class_of(kind)));
    if (!on && kind != Kind::path && kind != Kind::stream) continue;
    if (on && told++ >= 2) continue;
    Report line;
    line.cue = Cue::on_line;
    line.kind = kind;
    line.seen = nonsense() ? luck(0.5) : on;
    line.has_direction = line.seen && on;
    if (line.has_direction)
      line.direction = units::GridBearing::degrees(near->lie_deg +
                                                   truth.noise * sigma.line_deg * random_.normal());
    reports.push_back(line);
  }
  if (world_.visibility(air()) == mapdata::Visibility::clear) {
    int seen = 0;
    for (const std::int32_t t : world_.tops()) {
      const auto i = static_cast<std::size_t>(t);
      if (planes.views[i][*cell] != 1 || !luck(own(world_.perception().attention))) continue;
      Report top;
      top.cue = Cue::sees_thing;
      top.thing = luck(0.5 * truth.nonsense)
                      ? world_.tops()[static_cast<std::size_t>(
                            random_.uniform() * static_cast<double>(world_.tops().size()))]
                      : t;
      top.has_direction = true;
      top.direction = units::GridBearing::degrees(
          earth::grid_bearing(at_, planes.things[i].at).in_degrees() + compass_ / degree +
          truth.noise * sigma.bearing_deg * random_.normal());
      reports.push_back(top);
      if (++seen == 2) break;
    }
  }
}

/// Sets the believed place to the likeliest of those that fit; answers its share of them. The
/// prior is belief's: half where reckoning puts it, half anywhere that it may have walked to.
double Walker::relocate() {
  std::vector<Report> reports;
  tell(reports);
  const auto& planes = world_.planes();
  const auto visibility = world_.visibility(air());
  const double spread = std::clamp(spread_m(), 40.0, 600.0);
  const double ring = std::clamp((minutes_ - sure_min_) * walks_m_per_min, 200.0, 4000.0);
  struct Draw {
    GridPoint at;
    double log_p;
  };
  // every telling adds a figure below 0: what is e^-30 of the best already weighs nothing
  const auto score = [&](GridPoint p, double best) {
    const auto cell = planes.cell(p);
    if (!cell) return -1e9;
    double sum = planes.bar[*cell] == walking::Bar::water ? -4 : 0;
    for (const Report& r : reports) {
      sum += sight::log_likelihood_at(planes, *cell, r, world_.perception(), visibility);
      if (sum < best - 30) break;
    }
    return sum;
  };
  std::array<Draw, first_draws> draws;
  std::size_t best = 0;
  for (std::size_t k = 0; k < first_draws; ++k) {
    GridPoint p;
    if (k % 2 == 0) {
      p = believed_ + GridPoint{spread * random_.normal(), spread * random_.normal()};
    } else {
      const double r = ring * std::sqrt(random_.uniform()),
                   a = 2 * std::numbers::pi * random_.uniform();
      p = sure_ + GridPoint{r * std::sin(a), r * std::cos(a)};
    }
    draws[k] = {p, score(p, k > 0 ? draws[best].log_p : -1e9)};
    if (draws[k].log_p > draws[best].log_p) best = k;
  }
  if (draws[best].log_p < -1e8) return 0;  // off the map
  double all = 0, here = 0;
  for (const Draw& d : draws) {
    const double w = std::exp(d.log_p - draws[best].log_p);
    all += w;
    if (earth::grid_distance_m(d.at, draws[best].at) < one_place_m) here += w;
  }
  GridPoint mean;
  double weight = 0, square = 0;
  std::array<Draw, finer_draws> finer;
  double top = draws[best].log_p;
  for (Draw& d : finer) {
    d.at = draws[best].at + GridPoint{finer_m * random_.normal(), finer_m * random_.normal()};
    d.log_p = score(d.at, top);
    top = std::max(top, d.log_p);
  }
  for (const Draw& d : finer) {
    const double w = std::exp(d.log_p - top);
    weight += w;
    mean = mean + w * d.at;
  }
  mean = weight > 0 ? (1 / weight) * mean : draws[best].at;
  for (const Draw& d : finer) {
    const GridPoint off = d.at - mean;
    square += std::exp(d.log_p - top) * mapdata::dot(off, off);
  }
  believed_ = mean;
  start_sd_m_ = weight > 0 ? std::max(std::sqrt(0.5 * square / weight), 15.0) : finer_m;
  since_sure_m_ = 0;
  put_moment();
  return here / all;
}

/// From where it believes to be to a place, on the needle; `leg`: the place is that leg's end.
Came Walker::to_place(GridPoint to, const ReadyLeg* leg) {
  if (earth::grid_distance_m(believed_, to) < 1) to = to + GridPoint{0, 1};
  Aim aim{.from = believed_, .to = to, .end = to};
  const auto dark = static_cast<std::size_t>(air());
  if (leg == nullptr) {
    aim.seen_m = mark_seen_m;
    aim.end_known = world_.chance(air(), ChanceOf::know, sight::KindClass::mark);
  } else if (reckoning::mark_of(leg->card->model.end) != nullptr) {
    aim.end = leg->card->model.to;
    aim.seen_m = leg->end_seen_m[dark];
    aim.end_known = leg->end_known[dark];
    aim.top = leg->end_is_top;
  } else if (leg->card->leg.course.kind == walking::LegKind::along ||
             std::holds_alternative<reckoning::AtLine>(leg->card->model.end)) {
    aim.seen_m = leg->line_seen_m[dark];
    aim.end_known = world_.chance(air(), ChanceOf::know, leg->followed);
  } else {
    aim.looks_for = LooksFor::nothing;
  }
  aim.beyond_m = std::max(2 * spread_m(), 50.0);
  return needle(aim);
}

bool Walker::open_to(GridPoint to) const {
  return earth::grid_distance_m(believed_, to) < short_m || world_.cover().clear(believed_, to);
}

/// On to what the card says stops it.
Came Walker::to_stop(const ReadyLeg& leg) {
  const auto& stop = *leg.card->leg.stop;
  const GridPoint end = leg.card->leg.course.line.back();
  GridPoint to = end;
  if (!stop.shape.empty()) {
    const auto at = mapdata::distances_along(stop.shape);
    to = place_on(stop.shape, at, nearest_on(stop.shape, at, believed_).along_m);
  }
  return until_line(to, stop.kind, earth::grid_distance_m(believed_, to) + 3 * spread_m() + 200);
}

/// To whatever line of the map is nearest to where it believes to be.
Came Walker::to_any_line() {
  std::vector<mapdata::OnNetwork> near;  // the nearest first, so the smallest circle with one will do
  for (double within_m = any_line_m / 16; near.empty() && within_m <= any_line_m; within_m *= 2)
    near = world_.net().touch(believed_, within_m);
  if (near.empty()) return Came::lost;
  GridPoint to = near.front().at;
  if (earth::grid_distance_m(to, believed_) < 1) to = to + GridPoint{0, -1};
  return until_line(to, std::nullopt, any_line_m);
}

/// On the needle towards a place until a line is met and noticed; nothing: any line will do. On a
/// road a lost party is on safe ground.
Came Walker::until_line(GridPoint to, std::optional<Kind> kind, double most) {
  const GridPoint way = unit(to - believed_);
  const double turn = compass_ + world_.errors(air()).bearing_sigma * random_.normal();
  const double s = std::sin(turn), c = std::cos(turn);
  for (double gone = 0; gone < most && !over(); gone += step_m) {
    GridPoint thought = step_m * way;
    const GridPoint straight{thought.east_m * c + thought.north_m * s,
                             thought.north_m * c - thought.east_m * s};
    const GridPoint d = round_barred(straight, thought);
    const GridPoint before = at_;
    world_.lines_met(before, before + d, met_);
    for (const LineMet& m : met_) {
      const Kind met = world_.kind_of(m.edge);
      const bool wanted = !kind || met == *kind || met == Kind::road;
      if (!wanted || !luck(chance(ChanceOf::notice, sight::class_of(met)))) continue;
      const GridPoint there = before + m.fraction * d;
      step(there, believed_ + m.fraction * thought, world_.surface(there), false);
      if (over()) return Came::over;
      if (met == Kind::road) {
        finish(State::at_haven);
        return Came::over;
      }
      believed_ = to;
      return Came::there;
    }
    step(before + d, believed_ + thought, world_.surface(before + d), false);
  }
  return over() ? Came::over : Came::lost;
}

/// What the lost drill says, as often as the party has patience. `there`: it believes to stand at
/// the leg's end. The story is over when it does not.
Came Walker::find_again(const ReadyLeg& leg, bool back) {
  keeps_trail_ = false;
  const bool has_stop =
      leg.card->leg.stop && reckoning::goes_on_to_stop(leg.card->leg, leg.card->model);
  bool went_to_stop = false, went_back = false;
  for (int k = 0; k < request_.manner.tries && !over(); ++k) {
    knows_lost(true);
    noticed_ = false;
    doubt_score_ = 0;
    if (air() == Air::dark && luck(request_.manner.stays_in_dark)) break;
    wait(doubt_);
    if (over()) return Came::over;
    const double share = relocate();
    const GridPoint end = leg.card->model.to;
    Came came = Came::lost;
    const bool follows = leg.card->leg.course.kind == walking::LegKind::along;
    const auto near = follows ? nearest_on(leg.card->leg.course.line, leg.at, believed_) : NearOn{};
    if (share >= enough_ && follows && near.away_m < beside_m) {  // its own line is at hand
      knows_lost(false);
      came = along(leg, near.along_m);
    } else if (share >= enough_ && open_to(end)) {
      knows_lost(false);
      came = to_place(end, &leg);
      if (came == Came::there) sure(end);
    } else if (has_stop && !went_to_stop) {
      went_to_stop = true;
      came = to_stop(leg);
      if (came == Came::there) {  // a line underfoot: it looks again from there
        --k;
        came = Came::lost;
      }
    } else if (!went_back && open_to(sure_)) {
      went_back = true;
      const GridPoint known = sure_;
      came = to_place(known, nullptr);
      if (came == Came::there) {
        sure(known);
        const bool at_start =
            earth::grid_distance_m(known, leg.card->leg.course.line.front()) <= there_m;
        if (!back && at_start && luck(turns_for_good)) {
          go_back(leg_);
          return Came::over;
        }
        came = open_to(end) ? to_place(end, &leg) : Came::lost;
        if (came == Came::there) sure(end);
      }
    } else {
      came = to_any_line();
      if (came == Came::there) came = Came::lost;  // and looks again from there
    }
    if (over() || came == Came::over) return Came::over;
    if (came == Came::there) return came;
  }
  if (over()) return Came::over;
  if (!leg.card->escape.empty() && !(air() == Air::dark && luck(request_.manner.stays_in_dark))) {
    escape(leg);
  } else {
    finish(State::staying);
  }
  return Came::over;
}

}  // namespace lodeway::walkers::detail
