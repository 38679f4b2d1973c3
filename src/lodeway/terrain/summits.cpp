#include "lodeway/terrain/summits.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <numeric>
#include <tuple>

#include "lodeway/terrain/detail/basins.hpp"

namespace lodeway::terrain {

namespace {

/// A hill as it grows together with others while the water sinks. All heights turned upside down.
struct Hill {
  std::uint32_t top = 0;  ///< cell of the highest place
  float top_depth = 0;
  float rim_depth = std::numeric_limits<float>::infinity();    ///< of its highest cell at the rim
  float base_depth = -std::numeric_limits<float>::infinity();  ///< of its lowest cell
};

class Merging {
 public:
  explicit Merging(const Elevation& heights)
      : ground_(heights, -1.0F),
        descent_(detail::steepest_descent(ground_)),
        basins_(detail::basins_of(ground_, descent_, false)),
        hills_(basins_.bottom.size()),
        part_of_(basins_.bottom.size()) {
    std::iota(part_of_.begin(), part_of_.end(), 0U);
    for (std::size_t b = 1; b < hills_.size(); ++b) {
      hills_[b].top = basins_.bottom[b];
      hills_[b].top_depth = ground_.z[basins_.bottom[b]];
    }
    for (std::size_t i = 0; i < ground_.z.size(); ++i) {
      if (basins_.label[i] == detail::Basins::none) continue;
      Hill& hill = hills_[basins_.label[i]];
      hill.base_depth = std::max(hill.base_depth, ground_.z[i]);
      if ((descent_[i] & detail::at_rim) != 0) {
        hill.rim_depth = std::min(hill.rim_depth, ground_.z[i]);
      }
    }
  }

  /// `use(hill, pass or nullptr, top cell of the hill that it joins)` for every hill as it ends.
  template <class Use>
  void run(Use&& use) {
    auto passes = detail::lowest_passes(ground_, basins_);
    std::ranges::sort(passes, {},
                      [](const detail::Pass& p) { return std::tuple(p.height, p.cell, p.a, p.b); });
    for (const auto& pass : passes) {
      std::uint32_t low = find(pass.a), high = find(pass.b);
      if (low == high) continue;
      const auto rank = [&](std::uint32_t h) {
        return std::pair(hills_[h].top_depth, hills_[h].top);
      };
      if (rank(low) < rank(high)) std::swap(low, high);
      use(hills_[low], &pass, hills_[high].top);
      part_of_[low] = high;
      hills_[high].rim_depth = std::min(hills_[high].rim_depth, hills_[low].rim_depth);
      hills_[high].base_depth = std::max(hills_[high].base_depth, hills_[low].base_depth);
    }
    for (std::uint32_t b = 1; b < hills_.size(); ++b) {
      if (find(b) == b) use(hills_[b], nullptr, hills_[b].top);
    }
  }

  [[nodiscard]] earth::GridPoint place(const Frame& frame, std::uint32_t cell) const {
    return frame.centre(ground_.row_of(cell), ground_.col_of(cell));
  }

 private:
  std::uint32_t find(std::uint32_t b) {
    while (part_of_[b] != b) b = part_of_[b] = part_of_[part_of_[b]];
    return b;
  }
  detail::Padded ground_;
  std::vector<std::uint8_t> descent_;
  detail::Basins basins_;
  std::vector<Hill> hills_;
  std::vector<std::uint32_t> part_of_;
};

}  // namespace

std::vector<Summit> summits(const Elevation& heights, double least_prominence_m) {
  assert(least_prominence_m > 0);
  if (heights.empty()) return {};
  Merging merging(heights);
  struct Found {
    Summit summit;
    std::uint32_t cell, joins;
  };
  std::vector<Found> found;
  merging.run([&](const Hill& hill, const detail::Pass* pass, std::uint32_t joins) {
    Summit s;
    s.height_m = -static_cast<double>(hill.top_depth);
    s.has_col = pass != nullptr;
    const float depth = pass != nullptr ? pass->height : hill.base_depth;
    s.col_height_m = -static_cast<double>(depth);
    s.prominence_m = s.height_m - s.col_height_m;
    if (s.prominence_m < least_prominence_m) return;
    s.at = merging.place(heights.frame(), hill.top);
    if (pass != nullptr) s.col = merging.place(heights.frame(), pass->cell);
    s.at_most = hill.rim_depth < depth || pass == nullptr;
    found.push_back({s, hill.top, joins});
  });
  std::ranges::sort(found, [](const Found& a, const Found& b) {
    return std::tuple(-a.summit.height_m, a.cell) < std::tuple(-b.summit.height_m, b.cell);
  });
  std::vector<std::pair<std::uint32_t, std::int32_t>> index;
  for (std::size_t i = 0; i < found.size(); ++i) {
    index.emplace_back(found[i].cell, static_cast<std::int32_t>(i));
  }
  std::ranges::sort(index);
  std::vector<Summit> out;
  out.reserve(found.size());
  for (auto& f : found) {
    if (f.summit.has_col) {
      // Higher ground's own prominence is no less, so it is in the list.
      f.summit.higher =
          std::ranges::lower_bound(index, std::pair(f.joins, std::int32_t{0}))->second;
    }
    out.push_back(f.summit);
  }
  return out;
}

}  // namespace lodeway::terrain
