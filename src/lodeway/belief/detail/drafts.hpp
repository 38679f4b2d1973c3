#pragma once
/// The questions that may be asked: their answers, how likely each of them is at a place, and what
/// is told by it.
#include <functional>
#include <span>
#include <vector>

#include "lodeway/belief/detail/asked.hpp"
#include "lodeway/belief/questions.hpp"

namespace lodeway::belief::detail {

struct Draft {
  Question question;
  /// What is told by an answer's number.
  std::function<Report(std::size_t)> told;
  std::function<void(Asked&)> put;
};

/// All that may be looked at and told from where one stands, which may be any of the cells.
[[nodiscard]] std::vector<Draft> looks(const CuePlanes& planes, mapdata::Visibility visibility,
                                       std::span<const std::size_t> cells, const Asking& asking);

/// To walk and tell again, and from how many of the cells, of 1, that leads onto ground to keep off.
struct WalkDraft {
  Draft draft;
  double share_barred = 0;
};
[[nodiscard]] WalkDraft walk(Do act, const Asking& asking, const Asked& asked);

}  // namespace lodeway::belief::detail
