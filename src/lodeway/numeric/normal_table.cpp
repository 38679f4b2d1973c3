#include "lodeway/numeric/normal_table.hpp"

#include "lodeway/numeric/normal.hpp"

namespace lodeway::numeric {

NormalTable::NormalTable() : at_{} {
  for (std::size_t k = 0; k < nodes; ++k) {
    const double z = static_cast<double>(k) / per_one - end, density = normal_density(z);
    at_[k] = {normal_cdf(z),
              density,
              -z * density / 2,
              (z * z - 1) * density / 6,
              -z * (z * z - 3) * density / 24,
              (z * z * (z * z - 6) + 3) * density / 120};
  }
}

const NormalTable normal_table;

}  // namespace lodeway::numeric
