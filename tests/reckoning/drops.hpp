#pragma once
/// A judge of words that shares nothing with who says them: how far a sentence sends a party, and
/// where a walk comes to a drop.
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include "lodeway/walking/cover.hpp"

namespace lodeway::drops {

using earth::GridPoint;

inline bool says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// The metres that stand before some words, or after; nothing where they are not there.
inline std::optional<double> before(const std::string& text, const std::string& words) {
  const auto at = text.find(words);
  if (at == std::string::npos) return std::nullopt;
  auto from = at;
  while (from > 0 && (std::isdigit(static_cast<unsigned char>(text[from - 1])) != 0)) --from;
  return from == at ? std::nullopt : std::optional(std::atof(text.substr(from, at - from).c_str()));
}
inline std::optional<double> after(const std::string& text, const std::string& words) {
  const auto at = text.find(words);
  if (at == std::string::npos) return std::nullopt;
  return std::atof(text.c_str() + at + words.size());
}

/// How far straight on a party may go past a bearing leg's end by these words.
inline double sent_on_m(const std::string& text) {
  if (says(text, "Do not go ")) return 0;
  if (const auto most = after(text, "at most "); most && says(text, "past your count"))
    return *most;
  if (const auto past = before(text, " m past your count")) return *past;
  if (const auto past = before(text, " m too far")) return *past;
  return 0;
}

inline bool cross(GridPoint a, GridPoint b, GridPoint c, GridPoint d) {
  const auto side = [](GridPoint p, GridPoint q, GridPoint r) {
    return (q.east_m - p.east_m) * (r.north_m - p.north_m) -
           (q.north_m - p.north_m) * (r.east_m - p.east_m);
  };
  return (side(a, b, c) > 0) != (side(a, b, d) > 0) && (side(c, d, a) > 0) != (side(c, d, b) > 0);
}

/// The first metre of a walk that is on ground over the slope limit or steps over a cliff; nothing:
/// all of it is clear.
class Drops {
 public:
  Drops(const walking::Ground& ground, const walking::Cover& cover)
      : ground_(ground), cover_(cover) {}

  [[nodiscard]] bool steep(GridPoint p) const { return cover_.bar_at(p) == walking::Bar::steep; }
  /// Straight on, by a direction one metre long.
  [[nodiscard]] std::optional<double> on(GridPoint from, GridPoint direction, double far) const {
    return along([&](double m) { return from + m * direction; }, far);
  }
  /// By the places `at(m)`, from 0 to `far`.
  /// Along a `path` what is steep is no drop: the path leads over it.
  template <class At>
  [[nodiscard]] std::optional<double> along(const At& at, double far, bool path = false) const {
    constexpr double step = 2;
    for (double m = step; m <= far; m += step) {
      const GridPoint a = at(m - step), b = at(m);
      if (!path && steep(b)) return m;
      for (const auto& line : ground_.map.lines) {
        if (line.label.kind != mapdata::Kind::cliff || line.tunnel) continue;
        for (std::size_t i = 1; i < line.points.size(); ++i)
          if (cross(a, b, line.points[i - 1], line.points[i])) return m;
      }
    }
    return std::nullopt;
  }

 private:
  const walking::Ground& ground_;
  const walking::Cover& cover_;
};

}  // namespace lodeway::drops
