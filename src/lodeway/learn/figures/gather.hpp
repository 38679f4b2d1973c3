#pragma once
/// Internal to figures: trials of one quantity, weighted.
#include <vector>

#include "lodeway/learn/figures/party_figures.hpp"

namespace lodeway::learn::detail {

/// One error with its weight and the table's sigma for it.
struct Weighed {
  double x = 0, weight = 1, table = 1;
};
struct Trials {
  std::vector<Weighed> here, elsewhere;  ///< in the visibility asked for; in others
};
struct Counts {
  double trials = 0, missed = 0, raw = 0;
  Counts& operator+=(const Counts& more) {
    trials += more.trials;
    missed += more.missed;
    raw += more.raw;
    return *this;
  }
};

/// Factor on the table's spread: 1 worth `worth`, others' half, then these about `shift`.
[[nodiscard]] Estimate factor_of(const Trials& trials, double worth, double prior, double shift,
                                 double shift_sd);
/// A chance with this table; `far` carries half its shift.
[[nodiscard]] Estimate chance_of(double table, double worth, const Counts& near, const Counts& far);

/// How far a chance lies from its table's, in logit: losses as the chance that there is none in a
/// kilometre, gross errors as what goes wrong.
[[nodiscard]] double shift_of(const Figure& figure);

void add_chances(const PartyRecord& record, const Basis& basis, std::vector<Figure>& out);

}  // namespace lodeway::learn::detail
