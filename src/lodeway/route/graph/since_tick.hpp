#pragma once
/// How far the count runs on a line: since the last thing that a card ticks off. Not for use
/// outside route.
#include <array>
#include <atomic>
#include <cstdint>
#include <optional>
#include <vector>

#include "lodeway/landmarks/surroundings.hpp"
#include "lodeway/route/graph/handrail_net.hpp"

namespace lodeway::route {

/// Of one ground, whose lines must outlive it. Asked by any thread.
class SinceTick {
 public:
  explicit SinceTick(const Lines& lines);

  static constexpr double looked_back_m = 1200;  ///< no more is told where nothing is met

  /// Metres, at most `looked_back_m`, of a party that stands `to_m` on `run` and came along it and
  /// what goes on into it: since what `around.along` tells of that way last.
  [[nodiscard]] double at(const landmarks::Surroundings& around, std::uint32_t run, double to_m,
                          mapdata::Visibility visibility) const;
  /// The same at the run's end; worked out once, so ask with the same `around`.
  [[nodiscard]] double at_end(const landmarks::Surroundings& around, std::uint32_t run,
                              mapdata::Visibility visibility) const;
  /// The run that goes on into this one; the first of several.
  [[nodiscard]] std::optional<std::uint32_t> before(std::uint32_t run) const;

 private:
  const Lines& lines_;
  mutable std::array<std::vector<std::atomic<double>>, mapdata::visibility_count>
      at_end_;  ///< by run; negative: not asked yet
};

}  // namespace lodeway::route
