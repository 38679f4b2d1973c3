#include <cstdio>
#include <memory>

#include "apps/cli/command.hpp"
#include "apps/cli/pick_option.hpp"
#include "apps/cli/progress_line.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/tasks/rehearse.hpp"
#include "lodeway/tasks/clock.hpp"
#include "lodeway/tasks/walk.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  tasks::RehearseRequest request;
  tasks::WalkRequest walk;
  bool json = false;
};

/// What belongs to whom: with an hour, the map is of where everybody is then.
void share_out(Options& o) {
  auto& walk = o.walk;
  walk.walkers = o.request.walkers;
  walk.seed = o.request.seed;
  if (!walk.at.empty()) {
    (void)value_or_stop(tasks::clock_minutes(walk.at, "at"));
    walk.picture = std::move(o.request.picture);
    walk.raster = std::move(o.request.raster);
    o.request.picture.clear();
    o.request.raster.clear();
  }
  const bool named = !walk.gpx.empty() || !walk.geojson.empty();
  if (walk.tracks == 0 && named) walk.tracks = 20;
  for (const auto* path : {&walk.gpx, &walk.geojson, &walk.picture, &walk.raster})
    if (!path->empty()) stop_unless(io::can_be_written(*path));
}

void run_rehearse(Options o) {
  share_out(o);
  ProgressLine progress;
  const auto rehearsed = value_or_stop(tasks::rehearse_trip(o.request, &progress));
  const auto& plan = rehearsed.planned.plan;
  const auto walked =
      value_or_stop(tasks::walk_plan(rehearsed.planned.ground, plan, o.walk, &progress));
  stop_unless(tasks::write_walk(rehearsed.planned.ground, plan, o.walk, walked));
  progress.clear();
  const auto text = o.json
                        ? tasks::with_walk(tasks::rehearsal_as_json(rehearsed), walked)
                        : tasks::rehearsal_as_text(rehearsed) + tasks::walk_as_text(plan, walked);
  std::fwrite(text.data(), 1, text.size(), stdout);
  if (trip::goes_wrong(rehearsed.planned.plan.verdict.band)) throw NotWithin{};
}
}  // namespace

void add_rehearse(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand(
      "rehearse", "Walk a trip with simulated parties: how many keep it, how long, where they get lost");
  c->footer(
      "The same seed gives the same answer on any number of processors.\n"
      "Exit status: 0 within or close to your limits, 3 outside them or not judged, 2 on faults.\n"
      "Examples: lodeway rehearse examples/skarrow-round.toml --walkers 10000 --png strayed.png\n"
      "          lodeway rehearse TRIP --tracks 200 --gpx tracks.gpx\n"
      "          lodeway rehearse TRIP --at 17:55 --png overdue.png --looked 1=0.6");
  c->add_option("TRIP", o->request.plan.trip_file, "The trip file (TOML)")->required();
  c->add_option("--ground", o->request.plan.ground_file, "Another ground file than the trip names");
  add_pick(*c, o->request.plan);
  c->add_option("--walkers", o->request.walkers, "How many simulated parties, 1 to 1000000")
      ->capture_default_str();
  add_seed(*c, o->request.seed, "Another seed, other parties");
  c->add_option("--png", o->request.picture, "Write a picture of where they stray");
  c->add_option("--tif", o->request.raster,
                "Write the same as GeoTIFF: steps set in each cell, for each party");
  c->add_option("--tracks", o->walk.tracks,
                "How many parties' tracks are written, at most 2000 (20 when a file is named)");
  c->add_option(
      "--gpx", o->walk.gpx,
      "Write them as GPX: \"walker N\" where it is, \"walker N believes\" where it thinks "
      "it is");
  c->add_option("--geojson", o->walk.geojson, "Write them as GeoJSON");
  c->add_option(
      "--at", o->walk.at,
      "Who is not home at this time, 14:55 (after midnight \"00:20 +1\"), and where they are; --png "
      "and --tif then show that. Left out: the time to call for help");
  c->add_option("--looked", o->walk.looked,
                "AREA=CHANCE: searched there in vain; CHANCE is how often such a search finds them (0.6). Or "
                "AREA=WIDTH,LENGTH: sweep width and length of all tracks, metres");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded");
  c->callback([o] { run_rehearse(*o); });
}

}  // namespace lodeway::cli
