// Compiled once for each vector unit; the machine's best is chosen when the program runs.
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "lodeway/reckoning/rehearsal/walk_kernel.cpp"
#include <hwy/foreach_target.h>  // must come before highway.h

#include <hwy/highway.h>

#include "lodeway/reckoning/rehearsal/walk_kernel.hpp"

HWY_BEFORE_NAMESPACE();
namespace lodeway::reckoning::HWY_NAMESPACE {
namespace hn = hwy::HWY_NAMESPACE;

using Floats = hn::ScalableTag<float>;
using Words = hn::Rebind<std::uint32_t, Floats>;
using Ints = hn::Rebind<std::int32_t, Floats>;
using F = hn::Vec<Floats>;
using U = hn::Vec<Words>;
using I = hn::Vec<Ints>;

// a * b + c without fusing, so that every unit gives the same bytes
HWY_INLINE F times_plus(F a, F b, F c) { return hn::Add(hn::Mul(a, b), c); }
HWY_INLINE F set(float x) { return hn::Set(Floats(), x); }

// Sine and cosine for |x| <= pi/4.
HWY_INLINE void small_sincos(F x, F& s, F& c) {
  const F z = hn::Mul(x, x);
  F p = times_plus(set(-1.9515295891E-4F), z, set(8.3321608736E-3F));
  p = times_plus(p, z, set(-1.6666654611E-1F));
  s = times_plus(hn::Mul(p, z), x, x);
  F q = times_plus(set(2.443315711809948E-5F), z, set(-1.388731625493765E-3F));
  q = times_plus(q, z, set(4.166664568298827E-2F));
  c = times_plus(hn::Mul(q, z), z, times_plus(set(-0.5F), z, set(1.0F)));
}

// Sine and cosine for |x| <= 1.5, by the half angle.
HWY_INLINE void sincos(F x, F& s, F& c) {
  F sh, ch;
  small_sincos(hn::Mul(x, set(0.5F)), sh, ch);
  s = hn::Mul(hn::Add(sh, sh), ch);
  c = hn::Sub(set(1.0F), hn::Mul(hn::Add(sh, sh), sh));
}

// Natural logarithm for 0 < x < 1, normal numbers.
HWY_INLINE F log_of(F x) {
  const Words du;
  const Ints di;
  const Floats df;
  const U bits = hn::BitCast(du, x);
  I e = hn::Sub(hn::BitCast(di, hn::ShiftRight<23>(bits)), hn::Set(di, 126));
  F m = hn::BitCast(df, hn::Or(hn::And(bits, hn::Set(du, 0x007FFFFFU)), hn::Set(du, 0x3F000000U)));
  const auto low = hn::Lt(m, set(0.70710678F));  // m in [sqrt(1/2), sqrt(2))
  const F exponent = hn::Sub(hn::ConvertTo(df, e), hn::IfThenElseZero(low, set(1.0F)));
  m = hn::Sub(hn::Add(m, hn::IfThenElseZero(low, m)), set(1.0F));
  const F z = hn::Mul(m, m);
  F p = times_plus(set(7.0376836292E-2F), m, set(-1.1514610310E-1F));
  p = times_plus(p, m, set(1.1676998740E-1F));
  p = times_plus(p, m, set(-1.2420140846E-1F));
  p = times_plus(p, m, set(1.4249322787E-1F));
  p = times_plus(p, m, set(-1.6668057665E-1F));
  p = times_plus(p, m, set(2.0000714765E-1F));
  p = times_plus(p, m, set(-2.4999993993E-1F));
  p = times_plus(p, m, set(3.3333331174E-1F));
  F y = hn::Mul(hn::Mul(p, m), z);
  y = times_plus(exponent, set(-2.12194440E-4F), y);
  y = times_plus(set(-0.5F), z, y);
  return times_plus(exponent, set(0.693359375F), hn::Add(m, y));
}

struct Stream {
  U a, b, c, d;
  HWY_INLINE U next() {
    const U sum = hn::Add(a, d);
    const U result = hn::Add(hn::Or(hn::ShiftLeft<7>(sum), hn::ShiftRight<25>(sum)), a);
    const U t = hn::ShiftLeft<9>(b);
    c = hn::Xor(c, a);
    d = hn::Xor(d, b);
    b = hn::Xor(b, c);
    a = hn::Xor(a, d);
    c = hn::Xor(c, t);
    d = hn::Or(hn::ShiftLeft<11>(d), hn::ShiftRight<21>(d));
    return result;
  }
};

// Two independent standard normal deviates.
HWY_INLINE void two_normals(Stream& stream, F& first, F& second) {
  const Floats df;
  const Words du;
  const Ints di;
  const U r1 = stream.next(), r2 = stream.next();
  const F u = times_plus(hn::ConvertTo(df, hn::BitCast(di, hn::ShiftRight<9>(r1))), set(0x1.0p-23F),
                         set(0x1.0p-24F));
  const F radius = hn::Sqrt(hn::Mul(set(-2.0F), log_of(u)));
  // the top two bits say which quarter, the next 23 where in it
  const F in_quarter =
      hn::ConvertTo(df, hn::BitCast(di, hn::And(hn::ShiftRight<7>(r2), hn::Set(du, 0x7FFFFFU))));
  const F angle = hn::Mul(times_plus(in_quarter, set(0x1.0p-23F), set(-0.5F)), set(1.57079633F));
  F s, c;
  small_sincos(angle, s, c);
  const auto swap =
      hn::MaskFromVec(hn::BitCast(df, hn::BroadcastSignBit(hn::BitCast(di, hn::ShiftLeft<1>(r2)))));
  const U sign = hn::And(r2, hn::Set(du, 0x80000000U));
  const F x = hn::IfThenElse(swap, s, c), y = hn::IfThenElse(swap, c, s);
  first = hn::Mul(radius, hn::BitCast(df, hn::Xor(hn::BitCast(du, x), sign)));
  // the second sign comes from a bit that nothing else used
  const U other = hn::And(hn::ShiftLeft<25>(r2), hn::Set(du, 0x80000000U));
  second = hn::Mul(radius, hn::BitCast(df, hn::Xor(hn::BitCast(du, y), other)));
}

struct Field {
  const float* heights;
  std::int32_t rows, cols;
};

HWY_INLINE F height_at(const Field& field, F col, F row) {
  const Floats df;
  const Ints di;
  const F zero = hn::Zero(df);
  const F c = hn::Min(hn::Max(col, zero), set(static_cast<float>(field.cols - 1)));
  const F r = hn::Min(hn::Max(row, zero), set(static_cast<float>(field.rows - 1)));
  const I ci = hn::Min(hn::ConvertTo(di, c), hn::Set(di, field.cols - 2));
  const I ri = hn::Min(hn::ConvertTo(di, r), hn::Set(di, field.rows - 2));
  const F u = hn::Sub(c, hn::ConvertTo(df, ci)), v = hn::Sub(r, hn::ConvertTo(df, ri));
  const I at = hn::Add(hn::Mul(ri, hn::Set(di, field.cols)), ci);
  const F nw = hn::GatherIndex(df, field.heights, at);
  const F ne = hn::GatherIndex(df, field.heights + 1, at);
  const F sw = hn::GatherIndex(df, field.heights + field.cols, at);
  const F se = hn::GatherIndex(df, field.heights + field.cols + 1, at);
  const F north = times_plus(u, hn::Sub(ne, nw), nw), south = times_plus(u, hn::Sub(se, sw), sw);
  return times_plus(v, hn::Sub(south, north), north);
}

void walk_lanes(const terrain::Elevation& heights, const WalkPlan& plan, Walkers& w, Trace* trace) {
  const Floats df;
  const Words du;
  const Ints di;
  const Field field{heights.cells().data(), heights.rows(), heights.cols()};
  const auto cell_m = static_cast<float>(heights.frame().cell_m);
  const std::size_t lanes = hn::Lanes(df), n = w.padded;
  const F step_cells = set(plan.step_m / cell_m), step_m = set(plan.step_m);
  const F per_step_noise = set(plan.noise_m / (static_cast<float>(plan.hold) * plan.step_m));
  const F sigma = set(plan.sighting_sigma);
  for (std::size_t i = 0; i < n; i += lanes) {
    F col = hn::LoadU(df, &w.col[i]), row = hn::LoadU(df, &w.row[i]);
    const F east = hn::LoadU(df, &w.east[i]), north = hn::LoadU(df, &w.north[i]);
    const F scale = hn::LoadU(df, &w.scale[i]);
    F seconds = hn::LoadU(df, &w.seconds[i]);
    Stream stream{hn::LoadU(du, &w.state[i]), hn::LoadU(du, &w.state[n + i]),
                  hn::LoadU(du, &w.state[2 * n + i]), hn::LoadU(du, &w.state[3 * n + i])};
    F height = height_at(field, col, row);
    F go_col = hn::Zero(df), go_row = hn::Zero(df), length = hn::Zero(df);
    if (trace != nullptr) {
      hn::StoreU(col, df, &trace->col[i]);
      hn::StoreU(row, df, &trace->row[i]);
      hn::StoreU(seconds, df, &trace->seconds[i]);
    }
    int held = 0;
    for (int k = 0; k < plan.steps; ++k) {
      if (held == 0) {
        held = plan.hold;
        F z1, z2, s, c;
        two_normals(stream, z1, z2);
        sincos(hn::Min(hn::Max(hn::Mul(z1, sigma), set(-1.5F)), set(1.5F)), s, c);
        const F stretch = times_plus(z2, per_step_noise, scale);
        length = hn::Mul(step_m, stretch);
        const F cells = hn::Mul(step_cells, stretch);
        go_col = hn::Mul(cells, hn::Add(hn::Mul(east, c), hn::Mul(north, s)));
        go_row = hn::Mul(cells, hn::Sub(hn::Mul(east, s), hn::Mul(north, c)));
      }
      --held;
      col = hn::Add(col, go_col);
      row = hn::Add(row, go_row);
      const F now = height_at(field, col, row);
      const F rise = hn::Div(hn::Sub(now, height), length);
      height = now;
      // a void compares false and walks level
      const auto known = hn::Lt(hn::Abs(rise), set(1e6F));
      const F slope = hn::Min(hn::Max(hn::IfThenElseZero(known, rise), set(-1.49F)), set(1.49F));
      const I entry = hn::ConvertTo(di, times_plus(slope, set(100.0F), set(150.5F)));
      seconds = times_plus(length, hn::GatherIndex(df, plan.pace_s_per_m.data(), entry), seconds);
      if (trace != nullptr) {
        const std::size_t at = static_cast<std::size_t>(k + 1) * n + i;
        hn::StoreU(col, df, &trace->col[at]);
        hn::StoreU(row, df, &trace->row[at]);
        hn::StoreU(seconds, df, &trace->seconds[at]);
      }
    }
    hn::StoreU(col, df, &w.col[i]);
    hn::StoreU(row, df, &w.row[i]);
    hn::StoreU(seconds, df, &w.seconds[i]);
    hn::StoreU(stream.a, du, &w.state[i]);
    hn::StoreU(stream.b, du, &w.state[n + i]);
    hn::StoreU(stream.c, du, &w.state[2 * n + i]);
    hn::StoreU(stream.d, du, &w.state[3 * n + i]);
  }
}

const char* unit_name() { return hwy::TargetName(HWY_TARGET); }

}  // namespace lodeway::reckoning::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
#include <algorithm>
#include <cassert>
#include <cmath>

#include "lodeway/reckoning/rehearsal/walk_plain.hpp"

namespace lodeway::reckoning {

HWY_EXPORT(walk_lanes);
HWY_EXPORT(unit_name);

std::string walk_unit() { return HWY_DYNAMIC_DISPATCH(unit_name)(); }

void walk(const terrain::Elevation& heights, const WalkPlan& plan, Walkers& walkers, Trace* trace) {
  assert(plan.hold > 0 && plan.pace_s_per_m.size() == pace_entries);
  if (trace != nullptr) make_room(*trace, plan, walkers);
  if (heights.rows() < 2 || heights.cols() < 2) return walk_plainly(heights, plan, walkers, trace);
  HWY_DYNAMIC_DISPATCH(walk_lanes)(heights, plan, walkers, trace);
}

}  // namespace lodeway::reckoning
#endif
