#pragma once
/// Cells in blocks of four by four and a queue of buckets, for the field alone: what a cell's
/// neighbours need lies in few lines of memory. Not for use outside route/field.
#include <array>
#include <bit>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "lodeway/route/field/field.hpp"

namespace lodeway::route {

/// A block is 64 words: times of its 16 cells, then heights, slowness, and how each was reached: by
/// which of moves(), or `by_line` and the number of what it was reached from; no_parent: not at
/// all, or a seed. The number of a cell is the place of its time.
inline constexpr std::uint32_t block_words = 64, heights_at = 16, slowness_at = 32, parents_at = 48;
inline constexpr std::uint32_t by_line = 0x80000000U;

struct Blocks {
  int stride = 0, wide = 0;      ///< of the CostGround's rows; blocks in a row
  std::uint32_t cells = 0;       ///< of the CostGround, its rim included
  std::uint32_t first_node = 0;  ///< words of all blocks; nodes of lines come after, a word each
  std::vector<float> store;
  float* words = nullptr;  ///< in `store`, at the beginning of a line of memory
  std::vector<std::uint32_t> node_parents;

  Blocks(const CostGround& ground, const LineGraph* lines);
  [[nodiscard]] std::uint32_t id(int row, int col) const {
    return static_cast<std::uint32_t>((row >> 2) * wide + (col >> 2)) * block_words +
           static_cast<std::uint32_t>((row & 3) * 4 + (col & 3));
  }
  /// From the ids of Field.
  [[nodiscard]] std::uint32_t id_of(std::uint32_t node) const {
    if (node >= cells) return first_node + (node - cells);
    return id(static_cast<int>(node) / stride, static_cast<int>(node) % stride);
  }
  [[nodiscard]] std::uint32_t node_of(std::uint32_t id) const;
  /// How a cell was reached, in its word.
  void set_cell_parent(std::uint32_t id, std::uint32_t how) {
    words[id + parents_at] = std::bit_cast<float>(how);
  }
  void set_parent(std::uint32_t id, std::uint32_t how) {
    if (id < first_node)
      set_cell_parent(id, how);
    else
      node_parents[id - first_node] = how;
  }
};

/// Where the neighbours of a cell lie, by its place in the block; and how far they are.
struct Offsets {
  alignas(64) std::int32_t to[16][move_count];
  alignas(64) float run[move_count];
  alignas(64) float inverse[move_count];  ///< of the run, of half a knight's run from the ninth on
  Offsets(const CostGround& ground, const Blocks& blocks);
};

struct Chunk {
  Chunk* next = nullptr;
  std::uint32_t count = 0;
  std::uint32_t ids[252];
};
[[nodiscard]] inline std::size_t count_of(const Chunk* chunks) {
  std::size_t out = 0;
  for (; chunks != nullptr; chunks = chunks->next) out += chunks->count;
  return out;
}

/// What is reached so far, and the buckets of what is to be gone on from.
class Front {
 public:
  Front(const CostGround& ground, const PaceTable& pace, const LineGraph* line_graph, float sign);

  Blocks blocks;
  const LineGraph* lines;
  float sign;  ///< 1 from the seeds, -1 to them: then every rise is walked the other way
  float buckets_a_second = 1;
  float settled_s = 0;
  std::int32_t turn = 0;  ///< the bucket that is gone through
  struct Logged {
    std::uint32_t id;
    std::int32_t bucket;
  };
  std::vector<Logged> log;  ///< to be filed

  [[nodiscard]] std::int32_t bucket_of(float seconds) const {
    return static_cast<std::int32_t>(std::min(seconds * buckets_a_second, 2e9F));
  }
  void seed(std::uint32_t id, float seconds);
  /// Notes a sooner time, and logs the cell unless it waits in the same bucket already. One that
  /// falls within the bucket that is gone through may have been gone on from: it comes again.
  void reach_cell(std::uint32_t id, float seconds, float before, std::uint32_t move) {
    blocks.words[id] = seconds;
    blocks.set_cell_parent(id, move);
    log_sooner(id, seconds, before);
  }
  void log_sooner(std::uint32_t id, float seconds, float before) {
    const auto bucket = bucket_of(seconds);
    if (bucket != bucket_of(before) || bucket == turn) log.push_back({id, bucket});
  }
  void expand_lines(std::uint32_t id);
  void file_log() {
    for (const auto& one : log) file(one.id, one.bucket);
  }
  /// Moves on to the next bucket that holds anything; false when none does.
  [[nodiscard]] bool next_turn(std::int32_t& turn);
  [[nodiscard]] Chunk* take(std::int32_t turn);
  void give_back(Chunk* chunks);
  /// Are these final once `turn` is gone through? Sets settled_s when they are.
  [[nodiscard]] bool settled(std::span<const std::uint32_t> targets);
  [[nodiscard]] Field field();

 private:
  static constexpr std::int32_t most_buckets = 1 << 18;
  void file(std::uint32_t id, std::int32_t bucket);
  [[nodiscard]] Chunk* fresh_chunk(Chunk* next);
  void bring_near(std::int32_t turn);
  std::int32_t ring_ = 1;        ///< a power of two
  std::vector<Chunk*> buckets_;  ///< by bucket modulo ring_
  std::size_t waiting_ = 0;      ///< chunks in buckets_
  std::vector<Logged> far_;      ///< too far off for the ring
  std::vector<std::unique_ptr<Chunk[]>> store_;
  Chunk* free_ = nullptr;
  std::vector<std::uint8_t> joined_;  ///< by block: has any of its cells an edge to a line?
};

}  // namespace lodeway::route
