#include "apps/cli/arguments.hpp"

#include <CLI/CLI.hpp>

#include "apps/cli/help_page.hpp"
#include "apps/cli/help_words.hpp"
#include "apps/cli/spoken_language.hpp"
#include "apps/cli/usage.hpp"

namespace lodeway::cli {

namespace {
std::string in_words(const std::string& english) { return help_in(spoken_language(), english); }

/// An option's name is the same in every language, what stands for a word of the line is not.
std::string named(const std::string& name) { return name.starts_with('-') ? name : in_words(name); }
}  // namespace

Option* Option::required() {
  option_->required();
  return this;
}

Option* Option::type_name(const std::string& what) {
  option_->type_name(in_words(what));
  return this;
}

Option* Option::option_text(const std::string& what) {
  option_->option_text(what);
  return this;
}

Option* Option::capture_default_str() {
  option_->capture_default_str();
  return this;
}

Option* Option::within(int least, int most) {
  option_->check(whole_within(least, most));
  return this;
}

Option* Option::within(double least, double most) {
  option_->check(number_within(least, most));
  return this;
}

Option* Option::one_of(const std::vector<std::string>& words) {
  option_->check(cli::one_of(words));
  return this;
}

Option* Option::check(const std::function<std::string(const std::string&)>& wrong) {
  option_->check(wrong);
  return this;
}

Option* Option::delimiter(char between) {
  option_->delimiter(between);
  return this;
}

Option* Option::expected(int count) {
  option_->expected(count);
  return this;
}

bool Option::given() const { return option_->count() > 0; }

std::string Option::name() const { return option_->get_name(); }

Command::Command(CLI::App& app) : app_(&app) {}
Command::~Command() = default;

Command* Command::add_subcommand(const std::string& name, const std::string& what) {
  return commands_.emplace_back(std::make_unique<Command>(*app_->add_subcommand(name, in_words(what)))).get();
}

void Command::require_subcommand(int count) { app_->require_subcommand(count); }

void Command::footer(const std::string& text) { app_->footer(in_words(text)); }

void Command::callback(const std::function<void()>& run) { app_->callback(run); }

Option* Command::keep(CLI::Option* option) {
  return options_.emplace_back(std::make_unique<Option>(*option)).get();
}

Option* Command::add_option(const std::string& name, std::string& into, const std::string& what) {
  return keep(app_->add_option(named(name), into, in_words(what)));
}

Option* Command::add_option(const std::string& name, double& into, const std::string& what) {
  return keep(app_->add_option(named(name), into, in_words(what)));
}

Option* Command::add_option(const std::string& name, int& into, const std::string& what) {
  return keep(app_->add_option(named(name), into, in_words(what)));
}

Option* Command::add_option(const std::string& name, std::size_t& into, const std::string& what) {
  return keep(app_->add_option(named(name), into, in_words(what)));
}

Option* Command::add_option(const std::string& name, std::vector<std::string>& into,
                            const std::string& what) {
  return keep(app_->add_option(named(name), into, in_words(what)));
}

Option* Command::add_option(const std::string& name, std::vector<double>& into,
                            const std::string& what) {
  return keep(app_->add_option(named(name), into, in_words(what)));
}

Option* Command::add_option(const std::string& name, bool& into,
                            const std::map<std::string, bool>& words, const std::string& what) {
  std::vector<std::string> names;
  for (const auto& [word, value] : words) names.push_back(word);
  return keep(app_->add_option_function<std::string>(
                      name, [&into, words](const std::string& given) { into = words.at(given); },
                      in_words(what))
                  ->check(cli::one_of(names)));
}

Option* Command::add_option_function(const std::string& name,
                                     const std::function<void(const std::string&)>& take,
                                     const std::string& what) {
  return keep(app_->add_option_function<std::string>(name, take, in_words(what)));
}

Option* Command::add_flag(const std::string& name, bool& into, const std::string& what) {
  return keep(app_->add_flag(name, into, in_words(what)));
}

CommandLine::CommandLine(const std::string& name, const std::string& what,
                         const std::string& version)
    : app_(std::make_unique<CLI::App>(in_words(what), name)),
      program_(std::make_unique<Command>(*app_)) {
  show_help_in(*app_, spoken_language());  // commands added from here on have it from their program
  app_->set_version_flag("--version", version, in_words("Show the version"));
}

CommandLine::~CommandLine() = default;

void CommandLine::answer(const std::string& flag, const std::string& what,
                         const std::function<void()>& with) {
  app_->add_flag_callback(
      flag,
      [with] {
        with();
        throw CLI::Success();
      },
      in_words(what));
}

Result<void> CommandLine::read(int argc, char** argv) {
  try {
    app_->parse(argc, argv);
  } catch (const CLI::Success& asked) {  // help or version: printed, and nothing else is done
    app_->exit(asked);
  } catch (const CLI::ParseError& wrong) {
    return fail(FaultCode::bad_input, usage_fault(*app_, wrong) + "; see lodeway --help");
  }
  return {};
}

}  // namespace lodeway::cli
