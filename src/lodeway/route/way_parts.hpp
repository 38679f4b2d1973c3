#pragma once
/// The stretches of a trip, each with its front, joined to whole ways. Not for use outside route.
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "lodeway/route/leg_graph.hpp"

namespace lodeway::route {

/// A whole way of the joined front: its cost, and which way is taken on each stretch.
struct WholeWay {
  LegCost cost;
  std::vector<std::uint32_t> taken;
};

class WayParts {
 public:
  explicit WayParts(const Seeking& seeking) : seeking_(seeking) {}

  /// The next stretch. Limits on legs that cannot be kept are loosened as little as will do, and
  /// that is said among the remarks. Faults: as plan_way where no way leads.
  [[nodiscard]] Result<void> add(const walking::Waypoint& from, const walking::Waypoint& to,
                                 std::vector<std::string>& remarks);
  /// Every way over all stretches that none other beats: seconds ascending, loss descending. Of
  /// more than `most_kept` the nearest alike are left out.
  [[nodiscard]] const std::vector<WholeWay>& front() const { return front_; }
  /// Its legs, named and described, not judged.
  [[nodiscard]] walking::Way way(std::size_t index) const;

  static constexpr std::size_t most_kept = 400;
  struct Ends {
    std::string from, to;
  };

 private:
  struct Stretch {
    std::vector<LegCost> costs;
    std::vector<std::vector<walking::Leg>> legs;  ///< of each, when it was given or cut by the field
    std::unique_ptr<LegGraph> graph;              ///< else ways of the graph
    std::vector<FrontWay> ways;
    walking::Waypoint from, to;
  };
  [[nodiscard]] Result<void> search(Stretch& stretch, std::vector<std::string>& remarks) const;
  [[nodiscard]] Result<void> fixed(Stretch& stretch) const;
  [[nodiscard]] std::vector<walking::Leg> legs(const Stretch& stretch, std::size_t way) const;
  void join(const Stretch& stretch);

  const Seeking& seeking_;
  std::vector<Stretch> stretches_;
  std::vector<WholeWay> front_;
};

/// The way of an index of the front, made ready once.
using WayOf = std::function<const NamedWay&(std::size_t)>;
/// Up to three of the front into `out.ways`, and why fewer into the remarks.
void choose(std::span<const LegCost> front, const Wishes& wishes, const WayOf& way_of, Ways& out);

/// The share of a's length that lies within 50 m of b.
[[nodiscard]] double common_share(const walking::Way& a, const walking::Way& b);

}  // namespace lodeway::route
