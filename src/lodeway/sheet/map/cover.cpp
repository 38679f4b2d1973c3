#include "lodeway/sheet/map/cover.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/trip/wording.hpp"

namespace lodeway::sheet {

namespace {

using earth::GridPoint;

constexpr double step_mm = 2;
constexpr std::size_t gives_up = 1000;

struct Step {
  GridPoint at;
  std::size_t leg = 0;
  double along_m = 0;
};

/// The way as points no further apart than a step, so that a long leg can be parted.
std::vector<Step> dense(const trip::PlannedWay& way, double step_m) {
  constexpr int most_pieces = 10000;
  std::vector<Step> out;
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    const auto& line = way.legs[k].course.line;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (i > 0) {
        const auto a = line[i - 1], b = line[i];
        const int pieces = static_cast<int>(
            std::min<double>(most_pieces, std::ceil(earth::grid_distance_m(a, b) / step_m)));
        for (int p = 1; p < pieces; ++p)
          out.push_back({a + (static_cast<double>(p) / pieces) * (b - a), k});
      }
      out.push_back({line[i], k});
    }
  }
  for (std::size_t i = 1; i < out.size(); ++i)
    out[i].along_m = out[i - 1].along_m + earth::grid_distance_m(out[i - 1].at, out[i].at);
  return out;
}

/// As far along the way as one map can hold with its rim free; answers the first point beyond.
std::size_t reach(const std::vector<Step>& steps, std::size_t begin, const MapFrame& empty,
                  GroundBox& box) {
  const double wide = empty.metres(empty.w - 2 * inside_mm),
               high = empty.metres(empty.h - 2 * inside_mm);
  std::size_t end = begin;
  for (; end < steps.size(); ++end) {
    GroundBox wider = box;
    wider.add(steps[end].at);
    if (wider.wide() > wide || wider.high() > high) break;
    box = wider;
  }
  return end;
}

/// Taking the form that reaches further, each time, needs the fewest: whoever is further along
/// never needs more from there on.
std::vector<MapFrame> tiles(const std::vector<Step>& steps, const std::vector<MapFrame>& forms) {
  std::vector<MapFrame> out;
  std::size_t begin = 0;
  while (begin < steps.size() && out.size() <= gives_up) {
    std::size_t furthest = begin;
    MapFrame best;
    for (const auto& form : forms) {
      GroundBox box;
      const auto end = reach(steps, begin, form, box);
      if (end <= furthest) continue;
      furthest = end;
      best = centred(form, box.middle());
    }
    if (furthest == begin) ++furthest;  // not to be: one point always fits
    out.push_back(best);
    if (furthest == steps.size()) break;
    std::size_t next = furthest;
    const double back = steps[furthest].along_m - best.metres(overlap_mm);
    while (next > begin + 1 && steps[next].along_m > back) --next;
    begin = std::max(next, begin + 1);
  }
  return out;
}

/// Is the way around step k, to both sides, well inside this map? Both together are a little less
/// than the overlap, because that is counted in whole steps.
bool holds(const MapFrame& f, const std::vector<Step>& steps, std::size_t k) {
  const double around = f.metres(0.4 * overlap_mm);
  const auto inside = [&](std::size_t i) { return f.near(steps[i].at, 0.5 - inside_mm); };
  if (!inside(k)) return false;
  for (auto i = k; i-- > 0 && steps[k].along_m - steps[i].along_m < around;) {
    if (!inside(i)) return false;
  }
  for (auto i = k + 1; i < steps.size() && steps[i].along_m - steps[k].along_m < around; ++i) {
    if (!inside(i)) return false;
  }
  return true;
}

/// A way that comes back over its own ground needs no sheet twice: the latest go first.
void drop_needless(std::vector<MapFrame>& frames, const std::vector<Step>& steps) {
  std::vector<int> holders(steps.size(), 0);
  std::vector<std::vector<bool>> held;
  for (const auto& f : frames) {
    held.emplace_back(steps.size());
    for (std::size_t k = 0; k < steps.size(); ++k) {
      held.back()[k] = holds(f, steps, k);
      holders[k] += held.back()[k] ? 1 : 0;
    }
  }
  for (std::size_t i = frames.size(); i-- > 0 && frames.size() > 1;) {
    bool needed = false;
    for (std::size_t k = 0; k < steps.size() && !needed; ++k) needed = held[i][k] && holders[k] < 2;
    if (needed) continue;
    for (std::size_t k = 0; k < steps.size(); ++k) holders[k] -= held[i][k] ? 1 : 0;
    frames.erase(frames.begin() + static_cast<std::ptrdiff_t>(i));
    held.erase(held.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

/// Where the way crosses the frame of sheet i between two steps, on the frame.
Mm crossing(const MapFrame& f, GridPoint a, GridPoint b) {
  double low = 0, high = 1;  // a is on the map, b is not
  for (int n = 0; n < 40; ++n) {
    const double t = 0.5 * (low + high);
    (f.near(a + t * (b - a)) ? low : high) = t;
  }
  return f.on_page(a + low * (b - a));
}

std::vector<SheetPlace> with_neighbours(const std::vector<MapFrame>& frames,
                                        const std::vector<Step>& steps) {
  std::vector<SheetPlace> out;
  for (const auto& f : frames) out.push_back({f, {}, {}});
  for (std::size_t i = 0; i < out.size(); ++i) {
    const auto& f = out[i].frame;
    for (std::size_t k = 0; k < steps.size(); ++k) {
      const bool on = f.near(steps[k].at);
      if (on && (out[i].legs.empty() || out[i].legs.back() != steps[k].leg))
        out[i].legs.push_back(steps[k].leg);
      if (k == 0 || on == f.near(steps[k - 1].at)) continue;
      const auto inner = on ? k : k - 1, outer = on ? k - 1 : k;
      const Mm at = crossing(f, steps[inner].at, steps[outer].at);
      for (std::size_t j = 0; j < out.size(); ++j) {
        if (j == i || !out[j].frame.near(steps[inner].at) || !holds(out[j].frame, steps, outer))
          continue;
        const bool said = std::ranges::any_of(out[i].goes_on, [&](const GoesOn& g) {
          return g.sheet == j && std::hypot(g.at.x - at.x, g.at.y - at.y) < 8;
        });
        if (!said) out[i].goes_on.push_back({at, j});
        break;
      }
    }
  }
  return out;
}

std::vector<MapFrame> frames_at(const trip::PlannedWay& way, double scale, trip::Paper paper,
                                std::optional<bool> landscape, std::vector<Step>& steps) {
  std::vector<MapFrame> forms;
  for (const bool lying : {false, true}) {
    if (!landscape || *landscape == lying) forms.push_back(empty_frame(scale, paper, lying));
  }
  steps = dense(way, forms.front().metres(step_mm));
  return tiles(steps, forms);
}

}  // namespace

Result<std::vector<SheetPlace>> cover(const trip::PlannedWay& way, double scale, trip::Paper paper,
                                      std::optional<bool> landscape) {
  if (!(scale > 0) || !std::isfinite(scale))
    return fail(FaultCode::bad_input,
                fmt::format("paper.scale: expected a number above 0, got {}", scale));
  std::vector<Step> steps;
  auto frames = frames_at(way, scale, paper, landscape, steps);
  if (frames.size() <= most_sheets) {
    drop_needless(frames, steps);
    return with_neighbours(frames, steps);
  }
  double better = scale;
  for (const double s : {10000.0, 25000.0, 50000.0, 100000.0, 250000.0, 500000.0, 1000000.0}) {
    better = s;
    if (s > scale && frames_at(way, s, paper, landscape, steps).size() <= 8) break;
  }
  return fail(FaultCode::too_large,
              fmt::format("paper.scale: at 1:{:.0f} the way needs {}{} sheets, more than {}; "
                          "expected a scale like 1:{:.0f}",
                          scale, frames.size() > gives_up ? "over " : "",
                          std::min(frames.size(), gives_up), most_sheets, better));
}

Result<std::vector<SheetPlace>> cover_by_hand(const trip::PlannedWay& way, double scale,
                                              trip::Paper paper, std::optional<bool> landscape,
                                              const std::vector<GridPoint>& corners) {
  auto laid = cover(way, scale, paper, landscape);
  if (!laid || corners.empty()) return laid;
  if (corners.size() > most_sheets)
    return fail(FaultCode::too_large, fmt::format("sheets: expected at most {}", most_sheets));
  std::vector<MapFrame> frames;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    frames.push_back((*laid)[std::min(i, laid->size() - 1)].frame);
    frames.back().south_west = corners[i];
  }
  std::vector<Step> steps;
  (void)frames_at(way, scale, paper, landscape, steps);
  return with_neighbours(frames, steps);
}

std::string numbers_text(const std::vector<std::size_t>& indices) {
  auto sorted = indices;
  std::ranges::sort(sorted);
  sorted.erase(std::unique(sorted.begin(), sorted.end()), sorted.end());
  std::string out;
  for (std::size_t i = 0; i < sorted.size();) {
    std::size_t j = i;
    while (j + 1 < sorted.size() && sorted[j + 1] == sorted[j] + 1) ++j;
    out += (out.empty() ? "" : ", ") + std::to_string(sorted[i] + 1);
    if (j > i) out += (j == i + 1 ? ", " : "–") + std::to_string(sorted[j] + 1);
    i = j + 1;
  }
  return out;
}

std::string legs_text(const std::vector<std::size_t>& indices, units::Language language) {
  return trip::say(indices.size() == 1 ? trip::Say::one_leg : trip::Say::legs, language,
                   {numbers_text(indices)});
}

}  // namespace lodeway::sheet
