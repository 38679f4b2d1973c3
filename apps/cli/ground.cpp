#include <cstdio>
#include <memory>

#include <CLI/CLI.hpp>

#include "apps/cli/command.hpp"
#include "apps/cli/progress_line.hpp"
#include "lodeway/tasks/demo_ground.hpp"

namespace lodeway::cli {

namespace {

struct Demo {
  std::string out;
  std::uint64_t seed = 1;
};

void add_demo(CLI::App& ground) {
  auto o = std::make_shared<Demo>();
  auto* c = ground.add_subcommand("demo", "Make an invented upland to try everything on");
  c->footer("Example: lodeway ground demo skarrow.gpkg");
  c->add_option("OUT", o->out, "The ground file to write")->required();
  c->add_option("--seed", o->seed, "Another seed, another detail of the same land");
  c->callback([o] {
    ProgressLine progress;
    stop_unless(tasks::make_demo_ground(o->out, o->seed, &progress));
    progress.clear();
    std::printf("%s\n", o->out.c_str());
  });
}

}  // namespace

void add_ground(CLI::App& app) {
  auto* ground = app.add_subcommand("ground", "Ground files: everything known about an area");
  ground->require_subcommand(1);
  add_demo(*ground);
}

}  // namespace lodeway::cli
