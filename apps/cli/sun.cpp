#include <cstdio>
#include <memory>

#include <fmt/format.h>
#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include "apps/cli/command.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/tasks/quick.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  std::string at, date, zone = "UTC";
  bool json = false;
};

nlohmann::ordered_json time_json(const std::optional<earth::UtcSeconds>& t,
                                 const std::string& zone) {
  if (!t) return nullptr;
  return earth::iso_text(*t, value_or_stop(earth::utc_offset(zone, *t)));
}

/// Which night an event belongs to, where it is not within the day asked for.
std::string other_day(const std::optional<earth::UtcSeconds>& t, const tasks::SunTimes& times) {
  if (!t) return "";
  const auto local = *t + value_or_stop(earth::utc_offset(times.zone, *t));
  const auto day = std::chrono::floor<std::chrono::days>(local);
  if (day > std::chrono::sys_days{times.date}) return "  (after midnight)";
  return day < std::chrono::sys_days{times.date} ? "  (before midnight, the day before)" : "";
}

void run_sun(const Options& o) {
  const auto times = value_or_stop(tasks::sun_times(o.at, o.date, o.zone));
  const auto& day = times.day;
  const auto state = earth::state_words(day);
  nlohmann::ordered_json out{
      {"rise", time_json(day.sun.up, o.zone)},
      {"set", time_json(day.sun.down, o.zone)},
      {"civil_dawn", time_json(day.civil.up, o.zone)},
      {"civil_dusk", time_json(day.civil.down, o.zone)},
      {"state", state.empty() ? nlohmann::ordered_json(nullptr) : nlohmann::ordered_json(state)},
      {"zone", o.zone},
      {"zone_ahead_of_sun_min", times.ahead_of_sun.count()}};
  if (o.json) {
    std::puts(out.dump(2).c_str());
    return;
  }
  const auto text = [&](const char* key) {
    return out[key].is_null() ? std::string("none") : out[key].get<std::string>();
  };
  fmt::print("first light  {}{}\nsunrise      {}{}\nsunset       {}{}\nlast light   {}{}\n",
             text("civil_dawn"), other_day(day.civil.up, times), text("rise"),
             other_day(day.sun.up, times), text("set"), other_day(day.sun.down, times),
             text("civil_dusk"), other_day(day.civil.down, times));
  if (const auto question = tasks::zone_question(times); !question.empty())
    fmt::print("{}\n", question);
  if (!state.empty()) fmt::print("{}\n", state);
  fmt::print("For a flat horizon at sea level: hills to the sun's side make the day shorter.\n");
}
}  // namespace

void add_sun(CLI::App& app) {
  auto o = std::make_shared<Options>();
  auto* c = app.add_subcommand("sun", "Sunrise, sunset and civil twilight at a place and date");
  c->footer("Example: lodeway sun --at \"60.39 5.32\" --date 2026-07-01 --zone Europe/Oslo");
  c->add_option("--at", o->at, "Place")->required()->type_name("PLACE");
  c->add_option("--date", o->date, "Local day")->required()->type_name("DATE");
  c->add_option("--zone", o->zone, "IANA time zone, like Europe/Oslo");
  add_json_flag(*c, o->json);
  c->callback([o] { run_sun(*o); });
}

}  // namespace lodeway::cli
