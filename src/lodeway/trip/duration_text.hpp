#pragma once
/// A length of time as people say it, in either language.
#include <string>

namespace lodeway::trip {

/// "38 min", "1 h 05 min"; to the minute.
[[nodiscard]] std::string duration_text(double minutes);

}  // namespace lodeway::trip
