#include "lodeway/sight/chances.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::sight {

namespace {
using mapdata::Kind;
using walking::Skill;
using ByAir = std::array<double, mapdata::visibility_count>;

/// Of a practised party, by visibility: clear, cloud, night, snow. All *practice*: no measurement
/// of walkers was found for any of them.
constexpr std::array<std::array<ByAir, kind_class_count>, chance_count> practised{{
    {{// a line that is met is noticed
      {0.99, 0.98, 0.96, 0.80},
      {0.95, 0.92, 0.80, 0.35},
      {0.70, 0.60, 0.35, 0.05},
      {0.97, 0.95, 0.90, 0.55},
      {0.98, 0.97, 0.94, 0.75},
      {0.97, 0.93, 0.75, 0.92},
      {0.85, 0.50, 0.20, 0.75},
      {0.90, 0.80, 0.65, 0.70},
      {0.30, 0.25, 0.20, 0.20}}},
    {{// one that is followed is kept over a kilometre
      {0.998, 0.995, 0.99, 0.96},
      {0.990, 0.980, 0.95, 0.80},
      {0.940, 0.900, 0.80, 0.50},
      {0.990, 0.980, 0.95, 0.85},
      {0.995, 0.990, 0.97, 0.94},
      {0.990, 0.970, 0.90, 0.97},
      {0.970, 0.880, 0.70, 0.93},
      {0.950, 0.900, 0.80, 0.80},
      {0.900, 0.800, 0.70, 0.70}}},
    {{// of those who look, the right branch
      {0.99, 0.99, 0.98, 0.95},
      {0.98, 0.97, 0.94, 0.85},
      {0.93, 0.90, 0.82, 0.70},
      {0.97, 0.96, 0.93, 0.88},
      {0.98, 0.97, 0.95, 0.93},
      {0.96, 0.94, 0.88, 0.94},
      {0.94, 0.85, 0.75, 0.90},
      {0.95, 0.93, 0.90, 0.90},
      {0.90, 0.85, 0.80, 0.80}}},
    {{// an end in sight is known for what it is
      {0.99, 0.98, 0.96, 0.90},
      {0.97, 0.94, 0.85, 0.60},
      {0.90, 0.80, 0.60, 0.30},
      {0.97, 0.95, 0.90, 0.70},
      {0.98, 0.96, 0.92, 0.85},
      {0.96, 0.92, 0.80, 0.93},
      {0.97, 0.90, 0.80, 0.95},
      {0.98, 0.97, 0.93, 0.93},
      {0.60, 0.50, 0.40, 0.40}}},
}};

/// Odds of failing against the practised. *practice*.
double odds_of(Skill skill) {
  switch (skill) {
    case Skill::novice:
      return 2.5;
    case Skill::practised:
      return 1;
    case Skill::expert:
      return 0.5;
  }
  return 1;
}

struct OfSkill {
  std::array<Figure, 3> by_skill;  // novice, practised, expert
};
/// The three that decide. *practice*, from a prototype whose author set them by hand; ranges are
/// those within which that prototype's results stayed believable.
const std::array<OfSkill, setting_count> settings{{
    {{{{0.30, 0.15, 0.50}, {0.60, 0.40, 0.80}, {0.75, 0.55, 0.90}}}},
    {{{{0.80, 0.50, 0.90}, {0.96, 0.85, 0.99}, {0.98, 0.92, 0.995}}}},
    {{{{0.06, 0.02, 0.15}, {0.02, 0.005, 0.05}, {0.01, 0.002, 0.03}}}},
}};

double fail_odds(double p, double times) {
  if (p <= 0 || p >= 1) return p;
  const double odds = times * (1 - p) / p;
  return 1 / (1 + odds);
}

double fail_times(double p, double times) { return std::clamp(1 - times * (1 - p), 0.0, 1.0); }

constexpr std::array<std::string_view, kind_class_count> class_names{
    "made_way", "path", "faint_path", "water", "wall", "wood_edge", "relief", "mark", "other"};
constexpr std::array<std::string_view, chance_count> chance_names{"notice", "stay", "branch",
                                                                  "know"};
constexpr std::array<std::string_view, setting_count> setting_names{
    "search_at_end", "fork_attention", "gross_error"};
}  // namespace

std::string_view rests_name(Rests rests) {
  static constexpr std::array<std::string_view, 3> names{"published", "practice", "fitted"};
  return names[static_cast<std::size_t>(rests)];
}
std::string_view class_name(KindClass c) { return class_names[static_cast<std::size_t>(c)]; }
std::optional<KindClass> class_from_name(std::string_view name) {
  const auto found = std::ranges::find(class_names, name);
  if (found == class_names.end()) return std::nullopt;
  return static_cast<KindClass>(found - class_names.begin());
}
std::string_view chance_name(ChanceOf c) { return chance_names[static_cast<std::size_t>(c)]; }
std::string_view setting_name(Setting s) { return setting_names[static_cast<std::size_t>(s)]; }

KindClass class_of(Kind kind) {
  switch (kind) {
    case Kind::road:
    case Kind::track:
    case Kind::railway:
    case Kind::power_line:
    case Kind::aerialway:
      return KindClass::made_way;
    case Kind::path:
      return KindClass::path;
    case Kind::faint_path:
      return KindClass::faint_path;
    case Kind::stream:
    case Kind::river:
    case Kind::ditch:
    case Kind::shore:
    case Kind::lake:
    case Kind::sea:
      return KindClass::water;
    case Kind::wall:
    case Kind::fence:
    case Kind::hedge:
      return KindClass::wall;
    case Kind::wood_edge:
    case Kind::wood:
      return KindClass::wood_edge;
    case Kind::ridge_line:
    case Kind::valley_line:
    case Kind::summit:
    case Kind::saddle:
    case Kind::cliff:
      return KindClass::relief;
    case Kind::building:
    case Kind::ruin:
    case Kind::hut:
    case Kind::bridge:
    case Kind::ford:
    case Kind::cairn:
    case Kind::mast:
    case Kind::cave:
    case Kind::spring:
    case Kind::waterfall:
    case Kind::sheepfold:
    case Kind::gate:
    case Kind::trig_point:
    case Kind::wayside_mark:
    case Kind::shelter:
    case Kind::settlement:
    case Kind::junction:
      return KindClass::mark;
    default:
      return KindClass::other;
  }
}

Figure Chances::of(ChanceOf chance, KindClass kind, mapdata::Visibility visibility,
                   Skill skill) const {
  const auto v = static_cast<std::size_t>(visibility);
  for (auto change = changes_.chances.rbegin(); change != changes_.chances.rend(); ++change) {
    if (change->of == chance && change->kind == kind) return stated(change->value, visibility);
  }
  const double p =
      fail_odds(practised[static_cast<std::size_t>(chance)][static_cast<std::size_t>(kind)][v],
                odds_of(skill));
  // what an error of a factor two in the odds of failing leaves open
  return {fail_times(p, failing_), fail_times(fail_odds(p, 2), failing_),
          fail_times(fail_odds(p, 0.5), failing_), Rests::practice};
}

Figure Chances::stated(const ByAir& value, mapdata::Visibility visibility) const {
  const double p = fail_times(value[static_cast<std::size_t>(visibility)], failing_);
  return {p, p, p, Rests::practice};
}

Figure Chances::of(ChanceOf chance, Kind kind, mapdata::Visibility visibility, Skill skill) const {
  for (auto change = changes_.kinds.rbegin(); change != changes_.kinds.rend(); ++change) {
    if (change->of == chance && change->kind == kind) return stated(change->value, visibility);
  }
  return of(chance, class_of(kind), visibility, skill);
}

Figure Chances::of(Setting setting, Skill skill) const {
  Figure f = settings[static_cast<std::size_t>(setting)].by_skill[static_cast<std::size_t>(skill)];
  for (auto change = changes_.settings.rbegin(); change != changes_.settings.rend(); ++change) {
    if (change->setting != setting) continue;
    f = {change->value, change->value, change->value, Rests::practice};
    break;
  }
  const auto moved = [&](double p) {
    return setting == Setting::gross_error ? std::clamp(p * failing_, 0.0, 1.0)
                                           : fail_times(p, failing_);
  };
  return {moved(f.value), moved(f.low), moved(f.high), f.rests};
}

double Chances::stay_over(double length_m, Kind kind, mapdata::Visibility visibility,
                          Skill skill) const {
  return std::pow(of(ChanceOf::stay, kind, visibility, skill).value,
                  std::max(length_m, 0.0) / 1000);
}

double Chances::right_branch(Kind kind, mapdata::Visibility visibility, Skill skill) const {
  const double looks = of(Setting::fork_attention, skill).value;
  return looks * of(ChanceOf::branch, kind, visibility, skill).value + (1 - looks) * 0.5;
}

Chances Chances::with_failing(double failing) const {
  Chances out = *this;
  out.failing_ = failing_ * failing;
  return out;
}

}  // namespace lodeway::sight
