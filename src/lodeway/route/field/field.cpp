#include "lodeway/route/field/field.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "lodeway/route/field/blocks.hpp"

// Compiled once for each kind of vector unit; the best one is taken at run time.
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "lodeway/route/field/field.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

HWY_BEFORE_NAMESPACE();
namespace lodeway::route::HWY_NAMESPACE {

namespace hn = hwy::HWY_NAMESPACE;

constexpr std::size_t ahead = 8;  // live cells whose blocks are fetched before their turn

/// Costs of some moves at once, in one form of the pace table.
template <class D, PaceTable::Form form>
struct Stepper {
  using V = hn::Vec<D>;
  const D d;
  const hn::RebindToSigned<D> di;
  const float* table;
  const V flat, steps, steepest;

  explicit Stepper(const PaceTable& pace)
      : d(),
        di(),
        table(pace.table().data()),
        flat(hn::Set(d, pace.flat_s_per_m())),
        steps(hn::Set(d, static_cast<float>(PaceTable::steps_a_unit))),
        steepest(hn::Set(d, 2.0F)) {}

  HWY_INLINE V step(V run, V inverse_run, V rise, V slowness) const {
    const V slope = hn::Min(hn::Max(hn::Mul(rise, inverse_run), hn::Neg(steepest)), steepest);
    const auto i = hn::Add(hn::NearestInt(hn::Mul(slope, steps)), hn::Set(di, PaceTable::half));
    const V t = hn::GatherIndex(d, table, i);
    if constexpr (form == PaceTable::Form::speed) return hn::Mul(run, hn::Mul(slowness, t));
    const V h = hn::Mul(slowness, flat);
    if constexpr (form == PaceTable::Form::climb) return hn::Mul(run, hn::Add(h, t));
    return hn::Mul(run, hn::Add(hn::Mul(hn::Set(d, 0.75F), hn::Add(h, t)),
                                hn::Mul(hn::Set(d, 0.25F), hn::Abs(hn::Sub(h, t)))));
  }
};

/// A knight's move passes between two of the near eight: which, in the order of moves().
alignas(64) constexpr std::int32_t beside_a[8] = {0, 2, 2, 4, 4, 6, 6, 0};
alignas(64) constexpr std::int32_t beside_b[8] = {1, 1, 3, 3, 5, 5, 7, 7};

/// Mean of two of eight values, for the lanes of knight's moves k to k + lanes.
template <class D>
HWY_INLINE hn::Vec<D> between(D d, const float* near, std::size_t k) {
  const hn::RebindToSigned<D> di;
  const auto half = hn::Set(d, 0.5F);
  const auto a = hn::Load(di, beside_a + k), b = hn::Load(di, beside_b + k);
  if constexpr (hn::MaxLanes(d) == 8) {
    const auto all = hn::Load(d, near);
    return hn::Mul(half, hn::Add(hn::TableLookupLanes(all, hn::IndicesFromVec(d, a)),
                                 hn::TableLookupLanes(all, hn::IndicesFromVec(d, b))));
  } else {
    return hn::Mul(half, hn::Add(hn::GatherIndex(d, near, a), hn::GatherIndex(d, near, b)));
  }
}

/// The cells of a bucket that are still in it: those whose time has not fallen since.
std::size_t live_of(Front& w, Chunk* chunks, std::int32_t turn, std::uint32_t* live) {
  const hn::CappedTag<float, 8> d;
  const hn::RebindToSigned<decltype(d)> di;
  const std::size_t lanes = hn::Lanes(d);
  const float* times = w.blocks.words;
  const auto by = hn::Set(d, w.buckets_a_second);
  const auto now = hn::Set(di, turn);
  std::size_t count = 0;
  for (auto* chunk = chunks; chunk != nullptr; chunk = chunk->next) {
    const auto* ids = reinterpret_cast<const std::int32_t*>(chunk->ids);
    std::size_t i = 0;
    for (; i + lanes <= chunk->count; i += lanes) {
      const auto id = hn::LoadU(di, ids + i);
      const auto bucket = hn::ConvertTo(di, hn::Mul(hn::GatherIndex(d, times, id), by));
      count += hn::CompressStore(id, hn::Eq(bucket, now), di,
                                 reinterpret_cast<std::int32_t*>(live) + count);
    }
    for (; i < chunk->count; ++i) {
      live[count] = chunk->ids[i];
      count += w.bucket_of(times[chunk->ids[i]]) == turn ? 1 : 0;
    }
  }
  return count;
}

/// Logs every neighbour that is reached sooner through this cell.
template <class S>
HWY_INLINE void expand(Front& w, const S& s, const Offsets& o, std::uint32_t id) {
  const auto& d = s.d;
  const auto& di = s.di;
  const std::size_t lanes = hn::Lanes(d);
  float* cell = w.blocks.words + id;
  const float *height = cell + heights_at, *slowness = cell + slowness_at;
  const std::int32_t* to_all = o.to[id & 15U];
  const auto sign = hn::Set(d, w.sign), z = hn::Set(d, *height), slow = hn::Set(d, *slowness);
  const auto now = hn::Set(d, *cell), half = hn::Set(d, 0.5F);
  alignas(64) float fresh[move_count], before[move_count], near_z[8], near_slow[8];
  unsigned better = 0;
  for (std::size_t k = 0; k < move_count; k += lanes) {
    const auto to = hn::Load(di, to_all + k);
    const auto run = hn::Load(d, o.run + k), inverse = hn::Load(d, o.inverse + k);
    const auto z_to = hn::GatherIndex(d, height, to), slow_to = hn::GatherIndex(d, slowness, to);
    auto cost = hn::Zero(d);
    if (k < 8) {
      hn::Store(z_to, d, near_z + k);
      hn::Store(slow_to, d, near_slow + k);
      cost = s.step(run, inverse, hn::Mul(sign, hn::Sub(z_to, z)),
                    hn::Mul(half, hn::Add(slow, slow_to)));
    } else {
      const auto middle = between(d, near_z, k - 8), slow_middle = between(d, near_slow, k - 8);
      const auto short_run = hn::Mul(half, run);
      cost = hn::Add(s.step(short_run, inverse, hn::Mul(sign, hn::Sub(middle, z)),
                            hn::Mul(half, hn::Add(slow, slow_middle))),
                     s.step(short_run, inverse, hn::Mul(sign, hn::Sub(z_to, middle)),
                            hn::Mul(half, hn::Add(slow_middle, slow_to))));
    }
    const auto sum = hn::Add(now, cost), old = hn::GatherIndex(d, cell, to);
    hn::Store(sum, d, fresh + k);
    hn::Store(old, d, before + k);
    std::uint8_t bits[8] = {};
    hn::StoreMaskBits(d, hn::Lt(sum, old), bits);
    better |= static_cast<unsigned>(bits[0]) << k;
  }
  while (better != 0) {
    const auto k = static_cast<std::size_t>(__builtin_ctz(better));
    better &= better - 1;
    const auto to = static_cast<std::uint32_t>(static_cast<std::int32_t>(id) + to_all[k]);
    w.reach_cell(to, fresh[k], before[k], static_cast<std::uint32_t>(k));
  }
}

/// The blocks about a cell that comes soon: the wave front jumps about in memory.
HWY_INLINE void fetch_ahead(const Front& w, const Offsets& o, std::uint32_t id) {
  const std::int32_t* to = o.to[id & 15U];
  for (const std::size_t k : {8U, 10U, 12U, 14U}) {  // one knight's move each way
    const float* word = w.blocks.words + static_cast<std::int32_t>(id) + to[k];
    __builtin_prefetch(word, 1);
    __builtin_prefetch(word + heights_at);
    __builtin_prefetch(word + slowness_at);
  }
}

template <PaceTable::Form form>
void solve_form(Front& w, const PaceTable& pace, const Offsets& o,
                std::span<const std::uint32_t> targets) {
  const Stepper<hn::CappedTag<float, 8>, form> stepper(pace);
  std::vector<std::uint32_t> live;
  for (std::int32_t turn = 0; w.next_turn(turn); ++turn) {
    w.turn = turn;
    while (Chunk* chunks = w.take(turn)) {  // again where an edge is shorter than a bucket
      live.resize(std::max(live.size(), count_of(chunks) + 16));
      const std::size_t count = live_of(w, chunks, turn, live.data());
      w.give_back(chunks);
      w.log.clear();
      // A quarter of them at a time in turn: two that follow each other share no cells, so that
      // what the one stores is not waited for by the other.
      const std::size_t part = count / 4;
      const auto at = [&](std::size_t i) {
        return i < 4 * part ? live[(i & 3U) * part + (i >> 2U)] : live[i];
      };
      for (std::size_t i = 0; i < count; ++i) {
        if (i + ahead < count && at(i + ahead) < w.blocks.first_node)
          fetch_ahead(w, o, at(i + ahead));
        const auto id = at(i);
        if (id < w.blocks.first_node) expand(w, stepper, o, id);
        if (w.lines != nullptr) w.expand_lines(id);
      }
      w.file_log();
    }
    if (!targets.empty() && w.settled(targets)) return;
  }
  w.settled_s = unreached_s;
}

void solve(Front& w, const PaceTable& pace, const Offsets& o,
           std::span<const std::uint32_t> targets) {
  using Form = PaceTable::Form;
  const auto with = pace.form() == Form::speed   ? solve_form<Form::speed>
                    : pace.form() == Form::climb ? solve_form<Form::climb>
                                                 : solve_form<Form::longer>;
  with(w, pace, o, targets);
}

}  // namespace lodeway::route::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace lodeway::route {

HWY_EXPORT(solve);

Field solve_field(const CostGround& ground, const PaceTable& pace, const LineGraph* lines,
                  std::span<const Seed> seeds, Direction direction,
                  std::span<const std::uint32_t> targets) {
  Front front(ground, pace, lines, direction == Direction::from_seeds ? 1.0F : -1.0F);
  const Offsets offsets(ground, front.blocks);
  for (const auto& seed : seeds) front.seed(front.blocks.id_of(seed.node), seed.seconds);
  std::vector<std::uint32_t> wanted;
  for (const auto t : targets) wanted.push_back(front.blocks.id_of(t));
  HWY_DYNAMIC_DISPATCH(solve)(front, pace, offsets, wanted);
  return front.field();
}

std::vector<std::uint32_t> trace(const Field& field, std::uint32_t node) {
  std::vector<std::uint32_t> out;
  if (field.seconds[node] >= unreached_s) return out;
  for (auto id = node; id != no_parent; id = field.parent[id]) out.push_back(id);
  std::ranges::reverse(out);
  return out;
}

}  // namespace lodeway::route
#endif
