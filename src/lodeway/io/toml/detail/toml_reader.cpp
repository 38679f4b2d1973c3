#include "lodeway/io/toml/detail/toml_reader.hpp"

#include <charconv>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "lodeway/units/nearest_word.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::io {

namespace {
constexpr std::size_t most_text_bytes = 2000, most_shown = 60;
constexpr const char* text_too_long = "a text of at most 2000 bytes";

/// False where an item is no number within the range.
bool take_numbers(const toml::array& list, double least, double most, std::vector<double>& out) {
  for (const auto& item : list) {
    const auto value = item.is_number() ? item.value<double>() : std::nullopt;
    if (!value || !(*value >= least && *value <= most)) return false;
    out.push_back(*value);
  }
  return true;
}

bool read_whole(std::string_view text, int& out) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  return error == std::errc{} && end == text.data() + text.size();
}
}  // namespace

TomlReader::TomlReader(const toml::table& table, std::string file, std::string path)
    : table_(&table), file_(std::move(file)), path_(std::move(path)) {}

const toml::node* TomlReader::take(std::string_view key) {
  asked_.emplace(key);
  return table_->get(key);
}

std::string TomlReader::where(std::size_t line) const {
  return file_.empty() ? std::string() : fmt::format("{}:{}: ", file_, line);
}

void TomlReader::refuse_for(std::string_view key, const std::string& what) const {
  const auto* node = table_->get(key);
  const auto line = node != nullptr ? node->source().begin.line : table_->source().begin.line;
  throw Refusal{fmt::format("{}{}{}: {}", where(line), path_, key, what)};
}

void TomlReader::refuse(std::string_view key, const std::string& expected) const {
  refuse_for(key, "expected " + expected);
}

std::optional<std::string> TomlReader::text(std::string_view key) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto value = node->value_exact<std::string>();
  if (!value) refuse(key, "a text in quotes");
  if (value->size() > most_text_bytes) refuse(key, text_too_long);
  return value;
}

std::optional<double> TomlReader::number(std::string_view key, double least, double most) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto value = node->is_number() ? node->value<double>() : std::nullopt;
  if (!value || !std::isfinite(*value) || *value < least || *value > most) {
    refuse(key, fmt::format("a number from {} to {}", least, most));
  }
  return value;
}

std::optional<double> TomlReader::number_or_blank(std::string_view key, double least, double most) {
  const auto* node = take(key);
  if (node != nullptr && node->value_exact<std::string>() == "") return std::nullopt;
  return number(key, least, most);
}

std::optional<int> TomlReader::whole(std::string_view key, int least, int most) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto value = node->value_exact<std::int64_t>();
  if (!value || *value < least || *value > most) {
    refuse(key, fmt::format("a whole number from {} to {}", least, most));
  }
  return static_cast<int>(*value);
}

std::optional<bool> TomlReader::flag(std::string_view key) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto value = node->value_exact<bool>();
  if (!value) refuse(key, "true or false");
  return value;
}

std::vector<std::string> TomlReader::texts(std::string_view key, std::size_t most) {
  const auto* node = take(key);
  if (node == nullptr) return {};
  const auto* list = node->as_array();
  if (list == nullptr) refuse(key, "a list of texts");
  if (list->size() > most) refuse(key, fmt::format("at most {} texts", most));
  std::vector<std::string> out;
  for (const auto& item : *list) {
    const auto value = item.value_exact<std::string>();
    if (!value) refuse(key, "a list of texts");
    if (value->size() > most_text_bytes) refuse(key, text_too_long);
    out.push_back(*value);
  }
  return out;
}

std::optional<std::vector<double>> TomlReader::numbers(std::string_view key, std::size_t count,
                                                       double least, double most) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto* list = node->as_array();
  const auto wrong = [&] {
    refuse(key, fmt::format("a list of {} numbers from {} to {}", count, least, most));
  };
  if (list == nullptr || list->size() != count) wrong();
  std::vector<double> out;
  if (!take_numbers(*list, least, most, out)) wrong();
  return out;
}

std::optional<std::vector<double>> TomlReader::number_list(std::string_view key, double least,
                                                           double most, std::size_t most_count) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  const auto* list = node->as_array();
  std::vector<double> out;
  if (list == nullptr || list->size() > most_count || !take_numbers(*list, least, most, out))
    refuse(key, fmt::format("a list of at most {} numbers from {} to {}", most_count, least, most));
  return out;
}

std::vector<std::vector<double>> TomlReader::rows(std::string_view key, std::size_t width,
                                                  double least, double most,
                                                  std::size_t most_count) {
  const auto* node = take(key);
  if (node == nullptr) return {};
  const auto* list = node->as_array();
  std::vector<std::vector<double>> out;
  bool good = list != nullptr && list->size() <= most_count;
  for (std::size_t i = 0; good && i < list->size(); ++i) {
    const auto* row = (*list)[i].as_array();
    good = row != nullptr && row->size() == width &&
           take_numbers(*row, least, most, out.emplace_back());
  }
  if (!good) {
    refuse(key, fmt::format("a list of at most {} lists of {} numbers from {} to {}", most_count,
                            width, least, most));
  }
  return out;
}

std::optional<TomlReader::Date> TomlReader::date(std::string_view key) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  if (const auto d = node->value_exact<toml::date>()) return Date{d->year, d->month, d->day};
  Date out{};
  const auto text = node->value_exact<std::string>();
  if (!text || text->size() != 10 || (*text)[4] != '-' || (*text)[7] != '-' ||
      !read_whole(std::string_view(*text).substr(0, 4), out.year) ||
      !read_whole(std::string_view(*text).substr(5, 2), out.month) ||
      !read_whole(std::string_view(*text).substr(8, 2), out.day)) {
    refuse(key, "a date like 2026-11-14");
  }
  return out;
}

std::optional<int> TomlReader::clock(std::string_view key) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  if (const auto t = node->value_exact<toml::time>()) return t->hour * 60 + t->minute;
  int hour = 0, minute = 0;
  const auto text = node->value_exact<std::string>();
  if (!text || text->size() != 5 || (*text)[2] != ':' ||
      !read_whole(std::string_view(*text).substr(0, 2), hour) ||
      !read_whole(std::string_view(*text).substr(3, 2), minute) || hour < 0 || hour > 23 ||
      minute < 0 || minute > 59) {
    refuse(key, "a time of day like \"09:15\"");
  }
  return hour * 60 + minute;
}

std::optional<TomlReader> TomlReader::table(std::string_view key) {
  const auto* node = take(key);
  if (node == nullptr) return std::nullopt;
  if (node->as_table() == nullptr) refuse(key, fmt::format("a table [{}{}]", path_, key));
  return TomlReader(*node->as_table(), file_, fmt::format("{}{}.", path_, key));
}

std::vector<TomlReader> TomlReader::tables(std::string_view key, std::size_t most) {
  const auto* node = take(key);
  if (node == nullptr) return {};
  const auto* list = node->as_array();
  if (list == nullptr) refuse(key, fmt::format("one or more tables [[{}{}]]", path_, key));
  if (list->size() > most) refuse(key, fmt::format("at most {} tables", most));
  std::vector<TomlReader> out;
  for (std::size_t i = 0; i < list->size(); ++i) {
    if ((*list)[i].as_table() == nullptr) refuse(key, fmt::format("tables [[{}{}]]", path_, key));
    out.emplace_back(*(*list)[i].as_table(), file_, fmt::format("{}{}[{}].", path_, key, i + 1));
  }
  return out;
}

std::optional<std::size_t> TomlReader::choice(std::string_view key,
                                              const std::vector<std::string_view>& words) {
  const auto given = text(key);
  if (!given) return std::nullopt;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == *given) return i;
  }
  refuse(key, fmt::format("one of {}", fmt::join(words, ", ")));
}

void TomlReader::finish() const {
  for (const auto& [key, node] : *table_) {
    if (asked_.contains(key.str())) continue;
    const std::vector<std::string_view> known(asked_.begin(), asked_.end());
    const auto meant = units::did_you_mean(key.str(), known);
    throw Refusal{fmt::format(
        "{}{}{}: this key is not known{}", where(key.source().begin.line), path_,
        units::plain(key.str(), most_shown),
        meant.empty() ? fmt::format("; expected one of {}", fmt::join(known, ", ")) : meant)};
  }
}

}  // namespace lodeway::io
