#include "lodeway/io/toml/detail/parse_toml.hpp"

#include <algorithm>
#include <cctype>
#include <cstdint>
#include <vector>

#include <fmt/format.h>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::io {

namespace {

[[noreturn]] void refuse(const std::string& file, std::size_t line, const std::string& what) {
  const auto at = file.empty() ? fmt::format("line {}: ", line) : fmt::format("{}:{}: ", file, line);
  throw Refusal{at + what};
}

/// Goes through the text once, as the standard has strings and comments (TOML 1.0.0, Comment and
/// String), and counts what the parser would go deeper for. What is no TOML is left to the parser.
class Depth {
 public:
  Depth(std::string_view text, const std::string& file, const TomlBounds& bounds)
      : text_(text), file_(file), bounds_(bounds) {}

  void check() {
    while (at_ < text_.size()) step(text_[at_]);
  }
  /// Where a line that is carried on begins with a letter beyond ASCII.
  [[nodiscard]] const std::vector<std::size_t>& carried_on() const { return carried_on_; }

 private:
  void step(char c) {
    if (c == '"' || c == '\'') {
      // Elsewhere the parser does not take it for the start of a text, and reads on in what follows.
      if (std::string_view("\n=,[{.").find(last_) == std::string_view::npos || !number_before(at_).empty())
        refuse(file_, line_, "not valid TOML: expected quotes only about a key or a value");
      first_ = false;
      last_ = c;
      return over_text(c);
    }
    if (c == '#') at_ = std::min(text_.find('\n', at_), text_.size());
    if (at_ >= text_.size()) return;
    c = text_[at_++];
    if (c == '\n') ++line_;
    if (c != ' ' && c != '\t' && c != '\r') last_ = c;
    // The parser asks each whether it is a blank, and what it does with most is not defined.
    if (beyond_ascii(c)) refuse(file_, line_, "not valid TOML: expected ASCII outside of quotes");
    if (c == ' ' || c == 'T' || c == 't') check_time_after_date(c);
    const bool of_key = may_be_in_key(c);
    if (c == '.') {
      count(++parts_, "parts in one key");
      word_ = 0;
    } else if (of_key) {
      if (++word_ > bounds_.key_bytes)
        refuse(file_, line_, fmt::format("expected at most {} letters in a word", bounds_.key_bytes));
    } else {
      word_ = 0;
      if (c != ' ' && c != '\t') parts_ = 1;
    }
    if (c == '[' && first_ && open_.empty()) check_head();
    first_ = c == '\n' || (first_ && (c == ' ' || c == '\t'));
    if (c == '[' || c == '{') {
      open_.push_back(c);
      count(open_.size(), "brackets in brackets");
    }
    if ((c == ']' || c == '}') && !open_.empty()) {
      // The parser takes for granted that a list ends with its own bracket.
      if ((c == ']') != (open_.back() == '['))
        refuse(file_, line_, "not valid TOML: expected brackets that match");
      open_.pop_back();
    }
  }

  static bool beyond_ascii(char c) { return (static_cast<unsigned char>(c) & 0x80U) != 0; }
  static bool may_be_in_key(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-';
  }

  [[nodiscard]] bool figure(std::size_t at) const {
    return at < text_.size() && std::isdigit(static_cast<unsigned char>(text_[at])) != 0;
  }
  /// What the parser would take for a number or a date before a place: from the last end of a value.
  [[nodiscard]] std::string_view number_before(std::size_t at) const {
    std::size_t begin = at;
    while (begin > 0 && std::string_view(" \t\r\n,]}#=").find(text_[begin - 1]) == std::string_view::npos)
      --begin;
    while (begin < at && (text_[begin] == '[' || text_[begin] == '{')) ++begin;
    const bool signed_one = begin < at && (text_[begin] == '+' || text_[begin] == '-');
    return figure(begin) || signed_one ? text_.substr(begin, at - begin) : std::string_view();
  }

  /// After what has a date's ten letters and a blank or a T the parser reads on for a time, and takes
  /// for granted that its hour has two figures. It counts no `_`; after a blank there may be no time.
  void check_time_after_date(char between) const {
    if (figure(at_) ? figure(at_ + 1) : between == ' ') return;
    std::string back;
    for (std::size_t i = at_ - 1; i > 0 && back.size() < 10; --i)
      if (text_[i - 1] != '_') back.push_back(text_[i - 1]);
    if (back.size() == 10 && back[2] == '-' && back[5] == '-')
      refuse(file_, line_, "not valid TOML: expected an hour of two figures after a date");
  }

  /// A table's head holds a key: the parser takes that for granted, and what it does with anything
  /// else is not defined.
  void check_head() const {
    auto at = at_;
    if (at < text_.size() && text_[at] == '[') ++at;
    const bool second = at > at_;
    at = std::min(text_.find_first_not_of(" \t", at), text_.size());
    if (at == text_.size()) return;
    const char c = text_[at];
    const bool to_the_parser = c == '"' || c == '\'' || c == ']' || (c == '[' && !second);
    if (!to_the_parser && !may_be_in_key(c))
      refuse(file_, line_, "not valid TOML: expected a key between the brackets");
  }

  void over_text(char quote) {
    const std::string three(3, quote);
    const bool lines = text_.compare(at_, 3, three) == 0;
    at_ += lines ? 3 : 1;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '\\' && quote == '"' && lines && carries_on()) continue;
      if (c == '\\' && quote == '"') {
        if (at_ + 1 < text_.size() && text_[at_ + 1] == '\n') ++line_;
        at_ += 2;
        continue;
      }
      if (c == '\n') {
        if (!lines) return;  // broken off: the parser says so
        ++line_;
      }
      if (lines ? text_.compare(at_, 3, three) == 0 : c == quote) {
        at_ += lines ? 3 : 1;
        for (int more = 0; lines && more < 2 && at_ < text_.size() && text_[at_] == quote; ++more)
          ++at_;  // up to two quotes may stand before the three that end it
        return;
      }
      ++at_;
    }
    at_ = text_.size();
  }

  /// A backslash that ends its line: goes to the first letter of what follows.
  bool carries_on() {
    if (at_ + 1 < text_.size() && beyond_ascii(text_[at_ + 1]))
      refuse(file_, line_, "not valid TOML: expected a letter of ASCII after the backslash");
    const auto end = std::min(text_.find_first_not_of(" \t", at_ + 1), text_.size());
    if (end == text_.size()) return false;
    if (text_[end] != '\n' && text_[end] != '\r') {
      if (end == at_ + 1) return false;  // an escape
      refuse(file_, line_, "not valid TOML: expected the line's end after a backslash and blanks");
    }
    const auto first = std::min(text_.find_first_not_of(" \t\r\n", end), text_.size());
    line_ += static_cast<std::size_t>(std::ranges::count(text_.substr(at_, first - at_), '\n'));
    at_ = first;
    if (at_ < text_.size() && beyond_ascii(text_[at_])) carried_on_.push_back(at_);
    return true;
  }

  void count(std::size_t now, const char* what) const {
    if (now > bounds_.depth)
      refuse(file_, line_, fmt::format("expected at most {} {}", bounds_.depth, what));
  }

  std::string_view text_;
  const std::string& file_;
  const TomlBounds& bounds_;
  std::size_t at_ = 0, line_ = 1, parts_ = 1, word_ = 0;
  std::string open_;   ///< brackets
  char last_ = '\n';  ///< that is no blank, outside of texts
  bool first_ = true;  ///< nothing but blanks stood in this line
  std::vector<std::size_t> carried_on_;
};

void count(const toml::node& node, const std::string& file, const TomlBounds& bounds,
           std::size_t& values) {
  if (++values > bounds.values) {
    refuse(file, node.source().begin.line,
           fmt::format("expected at most {} values in all", bounds.values));
  }
  if (const auto* table = node.as_table()) {
    if (table->size() > bounds.keys) {
      refuse(file, table->source().begin.line,
             fmt::format("expected at most {} keys in one table, found {}", bounds.keys,
                         table->size()));
    }
    for (const auto& [key, value] : *table) {
      if (key.str().size() > bounds.key_bytes) {
        refuse(file, key.source().begin.line,
               fmt::format("expected a key of at most {} bytes", bounds.key_bytes));
      }
      count(value, file, bounds, values);
    }
  } else if (const auto* list = node.as_array()) {
    for (const auto& value : *list) count(value, file, bounds, values);
  }
}

/// The text with the letters at these places as \U escapes, which the parser takes for no blanks.
/// Refusal where they are no UTF-8.
std::string escaped(std::string_view text, const std::vector<std::size_t>& places,
                    const std::string& file) {
  std::string out;
  std::size_t done = 0;
  for (const auto at : places) {
    const auto lead = static_cast<unsigned char>(text[at]);
    const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    std::uint32_t letter = lead & (0xFFU >> (bytes + 1));
    bool good = lead >= 0xC2 && lead <= 0xF4 && at + bytes <= text.size();
    for (std::size_t i = 1; good && i < bytes; ++i) {
      const auto next = static_cast<unsigned char>(text[at + i]);
      good = (next & 0xC0U) == 0x80U;
      letter = letter << 6U | (next & 0x3FU);
    }
    if (!good) {
      refuse(file, 1 + static_cast<std::size_t>(std::ranges::count(text.substr(0, at), '\n')),
             "not valid TOML: expected UTF-8");
    }
    out += text.substr(done, at - done);
    out += fmt::format("\\U{:08X}", letter);
    done = at + bytes;
  }
  out += text.substr(done);
  return out;
}

}  // namespace

toml::table parse_toml(std::string_view text, const std::string& file, const TomlBounds& bounds) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // the mark that says UTF-8
  Depth depth(text, file, bounds);
  depth.check();
  try {
    toml::table table = toml::parse(escaped(text, depth.carried_on(), file));
    std::size_t values = 0;
    count(table, file, bounds, values);
    return table;
  } catch (const toml::parse_error& e) {
    constexpr std::size_t most_shown = 160;
    refuse(file, e.source().begin.line,
           "not valid TOML: " + units::plain(std::string(e.description()), most_shown));
  }
}

}  // namespace lodeway::io
