#pragma once
/// What a step from cell to cell costs, as tables: the same figures serve the fast field, its plain
/// judge, and the lines of the map.
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/terrain/raster.hpp"
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::route {

/// Sixteen neighbours: rows and columns of the step, and its length in cells.
struct Move {
  int row, col;
  float cells;
};
inline constexpr int move_count = 16;
[[nodiscard]] const std::array<Move, move_count>& moves();

/// Pace by slope, one table a model. A step over `run` metres at a slope costs
///   speed     run * slowness * table(slope)                 models that give a speed for a slope
///   climb     run * (slowness * flat + table(slope))        Naismith: climb beside the flat time
///   longer    run * (0.75 (h + v) + 0.25 |h - v|)           DIN: h = slowness * flat, v =
///   table(slope):
///             the longer of the two and half the shorter
/// Slopes are looked up in steps of 1/2048 and held within -2 to 2: pace is within 0.2 % of the
/// model's own where its slope is below 1.5.
class PaceTable {
 public:
  enum class Form : unsigned char { speed, climb, longer };
  static constexpr int steps_a_unit = 2048, half = 2 * steps_a_unit;
  PaceTable(walking::TimeModel model, double flat_kmh);
  /// run above 0 and a finite rise (asserted).
  [[nodiscard]] float step_s(float run_m, float rise_m, float slowness) const;
  [[nodiscard]] float cheapest_s_per_m() const { return cheapest_; }
  [[nodiscard]] float dearest_s_per_m(float slowness) const;
  [[nodiscard]] Form form() const { return form_; }
  [[nodiscard]] float flat_s_per_m() const { return flat_; }
  [[nodiscard]] const std::vector<float>& table() const { return table_; }

 private:
  [[nodiscard]] float pace(std::size_t i, float slowness) const;
  std::vector<float> table_;
  Form form_ = Form::speed;
  float flat_ = 1, cheapest_ = 0;
};

/// No way is as long as this; a step that touches a barred cell is longer. Finite, so that no sum
/// of them is ever "not a number".
inline constexpr float unreached_s = 1e12F, barred_slowness = 1e15F;

/// Open ground is taken this much slower than it is walked: it costs looking at the compass and
/// map, and a leader follows what leads when little is lost by it. *Practice*.
inline constexpr float attention = 1.4F;
/// The same beside a wall, a beck or another handrail that is no path.
inline constexpr float handrail_attention = 1.15F;

/// Heights and slowness (attention / speed factor; barred_slowness where barred) with a rim of two
/// barred cells, so that no step looks outside. Index = (row + 2) * stride + col + 2.
struct CostGround {
  terrain::Frame frame;
  int stride = 0;
  std::vector<float> height, slowness;
  [[nodiscard]] std::uint32_t index(int row, int col) const {
    return static_cast<std::uint32_t>((row + 2) * stride + col + 2);
  }
  [[nodiscard]] std::pair<int, int> cell(std::uint32_t i) const {
    const int k = static_cast<int>(i);
    return {k / stride - 2, k % stride - 2};
  }
};
[[nodiscard]] CostGround cost_ground(const terrain::Elevation& heights, const walking::Cover& cover,
                                     numeric::Parallel& parallel);

/// Seconds of one move from a cell, over unreached_s where it or what it passes over is barred. A
/// knight's move passes midway between two cells, whose mean height parts it in two, so that a bump
/// is not stepped over.
[[nodiscard]] float move_s(const CostGround& ground, const PaceTable& pace, std::uint32_t from,
                           int move);

}  // namespace lodeway::route
