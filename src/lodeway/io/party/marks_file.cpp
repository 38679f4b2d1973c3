#include "lodeway/io/party/marks_file.hpp"

#include <filesystem>

#include <fmt/format.h>

#include "lodeway/io/party/detail/measured_table.hpp"

namespace lodeway::io {

namespace {
Result<Marks> parse(const std::string& text, const std::string& name, const std::string& folder) {
  Marks out;
  const auto read = with_toml(text, name, [&](TomlReader t) {
    read_version(t);
    learn::Measured day;
    day.date = read_day(t, "date");
    if (!day.date.ok()) t.refuse("date", "the day of the training, like 2026-10-03");
    if (const auto c = t.choice("conditions", {"clear", "cloud", "night", "snow"}))
      day.conditions = static_cast<mapdata::Visibility>(*c);
    out.day = t.text("day").value_or("");
    out.training = day.training = t.flag("training").value_or(true);
    if (const auto ground = t.text("ground"); ground && !ground->empty())
      out.ground = (std::filesystem::path(folder) / *ground).string();
    for (auto& table : t.tables("marks", most_days)) {
      auto blank = table;
      const auto m = read_measured(std::move(blank), day, false);
      if (is_blank(m)) {
        ++out.empty_boxes;
        continue;
      }
      out.measured.push_back(read_measured(std::move(table), day, true));
    }
    t.finish();
    if (out.measured.empty())
      t.refuse("marks", "at least one [[marks]] table that is filled in; an empty box is not 0");
  });
  if (!read) return std::unexpected(read.error());
  return out;
}
}  // namespace

Result<Marks> marks_of_text(const std::string& text, const std::string& name) {
  return parse(text, name, "");
}

Result<Marks> read_marks(const std::string& path) {
  const auto text = slurp_toml(path, "marks file");
  if (!text) return std::unexpected(text.error());
  return parse(*text, path, std::filesystem::path(path).parent_path().string());
}

std::string marks_template(const Marks& marks) {
  auto out = fmt::format(
      "# Marks. Fill in; leave blank what was not done: an empty box is not 0.\n"
      "# Right and long are positive: 7 m left of the peg is -7.\n"
      "version = {}\nday = {}\nground = {}\ndate = \"\"  # of the training, like 2026-10-03\n"
      "conditions = \"clear\"  # clear, cloud, night, snow\ntraining = {}\n",
      learn::party_file_version, quoted(marks.day), quoted(marks.ground),
      marks.training ? "true" : "false");
  for (const auto& m : marks.measured) out += "\n[[marks]]\n" + measured_text(m, true);
  return out;
}

}  // namespace lodeway::io
