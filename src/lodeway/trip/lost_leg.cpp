#include "lodeway/trip/lost_leg.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::trip {

namespace {

using earth::GridPoint;
using mapdata::Kind;
using sight::CuePlanes;
using walking::Bar;

constexpr double no_figure = std::numeric_limits<double>::quiet_NaN();
constexpr double flat_deg = 5;      // below: it falls nowhere that one could tell
constexpr double on_it_m = 15;      // what is followed is not told again as on a hand; practice
constexpr double look_step_m = 10;  // out to either hand
constexpr std::size_t tried = 500;  // places from which straight downhill is walked
constexpr std::size_t most_moves = 2;
constexpr double fall_told_deg = 30;  // two sigmas of sight::CueSigmas::fall_deg
constexpr double least_part = 0.1;    // of where one may be: less is not worth a line; practice

GridPoint offset(GridPoint p, double bearing_rad, double by_m) {
  return {p.east_m + by_m * std::sin(bearing_rad), p.north_m + by_m * std::cos(bearing_rad)};
}

double height_at(const CuePlanes& planes, GridPoint p) {
  const auto cell = planes.cell(p);
  return cell && planes.known(*cell) ? planes.height_m(*cell) : no_figure;
}

/// What can hurt; lakes and the like are told as things.
bool hurts(Bar bar) { return bar == Bar::steep || bar == Bar::cliff; }

/// Distances that a person would say.
double said_m(double away_m) {
  return away_m < 10 ? std::round(away_m) : 10 * std::round(away_m / 10);
}

/// Lines and points that are seen on the ground; crests and valley floors are not.
bool is_thing(const CuePlanes& planes, Kind kind) {
  const auto& traits = planes.kinds[kind];
  return sight::class_of(kind) != sight::KindClass::relief &&
         (traits.leads || traits.catches || traits.ticks || kind == Kind::cliff);
}

/// Ground to keep off on a hand, else the nearest thing there. `side`: -1 left, 1 right.
std::optional<OnHand> on_hand(const CuePlanes& planes, GridPoint at, double heading_rad, int side,
                              const walking::Course& course, Language in) {
  const double across = heading_rad + side * 0.5 * std::numbers::pi;
  for (double away = look_step_m; away <= lost_reach_m; away += look_step_m) {
    const auto cell = planes.cell(offset(at, across, away));
    if (!cell) break;
    if (hurts(planes.bar[*cell])) {
      return OnHand{planes.bar[*cell] == Bar::cliff ? landmarks::thing(Kind::cliff, "", in)
                                                    : told(in, "too steep"),
                    said_m(away), true};
    }
  }
  std::optional<OnHand> best;
  double least = lost_reach_m;
  const auto here = planes.cell(at);
  for (const auto& plane : planes.near) {
    if (!here || !is_thing(planes, plane.kind)) continue;
    const auto nearest = sight::nearest_of(plane, *here);
    if (!nearest || nearest->distance_m > least) continue;
    const bool followed =
        course.kind == walking::LegKind::along && plane.kind == course.followed.kind;
    if (followed && nearest->distance_m < on_it_m) continue;
    const double off = nearest->bearing_deg * std::numbers::pi / 180 - heading_rad;
    if (side * std::sin(off) <= 0) continue;
    least = nearest->distance_m;
    best = {landmarks::thing(plane.kind, "", in), said_m(least), plane.kind == Kind::cliff};
  }
  return best;
}

LostRow row_at(const PlannedLeg& leg, const CuePlanes& planes, const mapdata::Measured& measured,
               double along_m, Language in) {
  LostRow out;
  out.along_m = along_m;
  const auto at = measured.at(along_m);
  const auto cell = planes.cell(at);
  out.height_m = height_at(planes, at);
  if (!cell || std::isnan(out.height_m)) return out;
  out.slope_deg = planes.slope_deg(*cell);
  out.steepness = steepness_words(out.slope_deg, in);
  if (out.slope_deg >= flat_deg) {
    const double to_magnetic = leg.magnetic_bearing.in_degrees() - leg.grid_bearing.in_degrees();
    out.falls = units::MagneticBearing::degrees(planes.fall_deg(*cell) + to_magnetic);
  }
  if (planes.form[*cell] != sight::Form::unknown)
    out.form = told(in, sight::form_words(planes.form[*cell]));
  const double ahead_m = std::min(along_m + 50, measured.length_m());
  const auto heading = earth::grid_bearing(measured.at(ahead_m - 50), measured.at(ahead_m));
  const double rad = heading.in_degrees() * std::numbers::pi / 180;
  const auto rise = [&](double side) {
    return height_at(planes, offset(at, rad + side * 0.5 * std::numbers::pi, lost_beside_m)) -
           out.height_m;
  };
  out.left_rise_m = rise(-1);
  out.right_rise_m = rise(1);
  out.left = on_hand(planes, at, rad, -1, leg.course, in);
  out.right = on_hand(planes, at, rad, 1, leg.course, in);
  return out;
}

/// Nobody would choose between them: on bearings that differ by less than 45 degrees.
bool alike(const belief::Move& a, const belief::Move& b) {
  if (a.kind != b.kind) return false;
  return a.kind != belief::MoveKind::bearing ||
         std::abs(std::remainder(a.bearing.in_degrees() - b.bearing.in_degrees(), 360)) < 45;
}

/// The belief of a party that sees the ground fall within 45 degrees of this grid direction: places
/// where it falls within `fall_told_deg` of that, for a fall is told with an error. Nothing where
/// less than `least_part` of it is so.
std::optional<belief::Belief> falling(const belief::Belief& belief, const CuePlanes& planes,
                                      double towards_deg) {
  auto out = belief;
  double whole = 0, kept = 0;
  std::array<bool, 256> fits{};  // by the byte of CuePlanes::fall
  for (int k = 0; k < 256; ++k) {
    const double off = std::remainder(360.0 / 256 * k - towards_deg, 360);
    fits[static_cast<std::size_t>(k)] = std::abs(off) <= 45 + fall_told_deg;
  }
  for (std::size_t i = 0; i < out.share.size(); ++i) {
    const auto share = static_cast<double>(out.share[i]);
    whole += share;
    const bool so = planes.slope_deg(i) >= flat_deg && fits[planes.fall[i]];
    if (so)
      kept += share;
    else
      out.share[i] = 0;
  }
  if (kept < least_part * whole || kept <= 0) return {};
  const double times = (1 - out.elsewhere) / kept;
  for (float& share : out.share) share = static_cast<float>(times * static_cast<double>(share));
  return out;
}

}  // namespace

belief::OnCourse on_course(const walking::Leg& leg, const walking::Party& party) {
  belief::OnCourse out;
  out.line = leg.course.line;
  const auto spread =
      reckoning::single_leg_spread(reckoning::errors_of(party), leg.figures.length_m);
  out.end_cross_sd_m =
      leg.course.kind == walking::LegKind::along ? 25 : std::max(20.0, std::sqrt(spread.cross_m2));
  if (leg.figures.minutes > 0)
    out.speed_kmh = leg.figures.length_m / leg.figures.minutes * 60 / 1000;
  return out;
}

sight::Window lost_window(const std::vector<GridPoint>& line) {
  constexpr double margin_m = 3000;
  const auto [west, east] = std::ranges::minmax(line, {}, &GridPoint::east_m);
  const auto [south, north] = std::ranges::minmax(line, {}, &GridPoint::north_m);
  return {west.east_m - margin_m, south.north_m - margin_m, east.east_m + margin_m,
          north.north_m + margin_m};
}

LostLeg lost_leg(const Plan& plan, std::size_t index, const CuePlanes& planes,
                 const sight::Chances& chances) {
  const auto& leg = plan.way.legs[index];
  const auto in = plan.trip.language;
  const auto& party = plan.trip.request.party;
  LostLeg out;
  if (leg.figures.minutes > 0) out.ten_minutes_m = 10 * leg.figures.length_m / leg.figures.minutes;
  const mapdata::Measured measured(leg.course.line);
  const double step = lost_row_m(plan.trip.lengths);
  for (int k = 0; k * step < std::max(1.0, measured.length_m() - 0.25 * step); ++k)
    out.rows.push_back(row_at(leg, planes, measured, k * step, in));

  const auto belief = belief::before(planes, on_course(leg, party));
  const double to_magnetic = leg.magnetic_bearing.in_degrees() - leg.grid_bearing.in_degrees();
  const auto stops = belief::stops_of(planes, chances, party.skill, party.visibility);
  const auto offered = [&](const belief::Belief& where) {
    return belief::common_moves(where, planes, stops);
  };
  const auto sentence = [&](const belief::Move& move) {
    const auto needle = units::MagneticBearing::degrees(move.bearing.in_degrees() + to_magnetic);
    return move_words(move, bearing_text(needle, plan.trip.angles) + bearing_sign(plan.trip.angles),
                      length_text(move.within_m, plan.trip.lengths), in);
  };
  const auto moves = offered(belief);
  out.standing_barred = moves.standing_barred;
  for (const auto& move : moves.offered) {
    if (!out.moves.empty() && alike(move, moves.offered.front())) continue;
    out.moves.push_back(sentence(move));
    if (out.moves.size() == most_moves) break;
  }
  for (int quarter = 0; quarter < 4 && out.moves.empty(); ++quarter) {
    const auto part = falling(belief, planes, 90 * quarter - to_magnetic);
    if (!part) continue;
    const auto there = offered(*part);
    if (there.offered.empty()) continue;
    const auto text = [&](double degrees) {
      const auto b = units::MagneticBearing::degrees(degrees);
      return bearing_text(b, plan.trip.angles) + bearing_sign(plan.trip.angles);
    };
    out.by_fall.push_back(
        told(in, "Where the ground falls towards {} to {}: {}",
             {text(90 * quarter - 45), text(90 * quarter + 45), sentence(there.offered.front())}));
  }
  std::vector<GridPoint> from;
  for (const auto cell : belief::draws(belief, tried)) {
    const auto cols = static_cast<std::size_t>(planes.frame.cols);
    from.push_back(
        planes.frame.centre(static_cast<int>(cell / cols), static_cast<int>(cell % cols)));
  }
  if (from.empty()) return out;
  numeric::Random random(1);
  belief::Move down;
  down.kind = belief::MoveKind::downhill;
  down.within_m = belief::MoveLimits{}.most_m;
  const auto walked = belief::walk(down, from, planes, stops, belief::WalkError{}, random);
  out.downhill_barred =
      static_cast<double>(std::ranges::count_if(walked, &belief::Walked::barred)) /
      static_cast<double>(walked.size());
  return out;
}

std::string move_words(const belief::Move& move, const std::string& bearing,
                       const std::string& within, Language in) {
  using belief::MoveKind;
  std::string go;
  switch (move.kind) {
    case MoveKind::bearing:
      go = told(in, "Walk on bearing {}", {bearing});
      break;
    case MoveKind::downhill:
      go = told(in, "Walk straight downhill");
      break;
    case MoveKind::uphill:
      go = told(in, "Walk straight uphill");
      break;
    case MoveKind::slope_on_left:
      go = told(in, "Walk along the slope, the high ground on your left hand");
      break;
    case MoveKind::slope_on_right:
      go = told(in, "Walk along the slope, the high ground on your right hand");
      break;
  }
  static constexpr std::array<const char*, belief::stop_sort_count> sorts{
      "the top of the rise", "flat ground", "water", "a wall or fence", "a path, track or edge"};
  std::string stops;
  for (std::size_t k = 0; k < sorts.size(); ++k) {
    if (move.by_sort[k] < 0.05) continue;
    const auto sort = told(in, sorts[k]);
    stops = stops.empty() ? sort : told(in, "{} or {}", {stops, sort});
  }
  if (stops.empty()) stops = told(in, "a catching feature");
  return told(in,
              "{} until you meet {}: {} in 100 do within {}, {} in 1000 come onto ground to keep "
              "off. Nothing by then: stop.",
              {go, stops, units::of_hundred(move.met), within,
               static_cast<int>(std::ceil(1000 * move.barred - 1e-9))});
}

std::string steepness_words(double slope_deg, Language in) {
  static constexpr std::array<std::pair<double, const char*>, 4> words{
      {{flat_deg, "flat"}, {12, "gentle"}, {20, "moderate"}, {30, "steep"}}};
  for (const auto& [below, text] : words) {
    if (slope_deg < below) return told(in, text);
  }
  return told(in, "very steep");
}

}  // namespace lodeway::trip
