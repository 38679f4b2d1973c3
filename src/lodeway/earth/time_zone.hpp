#pragma once
/// The one door to the world's time zones (IANA names, from the machine's zone files).
#include <chrono>
#include <optional>
#include <string>

#include "lodeway/result/result.hpp"

namespace lodeway::earth {

using UtcSeconds = std::chrono::sys_seconds;

/// Offset of local clock time from UTC at an instant: local = UTC + offset.
/// Faults: bad_input for a name that is not known ("Europe/Oslo", "UTC" are).
[[nodiscard]] Result<std::chrono::seconds> utc_offset(const std::string& zone, UtcSeconds at);
/// The instant of a local clock time. A time that a clock change skips or repeats is read with the
/// offset before the change. Faults: as utc_offset.
[[nodiscard]] Result<UtcSeconds> to_utc(const std::string& zone, std::chrono::year_month_day day,
                                        std::chrono::minutes since_midnight);
/// A zone's clocks put forward (positive) or back at an instant.
struct ClockChange {
  UtcSeconds at{};
  std::chrono::minutes forward{};
};
/// The first change after `from`, up to and at `to`; nothing without one. A zone's rules may be
/// redrawn later. Faults: as utc_offset.
[[nodiscard]] Result<std::optional<ClockChange>> clock_change(const std::string& zone,
                                                              UtcSeconds from, UtcSeconds to);
/// "2026-07-01T04:12:05+02:00" (ISO 8601), to the second.
[[nodiscard]] std::string iso_text(UtcSeconds at, std::chrono::seconds offset);

}  // namespace lodeway::earth
