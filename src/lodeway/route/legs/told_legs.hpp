#pragma once
/// The legs of pieces that come up again and again, for the ways of one front share most of them:
/// cut and described once each. Not for use outside route.
#include <algorithm>
#include <map>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// Of one request: a piece's legs rest else only on its line and its points. Filled by `tell`; then
/// read from any thread.
class ToldLegs {
 public:
  /// Cuts and describes those of the pieces that are not known yet.
  void tell(const Cutting& c, const std::vector<Piece>& pieces, numeric::Parallel& parallel);
  /// What `legs_of_piece` gives for it, or null where that was not told.
  [[nodiscard]] const std::vector<walking::Leg>* find(const Piece& piece) const {
    const auto known = legs_.find(piece);
    return known == legs_.end() ? nullptr : &known->second;
  }

 private:
  struct ByLineAndPoints {
    bool operator()(const Piece& a, const Piece& b) const {
      if (a.line != b.line) return a.line < b.line;
      return std::ranges::lexicographical_compare(
          a.points, b.points, [](earth::GridPoint p, earth::GridPoint q) {
            return p.east_m != q.east_m ? p.east_m < q.east_m : p.north_m < q.north_m;
          });
    }
  };
  std::map<Piece, std::vector<walking::Leg>, ByLineAndPoints> legs_;
};

}  // namespace lodeway::route
