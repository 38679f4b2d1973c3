#include "lodeway/sight/likelihood.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/sight/detail/densities.hpp"

namespace lodeway::sight {

using detail::degrees;
using mapdata::Kind;
using mapdata::Visibility;

double form_told(Form told, Form is) {
  // told:   flat  top   ridge spur  slope hollow valley
  static constexpr std::array<std::array<double, 7>, 7> rows{{
      {0.70, 0.03, 0.05, 0.03, 0.12, 0.02, 0.05},
      {0.05, 0.72, 0.14, 0.05, 0.02, 0.01, 0.01},
      {0.02, 0.08, 0.66, 0.16, 0.06, 0.01, 0.01},
      {0.01, 0.02, 0.18, 0.58, 0.18, 0.02, 0.01},
      {0.04, 0.02, 0.03, 0.09, 0.70, 0.09, 0.03},
      {0.02, 0.01, 0.01, 0.02, 0.18, 0.58, 0.18},
      {0.06, 0.01, 0.01, 0.01, 0.08, 0.15, 0.68},
  }};
  if (told == Form::unknown) return 1;
  if (is == Form::unknown) return 1.0 / 7;
  return rows[static_cast<std::size_t>(is) - 1][static_cast<std::size_t>(told) - 1];
}

double level_told(double slope_deg) { return numeric::normal_cdf((4 - slope_deg) / 2); }

double on_line_sd_m(Kind kind) {
  switch (kind) {
    case Kind::road:
    case Kind::track:
    case Kind::railway:
      return 12;
    case Kind::faint_path:
    case Kind::wood_edge:
    case Kind::shore:
      return 30;
    case Kind::ridge_line:
    case Kind::valley_line:
      return 40;
    default:
      return 20;
  }
}

std::vector<std::int32_t> candidates_of(const CuePlanes& planes, Kind kind) {
  std::vector<std::int32_t> out;
  for (std::size_t t = 0; t < planes.things.size(); ++t) {
    if (planes.things[t].kind == kind) out.push_back(static_cast<std::int32_t>(t));
  }
  const earth::GridPoint middle{0.5 * (planes.frame.west_m + planes.frame.east_m()),
                                0.5 * (planes.frame.south_m() + planes.frame.north_m)};
  const auto away = [&](std::int32_t t) {
    return earth::grid_distance_m(middle, planes.things[static_cast<std::size_t>(t)].at);
  };
  std::ranges::stable_sort(out, {}, away);
  if (out.size() > 16) out.resize(16);
  std::ranges::sort(out);
  return out;
}

Facts facts_at(const CuePlanes& planes, std::size_t cell, const Report& like,
               const Perception& perception, Visibility visibility) {
  Facts f;
  switch (like.cue) {  // planes are large: what is not asked is not fetched
    case Cue::height:
      f.height_m = planes.height_m(cell);
      break;
    case Cue::fall:
      f.fall_deg = planes.fall_deg(cell);
      [[fallthrough]];
    case Cue::steepness:
      f.slope_deg = planes.slope_deg(cell);
      break;
    case Cue::landform:
      f.form = planes.form[cell];
      break;
    case Cue::in_wood:
      f.wood = planes.wood[cell] != 0;
      break;
    default:
      break;
  }
  const bool far_kind = like.cue == Cue::sees_kind && !candidates_of(planes, like.kind).empty() &&
                        reach_m(like.kind, visibility, planes.kinds) > 300;
  if (like.cue == Cue::on_line || like.cue == Cue::beside_line || like.cue == Cue::at_point ||
      (like.cue == Cue::sees_kind && !far_kind)) {
    if (const auto* plane = planes.plane_of(like.kind)) f.nearest = nearest_of(*plane, cell);
  }
  if (like.cue == Cue::sees_thing && like.thing >= 0) {
    f.in_view.push_back(detail::view_of(planes, cell, static_cast<std::size_t>(like.thing),
                                        perception, visibility));
  } else if (far_kind) {
    for (const std::int32_t t : candidates_of(planes, like.kind))
      f.in_view.push_back(
          detail::view_of(planes, cell, static_cast<std::size_t>(t), perception, visibility));
  }
  return f;
}

double likelihood(const CuePlanes& planes, const Facts& facts, const Report& report,
                  const Perception& perception, Visibility visibility) {
  const detail::Model m{planes, perception, visibility};
  const double f = detail::density(m, facts, report), u = detail::nonsense(m, report);
  return (1 - perception.mix) * f + perception.mix * u;
}

namespace {
double tempered(double l, const Report& report, const Perception& p) {
  const double log_l = std::log(std::max(l, 1e-300));
  return detail::is_ground_cue(report.cue) ? p.temper * log_l : log_l;
}
}  // namespace

double log_likelihood(const CuePlanes& planes, earth::GridPoint place, const Report& report,
                      const Perception& perception, Visibility visibility) {
  const auto cell = planes.cell(place);
  return cell ? log_likelihood_at(planes, *cell, report, perception, visibility)
              : -std::numeric_limits<double>::infinity();
}

double log_likelihood_at(const CuePlanes& planes, std::size_t cell, const Report& report,
                         const Perception& perception, Visibility visibility) {
  const Facts facts = facts_at(planes, cell, report, perception, visibility);
  return tempered(likelihood(planes, facts, report, perception, visibility), report, perception);
}

namespace {
Nearest nearest_by_bytes(bool line, std::size_t distance, std::size_t direction) {
  Nearest n;
  n.distance_m = CuePlanes::distance_step_m * static_cast<double>(distance);
  if (line) {
    n.lie_deg = 180.0 / 128 * static_cast<double>(direction & 127);
    n.bearing_deg = std::fmod(n.lie_deg + ((direction & 128) != 0 ? 270 : 90), 360);
  } else {
    n.bearing_deg = 360.0 / 256 * static_cast<double>(direction);
  }
  return n;
}
}  // namespace

/// Distance by direction. Of a line the two are independent, so each is worked out once.
template <class OfDensity>
void Scorer::lay_near(const detail::Model& m, const OfDensity& of_density) {
  const Report& r = report_;
  table_.resize(std::size_t{256} * 256);
  const bool on = r.cue == Cue::on_line, apart = near_->line && (on || r.cue == Cue::beside_line);
  std::vector<double> by_direction(256, 1.0);
  if (apart && r.seen && r.has_direction) {
    for (std::size_t k = 0; k < 256; ++k) {
      const Nearest n = nearest_by_bytes(true, 0, k);
      const double told = r.direction.in_degrees();
      by_direction[k] =
          on ? detail::wrapped_density(told - n.lie_deg,
                                       perception_.widen * perception_.sigma.line_deg, 180)
             : detail::wrapped_density(told - n.bearing_deg,
                                       perception_.widen * perception_.sigma.beside_deg, 360);
    }
  }
  Facts f;
  const std::size_t directions = r.has_direction && r.seen ? 256 : 1;
  for (std::size_t d = 0; d < 255; ++d) {
    float* const row = &table_[d * 256];
    if (apart) {
      const auto told = detail::line_told(m, r.kind, nearest_by_bytes(true, d, 0));
      const double yes = on ? told.on : told.beside;
      for (std::size_t k = 0; k < directions; ++k)
        row[k] = of_density(r.seen ? yes * by_direction[k] : 1 - yes);
    } else {
      for (std::size_t k = 0; k < directions; ++k) {
        f.nearest = nearest_by_bytes(near_->line, d, k);
        row[k] = of_density(detail::density(m, f, r));
      }
    }
    if (directions == 1) std::fill_n(row, 256, row[0]);
  }
  std::fill_n(table_.begin() + 255 * 256, 256, beyond_);
}

/// Beyond 200 m of a thing that is seen from afar the air and the spread change so slowly that a
/// line between values each 8 m is within 0.002 of them.
void Scorer::lay_far() {
  const Thing& thing = planes_->things[candidates_[0].thing];
  if (reach_m(thing.kind, visibility_, planes_->kinds) < 1000) return;
  const auto& f = planes_->frame;
  const double east = std::max(f.east_m() - thing.at.east_m, thing.at.east_m - f.west_m);
  const double north = std::max(f.north_m - thing.at.north_m, thing.at.north_m - f.south_m());
  const auto steps = static_cast<std::size_t>(std::hypot(east, north) / far_step_m) + 2;
  for (std::size_t k = 0; k < steps; ++k) {
    const auto v = detail::by_range(*planes_, thing, far_step_m * static_cast<double>(k),
                                    perception_, visibility_);
    far_air_.push_back(static_cast<float>(v.air));
    far_sigma_deg_.push_back(static_cast<float>(v.sigma_deg));
    // the spread falls with distance, so this holds for all of the step behind it
    far_edge_.push_back(static_cast<float>(std::cos(std::min(180.0, beam * v.sigma_deg) / degrees)));
  }
  if (!report_.seen || !report_.has_direction || perception_.mix < 1e-3) return;
  const detail::Model m{*planes_, perception_, visibility_};
  blank_ = static_cast<float>(std::log(perception_.mix * detail::nonsense(m, report_)));
  const double told = report_.direction.in_degrees() / degrees;
  told_east_ = std::sin(told);
  told_north_ = std::cos(told);
}

Scorer::Scorer(const CuePlanes& planes, const Report& report, const Perception& perception,
               Visibility visibility)
    : planes_(&planes), report_(report), perception_(perception), visibility_(visibility) {
  const detail::Model m{planes, perception, visibility};
  const double kept = 1 - perception.mix, lost = perception.mix * detail::nonsense(m, report);
  const auto of_density = [&](double f) {
    return static_cast<float>(tempered(kept * f + lost, report, perception));
  };
  const auto entry = [&](const Facts& f) { return of_density(detail::density(m, f, report)); };
  Facts f;
  switch (report.cue) {
    case Cue::height: {
      const auto steps = static_cast<std::size_t>(
          (planes.highest_m - planes.base_m) / CuePlanes::height_step_m + 2);
      table_.resize(std::min<std::size_t>(steps, 65535));
      for (std::size_t k = 0; k < table_.size(); ++k) {
        f.height_m = planes.base_m + CuePlanes::height_step_m * static_cast<double>(k);
        table_[k] = entry(f);
      }
      break;
    }
    case Cue::fall:
      table_.resize(std::size_t{181} * 256);
      for (std::size_t s = 0; s <= 180; ++s) {
        f.slope_deg = CuePlanes::steepness_step_deg * static_cast<double>(s);
        const double level = level_told(f.slope_deg), sd = detail::fall_sigma(m, f.slope_deg);
        for (std::size_t d = 0; d < 256; ++d) {
          const double off = report.direction.in_degrees() - 360.0 / 256 * static_cast<double>(d);
          table_[s * 256 + d] = of_density(
              report.level ? level : (1 - level) * detail::wrapped_density(off, sd, 360));
        }
      }
      break;
    case Cue::steepness:
      table_.resize(181);
      for (std::size_t s = 0; s <= 180; ++s) {
        f.slope_deg = CuePlanes::steepness_step_deg * static_cast<double>(s);
        table_[s] = entry(f);
      }
      break;
    case Cue::landform:
      table_.resize(form_count);
      for (std::size_t k = 0; k < form_count; ++k) {
        f.form = static_cast<Form>(k);
        table_[k] = entry(f);
      }
      break;
    case Cue::in_wood:
      table_.resize(2);
      for (std::size_t k = 0; k < 2; ++k) {
        f.wood = k != 0;
        table_[k] = entry(f);
      }
      break;
    case Cue::sees_kind:
      if (reach_m(report.kind, visibility, planes.kinds) > 300) {
        for (const std::int32_t t : candidates_of(planes, report.kind))
          candidates_.push_back({static_cast<std::size_t>(t), 0});
      }
      dear_ = !candidates_.empty();
      if (dear_) break;
      [[fallthrough]];
    case Cue::on_line:
    case Cue::beside_line:
    case Cue::at_point: {
      near_ = planes.plane_of(report.kind);
      beyond_ = entry(f);
      if (near_ == nullptr) break;
      lay_near(m, of_density);
      break;
    }
    case Cue::sees_thing:
      dear_ = report.thing >= 0;
      if (!dear_) break;
      candidates_.push_back({static_cast<std::size_t>(report.thing), 0});
      lay_far();
      break;
  }
}

float Scorer::bearing_at(std::size_t cell) const {
  const detail::Model m{*planes_, perception_, visibility_};
  if (candidates_.size() == 1) {  // by far the commonest, and no list to make
    const std::size_t thing = candidates_[0].thing;
    const auto to = detail::from_cell(*planes_, cell, thing);
    const double r = std::sqrt(to.east_m * to.east_m + to.north_m * to.north_m);
    Facts::InView view;
    if (r > 200 && r < far_step_m * (static_cast<double>(far_air_.size()) - 1)) {
      const double u = r / far_step_m;
      const auto k = static_cast<std::size_t>(u);
      if (blank_ < 0 && to.east_m * told_east_ + to.north_m * told_north_ <
                            r * static_cast<double>(far_edge_[k]))
        return blank_;
      const double part = u - static_cast<double>(k);
      const auto between = [&](const std::vector<float>& v) {
        const auto a = static_cast<double>(v[k]);
        return a + part * (static_cast<double>(v[k + 1]) - a);
      };
      view = detail::view_from(*planes_, cell, thing, to, r,
                               {between(far_air_), between(far_sigma_deg_)}, perception_,
                               report_.seen && report_.has_direction);
    } else {
      view = detail::view_of(*planes_, cell, thing, perception_, visibility_);
    }
    return static_cast<float>(std::log(std::max(detail::of_view(m, view, report_), 1e-300)));
  }
  Facts f;
  for (const auto& c : candidates_)
    f.in_view.push_back(detail::view_of(*planes_, cell, c.thing, perception_, visibility_));
  const double l = (1 - perception_.mix) * detail::density(m, f, report_) +
                   perception_.mix * detail::nonsense(m, report_);
  return static_cast<float>(std::log(std::max(l, 1e-300)));
}

float Scorer::at(std::size_t i) const {
  const CuePlanes& p = *planes_;
  switch (report_.cue) {
    case Cue::height:
      return table_[std::min<std::size_t>(p.height[i], table_.size() - 1)];
    case Cue::fall:
      return table_[std::size_t{p.steepness[i]} * 256 + p.fall[i]];
    case Cue::steepness:
      return table_[p.steepness[i]];
    case Cue::landform:
      return table_[static_cast<std::size_t>(p.form[i])];
    case Cue::in_wood:
      return table_[p.wood[i] != 0 ? 1 : 0];
    default:
      break;
  }
  if (dear_) return bearing_at(i);
  if (near_ == nullptr) return beyond_;
  return table_[std::size_t{near_->distance[i]} * 256 + near_->direction[i]];
}

void Scorer::add(std::size_t first, std::size_t last, float* log_p, float floor) const {
  const CuePlanes& p = *planes_;
  const float* const table = table_.data();
  switch (report_.cue) {
    case Cue::height: {
      const std::size_t most = table_.size() - 1;
      for (std::size_t i = first; i < last; ++i)
        log_p[i] += table[std::min<std::size_t>(p.height[i], most)];
      return;
    }
    case Cue::fall:
      for (std::size_t i = first; i < last; ++i)
        log_p[i] += table[std::size_t{p.steepness[i]} * 256 + p.fall[i]];
      return;
    case Cue::steepness:
      for (std::size_t i = first; i < last; ++i) log_p[i] += table[p.steepness[i]];
      return;
    case Cue::landform:
      for (std::size_t i = first; i < last; ++i)
        log_p[i] += table[static_cast<std::size_t>(p.form[i])];
      return;
    case Cue::in_wood:
      for (std::size_t i = first; i < last; ++i) log_p[i] += table[p.wood[i] != 0 ? 1 : 0];
      return;
    default:
      break;
  }
  if (dear_) {
    for (std::size_t i = first; i < last; ++i) {
      if (log_p[i] >= floor) log_p[i] += bearing_at(i);
    }
    return;
  }
  if (near_ == nullptr) {
    for (std::size_t i = first; i < last; ++i) log_p[i] += beyond_;
    return;
  }
  for (std::size_t i = first; i < last; ++i)
    log_p[i] += table[std::size_t{near_->distance[i]} * 256 + near_->direction[i]];
}

}  // namespace lodeway::sight
