#include "lodeway/earth/time_zone.hpp"

#include <exception>

#include <date/tz.h>
#include <fmt/format.h>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::earth {

namespace {

Result<const date::time_zone*> zone_named(const std::string& zone) {
  try {
    return date::locate_zone(zone);
  } catch (const std::exception&) {
    return fail(FaultCode::bad_input,
                fmt::format("time zone \"{}\": expected an IANA name like Europe/Oslo",
                            units::plain(zone, 60)));
  }
}

}  // namespace

Result<std::chrono::seconds> utc_offset(const std::string& zone, UtcSeconds at) {
  const auto found = zone_named(zone);
  if (!found) return std::unexpected(found.error());
  return (*found)->get_info(date::sys_seconds{at.time_since_epoch()}).offset;
}

Result<UtcSeconds> to_utc(const std::string& zone, std::chrono::year_month_day day,
                          std::chrono::minutes since_midnight) {
  const auto found = zone_named(zone);
  if (!found) return std::unexpected(found.error());
  const std::chrono::seconds local = std::chrono::sys_days{day}.time_since_epoch() + since_midnight;
  const auto info = (*found)->get_info(date::local_seconds{local});
  return UtcSeconds{local - info.first.offset};
}

Result<std::optional<ClockChange>> clock_change(const std::string& zone, UtcSeconds from,
                                                UtcSeconds to) {
  const auto found = zone_named(zone);
  if (!found) return std::unexpected(found.error());
  auto info = (*found)->get_info(date::sys_seconds{from.time_since_epoch()});
  while (info.end.time_since_epoch() <= to.time_since_epoch()) {
    const auto after = (*found)->get_info(info.end);
    if (after.offset != info.offset) {
      return ClockChange{
          UtcSeconds{info.end.time_since_epoch()},
          std::chrono::duration_cast<std::chrono::minutes>(after.offset - info.offset)};
    }
    info = after;
  }
  return std::nullopt;
}

std::string iso_text(UtcSeconds at, std::chrono::seconds offset) {
  const auto local = at + offset;
  const auto day = std::chrono::floor<std::chrono::days>(local);
  const std::chrono::year_month_day d{day};
  const long s = (local - day).count(), o = offset.count() / 60;
  const auto abs_o = o < 0 ? -o : o;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}{:02}:{:02}", static_cast<int>(d.year()),
                     static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()), s / 3600,
                     s / 60 % 60, s % 60, o < 0 ? '-' : '+', abs_o / 60, abs_o % 60);
}

}  // namespace lodeway::earth
