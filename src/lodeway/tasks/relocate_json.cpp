// One writer for the command and the server, and the reader of what is told.
#include <cmath>

#include <nlohmann/json.hpp>

#include "lodeway/tasks/relocate.hpp"

namespace lodeway::tasks {

namespace {
using Json = nlohmann::ordered_json;

Json number(double v) { return std::isfinite(v) ? Json(v) : Json(); }

Json question_json(const Relocation& r, std::size_t k) {
  static constexpr std::array<const char*, 5> acts{
      "tell", "walk_high_on_right", "walk_high_on_left", "walk_uphill", "walk_downhill"};
  static constexpr std::array<const char*, sight::cue_count> cues{
      "height", "fall", "steepness", "landform", "on", "beside", "wood", "at", "sees", "sees_kind"};
  const auto& q = r.questions[k];
  Json out{{"ask", r.asks[k]},
           {"act", acts[static_cast<std::size_t>(q.act)]},
           {"cue", cues[static_cast<std::size_t>(q.ask.cue)]},
           {"kind", mapdata::kind_name(q.ask.kind)},
           {"thing", q.ask.thing >= 0 ? Json(q.ask.thing) : Json()},
           {"bits", q.bits},
           {"minutes", q.minutes},
           {"answers", Json::array()}};
  for (std::size_t m = 0; m < q.meanings.size(); ++m) {
    const auto& meaning = q.meanings[m];
    const auto& told = r.tells[k][m];
    out["answers"].push_back({{"words", r.means[k][m]},
                              {"key", told.key},
                              {"text", told.text},
                              {"chance", meaning.chance},
                              {"place", meaning.part >= 0 ? Json(meaning.part + 1) : Json()},
                              {"place_share", meaning.share}});
  }
  return out;
}

Json move_json(const Relocation& r, std::size_t k) {
  static constexpr std::array<const char*, 5> kinds{"bearing", "downhill", "uphill",
                                                    "high_ground_on_left", "high_ground_on_right"};
  const auto& m = r.moves.offered[k];
  const bool on_bearing = m.kind == belief::MoveKind::bearing;
  return {
      {"words", r.goes[k]},
      {"kind", kinds[static_cast<std::size_t>(m.kind)]},
      {"bearing_grid_deg", on_bearing ? Json(m.bearing.in_degrees()) : Json()},
      {"bearing_magnetic_deg",
       on_bearing ? Json(units::GridBearing::degrees(m.bearing.in_degrees() - r.grid_magnetic_deg)
                             .in_degrees())
                  : Json()},
      {"within_m", m.within_m},
      {"met_share", m.met},
      {"keep_off_share", m.barred},
      {"felt_share", m.felt()}};
}

/// To 0.1 m: the page draws them.
Json rings(const std::vector<std::vector<earth::GridPoint>>& lines) {
  auto out = Json::array();
  for (const auto& line : lines) {
    auto ring = Json::array();
    for (const auto& p : line)
      ring.push_back({std::round(10 * p.east_m) / 10, std::round(10 * p.north_m) / 10});
    out.push_back(std::move(ring));
  }
  return out;
}
}  // namespace

std::string relocation_json(const Relocation& r) {
  Json out;
  out["warnings"] = r.warnings;
  out["told"] = r.told;
  out["norths"] = r.norths;
  out["grid_magnetic_deg"] = r.grid_magnetic_deg;
  out["places"] = Json::array();
  for (const auto& p : r.places)
    out["places"].push_back({{"share", p.part.share},
                             {"grid_reference", p.grid_reference},
                             {"east_m", p.part.best.east_m},
                             {"north_m", p.part.best.north_m},
                             {"middle_east_m", p.part.middle.east_m},
                             {"middle_north_m", p.part.middle.north_m},
                             {"radius_m", p.part.radius_m},
                             {"height_msl_m", number(p.height_m)},
                             {"near", p.near}});
  out["elsewhere_share"] = r.summary.elsewhere;
  out["area50_m2"] = r.summary.area50_m2;
  out["area90_m2"] = r.summary.area90_m2;
  const auto areas = likely_areas(r);
  out["areas"] = {{"half", rings(areas.half)}, {"nine_in_ten", rings(areas.nine_in_ten)}};
  out["on_keep_off_share"] = r.moves.standing_barred;
  const auto& f = r.belief.frame;
  out["window"] = {{"west_m", f.west_m},
                   {"south_m", f.south_m()},
                   {"east_m", f.east_m()},
                   {"north_m", f.north_m},
                   {"cell_m", f.cell_m}};
  out["questions"] = Json::array();
  for (std::size_t k = 0; k < r.questions.size(); ++k)
    out["questions"].push_back(question_json(r, k));
  out["moves"] = Json::array();
  for (std::size_t k = 0; k < r.moves.offered.size(); ++k) out["moves"].push_back(move_json(r, k));
  out["no_move"] = r.moves.offered.empty() && !r.goes.empty() ? Json(r.goes[0]) : Json();
  if (r.resection) {
    const auto axes = numeric::axes_of(r.resection->covariance);
    out["resection"] = {{"words", r.resection_words},
                        {"east_m", r.resection->at.east_m},
                        {"north_m", r.resection->at.north_m},
                        {"bias_deg", r.resection->bias_deg},
                        {"major_sigma_m", number(axes.major)},
                        {"minor_sigma_m", number(axes.minor)},
                        {"azimuth_grid_deg", axes.azimuth * 57.29577951308232},
                        {"chi2", r.resection->chi2},
                        {"redundancy", r.resection->redundancy},
                        {"residual_deg", r.resection->residual_deg}};
  } else {
    out["resection"] = Json();
  }
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<Told> told_of_json(const std::string& text) {
  const auto body = Json::parse(text, nullptr, false);
  if (!body.is_object())
    return fail(FaultCode::bad_input, "expected a JSON object of what is told");
  Told out;
  const auto refused = [](const std::string& key, const char* what) {
    return fail(FaultCode::bad_input, key + ": expected " + what);
  };
  for (const auto& [key, value] : body.items()) {
    const auto texts = [&](std::vector<std::string>& to) {
      if (!value.is_array()) return false;
      for (const auto& one : value) {
        if (!one.is_string() || to.size() >= 40) return false;
        to.push_back(one.get<std::string>());
      }
      return true;
    };
    const auto word = [&](std::string& to) {
      if (value.is_string()) {
        to = value.get<std::string>();
      } else if (value.is_number()) {
        to = value.dump();
      } else {
        return false;
      }
      return to.size() <= 200;
    };
    bool fine = true;
    if (key == "on")
      fine = texts(out.on);
    else if (key == "beside")
      fine = texts(out.beside);
    else if (key == "sees")
      fine = texts(out.sees);
    else if (key == "not_seen")
      fine = texts(out.not_seen);
    else if (key == "height")
      fine = word(out.height);
    else if (key == "height_from")
      fine = word(out.height_from);
    else if (key == "falls")
      fine = word(out.falls);
    else if (key == "slope")
      fine = word(out.slope);
    else if (key == "landform")
      fine = word(out.landform);
    else if (key == "wood")
      fine = word(out.wood);
    else if (key == "last")
      fine = word(out.last);
    else if (key == "leg_minutes")
      fine = word(out.leg_minutes);
    else if (key == "north")
      fine = word(out.north);
    else if (key == "date")
      fine = word(out.date);
    else if (key == "visibility")
      fine = word(out.visibility);
    else if (key == "skill")
      fine = word(out.skill);
    else if (key == "language")
      fine = word(out.language);
    else if (key == "leg") {
      if (!value.is_number_integer()) return refused(key, "the number of a leg");
      out.leg = value.get<int>();
    } else {
      return refused(key, "no such key");
    }
    if (!fine) return refused(key, "a text, or for on, beside, sees and not_seen a list of texts");
  }
  return out;
}

}  // namespace lodeway::tasks
