#include "lodeway/sheet/draw/labels.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace lodeway::sheet {

namespace {
constexpr double air_mm = 0.25, ascent = 0.78, descent = 0.22;
constexpr double deg = 180 / std::numbers::pi;
}  // namespace

Room room_of(Mm at, double width, double size, Anchor anchor, double turn_deg) {
  const double x0 = anchor == Anchor::left ? 0 : anchor == Anchor::middle ? -width / 2 : -width;
  const double c = std::cos(turn_deg / deg), s = std::sin(turn_deg / deg);
  Room out{1e9, 1e9, -1e9, -1e9};
  for (const double x : {x0, x0 + width}) {
    for (const double y : {-ascent * size, descent * size}) {
      const double px = at.x + c * x - s * y, py = at.y + s * x + c * y;
      out = {std::min(out.x0, px), std::min(out.y0, py), std::max(out.x1, px),
             std::max(out.y1, py)};
    }
  }
  return {out.x0 - air_mm, out.y0 - air_mm, out.x1 + air_mm, out.y1 + air_mm};
}

bool Labels::free(const Room& r) const {
  return r.x0 >= inside_.x0 && r.x1 <= inside_.x1 && r.y0 >= inside_.y0 && r.y1 <= inside_.y1 &&
         std::ranges::none_of(taken_, [&](const Room& t) { return t.meets(r); });
}

bool Labels::take(const Room& r) {
  if (!free(r)) return false;
  taken_.push_back(r);
  return true;
}

bool name_beside(Page& page, Labels& labels, const std::string& words, Mm at, double clear_mm,
                 const Type& type) {
  const double w = page.width(words, type), up = 0.36 * type.size_mm, size = type.size_mm;
  // Nearer places first; a second ring is for what stands under a fix of the plan.
  for (const double clear : {clear_mm, clear_mm + 1.4}) {
    const struct {
      Mm at;
      Anchor anchor;
    } places[] = {{{at.x + clear, at.y + up}, Anchor::left},
                  {{at.x - clear, at.y + up}, Anchor::right},
                  {{at.x, at.y - clear - 0.1}, Anchor::middle},
                  {{at.x, at.y + clear + 0.78 * size}, Anchor::middle},
                  {{at.x + clear, at.y - 0.6 * size}, Anchor::left},
                  {{at.x + clear, at.y + 1.3 * size}, Anchor::left},
                  {{at.x - clear, at.y - 0.6 * size}, Anchor::right},
                  {{at.x - clear, at.y + 1.3 * size}, Anchor::right}};
    for (const auto& p : places) {
      if (!labels.take(room_of(p.at, w, size, p.anchor))) continue;
      page.text(words, p.at, type, p.anchor);
      return true;
    }
  }
  return false;
}

bool name_over(Page& page, Labels& labels, const std::string& words, Mm at, const Type& type) {
  const double w = page.width(words, type);
  for (const double dy : {0.0, -1.5, 1.5, -3.0, 3.0}) {
    for (const double dx : {0.0, -0.25, 0.25}) {
      const Mm p{at.x + dx * w, at.y + dy * type.size_mm + 0.3 * type.size_mm};
      if (!labels.take(room_of(p, w, type.size_mm, Anchor::middle))) continue;
      page.text(words, p, type, Anchor::middle);
      return true;
    }
  }
  return false;
}

bool name_along(Page& page, Labels& labels, const std::string& words, const std::vector<Mm>& line,
                const Type& type) {
  const double w = page.width(words, type);
  std::vector<double> d{0};
  for (std::size_t i = 1; i < line.size(); ++i)
    d.push_back(d.back() + std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y));
  if (d.back() < 0.9 * w) return false;
  const auto point = [&](double s) {
    const auto i = std::clamp<std::size_t>(
        static_cast<std::size_t>(std::ranges::upper_bound(d, s) - d.begin()), 1, d.size() - 1);
    const double t =
        d[i] > d[i - 1] ? std::clamp((s - d[i - 1]) / (d[i] - d[i - 1]), 0.0, 1.0) : 0.0;
    return Mm{line[i - 1].x + t * (line[i].x - line[i - 1].x),
              line[i - 1].y + t * (line[i].y - line[i - 1].y)};
  };
  struct Place {
    double bend = 0, turn = 0;
    Mm at;
    Room room;
  };
  std::optional<Place> best;
  for (double s = 0.5 * w; s <= d.back() - 0.5 * w + 1e-9; s += 3) {
    const Mm a = point(s - 0.5 * w), b = point(s + 0.5 * w), m = point(s);
    double turn = std::atan2(b.y - a.y, b.x - a.x) * deg;
    if (turn > 90) turn -= 180;
    if (turn < -90) turn += 180;
    const double chord = std::hypot(b.x - a.x, b.y - a.y);
    const Mm up{std::sin(turn / deg), -std::cos(turn / deg)};
    const Mm at{m.x + 0.45 * type.size_mm * up.x, m.y + 0.45 * type.size_mm * up.y};
    const Place p{1 - chord / w, turn, at, room_of(at, w, type.size_mm, Anchor::middle, turn)};
    if ((!best || p.bend < best->bend) && labels.free(p.room)) best = p;
  }
  if (!best || best->bend > 0.25) return false;
  labels.hold(best->room);
  page.text(words, best->at, type, Anchor::middle, best->turn);
  return true;
}

}  // namespace lodeway::sheet
