#include "lodeway/learn/record/evidence.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::learn {

double weight_of(std::chrono::year_month_day date, bool training,
                 std::chrono::year_month_day today) {
  const auto days = (std::chrono::sys_days{today} - std::chrono::sys_days{date}).count();
  return (training ? training_counts : 1.0) *
         std::exp2(-std::max(0.0, static_cast<double>(days)) / halves_after_days);
}

}  // namespace lodeway::learn
