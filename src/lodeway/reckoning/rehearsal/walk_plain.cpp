#include "lodeway/reckoning/rehearsal/walk_plain.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>

#include "lodeway/numeric/random.hpp"

namespace lodeway::reckoning {

namespace {
constexpr std::size_t vector_floats = 16;  // AVX-512; narrower units divide it

class Stream128 {
 public:
  Stream128(Walkers& w, std::size_t i) : w_(w), i_(i) {}
  std::uint32_t next() {
    const std::uint32_t result = std::rotl(at(0) + at(3), 7) + at(0);
    const std::uint32_t t = at(1) << 9U;
    at(2) ^= at(0);
    at(3) ^= at(1);
    at(1) ^= at(2);
    at(0) ^= at(3);
    at(2) ^= t;
    at(3) = std::rotl(at(3), 11);
    return result;
  }

 private:
  std::uint32_t& at(std::size_t word) { return w_.state[word * w_.padded + i_]; }
  Walkers& w_;
  std::size_t i_;
};
}  // namespace

Walkers::Walkers(std::size_t walkers)
    : count(walkers),
      padded((walkers + vector_floats - 1) / vector_floats * vector_floats),
      col(padded),
      row(padded),
      east(padded),
      north(padded, 1.0F),
      scale(padded, 1.0F),
      seconds(padded),
      state(4 * padded, 1U) {}

void Walkers::seed(std::size_t i, std::uint64_t from, std::uint64_t walker) {
  numeric::Random random(from, walker);
  const std::uint64_t a = random.bits(), b = random.bits();
  state[i] = static_cast<std::uint32_t>(a);
  state[padded + i] = static_cast<std::uint32_t>(a >> 32U);
  state[2 * padded + i] = static_cast<std::uint32_t>(b);
  state[3 * padded + i] = static_cast<std::uint32_t>(b >> 32U) | 1U;  // never all zero
}

void make_room(Trace& trace, const WalkPlan& plan, const Walkers& walkers) {
  const std::size_t size = static_cast<std::size_t>(plan.steps + 1) * walkers.padded;
  for (auto* v : {&trace.col, &trace.row, &trace.seconds}) {
    if (v->size() < size) v->resize(size);
  }
}

void walk_plainly(const terrain::Elevation& heights, const WalkPlan& plan, Walkers& w,
                  Trace* trace) {
  if (trace != nullptr) make_room(*trace, plan, w);
  const terrain::Frame& f = heights.frame();
  const auto height = [&](double col, double row) {
    if (heights.empty()) return 0.0;
    const double c = std::clamp(col, 0.0, f.cols - 1.0), r = std::clamp(row, 0.0, f.rows - 1.0);
    return terrain::height_at(heights,
                              {f.west_m + (c + 0.5) * f.cell_m, f.north_m - (r + 0.5) * f.cell_m});
  };
  for (std::size_t i = 0; i < w.padded; ++i) {
    Stream128 stream(w, i);
    const double bearing =
        std::atan2(static_cast<double>(w.east[i]), static_cast<double>(w.north[i]));
    double col = static_cast<double>(w.col[i]), row = static_cast<double>(w.row[i]);
    double seconds = static_cast<double>(w.seconds[i]), last = height(col, row), angle = 0,
           length = 0;
    const auto note = [&](int k) {
      if (trace == nullptr) return;
      const std::size_t at = static_cast<std::size_t>(k) * w.padded + i;
      trace->col[at] = static_cast<float>(col);
      trace->row[at] = static_cast<float>(row);
      trace->seconds[at] = static_cast<float>(seconds);
    };
    note(0);
    for (int k = 0; k < plan.steps; ++k) {
      if (k % plan.hold == 0) {
        const std::uint32_t r1 = stream.next(), r2 = stream.next();
        const double u = (static_cast<double>(r1 >> 9U) + 0.5) * 0x1.0p-23;
        const double radius = std::sqrt(-2 * std::log(u));
        const double part =
            (static_cast<double>((r2 >> 7U) & 0x7FFFFFU) * 0x1.0p-23 - 0.5) * std::numbers::pi / 2;
        double x = std::cos(part), y = std::sin(part);
        if ((r2 & 0x40000000U) != 0) std::swap(x, y);
        if ((r2 & 0x80000000U) != 0) x = -x;
        if ((r2 & 0x40U) != 0) y = -y;
        const double sigma = static_cast<double>(plan.sighting_sigma),
                     step = static_cast<double>(plan.step_m);
        angle = bearing + std::clamp(radius * x * sigma, -1.5, 1.5);
        length = step * (static_cast<double>(w.scale[i]) +
                         radius * y * static_cast<double>(plan.noise_m) / (plan.hold * step));
      }
      col += length / f.cell_m * std::sin(angle);
      row -= length / f.cell_m * std::cos(angle);
      const double now = height(col, row), rise = (now - last) / length;
      last = now;
      const double slope = std::abs(rise) < 1e6 ? std::clamp(rise, -1.49, 1.49) : 0.0;
      seconds += length * static_cast<double>(
                              plan.pace_s_per_m[static_cast<std::size_t>(slope * 100 + 150.5)]);
      note(k + 1);
    }
    w.col[i] = static_cast<float>(col);
    w.row[i] = static_cast<float>(row);
    w.seconds[i] = static_cast<float>(seconds);
  }
}

}  // namespace lodeway::reckoning
