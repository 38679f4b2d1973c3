/// Yes or no: ends, lines, forks, gross errors, areas; and what is counted for each kilometre.
#include <algorithm>
#include <cmath>
#include <map>

#include "lodeway/learn/estimate/distributions.hpp"
#include "lodeway/learn/figures/gather.hpp"
#include "lodeway/learn/record/evidence.hpp"
#include "lodeway/numeric/logit.hpp"

namespace lodeway::learn::detail {

Estimate chance_of(double table, double worth, const Counts& near, const Counts& far) {
  double prior = table;
  if (far.trials > 0) {
    const double k = capped(far.trials);
    const auto there = chance(table, worth, far.trials * k, far.missed * k);
    prior = numeric::from_logit(numeric::logit(table) +
                                0.5 * (numeric::logit(there.value) - numeric::logit(table)));
  }
  const double k = capped(near.trials);
  return chance(std::clamp(prior, 1e-4, 1 - 1e-4), worth, near.trials * k, near.missed * k);
}

double shift_of(const Figure& f) {
  const auto logit = [](double p) { return numeric::logit(std::clamp(p, 1e-4, 1 - 1e-4)); };
  if (f.quantity == Quantity::losses)
    return logit(std::exp(-f.estimate.value)) - logit(std::exp(-f.table));
  return logit(f.estimate.value) - logit(f.table);
}

namespace {

/// What the exercises rest on where no kind is said, and how many trials it is worth [practice].
struct Row {
  Quantity quantity;
  Exercise exercise;
  double table, worth;
  bool by_kind;
};
constexpr Row rows[] = {{Quantity::gross, Exercise::setting, 0.02, 50, false},
                        {Quantity::know, Exercise::features, 0.90, 6, true},
                        {Quantity::notice, Exercise::lines, 0.90, 6, true},
                        {Quantity::branch, Exercise::forks, 0.98, 10, false},
                        {Quantity::area, Exercise::drops, 0.90, 6, false}};

double table_of(const Row& row, mapdata::Kind kind, const Basis& basis) {
  if (!row.by_kind || kind == mapdata::Kind::other) return row.table;
  const double known =
      basis.kinds[kind].recognised[static_cast<std::size_t>(basis.party.visibility)];
  return known > 0 ? std::clamp(known, 0.02, 0.99) : row.table;
}

void add_row(const Row& row, const PartyRecord& record, const Basis& basis,
             std::vector<Figure>& out) {
  std::map<mapdata::Kind, Counts> here;
  Counts all_here, elsewhere;
  for (const auto& m : record.measured) {
    if (m.exercise != row.exercise || m.trials <= 0) continue;
    if (!basis.who.empty() && !m.who.empty() && m.who != basis.who) continue;
    const double w = weight_of(m.date, m.training, basis.today);
    const Counts these{w * m.trials, w * m.missed, m.trials};
    if (m.conditions == basis.party.visibility) {
      here[row.by_kind ? m.kind : mapdata::Kind::other] += these;
      all_here += these;
    } else {
      elsewhere += these;
    }
  }
  if (all_here.raw + elsewhere.raw <= 0) return;
  const auto tell = [&](mapdata::Kind kind, const Counts& near, const Counts& far) {
    const double table = table_of(row, kind, basis);
    // A chance of failing is a chance too: gross errors are counted as what goes wrong.
    auto e = chance_of(row.quantity == Quantity::gross ? 1 - table : table, row.worth, near, far);
    if (row.quantity == Quantity::gross) e = {1 - e.value, 1 - e.high, 1 - e.low, e.table_share};
    out.push_back({row.quantity, kind, PaceGround::level, table, e, near.raw + far.raw,
                   near.trials * capped(near.trials)});
  };
  tell(mapdata::Kind::other, all_here, elsewhere);
  for (const auto& [kind, counts] : here) {
    if (kind == mapdata::Kind::other) continue;
    Counts far = elsewhere;
    far += {all_here.trials - counts.trials, all_here.missed - counts.missed, 0};
    tell(kind, counts, far);
  }
}

void add_rates(const PartyRecord& record, const Basis& basis, std::vector<Figure>& out) {
  double finds = 0, exposure = 0, searches = 0;
  double noticed = 0, notice_m = 0, doubted = 0, doubt_m = 0, raw_notice = 0, raw_doubt = 0;
  std::map<mapdata::Kind, std::array<double, 3>> followed;  // losses, km, raw km
  for (const auto& m : record.measured) {
    const double w = weight_of(m.date, m.training, basis.today);
    if (m.exercise == Exercise::features && m.exposure_per_m > 0) {
      finds += w * m.found;
      exposure += w * m.exposure_per_m;
      searches += m.found;
    }
    if (m.exercise == Exercise::followed) {
      auto& f = followed[m.kind];
      f[0] += w * m.missed;
      f[1] += w * m.walked_km;
      f[2] += m.walked_km;
    }
    const bool fork = m.exercise == Exercise::forks;
    if (!fork && m.exercise != Exercise::doubt) continue;
    for (const double metres : m.after_m) {
      (fork ? noticed : doubted) += w;
      (fork ? notice_m : doubt_m) += w * metres;
      (fork ? raw_notice : raw_doubt) += 1;
    }
  }
  const auto tell = [&](Quantity q, mapdata::Kind kind, double table, const Estimate& e, double raw,
                        double weighed) {
    out.push_back({q, kind, PaceGround::level, table, e, raw, weighed});
  };
  for (const auto& [kind, f] : followed) {
    // 95 in 100 keep a path over 4 km, worth 20 km [practice].
    tell(Quantity::losses, kind, -std::log(0.95) / 4, loss_rate(0.95, 4, 20, f[0], f[1]).estimate(),
         f[2], f[1]);
  }
  if (exposure > 0)
    tell(Quantity::sweep, mapdata::Kind::other, 20, sweep_width(finds, exposure).estimate(),
         searches, finds);
  const auto distance = [&](Quantity q, double n, double metres, double raw) {
    if (n > 0)
      tell(q, mapdata::Kind::other, 1000, mean_distance(2, 1000, n, metres).estimate(), raw, n);
  };
  distance(Quantity::noticing, noticed, notice_m, raw_notice);
  distance(Quantity::doubting, doubted, doubt_m, raw_doubt);
}

}  // namespace

void add_chances(const PartyRecord& record, const Basis& basis, std::vector<Figure>& out) {
  for (const auto& row : rows) add_row(row, record, basis, out);
  add_rates(record, basis, out);
}

}  // namespace lodeway::learn::detail
