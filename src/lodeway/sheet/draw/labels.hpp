#pragma once
/// Room for text on a map: nothing is set where something stands already.
#include <vector>

#include "lodeway/sheet/draw/page.hpp"

namespace lodeway::sheet {

/// Upright box on the page, millimetres.
struct Room {
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  [[nodiscard]] bool meets(const Room& o) const {
    return x0 < o.x1 && o.x0 < x1 && y0 < o.y1 && o.y0 < y1;
  }
};

/// The box around a line of text set at `at`, turned; 0.25 mm of air around it.
[[nodiscard]] Room room_of(Mm at, double width_mm, double size_mm, Anchor anchor,
                           double turn_deg = 0);

class Labels {
 public:
  Labels(Room inside) : inside_(inside) {}
  /// Takes the room when it is free and inside the map.
  [[nodiscard]] bool take(const Room& room);
  [[nodiscard]] bool free(const Room& room) const;
  /// Takes it whether free or not (things that are drawn anyway).
  void hold(const Room& room) { taken_.push_back(room); }
  [[nodiscard]] const std::vector<Room>& taken() const { return taken_; }

 private:
  Room inside_;
  std::vector<Room> taken_;
};

/// A name beside a point: right, left, above, below, first free place; false when there is none.
bool name_beside(Page& page, Labels& labels, const std::string& words, Mm at, double clear_mm,
                 const Type& type);
/// A name centred on a place, or a little moved from it.
bool name_over(Page& page, Labels& labels, const std::string& words, Mm at, const Type& type);
/// A name along a line on the page, at the straightest free stretch; upright within 90 degrees.
bool name_along(Page& page, Labels& labels, const std::string& words, const std::vector<Mm>& line,
                const Type& type);

}  // namespace lodeway::sheet
