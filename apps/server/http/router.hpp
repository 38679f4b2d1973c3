#pragma once
/// Which function answers which path. Paths are compared piece by piece, never looked up on disk.
#include <functional>
#include <string>
#include <vector>

#include "apps/server/http/message.hpp"

namespace lodeway::server {

/// What stood where the pattern has {…}, in order: 1 to 80 letters, digits, '-', '_' and '.', not
/// beginning with '.'.
using Pieces = std::vector<std::string>;
using Handler = std::function<Answer(const Request&, const Pieces&)>;

class Router {
 public:
  /// "/api/trips/{id}/ways"
  void add(std::string method, const std::string& pattern, Handler handler);
  /// Asked for what no pattern fits.
  void otherwise(Handler handler) { otherwise_ = std::move(handler); }
  /// Never throws: what a handler throws becomes 500 with a line.
  [[nodiscard]] Answer answer(const Request& request) const;

 private:
  struct Route {
    std::string method;
    std::vector<std::string> pieces;
    Handler handler;
  };
  std::vector<Route> routes_;
  Handler otherwise_;
};

}  // namespace lodeway::server
