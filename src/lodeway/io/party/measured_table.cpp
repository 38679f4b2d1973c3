#include "lodeway/io/party/detail/measured_table.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "lodeway/io/toml/detail/parse_toml.hpp"

namespace lodeway::io {

namespace {
constexpr double any = 1e9;

template <class T, class U>
void set(T& target, const std::optional<U>& value) {
  if (value) target = static_cast<T>(*value);
}

std::vector<std::string_view> exercise_words() {
  std::vector<std::string_view> out;
  for (int i = 0; i < learn::exercise_count; ++i)
    out.push_back(learn::exercise_name(static_cast<learn::Exercise>(i)));
  return out;
}

std::string list_text(const std::vector<double>& values) {
  return fmt::format("[{}]", fmt::join(values, ", "));
}

struct List {
  const char* key;
  std::vector<double> learn::Measured::* values;
};
constexpr List lists[] = {{"across_m", &learn::Measured::across_m},
                          {"along_m", &learn::Measured::along_m},
                          {"double_paces", &learn::Measured::double_paces},
                          {"after_m", &learn::Measured::after_m},
                          {"height_off_m", &learn::Measured::height_off_m},
                          {"fall_off_deg", &learn::Measured::fall_off_deg},
                          {"bearing_off_deg", &learn::Measured::bearing_off_deg},
                          {"guessed_min", &learn::Measured::guessed_min},
                          {"true_min", &learn::Measured::true_min}};

/// Which lists an exercise has: what the marking sheet asks for.
bool asks_for(learn::Exercise e, std::string_view key) {
  using enum learn::Exercise;
  switch (e) {
    case pacing:
      return key == "double_paces";
    case triangle:
    case bearing:
      return key == "across_m" || key == "along_m";
    case forks:
    case doubt:
      return key == "after_m";
    case drops:
      return key.ends_with("_off_m") || key.ends_with("_off_deg");
    case time:
      return key == "guessed_min" || key == "true_min";
    default:
      return false;
  }
}

bool counts(learn::Exercise e) {
  using enum learn::Exercise;
  return e == setting || e == features || e == forks || e == lines || e == drops;
}

/// Which numbers of one table somebody wrote down.
struct Given {
  bool trials = false, missed = false, found = false, exposure = false, walked = false,
       course_m = false, ground = false;
  [[nodiscard]] bool any() const { return trials || missed || found || exposure || walked; }
};

/// A figure that rests on two numbers needs both: the one left out is asked for, not taken as 0.
void ask_for_what_is_missing(const TomlReader& t, const learn::Measured& m, const Given& given) {
  const bool lists_filled =
      std::ranges::any_of(lists, [&](const auto& list) { return !(m.*(list.values)).empty(); });
  if (!given.any() && !lists_filled) return;
  const auto ask = [&](bool is_given, const char* key, const char* what) {
    if (!is_given)
      t.refuse_for(key, fmt::format("{}{}{}: expected {}; an empty box is not 0",
                                    learn::exercise_name(m.exercise), m.course.empty() ? "" : " ",
                                    m.course, what));
  };
  const bool followed = m.exercise == learn::Exercise::followed;
  if (counts(m.exercise) &&
      (m.exercise != learn::Exercise::drops || given.trials || given.missed)) {
    ask(given.trials, "trials", "how many were tried");
    ask(given.missed, "missed", "how many of the trials were missed, 0 if none");
  }
  if (followed) {
    ask(given.walked, "walked_km", "how many kilometres were followed");
    ask(given.missed, "missed", "how often the line was lost, 0 if never");
  }
  if (given.found || given.exposure) {
    ask(given.found, "found", "how many were found, 0 if none");
    ask(given.exposure, "exposure_per_m", "the metres searched by the area, in 1/m");
  }
  if (m.exercise == learn::Exercise::pacing) {
    ask(given.course_m, "course_m", "the length of the taped course");
    ask(given.ground, "ground", "level, up, down or rough");
  }
}
}  // namespace

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::chrono::year_month_day read_day(TomlReader& t, std::string_view key) {
  const auto d = t.date(key);
  if (!d) return {};
  const std::chrono::year_month_day day{std::chrono::year{d->year},
                                        std::chrono::month{static_cast<unsigned>(d->month)},
                                        std::chrono::day{static_cast<unsigned>(d->day)}};
  if (!day.ok() || d->year < 1980 || d->year > 2200)
    t.refuse(key, "a day of the calendar, like 2026-10-03");
  return day;
}

void read_version(TomlReader& t) {
  const auto version = t.whole("version", 1, std::numeric_limits<int>::max());
  if (!version) t.refuse("version", fmt::format("the number {}", learn::party_file_version));
  if (*version > learn::party_file_version) {
    t.refuse_for("version", fmt::format("version {} was written by a newer Lodeway; this one reads "
                                        "up to {}",
                                        *version, learn::party_file_version));
  }
}

learn::Measured read_measured(TomlReader t, const learn::Measured& otherwise, bool check) {
  learn::Measured m = otherwise;
  if (const auto day = read_day(t, "date"); day != std::chrono::year_month_day{}) m.date = day;
  const auto exercise = t.choice("exercise", exercise_words());
  if (!exercise) t.refuse("exercise", fmt::format("one of {}", fmt::join(exercise_words(), ", ")));
  m.exercise = static_cast<learn::Exercise>(*exercise);
  set(m.who, t.text("who"));
  set(m.conditions, t.choice("conditions", {"clear", "cloud", "night", "snow"}));
  set(m.training, t.flag("training"));
  set(m.course, t.text("course"));
  if (const auto kind = t.text("kind")) {
    const auto known = mapdata::kind_from_name(*kind);
    if (!known) t.refuse("kind", "a kind of the map, like stream or wall");
    m.kind = *known;
  }
  Given given;
  const auto number = [&](double& target, bool& was_given, const char* key) {
    const auto value = t.number_or_blank(key, 0, any);
    was_given = value.has_value();
    set(target, value);
  };
  number(m.trials, given.trials, "trials");
  number(m.missed, given.missed, "missed");
  set(m.leg_m, t.number("leg_m", 0, any));
  const auto ground = t.choice("ground", {"level", "up", "down", "rough"});
  given.ground = ground.has_value();
  set(m.ground, ground);
  number(m.course_m, given.course_m, "course_m");
  number(m.found, given.found, "found");
  number(m.exposure_per_m, given.exposure, "exposure_per_m");
  number(m.walked_km, given.walked, "walked_km");
  for (const auto& [key, values] : lists) {
    if (auto values_given = t.number_list(key, -any, any, 10000))
      m.*values = *std::move(values_given);
  }
  t.finish();
  if (check) {
    ask_for_what_is_missing(t, m, given);
    if (const auto good = learn::check(m); !good) {
      const auto& what = good.error().what;
      const auto colon = what.find(':');
      t.refuse_for(what.substr(0, colon),
                   colon == std::string::npos ? what : what.substr(colon + 2));
    }
  }
  return m;
}

bool is_blank(const learn::Measured& m) {
  for (const auto& [key, values] : lists) {
    if (!(m.*values).empty()) return false;
  }
  return m.trials <= 0 && m.missed <= 0 && m.found <= 0 && m.exposure_per_m <= 0 &&
         m.walked_km <= 0;
}

std::string measured_text(const learn::Measured& m, bool blanks) {
  std::string out;
  const auto line = [&](std::string_view key, const std::string& value) {
    out += fmt::format("{} = {}\n", key, value);
  };
  const auto figure = [&](std::string_view key, double value, bool asked) {
    if (value != 0 || asked) line(key, fmt::format("{}", value));
  };
  if (m.date.ok())
    line("date",
         fmt::format("{:04}-{:02}-{:02}", static_cast<int>(m.date.year()),
                     static_cast<unsigned>(m.date.month()), static_cast<unsigned>(m.date.day())));
  line("exercise", quoted(std::string(learn::exercise_name(m.exercise))));
  if (!m.course.empty()) line("course", quoted(m.course));
  if (!m.who.empty() || blanks) line("who", quoted(m.who));
  if (!blanks) {
    line("conditions", quoted(std::string(learn::visibility_name(m.conditions))));
    line("training", m.training ? "true" : "false");
  }
  if (m.kind != mapdata::Kind::other) line("kind", quoted(std::string(mapdata::kind_name(m.kind))));
  figure("leg_m", m.leg_m, false);
  if (m.exercise == learn::Exercise::pacing) {
    line("ground", quoted(std::string(learn::pace_ground_name(m.ground))));
    figure("course_m", m.course_m, true);
  }
  if (blanks && m.exercise != learn::Exercise::followed && m.trials <= 0) {
    // An empty text, not 0: who types one number and forgets the other is asked.
    if (counts(m.exercise)) line("trials", "\"\"");
    if (counts(m.exercise)) line("missed", "\"\"");
    if (m.exercise == learn::Exercise::features) {
      line("found", "\"\"");
      line("exposure_per_m", "\"\"");
    }
  } else {
    figure("trials", m.trials, false);
    const bool of_trials = counts(m.exercise) && m.trials > 0;
    figure("missed", m.missed, of_trials || m.exercise == learn::Exercise::followed);
    const bool searched =
        m.exercise == learn::Exercise::features && (m.found > 0 || m.exposure_per_m > 0);
    if (searched) line("found", fmt::format("{}", m.found));
    if (searched) line("exposure_per_m", fmt::format("{}", m.exposure_per_m));
  }
  figure("walked_km", m.walked_km, false);
  for (const auto& [key, values] : lists) {
    if (!(m.*values).empty() || (blanks && asks_for(m.exercise, key)))
      line(key, list_text(m.*values));
  }
  return out;
}

Result<std::string> slurp_toml(const std::string& path, const char* what) {
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  if (error)
    return fail(FaultCode::io_failed,
                fmt::format("{}: expected a {} that can be read", path, what));
  if (size > most_party_bytes)
    return fail(FaultCode::too_large, fmt::format("{}: expected at most 16 MiB", path));
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) return fail(FaultCode::io_failed, path + ": could not be read");
  return text.str();
}

Result<void> with_toml(const std::string& text, const std::string& name,
                       const std::function<void(TomlReader)>& use) {
  try {
    const toml::table table = parse_toml(text, name, {.values = 2'000'000});
    use(TomlReader(table, name, ""));
    return {};
  } catch (const Refusal& refusal) {
    return fail(FaultCode::bad_input, refusal.what);
  }
}

}  // namespace lodeway::io
