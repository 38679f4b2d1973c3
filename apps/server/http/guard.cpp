#include "apps/server/http/guard.hpp"

namespace lodeway::server {

namespace {

constexpr std::size_t longest_path = 1024;

Answer refused(int status, const char* message, const char* what_to_do = "") {
  return Answer::problem(status, {"refused", message, "", what_to_do});
}

/// The key stands in a cookie once the page was opened with ?key=…; programs may send X-Key.
std::string_view key_of(const Request& request, const std::string& cookie) {
  if (const auto sent = request.header("x-key"); !sent.empty()) return sent;
  if (const auto asked = request.asked("key"); !asked.empty()) return asked;
  const auto cookies = request.header("cookie");
  const auto name = cookie + "=";
  for (std::size_t at = 0; at < cookies.size();) {
    auto end = cookies.find(';', at);
    if (end == std::string_view::npos) end = cookies.size();
    auto one = cookies.substr(at, end - at);
    while (!one.empty() && one.front() == ' ') one.remove_prefix(1);
    if (one.starts_with(name)) return one.substr(name.size());
    at = end + 1;
  }
  return {};
}

}  // namespace

std::string cookie_of(int port) { return "lodeway_" + std::to_string(port); }

bool Guard::knows_key(const Request& r) const {
  if (rules_.key.empty()) return true;
  const auto key = key_of(r, cookie_of(rules_.port));
  if (same_key(rules_.key, key)) return true;
  return r.path == "/" && !rules_.once.empty() && same_key(rules_.once, key) &&
         !used_.exchange(true);
}

bool is_loopback(std::string_view address) {
  return address == "127.0.0.1" || address == "::1" || address == "localhost";
}

bool same_key(std::string_view a, std::string_view b) {
  unsigned differs = a.size() == b.size() ? 0U : 1U;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const char other = b.empty() ? '\0' : b[i % b.size()];
    differs |= static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(other);
  }
  return differs == 0;
}

bool Guard::knows_host(std::string_view host) const {
  const auto port = ":" + std::to_string(rules_.port);
  if (!host.ends_with(port)) return false;
  const auto name = host.substr(0, host.size() - port.size());
  if (name == "127.0.0.1" || name == "localhost" || name == "[::1]") return true;
  // Opened to others: they type the machine's address; names stay refused, as they can be rebound.
  return !is_loopback(rules_.address) &&
         name.find_first_not_of("0123456789.") == std::string_view::npos;
}

std::optional<Answer> Guard::refuse(const Request& r) const {
  if (r.path.size() > longest_path) return refused(414, "the path is too long");
  if (!knows_host(r.header("host")))
    return refused(421, "this server answers only to its own address",
                   "Open the address that `lodeway serve` printed.");
  if (!knows_key(r))
    return refused(401, "the key is missing or wrong",
                   "Open the whole address that `lodeway serve` printed, with its key.");
  const bool reads = r.method == "GET" || r.method == "HEAD";
  if (!reads && r.method != "POST" && r.method != "DELETE")
    return refused(405, "expected GET, POST or DELETE");
  const auto origin = r.header("origin");
  if (!origin.empty() && (!origin.starts_with("http://") || !knows_host(origin.substr(7))))
    return refused(403, "a request from another site");
  const auto site = r.header("sec-fetch-site");
  const bool visit =
      reads && r.header("sec-fetch-mode") == "navigate" && !r.path.starts_with("/api/");
  if (!site.empty() && site != "same-origin" && site != "none" && !visit)
    return refused(403, "a request from another site");
  if (!reads && r.header("x-lodeway") != "1")
    return refused(403, "expected the header X-Lodeway: 1");
  if (!r.header("transfer-encoding").empty()) return refused(411, "expected a Content-Length");
  return std::nullopt;
}

const std::vector<std::pair<std::string, std::string>>& Guard::headers() {
  static const std::vector<std::pair<std::string, std::string>> all{
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; "
       "font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; "
       "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"X-Frame-Options", "DENY"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
  };
  return all;
}

}  // namespace lodeway::server
