#include "lodeway/io/party/party_file.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/party/detail/measured_table.hpp"
#include "lodeway/learn/figures/party_figures.hpp"

namespace lodeway::io {

namespace {
constexpr std::size_t piece_figures = 5 + learn::time_model_count;

learn::WalkedDay read_walked(TomlReader t) {
  learn::WalkedDay day;
  day.date = read_day(t, "date");
  if (!day.date.ok()) t.refuse("date", "the day of the walk, like 2026-10-03");
  day.file = t.text("track").value_or("");
  day.digest = t.text("digest").value_or("");
  if (day.digest.size() != 16) t.refuse("digest", "16 hexadecimal figures");
  day.moving_min = t.number("moving_min", 0, 1e5).value_or(0);
  day.standing_min = t.number("standing_min", 0, 1e6).value_or(0);
  day.stops = t.number("stops", 0, 1e4).value_or(0);
  for (const auto& row : t.rows("pieces", piece_figures, -1e5, 1e5, 20000)) {
    learn::WalkedPiece p;
    p.length_m = row[0];
    p.climb_m = row[1];
    p.descent_m = row[2];
    p.minutes = row[3];
    p.off_ease = row[4];
    bool good = p.length_m > 0 && p.minutes > 0;
    for (std::size_t m = 0; m < learn::time_model_count; ++m) {
      p.model_minutes[m] = row[5 + m];
      good &= row[5 + m] > 0;
    }
    if (!good) t.refuse("pieces", "lengths and minutes above 0");
    day.pieces.push_back(p);
  }
  t.finish();
  return day;
}

std::string walked_text(const learn::WalkedDay& day) {
  auto out = fmt::format(
      "date = {:04}-{:02}-{:02}\ntrack = {}\ndigest = {}\nmoving_min = {:.2f}\nstanding_min = "
      "{:.2f}\nstops = {}\n",
      static_cast<int>(day.date.year()), static_cast<unsigned>(day.date.month()),
      static_cast<unsigned>(day.date.day()), quoted(day.file), quoted(day.digest), day.moving_min,
      day.standing_min, day.stops);
  out +=
      "# length_m, climb_m, descent_m, minutes, |slope + 0.05|, then minutes of the models at 4 "
      "km/h:\n"
      "# naismith-langmuir, tobler, swiss, din-33466, irmischer-clarke\npieces = [\n";
  for (const auto& p : day.pieces) {
    out +=
        fmt::format("  [{:.1f}, {:.1f}, {:.1f}, {:.3f}, {:.4f}, {:.3f}],\n", p.length_m, p.climb_m,
                    p.descent_m, p.minutes, p.off_ease, fmt::join(p.model_minutes, ", "));
  }
  return out + "]\n";
}
}  // namespace

Result<learn::PartyRecord> party_of_text(const std::string& text, const std::string& name) {
  learn::PartyRecord out;
  const auto read = with_toml(text, name, [&](TomlReader t) {
    read_version(t);
    out.name = t.text("name").value_or("");
    out.refused = t.texts("refused");
    for (const auto& id : out.refused) {
      if (!learn::names_a_figure(id))
        t.refuse("refused", "names of figures, like \"compass\", \"know.stream\", \"minutes\"");
    }
    for (auto& table : t.tables("measured", most_days)) {
      auto m = read_measured(std::move(table), {}, true);
      if (const auto added = learn::add(out, std::move(m)); !added)
        t.refuse_for("measured", added.error().what);
    }
    for (auto& table : t.tables("walked", most_days)) {
      if (const auto added = learn::add(out, read_walked(std::move(table))); !added)
        t.refuse_for("walked", added.error().what);
    }
    t.finish();
  });
  if (!read) return std::unexpected(read.error());
  return out;
}

Result<learn::PartyRecord> read_party_file(const std::string& path) {
  const auto text = slurp_toml(path, "party file");
  if (!text) return std::unexpected(text.error());
  return party_of_text(*text, path);
}

std::string party_file_text(const learn::PartyRecord& record) {
  auto out =
      fmt::format("version = {}\nname = {}\n", learn::party_file_version, quoted(record.name));
  if (!record.refused.empty()) {
    std::vector<std::string> names;
    for (const auto& id : record.refused) names.push_back(quoted(id));
    out += fmt::format("refused = [{}]\n", fmt::join(names, ", "));
  }
  for (const auto& m : record.measured) out += "\n[[measured]]\n" + measured_text(m, false);
  for (const auto& day : record.walked) out += "\n[[walked]]\n" + walked_text(day);
  return out;
}

Result<void> write_party_file(const std::string& path, const learn::PartyRecord& record) {
  return write_beside(path, party_file_text(record));
}

}  // namespace lodeway::io
