#include "lodeway/numeric/random.hpp"

#include <bit>

#include "lodeway/numeric/normal.hpp"

namespace lodeway::numeric {

namespace {
std::uint64_t splitmix(std::uint64_t& x) {
  std::uint64_t z = (x += 0x9e3779b97f4a7c15U);
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31U);
}
}  // namespace

Random::Random(std::uint64_t seed, std::uint64_t stream) : state_{} {
  std::uint64_t mix = seed;
  std::uint64_t x = splitmix(mix) ^ (stream * 0xd1342543de82ef95U);
  for (auto& word : state_) word = splitmix(x);
}

std::uint64_t Random::bits() {
  auto& s = state_;
  const std::uint64_t result = std::rotl(s[0] + s[3], 23) + s[0];
  const std::uint64_t t = s[1] << 17U;
  s[2] ^= s[0];
  s[3] ^= s[1];
  s[1] ^= s[2];
  s[0] ^= s[3];
  s[2] ^= t;
  s[3] = std::rotl(s[3], 45);
  return result;
}

double Random::uniform() {
  return (static_cast<double>(bits() >> 12U) + 0.5) * 0x1.0p-52;  // 53 bits would round up to 1
}

double Random::normal() { return normal_quantile(uniform()); }

}  // namespace lodeway::numeric
