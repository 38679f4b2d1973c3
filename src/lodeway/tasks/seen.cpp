#include "lodeway/tasks/seen.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/earth/place_text.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/tasks/ground.hpp"
#include "lodeway/tasks/io_progress.hpp"
#include "lodeway/tasks/place_named.hpp"
#include "lodeway/units/said.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks {

namespace {

using terrain::Seen;

struct Shares {
  double seen = 0, unknown = 0;
};
Shares shares_of(const terrain::Raster<Seen>& cells) {
  double seen = 0, unknown = 0, all = 0;
  for (const Seen s : cells.cells()) {
    all += s != Seen::out_of_reach;
    seen += s == Seen::seen;
    unknown += s == Seen::unknown;
  }
  return all > 0 ? Shares{seen / all, unknown / all} : Shares{};
}

std::string percent(double share) { return fmt::format("{:.1f} %", 100 * share); }

}  // namespace

Result<SeenAnswer> seen_from_places(const SeenRequest& request, Progress* progress) {
  if (request.from.empty()) return fail(FaultCode::bad_input, "from: expected a place");
  if (!(request.eye_m >= 0 && request.eye_m <= 1000)) {
    return fail(FaultCode::bad_input,
                fmt::format("eye: expected 0 to 1000 m, got {:g}", request.eye_m));
  }
  if (!(request.reach_m >= 0 && request.reach_m <= 1e6)) {
    return fail(FaultCode::bad_input,
                fmt::format("reach: expected 0 to 1000000 m, got {:g}", request.reach_m));
  }
  if (!(request.refraction >= -1 && request.refraction <= 1)) {
    return fail(FaultCode::bad_input,
                fmt::format("refraction: expected -1 to 1, got {:g}", request.refraction));
  }
  const auto ground = io::open_ground(request.ground, io_progress(progress));
  if (!ground) return std::unexpected(ground.error());
  const terrain::Sight sight{request.eye_m, 0, request.reach_m, request.refraction};
  SeenAnswer out;
  out.eye_m = request.eye_m;
  out.refraction = request.refraction;
  terrain::Raster<std::uint8_t> any(ground->elevation.frame());
  for (const std::string& from : request.from) {
    if (progress != nullptr && !progress->go_on(-1, "looking from " + from))
      return fail(FaultCode::cancelled, "stopped; nothing was written");
    const auto at = place_named(*ground, from, "from");
    if (!at) return std::unexpected(at.error());
    const double height = terrain::height_at(ground->elevation, *at);
    if (!std::isfinite(height)) {
      return fail(FaultCode::bad_input,
                  fmt::format("from: {}: outside the ground, or no height is known there", from));
    }
    const auto seen = terrain::viewshed(ground->elevation, *at, sight);
    for (std::size_t i = 0; i < any.cells().size(); ++i) {
      if (seen.cells()[i] == Seen::seen) any.cells()[i] = 1;
    }
    const auto shares = shares_of(seen);
    out.places.push_back({from, *at, height, shares.seen, shares.unknown,
                          landmarks::in_sight(ground->elevation, ground->map, seen, *at)});
  }
  const auto cells = any.cells();
  out.share_from_any = static_cast<double>(std::ranges::count(cells, 1)) /
                       static_cast<double>(std::max<std::size_t>(1, cells.size()));
  if (!request.png.empty()) {
    std::vector<earth::GridPoint> eyes;
    for (const auto& place : out.places) eyes.push_back(place.at);
    if (const auto drawn = picture_seen(*ground, any, eyes, request.png); !drawn) {
      return std::unexpected(drawn.error());
    }
  }
  return out;
}

std::string seen_text(const SeenAnswer& answer, units::Language in) {
  std::string out;
  for (const auto& place : answer.places) {
    out += fmt::format("{} {}  [{}]  ", units::in(in, "from", "von"), place.from,
                       earth::six_figure_reference(place.at));
    out += units::said(in, "{}, eye {:g} m above it\n", "{}, Auge {:g} m darüber\n",
                       units::height_text(place.height_m), answer.eye_m);
    out += units::said(in, "  {} of the ground is seen{}\n", "  {} des Geländes sind zu sehen{}\n",
                       percent(place.share_seen),
                       place.share_unknown > 0 ? units::said(in, ", {} is not known (voids)",
                                                             ", {} sind nicht bekannt (Lücken)",
                                                             percent(place.share_unknown))
                                               : std::string());
    for (const bool tops : {true, false}) {
      out += tops ? units::in(in, "  summits\n", "  Gipfel\n")
                  : units::in(in, "  water\n", "  Wasser\n");
      bool none = true;
      for (const auto& s : place.in_sight) {
        if ((s.kind == mapdata::Kind::summit) != tops) continue;
        none = false;
        const std::string name = !s.name.empty() ? s.name
                                 : in == units::Language::german
                                     ? landmarks::thing(s.kind, "", in)
                                     : std::string(mapdata::kind_words(s.kind));
        const auto end = tops ? units::height_text(s.height_m)
                              : units::said(in, "{:.0f} % of it", "{:.0f} % davon",
                                            std::max(1.0, 100 * s.share));
        out += fmt::format("    {:<24} {} {}  {:>9}  {}\n", name, units::in(in, "grid", "Gitter"),
                           units::bearing_text(s.bearing, {}, 0),
                           units::decimals(in, units::length_text(s.distance_m)), end);
      }
      if (none) out += units::in(in, "    none\n", "    nichts\n");
    }
  }
  if (answer.places.size() > 1) {
    out += units::said(in, "{} of the ground is seen from one of them or more\n",
                       "{} des Geländes sind von wenigstens einem davon zu sehen\n",
                       percent(answer.share_from_any));
  }
  out += units::said(
      in,
      "Bare ground in clear air; the Earth's curve less {:g} of it for refraction. Trees, weather "
      "and what stands beyond the ground's rim are not in it.\n",
      "Nacktes Gelände in klarer Luft; die Erdkrümmung, um {:g} davon für die Strahlenbrechung "
      "vermindert. Bäume, Wetter und was jenseits des Randes steht, sind nicht darin.\n",
      answer.refraction);
  return out;
}

std::string seen_json(const SeenAnswer& answer) {
  nlohmann::ordered_json out;
  out["eye_m"] = answer.eye_m;
  out["refraction"] = answer.refraction;
  out["share_from_any"] = answer.share_from_any;
  out["places"] = nlohmann::ordered_json::array();
  for (const auto& place : answer.places) {
    nlohmann::ordered_json one{{"from", place.from},
                               {"east_m", place.at.east_m},
                               {"north_m", place.at.north_m},
                               {"height_msl_m", place.height_m},
                               {"share_seen", place.share_seen},
                               {"share_unknown", place.share_unknown}};
    one["in_sight"] = nlohmann::ordered_json::array();
    for (const auto& s : place.in_sight) {
      one["in_sight"].push_back(
          {{"kind", mapdata::kind_name(s.kind)},
           {"name", s.name},
           {"east_m", s.at.east_m},
           {"north_m", s.at.north_m},
           {"height_msl_m", std::isfinite(s.height_m) ? nlohmann::ordered_json(s.height_m)
                                                      : nlohmann::ordered_json()},
           {"bearing_grid_deg", s.bearing.in_degrees()},
           {"length_horizontal_m", s.distance_m},
           {"share", s.share}});
    }
    out["places"].push_back(std::move(one));
  }
  return out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
