#include <cstdio>
#include <memory>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "apps/cli/command.hpp"
#include "apps/cli/flat_json.hpp"
#include "apps/cli/units_option.hpp"
#include "lodeway/tasks/quick.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::cli {

namespace {
struct Options {
  std::string at, date, zone = "UTC";
  bool json = false, german = false;
};

std::optional<std::string> time_text(const std::optional<earth::UtcSeconds>& t,
                                     const std::string& zone) {
  if (!t) return std::nullopt;
  return earth::iso_text(*t, value_or_stop(earth::utc_offset(zone, *t)));
}

/// "03:14": the nearest minute of the zone's own clock, for people.
std::string clock_time(const std::optional<earth::UtcSeconds>& t, const std::string& zone,
                       units::Language in) {
  if (!t) return units::in(in, "none", "entfällt");
  const auto local = *t + value_or_stop(earth::utc_offset(zone, *t));
  const auto minute = std::chrono::round<std::chrono::minutes>(local);
  const auto minutes = (minute - std::chrono::floor<std::chrono::days>(minute)).count();
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

/// Which night an event belongs to, where it is not within the day asked for.
std::string other_day(const std::optional<earth::UtcSeconds>& t, const tasks::SunTimes& times,
                      units::Language in) {
  if (!t) return "";
  const auto local = *t + value_or_stop(earth::utc_offset(times.zone, *t));
  const auto day = std::chrono::floor<std::chrono::days>(local);
  if (day > std::chrono::sys_days{times.date})
    return units::in(in, "  (after midnight)", "  (nach Mitternacht)");
  return day < std::chrono::sys_days{times.date}
             ? units::in(in, "  (before midnight, the day before)",
                         "  (vor Mitternacht, am Vortag)")
             : "";
}

void run_sun(const Options& o) {
  const auto times = value_or_stop(tasks::sun_times(o.at, o.date, o.zone));
  const auto& day = times.day;
  const auto state = earth::state_words(day);
  const auto rise = time_text(day.sun.up, o.zone), set = time_text(day.sun.down, o.zone),
             dawn = time_text(day.civil.up, o.zone), dusk = time_text(day.civil.down, o.zone);
  if (o.json) {
    print_json({{"rise", word_or_null(rise)},
                {"set", word_or_null(set)},
                {"civil_dawn", word_or_null(dawn)},
                {"civil_dusk", word_or_null(dusk)},
                {"state", state.empty() ? JsonValue(nullptr) : JsonValue(std::string(state))},
                {"zone", o.zone},
                {"zone_ahead_of_sun_min", static_cast<double>(times.ahead_of_sun.count())}});
    return;
  }
  const auto in = o.german ? units::Language::german : units::Language::english;
  const auto line = [&](const char* english, const char* german,
                        const std::optional<earth::UtcSeconds>& t) {
    fmt::print("{:<{}}{}{}\n", units::in(in, english, german), o.german ? 18 : 13,
               clock_time(t, o.zone, in), other_day(t, times, in));
  };
  line("first light", "erstes Licht", day.civil.up);
  line("sunrise", "Sonnenaufgang", day.sun.up);
  line("sunset", "Sonnenuntergang", day.sun.down);
  line("last light", "letztes Licht", day.civil.down);
  fmt::print("{}", units::said(in, "Clock times of {}, to the minute.\n",
                               "Uhrzeiten von {}, auf die Minute.\n", o.zone));
  if (const auto question = tasks::zone_question(times, in); !question.empty())
    fmt::print("{}\n", question);
  if (const auto why = earth::state_words(day, in); !why.empty()) fmt::print("{}\n", why);
  fmt::print("{}",
             units::in(in,
                       "For a flat horizon at sea level. Hills on the sun's side make the day "
                       "shorter.\n",
                       "Für einen flachen Horizont auf Meereshöhe. Berge auf der Seite der "
                       "Sonne machen den Tag kürzer.\n"));
}
}  // namespace

void add_sun(Command& app) {
  auto o = std::make_shared<Options>();
  auto* c =
      app.add_subcommand("sun", "First light, sunrise, sunset and last light at a place and date");
  c->footer("Example: lodeway sun --at \"60.39 5.32\" --date 2026-07-01 --zone Europe/Oslo");
  c->add_option("--at", o->at, "Place")->required()->type_name("PLACE");
  c->add_option("--date", o->date, "Local day")->required()->type_name("DATE");
  c->add_option("--zone", o->zone, "Time zone by its IANA name, like Europe/Oslo");
  add_language(*c, o->german, "Language of the answer");
  add_json_flag(*c, o->json);
  c->callback([o] { run_sun(*o); });
}

}  // namespace lodeway::cli
