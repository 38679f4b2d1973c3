// What a party typed, understood: or one line that says what was expected.
#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/magnetic/declination.hpp"
#include "lodeway/tasks/detail/relocate_parts.hpp"
#include "lodeway/tasks/place_named.hpp"
#include "lodeway/tasks/quick.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks::detail {

namespace {
using belief::Report;
using mapdata::Kind;
using sight::Cue;

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t"), last = text.find_last_not_of(" \t");
  return first == std::string_view::npos ? std::string()
                                         : std::string(text.substr(first, last - first + 1));
}
std::string lower(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) {
    return c < 128 ? static_cast<char>(std::tolower(c)) : static_cast<char>(c);
  });
  return text;
}
std::vector<std::string> split(std::string_view text) {
  std::vector<std::string> out;
  for (;;) {
    const auto comma = text.find(',');
    out.push_back(trimmed(text.substr(0, comma)));
    if (comma == std::string_view::npos) return out;
    text.remove_prefix(comma + 1);
  }
}
std::optional<double> number(std::string text) {
  while (!text.empty() && (text.ends_with("°") || text.ends_with("m") || text.back() == ' '))
    text.resize(text.size() - (text.ends_with("°") ? std::string_view("°").size() : 1));
  double out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(out))
    return std::nullopt;
  return out;
}

std::unexpected<Fault> expected(const std::string& where, const std::string& what,
                                const std::string& got) {
  return fail(FaultCode::bad_input, fmt::format("{}: expected {}, got \"{}\"", where, what, got));
}

Result<double> figure(const std::string& where, const std::string& text, double least, double most,
                      const char* unit) {
  const auto value = number(text);
  if (!value || *value < least || *value > most)
    return expected(where, fmt::format("{:g} to {:g} {}", least, most, unit), text);
  return *value;
}

Result<units::GridBearing> bearing(const std::string& where, const std::string& text,
                                   const Needle& needle) {
  const auto deg = figure(where, text, 0, 360, "degrees");
  if (!deg) return std::unexpected(deg.error());
  return units::GridBearing::degrees(*deg + needle.to_grid_deg);
}

/// "faint path", "top", "col", "Bach": kinds in a walker's words, English or German.
std::optional<Kind> kind_of(const std::string& text) {
  std::string name = lower(text);
  static constexpr std::array<std::pair<std::string_view, Kind>, 14> words{
      {{"top", Kind::summit},
       {"peak", Kind::summit},
       {"col", Kind::saddle},
       {"pass", Kind::saddle},
       {"beck", Kind::stream},
       {"burn", Kind::stream},
       {"brook", Kind::stream},
       {"tarn", Kind::lake},
       {"loch", Kind::lake},
       {"house", Kind::building},
       {"crest", Kind::ridge_line},
       {"edge of a wood", Kind::wood_edge},
       {"forest", Kind::wood},
       {"pylons", Kind::power_line}}};
  for (const auto& [word, kind] : words) {
    if (name == word) return kind;
  }
  for (std::size_t k = 0; k < mapdata::kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    if (name == lower(landmarks::thing(kind, "", units::Language::german))) return kind;
  }
  std::ranges::replace(name, ' ', '_');
  return mapdata::kind_from_name(name);
}

bool is_line(Kind kind) { return kind <= Kind::aerialway; }

template <class E, std::size_t N>
Result<E> word(const std::string& where, const std::string& text,
               const std::array<std::pair<std::string_view, E>, N>& words) {
  std::string all;
  for (const auto& [name, value] : words) {
    if (lower(text) == name) return value;
    all += (all.empty() ? "" : ", ") + std::string(name);
  }
  return expected(where, "one of " + all, text);
}

std::vector<std::int32_t> things_named(const std::vector<sight::Thing>& things,
                                       const std::string& name) {
  std::vector<std::int32_t> out;
  for (std::size_t t = 0; t < things.size(); ++t) {
    if (lower(things[t].name) == lower(name)) out.push_back(static_cast<std::int32_t>(t));
  }
  return out;
}

/// A named thing or one of a kind.
Result<Report> thing_or_kind(const std::string& where, const std::string& name,
                             const std::vector<sight::Thing>& things) {
  Report r;
  const auto named = things_named(things, name);
  if (named.size() > 1) {
    return fail(FaultCode::bad_input,
                fmt::format("{}: {} things are called \"{}\": say what it is instead (\"summit\")",
                            where, named.size(), name));
  }
  if (named.size() == 1) {
    r.cue = Cue::sees_thing;
    r.thing = named.front();
    r.kind = things[static_cast<std::size_t>(r.thing)].kind;
    return r;
  }
  const auto kind = kind_of(name);
  if (!kind || *kind == Kind::other)
    return expected(where, "a thing on the map or a kind of thing (lake, building, summit)", name);
  r.cue = is_line(*kind) ? Cue::beside_line : Cue::sees_kind;
  r.kind = *kind;
  return r;
}

std::string declination_text(units::Angle east, units::Language in) {
  auto text = units::angle_east_text(east);
  if (in == units::Language::german) {
    std::ranges::replace(text, '.', ',');
    if (text.ends_with('E')) text.back() = 'O';
  }
  return text;
}

Result<Needle> needle_of(const walking::Ground& ground, std::chrono::year_month_day date,
                         const std::string& north, units::Language in) {
  const auto& f = ground.elevation.frame();
  const earth::GridPoint middle{0.5 * (f.west_m + f.east_m()), 0.5 * (f.south_m() + f.north_m)};
  const auto at = ground.grid.to_geographic(middle);
  if (!at) return std::unexpected(at.error());
  const auto convergence = ground.grid.convergence(middle);
  if (!convergence) return std::unexpected(convergence.error());
  enum class Of { magnetic, grid, true_north };
  const auto which = word<Of, 3>(
      "north", north, {{{"magnetic", Of::magnetic}, {"grid", Of::grid}, {"true", Of::true_north}}});
  if (!which) return std::unexpected(which.error());
  Needle out;
  const std::string day =
      fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  const auto field = magnetic::field_at(*at, 0, date);
  if (!field) {
    if (*which == Of::magnetic) return std::unexpected(field.error());
  } else {
    out.magnetic_deg = units::grid_magnetic_angle(*convergence, field->declination).in_degrees();
  }
  switch (*which) {
    case Of::magnetic:
      out.to_grid_deg = out.magnetic_deg;
      out.words = trip::told(in, "bearings as the needle shows; declination {} on {}",
                             {declination_text(field->declination.east, in), day});
      break;
    case Of::grid:
      out.words = trip::told(in, "bearings from grid north, as measured on the map");
      break;
    case Of::true_north:
      out.to_grid_deg = -convergence->east.in_degrees();
      out.words = trip::told(in, "bearings from true north");
      break;
  }
  return out;
}

Result<void> read_last(const walking::Ground& ground, const trip::Trip* trip, const Told& told,
                       Understood& out, double speed_kmh) {
  const auto parts = split(told.last);
  const auto minutes =
      std::ranges::find_if(parts, [](const std::string& p) { return p.ends_with("min"); });
  if (minutes == parts.end() || minutes == parts.begin() || parts.end() - minutes > 2)
    return expected("last",
                    "a place, minutes and the bearing walked, like \"Quenna Hause, 25 min, 340\" "
                    "(on a leg of the plan: --leg)",
                    told.last);
  std::string place = parts[0];
  for (auto p = parts.begin() + 1; p != minutes; ++p) place += ", " + *p;
  const auto walked =
      figure("last", trimmed(minutes->substr(0, minutes->size() - 3)), 1, 1440, "min");
  if (!walked) return std::unexpected(walked.error());
  belief::LastSure last;
  last.minutes = *walked;
  last.speed_kmh = speed_kmh;
  if (minutes + 1 != parts.end()) {
    const auto heading = bearing("last", *(minutes + 1), out.needle);
    if (!heading) return std::unexpected(heading.error());
    last.heading = *heading;
  }
  const auto of_trip = [&]() -> std::optional<earth::GridPoint> {
    if (trip == nullptr) return std::nullopt;
    for (const auto& point : trip->request.points) {
      if (point.name == place) return point.at;
    }
    return std::nullopt;
  }();
  if (of_trip) {
    last.at = *of_trip;
  } else {
    const auto at = place_named(ground, place, "last", true);
    if (!at) return std::unexpected(at.error());
    last.at = *at;
  }
  out.last = last;
  return {};
}

Result<void> read_ground_cues(const Told& told, Understood& out) {
  const sight::CueSigmas sigma;
  if (!told.height.empty()) {
    Report r;
    const auto z = figure("height", told.height, -500, 9000, "m");
    if (!z) return std::unexpected(z.error());
    const auto altimeter = word<bool, 2>("height-from", told.height_from,
                                         {{{"contours", false}, {"altimeter", true}}});
    if (!altimeter) return std::unexpected(altimeter.error());
    r.value = *z;
    out.altimeter = *altimeter;
    r.sigma = *altimeter ? sigma.height_m : sigma.height_unset_m;
    out.reports.push_back(r);
  }
  if (!told.falls.empty()) {
    Report r;
    r.cue = Cue::fall;
    const std::string text = lower(told.falls);
    r.level = text == "nowhere" || text == "flat" || text == "level";
    r.has_direction = !r.level;
    if (r.has_direction) {
      const auto way = bearing("falls", told.falls, out.needle);
      if (!way) return std::unexpected(way.error());
      r.direction = *way;
    }
    out.reports.push_back(r);
  }
  if (!told.slope.empty()) {
    Report r;
    r.cue = Cue::steepness;
    static constexpr std::array<std::pair<std::string_view, double>, 5> words{
        {{"flat", 2}, {"gentle", 8}, {"moderate", 16}, {"steep", 26}, {"very steep", 37}}};
    const auto found = std::ranges::find(words, lower(told.slope),
                                         [](const auto& w) { return std::string(w.first); });
    if (found != words.end()) {
      r.value = found->second;
      r.sigma = 6;  // a word is a wider figure than a clinometer's
    } else {
      const auto deg = figure("slope", told.slope, 0, 90,
                              "degrees, or flat, gentle, moderate, steep, very steep");
      if (!deg) return std::unexpected(deg.error());
      r.value = *deg;
    }
    out.reports.push_back(r);
  }
  if (!told.landform.empty()) {
    Report r;
    if (lower(told.landform) == "saddle" || lower(told.landform) == "col") {
      r.cue = Cue::at_point;
      r.kind = Kind::saddle;
    } else {
      using sight::Form;
      const auto form = word<Form, 8>("landform", told.landform,
                                      {{{"flat", Form::flat},
                                        {"top", Form::top},
                                        {"summit", Form::top},
                                        {"ridge", Form::ridge},
                                        {"spur", Form::spur},
                                        {"slope", Form::slope},
                                        {"hollow", Form::hollow},
                                        {"valley", Form::valley}}});
      if (!form) return std::unexpected(form.error());
      r.cue = Cue::landform;
      r.form = *form;
    }
    out.reports.push_back(r);
  }
  if (!told.wood.empty()) {
    const auto in = word<bool, 2>("wood", told.wood, {{{"yes", true}, {"no", false}}});
    if (!in) return std::unexpected(in.error());
    Report r;
    r.cue = Cue::in_wood;
    r.seen = *in;
    out.reports.push_back(r);
  }
  return {};
}

Result<void> read_lines(const Told& told, Understood& out) {
  for (const std::string& text : told.on) {
    auto parts = split(text);
    const bool none = lower(parts[0]).starts_with("no ") && parts.size() == 1;
    if (none) parts[0] = trimmed(std::string_view(parts[0]).substr(3));
    const auto kind = kind_of(parts[0]);
    if (!kind || *kind == Kind::other || parts.size() > 2)
      return expected("on", "a kind of line and its lie, like \"stream, 40\", or \"no stream\"",
                      text);
    Report r;
    r.seen = !none;
    r.kind = *kind;
    r.cue = is_line(*kind) ? Cue::on_line : Cue::at_point;
    if (parts.size() == 2) {
      if (r.cue != Cue::on_line)
        return expected("on", "no bearing for a thing that is no line", text);
      const auto lie = bearing("on", parts[1], out.needle);
      if (!lie) return std::unexpected(lie.error());
      r.has_direction = true;
      r.direction = *lie;
    }
    out.reports.push_back(r);
  }
  for (const std::string& text : told.beside) {
    const auto parts = split(text);
    const auto kind = kind_of(parts[0]);
    if (!kind || !is_line(*kind) || parts.size() > 2)
      return expected("beside", "a kind of line and the side, like \"wall, left\"", text);
    Report r;
    r.kind = *kind;
    r.cue = Cue::beside_line;
    if (parts.size() == 2) {
      const std::string side = lower(parts[1]);
      r.has_direction = true;
      if (side == "left" || side == "right") {
        if (out.last && out.last->heading) {
          r.direction = *out.last->heading + units::Angle::degrees(side == "left" ? -90 : 90);
        } else {
          r.has_direction = false;
          out.warnings.push_back(trip::told(
              out.in,
              "beside {}: the side is left out, as no heading is told with the last sure place",
              {text}));
        }
      } else {
        const auto way = bearing("beside", parts[1], out.needle);
        if (!way) return std::unexpected(way.error());
        r.direction = *way;
      }
    }
    out.reports.push_back(r);
  }
  return {};
}

Result<void> read_sights(const Told& told, const std::vector<sight::Thing>& things,
                         Understood& out) {
  for (const std::string& text : told.sees) {
    auto parts = split(text);
    std::optional<std::string> last;
    if (parts.size() > 1) {
      last = parts.back();
      parts.pop_back();
    }
    std::string name = parts[0];
    for (std::size_t k = 1; k < parts.size(); ++k) name += ", " + parts[k];
    auto r = thing_or_kind("sees", name, things);
    if (!r) return std::unexpected(r.error());
    if (last) {
      const auto way = bearing("sees", *last, out.needle);
      if (!way) return std::unexpected(way.error());
      r->has_direction = true;
      r->direction = *way;
    }
    out.reports.push_back(*r);
  }
  for (const std::string& text : told.not_seen) {
    auto r = thing_or_kind("not-seen", text, things);
    if (!r) return std::unexpected(r.error());
    r->seen = false;
    out.reports.push_back(*r);
  }
  return {};
}
}  // namespace

Result<Understood> understand(const walking::Ground& ground, const trip::Trip* trip,
                              const std::vector<sight::Thing>& things, const Told& told) {
  using mapdata::Visibility;
  using walking::Skill;
  Understood out;
  if (trip != nullptr) {
    out.visibility = trip->request.party.visibility;
    out.skill = trip->request.party.skill;
  }
  if (!told.visibility.empty()) {
    const auto v = word<Visibility, 4>("visibility", told.visibility,
                                       {{{"clear", Visibility::clear},
                                         {"cloud", Visibility::cloud},
                                         {"night", Visibility::night},
                                         {"snow", Visibility::snow}}});
    if (!v) return std::unexpected(v.error());
    out.visibility = *v;
  }
  if (!told.skill.empty()) {
    const auto s = word<Skill, 3>(
        "skill", told.skill,
        {{{"novice", Skill::novice}, {"practised", Skill::practised}, {"expert", Skill::expert}}});
    if (!s) return std::unexpected(s.error());
    out.skill = *s;
  }
  if (trip != nullptr) out.in = trip->language;
  if (!told.language.empty()) {
    const auto in = word<units::Language, 2>(
        "language", told.language,
        {{{"en", units::Language::english}, {"de", units::Language::german}}});
    if (!in) return std::unexpected(in.error());
    out.in = *in;
  }
  auto date = std::chrono::year_month_day{
      std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now())};
  if (trip != nullptr) date = trip->date;
  if (!told.date.empty()) {
    const auto typed = parse_date(told.date);
    if (!typed) return std::unexpected(typed.error());
    date = *typed;
  }
  auto needle = needle_of(ground, date, told.north, out.in);
  if (!needle) return std::unexpected(needle.error());
  out.needle = *std::move(needle);
  const double speed = 0.8 * (trip != nullptr ? trip->request.party.flat_speed_kmh : 4.0);
  if (!told.last.empty()) {
    if (const auto read = read_last(ground, trip, told, out, speed); !read)
      return std::unexpected(read.error());
  }
  if (const auto read = read_ground_cues(told, out); !read) return std::unexpected(read.error());
  if (const auto read = read_lines(told, out); !read) return std::unexpected(read.error());
  if (const auto read = read_sights(told, things, out); !read) return std::unexpected(read.error());
  for (const Report& r : out.reports)
    out.words.push_back(report_words(r, things, out.needle, out.in));
  return out;
}

}  // namespace lodeway::tasks::detail
