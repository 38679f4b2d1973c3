#pragma once
/// What lies on each cell of the ground, and where nobody may set foot.
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/point_index.hpp"
#include "lodeway/walking/ground.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::walking {

/// Why a cell may not be entered.
enum class Bar : std::uint8_t {
  none,
  outside,
  void_height,
  water,
  steep,
  river,
  cliff,
  avoided,
  forbidden
};
/// "water", "ground over the slope limit": for a sentence, English.
[[nodiscard]] std::string_view bar_words(Bar bar);

class Cover {
 public:
  Cover() = default;
  /// Rasterises the ground's areas (later ones over earlier, a cell belongs to the area that holds
  /// its centre; barred ones under two cells wide hold their outline's cells too), then the bars
  /// for this party: lakes, sea, glaciers and kinds that forbid; slopes over the party's limit;
  /// cells crossed by a river or cliff (a stream too when it must not be forded) except beside a
  /// bridge or ford; areas to avoid; voids. Deterministic.
  /// `slopes`: terrain::slope_raster of the ground, where it is at hand; saves most of the time.
  Cover(const Ground& ground, const Request& request,
        const terrain::Raster<float>* slopes = nullptr);

  [[nodiscard]] const terrain::Frame& frame() const { return kinds_.frame(); }
  /// Kind of the cover; Kind::other where the map shows none.
  [[nodiscard]] mapdata::Kind kind(int row, int col) const {
    return static_cast<mapdata::Kind>(kinds_[row, col]);
  }
  [[nodiscard]] Bar bar(int row, int col) const {
    return static_cast<Bar>(bars_[row, col] & ~met_here);
  }
  [[nodiscard]] Bar bar_at(earth::GridPoint p) const;
  /// Speed factor of the cover at a cell.
  [[nodiscard]] float factor(int row, int col) const { return factor_of_kind_[kinds_[row, col]]; }
  /// Harmonic mean of the factor along a line over open ground: the factor that gives the same
  /// time.
  [[nodiscard]] double mean_factor(const std::vector<earth::GridPoint>& line) const;
  /// The first barred place along a line, with its bar; bar none when there is none. Cells decide
  /// but for rivers and cliffs: these bar where the line itself meets them, not beside them. A
  /// steep cell bars not where the line begins or ends in it: a summit's own cell is often one.
  struct Blocked {
    Bar bar = Bar::none;
    earth::GridPoint at;
    std::string name;  ///< "Mirk Tarn"; empty when it has none
  };
  [[nodiscard]] Blocked first_bar(earth::GridPoint a, earth::GridPoint b) const;
  /// Is there none? The same answer as `first_bar`, sooner.
  [[nodiscard]] bool clear(earth::GridPoint a, earth::GridPoint b) const;
  /// The first river or cliff (stream, when it must not be forded) that a line meets: a river not
  /// where a line of the map with a bridge carries over, nor within `at_bridge_m` of a bridge or
  /// ford.
  [[nodiscard]] Blocked line_met(earth::GridPoint a, earth::GridPoint b) const;
  static constexpr double at_bridge_m = 15;
  /// Bridges and fords that the map shows as points.
  [[nodiscard]] const std::vector<earth::GridPoint>& openings() const { return openings_; }
  /// Name of the area to avoid, water or forbidden ground at a barred place; empty when it has
  /// none.
  [[nodiscard]] std::string name_at(earth::GridPoint p) const;

 private:
  static constexpr std::uint8_t met_here = 0x80;  ///< beside the bar: a line that bars comes by
  terrain::Raster<std::uint8_t> kinds_, bars_;
  std::array<float, mapdata::kind_count> factor_of_kind_{};
  mapdata::LineIndex barriers_;
  mapdata::LineIndex bridges_;
  std::vector<earth::GridPoint> openings_;
  mapdata::PointIndex openings_by_place_;
  std::vector<mapdata::Label> barrier_labels_;  ///< one a line of barriers_
  std::vector<mapdata::AreaFeature> named_;     ///< barred areas with a name; the leader's first
};

/// "water (Mirk Tarn)", "a cliff": what bars, in words.
[[nodiscard]] std::string bar_words(const Cover::Blocked& blocked);

}  // namespace lodeway::walking
