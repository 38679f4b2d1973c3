#include "lodeway/sight/detail/densities.hpp"

#include "lodeway/numeric/normal.hpp"

namespace lodeway::sight::detail {

namespace {
/// A "no" to a thing asked for is as good as drawn from a coin.
constexpr double nonsense_yes = 0.5;
constexpr double nonsense_level = 0.1;  ///< the other nine say a direction
}  // namespace

double height_sigma(const Model& m, const Report& r) {
  const double own = r.sigma > 0 ? r.sigma : m.perception.sigma.height_m;
  return std::hypot(m.perception.widen * own, m.planes.height_sd_m);
}

double fall_sigma(const Model& m, double slope_deg) {
  const double tangent = std::tan(std::max(slope_deg, 0.25) / degrees);
  return std::hypot(m.perception.widen * m.perception.sigma.fall_deg,
                    m.planes.gradient_sd / tangent * degrees);
}

double steepness_sigma(const Model& m) {
  return std::hypot(m.perception.widen * m.perception.sigma.steepness_deg,
                    m.planes.gradient_sd * degrees);
}

double on_line_told(const Model& m, mapdata::Kind kind, const std::optional<Nearest>& nearest) {
  // a line is drawn where it is not, and said to be underfoot from beside it
  constexpr double false_on = 0.005;
  if (!nearest) return false_on;
  const double u = nearest->distance_m / (m.perception.widen * on_line_sd_m(kind));
  const double noticed = m.planes.kinds[kind].recognised[static_cast<std::size_t>(m.visibility)];
  return false_on + (0.97 * std::max(noticed, 0.3) - false_on) * std::exp(-0.5 * u * u);
}

LineTold line_told(const Model& m, mapdata::Kind kind, const std::optional<Nearest>& nearest) {
  constexpr double false_beside = 0.01;
  const double on = on_line_told(m, kind, nearest);
  if (!nearest) return {on, false_beside};
  const double d = nearest->distance_m;
  const auto v = static_cast<std::size_t>(m.visibility);
  const double noticed = m.planes.kinds[kind].recognised[v];
  const double seen = m.planes.kinds[kind].seen_from_m[v];
  const double near = numeric::normal_cdf((seen - d) / (0.25 * seen + 5));
  const double told = noticed * m.perception.attention;
  return {on, false_beside + (told - false_beside) * near};
}

double point_told(const Model& m, mapdata::Kind kind, const std::optional<Nearest>& nearest) {
  constexpr double false_at = 0.005;
  if (!nearest) return false_at;
  const double u = nearest->distance_m / (m.perception.widen * 30);
  const auto v = static_cast<std::size_t>(m.visibility);
  return false_at + (0.9 * std::max(m.planes.kinds[kind].recognised[v], 0.3) - false_at) *
                        std::exp(-0.5 * u * u);
}

ByRange by_range(const CuePlanes& planes, const Thing& thing, double r,
                 const Perception& perception, mapdata::Visibility visibility) {
  const double reach = reach_m(thing.kind, visibility, planes.kinds);
  const double off = r - thing.half_width_m;
  ByRange out;
  out.air = off <= 0             ? 1
            : off > 1.75 * reach ? 0
                                 : numeric::normal_cdf((reach - off) / (0.25 * reach + 5));
  // bearing to somewhere on a broad thing, from somewhere within the cell
  const double aside = perception.sigma.bearing_m + 0.5 * thing.half_width_m;
  const double angle = std::atan2(aside, std::max(r, 1.0)) * degrees;
  const double bearing = perception.widen * perception.sigma.bearing_deg;
  out.sigma_deg = std::sqrt(bearing * bearing + angle * angle);
  return out;
}

Facts::InView view_from(const CuePlanes& planes, std::size_t cell, std::size_t t,
                        earth::GridPoint to, double r, const ByRange& by,
                        const Perception& perception, bool with_bearing) {
  constexpr double unseen = 0.01;  // told though it is hidden: another was taken for it
  Facts::InView out;
  double line = 1;
  // inside a lake's own width the view from its middle says nothing
  if (!planes.views[t].empty() && r > planes.things[t].half_width_m + 100) {
    const std::uint8_t seen = planes.views[t][cell];
    line = seen == 1 ? 1 : seen == 0 ? 0 : 0.5;
  }
  out.chance = unseen + (perception.attention - unseen) * line * by.air;
  out.sigma_deg = by.sigma_deg;
  if (!with_bearing) return out;
  out.bearing_deg = std::atan2(to.east_m, to.north_m) * degrees;
  return out;
}

Facts::InView view_of(const CuePlanes& planes, std::size_t cell, std::size_t t,
                      const Perception& perception, mapdata::Visibility visibility) {
  const auto to = from_cell(planes, cell, t);
  const double r = std::sqrt(to.east_m * to.east_m + to.north_m * to.north_m);
  return view_from(planes, cell, t, to, r,
                   by_range(planes, planes.things[t], r, perception, visibility), perception, true);
}

double of_view(const Model& m, const Facts::InView& view, const Report& r) {
  const double mix = m.perception.mix;
  if (!r.seen) return (1 - mix) * (1 - view.chance) + mix * (1 - nonsense_yes);
  if (!r.has_direction) return (1 - mix) * view.chance + mix * nonsense_yes;
  const double off = r.direction.in_degrees() - view.bearing_deg;
  return (1 - mix) * view.chance * wrapped_density(off, view.sigma_deg, 360) +
         mix * nonsense_yes / 360;
}

namespace {
double of_things(const Facts& f, const Report& r) {
  double none = 1, sum = 0, bearing = 0;
  for (const auto& view : f.in_view) {
    none *= 1 - view.chance;
    sum += view.chance;
    if (r.has_direction)
      bearing += view.chance *
                 wrapped_density(r.direction.in_degrees() - view.bearing_deg, view.sigma_deg, 360);
  }
  if (!r.seen) return none;
  if (!r.has_direction) return 1 - none;
  return sum > 0 ? (1 - none) * bearing / sum : 0;
}
}  // namespace

double density(const Model& m, const Facts& f, const Report& r) {
  switch (r.cue) {
    case Cue::height:
      return normal_density_of(r.value - f.height_m, height_sigma(m, r));
    case Cue::fall: {
      const double level = level_told(f.slope_deg);
      if (r.level) return level;
      return (1 - level) * wrapped_density(r.direction.in_degrees() - f.fall_deg,
                                           fall_sigma(m, f.slope_deg), 360);
    }
    case Cue::steepness: {
      double s = steepness_sigma(m);
      if (r.sigma > 0) s = std::hypot(m.perception.widen * r.sigma, m.planes.gradient_sd * degrees);
      // nobody says less than level: what falls below is told as its opposite
      return normal_density_of(r.value - f.slope_deg, s) +
             normal_density_of(r.value + f.slope_deg, s);
    }
    case Cue::landform:
      return form_told(r.form, f.form);
    case Cue::in_wood:
      return f.wood == r.seen ? 0.95 : 0.05;
    case Cue::on_line: {
      const double on = on_line_told(m, r.kind, f.nearest);
      if (!r.seen) return 1 - on;
      if (!r.has_direction) return on;
      if (!f.nearest) return on / 180;
      return on * wrapped_density(r.direction.in_degrees() - f.nearest->lie_deg,
                                       m.perception.widen * m.perception.sigma.line_deg, 180);
    }
    case Cue::beside_line: {
      const LineTold told = line_told(m, r.kind, f.nearest);
      if (!r.seen) return 1 - told.beside;
      if (!r.has_direction) return told.beside;
      if (!f.nearest) return told.beside / 360;
      return told.beside * wrapped_density(r.direction.in_degrees() - f.nearest->bearing_deg,
                                           m.perception.widen * m.perception.sigma.beside_deg, 360);
    }
    case Cue::at_point: {
      const double at = point_told(m, r.kind, f.nearest);
      return r.seen ? at : 1 - at;
    }
    case Cue::sees_thing:
      return of_things(f, r);
    case Cue::sees_kind: {
      if (!f.in_view.empty()) return of_things(f, r);
      // seen from near only: the nearest of the kind
      constexpr double unseen = 0.01;
      double chance = unseen;
      if (f.nearest) {
        const auto v = static_cast<std::size_t>(m.visibility);
        const double seen = m.planes.kinds[r.kind].seen_from_m[v];
        chance =
            unseen + (m.perception.attention - unseen) *
                         numeric::normal_cdf((seen - f.nearest->distance_m) / (0.25 * seen + 5));
      }
      if (!r.seen) return 1 - chance;
      if (!r.has_direction) return chance;
      if (!f.nearest) return chance / 360;
      const double angle =
          std::atan2(m.perception.sigma.bearing_m, std::max(f.nearest->distance_m, 1.0)) * degrees;
      const double s = std::hypot(m.perception.widen * m.perception.sigma.bearing_deg, angle);
      return chance * wrapped_density(r.direction.in_degrees() - f.nearest->bearing_deg, s, 360);
    }
  }
  return 0;
}

double nonsense(const Model& m, const Report& r) {
  switch (r.cue) {
    case Cue::height:
      return 1 / (m.planes.highest_m - m.planes.lowest_m + 4 * m.perception.sigma.height_m);
    case Cue::fall:
      return r.level ? nonsense_level : (1 - nonsense_level) / 360;
    case Cue::steepness:
      return 1.0 / 60;
    case Cue::landform:
      return 1.0 / 7;
    case Cue::in_wood:
    case Cue::at_point:
      return nonsense_yes;
    case Cue::on_line:
      return nonsense_yes / (r.seen && r.has_direction ? 180 : 1);
    case Cue::beside_line:
    case Cue::sees_thing:
    case Cue::sees_kind:
      return nonsense_yes / (r.seen && r.has_direction ? 360 : 1);
  }
  return 1;
}

}  // namespace lodeway::sight::detail
