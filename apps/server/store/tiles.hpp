#pragma once
/// Map pictures, drawn a block at a time and kept while there is room.
#include <list>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "apps/server/store/shelf.hpp"

namespace lodeway::server {

inline constexpr std::size_t most_tile_bytes = 64U << 20U;

class Tiles {
 public:
  using Png = std::shared_ptr<const std::string>;
  /// Warm: a look-up. Cold: draws the block of 4 x 4 tiles that it is in; whoever asks for another
  /// of them meanwhile waits for that, and two blocks at most are drawn at a time.
  /// Faults: bad_input (no such tile), as tasks::draw_tile_block.
  [[nodiscard]] Result<Png> tile(const OpenGround& ground, int level, int x, int y,
                                 const tasks::TileStyle& style);
  [[nodiscard]] std::size_t bytes();

 private:
  struct Key {
    std::string ground;
    int level = 0, bx = 0, by = 0;
    tasks::TileStyle style;
    friend auto operator<=>(const Key&, const Key&) = default;
  };
  struct Block {
    std::mutex drawing;
    std::vector<Png> tiles;  ///< empty until drawn; under `drawing`
    std::size_t bytes = 0;
    std::list<Key>::iterator place;
  };
  void make_room();
  std::mutex mutex_;
  std::map<Key, std::shared_ptr<Block>> blocks_;
  std::list<Key> recent_;  ///< newest first
  std::size_t bytes_ = 0;
};

}  // namespace lodeway::server
