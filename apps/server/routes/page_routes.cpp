// Who answers, what happens, the jobs, and the page itself out of the binary.
#include <algorithm>

#include "apps/server/http/assets.hpp"
#include "apps/server/http/licences.hpp"
#include "apps/server/routes/say.hpp"
#include "apps/server/store/service.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/trip/page_words.hpp"

namespace lodeway::server {

namespace {

Json hello(Service& s) {
  const auto demo = s.shelf.find_file(s.folder + "/grounds/skarrow.gpkg");
  return {{"program", "lodeway"},
          {"version", s.version},
          {"run", s.run},
          {"demo_ground_id", demo ? Json(demo->id) : Json()}};
}

std::string event(const Json& data) {
  return "data: " + data.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n\n";
}

Answer events(Service& s) {
  std::string first = event({{"type", "hello"}, {"hello", hello(s)}});
  for (const auto& id : s.jobs.not_over())
    first += event({{"type", "job"}, {"job", s.jobs.as_json(id)}});
  Answer out;
  out.event_stream = true;
  out.body = std::make_shared<const std::string>(std::move(first));
  return out;
}

/// Whoever came with the right key (the guard has looked) need not show it again: a cookie has it
/// from now on, and it goes from the address, so that it is not kept in the browser's history.
Answer with_cookie(const Service& s) {
  Answer out;
  out.status = 303;
  out.headers.emplace_back("Location", "/");
  out.headers.emplace_back("Cache-Control", "no-store");
  out.headers.emplace_back("Set-Cookie",
                           s.cookie + "=" + s.key + "; HttpOnly; SameSite=Strict; Path=/");
  return out;
}

/// English as the page holds it to the language that is asked for.
Json words(const Request& request) {
  const bool german = request.asked("language") == "de";
  auto table = Json::object();
  for (int k = 0; german && k < mapdata::kind_count; ++k) {
    const auto kind = static_cast<mapdata::Kind>(k);
    table[mapdata::kind_words(kind)] = landmarks::thing(kind, "", units::Language::german);
  }
  for (const auto& [english, other] : trip::words_for_page(
           german ? units::Language::german : units::Language::english))
    table[english] = other;
  return {{"words", table}};
}

Answer page(const Service& s, const Request& request) {
  const bool front = request.path == "/";
  if (front && !request.asked("key").empty()) return with_cookie(s);
  const Asset* asset = find_asset(front ? "/index.html" : request.path);
  if (asset == nullptr && !front) return Answer::not_found("this path");
  Answer out = asset != nullptr
                   ? Answer::bytes(asset->bytes, asset->type)
                   : Answer::bytes(std::make_shared<const std::string>(
                                       "This lodeway was built without its page (LODEWAY_PAGE).\n"),
                                   "text/plain; charset=utf-8");
  if (asset != nullptr && asset->gzip) out.headers.emplace_back("Content-Encoding", "gzip");
  // What Vite names has its content's hash in the name; index.html is asked for anew each time.
  out.headers.emplace_back("Cache-Control", request.path.starts_with("/assets/")
                                                ? "public, max-age=31536000, immutable"
                                                : "no-cache");
  return out;
}

}  // namespace

void add_page_routes(Router& r, Service& s) {
  r.add("GET", "/api/hello", [&s](auto&, auto&) { return Answer::json(hello(s)); });
  r.add("GET", "/api/licences", [](auto&, auto&) {
    return Answer::bytes(std::make_shared<const std::string>(licences()),
                         "text/markdown; charset=utf-8");
  });
  r.add("GET", "/api/options", [](auto&, auto&) { return Answer::json(options_json()); });
  r.add("GET", "/api/words", [](const Request& q, auto&) { return Answer::json(words(q)); });
  r.add("GET", "/api/events", [&s](auto&, auto&) { return events(s); });
  r.add("GET", "/api/jobs", [&s](auto&, auto&) { return Answer::json({{"jobs", s.jobs.all()}}); });
  r.add("GET", "/api/jobs/{id}", [&s](auto&, const Pieces& p) {
    const auto job = s.jobs.as_json(p[0]);
    return job.is_null() ? Answer::not_found("job") : Answer::json(job);
  });
  r.add("DELETE", "/api/jobs/{id}", [&s](auto&, const Pieces& p) {
    if (!s.jobs.stop(p[0])) return Answer::not_found("job");
    return Answer::json(s.jobs.as_json(p[0]));
  });
  r.otherwise([&s](const Request& q, const Pieces&) { return page(s, q); });
}

}  // namespace lodeway::server
