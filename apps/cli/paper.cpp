#include <cstdio>
#include <memory>

#include "apps/cli/command.hpp"
#include "apps/cli/pick_option.hpp"
#include "apps/cli/progress_line.hpp"
#include "lodeway/tasks/paper.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  tasks::PlanRequest plan;
  tasks::PaperRequest paper;
  bool json = false;
};

void run_paper(const Options& o) {
  ProgressLine progress;
  auto request = o.plan;
  request.for_sheets = true;
  const auto planned = value_or_stop(tasks::plan_trip(request, &progress));
  const auto paper =
      value_or_stop(tasks::write_paper(planned.ground, planned.plan, o.paper, &progress));
  progress.clear();
  if (o.json) {
    std::fputs(tasks::paper_as_json(planned.plan, paper).c_str(), stdout);
    if (trip::goes_wrong(planned.plan.verdict.band)) throw NotWithin{};
    return;
  }
  std::fputs(tasks::verdict_as_text(planned.plan).c_str(), stdout);
  for (const auto& file : paper.files) std::printf("%s\n", file.c_str());
  for (const auto& remark : paper.remarks)
    std::printf("%s\n", trip::told(planned.plan.trip.language, "mind: {}", {remark}).c_str());
  std::fputs(tasks::warnings_as_text(planned.plan, trip::Severity::caution).c_str(), stdout);
  if (trip::goes_wrong(planned.plan.verdict.band)) throw NotWithin{};
}
}  // namespace

void add_paper(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand("paper", "Write the printed set: map sheets, route card, home note");
  c->footer(
      "Example: lodeway paper examples/skarrow-round.toml --out paper\n"
      "Exit status: 0 within or close to your limits, 3 outside them or not judged, 2 on faults;\n"
      "paper is made in each case but the last, and its head carries the verdict.\n"
      "Print at 100 %, then measure the 100 mm check line on each sheet.");
  c->add_option("TRIP", o->plan.trip_file, "The trip file (TOML)")->required();
  c->add_option("--out", o->paper.folder, "The folder to write to")->required();
  c->add_option("--ground", o->plan.ground_file, "Another ground file than the trip names");
  add_pick(*c, o->plan);
  c->add_flag("--large-type", o->paper.large_type, "The card in larger letters");
  c->add_flag("--in-one", o->paper.in_one, "Everything in one PDF too, to print at one go");
  c->add_flag("--png", o->paper.pictures, "Each page as a picture too");
  c->add_flag("--json", o->json, "Answer as JSON");
  c->callback([o] { run_paper(*o); });
}

}  // namespace lodeway::cli
