/// What was learnt, as text and as JSON.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/tasks/learn.hpp"
#include "lodeway/tasks/learn_speed.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::tasks {

namespace {
using learn::Quantity;
using nlohmann::ordered_json;

bool in_hundred(Quantity q) { return learn::quantity_unit(q) == "in 100"; }

std::string figure_text(Quantity q, double v, units::Language l) {
  if (in_hundred(q)) return fmt::format("{:.0f}", 100 * v);
  if (std::abs(v) >= 10) return fmt::format("{:.0f}", v);
  return units::decimals(l, fmt::format("{:.2g}", v));
}

std::string_view pace_ground(learn::PaceGround ground, units::Language l) {
  constexpr std::array<std::string_view, learn::pace_ground_count> german{"eben", "bergauf",
                                                                          "bergab", "rau"};
  return l == units::Language::german ? german[static_cast<std::size_t>(ground)]
                                      : learn::pace_ground_name(ground);
}

std::string used_words(learn::Used used, units::Language l) {
  switch (used) {
    case learn::Used::whole:
      return units::in(l, "whole", "ganz");
    case learn::Used::part:
      return units::in(l, "part", "zum Teil");
    case learn::Used::refused:
      return units::in(l, "refused", "abgelehnt");
  }
  return "";
}

std::string label(const learn::Figure& f, units::Language l) {
  std::string out(learn::quantity_words(f.quantity, l));
  if (f.kind != mapdata::Kind::other) out += fmt::format(" ({})", landmarks::thing(f.kind, "", l));
  if (f.quantity == Quantity::paces) out += fmt::format(", {}", pace_ground(f.ground, l));
  return out;
}

const learn::Figure* same(const learn::PartyFigures& in, const learn::Figure& f) {
  for (const auto& g : in.all) {
    if (g.quantity == f.quantity && g.kind == f.kind && g.ground == f.ground) return &g;
  }
  return nullptr;
}

/// Left, to a width in letters, not in bytes.
std::string padded(std::string text, std::size_t width) {
  const auto letters = static_cast<std::size_t>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U; }));
  return text + std::string(letters < width ? width - letters : 0, ' ');
}

std::string row(const std::string& name, const std::string& table, const std::string& before,
                const std::string& now, const std::string& range, const std::string& table_share,
                const std::string& from) {
  return fmt::format("  {} {:>8} {:>8} {:>7}   {} {:>8}   {}\n", padded(name, 46), table, before,
                     now, padded(range, 14), table_share, from);
}

ordered_json estimate_json(const learn::Estimate& e) {
  return {{"value", e.value}, {"low", e.low}, {"high", e.high}, {"table_share", e.table_share}};
}

ordered_json figures_json(const Learnt& learnt) {
  auto out = ordered_json::array();
  for (const auto& f : learnt.after.measured()) {
    const auto* was = same(learnt.before, f);
    const auto id = learn::figure_id(f);
    ordered_json one{{"name", id},
                     {"refused", learnt.after.is_refused(id)},
                     {"figure", learn::quantity_name(f.quantity)},
                     {"words", label(f, learnt.basis.language)},
                     {"unit", learn::quantity_unit(f.quantity)},
                     {"table", f.table},
                     {"before", was != nullptr ? was->estimate.value : f.table}};
    one.update(estimate_json(f.estimate));
    one["trials"] = f.trials;
    one["evidence"] = f.evidence;
    if (f.kind != mapdata::Kind::other) one["kind"] = mapdata::kind_name(f.kind);
    if (f.quantity == Quantity::paces) one["ground"] = learn::pace_ground_name(f.ground);
    out.push_back(std::move(one));
  }
  return out;
}

/// With which of its three parts are refused.
ordered_json pace_json(const learn::PartyFigures& figures) {
  const auto& p = figures.pace;
  auto refused = ordered_json::array();
  for (const auto id : {learn::minutes_id, learn::leg_id, learn::rests_id}) {
    if (figures.is_refused(id)) refused.push_back(id);
  }
  const auto b = p.bands();
  return {{"learnt", p.learnt},
          {"days", p.days},
          {"moving_min", p.moving_min},
          {"walked_km", p.km},
          {"centre", b.centre},
          {"shared_log_sd", b.shared},
          {"leg_log_sd", b.leg},
          {"leg", estimate_json(p.leg)},
          {"table_share", p.party.table_share},
          {"stops_per_hour", estimate_json(p.stops.estimate())},
          {"stop_min", p.stop_min},
          {"slope_exponent", estimate_json(p.exponent)},
          {"refused", std::move(refused)}};
}

/// [slope, km/h] each, to a hundredth.
ordered_json speeds_json(const std::vector<SpeedAt>& speeds) {
  auto out = ordered_json::array();
  for (const auto& s : speeds)
    out.push_back({std::round(100 * s.slope_deg) / 100, std::round(100 * s.kmh) / 100});
  return out;
}

ordered_json speed_json(const Learnt& learnt) {
  const auto s = speeds_of(learnt);
  return {{"flat_kmh", curve_flat_kmh},
          {"pieces", speeds_json(s.pieces)},
          {"table", speeds_json(s.table)},
          {"learnt", speeds_json(s.learnt)}};
}

ordered_json track_json(const TrackLearnt& t) {
  auto reasons = ordered_json::array();
  for (const auto why : t.reading.why) reasons.push_back(learn::why_name(why));
  return {{"file", t.file},
          {"used", learn::used_name(t.reading.used)},
          {"reason", t.reading.words},
          {"reasons", std::move(reasons)},
          {"learned_km", t.reading.learned_km},
          {"moving_min", t.reading.day.moving_min},
          {"standing_min", t.reading.day.standing_min},
          {"median_kmh", t.reading.median_kmh},
          {"fast_kmh", t.reading.fast_kmh}};
}
}  // namespace

std::string learnt_as_text(const Learnt& learnt) {
  const auto l = learnt.basis.language;
  using units::in, units::said;
  auto out = fmt::format("{} {}\n", in(l, "Party", "Gruppe"), learnt.record.name);
  for (const auto& t : learnt.tracks) {
    out += fmt::format(
        "  {} {}: {}{}\n", padded(used_words(t.reading.used, l), 9), t.file, t.reading.words,
        t.reading.learned_km > 0
            ? said(l, " ({:.1f} km learnt)", " ({:.1f} km gelernt)", t.reading.learned_km)
            : "");
  }
  if (learnt.marks_taken > 0 || learnt.boxes_left_empty > 0) {
    out += said(l, "  marks of {} exercises taken, {} left empty (not counted as 0)\n",
                "  Wertung von {} Aufgaben übernommen, {} leer (nicht als 0 gezählt)\n",
                learnt.marks_taken, learnt.boxes_left_empty);
  }
  const auto measured = learnt.after.measured();
  const auto refused = [&](std::string_view id) {
    return learnt.after.is_refused(id)
               ? in(l, "  refused: the table stands", "  abgelehnt: die Tabelle gilt")
               : "";
  };
  if (!measured.empty()) {
    out += "\n" + row("", in(l, "table", "Tabelle"), in(l, "before", "vorher"),
                      in(l, "now", "jetzt"), in(l, "90 in 100 within", "90 von 100 in"),
                      in(l, "table", "Tabelle"), in(l, "from", "aus"));
    for (const auto& f : measured) {
      const auto* was = same(learnt.before, f);
      const auto& e = f.estimate;
      const auto unit = learn::quantity_unit(f.quantity, l);
      const auto figure = [&](double v) { return figure_text(f.quantity, v, l); };
      out += row(label(f, l) + (unit.empty() ? "" : fmt::format(", {}", unit)), figure(f.table),
                 figure(was != nullptr ? was->estimate.value : f.table), figure(e.value),
                 fmt::format("{} {} {}", figure(e.low), in(l, "to", "bis"), figure(e.high)),
                 fmt::format("{:.0f}/100", 100 * e.table_share),
                 fmt::format("{:.4g}{}", f.trials, refused(learn::figure_id(f))));
    }
  }
  if (learnt.after.pace.days > 0) {
    const auto& p = learnt.after.pace;
    const auto b = p.bands(), was = learnt.before.pace.bands();
    out +=
        said(l, "\nWalking: {} days, {:.1f} km, {:.0f} min moving\n",
             "\nGehen: {} Tage, {:.1f} km, {:.0f} min in Bewegung\n", p.days, p.km, p.moving_min);
    if (!p.learnt) {
      out += in(l, "  less than an hour: the table stands. The first hour alone misleads.\n",
                "  weniger als eine Stunde: die Tabelle gilt. Die erste Stunde allein täuscht.\n");
    } else {
      out += said(
          l,
          "  minutes against the model      x {:.2f} (before {:.2f}), {:.0f} in 100 of it table{}\n"
          "  one day against the next       {:.0f} in 100 either way (before {:.0f})\n"
          "  one leg against the next       {:.0f} in 100 either way (before {:.0f}){}\n"
          "  stops                          {:.1f} an hour, {:.0f} min each{}\n",
          "  Minuten gegen das Modell       x {:.2f} (vorher {:.2f}), {:.0f} von 100 davon "
          "Tabelle{}\n"
          "  ein Tag gegen den nächsten     {:.0f} von 100 nach beiden Seiten (vorher {:.0f})\n"
          "  ein Abschnitt gegen den andern {:.0f} von 100 nach beiden Seiten (vorher {:.0f}){}\n"
          "  Halte                          {:.1f} in der Stunde, je {:.0f} min{}\n",
          b.centre, was.centre, 100 * p.party.table_share, refused(learn::minutes_id),
          100 * b.shared, 100 * was.shared, 100 * b.leg, 100 * was.leg, refused(learn::leg_id),
          p.stops.estimate().value, p.stop_min, refused(learn::rests_id));
    }
  }
  if (const auto ids = ids_of(learnt.after); !ids.empty())
    out += said(l, "\nA figure that you do not believe stays at the table with --refuse NAME: {}\n",
                "\nEine Zahl, der ihr nicht glaubt, bleibt bei der Tabelle mit --refuse NAME: {}\n",
                fmt::format("{}", fmt::join(ids, ", ")));
  for (const auto& q : learnt.questions) out += in(l, "\nAsk first: ", "\nErst fragen: ") + q;
  if (!learnt.questions.empty()) out += "\n";
  for (const auto& n : learnt.not_shown) out += in(l, "\nNot shown: ", "\nNicht gezeigt: ") + n;
  if (!learnt.not_shown.empty()) out += "\n";
  return out;
}

std::string learnt_as_json(const Learnt& learnt, bool kept, const TripChange* trip) {
  auto tracks = ordered_json::array();
  for (const auto& t : learnt.tracks) tracks.push_back(track_json(t));
  const auto& d = learnt.basis.today;
  ordered_json out{
      {"party", learnt.record.name},
      {"kept", kept},
      {"date", fmt::format("{:04}-{:02}-{:02}", static_cast<int>(d.year()),
                           static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()))},
      {"tracks", std::move(tracks)},
      {"marks_taken", learnt.marks_taken},
      {"boxes_left_empty", learnt.boxes_left_empty},
      {"figures", figures_json(learnt)},
      {"pace", pace_json(learnt.after)},
      {"pace_before", pace_json(learnt.before)},
      {"speed", speed_json(learnt)},
      {"questions", learnt.questions},
      {"not_shown", learnt.not_shown}};
  if (trip != nullptr) out["trip"] = ordered_json::parse(trip_change_as_json(*trip));
  return out.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
