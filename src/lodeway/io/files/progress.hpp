#pragma once
/// How a long work tells how far it is, and hears that it shall stop.
#include <functional>
#include <string_view>

namespace lodeway::io {

/// `fraction` 0 to 1 of what `doing` names; false stops the work, which then ends with `cancelled`.
using Progress = std::function<bool(double fraction, std::string_view doing)>;

[[nodiscard]] inline bool goes_on(const Progress& progress, double fraction,
                                  std::string_view doing) {
  return !progress || progress(fraction, doing);
}

}  // namespace lodeway::io
