/// A party's day: leg after leg, and how it ends.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/result/overloaded.hpp"
#include "lodeway/walkers/detail/walker.hpp"

namespace lodeway::walkers::detail {

using walking::LegKind;

namespace {
constexpr double longest_day_min = 24 * 60;
constexpr double off_sd_m_per_m = 0.07;  // an escape over open ground drifts off its line
constexpr double haven_seen_m = 150;
}  // namespace

Walker::Walker(const World& world, const Ready& ready, const WalkRequest& request,
               std::size_t number, Sink sink)
    : world_(world),
      ready_(ready),
      request_(request),
      sink_(sink),
      random_(request.seed, number),
      story_(&nowhere_),
      bands_(walking::bands_of(world.judge().party())) {
  const auto& e = world.errors(Air::day);
  const auto& manner = request.manner;
  const auto& truth = request.truth;
  const double skill = world.perception().sigma.fall_deg / 15;  // 1 for the practised
  compass_ = random_.normal() * std::hypot(e.compass_sigma, world.judge().declination_sigma());
  stride_ = random_.normal() * e.stride_sigma;
  day_slowness_ = bands_.centre * std::exp(bands_.shared * random_.normal());
  if (bands_.leg > 0) leg_log_ = bands_.leg * random_.normal();
  slowness_ = day_slowness_ * std::exp(leg_log_);
  know_odds_ = std::exp(manner.know_log_sd * random_.normal());
  const double odds =
      manner.owns_up / (1 - manner.owns_up) * std::exp(manner.owns_up_log_sd * random_.normal());
  owns_up_ = odds / (1 + odds);
  doubt_ = manner.doubt_min * (0.5 + random_.uniform());
  height_off_ = truth.height_sd_m * random_.normal();
  steeper_deg_ = skill * truth.steeper_sd_deg * random_.normal();
  enough_ = std::clamp(manner.enough_share + 0.15 * random_.normal(), 0.2, 0.9);
  map_seed_ = random_.bits();
  minutes_ = ready.card->start_min;
  horizon_ = minutes_ + longest_day_min;
  const double sd = world.judge().habits().fix_sigma_m;
  const auto& first = ready.legs.front();
  at_ = believed_ = sure_ = first.card->leg.course.line.front();
  if (first.card->leg.course.kind == LegKind::bearing)
    at_ = at_ + GridPoint{sd * random_.normal(), sd * random_.normal()};
  last_open_ = at_;
  height_ = world.height(at_);
}

/// Straight on from a turn without a fix: for the party it is one and the same leg.
bool Walker::goes_straight_on(std::size_t l) const {
  if (l == 0 || !reckoning::nothing_to_see(ready_.legs[l - 1].card->model.end)) return false;
  const auto &a = ready_.legs[l - 1].card->model, &b = ready_.legs[l].card->model;
  const GridPoint u = a.to - a.from, v = b.to - b.from;
  return std::abs(std::atan2(mapdata::cross(u, v), mapdata::dot(u, v))) <= 1e-6;
}

void Walker::begin_leg(const ReadyLeg& leg) {
  if (bands_.leg > 0) {  // neighbouring legs are alike
    const double kept = bands_.neighbours;
    leg_log_ = kept * leg_log_ + std::sqrt(1 - kept * kept) * bands_.leg * random_.normal();
    slowness_ = day_slowness_ * std::exp(leg_log_);
  }
  leg_began_ = minutes_;
  story_->set_out = true;
  story_->kept = true;
  story_->on_course = earth::grid_distance_m(at_, leg.card->leg.course.line.front()) <= there_m;
  ticked_.assign(leg.card->leg.ticks.size(), false);
  tick_looked_.assign(leg.card->leg.ticks.size(), false);
  for (std::size_t k = 0; k < tick_looked_.size(); ++k)
    tick_looked_[k] = luck(own(world_.perception().attention));
}

void Walker::end_leg(const ReadyLeg& leg) {
  const auto& m = leg.card->model;
  const double off = earth::grid_distance_m(at_, m.to);
  const auto off_by = [&](const auto& end) {
    // where the count alone tells, near enough is what the card means by it
    return off <= (end.mark ? std::max(there_m, end.window_m) : end.window_m);
  };
  story_->ended = true;
  story_->there = std::visit(
      result::overloaded{
          [&](const reckoning::AtTurn&) {  // nothing is sure there
            return off <= std::max(there_m, 4 * spread_m());
          },
          [&](const reckoning::AtNothing& end) { return off <= end.window_m; },
          [&](const reckoning::AtMark&) { return off <= there_m; },
          [&](const reckoning::AtLine& end) { return off_by(end); },
          [&](const reckoning::ByHandrail& end) { return off_by(end); }},
      m.end);
  story_->kept = story_->kept && story_->there;
  story_->minutes = static_cast<float>(minutes_ - leg_began_);
  if (!story_->there) {
    fate_.kept_all = false;
    first_wrong(Wrong::missed);
  }
}

Came Walker::do_leg(const ReadyLeg& leg, bool back) {
  const auto& m = leg.card->model;
  if (leg.card->leg.course.kind == LegKind::along) return along(leg);
  Aim aim{.from = m.from, .to = m.aim, .end = m.to};
  aim.looks_for = reckoning::nothing_to_see(m.end)            ? LooksFor::nothing
                  : std::holds_alternative<reckoning::AtLine>(m.end) ? LooksFor::line
                                                                     : LooksFor::mark;
  aim.beyond_m = reckoning::beyond_m(m.end);
  if (const auto* mark = reckoning::mark_of(m.end))
    aim.seen_m = air() == Air::day ? mark->seen_from_m
                                   : leg.end_seen_m[static_cast<std::size_t>(air())];
  aim.end_known = leg.end_known[static_cast<std::size_t>(air())];
  aim.top = leg.end_is_top;
  aim.leg = &leg;
  aim.goes_on = !back && goes_straight_on(leg_);
  return needle(aim);
}

Fate Walker::walk() {
  put_moment();
  const std::size_t legs = ready_.legs.size();
  for (std::size_t l = 0; l < legs && !over(); ++l) {
    leg_ = l;
    story_ = &sink_.legs[l];
    const ReadyLeg& leg = ready_.legs[l];
    begin_leg(leg);
    const double rest = leg.card->rest_within_min;
    Came came = do_leg(leg, false);
    for (int k = 0; came == Came::lost && k < 3; ++k) came = find_again(leg, false);
    if (came == Came::over || over()) break;
    end_leg(leg);
    wait(rest);
    story_->ended_min = static_cast<float>(minutes_ - ready_.card->start_min);
    const bool last = l + 1 == legs;
    if (last) {
      if (story_->there) {
        finish(State::through);
        break;
      }
      // nothing of what should stand there does
      went_wrong(Wrong::missed);
      for (int k = 0; k < 2 && !over(); ++k) {
        if (find_again(leg, false) != Came::there) break;
        if (earth::grid_distance_m(at_, leg.card->model.to) <= there_m) {
          finish(State::through);
          break;
        }
      }
      if (!over()) finish(State::staying);
      break;
    }
    wait(leg.card->rest_after_min);
    if (static_cast<int>(l) == ready_.card->turn_round_leg &&
        minutes_ > ready_.card->turn_round_min && !over())
      go_back(l + 1);
  }
  if (!over()) finish(State::staying);
  fate_.end_min = minutes_;
  if (!is_home(state_) && ready_.card->dark_min < never) fate_.benighted = true;
  while (next_moment_ < sink_.stands.size())
    sink_.stands[next_moment_++] = {at_, believed_, state_, static_cast<std::int16_t>(leg_),
                                    lost_on_};
  return fate_;
}

/// The legs that are ended, the other way, to the start.
void Walker::go_back(std::size_t ended) {
  state_ = State::going_back;
  LegStory aside;
  for (std::size_t k = ended; k-- > 0 && !over();) {
    leg_ = k;
    story_ = &aside;
    const ReadyLeg& leg = ready_.back[ready_.legs.size() - 1 - k];
    begin_leg(leg);
    Came came = do_leg(leg, true);
    for (int n = 0; came == Came::lost && n < 2; ++n) came = find_again(leg, true);
  }
  story_ = &nowhere_;
  if (over()) return;
  const bool there =
      earth::grid_distance_m(at_, ready_.legs.front().card->leg.course.line.front()) <= 2 * there_m;
  finish(there ? State::back_at_start : State::staying);
}

/// By the escape route: to its nearest place, then along it; on a line of the map where it has one.
void Walker::escape(const ReadyLeg& leg) {
  state_ = State::escaping;
  const auto& line = leg.card->escape;
  const auto at = mapdata::distances_along(line);
  const auto near = nearest_on(line, at, believed_);
  const GridPoint on = place_on(line, at, near.along_m);
  if (near.away_m > 1) {
    Aim aim{.from = believed_, .to = on, .end = on};
    aim.looks_for = LooksFor::nothing;
    (void)needle(aim);
    noticed_ = false;
  }
  const auto& planes = world_.planes();
  double s = near.along_m, drift_e = 0, drift_n = 0, held = 0;
  int looked_again = 0;
  while (!over() && s < at.back() - 0.1) {
    s = std::min(s + step_m, at.back());
    const GridPoint planned = place_on(line, at, s), off = at_ - believed_;
    const auto cell = planes.cell(planned);
    bool lined = false;
    for (const auto kind : {mapdata::Kind::road, mapdata::Kind::track, mapdata::Kind::path}) {
      const auto* plane = planes.plane_of(kind);
      if (plane == nullptr || !cell) continue;
      const auto d = sight::nearest_of(*plane, *cell);
      lined = lined || (d && d->distance_m < 15);
    }
    if (lined && earth::length_of(off) < 60) {
      go(planned, planned, true, {static_cast<std::uint8_t>(mapdata::Kind::path), true});
      continue;
    }
    if (held <= 0) {  // a sighting of 200 m has one error
      held = 200;
      drift_e = off_sd_m_per_m * random_.normal();
      drift_n = off_sd_m_per_m * random_.normal();
    }
    held -= step_m;
    GridPoint thought = planned - believed_;
    GridPoint d = thought + step_m * GridPoint{drift_e, drift_n};
    d = round_barred(d, thought);
    const GridPoint before = at_;
    go(at_ + d, planned, false, {});
    world_.lines_met(before, at_, met_);
    if (std::ranges::any_of(met_, [&](const LineMet& m) {
          return world_.kind_of(m.edge) == mapdata::Kind::road;
        })) {
      finish(State::at_haven);
      return;
    }
    look(nullptr, nullptr);
    if (!noticed_ || over()) continue;
    noticed_ = false;
    doubt_score_ = 0;
    if (looked_again++ == request_.manner.tries) continue;
    wait(doubt_);
    (void)relocate();
    s = nearest_on(line, at, believed_).along_m;
  }
  if (over()) return;
  finish(earth::grid_distance_m(at_, line.back()) <= haven_seen_m ? State::at_haven
                                                                  : State::staying);
}

void Walker::finish(State state) {
  if (over_) return;
  over_ = true;
  state_ = fate_.state = state;
  put_moment();
}

}  // namespace lodeway::walkers::detail
