#include "lodeway/route/field/blocks.hpp"

#include <algorithm>
#include <bit>

namespace lodeway::route {

namespace {
/// Barred cells are "reached" before any other, so that no move from a cell is sooner. Seeds and
/// edges of lines may still lead to one: out of it every move is longer than unreached_s.
constexpr float barred_s = -1;
constexpr std::size_t chunks_at_once = 256;

float known_s(float word) { return word < 0 ? unreached_s : word; }
}  // namespace

Blocks::Blocks(const CostGround& ground, const LineGraph* lines)
    : stride(ground.stride), cells(static_cast<std::uint32_t>(ground.height.size())) {
  const int rows = static_cast<int>(cells) / stride;
  wide = ((stride + 3) / 4) | 1;  // odd: blocks above each other fall on different cache lines
  const int high = (rows + 3) / 4;
  first_node = static_cast<std::uint32_t>(wide) * static_cast<std::uint32_t>(high) * block_words;
  const std::size_t nodes = lines != nullptr ? lines->at.size() : 0;
  node_parents.assign(nodes, no_parent);
  store.resize(first_node + nodes + 16);
  words = store.data();
  while (reinterpret_cast<std::uintptr_t>(words) % 64 != 0) ++words;
  std::fill(words + first_node, words + first_node + nodes, unreached_s);
  for (std::uint32_t block = 0; block < first_node; block += block_words) {
    std::fill(words + block, words + block + heights_at, barred_s);
    std::fill(words + block + heights_at, words + block + slowness_at, 0.0F);
    std::fill(words + block + slowness_at, words + block + parents_at, barred_slowness);
    std::fill(words + block + parents_at, words + block + block_words,
              std::bit_cast<float>(no_parent));
  }
  for (int row = 0; row < rows; ++row) {
    const auto from = static_cast<std::size_t>(row) * static_cast<std::size_t>(stride);
    for (int col = 0; col < stride; ++col) {
      const auto i = from + static_cast<std::size_t>(col);
      float* cell = words + id(row, col);
      cell[heights_at] = ground.height[i];
      cell[slowness_at] = ground.slowness[i];
      cell[0] = ground.slowness[i] < barred_slowness ? unreached_s : barred_s;
    }
  }
}

std::uint32_t Blocks::node_of(std::uint32_t id) const {
  if (id >= first_node) return cells + (id - first_node);
  const auto block = static_cast<int>(id / block_words), in = static_cast<int>(id % block_words);
  return static_cast<std::uint32_t>((4 * (block / wide) + (in >> 2)) * stride + 4 * (block % wide) +
                                    (in & 3));
}

Offsets::Offsets(const CostGround& ground, const Blocks& blocks) {
  for (int cell = 0; cell < 16; ++cell) {
    const int row = 4 + (cell >> 2), col = 4 + (cell & 3);
    for (std::size_t k = 0; k < move_count; ++k) {
      const Move& m = moves()[k];
      const auto shifted = [&](int r, int c) {  // without a block at hand that holds them
        return ((r >> 2) * blocks.wide + (c >> 2)) * static_cast<int>(block_words) + (r & 3) * 4 +
               (c & 3);
      };
      to[cell][k] = shifted(row + m.row, col + m.col) - shifted(row, col);
    }
  }
  for (std::size_t k = 0; k < move_count; ++k) {
    run[k] = moves()[k].cells * static_cast<float>(ground.frame.cell_m);
    inverse[k] = 1.0F / (k < 8 ? run[k] : 0.5F * run[k]);
  }
}

Front::Front(const CostGround& ground, const PaceTable& pace, const LineGraph* line_graph,
             float which)
    : blocks(ground, line_graph), lines(line_graph), sign(which) {
  float least = barred_slowness, most = 0;
  for (const float s : ground.slowness) {
    if (s >= barred_slowness) continue;
    least = std::min(least, s);
    most = std::max(most, s);
  }
  const auto cell = static_cast<float>(ground.frame.cell_m);
  const float width =
      least < barred_slowness ? cell * pace.cheapest_s_per_m() * std::min(least, 1.0F) : cell;
  buckets_a_second = 1 / width;
  float longest = 2.5F * cell * pace.dearest_s_per_m(std::max(most, 1.0F));
  if (lines != nullptr) {
    for (const auto& e : lines->edges) longest = std::max({longest, e.there_s, e.back_s});
    for (const auto& e : lines->joined_edges) longest = std::max({longest, e.there_s, e.back_s});
    joined_.assign(blocks.first_node / block_words, 0);
    for (const auto c : lines->joined_cells) joined_[blocks.id_of(c) / block_words] = 1;
  }
  const auto wanted = static_cast<std::uint32_t>(
                          std::min(static_cast<float>(most_buckets), longest * buckets_a_second)) +
                      3;
  ring_ = static_cast<std::int32_t>(
      std::bit_ceil(std::min(wanted, static_cast<std::uint32_t>(most_buckets))));
  buckets_.assign(static_cast<std::size_t>(ring_), nullptr);
}

Chunk* Front::fresh_chunk(Chunk* next) {
  if (free_ == nullptr) {
    store_.push_back(std::make_unique_for_overwrite<Chunk[]>(chunks_at_once));
    for (std::size_t i = 0; i < chunks_at_once; ++i) {
      store_.back()[i].next = free_;
      free_ = &store_.back()[i];
    }
  }
  auto* out = free_;
  free_ = out->next;
  out->next = next;
  out->count = 0;
  return out;
}

void Front::file(std::uint32_t id, std::int32_t bucket) {
  if (bucket - turn >= ring_) {
    far_.push_back({id, bucket});
    return;
  }
  auto& place = buckets_[static_cast<std::size_t>(bucket & (ring_ - 1))];
  if (place == nullptr || place->count == std::size(place->ids)) {
    place = fresh_chunk(place);
    ++waiting_;
  }
  place->ids[place->count++] = id;
}

void Front::seed(std::uint32_t id, float seconds) {
  if (!(seconds < known_s(blocks.words[id]))) return;
  blocks.words[id] = seconds;
  blocks.set_parent(id, no_parent);
  file(id, bucket_of(seconds));
}

/// What was too far off and has come within the ring; called often enough that none is passed.
void Front::bring_near(std::int32_t now) {
  turn = now;
  auto all = std::move(far_);
  far_.clear();
  for (const auto& one : all) file(one.id, one.bucket);
}

bool Front::next_turn(std::int32_t& now) {
  while (true) {
    if (waiting_ == 0) {
      if (far_.empty()) return false;
      now = std::ranges::min(far_, {}, &Logged::bucket).bucket;
      bring_near(now);
    } else if (!far_.empty() && now % (ring_ / 2) == 0) {
      bring_near(now);
    }
    if (buckets_[static_cast<std::size_t>(now & (ring_ - 1))] != nullptr) return true;
    ++now;
  }
}

Chunk* Front::take(std::int32_t now) {
  auto& place = buckets_[static_cast<std::size_t>(now & (ring_ - 1))];
  auto* out = place;
  place = nullptr;
  return out;
}

void Front::give_back(Chunk* chunks) {
  while (chunks != nullptr) {
    auto* next = chunks->next;
    chunks->next = free_;
    free_ = chunks;
    chunks = next;
    --waiting_;
  }
}

void Front::expand_lines(std::uint32_t id) {
  std::span<const LineGraph::Edge> edges;
  if (id >= blocks.first_node) {
    const auto k = id - blocks.first_node;
    edges = std::span(lines->edges).subspan(lines->start[k], lines->start[k + 1] - lines->start[k]);
  } else {
    if (joined_[id / block_words] == 0) return;
    const auto node = blocks.node_of(id);
    const auto found =
        std::lower_bound(lines->joined_cells.begin(), lines->joined_cells.end(), node);
    if (found == lines->joined_cells.end() || *found != node) return;
    const auto j = static_cast<std::size_t>(found - lines->joined_cells.begin());
    edges =
        std::span(lines->joined_edges)
            .subspan(lines->joined_start[j], lines->joined_start[j + 1] - lines->joined_start[j]);
  }
  const float seconds = blocks.words[id];
  for (const auto& e : edges) {
    const float sum = seconds + (sign > 0 ? e.there_s : e.back_s);
    const auto to = blocks.id_of(e.to);
    const float before = known_s(blocks.words[to]);
    if (!(sum < before)) continue;
    blocks.words[to] = sum;
    blocks.set_parent(to, by_line | id);
    log_sooner(to, sum, before);
  }
}

bool Front::settled(std::span<const std::uint32_t> targets) {
  if (!std::ranges::all_of(
          targets, [&](std::uint32_t t) { return bucket_of(known_s(blocks.words[t])) <= turn; }))
    return false;
  settled_s = (static_cast<float>(turn) + 1) * (1 - 3e-7F) / buckets_a_second;
  return true;
}

Field Front::field() {
  const auto nodes = static_cast<std::uint32_t>(blocks.node_parents.size());
  Field out{std::vector<float>(blocks.cells + nodes, unreached_s),
            std::vector<std::uint32_t>(blocks.cells + nodes, no_parent), settled_s};
  const auto from = [&](std::uint32_t node, std::uint32_t how) {
    if (how == no_parent) return no_parent;
    if (how >= by_line) return blocks.node_of(how & ~by_line);
    const Move& m = moves()[how];
    return static_cast<std::uint32_t>(static_cast<int>(node) - m.row * blocks.stride - m.col);
  };
  const int rows = static_cast<int>(blocks.cells) / blocks.stride;
  for (int row = 0; row < rows; ++row) {
    for (int col = 0; col < blocks.stride; col += 4) {
      const float* cell = blocks.words + blocks.id(row, col);
      const int last = std::min(4, blocks.stride - col);
      for (int k = 0; k < last; ++k) {
        if (cell[k] < 0) continue;
        const auto node = static_cast<std::uint32_t>(row * blocks.stride + col + k);
        out.seconds[node] = cell[k];
        out.parent[node] = from(node, std::bit_cast<std::uint32_t>(cell[k + parents_at]));
      }
    }
  }
  for (std::uint32_t k = 0; k < nodes; ++k) {
    out.seconds[blocks.cells + k] = blocks.words[blocks.first_node + k];
    out.parent[blocks.cells + k] = from(blocks.cells + k, blocks.node_parents[k]);
  }
  return out;
}

}  // namespace lodeway::route
