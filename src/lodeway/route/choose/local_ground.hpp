#pragma once
/// The part of a ground that a trip could touch, made ready for finding ways; so that a trip costs
/// what it reaches, however large the ground file is. Not for use outside route.
#include <memory>

#include "lodeway/landmarks/surroundings.hpp"
#include "lodeway/reckoning/ends/guides.hpp"
#include "lodeway/route/choose/reach.hpp"
#include "lodeway/route/field/last_few.hpp"
#include "lodeway/route/field/party_ground.hpp"
#include "lodeway/route/graph/handrail_net.hpp"
#include "lodeway/route/graph/since_tick.hpp"

namespace lodeway::route {

/// A ground or a piece of one with what finding ways on it rests on, whoever walks. Asked by any
/// number of threads.
struct LocalGround {
  /// Refers to the ground, which must outlive it.
  explicit LocalGround(const walking::Ground& all);
  explicit LocalGround(std::unique_ptr<const walking::Ground> piece);
  LocalGround(const LocalGround&) = delete;
  LocalGround& operator=(const LocalGround&) = delete;

 private:
  std::unique_ptr<const walking::Ground> own_;  ///< null: the whole, which is somebody else's

 public:
  const walking::Ground& ground;
  landmarks::Surroundings around;
  Lines lines;
  std::shared_ptr<const reckoning::TakenLines> taken;
  SinceTick since;
  mutable PartyGrounds met_by;
};

/// The pieces of one ground that were asked for last. Asked by any number of threads.
class LocalGrounds {
 public:
  explicit LocalGrounds(const walking::Ground& ground) : ground_(ground) {}
  /// The piece within a box; the whole where that is little more, or the box passes none of it.
  [[nodiscard]] std::shared_ptr<const LocalGround> of(const walking::Box& box) const;
  [[nodiscard]] std::shared_ptr<const LocalGround> whole() const;

 private:
  static constexpr double most_share = 0.6;  ///< of the ground's cells; more is taken whole
  const walking::Ground& ground_;
  mutable LastFew<walking::Box, LocalGround> kept_{2};
  mutable LastFew<int, LocalGround> whole_{1};
};

}  // namespace lodeway::route
