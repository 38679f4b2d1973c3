#include <poll.h>
#include <unistd.h>

#include <cstdio>
#include <memory>
#include <optional>
#include <string_view>

#include <fmt/format.h>

#include "apps/cli/command.hpp"
#include "apps/cli/progress_line.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/tasks/learn.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  tasks::LearnRequest request;
  tasks::PlanRequest trip;
  std::string skill = "practised", instrument = "baseplate", conditions = "clear",
              model = "naismith-langmuir";
  bool keep = false, json = false, german = false;
};

template <class T>
T word(const char* option, const std::string& given,
       std::initializer_list<std::pair<const char*, T>> words) {
  std::string list;
  for (const auto& [name, value] : words) {
    if (given == name) return value;
    list += list.empty() ? name : std::string(", ") + name;
  }
  throw Stopped{
      {FaultCode::bad_input, fmt::format("--{}: expected one of {}, got {}", option, list, given)}};
}

void say(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

/// What whoever sits there answers, or what is piped in; nothing: no.
std::string answer_about(const std::string& file, units::Language language) {
  const bool terminal = isatty(STDIN_FILENO) != 0;
  pollfd in{STDIN_FILENO, POLLIN, 0};
  if (!terminal && (poll(&in, 1, 200) <= 0 || (in.revents & POLLIN) == 0)) return "";
  if (terminal)
    say(fmt::format(fmt::runtime(units::in(
                        language,
                        "\nKeep this in {}? (yes, no, or the names of figures that are to "
                        "stay at the table) ",
                        "\nIn {} behalten? (ja, nein, oder die Namen von Zahlen, die bei der "
                        "Tabelle bleiben) ")),
                    file));
  std::fflush(stdout);
  char answer[1024] = {};
  return std::fgets(answer, sizeof answer, stdin) != nullptr ? answer : "";
}

/// A yes keeps all; names of figures keep it too, those figures refused.
bool says_keep(tasks::Learnt& learnt, const std::string& file) {
  const auto language = learnt.basis.language;
  const auto answer = answer_about(file, language);
  if (!answer.empty() && std::string_view("yYjJ").contains(answer[0])) return true;
  std::vector<std::string> names;
  constexpr std::string_view between = " ,;\t\r\n";
  for (std::size_t at = answer.find_first_not_of(between); at != std::string::npos;) {
    const auto end = answer.find_first_of(between, at);
    names.push_back(answer.substr(at, end - at));
    at = answer.find_first_not_of(between, end);
  }
  if (names.empty() || (names[0].starts_with('n') && !learn::names_a_figure(names[0])))
    return false;
  stop_unless(tasks::choose_figures(learnt, names, {}));
  return true;
}

void run_learn(Options& o) {
  auto& r = o.request;
  if (r.tracks.empty() && r.marks.empty() && r.refuse.empty() && r.use.empty())
    throw Stopped{{FaultCode::bad_input,
                   "learn: expected --track FILE.gpx, --marks FILE, or --refuse FIGURE"}};
  if (o.german) r.language = units::Language::german;
  using enum walking::Skill;
  r.table.skill = word<walking::Skill>(
      "skill", o.skill, {{"novice", novice}, {"practised", practised}, {"expert", expert}});
  r.table.instrument = word<walking::Instrument>(
      "instrument", o.instrument,
      {{"baseplate", walking::Instrument::baseplate}, {"mirror", walking::Instrument::mirror}});
  r.table.visibility = word<mapdata::Visibility>("conditions", o.conditions,
                                                 {{"clear", mapdata::Visibility::clear},
                                                  {"cloud", mapdata::Visibility::cloud},
                                                  {"night", mapdata::Visibility::night},
                                                  {"snow", mapdata::Visibility::snow}});
  using enum walking::TimeModel;
  r.table.model = word<walking::TimeModel>("time-model", o.model,
                                           {{"naismith-langmuir", naismith_langmuir},
                                            {"tobler", tobler},
                                            {"swiss", swiss},
                                            {"din-33466", din_33466},
                                            {"irmischer-clarke", irmischer_clarke}});
  ProgressLine progress;
  auto learnt = value_or_stop(tasks::learn_from(r, &progress));
  std::optional<tasks::TripChange> change;
  if (!o.trip.trip_file.empty())
    change =
        value_or_stop(tasks::trip_change(o.trip, learnt.record_before, learnt.record, &progress));
  progress.clear();
  if (!o.json) {
    say(tasks::learnt_as_text(learnt));
    if (change) say("\n" + tasks::trip_change_as_text(*change, r.language));
  }
  const bool keep = learnt.anything && (o.keep || (!o.json && says_keep(learnt, r.party_file)));
  if (keep) stop_unless(tasks::keep_learnt(learnt, r.party_file));
  if (o.json) {
    say(tasks::learnt_as_json(learnt, keep, change ? &*change : nullptr));
  } else {
    const auto in = [&](const char* english, const char* german) {
      return units::in(r.language, english, german);
    };
    say(keep ? fmt::format("\n{} {}.\n", in("Kept in", "Behalten in"), r.party_file)
             : std::string(in("\nNothing was written. To keep it: --keep, or answer yes.\n",
                              "\nNichts wurde geschrieben. Um es zu behalten: --keep, oder mit ja "
                              "antworten.\n")));
  }
  std::fflush(stdout);
  if (!learnt.anything)
    throw Stopped{{FaultCode::bad_input, "nothing was learnt: every track was refused"}};
}
}  // namespace

void add_learn(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand(
      "learn", "Learn what a party does from its walked tracks and a training day's marks");
  c->footer(
      "Shows the figures before and after, each with the range that holds 90 in 100 such parties.\n"
      "Asks before it keeps them. Exit status 0 if anything was learnt, 2 if every track was "
      "refused.\n"
      "Example: lodeway learn party.toml --track walk.gpx --track ride.gpx --png tracks.png "
      "--json");
  c->add_option("PARTY", o->request.party_file, "The party file; a new one is made when kept")
      ->required();
  c->add_option("--track", o->request.tracks, "A recorded track (GPX with times), again for more");
  c->add_option("--marks", o->request.marks, "A filled-in marks file of a training day");
  c->add_option("--refuse", o->request.refuse,
                "A figure that stays at the table, by its name; its counts are kept")
      ->delimiter(',');
  c->add_option("--use", o->request.use, "A figure that was refused, and counts again")
      ->delimiter(',');
  c->add_option("--ground", o->request.ground, "The ground that the marks were made on");
  c->add_option("--who", o->request.who, "Figures of one of the party, who holds the compass");
  c->add_option("--skill", o->skill, "Row of the table: novice, practised, expert")
      ->capture_default_str();
  c->add_option("--instrument", o->instrument, "baseplate, mirror")->capture_default_str();
  c->add_option("--conditions", o->conditions, "clear, cloud, night, snow")->capture_default_str();
  c->add_option("--time-model", o->model, "Against which walking times")->capture_default_str();
  c->add_option("--png", o->request.picture, "Draw what of each track was used");
  c->add_option("--trip", o->trip.trip_file,
                "A trip file, the last one walked: which of its legs change their verdict");
  add_language(*c, o->german, "Language of the answer");
  c->add_flag("--keep", o->keep, "Keep it without asking");
  c->add_flag("--json", o->json, "Answer as JSON, figures unrounded; keeps only with --keep");
  c->callback([o] { run_learn(*o); });
}

}  // namespace lodeway::cli
