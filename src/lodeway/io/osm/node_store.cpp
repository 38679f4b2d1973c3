#include <algorithm>

#include "lodeway/io/osm/detail/node_store.hpp"

namespace lodeway::io {

namespace {

std::uint64_t zigzag(std::int64_t v) {
  return (static_cast<std::uint64_t>(v) << 1U) ^ static_cast<std::uint64_t>(v >> 63);
}
std::int64_t unzigzag(std::uint64_t v) {
  return static_cast<std::int64_t>(v >> 1U) ^ -static_cast<std::int64_t>(v & 1U);
}

/// Seven bits a byte, the lowest first, the highest bit says that more come.
std::uint8_t* put(std::uint8_t* at, std::uint64_t v) {
  for (; v >= 0x80; v >>= 7U) *at++ = static_cast<std::uint8_t>(v | 0x80U);
  *at++ = static_cast<std::uint8_t>(v);
  return at;
}
const std::uint8_t* get(const std::uint8_t* at, std::uint64_t& v) {
  v = 0;
  for (unsigned shift = 0;; shift += 7) {
    const std::uint64_t byte = *at++;
    v |= (byte & 0x7FU) << shift;
    if (byte < 0x80) return at;
  }
}

}  // namespace

void NodeStore::add(std::uint64_t id, NodePlace place) {
  if (count_ > 0 && id <= last_id_) {
    late_.push_back({id, place});
    return;
  }
  if (count_ % block_nodes == 0) {
    if (chunk_bytes - end_ % chunk_bytes < most_block_bytes || chunks_.empty()) {
      end_ = chunks_.size() * chunk_bytes;
      chunks_.push_back(std::make_unique_for_overwrite<std::uint8_t[]>(chunk_bytes));
    }
    blocks_.push_back({id, end_});
    last_id_ = id;
    last_ = {};
  }
  std::uint8_t* const from = chunks_.back().get() + end_ % chunk_bytes;
  std::uint8_t* at = put(from, id - last_id_);
  at = put(at, zigzag(std::int64_t{place.x} - last_.x));
  at = put(at, zigzag(std::int64_t{place.y} - last_.y));
  end_ += static_cast<std::uint64_t>(at - from);
  last_id_ = id;
  last_ = place;
  ++count_;
  open_ = SIZE_MAX;  // the last block may have been the open one
}

void NodeStore::open(std::size_t block) const {
  std::uint64_t id = blocks_[block].first_id;
  const std::uint64_t offset = blocks_[block].offset;
  const std::uint8_t* at = chunks_[offset / chunk_bytes].get() + offset % chunk_bytes;
  open_count_ = std::min(block_nodes, count_ - block * block_nodes);
  std::int64_t x = 0, y = 0;
  for (std::size_t i = 0; i < open_count_; ++i) {
    std::uint64_t more = 0, east = 0, north = 0;
    at = get(get(get(at, more), east), north);
    id += more;
    x += unzigzag(east);
    y += unzigzag(north);
    ids_[i] = id;
    places_[i] = {static_cast<std::int32_t>(x), static_cast<std::int32_t>(y)};
  }
  open_ = block;
}

std::optional<NodePlace> NodeStore::find(std::uint64_t id) const {
  if (!late_.empty()) {
    const auto after = std::ranges::upper_bound(late_, id, {}, &Late::id);
    if (after != late_.begin() && std::prev(after)->id == id) return std::prev(after)->place;
  }
  if (open_ == SIZE_MAX || id < ids_[0] || id > ids_[open_count_ - 1]) {
    const auto after = std::ranges::upper_bound(blocks_, id, {}, &Block::first_id);
    if (after == blocks_.begin()) return std::nullopt;
    open(static_cast<std::size_t>(after - blocks_.begin()) - 1);
  }
  const std::uint64_t *const ids = ids_.data(), *const end = ids + open_count_;
  const auto* const found = std::lower_bound(ids, end, id);
  if (found == end || *found != id) return std::nullopt;
  return places_[static_cast<std::size_t>(found - ids)];
}

void NodeStore::sort() { std::ranges::stable_sort(late_, {}, &Late::id); }

std::size_t NodeStore::used_bytes() const {
  return chunks_.size() * chunk_bytes + blocks_.capacity() * sizeof(Block) +
         late_.capacity() * sizeof(Late);
}

}  // namespace lodeway::io
