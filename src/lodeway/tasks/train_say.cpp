/// A training day as text and as JSON.
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/learn/course/timetable.hpp"
#include "lodeway/tasks/train.hpp"
#include "lodeway/units/said.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks {

namespace {
using nlohmann::ordered_json;
ordered_json point(earth::GridPoint p) {
  return {{"east_m", p.east_m}, {"north_m", p.north_m}, {"reference", learn::day_reference(p)}};
}

/// Who is where when, a line for each pair.
std::string timetable_text(const learn::TrainingDay& d) {
  const auto l = d.language;
  const auto table = learn::timetable_of(d);
  auto out = units::said(l, "\nWho is where when, {} from the beginning:\n",
                         "\nWer wann wo ist, {} ab Beginn:\n", learn::hours(table.minutes));
  for (int pair = 0; pair < learn::pair_count; ++pair) {
    std::string row;
    for (const auto& s : table.slots) {
      if (s.pair != pair) continue;
      row += fmt::format("{}{}–{} {}", row.empty() ? "" : ", ", learn::hours(s.begin_min),
                         learn::hours(s.end_min), learn::station_words(s.station, l));
      if (s.instructor >= 0 && s.instructor < learn::instructor_count)
        row += fmt::format(" ({})", s.instructor + 1);
    }
    out += fmt::format("  {} {}  {}\n", units::in(l, "pair", "Paar"), static_cast<char>('A' + pair),
                       row);
  }
  return out + units::in(l, "In brackets which instructor goes with the pair.\n",
                         "In Klammern, wer mit dem Paar geht.\n");
}
}  // namespace

std::string trained_as_text(const Trained& trained) {
  const auto& d = trained.day;
  const auto l = d.language;
  auto out = fmt::format("{} {} {} {}\n", units::in(l, "Training day", "Übungstag"), trained.code,
                         units::in(l, "from", "ab"), d.from_words);
  const auto row = [&](const char* what, std::size_t n, const std::string& more) {
    out += fmt::format("  {:<26} {:>3}  {}\n", what, n, more);
  };
  row(units::in(l, "bearings at the desk", "Richtungen am Tisch"), d.settings.size(), "");
  row(units::in(l, "pace courses", "Schrittbahnen"), d.paces.size(), "");
  row(units::in(l, "open bearing courses", "Kompassläufe"), d.bearings.size(), "");
  for (const auto& b : d.bearings) {
    out += units::said(l, "      {} to {}, {:.0f} m; beyond: {}, {:.0f} m\n",
                       "      {} nach {}, {:.0f} m; dahinter: {}, {:.0f} m\n",
                       learn::day_reference(b.from), learn::day_reference(b.peg), b.length_m,
                       b.catches, b.catches_beyond_m);
  }
  row(units::in(l, "features", "Merkmale"), d.features.size(), "");
  row(units::in(l, "forks", "Abzweige"), d.forks ? d.forks->forks.size() : 0,
      d.forks ? units::length_text(d.forks->length_m) : "");
  row(units::in(l, "blind drops", "Wo sind wir"), d.drops.size(), "");
  row(units::in(l, "distances by time", "Strecken nach Zeit"), d.times.size(), "");
  out += timetable_text(d);
  for (const auto& m : d.missing) out += units::in(l, "\nNot here: ", "\nNicht hier: ") + m;
  if (!d.missing.empty()) out += "\n";
  if (!d.roads_known) {
    out += units::in(l,
                     "\nThis map has no road, railway, track or path at all: it knows of none, and "
                     "rules about them could not be checked. Set no course without another map.\n",
                     "\nDiese Karte hat keine Straße, keine Bahn, keinen Weg: sie weiß von keinen, "
                     "und die Regeln dafür ließen sich nicht prüfen. Legt keine Aufgabe ohne eine "
                     "andere Karte.\n");
  } else {
    out += units::in(
        l,
        "\nRoads: no course goes along or over a main road, a railway, or a road of which the map "
        "does "
        "not say how busy it is, except where the answer sheet says so.\n",
        "\nStraßen: keine Aufgabe führt auf oder über eine Hauptstraße, eine Bahn oder eine "
        "Straße, "
        "von der die Karte nicht sagt, wie befahren sie ist, außer wo das Lösungsblatt es sagt.\n");
    if (!d.roads_told)
      out +=
          units::in(l, "This ground says it of no road.\n", "Dieses Gelände sagt es von keiner.\n");
  }
  if (d.forks && d.forks->road_m > 0)
    out +=
        units::said(l, "Of the fork walk {} are roads that the map has as quiet: traffic.\n",
                    "Von den Abzweigen sind {} Straßen, die auf der Karte ruhig sind: Verkehr.\n",
                    units::length_text(d.forks->road_m));
  if (learn::has_roads(d))
    out += units::in(
        l, "Roads lie near some courses: the answer sheet says where somebody stands beside one.\n",
        "Bei einigen Aufgaben liegen Straßen: das Lösungsblatt sagt, wo jemand an einer steht.\n");
  out += units::in(
      l, "\nWalk every course before you set it: the map does not show everything that hurts.\n",
      "\nGeht jede Aufgabe vorher ab: die Karte zeigt nicht alles, was gefährlich ist.\n");
  for (const auto& f : trained.files) out += f + "\n";
  return out;
}

std::string trained_as_json(const Trained& trained) {
  const auto& d = trained.day;
  auto bearings = ordered_json::array(), features = ordered_json::array(),
       drops = ordered_json::array(), forks = ordered_json::array();
  for (const auto& b : d.bearings) {
    bearings.push_back({{"from", point(b.from)},
                        {"peg", point(b.peg)},
                        {"grid_bearing_deg", b.bearing.in_degrees()},
                        {"length_m", b.length_m},
                        {"climb_m", b.climb_m},
                        {"descent_m", b.descent_m},
                        {"median_slope_deg", b.median_slope_deg},
                        {"catches", b.catches},
                        {"catches_beyond_m", b.catches_beyond_m},
                        {"crosses", b.crosses},
                        {"road_catches", b.road_catches},
                        {"road_beside_m",
                         b.road_beside_m ? ordered_json(*b.road_beside_m) : ordered_json(nullptr)},
                        {"may_plant", b.may_plant}});
  }
  for (const auto& f : d.features) {
    features.push_back({{"from", point(f.from)},
                        {"at", point(f.at)},
                        {"what", f.words},
                        {"kind", mapdata::kind_name(f.kind)},
                        {"length_m", f.length_m},
                        {"seen_from_m", f.seen_from_m},
                        {"known", f.known},
                        {"attack_point", f.attack_point},
                        {"like_near", f.like_near},
                        {"difficulty", f.difficulty}});
  }
  for (const auto& p : d.drops) {
    drops.push_back({{"at", point(p.at)},
                     {"sure", point(p.sure)},
                     {"height_m", p.height_m},
                     {"slope_deg", p.slope_deg},
                     {"radius_m", p.radius_m}});
  }
  if (d.forks) {
    for (const auto& f : d.forks->forks) {
      forks.push_back({{"at", point(f.at)},
                       {"turn_deg", f.turn_deg},
                       {"wrong_turn_deg", f.wrong_turn_deg},
                       {"between_deg", f.between_deg},
                       {"difficulty", f.difficulty}});
    }
  }
  auto slots = ordered_json::array();
  const auto table = learn::timetable_of(d);
  for (const auto& s : table.slots) {
    auto with = ordered_json::array();
    for (int i = 0; i < learn::instructor_count; ++i) {
      if (s.instructor == i || s.instructor == learn::instructor_count) with.push_back(i + 1);
    }
    slots.push_back({{"pair", std::string(1, static_cast<char>('A' + s.pair))},
                     {"station", learn::station_name(s.station)},
                     {"begin_min", s.begin_min},
                     {"end_min", s.end_min},
                     {"instructors", std::move(with)}});
  }
  const ordered_json out{{"code", trained.code},
                         {"seed", d.seed},
                         {"from", d.from_words},
                         {"desk_items", d.settings.size()},
                         {"pace_courses", d.paces.size()},
                         {"bearing_courses", std::move(bearings)},
                         {"features", std::move(features)},
                         {"forks", std::move(forks)},
                         {"fork_walk_m", d.forks ? d.forks->length_m : 0},
                         {"fork_walk_on_quiet_road_m", d.forks ? d.forks->road_m : 0},
                         {"ground_has_roads", d.roads_known},
                         {"ground_tells_traffic", d.roads_told},
                         {"drops", std::move(drops)},
                         {"time_stretches", d.times.size()},
                         {"timetable", std::move(slots)},
                         {"timetable_min", table.minutes},
                         {"missing", d.missing},
                         {"files", trained.files}};
  return out.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
