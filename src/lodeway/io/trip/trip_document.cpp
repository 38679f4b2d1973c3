#include "lodeway/io/trip/trip_document.hpp"

#include <sstream>

#include <nlohmann/json.hpp>

#include "lodeway/io/json/json_bounds.hpp"
#include "lodeway/io/toml/detail/parse_toml.hpp"
#include "lodeway/io/trip/detail/trip_table.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::io {

namespace {

using Json = nlohmann::ordered_json;
constexpr std::size_t most_bytes = 1U << 20U;
constexpr int deepest = 8;
constexpr std::size_t most_shown = 60;

toml::array list_of(const Json& json, const std::string& path, int depth);

[[noreturn]] void refuse(const std::string& path, const char* expected) {
  throw Refusal{units::plain(path, most_shown) + ": expected " + expected};
}

/// Puts one value into a table or a list; `to(value)` takes it.
template <class To>
void put(const Json& value, const std::string& path, int depth, To&& to);

toml::table table_of(const Json& json, const std::string& path, int depth) {
  if (depth > deepest) refuse(path, "fewer tables in tables");
  toml::table out;
  for (const auto& [key, value] : json.items()) {
    put(value, path.empty() ? key : path + "." + key, depth,
        [&](auto&& made) { out.insert_or_assign(key, std::forward<decltype(made)>(made)); });
  }
  return out;
}

template <class To>
void put(const Json& value, const std::string& path, int depth, To&& to) {
  switch (value.type()) {
    case Json::value_t::object:
      return to(table_of(value, path, depth + 1));
    case Json::value_t::array:
      return to(list_of(value, path, depth + 1));
    case Json::value_t::string:
      return to(value.get<std::string>());
    case Json::value_t::boolean:
      return to(value.get<bool>());
    case Json::value_t::number_integer:
      return to(value.get<std::int64_t>());
    case Json::value_t::number_unsigned: {
      if (value.get<std::uint64_t>() > std::uint64_t{INT64_MAX}) refuse(path, "a smaller number");
      return to(value.get<std::int64_t>());
    }
    case Json::value_t::number_float:
      return to(value.get<double>());
    default:
      refuse(path, "a value, or the key left out");
  }
}

toml::array list_of(const Json& json, const std::string& path, int depth) {
  if (depth > deepest) refuse(path, "fewer lists in lists");
  toml::array out;
  int number = 0;
  for (const auto& value : json) {
    put(value, path + "[" + std::to_string(++number) + "]", depth,
        [&](auto&& made) { out.push_back(std::forward<decltype(made)>(made)); });
  }
  return out;
}

template <class T, class Use>
Result<T> with_document(std::string_view text, Use&& use) {
  if (text.size() > most_bytes) return fail(FaultCode::too_large, "expected at most 1 MiB");
  if (const auto bounded = check_json(text); !bounded) return std::unexpected(bounded.error());
  const auto json = Json::parse(text, nullptr, false);
  if (json.is_discarded() || !json.is_object())
    return fail(FaultCode::bad_input, "expected a JSON object");
  try {
    return use(table_of(json, "", 0));
  } catch (const Refusal& refusal) {
    return fail(FaultCode::bad_input, refusal.what);
  }
}

Json json_of(const toml::node& node) {
  if (const auto* table = node.as_table()) {
    auto out = Json::object();
    for (const auto& [key, value] : *table) out[std::string(key.str())] = json_of(value);
    return out;
  }
  if (const auto* list = node.as_array()) {
    auto out = Json::array();
    for (const auto& value : *list) out.push_back(json_of(value));
    return out;
  }
  if (const auto* text = node.as_string()) return text->get();
  if (const auto* flag = node.as_boolean()) return flag->get();
  if (const auto* whole = node.as_integer()) return whole->get();
  if (const auto* number = node.as_floating_point()) return number->get();
  std::ostringstream out;  // a date or a time of day
  if (const auto* date = node.as_date()) out << date->get();
  if (const auto* time = node.as_time()) out << time->get();
  auto text = out.str();
  constexpr std::size_t hours_and_minutes = 5;
  if (node.is_time()) text.resize(hours_and_minutes);
  return text;
}

}  // namespace

Result<std::string> document_of_trip_file(std::string_view text) {
  if (text.size() > most_bytes) return fail(FaultCode::too_large, "expected at most 1 MiB");
  try {
    toml::table table = parse_toml(text, "");
    table.erase("ground");
    if (table.contains("gpx"))
      return fail(FaultCode::bad_input,
                  "gpx: expected [[point]] tables; a page reads no other file");
    return json_of(table).dump();
  } catch (const Refusal& refusal) {
    return fail(FaultCode::bad_input, refusal.what);
  }
}

Result<trip::Trip> trip_of_document(std::string_view json, const earth::GridArea& ground) {
  return with_document<trip::Trip>(json, [&](const toml::table& table) {
    return read_trip_table(TomlReader(table, "", ""), nullptr, ground, {});
  });
}

Result<std::string> trip_file_of_document(std::string_view json, const std::string& ground_file) {
  return with_document<std::string>(json, [&](toml::table table) {
    table.insert_or_assign("ground", ground_file);
    std::ostringstream out;
    out << toml::toml_formatter{table} << "\n";
    return out.str();
  });
}

}  // namespace lodeway::io
