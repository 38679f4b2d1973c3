#include <chrono>
#include <cstdio>
#include <memory>

#include "apps/cli/command.hpp"
#include "apps/cli/pick_option.hpp"
#include "apps/cli/progress_line.hpp"
#include "lodeway/io/gpx/gpx.hpp"
#include "lodeway/io/gpx/kml.hpp"
#include "lodeway/tasks/plan.hpp"
#include "lodeway/tasks/take_away.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  tasks::PlanRequest request;
  std::string gpx, geojson, kml, ics;
  bool json = false;
};

void run_way(const Options& o) {
  ProgressLine progress;
  const auto planned = value_or_stop(tasks::plan_trip(o.request, &progress));
  progress.clear();
  if (!o.gpx.empty()) stop_unless(io::write_gpx(planned.plan.way, planned.ground.grid, o.gpx));
  if (!o.geojson.empty()) {
    stop_unless(io::write_geojson(planned.plan.way, planned.ground.grid, o.geojson));
  }
  if (!o.kml.empty()) stop_unless(io::write_kml(planned.plan.way, planned.ground.grid, o.kml));
  if (!o.ics.empty()) {
    const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    stop_unless(tasks::write_home_calendar(planned.plan, now, o.ics));
  }
  if (o.request.explain_leg != 0 && !o.json) {
    std::printf("%s\n", planned.explained.c_str());
    return;
  }
  if (o.request.conditions && !o.json) {
    const auto rows = tasks::conditions_as_text(planned.conditions, planned.plan.trip);
    std::fwrite(rows.data(), 1, rows.size(), stdout);
    if (trip::goes_wrong(planned.plan.verdict.band)) throw NotWithin{};
    return;
  }
  const auto text = o.json ? tasks::plan_as_json(planned) : tasks::plan_as_text(planned);
  std::fwrite(text.data(), 1, text.size(), stdout);
  if (trip::goes_wrong(planned.plan.verdict.band)) throw NotWithin{};
}
}  // namespace

void add_way(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand(
      "way", "Find the ways of a trip, cut them into legs, lay them out by the clock");
  c->footer(
      "Exit status: 0 within or close to your limits, 3 outside them or not judged, 2 on faults.\n"
      "Example: lodeway way examples/skarrow-round.toml --gpx round.gpx");
  c->add_option("TRIP", o->request.trip_file, "The trip file (TOML)")->required();
  c->add_option("--ground", o->request.ground_file, "Another ground file than the trip names");
  c->add_option("--gpx", o->gpx, "Write the way as GPX 1.1 too");
  c->add_option("--geojson", o->geojson, "Write the legs as GeoJSON too");
  c->add_option("--kml", o->kml, "Write the legs and places as KML 2.2 too");
  c->add_option("--ics", o->ics,
                "Write the three times of the home note as a calendar file (iCalendar) too");
  add_pick(*c, o->request);
  c->add_option("--explain", o->request.explain_leg,
                "Why this leg of the picked way, and not the next best")
      ->within(1, 999);
  c->add_flag("--conditions", o->request.conditions,
              "The picked way as planned, in cloud, an hour late, with streams up, a fifth slower, "
              "in snow: the verdict each time, and what to fall back on");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded");
  c->callback([o] { run_way(*o); });
}

}  // namespace lodeway::cli
