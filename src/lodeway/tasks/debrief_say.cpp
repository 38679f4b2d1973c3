/// A debrief as text and as JSON.
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/tasks/debrief.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::tasks {

namespace {
using nlohmann::ordered_json;
}

std::string debriefed_as_text(const Debriefed& d) {
  const auto l = d.planned.plan.trip.language;
  using units::in, units::said;
  const auto length = [&](double m) {
    return units::decimals(l, trip::length_text(m, d.planned.plan.trip.lengths));
  };
  auto out =
      fmt::format("{} {}\n\n", in(l, "Debrief of", "Nachbesprechung:"), d.planned.plan.trip.name);
  out += in(l, "leg  walked  8 of 10 within   stops  across 50 / 95\n",
            "Nr. gegangen  8 von 10 in      Halte  quer 50 / 95\n");
  for (std::size_t i = 0; i < d.legs.size(); ++i) {
    const auto& leg = d.debrief.legs[i];
    out += fmt::format("{:>3}  ", i + 1);
    out += leg.walked ? fmt::format("{:>3.0f} min", leg.minutes) : std::string("      -");
    out += fmt::format("  {:>3.0f} {} {:>3.0f}{}", leg.low_min, in(l, "to", "bis"), leg.high_min,
                       leg.walked && !leg.inside ? in(l, "  outside", "  daneben") : "         ");
    if (leg.walked && d.from_track)
      out += fmt::format("  {:>3}   {:>5} / {}", leg.stops, length(leg.across_p50_m),
                         length(leg.across_p95_m));
    out += fmt::format("   {} {} {}\n", d.legs[i].from, in(l, "to", "nach"), d.legs[i].to);
    for (const auto& left : leg.left) {
      out += said(l, "       left the way after {}, up to {} beside it, {}\n",
                  "       Weg verlassen nach {}, bis {} daneben, {}\n", length(left.at_m),
                  length(left.furthest_m),
                  left.regained_m
                      ? said(l, "met again after {}", "nach {} wieder erreicht",
                             length(*left.regained_m))
                      : in(l, "not met again on this track",
                           "in dieser Aufzeichnung nicht wieder erreicht"));
    }
    for (const auto t : leg.passed)
      out += fmt::format("       {}: {}. {}\n", in(l, "passed", "vorbei an"),
                         d.legs[i].ticks[t].what, in(l, "Seen? Known?", "Gesehen? Erkannt?"));
  }
  out += said(l, "\n{} of {} legs within the band that holds 8 of 10.\n",
              "\n{} von {} Abschnitten im Band, das 8 von 10 hält.\n", d.debrief.inside,
              d.debrief.judged);
  if (d.debrief.figures_do_not_fit())
    out += in(l,
              "The figures do not fit this party: so few happen by chance on 3 in 100 days. Learn "
              "from its tracks.\n",
              "Die Zahlen passen nicht zu dieser Gruppe: so wenige kommen zufällig an 3 von 100 "
              "Tagen vor. Lernt aus ihren Aufzeichnungen.\n");
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
