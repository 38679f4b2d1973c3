#pragma once
/// How anything in Lodeway fails: a value, never an exception, with one line that a leader can act
/// on.
#include <cassert>
#include <expected>
#include <string>
#include <string_view>
#include <utility>

namespace lodeway::result {

/// What went wrong, in a few classes; `what` says it in words.
enum class FaultCode : unsigned char {
  bad_input,         ///< what was given cannot be understood: a text, a figure, a file's content
  outside_validity,  ///< a model asked beyond its dates, heights or latitudes
  outside_ground,    ///< a place that the ground file does not hold
  no_way,            ///< no way exists, or none within the limits
  io_failed,         ///< a file could not be read or written
  too_large,         ///< refused because it would not fit in bounded memory or time
  cancelled,         ///< the user stopped it
};

/// One line: which file or field, where in it, what was expected. No trailing newline or full stop.
struct Fault {
  FaultCode code = FaultCode::bad_input;
  std::string what;
};

/// `return fail(FaultCode::bad_input, "scale: expected a number above 0, got 0")`
[[nodiscard]] inline std::unexpected<Fault> fail(FaultCode code, std::string what) {
  return std::unexpected<Fault>(Fault{code, std::move(what)});
}

/// The same fault with the place it was met in front: "trip.toml: party.size: expected ...".
[[nodiscard]] inline std::unexpected<Fault> fail_in(std::string_view place, const Fault& fault) {
  return std::unexpected<Fault>(Fault{fault.code, std::string(place) + ": " + fault.what});
}

}  // namespace lodeway::result

namespace lodeway {

template <class T>
using Result = std::expected<T, result::Fault>;
using result::fail;
using result::fail_in;
using result::Fault;
using result::FaultCode;

}  // namespace lodeway
