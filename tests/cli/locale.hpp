#pragma once
/// The computer's language as a test wants it.
#include <cstdlib>
#include <optional>
#include <string>

namespace lodeway {

/// LC_ALL while it lives; then what it was before.
class Locale {
 public:
  explicit Locale(const char* name) {
    if (const char* before = std::getenv("LC_ALL")) before_ = before;
    setenv("LC_ALL", name, 1);
  }
  ~Locale() { before_ ? setenv("LC_ALL", before_->c_str(), 1) : unsetenv("LC_ALL"); }
  Locale(const Locale&) = delete;
  Locale& operator=(const Locale&) = delete;

 private:
  std::optional<std::string> before_;
};

}  // namespace lodeway
