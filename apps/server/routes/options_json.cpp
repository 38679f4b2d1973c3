// The core's table of keys as Options of web/api.schema.json.
#include "apps/server/routes/say.hpp"
#include "lodeway/trip/options.hpp"

namespace lodeway::server {

namespace {

constexpr const char* types[] = {"number", "whole", "flag", "choice",
                                 "text",   "texts", "date", "clock"};

Json or_null(const std::optional<double>& value) { return value ? Json(*value) : Json(); }

Json standard_of(const trip::Option& o) {
  return std::visit(
      [](const auto& value) -> Json {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, std::monostate>)
          return nullptr;
        else
          return value;
      },
      o.standard);
}

Json option_json(const trip::Option& o) {
  auto choices = Json::array();
  for (const auto& c : o.choices)
    choices.push_back({{"value", c.value}, {"words", c.words}, {"changes", c.changes}});
  return {{"key", o.key},
          {"words", o.words},
          {"changes", o.changes},
          {"type", types[static_cast<std::size_t>(o.type)]},
          {"unit", o.unit},
          {"least", or_null(o.least)},
          {"most", or_null(o.most)},
          {"step", or_null(o.step)},
          {"default", standard_of(o)},
          {"default_words", o.standard_words},
          {"choices", choices}};
}

}  // namespace

Json options_json() {
  auto groups = Json::array();
  for (const auto& [key, words] : {std::pair{"trip", "The day"},
                                   {"point", "Places"},
                                   {"party", "The party"},
                                   {"errors", "Own measured errors"},
                                   {"home", "The home note"},
                                   {"paper", "Paper"}}) {
    auto options = Json::array();
    for (const auto& o : trip::options()) {
      if (o.group == key) options.push_back(option_json(o));
    }
    groups.push_back({{"key", key}, {"words", words}, {"options", options}});
  }
  return {{"groups", groups}};
}

}  // namespace lodeway::server
