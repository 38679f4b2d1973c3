#include "apps/server/store/tiles.hpp"

#include <semaphore>

namespace lodeway::server {

namespace {
std::counting_semaphore<2> pencils(2);
struct Pencil {
  Pencil() { pencils.acquire(); }
  ~Pencil() { pencils.release(); }
  Pencil(const Pencil&) = delete;
  Pencil& operator=(const Pencil&) = delete;
};
}  // namespace

Result<Tiles::Png> Tiles::tile(const OpenGround& ground, int level, int x, int y,
                               const tasks::TileStyle& style) {
  constexpr int side = tasks::TilePyramid::block_side;
  if (!ground.pyramid.holds(level, x, y))
    return fail(FaultCode::bad_input, "tile: expected one that lies on the ground");
  const Key key{ground.id + " " + ground.stamp, level, x / side, y / side, style};
  std::shared_ptr<Block> block;
  {
    const std::lock_guard lock(mutex_);
    auto& there = blocks_[key];
    if (!there) {
      there = std::make_shared<Block>();
      recent_.push_front(key);
      there->place = recent_.begin();
    } else {
      recent_.splice(recent_.begin(), recent_, there->place);
    }
    block = there;
  }
  const std::lock_guard drawing(block->drawing);
  if (block->tiles.empty()) {
    const Pencil pencil;
    auto drawn =
        tasks::draw_tile_block(ground.ground, ground.pyramid, level, key.bx, key.by, style);
    if (!drawn) return std::unexpected(drawn.error());
    std::size_t bytes = 0;
    for (auto& png : *drawn) {
      bytes += png.size();
      block->tiles.push_back(std::make_shared<const std::string>(std::move(png)));
    }
    const std::lock_guard lock(mutex_);
    if (const auto mine = blocks_.find(key); mine != blocks_.end() && mine->second == block) {
      block->bytes = bytes;
      bytes_ += bytes;
      make_room();
    }
  }
  return block->tiles[static_cast<std::size_t>((y % side) * side + x % side)];
}

void Tiles::make_room() {
  while (bytes_ > most_tile_bytes && recent_.size() > 1) {
    const auto oldest = blocks_.find(recent_.back());
    bytes_ -= oldest->second->bytes;
    blocks_.erase(oldest);
    recent_.pop_back();
  }
}

std::size_t Tiles::bytes() {
  const std::lock_guard lock(mutex_);
  return bytes_;
}

}  // namespace lodeway::server
