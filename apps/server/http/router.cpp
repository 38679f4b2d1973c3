#include "apps/server/http/router.hpp"

#include <algorithm>
#include <new>

namespace lodeway::server {

namespace {

std::vector<std::string> parts_of(const std::string& path) {
  std::vector<std::string> out;
  for (std::size_t at = 1; at <= path.size();) {
    auto end = path.find('/', at);
    if (end == std::string::npos) end = path.size();
    out.push_back(path.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

bool is_plain(const std::string& piece) {
  constexpr std::size_t longest = 80;
  return !piece.empty() && piece.size() <= longest && piece[0] != '.' &&
         std::ranges::all_of(piece, [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                  c == '-' || c == '_' || c == '.';
         });
}

bool fits(const std::vector<std::string>& pattern, const std::vector<std::string>& path,
          Pieces& pieces) {
  if (pattern.size() != path.size()) return false;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    if (pattern[i].starts_with('{')) {
      if (!is_plain(path[i])) return false;
      pieces.push_back(path[i]);
    } else if (pattern[i] != path[i]) {
      return false;
    }
  }
  return true;
}

}  // namespace

void Router::add(std::string method, const std::string& pattern, Handler handler) {
  routes_.push_back({std::move(method), parts_of(pattern), std::move(handler)});
}

Answer Router::answer(const Request& request) const try {
  const auto path = parts_of(request.path);
  const std::string& method = request.method == "HEAD" ? "GET" : request.method;
  bool other_method = false;
  for (const auto& route : routes_) {
    Pieces pieces;
    if (!fits(route.pieces, path, pieces)) continue;
    if (route.method == method) return route.handler(request, pieces);
    other_method = true;
  }
  if (other_method)
    return Answer::problem(405, {"refused", "this path does not take " + request.method, "", ""});
  if (otherwise_ && method == "GET") return otherwise_(request, path);
  return Answer::not_found("this path");
} catch (const std::bad_alloc&) {
  return Answer::problem(500, {"too_large", "out of memory", "", "Ask for a smaller area."});
} catch (const std::exception& e) {
  return Answer::problem(500, {"io_failed", e.what(), "", "Try again; the trip is kept."});
}

}  // namespace lodeway::server
