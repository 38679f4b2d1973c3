#pragma once
/// Every key of a trip in words: what it is called, its unit and range, its default, what it
/// changes. Whoever shows a trip shows these, so that nothing is said twice in different words.
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lodeway::trip {

enum class OptionType : unsigned char { number, whole, flag, choice, text, texts, date, clock };

struct OptionChoice {
  std::string value, words, changes;
};

struct Option {
  std::string key;    ///< as in the trip file, tables with dots: "party.size", "point.stay_min"
  std::string group;  ///< "trip", "point", "party", "errors", "home", "paper"
  std::string words;
  std::string changes;  ///< what it changes, one sentence
  OptionType type = OptionType::text;
  std::string unit;                   ///< empty: none
  std::optional<double> least, most;  ///< of numbers; the reader of trips refuses what is beyond
  std::optional<double> step;         ///< a useful step for arrow keys
  std::variant<std::monostate, double, bool, std::string> standard;  ///< its default, if it has one
  std::string
      standard_words;  ///< "4 km/h"; of the errors: the figure of a party as it is by default
  std::vector<OptionChoice> choices;
};

/// All of them, in the order in which they are best shown. English. Defaults are those of
/// walking::Party, trip::Trip and reckoning::errors_of; most are *practice*.
[[nodiscard]] const std::vector<Option>& options();

}  // namespace lodeway::trip
