#include "lodeway/trip/warnings.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "lodeway/terrain/slope.hpp"

namespace lodeway::trip {

namespace {

class Collector {
 public:
  explicit Collector(Language language) : german_(language == Language::german) {}
  /// Both texts are format strings for the same arguments.
  template <class... A>
  void add(Severity severity, int leg, const char* english, const char* german, const A&... a) {
    list_.push_back(
        {severity, fmt::vformat(german_ ? german : english, fmt::make_format_args(a...)), leg});
  }
  [[nodiscard]] std::vector<Warning> sorted() {
    std::ranges::stable_sort(list_, [](const Warning& a, const Warning& b) {
      return a.severity != b.severity ? a.severity > b.severity : a.leg < b.leg;
    });
    return std::move(list_);
  }

 private:
  bool german_;
  std::vector<Warning> list_;
};

std::string hours(double minutes) {
  const auto m = std::lround(std::abs(minutes));
  return fmt::format("{} h {:02}", m / 60, m % 60);
}

void daylight(Collector& out, const Plan& plan) {
  const auto& s = plan.schedule;
  const auto& d = plan.daylight;
  if (!d.state.empty() && !d.rise && !d.set) out.add(Severity::note, -1, "{}.", "{}.", d.state);
  if (d.dawn && s.start < *d.dawn) {
    out.add(Severity::caution, -1, "The start is in the dark, {} before first light.",
            "Der Aufbruch liegt im Dunkeln, {} vor der Dämmerung.",
            hours(static_cast<double>((*d.dawn - s.start).count())));
  }
  if (s.to_dusk_min && *s.to_dusk_min < 0) {
    out.add(Severity::danger, -1, "The way ends in the dark, {} after the last light.",
            "Der Weg endet im Dunkeln, {} nach dem letzten Licht.", hours(*s.to_dusk_min));
  } else if (d.dusk && s.end_slow > *d.dusk) {
    out.add(Severity::caution, -1,
            "On a slow day the way ends in the dark, {} after the last light.",
            "An einem langsamen Tag endet der Weg im Dunkeln, {} nach dem letzten Licht.",
            hours(static_cast<double>((s.end_slow - *d.dusk).count())));
  } else if (s.to_sunset_min && *s.to_sunset_min < 0) {
    out.add(Severity::caution, -1, "The way ends {} after sunset.",
            "Der Weg endet {} nach Sonnenuntergang.", hours(*s.to_sunset_min));
  }
}

/// The longest stretch of a leg's line on ground steeper than the bound, metres of grid.
double steep_stretch_m(const walking::Leg& leg, const terrain::Elevation& heights) {
  const double step = heights.frame().cell_m;
  double run = 0, longest = 0;
  for (std::size_t i = 1; i < leg.line.size(); ++i) {
    const double length = earth::grid_distance_m(leg.line[i - 1], leg.line[i]);
    const int n = std::max(1, static_cast<int>(std::ceil(length / step)));
    for (int k = 0; k < n; ++k) {
      const auto p = leg.line[i - 1] + ((k + 0.5) / n) * (leg.line[i] - leg.line[i - 1]);
      run = terrain::slope_deg_at(heights, p) > steep_deg ? run + length / n : 0;
      longest = std::max(longest, run);
    }
  }
  return longest;
}

void legs(Collector& out, const Plan& plan, const walking::Ground& ground) {
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& leg = plan.way.legs[i];
    const int at = static_cast<int>(i);
    if (leg.touches_void) {
      out.add(Severity::danger, at,
              "Leg {}: the height model has a hole here; climb and time are not known.",
              "Abschnitt {}: das Höhenmodell hat hier ein Loch; Anstieg und Zeit sind unbekannt.",
              i + 1);
    }
    if (const double steep = steep_stretch_m(leg, ground.elevation);
        steep > 2 * ground.elevation.frame().cell_m) {
      out.add(Severity::caution, at,
              "Leg {}: {:.0f} m on ground steeper than {:.0f}° in the height model.",
              "Abschnitt {}: {:.0f} m auf Gelände, das im Höhenmodell steiler als {:.0f}° ist.",
              i + 1, steep, steep_deg);
    }
    if (leg.kind == walking::LegKind::bearing && !leg.stop) {
      out.add(Severity::caution, at, "Leg {}: nothing stops you if you go past its end: count.",
              "Abschnitt {}: nichts hält euch auf, wenn ihr zu weit geht: zählen.", i + 1);
    }
    if (!leg.sureness) continue;
    const auto& sure = *leg.sureness;
    if (sure.certainty < plan.trip.min_certainty) {
      out.add(
          Severity::caution, at,
          "Leg {}: {:.0f} of 100 parties end where they should; you asked for {:.0f}.",
          "Abschnitt {}: {:.0f} von 100 Gruppen kommen an, wo sie sollen; verlangt sind {:.0f}.",
          i + 1, 100 * sure.certainty, 100 * plan.trip.min_certainty);
    }
    if (sure.hazard_probability >= 0.01) {
      out.add(Severity::danger, at, "Leg {}: {:.0f} of 100 parties stray onto ground to keep off.",
              "Abschnitt {}: {:.0f} von 100 Gruppen geraten auf zu meidendes Gelände.", i + 1,
              100 * sure.hazard_probability);
    }
  }
}

void knowledge(Collector& out, const Plan& plan, const walking::Ground& ground) {
  if (!plan.norths.zone_warning.empty()) {
    out.add(Severity::danger, -1, "{}", "{}", plan.norths.zone_warning);
  }
  if (const auto remark = ground.grid.datum_remark(); !remark.empty()) {
    out.add(Severity::note, -1, "{}.", "{}.", remark);
  }
  if (ground.map.lines.empty()) {
    out.add(Severity::caution, -1,
            "The ground file has no lines: paths, water and walls are not known.",
            "Die Geländedatei hat keine Linien: Wege, Wasser und Mauern sind unbekannt.");
  }
  for (const auto& source : ground.sources) {
    if (source.licence.empty()) {
      out.add(Severity::note, -1, "Licence of {} is not known.", "Lizenz von {} ist nicht bekannt.",
              source.file);
    }
  }
  if (plan.trip.emergency_number.empty()) {
    out.add(Severity::caution, -1, "No emergency number is given: write it on the home note.",
            "Keine Notrufnummer angegeben: auf dem Zettel für daheim nachtragen.");
  }
  if (plan.trip.at_home.name.empty()) {
    out.add(Severity::note, -1, "Nobody at home is named.", "Niemand daheim ist genannt.");
  }
}

}  // namespace

std::vector<Warning> warnings_for(const Plan& plan, const walking::Ground& ground) {
  Collector out(plan.trip.language);
  knowledge(out, plan, ground);
  daylight(out, plan);
  legs(out, plan, ground);
  return out.sorted();
}

}  // namespace lodeway::trip
