#include "lodeway/terrain/streams.hpp"

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

namespace lodeway::terrain {

namespace {

/// What has come down to a confluence so far.
struct Meeting {
  int waiting = 0;  ///< lines that have not arrived yet
  int highest_order = 0;
  int of_that_order = 0;
  std::vector<std::size_t> arrived;
};

class Net {
 public:
  Net(const Drainage& drainage, double least_area_m2) : drainage_(drainage) {
    const Frame& f = drainage.to.frame();
    Raster<std::uint8_t> givers(f);
    const auto flows = [&](int r, int c) {
      return drainage.upstream[r, c] > 0 && drainage.area_m2(r, c) >= least_area_m2;
    };
    for (int r = 0; r < f.rows; ++r) {
      for (int c = 0; c < f.cols; ++c) {
        if (!flows(r, c) || drainage.to[r, c] >= flows_away) continue;
        const auto [dr, dc] = downstream(r, c, drainage.to[r, c]);
        if (++givers[dr, dc] == 2) meetings_[{dr, dc}].waiting = 1;
        if (givers[dr, dc] >= 2) ++meetings_[{dr, dc}].waiting;
      }
    }
    for (int r = 0; r < f.rows; ++r) {
      for (int c = 0; c < f.cols; ++c) {
        if (flows(r, c) && givers[r, c] == 0) walk(r, c, 1, {});
      }
    }
  }
  std::vector<StreamLine> take() { return std::move(lines_); }

 private:
  /// From a head; and on from every confluence that it completes.
  void walk(int row, int col, int order, std::vector<std::size_t> tributaries) {
    while (true) {
      StreamLine line;
      line.order = order;
      line.head_area_m2 = drainage_.area_m2(row, col);
      line.points.push_back(drainage_.to.frame().centre(row, col));
      auto meeting = meetings_.end();
      while (meeting == meetings_.end()) {
        line.end_area_m2 = drainage_.area_m2(row, col);
        if (drainage_.to[row, col] >= flows_away) break;
        std::tie(row, col) = downstream(row, col, drainage_.to[row, col]);
        line.points.push_back(drainage_.to.frame().centre(row, col));
        meeting = meetings_.find({row, col});
      }
      const std::size_t own = lines_.size();
      if (line.points.size() > 1) {
        for (const std::size_t t : tributaries) lines_[t].joins = static_cast<std::int32_t>(own);
        lines_.push_back(std::move(line));
      }
      if (meeting == meetings_.end()) return;
      Meeting& m = meeting->second;
      m.arrived.push_back(own);
      if (order > m.highest_order) m.highest_order = order, m.of_that_order = 0;
      if (order == m.highest_order) ++m.of_that_order;
      if (--m.waiting > 0) return;
      order = m.highest_order + (m.of_that_order > 1 ? 1 : 0);
      tributaries = m.arrived;
    }
  }

  const Drainage& drainage_;
  std::map<std::pair<int, int>, Meeting> meetings_;
  std::vector<StreamLine> lines_;
};

}  // namespace

std::vector<StreamLine> stream_lines(const Drainage& drainage, double least_area_m2) {
  assert(least_area_m2 > 0);
  return Net(drainage, least_area_m2).take();
}

}  // namespace lodeway::terrain
