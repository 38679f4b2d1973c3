#pragma once
/// Strict reading of one TOML table: every key is asked for once, what nobody asked for is refused.
/// Internal to io; throws Refusal, which the reader of the file turns into a Fault.
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <toml++/toml.h>

namespace lodeway::io {

/// "trip.toml:12: party.size: expected a whole number from 1 to 50"
struct Refusal {
  std::string what;
};

class TomlReader {
 public:
  TomlReader(const toml::table& table, std::string file, std::string path);

  /// Each: the value, or nothing when the key is absent. Throws Refusal on a wrong type or range.
  [[nodiscard]] std::optional<std::string> text(std::string_view key);
  [[nodiscard]] std::optional<double> number(std::string_view key, double least, double most);
  /// As number; a key that holds an empty text was left blank, and counts as absent.
  [[nodiscard]] std::optional<double> number_or_blank(std::string_view key, double least,
                                                      double most);
  [[nodiscard]] std::optional<int> whole(std::string_view key, int least, int most);
  [[nodiscard]] std::optional<bool> flag(std::string_view key);
  [[nodiscard]] std::vector<std::string> texts(std::string_view key, std::size_t most = 500);
  /// A list of exactly `count` numbers.
  [[nodiscard]] std::optional<std::vector<double>> numbers(std::string_view key, std::size_t count,
                                                           double least, double most);
  /// A list of at most `most_count` numbers; it may be empty.
  [[nodiscard]] std::optional<std::vector<double>> number_list(std::string_view key, double least,
                                                               double most, std::size_t most_count);
  /// A list of lists of `width` numbers each; empty when the key is absent.
  [[nodiscard]] std::vector<std::vector<double>> rows(std::string_view key, std::size_t width,
                                                      double least, double most,
                                                      std::size_t most_count);
  /// ISO date, as a TOML date or as text "2026-11-14": year, month, day.
  struct Date {
    int year, month, day;
  };
  [[nodiscard]] std::optional<Date> date(std::string_view key);
  /// Minutes since midnight, as a TOML time or as text "09:15".
  [[nodiscard]] std::optional<int> clock(std::string_view key);
  [[nodiscard]] std::optional<TomlReader> table(std::string_view key);
  [[nodiscard]] std::vector<TomlReader> tables(std::string_view key, std::size_t most = 500);

  /// The place of one word in a list; throws with the list when it is not there.
  [[nodiscard]] std::optional<std::size_t> choice(std::string_view key,
                                                  const std::vector<std::string_view>& words);
  /// Refuses what was never asked for, and names what may have been meant. Call it last.
  void finish() const;
  [[noreturn]] void refuse(std::string_view key, const std::string& expected) const;
  /// The same, with a whole sentence of somebody else's.
  [[noreturn]] void refuse_for(std::string_view key, const std::string& what) const;

 private:
  [[nodiscard]] const toml::node* take(std::string_view key);
  /// "trip.toml:12: "; empty when the table stood in no file.
  [[nodiscard]] std::string where(std::size_t line) const;
  const toml::table* table_;
  std::string file_, path_;
  std::set<std::string, std::less<>> asked_;
};

}  // namespace lodeway::io
