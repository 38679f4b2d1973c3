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
  tasks::LegRequest request;
  bool json = false, german = false;
  UnitsOption units;
};

/// "25 000": in groups of three from the right.
std::string grouped(double scale) {
  auto out = fmt::format("{:.0f}", scale);
  for (auto at = static_cast<std::ptrdiff_t>(out.size()) - 3; at > 0; at -= 3)
    out.insert(static_cast<std::size_t>(at), " ");
  return out;
}

void run_leg(const Options& o) {
  const auto f = value_or_stop(tasks::leg_figures(o.request));
  if (o.json) {
    print_json({{"distance_m", f.distance_m},
                {"grid_distance_m", f.grid_distance_m},
                {"true_bearing_deg", f.true_bearing_deg},
                {"grid_bearing_deg", f.grid_bearing_deg},
                {"magnetic_bearing_deg", f.magnetic_bearing_deg},
                {"back_bearing_deg", f.back_bearing_deg},
                {"map_mm", f.map_mm},
                {"double_paces", f.double_paces},
                {"minutes", f.minutes}});
    return;
  }
  const auto& style = o.units.style;
  const auto bearing = [&](double deg) { return units::bearing_text(deg, style); };
  const auto in = o.german ? units::Language::german : units::Language::english;
  const auto print = [](const std::string& text) { std::fputs(text.c_str(), stdout); };
  print(units::said(in, "on the compass   {}   (back {})\n", "am Kompass       {}   (zurück {})\n",
                    bearing(f.magnetic_bearing_deg), bearing(f.back_bearing_deg)));
  print(units::said(in, "on the map       {}   (from grid north)   true {}\n",
                    "auf der Karte    {}   (von Gitter-Nord)   geografisch {}\n",
                    bearing(f.grid_bearing_deg), bearing(f.true_bearing_deg)));
  print(units::said(in, "distance         {}, {:.1f} mm on a map of 1:{}\n",
                    "Strecke          {}, {:.1f} mm auf einer Karte 1:{}\n",
                    units::length_text(f.distance_m, style), f.map_mm, grouped(o.request.scale)));
  print(units::said(in, "double paces     {:.0f}   time on the flat {:.0f} min at {} km/h\n",
                    "Doppelschritte   {:.0f}   Zeit in der Ebene {:.0f} min bei {} km/h\n",
                    f.double_paces, f.minutes, o.request.speed_kmh));
  const auto kilometre = units::counted_kilometre(o.request.stride_m);
  if (kilometre.short_m >= 1) {
    print(units::said(
        in,
        "{:.0f} of your double paces make 1 km; if you count {:.0f}, you stop {:.0f} m short.\n",
        "{:.0f} eurer Doppelschritte sind 1 km; zählt ihr {:.0f}, fehlen {:.0f} m.\n",
        kilometre.exact, kilometre.counted, kilometre.short_m));
  }
}
}  // namespace

void add_leg(Command& app) {
  auto o = std::make_shared<Options>();
  auto& r = o->request;
  auto* c = app.add_subcommand("leg",
                               "One leg between two places: bearings, millimetres, paces, minutes");
  c->footer(
      "Example: lodeway leg --from \"30UVD 27884 80432\" --to \"30UVD 28700 81200\" --date "
      "2026-07-01\n"
      "Bearings are those at the start. Minutes are for flat ground; `lodeway way` adds the "
      "climb.\n"
      "Millimetres are measured on the map's grid, double paces and minutes on the ground.\n"
      "With a stride of 0.8 m, 625 double paces make 1 km; if you count 620, you stop 8 m short.");
  c->add_option("--from", r.from, "Start")->required()->type_name("PLACE");
  c->add_option("--to", r.to, "End")->required()->type_name("PLACE");
  c->add_option("--date", r.date, "Day, for the declination")->required()->type_name("DATE");
  c->add_option("--scale", r.scale, "Map scale, 25000 for 1:25 000");
  c->add_option("--stride", r.stride_m, "One step, metres; a double pace is two");
  c->add_option("--speed", r.speed_kmh, "Speed on the flat, km/h");
  o->units.add_to(*c);
  add_language(*c, o->german, "Language of the answer");
  add_json_flag(*c, o->json);
  c->callback([o] { run_leg(*o); });
}

}  // namespace lodeway::cli
