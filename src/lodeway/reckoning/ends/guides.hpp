#pragma once
/// What the map shows about a leg and its end, as a judge of legs needs it: the mark at the end,
/// the line it lies on, and whatever is like it near by.
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/sight/party_chances.hpp"
#include "lodeway/units/lie.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::reckoning {

using earth::GridPoint;

/// A fix as a party meets it: from how far it is seen, and how often it is then known.
struct Mark {
  std::uint32_t fix = 0;  ///< index into Guides::fixes()
  GridPoint at;
  double seen_from_m = 0, recognised = 0;
};

/// A place on a line of the map.
struct OnLine {
  std::size_t line = 0;  ///< Guides::line
  double along_m = 0;    ///< from its first point
  double away_m = 0;     ///< from the place asked for
  units::Lie lie;        ///< of the line there
  GridPoint at;
  std::uint32_t segment = 0;  ///< that holds it: from this point of the line to the next
};

/// A line that a leg crosses.
struct Crossed {
  std::size_t line = 0;
  double at_m = 0;       ///< along the leg
  units::Lie lie;        ///< of the line there
};

/// The lines of a ground that lead or catch, as a party takes them: pieces of one kind that the map
/// cuts at junctions and bridges are joined where they go on (by at most 75 degrees). Tunnels left
/// out.
struct TakenLines {
  explicit TakenLines(const walking::Ground& ground);
  std::vector<mapdata::LineFeature> lines;
  mapdata::LineIndex index;
};

/// What can guide a party, as it is in its air and for its skill. Keeps references to the ground; every const
/// function may be called from any thread.
class Guides {
 public:
  /// `fixes`, `taken`: of this ground, made here when not given.
  Guides(const walking::Ground& ground, const sight::PartyChances& chances,
         std::shared_ptr<const landmarks::Fixes> fixes = nullptr,
         std::shared_ptr<const TakenLines> taken = nullptr);

  /// A fix as this party meets it.
  [[nodiscard]] Mark mark(std::uint32_t fix) const;
  /// The best recognised fix within `radius_m`; none that is known less often than `least_known`.
  [[nodiscard]] std::optional<Mark> mark_at(GridPoint p, double least_known,
                                            double radius_m = 15) const;
  /// Lines that lead or catch within `radius_m`, nearest first; tunnels left out.
  [[nodiscard]] std::vector<OnLine> lines_at(GridPoint p, double radius_m = 12) const;
  /// Lines that lead or catch and cross the straight leg, in the order they are met.
  [[nodiscard]] std::vector<Crossed> crossed(GridPoint from, GridPoint to) const;
  /// Fixes within `beside_m` of the leg that are seen at all, in their own order.
  [[nodiscard]] std::vector<Mark> marks_along(GridPoint from, GridPoint to, double beside_m) const;
  [[nodiscard]] const landmarks::Fixes& fixes() const { return *fixes_; }

  [[nodiscard]] const mapdata::KindTraits& traits(mapdata::Kind kind) const;
  [[nodiscard]] double seen_from(mapdata::Kind kind) const;
  /// A line or thing of this kind is noticed by who comes to it.
  [[nodiscard]] double noticed(mapdata::Kind kind) const {
    return chances_.of(sight::ChanceOf::notice, kind);
  }
  [[nodiscard]] const sight::PartyChances& chances() const { return chances_; }
  /// The same things, for a party with other chances.
  [[nodiscard]] Guides with(const sight::PartyChances& chances) const {
    Guides out = *this;
    out.chances_ = chances;
    return out;
  }
  /// Of TakenLines.
  [[nodiscard]] const mapdata::LineFeature& line(std::size_t i) const { return taken_->lines[i]; }

 private:
  const walking::Ground& ground_;
  sight::PartyChances chances_;
  std::size_t visibility_;
  std::shared_ptr<const TakenLines> taken_;
  std::shared_ptr<const landmarks::Fixes> fixes_;
};

}  // namespace lodeway::reckoning
