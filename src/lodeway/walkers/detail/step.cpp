/// One step after the other: time, what is trodden, what a look tells.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/walkers/detail/walker.hpp"

namespace lodeway::walkers::detail {

namespace {
constexpr double degree = std::numbers::pi / 180;

GridPoint turned(GridPoint v, double radians) {
  const double s = std::sin(radians), c = std::cos(radians);
  return {v.east_m * c + v.north_m * s, v.north_m * c - v.east_m * s};  // clockwise
}

std::uint64_t mixed(std::uint64_t x) {  // splitmix64
  x += 0x9e3779b97f4a7c15U;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31U);
}

double apart_deg(double a, double b) { return std::abs(std::remainder(a - b, 360.0)); }
}  // namespace

Air Walker::air() const { return minutes_ > ready_.card->dark_min ? Air::dark : Air::day; }

/// A chance of the table as this party has it: its own odds.
double Walker::own(double p) const {
  const double odds = p * know_odds_;
  return p >= 1 ? 1 : odds / (odds + 1 - p);
}

/// The map's error at a place as this party finds it: standard, alike over map_alike_m.
double Walker::map_error(GridPoint p, std::uint64_t salt) const {
  const double cell = request_.truth.map_alike_m, x = p.east_m / cell, y = p.north_m / cell;
  const double x0 = std::floor(x), y0 = std::floor(y), u = x - x0, v = y - y0;
  const auto at = [&](double i, double j) {
    const auto h = mixed(map_seed_ ^ salt ^
                         mixed(static_cast<std::uint64_t>(static_cast<std::int64_t>(i)) * 0x9e37U +
                               mixed(static_cast<std::uint64_t>(static_cast<std::int64_t>(j)))));
    // four bytes: their sum has variance 4 / 12
    double sum = -2;
    for (int k = 0; k < 4; ++k) sum += static_cast<double>((h >> (16U * k)) & 0xffffU) / 65536;
    return sum * std::numbers::sqrt3;
  };
  const double a = (1 - u) * (1 - v), b = u * (1 - v), c = (1 - u) * v, d = u * v;
  const double mean =
      a * at(x0, y0) + b * at(x0 + 1, y0) + c * at(x0, y0 + 1) + d * at(x0 + 1, y0 + 1);
  return mean / std::sqrt(a * a + b * b + c * c + d * d);
}

/// One sigma, each way, of where it believes to be, as it would say itself.
double Walker::spread_m() const {
  const auto& e = world_.errors(air());
  const double d = since_sure_m_;
  const double angle = std::hypot(e.bearing_sigma, e.compass_sigma),
               part = std::hypot(angle, std::hypot(e.distance_sigma, e.stride_sigma));
  return std::hypot(start_sd_m_, d * part * std::numbers::sqrt2 / 2,
                    e.sighting_sigma * std::sqrt(d * e.sighting_every_m));
}

void Walker::sure(GridPoint believed) {
  believed_ = sure_ = believed;
  sure_min_ = minutes_;
  since_sure_m_ = 0;
  start_sd_m_ = world_.judge().habits().fix_sigma_m;
  climbed_ = 0;
  climb_scale_ = 0.15 * random_.normal();
  doubt_score_ = 0;
  noticed_ = false;
  knows_lost(false);
}

void Walker::knows_lost(bool does) {
  if (does) {
    fate_.noticed = true;
    lost_on_ = static_cast<std::int16_t>(leg_);
  }
  knows_lost_ = does;
}

void Walker::went_wrong(Wrong wrong) {
  fate_.kept_all = false;
  story_->kept = false;
  first_wrong(wrong);
}

void Walker::first_wrong(Wrong wrong) {
  if (story_->wrong) return;
  story_->wrong = wrong;
  // On the way back there is no leg of the way to lose: its story is kept aside.
  if (sink_.track != nullptr && story_ == &sink_.legs[leg_])
    sink_.track->slips.push_back(
        {static_cast<std::int16_t>(leg_), wrong, at_, sink_.track->moments.size()});
}

void Walker::put_moment() {
  if (sink_.track != nullptr)
    sink_.track->moments.push_back(
        {minutes_, at_, believed_, state_, static_cast<std::int16_t>(leg_)});
}

void Walker::pass_time(double spent, GridPoint from, GridPoint to, GridPoint thought_from,
                       GridPoint thought_to) {
  const double begun = minutes_;
  minutes_ += spent;
  const double off = earth::grid_distance_m(to, thought_to);
  const bool lost = knows_lost_ || off > lost_m;
  while (next_moment_ < sink_.stands.size() && request_.at_min[next_moment_] <= minutes_) {
    const double t =
        spent > 0 ? std::clamp((request_.at_min[next_moment_] - begun) / spent, 0.0, 1.0) : 1;
    const State now = state_ == State::on_the_way && lost ? State::lost : state_;
    sink_.stands[next_moment_++] = {from + t * (to - from),
                                    thought_from + t * (thought_to - thought_from), now,
                                    static_cast<std::int16_t>(leg_), lost_on_};
  }
  if (lost) {
    fate_.lost = true;
    lost_on_ = static_cast<std::int16_t>(leg_);
    fate_.lost_min += spent;
    story_->lost_min += static_cast<float>(spent);
    if (!knows_lost_) fate_.unaware_min += spent;
    fate_.lost_m = std::max(fate_.lost_m, off);
    story_->lost_m = std::max(story_->lost_m, static_cast<float>(off));
  }
  if (minutes_ > ready_.card->dark_min) fate_.benighted = true;
  if (minutes_ > horizon_) {
    over_ = true;
    fate_.state = state_ = State::staying;
  }
}

void Walker::wait(double minutes) {
  if (over_ || minutes <= 0) return;
  pass_time(minutes, at_, at_, believed_, believed_);
  put_moment();
}

bool Walker::barred(GridPoint p) const {
  const auto& f = world_.cover().frame();
  const auto [r, c] = f.cell_of(p);
  return f.holds(r, c) &&
         ready_.keep_off[static_cast<std::size_t>(r) * static_cast<std::size_t>(f.cols) +
                         static_cast<std::size_t>(c)] != 0;
}

/// So many places of a step are looked at: two a cell.
int Walker::tread_pieces(double length_m) const {
  return std::max(1, static_cast<int>(std::ceil(2 * length_m / world_.cover().frame().cell_m)));
}

void Walker::tread(GridPoint from, GridPoint to, bool on_line) {
  const int pieces = tread_pieces(earth::grid_distance_m(from, to));
  for (int k = 1; k <= pieces; ++k) {
    const GridPoint here = from + (static_cast<double>(k) / pieces) * (to - from);
    if (!on_line) {
      if (barred(here)) {
        fate_.keep_off = true;
        story_->keep_off = true;
      } else {
        last_open_ = here;
      }
    }
    if (sink_.trodden == nullptr) continue;
    const auto [r, c] = sink_.frame->cell_of(here);
    if (!sink_.frame->holds(r, c)) continue;
    const std::size_t i =
        static_cast<std::size_t>(r) * static_cast<std::size_t>(sink_.frame->cols) +
        static_cast<std::size_t>(c);
    if (i != last_cell_) ++(*sink_.trodden)[i];
    last_cell_ = i;
  }
}

/// At most step_m, straight.
void Walker::step(GridPoint to, GridPoint believed, Surface surface, bool on_line) {
  const double length = earth::grid_distance_m(at_, to);
  if (over_ || length <= 0) {
    believed_ = believed;
    return;
  }
  const double height = world_.height(to), rise = height - height_;
  if (!std::isfinite(height)) fate_.off_ground = true;
  const double slope = std::isfinite(rise) ? rise / length : 0;
  if (std::isfinite(rise)) climbed_ += std::abs(rise);
  height_ = height;
  const double seconds =
      std::max(world_.seconds_per_m(surface, slope) * slowness_, 1 / fastest_m_s);
  const GridPoint from = at_, thought = believed_;
  tread(from, to, on_line);
  trail_from_ = from;
  at_ = to;
  believed_ = believed;
  since_look_m_ += length;
  since_sure_m_ += length;
  pass_time(seconds * length / 60, from, to, thought, believed);
  if (keeps_trail_) trail_.push_back(at_);
  put_moment();
}

/// Straight to a place in as many steps as it takes.
void Walker::go(GridPoint to, GridPoint believed, bool on_line, Surface surface) {
  const GridPoint from = at_, thought = believed_;
  const int steps =
      std::max(1, static_cast<int>(std::ceil(earth::grid_distance_m(from, to) / step_m)));
  for (int k = 1; k <= steps && !over_; ++k) {
    const double t = static_cast<double>(k) / steps;
    const GridPoint next = k == steps ? to : from + t * (to - from);
    step(next, k == steps ? believed : thought + t * (believed - thought),
         on_line ? surface : world_.surface(next), on_line);
  }
}

/// Over open ground to a place in sight, round ground to keep off where that is seen.
void Walker::walk_open(GridPoint to, GridPoint believed) {
  const int most = 20 + static_cast<int>(3 * earth::grid_distance_m(at_, to) / step_m);
  for (int k = 0; k < most && !over_; ++k) {
    const GridPoint left = to - at_;
    const double share = step_m / std::max(earth::length_of(left), 1e-9);
    if (share >= 1) break;
    GridPoint thought = share * (believed - believed_);
    const GridPoint d = round_barred(share * left, thought);
    step(at_ + d, believed_ + thought, world_.surface(at_ + d), false);
  }
  go(to, believed, false, {});
}

/// So much of the step `d` leads to water that nobody walks into; nothing: none is met first.
std::optional<double> Walker::to_the_bank(GridPoint d) const {
  const int pieces = tread_pieces(earth::length_of(d));
  for (int k = 1; k <= pieces; ++k) {
    const GridPoint here = at_ + (static_cast<double>(k) / pieces) * d;
    if (!barred(here)) continue;
    const auto bar = world_.bar(here);
    if (bar != walking::Bar::water && bar != walking::Bar::river) return std::nullopt;
    return static_cast<double>(k - 1) / pieces;
  }
  return std::nullopt;
}

/// The step `d` as it is taken: round ground to keep off where that is seen. `believed` turns with
/// it: the party reads its detour off the needle.
GridPoint Walker::round_barred(GridPoint d, GridPoint& believed) {
  const auto first_bar = [&](GridPoint v) {  // as it will be trodden
    const int pieces = tread_pieces(earth::length_of(v));
    for (int k = 1; k <= pieces; ++k) {
      const GridPoint here = at_ + (static_cast<double>(k) / pieces) * v;
      if (barred(here)) return world_.bar(here);
    }
    return walking::Bar::none;
  };
  const auto bar = first_bar(d);
  round_left_m_ -= step_m;
  if (bar == walking::Bar::none) {
    if (round_left_m_ < 0) {
      round_side_ = 0;
      unaware_here_ = false;
    }
    return d;
  }
  if (round_left_m_ < 0) {  // another piece of it: is it seen in time?
    using enum walking::Bar;
    const bool felt = bar == water || bar == river;  // nobody walks on into it
    const double seen = felt ? 1 : chance(sight::ChanceOf::notice, sight::KindClass::relief);
    unaware_here_ = !luck(seen);
    round_side_ = luck(0.5) ? 1 : -1;
  }
  round_left_m_ = 100;
  if (unaware_here_) return d;
  for (const int turn : {30, 60, 90, 120, 150}) {
    for (const int side : {round_side_, -round_side_}) {
      const GridPoint v = turned(d, side * turn * degree);
      if (first_bar(v) != walking::Bar::none) continue;
      believed = turned(believed, side * turn * degree);
      round_side_ = side;
      return v;
    }
  }
  return d;  // no way out but on: it counts
}

/// Something does not fit. Who has had enough of it stops.
void Walker::contradicts(double weight) {
  doubt_score_ += weight;
  constexpr double enough = 1.8;
  if (doubt_score_ > enough && luck(owns_up_)) noticed_ = true;
}

/// `line_there`, `line_expected`: the line underfoot and the one that the card leads along, unit
/// vectors; null when none is followed.
void Walker::look(const GridPoint* line_there, const GridPoint* line_expected) {
  if (since_look_m_ < world_.perception().look_every_m) return;
  since_look_m_ = 0;
  doubt_score_ *= 0.8;
  const double attention = own(world_.perception().attention);
  if (!luck(attention)) return;
  const auto& planes = world_.planes();
  const auto& truth = request_.truth;
  const auto& sigma = world_.perception().sigma;
  double weight = 0;
  const bool nonsense = luck(truth.nonsense);
  if (line_there != nullptr) {
    const double felt = std::atan2(line_there->east_m, line_there->north_m) / degree +
                        truth.noise * sigma.line_deg * random_.normal();
    const double expected = std::atan2(line_expected->east_m, line_expected->north_m) / degree;
    if (apart_deg(felt, expected) > 3 * sigma.line_deg + 10) weight += 1;
  }
  const auto here = planes.cell(at_);
  if (here) {
    const double s = std::clamp(spread_m(), 40.0, 250.0);
    const double slope = planes.slope_deg(*here) + steeper_deg_ +
                         truth.noise * sigma.steepness_deg * random_.normal();
    const double grade_sd = truth.map_noise * planes.gradient_sd /
                            std::max(std::tan(planes.slope_deg(*here) * degree), 0.05) / degree;
    const double fall =
        nonsense ? 360 * random_.uniform()
                 : planes.fall_deg(*here) +
                       std::hypot(truth.noise * sigma.fall_deg, grade_sd) * random_.normal();
    const double height = planes.height_m(*here) + height_off_ + climb_scale_ * climbed_ +
                          truth.map_noise * planes.height_sd_m * map_error(at_, 1);
    double low = 1e9, high = -1e9, least_slope = 90, most_slope = 0;
    bool falls_so = false, any = false;
    for (const GridPoint d : {GridPoint{0, 0}, {s, 0}, {-s, 0}, {0, s}, {0, -s}}) {
      const auto there = planes.cell(believed_ + d);
      if (!there) continue;
      any = true;
      const double z = planes.height_m(*there), g = planes.slope_deg(*there);
      low = std::min(low, z);
      high = std::max(high, z);
      least_slope = std::min(least_slope, g);
      most_slope = std::max(most_slope, g);
      falls_so =
          falls_so || g < 5 || apart_deg(fall, planes.fall_deg(*there)) < 45 + sigma.fall_deg;
    }
    if (any) {
      const double height_sd = std::hypot(20.0, 0.2 * climbed_);
      if (height < low - 2.5 * height_sd || height > high + 2.5 * height_sd) weight += 1;
      if (slope > 6 && !falls_so) weight += 1;
      if (slope < least_slope - 12 || slope > most_slope + 12) weight += 0.7;
    }
  }
  if (weight > 0) contradicts(weight);
}

}  // namespace lodeway::walkers::detail
