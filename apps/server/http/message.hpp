#pragma once
/// A request and its answer as plain values: what routes work on, whatever carries them.
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "lodeway/result/result.hpp"

namespace lodeway::server {

using Json = nlohmann::ordered_json;

/// Hands over a body piece by piece; false when it broke off. `take` answers false to stop it.
using BodyReader = std::function<bool(const std::function<bool(const char*, std::size_t)>& take)>;

struct Request {
  std::string method, path;
  std::map<std::string, std::string> query;
  std::map<std::string, std::string> headers;  ///< names in small letters
  std::uint64_t content_length = 0;
  BodyReader read_body;  ///< empty when there is none

  [[nodiscard]] std::string_view header(const std::string& small_name) const;
  [[nodiscard]] std::string_view asked(const std::string& key) const;
};

/// What a fault's place and words become for the page.
struct Said {
  std::string code, message;
  std::string where, what_to_do;  ///< empty: null
};
/// "party.size: expected …" is cut into place and message.
[[nodiscard]] Said said(const Fault& fault);
[[nodiscard]] Json as_json(const Said& said);

struct Answer {
  int status = 200;
  std::string type = "application/json";
  std::shared_ptr<const std::string> body;
  std::vector<std::pair<std::string, std::string>> headers;
  bool event_stream = false;  ///< the body is the hub's events, until the page goes

  static Answer json(const Json& value, int status = 200);
  static Answer bytes(std::shared_ptr<const std::string> body, std::string type);
  static Answer problem(int status, const Said& said);
  static Answer fault(const Fault& fault);  ///< with the status that its code has
  static Answer not_found(std::string_view what);
};

/// The body as JSON. Faults: too_large (over `most` bytes), bad_input (not JSON, not an object).
[[nodiscard]] Result<Json> body_json(const Request& request, std::size_t most = 1U << 20U);

/// A key of an object with the right type, or a fault that names the key.
[[nodiscard]] Result<std::string> text_at(const Json& object, const char* key);
[[nodiscard]] Result<double> number_at(const Json& object, const char* key);
[[nodiscard]] Result<std::int64_t> whole_at(const Json& object, const char* key);
/// The text of a key; empty where there is none, or something else than a text.
[[nodiscard]] std::string text_or_empty(const Json& object, const char* key);

}  // namespace lodeway::server
