#include "lodeway/route/graph/since_tick.hpp"

#include <algorithm>
#include <utility>

namespace lodeway::route {

using earth::GridPoint;

SinceTick::SinceTick(const Lines& lines) : lines_(lines) {
  for (auto& kept : at_end_) {
    kept = std::vector<std::atomic<double>>(2 * lines.pieces.size());
    for (auto& one : kept) one.store(-1, std::memory_order_relaxed);
  }
}

std::optional<std::uint32_t> SinceTick::before(std::uint32_t run) const {
  for (const auto back : lines_.spots[lines_.start(run)].out) {
    if (lines_.goes_on(back ^ 1U, run)) return back ^ 1U;
  }
  return std::nullopt;
}

double SinceTick::at(const landmarks::Surroundings& around, std::uint32_t run, double to_m,
                     mapdata::Visibility visibility) const {
  const auto followed = static_cast<int>(lines_.pieces[run / 2].line);
  std::vector<std::vector<GridPoint>> back;  // pieces of the way, the last first
  double length = 0;
  for (std::optional<std::uint32_t> on = run; on && length < looked_back_m; on = before(*on)) {
    const double to = back.empty() ? to_m : lines_.pieces[*on / 2].length_m;
    const double from = std::max(0.0, to - (looked_back_m - length));
    back.push_back(lines_.points(*on, from, to));
    length += to - from;
  }
  auto way = std::move(back.back());
  for (auto piece = back.rbegin() + 1; piece != back.rend(); ++piece)
    way.insert(way.end(), piece->begin() + 1, piece->end());
  auto met = around.along(way, followed, visibility);
  std::erase_if(met, [](const landmarks::Sighting& s) {  // of its own bends nobody is sure which it is
    return s.meeting == landmarks::Meeting::bends;
  });
  return met.empty() ? length : length - met.back().at_m;
}

double SinceTick::at_end(const landmarks::Surroundings& around, std::uint32_t run,
                         mapdata::Visibility visibility) const {
  auto& kept = at_end_[static_cast<std::size_t>(visibility)][run];
  double out = kept.load(std::memory_order_relaxed);
  if (out < 0) {
    out = at(around, run, lines_.pieces[run / 2].length_m, visibility);
    kept.store(out, std::memory_order_relaxed);
  }
  return out;
}

}  // namespace lodeway::route
