/// Bearings to be set at a desk, and courses for counting paces.
#include <algorithm>
#include <cmath>
#include <map>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/terrain/profile.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::learn::detail {

namespace {
constexpr int items = 20, setting_tries = 3000, pace_tries = 3000;
/// A pair paces at the start while others are out with the instructors.
constexpr double pace_within_m = 400;
constexpr double least_m = 400, most_m = 3000, tell_apart_deg = 1, pace_m = 100;

units::MagneticBearing magnetic(double grid_deg, double grid_magnetic_deg) {
  return units::MagneticBearing::degrees(grid_deg - grid_magnetic_deg);
}

/// A place that a bearing goes from or to, and what the sheets call it.
struct Place {
  std::uint32_t fix = 0;
  std::string words;
};
/// Where the map has few names, sure places that its signs show, told apart by their references.
constexpr std::size_t enough_named = 8;
constexpr double unnamed_known = 0.9, unnamed_apart_m = 400;

std::vector<Place> places_of(const TrainingGround& g, const TrainingDay& day) {
  std::vector<Place> out;
  const auto near = g.fixes().near(day.from, 2 * g.rules().within_m);
  std::map<std::string, int> same;
  for (const auto i : near) ++same[landmarks::words(g.fixes()[i], day.language)];
  for (const auto i : near) {
    auto words = landmarks::words(g.fixes()[i], day.language);
    // A place that the map has only once, and on the piece that they hold: one right answer.
    if (!g.fixes()[i].name.empty() && same[words] == 1 && on_map_piece(day.from, g.fixes()[i].at))
      out.push_back({i, std::move(words)});
  }
  for (const auto i : near) {
    if (out.size() >= enough_named) break;
    const auto& fix = g.fixes()[i];
    const auto words = landmarks::words(fix, day.language);
    const bool far = std::ranges::all_of(out, [&](const Place& o) {
      return earth::grid_distance_m(g.fixes()[o.fix].at, fix.at) >= unnamed_apart_m;
    });
    if (far && fix.name.empty() && !words.empty() && fix.recognised[0] >= unnamed_known &&
        on_map_piece(day.from, fix.at))
      out.push_back({i, words + " " + day_reference(fix.at)});
  }
  return out;
}

bool apart(const SettingItem& item, std::size_t count, units::MagneticBearing b) {
  for (std::size_t i = 0; i < count; ++i) {
    if (std::abs((item.answers[i].bearing - b).in_degrees()) < tell_apart_deg) return false;
  }
  return true;
}
}  // namespace

void make_settings(const TrainingGround& g, numeric::Random random, TrainingDay& day) {
  const auto named = places_of(g, day);
  using enum SettingItem::Mistake;
  const double gm = day.magnetic_from_grid_deg;
  for (int i = 0;
       i < setting_tries && named.size() >= 2 && static_cast<int>(day.settings.size()) < items;
       ++i) {
    const auto &a = named[pick(named.size(), random)], &b = named[pick(named.size(), random)];
    const auto &from = g.fixes()[a.fix], &to = g.fixes()[b.fix];
    const double length = earth::grid_distance_m(from.at, to.at);
    if (a.fix == b.fix || length < least_m || length > most_m) continue;
    const double grid = earth::grid_bearing(from.at, to.at).in_degrees();
    SettingItem item;
    item.from = from.at;
    item.to = to.at;
    item.from_words = a.words;
    item.to_words = b.words;
    item.right = magnetic(grid, gm);
    std::size_t count = 0;
    const auto offer = [&](units::MagneticBearing bearing, SettingItem::Mistake mistake) {
      if (count < item.answers.size() && apart(item, count, bearing))
        item.answers[count++] = {bearing, mistake};
    };
    offer(item.right, none);
    offer(item.right.back(), back);
    offer(magnetic(grid, -gm), wrong_sign);
    // The neighbour that is taken for it: another place of the same sort, 8 to 40 degrees beside.
    for (const auto n : g.fixes().near(to.at, 900)) {
      const auto& other = g.fixes()[n];
      const double turn =
          std::abs((earth::grid_bearing(from.at, other.at) - earth::grid_bearing(from.at, to.at))
                       .in_degrees());
      if (other.sort == to.sort && turn > 8 && turn < 40) {
        offer(magnetic(earth::grid_bearing(from.at, other.at).in_degrees(), gm), next);
        break;
      }
    }
    offer(units::MagneticBearing::degrees(grid), SettingItem::Mistake::grid);
    offer(magnetic(grid, -gm).back(), back);
    if (count < item.answers.size()) continue;
    for (std::size_t k = item.answers.size(); k > 1; --k)
      std::swap(item.answers[k - 1], item.answers[pick(k, random)]);
    const bool again = std::ranges::any_of(
        day.settings, [&](const auto& o) { return o.from == item.from && o.to == item.to; });
    if (!again) day.settings.push_back(std::move(item));
  }
  if (static_cast<int>(day.settings.size()) < items) {
    const auto l = day.language;
    day.missing.push_back(units::said(
        l,
        "Bearings at the desk: {} of {} found; {} places to be told apart lie on the map piece, "
        "and each "
        "bearing needs three wrong ones a degree or more away{}.",
        "Richtungen am Tisch: {} von {} gefunden; {} unterscheidbare Orte liegen auf dem "
        "Kartenstück, "
        "und jede Richtung braucht drei falsche, mindestens ein Grad daneben{}.",
        day.settings.size(), items, named.size(),
        std::abs(gm) < 0.5
            ? units::in(l,
                        " (grid and magnetic north nearly agree here, so a wrong sign does not "
                        "show)",
                        " (Gitter- und Magnetisch-Nord fallen hier fast zusammen: ein falsches "
                        "Vorzeichen zeigt sich nicht)")
            : ""));
  }
}

void make_paces(const TrainingGround& g, numeric::Random random, TrainingDay& day) {
  const auto& z = g.ground().elevation;
  std::optional<PaceCourse> level, up, rough;
  for (int i = 0; i < pace_tries && !(level && up && rough); ++i) {
    const auto at = place_within(day.from, pace_within_m, random);
    const auto gradient = terrain::gradient_at(z, at);
    const double slope = terrain::slope_deg(gradient);
    if (!std::isfinite(slope) || slope > 16) continue;
    // Uphill, so that the way back is the course down.
    const auto bearing =
        units::GridBearing::degrees(terrain::fall_line(gradient).in_degrees() + 180);
    PaceCourse c{PaceGround::level, at, earth::step(at, bearing, pace_m), pace_m, 0};
    if (!g.safe_leg(c.from, c.to) || g.meets_road(c.from, c.to, 0, Roads::all)) continue;
    const double rise = terrain::height_at(z, c.to) - terrain::height_at(z, c.from);
    c.slope_deg = std::atan2(rise, pace_m) * 180 / 3.14159265358979;
    const auto [row, col] = z.frame().cell_of(at);
    const bool slow = g.cover().factor(row, col) <= 0.8F;
    if (slow && std::abs(c.slope_deg) < 8 && !rough) {
      c.ground = PaceGround::rough;
      rough = c;
    } else if (!slow && std::abs(c.slope_deg) < 2 && !level) {
      level = c;
    } else if (!slow && c.slope_deg > 8 && c.slope_deg < 15 && !up) {
      c.ground = PaceGround::up;
      up = c;
    }
  }
  for (auto* slot : {&level, &up, &rough}) {
    if (*slot) day.paces.push_back(**slot);
  }
  if (up) {
    auto down = *up;
    std::swap(down.from, down.to);
    down.ground = PaceGround::down;
    down.slope_deg = -down.slope_deg;
    day.paces.push_back(down);
  }
  if (day.paces.size() < 4)
    day.missing.push_back(units::in(
        day.language,
        "Pace courses: not all of level, up, down and rough were found near; tape 100 m where you "
        "see fit.",
        "Schrittbahnen: nicht alle von eben, bergauf, bergab und rau fanden sich in der Nähe; "
        "messt 100 m ab, wo es passt."));
}

}  // namespace lodeway::learn::detail
