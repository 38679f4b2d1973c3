#include "lodeway/trip/warnings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <string>

#include <fmt/format.h>

#include "lodeway/earth/sun.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/kept_told.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/slow_day.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/capital.hpp"

namespace lodeway::trip {

namespace {

class Collector {
 public:
  explicit Collector(Language language) : language_(language) {}
  void add(Severity severity, int leg, Say what, const std::vector<std::string>& values = {},
           Reach reach = Reach::screen) {
    add(severity, leg, say(what, language_, values), reach);
  }
  void add(Severity severity, int leg, std::string text, Reach reach = Reach::screen) {
    list_.push_back({severity, std::move(text), leg, reach});
  }
  [[nodiscard]] std::vector<Warning> sorted() {
    std::ranges::stable_sort(list_, [](const Warning& a, const Warning& b) {
      return a.severity != b.severity ? a.severity > b.severity : a.leg < b.leg;
    });
    return std::move(list_);
  }

 private:
  Language language_;
  std::vector<Warning> list_;
};

std::string hours(Clock c) { return hours_text(static_cast<double>(c.count())); }
std::string whole(double value) { return fmt::format("{:.0f}", value); }

void daylight(Collector& out, const Plan& plan) {
  const auto& s = plan.schedule;
  const auto& d = plan.daylight;
  if (!d.state.empty()) {
    auto state = units::capital(d.state) + ".";  // a sentence of its own
    out.add(Severity::note, -1, std::move(state), Reach::home_note);
  }
  if (planned_for_night(plan.trip)) return;
  if (d.dawn && s.start < *d.dawn)
    out.add(Severity::caution, -1, Say::start_in_the_dark, {hours(*d.dawn - s.start)});
  if (s.to_dusk_min && *s.to_dusk_min < 0) {
    out.add(Severity::danger, -1, Say::end_in_the_dark, {hours_text(*s.to_dusk_min)});
  } else if (d.dusk && s.end_slow && *s.end_slow > *d.dusk) {
    out.add(Severity::caution, -1, Say::slow_end_in_the_dark, {hours(*s.end_slow - *d.dusk)});
  } else if (s.to_sunset_min && *s.to_sunset_min < 0) {
    out.add(Severity::caution, -1, Say::end_after_sunset, {hours_text(*s.to_sunset_min)});
  }
}

/// The longest stretch of a leg's line on ground steeper than the bound, metres of grid.
double steep_stretch_m(const PlannedLeg& leg, const terrain::Elevation& heights) {
  const double step = heights.frame().cell_m;
  double run = 0, longest = 0;
  for (std::size_t i = 1; i < leg.course.line.size(); ++i) {
    const double length = earth::grid_distance_m(leg.course.line[i - 1], leg.course.line[i]);
    const int n = std::max(1, static_cast<int>(std::ceil(length / step)));
    for (int k = 0; k < n; ++k) {
      const auto p =
          leg.course.line[i - 1] + ((k + 0.5) / n) * (leg.course.line[i] - leg.course.line[i - 1]);
      run = terrain::slope_deg_at(heights, p) > steep_deg ? run + length / n : 0;
      longest = std::max(longest, run);
    }
  }
  return longest;
}

constexpr double snow_from_deg = 30, snow_to_deg = 45;  // where slabs commonly start

/// How much of a line lies on such ground, and which ways that faces, in eighths of a turn.
struct Steep {
  double length_m = 0;
  std::array<double, 8> faces_m{};
};

Steep steep_of(const std::vector<earth::GridPoint>& line, const terrain::Elevation& heights) {
  Steep out;
  const double step = heights.frame().cell_m;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double length = earth::grid_distance_m(line[i - 1], line[i]);
    const int n = std::max(1, static_cast<int>(std::ceil(length / step)));
    for (int k = 0; k < n; ++k) {
      const auto g =
          terrain::gradient_at(heights, line[i - 1] + ((k + 0.5) / n) * (line[i] - line[i - 1]));
      const double slope = terrain::slope_deg(g);
      if (!(slope >= snow_from_deg && slope <= snow_to_deg)) continue;
      out.length_m += length / n;
      const double eighth = terrain::fall_line(g).in_degrees() / 45;
      out.faces_m[static_cast<std::size_t>(std::lround(eighth)) % 8] += length / n;
    }
  }
  return out;
}

std::string faces_text(const Steep& steep, Language language) {
  constexpr std::array<const char*, 8> english{"N", "NE", "E", "SE", "S", "SW", "W", "NW"},
      german{"N", "NO", "O", "SO", "S", "SW", "W", "NW"};
  std::string out;
  for (std::size_t k = 0; k < 8; ++k) {
    if (steep.faces_m[k] > 0)
      out += (out.empty() ? "" : ", ") +
             std::string(language == Language::german ? german[k] : english[k]);
  }
  return out;
}

void snow(Collector& out, const Plan& plan, const walking::Ground& ground) {
  const auto& party = plan.trip.request.party;
  if (party.visibility != mapdata::Visibility::snow) return;
  const auto language = plan.trip.language;
  out.add(Severity::danger, -1, Say::snow_above, {}, Reach::card);
  if (party.max_slope_deg == snow_max_slope_deg)
    out.add(Severity::note, -1, Say::snow_limit, {whole(party.max_slope_deg)}, Reach::home_note);
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto tell = [&](Say what, const std::vector<earth::GridPoint>& line) {
      const Steep steep = steep_of(line, ground.elevation);
      if (steep.length_m <= 0) return;
      out.add(Severity::danger, static_cast<int>(i), what,
              {std::to_string(i + 1), length_text(steep.length_m, plan.trip.lengths),
               faces_text(steep, language)},
              Reach::card);
    };
    tell(Say::snow_aspects, plan.way.legs[i].course.line);
    if (plan.way.legs[i].escape) tell(Say::snow_aspects_escape, plan.way.legs[i].escape->line);
  }
}

void legs(Collector& out, const Plan& plan, const walking::Ground& ground) {
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& leg = plan.way.legs[i];
    const int at = static_cast<int>(i);
    const auto number = std::to_string(i + 1);
    if (leg.figures.touches_void) out.add(Severity::danger, at, Say::leg_over_void, {number});
    if (const double steep = steep_stretch_m(leg, ground.elevation);
        steep > 2 * ground.elevation.frame().cell_m) {
      out.add(Severity::caution, at, Say::leg_is_steep,
              {number, length_text(steep, plan.trip.lengths), whole(steep_deg)});
    }
    if (leg.course.kind == walking::LegKind::bearing && !leg.stop)
      out.add(Severity::caution, at, Say::leg_without_stop, {number});
    const auto& sure = leg.judged;
    if (kept_told(sure) < plan.trip.min_certainty) {
      out.add(Severity::caution, at, Say::leg_unsure,
              {number, of_hundred(kept_told(sure)), of_hundred(plan.trip.min_certainty)});
    }
    if (sure.hazard_probability >= 0.01) {
      out.add(Severity::danger, at, Say::leg_near_hazard,
              {number, harmed_of_hundred(sure.hazard_probability)});
    }
  }
}

void knowledge(Collector& out, const Plan& plan, const walking::Ground& ground) {
  if (const auto weak = zone_words(plan.norths, plan.trip.language); !weak.empty())
    out.add(Severity::danger, -1, weak, Reach::card);
  if (const auto remark = ground.grid.datum_remark(); !remark.empty())
    out.add(Severity::note, -1, remark + ".");
  if (ground.map.lines.empty())
    out.add(Severity::caution, -1, Say::no_lines, {}, Reach::home_note);
  if (const auto lacks = map_lacks_words(ground.map, plan.trip.language); !lacks.empty())
    out.add(Severity::caution, -1, lacks, Reach::home_note);
  if (const auto flats = std::ranges::count_if(
          ground.map.areas,
          [](const auto& area) { return area.label.origin == mapdata::Origin::from_relief; });
      flats > 0) {
    out.add(Severity::caution, -1, flats == 1 ? Say::one_flat_water : Say::flat_water,
            {std::to_string(flats)}, Reach::home_note);
  }
  for (const auto& source : ground.sources) {
    if (source.licence.empty()) out.add(Severity::note, -1, Say::licence_not_known, {source.file});
  }
  if (plan.trip.emergency_number.empty()) out.add(Severity::caution, -1, Say::no_emergency_number);
  if (plan.trip.at_home.name.empty()) out.add(Severity::note, -1, Say::nobody_at_home);
}

/// Is the zone the place's, and do its clocks keep still until home acts?
void zone(Collector& out, const Plan& plan, const walking::Ground& ground) {
  if (plan.trip.zone == "UTC") out.add(Severity::caution, -1, Say::zone_is_utc, {}, Reach::card);
  const auto& trip = plan.trip;
  const auto at = ground.grid.to_geographic(plan.way.legs.front().course.line.front());
  const auto start = start_instant(trip);
  if (!at || !start) return;
  const auto german = trip.language == Language::german;
  if (const auto ahead = earth::ahead_of_sun(*at, *start, trip.zone);
      ahead && std::chrono::abs(*ahead) > earth::zone_asked_about) {
    const bool before = ahead->count() > 0;
    const char* side = german ? (before ? "vor" : "nach") : (before ? "ahead of" : "behind");
    out.add(Severity::caution, -1, Say::zone_off_sun,
            {trip.zone, hours(std::chrono::abs(*ahead)), side}, Reach::card);
  }
  const auto& s = plan.schedule;
  const auto& change = plan.daylight.change;
  if (!change || change->at < s.start || change->at > s.act_by.value_or(s.end + Clock{24 * 60})) return;
  const bool forward = change->after > change->before;
  const char* way = german ? (forward ? "vor" : "zurück") : (forward ? "forward" : "back");
  out.add(Severity::caution, -1, Say::clocks_change,
          {way, hours(std::chrono::abs(change->after - change->before)),
           clock_text(change->at + change->before)},
          Reach::card);
}

/// "leg 3 (70), leg 4 (81)": those that fail, in order.
template <typename Figure, typename Fails, typename Shown>
std::string legs_with(const Plan& plan, const Figure& figure, const Fails& fails,
                      const Shown& shown) {
  std::string out;
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& sure = plan.way.legs[i].judged;
    const double value = std::invoke(figure, sure);
    if (!fails(value)) continue;
    out += (out.empty() ? "" : ", ") +
           say(Say::leg_with, plan.trip.language, {std::to_string(i + 1), shown(value)});
  }
  return out;
}

}  // namespace

std::string zone_words(const Norths& norths, Language language) {
  if (norths.zone == magnetic::Zone::normal) return "";
  const auto field = fmt::format("{:.0f} nT", norths.horizontal_nT);
  return say(norths.zone == magnetic::Zone::caution ? Say::weak_field : Say::no_compass, language,
             {field});
}

std::optional<Warning> past_warning(const Plan& plan, earth::UtcSeconds now) {
  const auto start = start_instant(plan.trip);
  const auto over = plan.schedule.act_by.value_or(plan.schedule.end);
  if (!start || *start + (over - plan.schedule.start) >= now) return std::nullopt;
  return Warning{Severity::caution,
                 told(plan.trip.language,
                      "The day of this trip, {}, is past: daylight, magnetism and times are that "
                      "day's.",
                      {date_text(plan.trip.date, plan.trip.language)}),
                 -1, Reach::card};
}

std::vector<std::string> told_on(const Plan& plan, Reach reach, int leg) {
  std::vector<std::string> out;
  for (const auto& w : plan.warnings) {
    if (w.leg != leg || w.reach < reach) continue;
    const auto number = plan.trip.language == Language::german
                            ? fmt::format("Abschnitt {}: ", leg + 1)
                            : fmt::format("Leg {}: ", leg + 1);
    out.push_back(w.text.starts_with(number) ? w.text.substr(number.size()) : w.text);
  }
  return out;
}

std::string no_turn_words(const Plan& plan) {
  if (plan.schedule.turn_round || plan.way.legs.size() < 2) return "";
  const auto& s = plan.schedule;
  // No end of a leg is one to go on from then, nor is there an hour at home to count back from.
  if (!s.turn_before_start && s.never_home > most_never_home)
    return told(plan.trip.language,
                "No turn-round time: too many such parties do not come home by themselves.");
  return say(s.turn_before_start ? Say::no_turn_hour : Say::no_turn_place, plan.trip.language);
}

const char* severity_name(Severity severity) {
  constexpr const char* names[] = {"note", "caution", "danger"};
  return names[static_cast<std::size_t>(severity)];
}

std::string map_lacks_words(const mapdata::MapData& map, Language language) {
  using mapdata::Kind;
  const auto lacks = [](const auto& features, std::initializer_list<Kind> kinds) {
    return std::ranges::none_of(features, [&](const auto& feature) {
      return feature.label.origin != mapdata::Origin::from_relief &&
             std::ranges::find(kinds, feature.label.kind) != kinds.end();
    });
  };
  std::string out;
  const auto add = [&](bool lacking, Say what) {
    if (lacking) out += (out.empty() ? "" : ", ") + std::string(say(what, language));
  };
  add(lacks(map.lines, {Kind::cliff}), Say::lack_cliffs);
  add(lacks(map.areas, {Kind::lake, Kind::sea}), Say::lack_lakes);
  add(lacks(map.lines, {Kind::river}), Say::lack_rivers);
  return out.empty() ? out : say(Say::map_lacks, language, {out});
}

std::vector<std::string> shortfalls(const Plan& plan, double most_hazard) {
  const double asked = plan.trip.min_certainty;
  const auto unsure = legs_with(
      plan, kept_told, [&](double c) { return c < asked; }, of_hundred);
  const auto stray = legs_with(
      plan, &reckoning::Judged::hazard_probability, [&](double h) { return h > most_hazard; },
      harmed_of_hundred);
  std::vector<std::string> out;
  if (!unsure.empty())
    out.push_back(say(Say::way_unsure, plan.trip.language, {of_hundred(asked), unsure}));
  if (!stray.empty())
    out.push_back(say(Say::way_strays, plan.trip.language, {whole(100 * most_hazard), stray}));
  const auto& s = plan.schedule;
  const auto& dusk = plan.daylight.dusk;
  if (dusk && s.end_slow > *dusk && held_to_daylight(plan.trip, plan.daylight)) {
    const auto late = hours(*s.end_slow - *dusk);
    out.push_back(s.latest_start
                      ? say(Say::way_late, plan.trip.language,
                            {late, clock_text(*s.latest_start, plan.daylight)})
                      : say(Say::way_late_whenever, plan.trip.language, {late}));
  }
  return out;
}

std::vector<Warning> warnings_for(const Plan& plan, const walking::Ground& ground) {
  Collector out(plan.trip.language);
  knowledge(out, plan, ground);
  zone(out, plan, ground);
  daylight(out, plan);
  legs(out, plan, ground);
  snow(out, plan, ground);
  return out.sorted();
}

}  // namespace lodeway::trip
