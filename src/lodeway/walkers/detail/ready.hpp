#pragma once
/// The card made ready to be walked: where other lines leave a leg's own, what its end looks like.
#include <optional>
#include <vector>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/rehearsal/met_on_the_way.hpp"
#include "lodeway/walkers/world.hpp"

namespace lodeway::walkers::detail {

/// A stretch of the net, one way along it.
struct Way1 {
  std::uint32_t edge = 0;
  bool forward = true;
};

/// Another line that leaves the leg's own.
struct Arm {
  Way1 way;
  double weight = 0;  ///< likeness, times how little it turns off the way one comes
};
struct Fork {
  double at_m = 0;
  std::uint32_t node = 0;
  double onward = 1;  ///< the right arm's own weight
  double arms_weight = 0;
  std::vector<Arm> arms;
};

/// Where on the leg's line an edge of the net runs.
struct Shared {
  std::uint32_t edge = 0;
  double from_m = 0, to_m = 0;  ///< of the edge's first and last point
};

struct Lookalike {
  reckoning::DecoyPlace place;
  reckoning::MetLine line;  ///< of a line that is met
  sight::KindClass kind = sight::KindClass::other;
  /// Null: a line.
  [[nodiscard]] const reckoning::LikeMark* mark() const {
    return std::get_if<reckoning::LikeMark>(&place.thing);
  }
  [[nodiscard]] double lie_apart_deg() const {
    return std::get<reckoning::LikeLine>(place.thing).lie_apart_deg;
  }
};

struct ReadyLeg {
  const CardLeg* card = nullptr;
  std::vector<double> at;  ///< distances along the leg's line
  double tick_scale = 1;   ///< from metres on the ground, as ticks have them, to metres by the grid
  sight::KindClass followed = sight::KindClass::other;
  std::array<double, 2> end_known{};    ///< by Air
  bool end_is_top = false;
  std::array<double, 2> end_seen_m{};   ///< by Air
  std::array<double, 2> line_seen_m{};  ///< of the line followed, or met
  std::vector<Fork> forks;              ///< by at_m
  std::vector<Shared> shared;           ///< by edge
  std::optional<Way1> past_end;         ///< where the line goes on,
  double past_end_m = 0;                ///< and how far along that the leg ends
  // of a line that is met
  reckoning::MetLine target;
  sight::KindClass target_kind = sight::KindClass::other;
  mapdata::Kind target_line = mapdata::Kind::other;
  std::vector<double> target_at;
  std::vector<Lookalike> alike;
  std::optional<std::size_t> told_alike;  ///< the one of them that the card warns of

  [[nodiscard]] double length_m() const { return at.back(); }
  [[nodiscard]] GridPoint place(double along_m) const;
  [[nodiscard]] GridPoint ahead(double along_m) const;  ///< unit vector of the line there
  [[nodiscard]] const Shared* shares(std::uint32_t edge) const;
};

struct Ready {
  const Card* card = nullptr;
  std::vector<ReadyLeg> legs, back;  ///< back: the same legs the other way, last one first
  std::vector<CardLeg> back_cards;
  /// 1: ground to keep off, in the frame of the cover; cells of the plan itself are none
  std::vector<std::uint8_t> keep_off;
};
[[nodiscard]] Ready make_ready(const World& world, const Card& card);

[[nodiscard]] GridPoint place_on(std::span<const GridPoint> line, std::span<const double> at,
                                 double along_m);
/// The nearest place of a line.
struct NearOn {
  double along_m = 0, away_m = 0;
};
[[nodiscard]] NearOn nearest_on(std::span<const GridPoint> line, std::span<const double> at,
                                GridPoint p);
inline GridPoint unit(GridPoint v) {
  const double l = earth::length_of(v);
  return l > 0 ? (1 / l) * v : GridPoint{0, 1};
}

}  // namespace lodeway::walkers::detail
