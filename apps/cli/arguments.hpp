#pragma once
/// The words of the command line, behind a small door: `arguments.cpp` alone includes the library
/// that reads them, which takes longer to compile than any command. What is missing here is added
/// here, and in no command by a way of its own.
#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace lodeway::cli {

/// One option or one place for a word; everything here may be chained. Lives as long as its command.
class Option {
 public:
  explicit Option(CLI::Option& option) : option_(&option) {}

  Option* required();
  Option* type_name(const std::string& what);   ///< as help names the value: PLACE, DATE
  Option* option_text(const std::string& what);  ///< what help says in place of type and default
  Option* capture_default_str();                 ///< help shows the value that stands without it
  Option* within(int least, int most);           ///< whole numbers
  Option* within(double least, double most);
  Option* one_of(const std::vector<std::string>& words);
  /// Answers what is wrong with a word, or nothing.
  Option* check(const std::function<std::string(const std::string&)>& wrong);
  Option* delimiter(char between);  ///< several values in one word
  Option* expected(int count);      ///< so many values, not more and not fewer

  [[nodiscard]] bool given() const;        ///< once the line is read
  [[nodiscard]] std::string name() const;  ///< with its dashes

 private:
  CLI::Option* option_;
};

/// A command, or the program itself. What is added reads into the caller's variables, which must
/// outlive the reading.
class Command {
 public:
  explicit Command(CLI::App& app);
  Command(const Command&) = delete;
  Command& operator=(const Command&) = delete;
  ~Command();

  Command* add_subcommand(const std::string& name, const std::string& what);
  void require_subcommand(int count);
  void footer(const std::string& text);           ///< stands below the help: the example
  void callback(const std::function<void()>& run);  ///< called once everything is read

  Option* add_option(const std::string& name, std::string& into, const std::string& what);
  Option* add_option(const std::string& name, double& into, const std::string& what);
  Option* add_option(const std::string& name, int& into, const std::string& what);
  Option* add_option(const std::string& name, std::size_t& into, const std::string& what);
  Option* add_option(const std::string& name, std::vector<std::string>& into,
                     const std::string& what);
  Option* add_option(const std::string& name, std::vector<double>& into, const std::string& what);
  /// A word that stands for a value: {{"degrees", false}, {"mils", true}}.
  Option* add_option(const std::string& name, bool& into, const std::map<std::string, bool>& words,
                     const std::string& what);
  /// A word handed on, when it is given.
  Option* add_option_function(const std::string& name,
                              const std::function<void(const std::string&)>& take,
                              const std::string& what);
  Option* add_flag(const std::string& name, bool& into, const std::string& what);

 private:
  Option* keep(CLI::Option* option);

  CLI::App* app_;
  std::vector<std::unique_ptr<Command>> commands_;
  std::vector<std::unique_ptr<Option>> options_;
};

/// The whole line: the program with its commands.
class CommandLine {
 public:
  CommandLine(const std::string& name, const std::string& what, const std::string& version);
  ~CommandLine();

  [[nodiscard]] Command& program() { return *program_; }
  /// A flag of the program itself that is answered at once, like --version; nothing else is done.
  void answer(const std::string& flag, const std::string& what,
              const std::function<void()>& with);
  /// Reads the line and calls the command's callback, whose exceptions come through. Help and
  /// version are printed. Faults: bad_input (a word that no command knows, or one that is missing).
  [[nodiscard]] Result<void> read(int argc, char** argv);

 private:
  std::unique_ptr<CLI::App> app_;
  std::unique_ptr<Command> program_;
};

}  // namespace lodeway::cli
