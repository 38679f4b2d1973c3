#pragma once
/// The ground as walkers need it step by step: heights, what is underfoot, what bars, which line is
/// crossed. Made once a trip, then read by all of them.
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "lodeway/belief/belief.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/sight/party_chances.hpp"
#include "lodeway/walkers/card.hpp"

namespace lodeway::walkers {

/// What a pace table is for: open ground of a kind, or a line of a kind underfoot.
struct Surface {
  std::uint8_t kind = 0;
  bool line = false;
};

/// Where a step meets a line of the map.
struct LineMet {
  std::uint32_t edge = 0;  ///< of World::net()
  double along_m = 0;      ///< on it
  double fraction = 0;     ///< of the step
};

/// The trip's own air, and the dark.
enum class Air : std::uint8_t { day, dark };

/// What the judge's party notices, keeps to and knows is by the one table of chances
/// (sight::PartyChances); `failing` as Chances::with_failing. Refers to all that it is made of. Every const function may be called from any thread.
class World {
 public:
  World(const walking::Ground& ground, const walking::Cover& cover, const reckoning::Judge& judge,
        const sight::CuePlanes& planes, double failing = 1);

  /// Bilinear, metres; NaN outside and where one of the four cells is void.
  [[nodiscard]] double height(GridPoint p) const;
  [[nodiscard]] Surface surface(GridPoint p) const;
  /// Seconds for a metre of a party's middle day, never faster than fastest_m_s.
  [[nodiscard]] double seconds_per_m(Surface s, double slope) const;
  /// Why nobody should set foot there; none outside of the ground and on voids.
  [[nodiscard]] walking::Bar bar(GridPoint p) const;
  /// Lines crossed by the step a-b, by their fraction of it, then edge; `out` is emptied first.
  void lines_met(GridPoint a, GridPoint b, std::vector<LineMet>& out) const;

  [[nodiscard]] const mapdata::Network& net() const { return net_; }
  [[nodiscard]] mapdata::Kind kind_of(std::uint32_t edge) const { return edge_kind_[edge]; }
  [[nodiscard]] std::span<const double> distances(std::uint32_t edge) const { return at_[edge]; }
  [[nodiscard]] GridPoint on_edge(std::uint32_t edge, double along_m) const;

  [[nodiscard]] double chance(Air air, sight::ChanceOf of, sight::KindClass kind) const {
    return chances_[static_cast<std::size_t>(air)][static_cast<std::size_t>(of)]
                   [static_cast<std::size_t>(kind)];
  }
  /// A fix, once in sight, is known for what it is.
  [[nodiscard]] double knows(Air air, const landmarks::Fix& fix) const {
    return own_[static_cast<std::size_t>(air)].knows(fix, ground_.kinds);
  }
  [[nodiscard]] double setting(sight::Setting s) const {
    return settings_[static_cast<std::size_t>(s)];
  }
  [[nodiscard]] const reckoning::Errors& errors(Air air) const {
    return errors_[static_cast<std::size_t>(air)];
  }
  [[nodiscard]] mapdata::Visibility visibility(Air air) const {
    return visibility_[static_cast<std::size_t>(air)];
  }
  [[nodiscard]] const sight::CuePlanes& planes() const { return planes_; }
  [[nodiscard]] const reckoning::Judge& judge() const { return judge_; }
  [[nodiscard]] const walking::Cover& cover() const { return cover_; }
  [[nodiscard]] const walking::Ground& ground() const { return ground_; }
  [[nodiscard]] const sight::Perception& perception() const { return perception_; }
  [[nodiscard]] std::span<const std::int32_t> tops() const { return tops_; }

 private:
  void index_lines();
  const walking::Ground& ground_;
  const walking::Cover& cover_;
  const reckoning::Judge& judge_;
  const sight::CuePlanes& planes_;
  const mapdata::Network& net_;
  sight::Perception perception_;
  std::array<mapdata::Visibility, 2> visibility_{};
  std::array<reckoning::Errors, 2> errors_{};
  std::array<std::array<std::array<double, sight::kind_class_count>, sight::chance_count>, 2>
      chances_{};
  std::array<double, sight::setting_count> settings_{};
  std::array<sight::PartyChances, 2> own_{};
  std::array<std::vector<float>, mapdata::kind_count> open_pace_, line_pace_;
  std::vector<std::vector<double>> at_;  // distances along each edge
  std::vector<mapdata::Kind> edge_kind_;
  // pieces of edges by coarse cell
  struct Piece {
    GridPoint a, b;
    std::uint32_t edge;
    float along;
  };
  std::vector<Piece> pieces_;
  std::vector<std::uint32_t> start_, items_;
  double west_ = 0, north_ = 0;
  int rows_ = 0, cols_ = 0;
  std::vector<std::int32_t> tops_;  // things with a view, for who is lost in clear air
};

}  // namespace lodeway::walkers
