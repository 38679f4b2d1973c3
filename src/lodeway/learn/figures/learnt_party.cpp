/// What the figures change in a party, and what they could not show.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "lodeway/learn/figures/gather.hpp"
#include "lodeway/numeric/logit.hpp"
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::learn {

namespace {
constexpr double degree = std::numbers::pi / 180, z_95 = 1.6448536269514722;

/// A stated figure stays; else the learnt one.
void take(double& own, double learnt) {
  if (!(own >= 0)) own = learnt;
}

/// Root mean square of a shared error whose mean is known only in part, and not allowed for.
double rms(const Estimate& shift) {
  return std::hypot(shift.value, (shift.high - shift.low) / (2 * z_95));
}

/// Of a spread's logarithm, from its degrees of freedom: 1 / sqrt(2 n).
double log_sd(double evidence) { return 1 / std::sqrt(2 * (4 + evidence)); }

/// Lines that are drawn as such: what is noticed of them is measured by crossing them.
bool is_line(mapdata::Kind kind) { return kind <= mapdata::Kind::aerialway; }
}  // namespace

walking::Party learnt_party(const walking::Party& party, const PartyFigures& figures,
                            const Basis& basis) {
  auto out = party;
  auto table_party = party;
  table_party.errors = {};
  const auto e = reckoning::errors_of(table_party);
  if (const auto* f = figures.find(Quantity::bearing)) {
    take(out.errors.bearing_sigma_deg, e.bearing_sigma / degree * f->estimate.value);
    take(out.errors.sighting_sigma_deg, e.sighting_sigma / degree * f->estimate.value);
    out.doubt.bearing_log_sd = std::min(out.doubt.bearing_log_sd, log_sd(f->evidence));
  }
  if (const auto* f = figures.find(Quantity::distance)) {
    // The step-by-step part is silenced by a stated figure: what it adds over 500 m goes in.
    take(out.errors.distance_sigma,
         std::hypot(e.distance_sigma, e.distance_random / std::sqrt(500.0)) * f->estimate.value);
    out.doubt.distance_log_sd = std::min(out.doubt.distance_log_sd, log_sd(f->evidence));
  }
  if (const auto* f = figures.find(Quantity::compass))
    take(out.errors.compass_sigma_deg, rms(f->estimate));
  if (const auto* f = figures.find(Quantity::stride))
    take(out.errors.stride_sigma, rms(f->estimate));
  for (const auto& f : figures.all) {
    if (f.quantity == Quantity::paces && f.ground == PaceGround::level)
      out.stride_m = 100 / (2 * f.estimate.value);
  }
  if (const auto* f = figures.find(Quantity::know)) {
    // Beta's share of the doubt that a table worth six trials leaves.
    out.doubt.chance_logit_sd *= std::sqrt(6 / (6 + f->evidence));
  }
  if (figures.pace.learnt) {
    if (!party.time_band) {  // what the trip states stays
      auto bands = figures.pace.bands();
      const auto table = walking::bands_of(party);
      if (figures.is_refused(minutes_id)) {
        bands.centre = table.centre;
        bands.shared = table.shared;
      }
      if (figures.is_refused(leg_id)) bands.leg = table.leg;
      out.bands = bands;
    }
    if (party.rest_every_min > 0 && !figures.is_refused(rests_id)) {
      const double an_hour = figures.pace.stops.estimate().value * figures.pace.stop_min;
      out.rest_min = std::clamp(an_hour * party.rest_every_min / 60, 0.0, 120.0);
    }
  }
  (void)basis;
  return out;
}

std::vector<mapdata::KindChange> learnt_kinds(const PartyFigures& figures, const Basis& basis) {
  std::vector<mapdata::KindChange> out;
  const auto v = static_cast<std::size_t>(basis.party.visibility);
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const auto kind = static_cast<mapdata::Kind>(k);
    auto known = basis.kinds[kind].recognised;
    if (known[v] <= 0 || known[v] >= 1) continue;
    // A line by how often lines were noticed; where none was crossed, as all else by ends.
    const bool crossed = is_line(kind) && figures.find(Quantity::notice) != nullptr;
    const auto what = crossed ? Quantity::notice : Quantity::know;
    const auto* all = figures.find(what);
    const auto* own = kind == mapdata::Kind::other ? nullptr : figures.find(what, kind);
    if (own == nullptr && all == nullptr) continue;
    known[v] = own != nullptr ? own->estimate.value
                              : numeric::shifted_chance(known[v], 0.5 * detail::shift_of(*all));
    mapdata::KindChange change;
    change.kind = kind;
    change.recognised = known;
    out.push_back(change);
  }
  return out;
}

std::vector<std::string> not_shown(const PartyRecord& record, const PartyFigures& figures,
                                   const Basis& basis) {
  std::vector<std::string> out;
  bool seen[mapdata::visibility_count]{}, open = false, followed = false;
  double desk = 0;
  for (const auto& m : record.measured) {
    seen[static_cast<std::size_t>(m.conditions)] = true;
    open |= m.exercise == Exercise::bearing;
    followed |= m.exercise == Exercise::followed;
    if (m.exercise == Exercise::setting) desk += m.trials;
  }
  const auto l = basis.language;
  using units::in, units::said;
  if (!record.measured.empty() && !seen[static_cast<std::size_t>(basis.party.visibility)]) {
    constexpr std::array<const char*, mapdata::visibility_count> german{"klarer Sicht", "Wolken",
                                                                        "der Nacht", "Schnee"};
    const auto v = static_cast<std::size_t>(basis.party.visibility);
    out.push_back(said(l,
                       "Nothing was measured in {}: half of what was measured otherwise is carried "
                       "over, and that is a guess.",
                       "In {} wurde nichts gemessen: die Hälfte von dem, was sonst gemessen wurde, "
                       "wird übertragen, und das ist geraten.",
                       l == units::Language::german ? std::string_view(german[v])
                                                    : visibility_name(basis.party.visibility)));
  }
  if (!open)
    out.emplace_back(in(
        l,
        "No open bearing course: what all legs share (compass, stride) stays at the table. A "
        "closed triangle cannot show it.",
        "Kein offener Kompasslauf: was allen Abschnitten gemein ist (Kompass, Schritt), bleibt bei "
        "der Tabelle. Ein geschlossenes Dreieck kann es nicht zeigen."));
  if (!followed)
    out.emplace_back(
        in(l,
           "Keeping a path was not measured: a day is too short for it. 10 km without a loss prove "
           "only that 30 in 100 keep 4 km. Debrief your trips.",
           "Ob ein Pfad gehalten wird, wurde nicht gemessen: dafür ist ein Tag zu kurz. 10 km ohne "
           "Verlust beweisen nur, dass 30 von 100 4 km halten. Besprecht eure Touren nach."));
  for (const auto& f : figures.all) {
    if ((f.quantity == Quantity::know || f.quantity == Quantity::branch) && f.trials > 0 &&
        f.estimate.value > f.table && f.kind == mapdata::Kind::other)
      out.push_back(said(
          l,
          "{}: the day can find a bad figure, not prove a good one: {:.0f} trials without a miss "
          "would still allow {:.0f} misses in 100.",
          "{}: der Tag kann eine schlechte Zahl finden, keine gute beweisen: {:.0f} Versuche ohne "
          "Fehler ließen noch {:.0f} Fehler von 100 zu.",
          quantity_words(f.quantity, l), f.trials, 100 * (1 - std::pow(0.05, 1 / f.trials))));
  }
  if (desk > 0)
    out.emplace_back(
        in(l,
           "Gross errors were counted at a desk: on a hill, cold and hurried, there are more. Take "
           "the figure as the least.",
           "Grobe Fehler wurden am Tisch gezählt: am Berg, kalt und in Eile, sind es mehr. Nehmt "
           "die Zahl als das Mindeste."));
  return out;
}

}  // namespace lodeway::learn
