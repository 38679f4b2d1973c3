#pragma once
/// Where OpenStreetMap's nodes lie, by number, in about 7 bytes each where a plain table takes 16
/// and twice that while it grows: what lets a whole country pass in memory. Internal to io.
#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace lodeway::io {

/// Degrees times ten million, as OpenStreetMap's files have them.
struct NodePlace {
  std::int32_t x = 0, y = 0;
  friend bool operator==(const NodePlace&, const NodePlace&) = default;
};

/// Blocks of 64 nodes: numbers and places as differences from the one before, in as few bytes as
/// they need. Numbers that come ascending, as in every extract, are found by their block; others
/// are kept plainly beside, 16 bytes each. Of one number given twice the last counts.
class NodeStore {
 public:
  void add(std::uint64_t id, NodePlace place);
  /// Not from two threads at once: the block last looked into is kept open.
  [[nodiscard]] std::optional<NodePlace> find(std::uint64_t id) const;
  /// Needed before `find` once numbers came out of order.
  void sort();
  [[nodiscard]] std::size_t size() const { return count_ + late_.size(); }
  [[nodiscard]] std::size_t used_bytes() const;
  void clear() { *this = NodeStore(); }

 private:
  static constexpr std::size_t block_nodes = 64, chunk_bytes = 1U << 20U;
  static constexpr std::size_t most_block_bytes = block_nodes * (10 + 5 + 5);
  struct Block {
    std::uint64_t first_id, offset;  // offset into all chunks laid end to end
  };
  struct Late {
    std::uint64_t id;
    NodePlace place;
  };
  void open(std::size_t block) const;

  std::vector<std::unique_ptr<std::uint8_t[]>> chunks_;
  std::vector<Block> blocks_;
  std::uint64_t end_ = 0;  // where the next byte goes
  std::size_t count_ = 0;
  std::uint64_t last_id_ = 0;
  NodePlace last_;
  std::vector<Late> late_;
  mutable std::size_t open_ = SIZE_MAX;  // the block that ids_ and places_ hold
  mutable std::size_t open_count_ = 0;
  mutable std::array<std::uint64_t, block_nodes> ids_{};
  mutable std::array<NodePlace, block_nodes> places_{};
};

}  // namespace lodeway::io
