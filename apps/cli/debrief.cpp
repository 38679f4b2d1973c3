#include <cstdio>
#include <memory>

#include "apps/cli/command.hpp"
#include "apps/cli/pick_option.hpp"
#include "apps/cli/progress_line.hpp"
#include "lodeway/tasks/debrief.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  tasks::DebriefRequest request;
  bool json = false;
};

void run_debrief(const Options& o) {
  ProgressLine progress;
  const auto done = value_or_stop(tasks::debrief_trip(o.request, &progress));
  progress.clear();
  const auto text = o.json ? tasks::debriefed_as_json(done) : tasks::debriefed_as_text(done);
  std::fwrite(text.data(), 1, text.size(), stdout);
}
}  // namespace

void add_debrief(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand(
      "debrief",
      "Compare a walked trip with its plan: minutes, where you left the way, what you passed");
  c->footer(
      "With --out it writes debrief.pdf to talk over, and seen.toml: fill in what was seen and "
      "known,\n"
      "then: lodeway learn PARTY --marks seen.toml.\n"
      "Example: lodeway debrief examples/skarrow-round.toml --track round.gpx --out debrief");
  c->add_option("TRIP", o->request.plan.trip_file, "The trip file (TOML)")->required();
  c->add_option("--ground", o->request.plan.ground_file, "Another ground file than the trip names");
  add_pick(*c, o->request.plan);
  c->add_option("--track", o->request.track, "The recorded track (GPX with times)");
  c->add_option("--arrived", o->request.arrived,
                "Or the card's actual times, one a leg: 10:15,10:52,-,11:40")
      ->delimiter(',');
  c->add_option("--left", o->request.left, "When they set out; left out: as planned");
  c->add_option("--out", o->request.folder, "Folder for debrief.pdf and seen.toml");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded");
  c->callback([o] { run_debrief(*o); });
}

}  // namespace lodeway::cli
