/// What was counted, as changes to the table of chances.
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "lodeway/learn/figures/gather.hpp"
#include "lodeway/numeric/logit.hpp"

namespace lodeway::learn {

namespace {

/// Of one class: by its own kinds, each by its trials; else half of what all kinds showed.
std::optional<double> shift_of_class(const PartyFigures& figures, Quantity quantity,
                                     sight::KindClass kind) {
  double shift = 0, evidence = 0;
  std::optional<double> of_all;
  for (const auto& f : figures.all) {
    if (f.quantity != quantity) continue;
    if (f.kind == mapdata::Kind::other) {
      of_all = 0.5 * detail::shift_of(f);
    } else if (sight::class_of(f.kind) == kind && f.evidence > 0) {
      shift += f.evidence * detail::shift_of(f);
      evidence += f.evidence;
    }
  }
  return evidence > 0 ? shift / evidence : of_all;
}

}  // namespace

sight::Changes learnt_chances(const PartyFigures& figures, const Basis& basis) {
  const sight::Chances table;
  const auto skill = basis.party.skill;
  sight::Changes out;
  const auto take = [&](sight::ChanceOf of, sight::KindClass kind, double shift) {
    sight::ChanceChange change{of, kind, {}};
    for (int v = 0; v < mapdata::visibility_count; ++v) {
      const auto visibility = static_cast<mapdata::Visibility>(v);
      change.value[static_cast<std::size_t>(v)] =
          numeric::shifted_chance(table.of(of, kind, visibility, skill).value,
                                  visibility == basis.party.visibility ? shift : 0.5 * shift);
    }
    out.chances.push_back(change);
  };
  constexpr std::array counted{std::pair{Quantity::notice, sight::ChanceOf::notice},
                               std::pair{Quantity::losses, sight::ChanceOf::stay},
                               std::pair{Quantity::know, sight::ChanceOf::know}};
  const auto* branch = figures.find(Quantity::branch);
  for (int k = 0; k < sight::kind_class_count; ++k) {
    const auto kind = static_cast<sight::KindClass>(k);
    for (const auto& [quantity, of] : counted) {
      if (const auto shift = shift_of_class(figures, quantity, kind)) take(of, kind, *shift);
    }
    if (branch != nullptr) take(sight::ChanceOf::branch, kind, detail::shift_of(*branch));
  }
  if (const auto* gross = figures.find(Quantity::gross)) {
    const double shift = detail::shift_of(*gross);  // of a chance of failing
    const double p = table.of(sight::Setting::gross_error, skill).value;
    out.settings.push_back(
        {sight::Setting::gross_error, numeric::shifted_chance(p, shift < 0 ? 0.5 * shift : shift)});
  }
  return out;
}

}  // namespace lodeway::learn
