// The head of a request, as the library hands it over: who may ask, which path fits. And a body.
#include "apps/server/http/guard.hpp"
#include "apps/server/http/router.hpp"
#include "fuzz/fuzz.hpp"

using namespace lodeway;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const server::Guard guard({8431, "127.0.0.1", "0123456789abcdef", ""});
  static const server::Guard open_to_all({8431, "0.0.0.0", "0123456789abcdef", "once"});
  static const server::Router router = [] {
    server::Router out;
    const auto handler = [](const server::Request& q, const server::Pieces& pieces) {
      for (const auto& piece : pieces) {
        fuzz::must(!piece.empty() && piece[0] != '.' && piece.find('/') == std::string::npos);
        fuzz::must(piece.find('%') == std::string::npos && piece.size() <= 80);
      }
      const auto body = server::body_json(q, 1U << 16U);
      if (!body) return server::Answer::fault(body.error());
      (void)server::text_at(*body, "name");
      (void)server::number_at(*body, "revision");
      return server::Answer::json(*body);
    };
    for (const char* path : {"/api/trips", "/api/trips/{id}", "/api/papers/{job}/{file}",
                             "/api/grounds/{id}/tiles/{z}/{x}/{y}"}) {
      out.add("GET", path, handler);
      out.add("POST", path, handler);
    }
    return out;
  }();
  fuzz::Bytes bytes(data, size);
  server::Request request;
  request.method = bytes.text();
  request.path = bytes.text();
  for (int i = bytes.byte() % 8; i > 0; --i) {
    const std::string name(bytes.text());
    request.headers[name] = bytes.text();
  }
  if (bytes.byte() % 2 == 1) request.query["key"] = bytes.text();
  const std::string body(bytes.rest());
  request.content_length = body.size();
  request.read_body = [&](const std::function<bool(const char*, std::size_t)>& take) {
    return take(body.data(), body.size());
  };
  const bool knows = request.header("x-key") == "0123456789abcdef" ||
                     request.asked("key") == "0123456789abcdef" ||
                     request.header("cookie").find("lodeway_8431=0123456789abcdef") !=
                         std::string_view::npos;
  fuzz::must(knows || guard.refuse(request).has_value());
  (void)open_to_all.refuse(request);
  const auto answer = router.answer(request);
  fuzz::must(answer.status != 500);
  return 0;
}
