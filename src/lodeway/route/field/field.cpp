#include "lodeway/route/field/field.hpp"

#include <algorithm>
#include <cmath>

// Compiled once for each kind of vector unit; the best one is taken at run time.
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "lodeway/route/field/field.cpp"
#include <hwy/foreach_target.h>
#include <hwy/highway.h>

HWY_BEFORE_NAMESPACE();
namespace lodeway::route::HWY_NAMESPACE {

namespace hn = hwy::HWY_NAMESPACE;

constexpr std::size_t ahead = 6;  // entries of a bucket

struct Entry {
  std::uint32_t id;
  float seconds;
};

/// Everything one solve needs, so that the vector code is entered once.
struct Work {
  const CostGround* ground;
  const LineGraph* lines;
  float sign;  ///< 1 from the seeds, -1 to them: then every rise is walked the other way
  float width;
  std::vector<std::vector<Entry>> buckets;
  Field* field;
};

HWY_INLINE void push(Work& w, std::uint32_t id, float seconds, std::uint32_t parent) {
  w.field->seconds[id] = seconds;
  w.field->parent[id] = parent;
  const auto bucket = static_cast<std::size_t>(seconds / w.width) % w.buckets.size();
  w.buckets[bucket].push_back({id, seconds});
}

/// Costs of eight moves at once, in one form of the pace table.
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

struct Offsets {
  alignas(64) std::int32_t to[move_count];
  alignas(64) float run[move_count];
  alignas(64) float inverse[move_count];  ///< of the run, of half a knight's run from the ninth on
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

template <class S>
HWY_INLINE void expand(Work& w, const S& s, const Offsets& o, std::uint32_t id, float seconds) {
  const auto& d = s.d;
  const auto& di = s.di;
  const std::size_t lanes = hn::Lanes(d);
  const float* height = w.ground->height.data() + id;
  const float* slowness = w.ground->slowness.data() + id;
  const float* reached = w.field->seconds.data() + id;
  const auto sign = hn::Set(d, w.sign), z = hn::Set(d, *height), slow = hn::Set(d, *slowness);
  const auto now = hn::Set(d, seconds), half = hn::Set(d, 0.5F);
  alignas(64) float fresh[move_count], near_z[8], near_slow[8];
  unsigned better = 0;
  for (std::size_t k = 0; k < move_count; k += lanes) {
    const auto to = hn::Load(di, o.to + k);
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
    const auto sum = hn::Add(now, cost);
    hn::Store(sum, d, fresh + k);
    const auto less = hn::Lt(sum, hn::GatherIndex(d, reached, to));
    std::uint8_t bits[8] = {};
    hn::StoreMaskBits(d, less, bits);
    better |= static_cast<unsigned>(bits[0]) << k;
  }
  while (better != 0) {
    const auto k = static_cast<std::size_t>(__builtin_ctz(better));
    better &= better - 1;
    push(w, static_cast<std::uint32_t>(static_cast<std::int32_t>(id) + o.to[k]), fresh[k], id);
  }
}

/// The five rows around a cell that comes soon: the wave front jumps about in memory.
HWY_INLINE void fetch_ahead(const Work& w, std::uint32_t id) {
  const auto stride = static_cast<std::uint32_t>(w.ground->stride);
  for (std::uint32_t i = id - 2 * stride; i != id + 3 * stride; i += stride) {
    __builtin_prefetch(w.field->seconds.data() + i, 1);
    __builtin_prefetch(w.ground->height.data() + i);
    __builtin_prefetch(w.ground->slowness.data() + i);
  }
}

void expand_edges(Work& w, std::span<const LineGraph::Edge> edges, std::uint32_t id,
                  float seconds) {
  for (const auto& e : edges) {
    const float sum = seconds + (w.sign > 0 ? e.there_s : e.back_s);
    if (sum < w.field->seconds[e.to]) push(w, e.to, sum, id);
  }
}

void expand_lines(Work& w, std::uint32_t id, float seconds) {
  const auto& g = *w.lines;
  if (id >= g.first) {
    const auto k = id - g.first;
    expand_edges(w, std::span(g.edges).subspan(g.start[k], g.start[k + 1] - g.start[k]), id,
                 seconds);
    return;
  }
  const auto found = std::lower_bound(g.joined_cells.begin(), g.joined_cells.end(), id);
  if (found == g.joined_cells.end() || *found != id) return;
  const auto j = static_cast<std::size_t>(found - g.joined_cells.begin());
  expand_edges(w,
               std::span(g.joined_edges)
                   .subspan(g.joined_start[j], g.joined_start[j + 1] - g.joined_start[j]),
               id, seconds);
}

template <PaceTable::Form form>
void solve_form(const CostGround& ground, const PaceTable& pace, const LineGraph* lines, float sign,
                float width, std::size_t bucket_count, std::span<const Seed> seeds,
                std::span<const std::uint32_t> targets, const std::uint8_t* joined, Field* field) {
  Work w{&ground, lines, sign, width, std::vector<std::vector<Entry>>(bucket_count), field};
  const Stepper<hn::CappedTag<float, 8>, form> stepper(pace);
  Offsets o{};
  for (std::size_t k = 0; k < move_count; ++k) {
    const Move& m = moves()[k];
    o.to[k] = m.row * ground.stride + m.col;
    o.run[k] = m.cells * static_cast<float>(ground.frame.cell_m);
    o.inverse[k] = 1.0F / o.run[k];
    if (k < 8) continue;
    o.inverse[k] = 1.0F / (0.5F * o.run[k]);
  }
  const auto cells = static_cast<std::uint32_t>(ground.height.size());
  for (const auto& seed : seeds) {
    if (seed.seconds < field->seconds[seed.node]) push(w, seed.node, seed.seconds, no_parent);
  }
  std::size_t empty = 0;
  for (std::size_t turn = 0; empty <= bucket_count; ++turn) {
    auto& bucket = w.buckets[turn % bucket_count];
    empty = bucket.empty() ? empty + 1 : 0;
    const auto end_s =
        static_cast<float>(static_cast<double>(turn + 1) * static_cast<double>(width));
    std::size_t i = 0;
    // A seed far away in time, or a rounding at the edge of a bucket, may share it with a later
    // turn.
    std::vector<Entry> later;
    for (; i < bucket.size(); ++i) {
      const Entry e = bucket[i];
      if (i + ahead < bucket.size() && bucket[i + ahead].id < cells)
        fetch_ahead(w, bucket[i + ahead].id);
      if (e.seconds > field->seconds[e.id]) continue;
      if (e.seconds > end_s * 1.0001F + width) {
        later.push_back(e);
        continue;
      }
      if (e.id < cells) expand(w, stepper, o, e.id, e.seconds);
      if (lines != nullptr && (e.id >= cells || joined[e.id] != 0))
        expand_lines(w, e.id, e.seconds);
    }
    bucket.swap(later);
    if (!targets.empty() && std::ranges::all_of(targets, [&](std::uint32_t t) {
          return field->seconds[t] < end_s - width;
        })) {
      field->settled_s = end_s - width;
      return;
    }
  }
}

void solve(const CostGround& ground, const PaceTable& pace, const LineGraph* lines, float sign,
           float width, std::size_t bucket_count, std::span<const Seed> seeds,
           std::span<const std::uint32_t> targets, const std::uint8_t* joined, Field* field) {
  using Form = PaceTable::Form;
  const auto with = pace.form() == Form::speed   ? solve_form<Form::speed>
                    : pace.form() == Form::climb ? solve_form<Form::climb>
                                                 : solve_form<Form::longer>;
  with(ground, pace, lines, sign, width, bucket_count, seeds, targets, joined, field);
}

}  // namespace lodeway::route::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace lodeway::route {

HWY_EXPORT(solve);

Field solve_field(const CostGround& ground, const PaceTable& pace, const LineGraph* lines,
                  std::span<const Seed> seeds, Direction direction,
                  std::span<const std::uint32_t> targets) {
  const std::size_t nodes = ground.height.size() + (lines != nullptr ? lines->at.size() : 0);
  Field field{std::vector<float>(nodes, unreached_s), std::vector<std::uint32_t>(nodes, no_parent)};
  float least = barred_slowness, most = 0;
  for (const float s : ground.slowness) {
    if (s >= barred_slowness) continue;
    least = std::min(least, s);
    most = std::max(most, s);
  }
  const auto cell = static_cast<float>(ground.frame.cell_m);
  const float width =
      least < barred_slowness ? cell * pace.cheapest_s_per_m() * std::min(least, 1.0F) : cell;
  float longest = 2.5F * cell * pace.dearest_s_per_m(std::max(most, 1.0F));
  std::vector<std::uint8_t> joined;
  if (lines != nullptr) {
    for (const auto& e : lines->edges) longest = std::max({longest, e.there_s, e.back_s});
    for (const auto& e : lines->joined_edges) longest = std::max({longest, e.there_s, e.back_s});
    joined.assign(ground.height.size(), 0);
    for (const auto c : lines->joined_cells) joined[c] = 1;
  }
  for (const auto& s : seeds) longest = std::max(longest, s.seconds);
  const auto buckets = static_cast<std::size_t>(std::min(1e6F, longest / width)) + 3;
  HWY_DYNAMIC_DISPATCH(solve)(ground, pace, lines,
                              direction == Direction::from_seeds ? 1.0F : -1.0F, width, buckets,
                              seeds, targets, joined.data(), &field);
  return field;
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
