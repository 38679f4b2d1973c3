#include "lodeway/learn/figures/party_figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <numbers>
#include <tuple>

#include "lodeway/learn/figures/gather.hpp"
#include "lodeway/learn/record/evidence.hpp"
#include "lodeway/reckoning/defaults.hpp"

namespace lodeway::learn {

namespace {
using detail::Trials;
using detail::Weighed;
constexpr double degree = std::numbers::pi / 180;
constexpr double spread_worth = 4;
// A run's double paces scatter by 3 in 100; another party's by 6 about the length of its stride
// [practice]. Guessing times: each guess 10 in 100, the habit 15.
constexpr double pace_sd = 0.06, run_sd = 0.03, guess_sd = 0.15, one_guess_sd = 0.10;

struct Words {
  std::string_view words, unit;
};
struct Names {
  std::string_view name;
  Words english, german;
  [[nodiscard]] const Words& in(units::Language l) const {
    return l == units::Language::german ? german : english;
  }
};
constexpr std::array<Names, quantity_count> names{{
    {"bearing",
     {"error of a bearing, against the table", "times"},
     {"Fehler einer Peilung, gegen die Tabelle", "mal"}},
    {"distance",
     {"error of a count, against the table", "times"},
     {"Fehler einer Zählung, gegen die Tabelle", "mal"}},
    {"compass",
     {"compass, shared by all legs (right +)", "°"},
     {"Kompass, allen Abschnitten gemein (rechts +)", "°"}},
    {"stride",
     {"count, shared by all legs (long +)", ""},
     {"Zählung, allen Abschnitten gemein (weit +)", ""}},
    {"paces", {"double paces for 100 m", ""}, {"Doppelschritte auf 100 m", ""}},
    {"gross",
     {"bearing set over 15° wrong", "in 100"},
     {"Peilung über 15° falsch eingestellt", "von 100"}},
    {"know", {"end known for what it is", "in 100"}, {"Ende als solches erkannt", "von 100"}},
    {"notice", {"line noticed and named", "in 100"}, {"Linie bemerkt und benannt", "von 100"}},
    {"branch", {"right branch at a fork", "in 100"}, {"richtiger Ast am Abzweig", "von 100"}},
    {"losses", {"times a line is lost, each km", ""}, {"Linie verloren, je km", ""}},
    {"sweep", {"strip that a search sweeps", "m"}, {"Streifen, den eine Suche erfasst", "m"}},
    {"noticing",
     {"until a wrong branch is noticed", "m"},
     {"bis ein falscher Ast bemerkt wird", "m"}},
    {"doubting",
     {"until a wrong bearing is doubted", "m"},
     {"bis an falscher Richtung gezweifelt wird", "m"}},
    {"height", {"error of a guessed height", "m"}, {"Fehler einer geschätzten Höhe", "m"}},
    {"fall", {"error of the fall of the ground", "°"}, {"Fehler der Fallrichtung", "°"}},
    {"sight_bearing", {"error of a bearing taken", "°"}, {"Fehler einer genommenen Peilung", "°"}},
    {"area",
     {"place lies in the area drawn", "in 100"},
     {"Ort liegt in der gezeichneten Fläche", "von 100"}},
    {"time_guess", {"guessed time (long +)", ""}, {"geschätzte Zeit (lang +)", ""}},
}};

bool counts_for(const Measured& m, const std::string& who) {
  return who.empty() || m.who.empty() || m.who == who;
}

/// One side of the misses at the pegs: angles or fractions, with the table's sigma for such a leg.
Trials misses(const PartyRecord& record, const Basis& basis, const reckoning::Errors& e,
              bool across, bool open_only, const std::string& who) {
  Trials out;
  for (const auto& m : record.measured) {
    const bool open = m.exercise == Exercise::bearing;
    if ((!open && (open_only || m.exercise != Exercise::triangle)) || !counts_for(m, who)) continue;
    const double w = weight_of(m.date, m.training, basis.today);
    const double sightings = std::max(1.0, m.leg_m / e.sighting_every_m);
    const double table =
        across ? std::hypot(e.bearing_sigma, e.sighting_sigma / std::sqrt(sightings)) / degree
               : std::hypot(e.distance_sigma, e.distance_random / std::sqrt(m.leg_m));
    for (const double off : across ? m.across_m : m.along_m) {
      const double x = across ? std::atan2(off, m.leg_m) / degree : off / m.leg_m;
      (m.conditions == basis.party.visibility ? out.here : out.elsewhere).push_back({x, w, table});
    }
  }
  return out;
}

double weight_sum(const std::vector<Weighed>& trials) {
  double sum = 0;
  for (const auto& t : trials) sum += t.weight;
  return sum;
}

/// The spread about what all share, and the shared part, each given the other, until both stand.
struct Both {
  Estimate factor;
  Shift shift;
  double trials = 0, evidence = 0, open_trials = 0;
};
Both both(const PartyRecord& record, const Basis& basis, const reckoning::Errors& e, bool across,
          double shared_sd) {
  const auto all = misses(record, basis, e, across, false, basis.who);
  const auto open = misses(record, basis, e, across, true, basis.who);
  Both out;
  double prior = 1;
  if (!basis.who.empty()) {  // the group first: the person is one of them
    auto group = basis;
    group.who.clear();
    prior = both(record, group, e, across, shared_sd).factor.value;
  }
  out.shift = {0, shared_sd, 1};
  for (int round = 0; round < 20; ++round) {
    out.factor = detail::factor_of(all, spread_worth, prior, out.shift.mean, out.shift.sd);
    double precision = 0, sum = 0;
    for (const auto* list : {&open.here, &open.elsewhere}) {
      for (const auto& t : *list) {
        precision += t.weight / (t.table * t.table);
        sum += t.weight * t.x / (t.table * t.table);
      }
    }
    const double evidence = weight_sum(open.here) + weight_sum(open.elsewhere);
    precision *= capped(evidence);
    sum *= capped(evidence);
    out.shift = shared_shift(0, shared_sd, precision, precision > 0 ? sum / precision : 0,
                             out.factor.value);
  }
  out.trials = static_cast<double>(all.here.size() + all.elsewhere.size());
  out.open_trials = static_cast<double>(open.here.size() + open.elsewhere.size());
  out.evidence = std::min(most_trials, weight_sum(all.here));
  return out;
}

void add_reckoning(const PartyRecord& record, const Basis& basis, std::vector<Figure>& out) {
  auto table_party = basis.party;
  table_party.errors = {};
  const auto e = reckoning::errors_of(table_party);
  const auto angles = both(record, basis, e, true, e.compass_sigma / degree);
  const auto counts = both(record, basis, e, false, e.stride_sigma);
  const auto tell = [&](Quantity q, double table, const Estimate& estimate, double trials,
                        double evidence) {
    if (trials > 0)
      out.push_back(
          {q, mapdata::Kind::other, PaceGround::level, table, estimate, trials, evidence});
  };
  tell(Quantity::bearing, 1, angles.factor, angles.trials, angles.evidence);
  tell(Quantity::distance, 1, counts.factor, counts.trials, counts.evidence);
  tell(Quantity::compass, 0, angles.shift.estimate(), angles.open_trials, angles.evidence);
  tell(Quantity::stride, 0, counts.shift.estimate(), counts.open_trials, counts.evidence);
}

void add_paces(const PartyRecord& record, const Basis& basis, std::vector<Figure>& out) {
  for (int g = 0; g < pace_ground_count; ++g) {
    double weight = 0, sum = 0, raw = 0;
    for (const auto& m : record.measured) {
      if (m.exercise != Exercise::pacing || static_cast<int>(m.ground) != g ||
          !counts_for(m, basis.who))
        continue;
      const double w = weight_of(m.date, false, basis.today);  // a tape is a tape
      for (const double n : m.double_paces) {
        weight += w;
        sum += w * std::log(n * 100 / m.course_m);
        raw += 1;
      }
    }
    if (raw <= 0) continue;
    const double table = 100 / (2 * basis.party.stride_m);
    auto e = shared_shift(std::log(table), pace_sd, weight, sum / weight, run_sd).estimate();
    e = {std::exp(e.value), std::exp(e.low), std::exp(e.high), e.table_share};
    out.push_back(
        {Quantity::paces, mapdata::Kind::other, static_cast<PaceGround>(g), table, e, raw, weight});
  }
}

void add_reports(const PartyRecord& record, const Basis& basis, std::vector<Figure>& out) {
  struct Row {
    Quantity quantity;
    double table;
    std::vector<double> Measured::* list;
  };
  for (const auto& [quantity, table, list] :
       {Row{Quantity::height, 20, &Measured::height_off_m},
        Row{Quantity::fall, 20, &Measured::fall_off_deg},
        Row{Quantity::sight_bearing, 5, &Measured::bearing_off_deg}}) {
    Trials trials;
    for (const auto& m : record.measured) {
      if (m.exercise != Exercise::drops || !counts_for(m, basis.who)) continue;
      const double w = weight_of(m.date, m.training, basis.today);
      for (const double x : m.*list)
        (m.conditions == basis.party.visibility ? trials.here : trials.elsewhere)
            .push_back({x, w, table});
    }
    const auto raw = static_cast<double>(trials.here.size() + trials.elsewhere.size());
    if (raw <= 0) continue;
    auto e = detail::factor_of(trials, spread_worth, 1, 0, 0);
    for (double* v : {&e.value, &e.low, &e.high}) *v *= table;
    out.push_back({quantity, mapdata::Kind::other, PaceGround::level, table, e, raw,
                   std::min(most_trials, weight_sum(trials.here))});
  }
  double weight = 0, sum = 0, raw = 0;
  for (const auto& m : record.measured) {
    if (m.exercise != Exercise::time) continue;
    const double w = weight_of(m.date, m.training, basis.today);
    for (std::size_t i = 0; i < m.guessed_min.size(); ++i) {
      weight += w;
      sum += w * std::log(m.guessed_min[i] / m.true_min[i]);
      raw += 1;
    }
  }
  if (raw > 0) {
    const auto s = shared_shift(0, guess_sd, weight, sum / weight, one_guess_sd).estimate();
    out.push_back({Quantity::time_guess,
                   mapdata::Kind::other,
                   PaceGround::level,
                   0,
                   {std::expm1(s.value), std::expm1(s.low), std::expm1(s.high), s.table_share},
                   raw,
                   weight});
  }
}

}  // namespace

namespace detail {
Estimate factor_of(const Trials& trials, double worth, double prior, double shift,
                   double shift_sd) {
  const auto sum = [&](const std::vector<Weighed>& list, double at) {
    double squares = 0;
    for (const auto& t : list) {
      const double x = t.x - shift;
      squares += t.weight * (x * x + shift_sd * shift_sd) / (t.table * t.table) / (at * at);
    }
    return squares;
  };
  double from = prior;
  if (!trials.elsewhere.empty()) {
    const double n = weight_sum(trials.elsewhere), k = capped(n);
    const auto there = spread(1, worth, n * k, sum(trials.elsewhere, prior) * k);
    from = prior * std::sqrt(there.value);
  }
  const double n = weight_sum(trials.here), k = capped(n);
  auto e = spread(1, worth, n * k, sum(trials.here, from) * k);
  for (double* v : {&e.value, &e.low, &e.high}) *v *= from;
  return e;
}
}  // namespace detail

std::string_view quantity_name(Quantity q) { return names[static_cast<std::size_t>(q)].name; }
std::string_view quantity_words(Quantity q, units::Language l) {
  return names[static_cast<std::size_t>(q)].in(l).words;
}
std::string_view quantity_unit(Quantity q, units::Language l) {
  return names[static_cast<std::size_t>(q)].in(l).unit;
}

std::string figure_id(const Figure& f) {
  std::string out(quantity_name(f.quantity));
  if (f.quantity == Quantity::paces) {
    out += '.';
    out += pace_ground_name(f.ground);
  } else if (f.kind != mapdata::Kind::other) {
    out += '.';
    out += mapdata::kind_name(f.kind);
  }
  return out;
}

bool names_a_figure(std::string_view id) {
  if (id == minutes_id || id == leg_id || id == rests_id) return true;
  const auto dot = id.find('.');
  const auto named = std::ranges::find(names, id.substr(0, dot), &Names::name);
  if (named == names.end()) return false;
  if (dot == std::string_view::npos) return true;
  const auto of = id.substr(dot + 1);
  if (named - names.begin() != static_cast<int>(Quantity::paces))
    return mapdata::kind_from_name(of).has_value();
  for (int g = 0; g < pace_ground_count; ++g) {
    if (pace_ground_name(static_cast<PaceGround>(g)) == of) return true;
  }
  return false;
}

bool PartyFigures::is_refused(std::string_view id) const {
  return std::ranges::find(refused, id) != refused.end();
}

std::vector<Figure> PartyFigures::measured() const {
  auto out = all;
  out.insert(out.end(), left.begin(), left.end());
  std::ranges::sort(out, {},
                    [](const Figure& f) { return std::tuple(f.quantity, f.kind, f.ground); });
  return out;
}

const Figure* PartyFigures::find(Quantity quantity, mapdata::Kind kind) const {
  for (const auto& f : all) {
    if (f.quantity == quantity && f.kind == kind) return &f;
  }
  return nullptr;
}

PartyFigures figures_of(const PartyRecord& record, const Basis& basis) {
  PartyFigures out;
  add_reckoning(record, basis, out.all);
  add_paces(record, basis, out.all);
  detail::add_chances(record, basis, out.all);
  add_reports(record, basis, out.all);
  out.refused = record.refused;
  std::ranges::copy_if(out.all, std::back_inserter(out.left),
                       [&](const Figure& f) { return out.is_refused(figure_id(f)); });
  std::erase_if(out.all, [&](const Figure& f) { return out.is_refused(figure_id(f)); });
  std::ranges::stable_sort(out.all, {}, &Figure::quantity);
  out.pace = pace_of(record.walked, basis.party.model, basis.today);
  return out;
}

}  // namespace lodeway::learn
