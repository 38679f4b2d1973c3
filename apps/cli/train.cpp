#include <chrono>
#include <cstdio>
#include <memory>

#include "apps/cli/command.hpp"
#include "apps/cli/progress_line.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/tasks/quick.hpp"
#include "lodeway/tasks/train.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  tasks::TrainRequest request;
  std::string date;
  bool json = false, german = false;
};

void run_train(Options& o) {
  auto& r = o.request;
  if (o.date.empty()) {
    r.date = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
  } else {
    r.date = value_or_stop(tasks::parse_date(o.date));
  }
  if (o.german) r.language = units::Language::german;
  ProgressLine progress;
  const auto trained = value_or_stop(tasks::train(r, &progress));
  progress.clear();
  const auto text = o.json ? tasks::trained_as_json(trained) : tasks::trained_as_text(trained);
  std::fwrite(text.data(), 1, text.size(), stdout);
}
}  // namespace

void add_train(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand(
      "train", "Lay out a training day on real ground: courses, their paper, marks to fill in");
  c->footer(
      "Every course keeps clear of ground over 30 degrees and of ground to keep off: by three times\n"
      "a novice's usual error and 60 m. It has a catching feature beyond. What cannot be made so is\n"
      "said.\n"
      "The same seed gives the same bytes.\n"
      "Example: lodeway train skarrow.gpkg --from \"Kell Gap\" --out day --seed 7");
  c->add_option("GROUND", o->request.ground_file, "The ground file")->required();
  c->add_option("--from", o->request.from, "Where the day begins: a name or a grid reference")
      ->required();
  add_seed(*c, o->request.seed, "Another seed, other courses");
  c->add_option("--date", o->date, "Day of the training, for the declination; left out: today");
  c->add_option("--out", o->request.folder, "Folder for the paper and marks.toml");
  add_language(*c, o->german, "Language of the paper and of the answer");
  c->add_flag("--png", o->request.pictures, "Each page as PNG too");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded");
  c->callback([o] { run_train(*o); });
}

}  // namespace lodeway::cli
