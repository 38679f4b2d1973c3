/// A debrief as text and as JSON.
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/tasks/debrief.hpp"
#include "lodeway/trip/figure_text.hpp"

namespace lodeway::tasks {

namespace {
using nlohmann::ordered_json;
}

std::string debriefed_as_text(const Debriefed& d) {
  std::string out = fmt::format("Debrief of {}\n\n", d.planned.plan.trip.name);
  const auto length = [&](double m) {
    return trip::length_text(m, d.planned.plan.trip.lengths);
  };
  out += "leg  walked  8 of 10 within   stops  across 50 / 95\n";
  for (std::size_t i = 0; i < d.legs.size(); ++i) {
    const auto& leg = d.debrief.legs[i];
    out += fmt::format("{:>3}  ", i + 1);
    out += leg.walked ? fmt::format("{:>3.0f} min", leg.minutes) : std::string("      -");
    out += fmt::format("  {:>3.0f} to {:>3.0f}{}", leg.low_min, leg.high_min,
                       !leg.walked  ? "        "
                       : leg.inside ? "        "
                                    : "  outside");
    if (leg.walked && d.from_track)
      out += fmt::format("  {:>3}   {:>5} / {}", leg.stops, length(leg.across_p50_m),
                         length(leg.across_p95_m));
    out += fmt::format("   {} to {}\n", d.legs[i].from, d.legs[i].to);
    for (const auto& left : leg.left) {
      out += fmt::format("       left the way after {}, up to {} beside it, {}\n",
                         length(left.at_m), length(left.furthest_m),
                         left.regained_m ? "met again after " + length(*left.regained_m)
                                         : std::string("not met again on this track"));
    }
    for (const auto t : leg.passed)
      out += fmt::format("       passed: {}. Seen? Known?\n", d.legs[i].ticks[t].what);
  }
  out += fmt::format("\n{} of {} legs within the band that holds 8 of 10.\n", d.debrief.inside,
                     d.debrief.judged);
  if (d.debrief.figures_do_not_fit())
    out +=
        "The figures do not fit this party: so few happen by chance on 3 in 100 days. Learn from "
        "its tracks.\n";
  for (const auto& n : d.notes) out += n + "\n";
  for (const auto& f : d.files) out += f + "\n";
  return out;
}

std::string debriefed_as_json(const Debriefed& d) {
  auto legs = ordered_json::array();
  for (std::size_t i = 0; i < d.legs.size(); ++i) {
    const auto& leg = d.debrief.legs[i];
    auto left = ordered_json::array(), passed = ordered_json::array();
    for (const auto& l : leg.left) {
      left.push_back({{"along_m", l.at_m},
                      {"east_m", l.at.east_m},
                      {"north_m", l.at.north_m},
                      {"furthest_m", l.furthest_m},
                      {"regained_after_m",
                       l.regained_m ? ordered_json(*l.regained_m) : ordered_json(nullptr)}});
    }
    for (const auto t : leg.passed)
      passed.push_back({{"what", d.legs[i].ticks[t].what},
                        {"kind", mapdata::kind_name(d.legs[i].ticks[t].kind)},
                        {"along_m", d.legs[i].ticks[t].at_m}});
    legs.push_back({{"leg", i + 1},
                    {"from", d.legs[i].from},
                    {"to", d.legs[i].to},
                    {"walked", leg.walked},
                    {"minutes", leg.walked ? ordered_json(leg.minutes) : ordered_json(nullptr)},
                    {"low_min", leg.low_min},
                    {"middle_min", leg.middle_min},
                    {"high_min", leg.high_min},
                    {"inside", leg.walked ? ordered_json(leg.inside) : ordered_json(nullptr)},
                    {"standing_min", leg.standing_min},
                    {"stops", leg.stops},
                    {"across_p50_m", leg.across_p50_m},
                    {"across_p95_m", leg.across_p95_m},
                    {"left_the_way", std::move(left)},
                    {"passed", std::move(passed)}});
  }
  const ordered_json out{{"trip", d.planned.plan.trip.name},
                         {"legs", std::move(legs)},
                         {"judged", d.debrief.judged},
                         {"inside", d.debrief.inside},
                         {"figures_fit", !d.debrief.figures_do_not_fit()},
                         {"notes", d.notes},
                         {"files", d.files}};
  return out.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
