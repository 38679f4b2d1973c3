#pragma once
/// What was wrong with the words on the command line, in our own words.
#include <functional>
#include <string>
#include <vector>

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace lodeway::cli {

/// One sentence, without the library's own words; names what may have been meant.
[[nodiscard]] std::string usage_fault(const CLI::App& app, const CLI::ParseError& error);

/// Checks of an option's value, for CLI::Option::check: empty, or "expected … , got …".
using Check = std::function<std::string(const std::string&)>;
[[nodiscard]] Check one_of(std::vector<std::string> words);
[[nodiscard]] Check whole_within(long least, long most);
[[nodiscard]] Check number_within(double least, double most);

}  // namespace lodeway::cli
