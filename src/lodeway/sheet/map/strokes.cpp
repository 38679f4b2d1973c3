#include "lodeway/sheet/map/strokes.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::sheet {

std::vector<Mm> on_page(const MapFrame& f, const std::vector<earth::GridPoint>& line,
                        double least_mm) {
  std::vector<Mm> out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Mm m = f.on_page(line[i]);
    const bool last = i + 1 == line.size();
    if (out.empty() || last || std::hypot(m.x - out.back().x, m.y - out.back().y) > least_mm)
      out.push_back(m);
  }
  return out;
}

double length_mm(const std::vector<Mm>& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i)
    sum += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  return sum;
}

Mm point_at(const std::vector<Mm>& line, double share, Mm& direction) {
  double left = share * length_mm(line);
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Mm v{line[i].x - line[i - 1].x, line[i].y - line[i - 1].y};
    const double length = std::hypot(v.x, v.y);
    if (length > 0 && (left <= length || i + 1 == line.size())) {
      direction = {v.x / length, v.y / length};
      return {line[i - 1].x + left * direction.x, line[i - 1].y + left * direction.y};
    }
    left -= length;
  }
  direction = {1, 0};
  return line.back();
}

void each_step(const std::vector<Mm>& line, double step, const std::function<void(Mm, Mm)>& use) {
  double left = 0.5 * step;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Mm a = line[i - 1], v{line[i].x - a.x, line[i].y - a.y};
    const double length = std::hypot(v.x, v.y);
    if (length == 0) continue;
    for (; left <= length; left += step)
      use({a.x + left / length * v.x, a.y + left / length * v.y}, {v.x / length, v.y / length});
    left -= length;
  }
}

double distance_mm(Mm p, const std::vector<Mm>& line) {
  double least = 1e9;
  if (line.size() == 1) return std::hypot(line[0].x - p.x, line[0].y - p.y);
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Mm v{line[i].x - line[i - 1].x, line[i].y - line[i - 1].y};
    const double squared = v.x * v.x + v.y * v.y;
    const double along = (p.x - line[i - 1].x) * v.x + (p.y - line[i - 1].y) * v.y;
    const double t = squared > 0 ? std::clamp(along / squared, 0.0, 1.0) : 0.0;
    least =
        std::min(least, std::hypot(line[i - 1].x + t * v.x - p.x, line[i - 1].y + t * v.y - p.y));
  }
  return least;
}

std::vector<Mm> beside(const std::vector<Mm>& line, double by) {
  std::vector<Mm> out;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Mm a = line[i > 0 ? i - 1 : 0], b = line[std::min(i + 1, line.size() - 1)];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    if (length == 0) continue;
    const Mm p{line[i].x - by * (b.y - a.y) / length, line[i].y + by * (b.x - a.x) / length};
    if (distance_mm(p, line) > 0.85 * std::abs(by)) out.push_back(p);
  }
  return out;
}

std::vector<std::vector<Mm>> pieces_inside(const std::vector<Mm>& line, Mm low, Mm high) {
  std::vector<std::vector<Mm>> out;
  bool open = false;
  for (std::size_t i = 1; i < line.size(); ++i) {
    // Liang and Barsky 1984, A New Concept and Method for Line Clipping, ACM Trans. Graphics 3(1).
    const Mm a = line[i - 1], v{line[i].x - a.x, line[i].y - a.y};
    double from = 0, to = 1;
    const auto cut = [&](double speed, double room) {
      if (speed == 0) return room >= 0;
      const double t = room / speed;
      (speed < 0 ? from : to) = speed < 0 ? std::max(from, t) : std::min(to, t);
      return from <= to;
    };
    if (!cut(-v.x, a.x - low.x) || !cut(v.x, high.x - a.x) || !cut(-v.y, a.y - low.y) ||
        !cut(v.y, high.y - a.y)) {
      open = false;
      continue;
    }
    if (!open || from > 0) out.push_back({{a.x + from * v.x, a.y + from * v.y}});
    out.back().push_back({a.x + to * v.x, a.y + to * v.y});
    open = to >= 1;
  }
  return out;
}

}  // namespace lodeway::sheet
