#include <cmath>
#include <cstdio>
#include <memory>

#include <fmt/format.h>

#include "apps/cli/command.hpp"
#include "apps/cli/flat_json.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/tasks/quick.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  std::string at, date;
  double height_m = 0;
  bool json = false, german = false;
  UnitsOption units;
};

constexpr const char* zones[] = {"normal", "caution", "blackout"};

void run_north(const Options& o) {
  const auto n = value_or_stop(tasks::norths(o.at, o.date, o.height_m));
  const double declination = n.field.declination.east.in_degrees();
  const auto zone = static_cast<std::size_t>(n.field.zone);
  if (o.json) {
    print_json({{"declination_deg", declination},
                {"declination_sigma_deg", n.field.declination_sigma_deg},
                {"annual_change_deg", n.field.annual_change_deg},
                {"convergence_deg", n.convergence_deg},
                {"grid_magnetic_deg", n.grid_magnetic_deg},
                {"horizontal_nT", n.field.horizontal_nT},
                {"zone", zones[zone]}});
    return;
  }
  const auto in = o.german ? units::Language::german : units::Language::english;
  const auto side = [&](double deg) {
    auto text = units::angle_east_text(units::Angle::degrees(deg), o.units.style);
    if (o.german && text.ends_with('E')) text.back() = 'O';
    return text;
  };
  const auto size = [&](double deg) {
    return units::angle_text(units::Angle::degrees(std::abs(deg)), o.units.style);
  };
  const auto print = [&](const std::string& text) { std::fputs(text.c_str(), stdout); };
  print(units::said(in, "declination      {} ± {} (one sigma), changing {} a year\n",
                    "Missweisung          {} ± {} (ein Sigma), ändert sich um {} im Jahr\n",
                    side(declination), size(n.field.declination_sigma_deg),
                    side(n.field.annual_change_deg)));
  print(units::said(in, "convergence      {} (grid north from true north)\n",
                    "Meridiankonvergenz   {} (Gitter-Nord gegen Geografisch-Nord)\n",
                    side(n.convergence_deg)));
  print(units::said(in, "grid to magnetic {}\n", "Gitter zu Magnetisch {}\n",
                    side(n.grid_magnetic_deg)));
  const bool east = n.grid_magnetic_deg > 0;
  print(east ? units::said(in, "Map to compass: take off {}. Compass to map: add it.\n",
                           "Von der Karte auf den Kompass: {} abziehen. Vom Kompass auf die "
                           "Karte: dazuzählen.\n",
                           size(n.grid_magnetic_deg))
             : units::said(in, "Map to compass: add {}. Compass to map: take it off.\n",
                           "Von der Karte auf den Kompass: {} dazuzählen. Vom Kompass auf die "
                           "Karte: abziehen.\n",
                           size(n.grid_magnetic_deg)));
  if (n.field.zone == magnetic::Zone::caution) {
    print(units::said(in,
                      "CAUTION: the needle's force is weak here ({:.0f} nT); a compass may be off "
                      "by many degrees.\n",
                      "VORSICHT: Die Kraft auf die Nadel ist hier schwach ({:.0f} nT); ein Kompass "
                      "kann um viele Grad danebenliegen.\n",
                      n.field.horizontal_nT));
  } else if (n.field.zone == magnetic::Zone::blackout) {
    print(units::said(in, "DO NOT USE A COMPASS HERE: its force is only {:.0f} nT.\n",
                      "HIER KEINEN KOMPASS BENUTZEN: Die Kraft auf die Nadel ist nur {:.0f} nT.\n",
                      n.field.horizontal_nT));
  }
  print(units::in(in,
                  "The model knows nothing of rock and iron nearby: check against a known line on "
                  "the ground.\n",
                  "Das Modell weiß nichts von Gestein und Eisen in der Nähe: prüft an einer "
                  "bekannten Linie im Gelände.\n"));
}
}  // namespace

void add_north(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand("north", "True, grid and magnetic north at a place and date");
  c->footer(
      "Example: lodeway north --at \"53.0685 -4.0763\" --date 2026-07-01\n"
      "PLACE is MGRS, UTM, or latitude and longitude (decimal, or degrees minutes seconds).");
  c->add_option("--at", o->at, "Place")->required()->type_name("PLACE");
  c->add_option("--date", o->date, "Day, 2025-01-01 to 2029-12-31")->required()->type_name("DATE");
  c->add_option("--height", o->height_m, "Metres above the ellipsoid; hardly matters on foot");
  o->units.add_to(*c);
  add_language(*c, o->german, "Language of the answer");
  add_json_flag(*c, o->json);
  c->callback([o] { run_north(*o); });
}

}  // namespace lodeway::cli
