#include <cmath>

#include "lodeway/sight/detail/densities.hpp"

namespace lodeway::sight {

namespace {
using detail::Model;
using units::GridBearing;

GridBearing turned(double deg, double sigma, numeric::Random& random) {
  return sigma > 120 ? GridBearing::degrees(360 * random.uniform())
                     : GridBearing::degrees(deg + sigma * random.normal());
}

/// A telling that means nothing.
void draw_nonsense(const Model& m, Report& r, numeric::Random& random) {
  switch (r.cue) {
    case Cue::height:
      r.value = m.planes.lowest_m - 2 * m.perception.sigma.height_m +
                random.uniform() *
                    (m.planes.highest_m - m.planes.lowest_m + 4 * m.perception.sigma.height_m);
      return;
    case Cue::fall:
      r.level = random.uniform() < 0.1;
      r.has_direction = !r.level;
      break;
    case Cue::steepness:
      r.value = 60 * random.uniform();
      return;
    case Cue::landform:
      r.form = static_cast<Form>(1 + static_cast<int>(7 * random.uniform()));
      return;
    default:
      r.seen = random.uniform() < 0.5;
      r.has_direction = r.has_direction && r.seen;
  }
  if (r.has_direction) r.direction = GridBearing::degrees(360 * random.uniform());
}

void draw_view(const Facts& f, Report& r, numeric::Random& random) {
  double none = 1, sum = 0;
  for (const auto& view : f.in_view) {
    none *= 1 - view.chance;
    sum += view.chance;
  }
  r.seen = random.uniform() >= none;
  r.has_direction = r.has_direction && r.seen;
  if (!r.has_direction) return;
  double pick = sum * random.uniform();
  for (const auto& view : f.in_view) {
    pick -= view.chance;
    if (pick > 0 && &view != &f.in_view.back()) continue;
    r.direction = turned(view.bearing_deg, view.sigma_deg, random);
    return;
  }
}
}  // namespace

std::optional<Report> perceive(const CuePlanes& planes, earth::GridPoint place, const Report& like,
                               const Perception& perception, mapdata::Visibility visibility,
                               numeric::Random& random) {
  const auto cell = planes.cell(place);
  if (!cell) return std::nullopt;
  const Model m{planes, perception, visibility};
  const Facts f = facts_at(planes, *cell, like, perception, visibility);
  Report r = like;
  if (random.uniform() < perception.mix) {
    draw_nonsense(m, r, random);
    return r;
  }
  switch (r.cue) {
    case Cue::height:
      r.value = f.height_m + detail::height_sigma(m, r) * random.normal();
      break;
    case Cue::fall:
      r.level = random.uniform() < level_told(f.slope_deg);
      r.has_direction = !r.level;
      if (r.has_direction)
        r.direction = turned(f.fall_deg, detail::fall_sigma(m, f.slope_deg), random);
      break;
    case Cue::steepness: {
      const double s =
          r.sigma > 0 ? std::hypot(perception.widen * r.sigma, planes.gradient_sd * detail::degrees)
                      : detail::steepness_sigma(m);
      r.value = std::abs(f.slope_deg + s * random.normal());
      break;
    }
    case Cue::landform: {
      double pick = random.uniform();
      r.form = Form::valley;
      for (int k = 1; k < form_count; ++k) {
        pick -= form_told(static_cast<Form>(k), f.form);
        if (pick < 0) {
          r.form = static_cast<Form>(k);
          break;
        }
      }
      break;
    }
    case Cue::in_wood:
      r.seen = (random.uniform() < 0.95) == f.wood;
      break;
    case Cue::on_line: {
      r.seen = random.uniform() < detail::line_told(m, r.kind, f.nearest).on;
      r.has_direction = r.has_direction && r.seen;
      if (r.has_direction) {
        const double lie = f.nearest ? f.nearest->lie_deg : 180 * random.uniform();
        r.direction =
            turned(lie, f.nearest ? perception.widen * perception.sigma.line_deg : 0, random);
      }
      break;
    }
    case Cue::beside_line: {
      const auto told = detail::line_told(m, r.kind, f.nearest);
      r.seen = random.uniform() < told.beside;
      r.has_direction = r.has_direction && r.seen;
      if (r.has_direction)
        r.direction = f.nearest ? turned(f.nearest->bearing_deg,
                                         perception.widen * perception.sigma.beside_deg, random)
                                : GridBearing::degrees(360 * random.uniform());
      break;
    }
    case Cue::at_point:
      r.seen = random.uniform() < detail::point_told(m, r.kind, f.nearest);
      break;
    case Cue::sees_thing:
      draw_view(f, r, random);
      break;
    case Cue::sees_kind:
      if (!f.in_view.empty()) {
        draw_view(f, r, random);
        break;
      }
      Report yes = r;
      yes.seen = true;
      yes.has_direction = false;
      r.seen = random.uniform() < detail::density(m, f, yes);
      r.has_direction = r.has_direction && r.seen;
      if (r.has_direction) {
        const double d = f.nearest ? std::max(f.nearest->distance_m, 1.0) : 1;
        const double s = std::hypot(perception.widen * perception.sigma.bearing_deg,
                                    std::atan2(perception.sigma.bearing_m, d) * detail::degrees);
        r.direction = f.nearest ? turned(f.nearest->bearing_deg, s, random)
                                : GridBearing::degrees(360 * random.uniform());
      }
      break;
  }
  return r;
}

}  // namespace lodeway::sight
