#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <iostream>
#include <memory>
#include <string>
#include <vector>

#include "apps/cli/command.hpp"
#include "apps/cli/progress_line.hpp"
#include "apps/cli/spoken_language.hpp"
#include "lodeway/tasks/paper.hpp"
#include "lodeway/tasks/relocate.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/units/refusal_in.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::cli {

namespace {
using sight::Cue;

struct Options {
  tasks::RelocateRequest request;
  bool json = false;
  bool go_on = false;
  tasks::GoOn from;
  std::string folder;  ///< for the paper of what is left
};

bool nothing_told(const tasks::Told& t) {
  return t.height.empty() && t.falls.empty() && t.slope.empty() && t.landform.empty() &&
         t.wood.empty() && t.on.empty() && t.beside.empty() && t.sees.empty() && t.not_seen.empty();
}

/// What is typed in answer to a question, put where an option would have put it.
void take(tasks::Told& told, const belief::Question& q, const std::string& name,
          const std::string& typed) {
  const bool no = typed == "no" || typed == "n" || typed == "nein";
  const std::string kind(mapdata::kind_words(q.ask.kind));
  const bool yes = typed == "yes" || typed == "y" || typed == "ja" || typed == "j";
  const std::string with = yes ? std::string() : ", " + typed;
  switch (q.ask.cue) {
    case Cue::height:
      told.height = typed;
      break;
    case Cue::fall:
      told.falls = typed;
      break;
    case Cue::steepness:
      told.slope = typed;
      break;
    case Cue::landform:
      told.landform = typed;
      break;
    case Cue::in_wood:
      told.wood = no ? "no" : "yes";
      break;
    case Cue::on_line:
    case Cue::at_point:
      told.on.push_back(no ? "no " + kind : kind + with);
      break;
    case Cue::beside_line:
      no ? told.not_seen.push_back(kind) : told.beside.push_back(kind + with);
      break;
    case Cue::sees_thing:
    case Cue::sees_kind: {
      const std::string& what = q.ask.cue == Cue::sees_thing ? name : kind;
      no ? told.not_seen.push_back(what) : told.sees.push_back(what + with);
      break;
    }
  }
}

void print(const tasks::Relocation& answer, bool json) {
  const auto text = json ? tasks::relocation_json(answer) : tasks::relocation_text(answer);
  std::fwrite(text.data(), 1, text.size(), stdout);
}

/// Asks the most telling question until nothing is typed. An answer that cannot be read is said to
/// be so, and asked for again.
tasks::Relocated converse(Options& o) {
  auto now = value_or_stop(tasks::relocate(o.request));
  const auto things = sight::things_of(now.ground.map);
  const auto in = now.answer.language;
  std::printf("%s\n\n",
              trip::told(in,
                         "Answer with a figure or a word; bearings as the needle shows; \"-\" "
                         "passes a question, an empty line ends.")
                  .c_str());
  std::vector<std::size_t> passed;
  for (;;) {
    const belief::Question* ask = nullptr;
    std::size_t at = 0;
    for (; at < now.answer.questions.size(); ++at) {
      const auto& q = now.answer.questions[at];
      if (q.act != belief::Do::tell) continue;
      const std::size_t key = static_cast<std::size_t>(q.ask.cue) * 1000 +
                              static_cast<std::size_t>(q.ask.kind) * 20000 +
                              static_cast<std::size_t>(q.ask.thing + 1);
      if (std::find(passed.begin(), passed.end(), key) != passed.end()) continue;
      passed.push_back(key);
      ask = &q;
      break;
    }
    if (ask == nullptr) break;
    std::printf("%s ", now.answer.asks[at].c_str());
    std::fflush(stdout);
    std::string typed;
    if (!std::getline(std::cin, typed) || typed.empty()) break;
    if (typed == "-") continue;
    tasks::RelocateRequest next = o.request;
    const std::string name =
        ask->ask.thing >= 0 ? things[static_cast<std::size_t>(ask->ask.thing)].name : std::string();
    take(next.told, *ask, name, typed);
    auto answered = tasks::relocate(next);
    if (!answered) {
      std::printf("  %s\n", units::refusal_in(in, answered.error().what).c_str());
      passed.pop_back();
      continue;
    }
    o.request = next;
    now = *std::move(answered);
    if (!now.answer.places.empty())
      std::printf("  %s\n\n", trip::told(in, "likeliest: [{}], {} in 100",
                                         {now.answer.places[0].grid_reference,
                                          units::hundredths(now.answer.places[0].part.share)})
                                  .c_str());
  }
  return now;
}

/// The rest of the trip from the place that was found, and its paper where a folder is named.
void run_go_on(const Options& o, const tasks::Relocated& found, ProgressLine& progress) {
  auto request = value_or_stop(tasks::plan_from_here(o.request, found, o.from));
  request.for_sheets = !o.folder.empty();
  const auto planned = value_or_stop(tasks::plan_trip(request, &progress));
  tasks::PaperRequest paper;
  paper.folder = o.folder;
  tasks::PaperFiles files;
  if (!o.folder.empty())
    files = value_or_stop(tasks::write_paper(planned.ground, planned.plan, paper, &progress));
  progress.clear();
  if (o.json) {
    for (const auto& warning : found.answer.warnings) std::fprintf(stderr, "%s\n", warning.c_str());
    std::fputs(tasks::plan_as_json(planned).c_str(), stdout);
  } else {
    for (const auto& warning : found.answer.warnings) std::printf("%s\n", warning.c_str());
    std::printf("%s\n",
                tasks::go_on_words(planned.plan, *request.from_here, found, o.from).c_str());
    std::fputs(tasks::plan_as_text(planned).c_str(), stdout);
    for (const auto& file : files.files) std::printf("%s\n", file.c_str());
  }
  if (trip::goes_wrong(planned.plan.verdict.band)) throw NotWithin{};
}

void run_relocate(Options& o) {
  o.request.readers = spoken_language();
  if (!o.go_on &&
      !(o.from.time.empty() && o.from.next.empty() && o.from.place == 0 && o.folder.empty()))
    stop_unless(
        fail(FaultCode::bad_input, "--time, --next, --place, --out: expected --go-on with them"));
  if (!o.json && nothing_told(o.request.told) && isatty(STDIN_FILENO) != 0 &&
      isatty(STDOUT_FILENO) != 0) {
    const auto answer = converse(o);
    ProgressLine progress;
    o.go_on ? run_go_on(o, answer, progress) : print(answer.answer, false);
    return;
  }
  ProgressLine progress;
  const auto answer = value_or_stop(tasks::relocate(o.request, &progress));
  if (o.go_on) {
    run_go_on(o, answer, progress);
    return;
  }
  progress.clear();
  print(answer.answer, o.json);
}
}  // namespace

void add_relocate(Command& app) {
  auto o = std::make_shared<Options>();
  auto& t = o->request.told;
  auto* c = app.add_subcommand(
      "relocate", "Where are we? From what you see to the places that fit, and what to do next");
  c->footer(
      "Bearings and falls are as the needle shows, unless --north grid or true.\n"
      "Example: lodeway relocate examples/skarrow-round.toml --visibility cloud \\\n"
      "  --last \"Quenna Hause, 25 min, 20\" --height 640 --falls 210 --slope steep \\\n"
      "  --landform spur --on \"stream, 40\" --not-seen wall\n"
      "Go on from there: add --go-on --time 14:30 --next \"Kell Gap\" --out paper\n"
      "Run in a terminal without observations it asks, the most telling question first.\n"
      "The picture: dark 50, middle 90, light 99 in 100; ring: last sure place; circles: places\n"
      "that fit.");
  c->add_option("FILE", o->request.file, "A ground file, or a trip that names one")->required();
  c->add_option("--ground", o->request.ground_file, "Another ground file than the trip names");
  c->add_option("--height", t.height, "Height above sea level, metres");
  c->add_option("--height-from", t.height_from,
                "contours, or altimeter set today at a known height")
      ->capture_default_str();
  c->add_option("--falls", t.falls, "The way the ground falls: a bearing, or nowhere");
  c->add_option("--slope", t.slope, "Degrees, or flat, gentle, moderate, steep, very steep");
  c->add_option("--landform", t.landform, "flat, top, ridge, spur, slope, hollow, valley, saddle");
  c->add_option("--wood", t.wood, "Among trees: yes or no");
  c->add_option("--on", t.on,
                "What you stand on: \"stream, 40\" with the way it runs, or \"bridge\"");
  c->add_option("--beside", t.beside, "A line in sight: \"wall, left\" or \"wall, 270\"");
  c->add_option("--sees", t.sees,
                "A thing in sight: \"Harrik Pike, 312\", \"lake, 200\", \"lake\"");
  c->add_option("--not-seen", t.not_seen, "Looked for and not in sight: a name or a kind");
  c->add_option("--last", t.last, "Last sure place: \"PLACE, 25 min, 340\", the bearing if known");
  c->add_option("--leg", t.leg, "Lost on this leg of the trip's plan");
  c->add_option("--leg-minutes", t.leg_minutes, "Minutes since the leg's start");
  c->add_option("--north", t.north, "magnetic, grid or true")->capture_default_str();
  c->add_option("--date", t.date, "Day, for the declination; else the trip's, else today");
  c->add_option("--visibility", t.visibility, "clear, cloud, night or snow; else the trip's");
  c->add_option("--skill", t.skill, "novice, practised or expert; else the trip's");
  c->add_option("--language", t.language, "en or de; else the trip's, else the computer's");
  c->add_option("--png", o->request.picture, "Write a picture of where you may be");
  c->add_option("--tif", o->request.raster,
                "Write the probability of each cell as GeoTIFF; they and elsewhere make 1");
  c->add_flag("--go-on", o->go_on,
              "The place is settled: the ways and escape routes for the rest of the trip from "
              "there, as `way` tells them");
  c->add_option("--time", o->from.time, "With --go-on: clock time now, 14:30");
  c->add_option("--next", o->from.next,
                "With --go-on: the trip's place to go on to; else the one after --leg");
  c->add_option("--place", o->from.place,
                "With --go-on: which of the places that fit; else the likeliest, if it is settled")
      ->within(1, 6);
  c->add_option("--out", o->folder,
                "With --go-on: a folder for the card and sheets of what is left");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded");
  c->callback([o] { run_relocate(*o); });
}

}  // namespace lodeway::cli
