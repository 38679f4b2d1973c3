#pragma once
/// Internal to io/party: one exercise as a TOML table, for party files and marks alike.
#include <functional>
#include <string>

#include "lodeway/io/toml/detail/toml_reader.hpp"
#include "lodeway/learn/record/record.hpp"

namespace lodeway::io {

inline constexpr std::uintmax_t most_party_bytes = 16U << 20U;
inline constexpr std::size_t most_days = 10'000;  ///< exercises, days walked, marks in one file

/// What a table leaves out comes from `otherwise`. Throws Refusal; with `check` also for what
/// learn::check refuses.
[[nodiscard]] learn::Measured read_measured(TomlReader t, const learn::Measured& otherwise,
                                            bool check);
/// "date = …\nexercise = …\n"; `blanks`: also the lists and counts that are empty.
[[nodiscard]] std::string measured_text(const learn::Measured& m, bool blanks);
/// True when nobody wrote anything into it.
[[nodiscard]] bool is_blank(const learn::Measured& m);

/// Reads a whole file within bounds. Faults: io_failed, too_large.
[[nodiscard]] Result<std::string> slurp_toml(const std::string& path, const char* what);
/// Parses and hands the top table over; what is thrown becomes a Fault.
[[nodiscard]] Result<void> with_toml(const std::string& text, const std::string& name,
                                     const std::function<void(TomlReader)>& use);
[[nodiscard]] std::chrono::year_month_day read_day(TomlReader& t, std::string_view key);
/// A text of TOML: quoted, with what must be escaped escaped.
[[nodiscard]] std::string quoted(const std::string& text);
/// Version 1; refuses newer ones with a sentence that says what to do.
void read_version(TomlReader& t);

}  // namespace lodeway::io
