#include "apps/cli/help_page.hpp"

#include <algorithm>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>

#include "apps/cli/help_words.hpp"

namespace lodeway::cli {

namespace {

/// What the library calls a thing, and what we call it.
constexpr std::pair<const char*, const char*> ours[] = {
    {"Usage", "Usage"},        {"OPTIONS", "OPTIONS"},
    {"SUBCOMMAND", "COMMAND"}, {"Positionals", "Arguments"},
    {"Options", "Options"},    {"REQUIRED", "REQUIRED"},
    {"TEXT", "TEXT"},          {"FLOAT", "NUMBER"},
    {"INT", "NUMBER"},         {"UINT", "NUMBER"},
};

class Page : public CLI::Formatter {
 public:
  explicit Page(units::Language language) {
    for (const auto& [theirs, word] : ours) label(theirs, help_in(language, word));
    column_width(30);
  }

  std::string make_group(std::string group, bool is_positional,
                         std::vector<const CLI::Option*> options) const override {
    return Formatter::make_group(get_label(std::move(group)), is_positional, std::move(options));
  }
  std::string make_option(const CLI::Option* option, bool is_positional) const override {
    return row(make_option_name(option, is_positional) + make_option_opts(option),
               make_option_desc(option));
  }
  std::string make_subcommand(const CLI::App* command) const override {
    return row(command->get_display_name(), command->get_description());
  }

 private:
  /// In two columns, by letters: an umlaut is two bytes and one letter wide.
  [[nodiscard]] std::string row(const std::string& name, const std::string& what) const {
    const auto letters = static_cast<std::size_t>(
        std::ranges::count_if(name, [](char c) { return (c & 0xC0) != 0x80; }));
    const auto width = letters + 2;
    std::string out = "  " + name;
    if (what.empty()) return out + "\n";
    if (width >= get_column_width())
      return out + "\n" + std::string(get_column_width(), ' ') + what + "\n";
    return out + std::string(get_column_width() - width, ' ') + what + "\n";
  }
};

}  // namespace

void show_help_in(CLI::App& app, units::Language language) {
  app.formatter(std::make_shared<Page>(language));
  app.group(help_in(language, "Commands"));
  app.set_help_flag("-h,--help", help_in(language, "Show this help"));
}

}  // namespace lodeway::cli
