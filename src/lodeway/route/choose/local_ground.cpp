#include "lodeway/route/choose/local_ground.hpp"

#include <utility>

namespace lodeway::route {

LocalGround::LocalGround(const walking::Ground& all)
    : ground(all),
      around(ground.elevation, ground.map, ground.kinds),
      lines(ground),
      taken(std::make_shared<const reckoning::TakenLines>(ground)),
      since(lines),
      met_by(ground) {}

LocalGround::LocalGround(std::unique_ptr<const walking::Ground> piece)
    : own_(std::move(piece)),
      ground(*own_),
      around(ground.elevation, ground.map, ground.kinds),
      lines(ground),
      taken(std::make_shared<const reckoning::TakenLines>(ground)),
      since(lines),
      met_by(ground) {}

std::shared_ptr<const LocalGround> LocalGrounds::of(const walking::Box& box) const {
  const auto& f = ground_.elevation.frame();
  const auto cells = walking::cells_of(f, box);
  const auto share = static_cast<double>(cells.size()) / static_cast<double>(f.size());
  if (cells.size() == 0 || share > most_share) return whole();
  const auto around = walking::Box::of(cells);
  if (auto known = kept_.find(around)) return known;
  auto made = std::make_shared<const LocalGround>(
      std::make_unique<const walking::Ground>(walking::piece_of(ground_, around)));
  kept_.keep(around, made);
  return made;
}

std::shared_ptr<const LocalGround> LocalGrounds::whole() const {
  if (auto known = whole_.find(0)) return known;
  auto made = std::make_shared<const LocalGround>(ground_);
  whole_.keep(0, made);
  return made;
}

}  // namespace lodeway::route
