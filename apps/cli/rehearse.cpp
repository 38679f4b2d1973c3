#include <cstdio>
#include <memory>

#include "apps/cli/command.hpp"
#include "apps/cli/pick_option.hpp"
#include "apps/cli/progress_line.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/tasks/rehearse.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  tasks::RehearseRequest request;
  bool json = false;
};

void run_rehearse(const Options& o) {
  ProgressLine progress;
  const auto rehearsed = value_or_stop(tasks::rehearse_trip(o.request, &progress));
  progress.clear();
  const auto text =
      o.json ? tasks::rehearsal_as_json(rehearsed) : tasks::rehearsal_as_text(rehearsed);
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
      "Example: lodeway rehearse examples/skarrow-round.toml --walkers 10000 --png strayed.png");
  c->add_option("TRIP", o->request.plan.trip_file, "The trip file (TOML)")->required();
  c->add_option("--ground", o->request.plan.ground_file, "Another ground file than the trip names");
  add_pick(*c, o->request.plan);
  c->add_option("--walkers", o->request.walkers, "How many, 1 to 1000000")->capture_default_str();
  add_seed(*c, o->request.seed, "Another seed, other walkers");
  c->add_option("--png", o->request.picture, "Write a picture of where they stray");
  c->add_option("--tif", o->request.raster,
                "Write the same as GeoTIFF: steps set in each cell, for each walker");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded");
  c->callback([o] { run_rehearse(*o); });
}

}  // namespace lodeway::cli
