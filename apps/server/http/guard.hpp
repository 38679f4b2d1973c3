#pragma once
/// Who may ask: nobody but a page of this server in the browser of whoever started it, who alone
/// was told the key; and whoever the leader gave it to.
#include <atomic>
#include <optional>
#include <string>

#include "apps/server/http/message.hpp"

namespace lodeway::server {

struct GuardRules {
  int port = 0;
  std::string address = "127.0.0.1";
  std::string key;  ///< asked for always: this machine may have other users; empty: none
  std::string once;  ///< opens the page once: other users see it among the words of a browser's run
};

/// Cookies are not kept apart by port.
[[nodiscard]] std::string cookie_of(int port);

class Guard {
 public:
  explicit Guard(GuardRules rules) : rules_(std::move(rules)) {}

  /// The refusal, or nothing. In this order:
  ///   421 a Host header that is not this server's (a name made to point here: DNS rebinding)
  ///   401 the key is missing or wrong
  ///   403 a request that changes something and comes from another site, or not from our page: a
  ///       foreign Origin, Sec-Fetch-Site other than same-origin, no header X-Lodeway
  ///   403 any request of another site's page, except a plain visit to a page of ours
  ///   405 a method that is not known, 411 a body of unsaid length, 414 a path over 1024 bytes
  [[nodiscard]] std::optional<Answer> refuse(const Request& request) const;

  /// Headers of every answer: Content-Security-Policy without inline script, nosniff, no frames,
  /// no referrer, no sharing across origins.
  [[nodiscard]] static const std::vector<std::pair<std::string, std::string>>& headers();

 private:
  [[nodiscard]] bool knows_host(std::string_view host) const;
  [[nodiscard]] bool knows_key(const Request& request) const;
  GuardRules rules_;
  mutable std::atomic<bool> used_ = false;  ///< `once`
};

[[nodiscard]] bool is_loopback(std::string_view address);
/// As many steps whether the first or the last letter differs.
[[nodiscard]] bool same_key(std::string_view a, std::string_view b);

}  // namespace lodeway::server
