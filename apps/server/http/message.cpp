#include "apps/server/http/message.hpp"

#include <array>
#include <cmath>

#include "lodeway/io/json/json_bounds.hpp"
#include "lodeway/units/refusal_in.hpp"
#include "lodeway/units/refusal_line.hpp"

namespace lodeway::server {

namespace {

struct OfCode {
  const char* name;
  int status;
  const char* what_to_do;
};
// In the order of FaultCode.
constexpr std::array<OfCode, 7> codes{{
    {"bad_input", 400, ""},
    {"outside_validity", 422, "Choose a date or place that the model covers."},
    {"outside_ground", 422, "Choose a place inside the ground, or build a larger ground."},
    {"no_way", 422, "Add a point in between, allow steeper ground, or take out an area to avoid."},
    {"io_failed", 422, "See that the file is there and may be read, then try again."},
    {"too_large", 413, "Ask for less: a smaller area, a larger cell, fewer walkers."},
    {"cancelled", 409, ""},
}};

const OfCode& of(FaultCode code) { return codes[static_cast<std::size_t>(code)]; }

/// "party.size", "point[2].at", "/home/x/hills.tif": no blanks, and what follows is ": ".
std::size_t place_length(const std::string& what) {
  const auto end = what.find(": ");
  if (end == std::string::npos || end == 0) return 0;
  for (std::size_t i = 0; i < end; ++i) {
    if (what[i] == ' ' || what[i] == '"') return 0;
  }
  return end;
}

}  // namespace

std::string_view Request::header(const std::string& small_name) const {
  const auto found = headers.find(small_name);
  return found == headers.end() ? std::string_view{} : found->second;
}

std::string_view Request::asked(const std::string& key) const {
  const auto found = query.find(key);
  return found == query.end() ? std::string_view{} : found->second;
}

Said said(const Fault& fault) {
  const auto& code = of(fault.code);
  const auto what = units::refusal_line(fault.what);
  Said out{code.name, what, "", code.what_to_do};
  if (const auto cut = place_length(what); cut > 0) {
    out.where = what.substr(0, cut);
    out.message = what.substr(cut + 2);
  }
  return out;
}

Json as_json(const Said& said) {
  const auto or_null = [](const std::string& text) { return text.empty() ? Json() : Json(text); };
  Json out{{"code", said.code},
           {"message", said.message},
           {"where", or_null(said.where)},
           {"what_to_do", or_null(said.what_to_do)}};
  // The key in front may be a part of what is looked up, and is told apart again.
  auto message = units::refusal_in_german(said.where.empty() ? said.message
                                                             : said.where + ": " + said.message);
  if (const auto cut = said.where.empty() ? std::string::npos : message.find(": ");
      cut != std::string::npos)
    message.erase(0, cut + 2);
  const auto help = units::refusal_in_german(said.what_to_do);
  if (!message.empty() && help.empty() == said.what_to_do.empty())
    out["in_german"] = {{"message", message}, {"what_to_do", or_null(help)}};
  return out;
}

Answer Answer::json(const Json& value, int status) {
  Answer out;
  out.status = status;
  out.body = std::make_shared<const std::string>(
      value.dump(-1, ' ', false, Json::error_handler_t::replace));
  return out;
}

Answer Answer::bytes(std::shared_ptr<const std::string> body, std::string type) {
  Answer out;
  out.type = std::move(type);
  out.body = std::move(body);
  return out;
}

Answer Answer::problem(int status, const Said& said) {
  return json({{"fault", as_json(said)}}, status);
}

Answer Answer::fault(const Fault& fault) { return problem(of(fault.code).status, said(fault)); }

Answer Answer::not_found(std::string_view what) {
  return problem(404, {"not_found", std::string(what) + ": there is no such thing", "", ""});
}

Result<Json> body_json(const Request& request, std::size_t most) {
  const auto too_long = [&] {
    return fail(FaultCode::too_large, "expected at most " + std::to_string(most) + " bytes");
  };
  if (request.content_length > most) return too_long();
  std::string text;
  bool fits = true;
  if (request.read_body) {
    const bool whole = request.read_body([&](const char* data, std::size_t size) {
      fits = text.size() + size <= most;
      if (fits) text.append(data, size);
      return fits;
    });
    if (!fits) return too_long();
    if (!whole) return fail(FaultCode::bad_input, "the request broke off");
  }
  if (const auto bounded = io::check_json(text); !bounded) return std::unexpected(bounded.error());
  auto value = Json::parse(text, nullptr, false);
  if (value.is_discarded() || !value.is_object())
    return fail(FaultCode::bad_input, "expected a JSON object");
  return value;
}

Result<std::string> text_at(const Json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_string())
    return fail(FaultCode::bad_input, std::string(key) + ": expected a text");
  return found->get<std::string>();
}

Result<double> number_at(const Json& object, const char* key) {
  const auto found = object.find(key);
  if (found == object.end() || !found->is_number() || !std::isfinite(found->get<double>()))
    return fail(FaultCode::bad_input, std::string(key) + ": expected a number");
  return found->get<double>();
}

Result<std::int64_t> whole_at(const Json& object, const char* key) {
  const auto found = object.find(key);
  // From 2^63 on it would be read as another, a negative number.
  if (found == object.end() || !found->is_number_integer() ||
      (found->is_number_unsigned() && (found->get<std::uint64_t>() >> 63) != 0))
    return fail(FaultCode::bad_input, std::string(key) + ": expected a whole number");
  return found->get<std::int64_t>();
}

std::string text_or_empty(const Json& object, const char* key) {
  if (!object.is_object()) return {};
  const auto found = object.find(key);
  return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

}  // namespace lodeway::server
