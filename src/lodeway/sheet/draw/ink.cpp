#include "lodeway/sheet/draw/ink.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::sheet::ink {
namespace {

double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

}  // namespace

double luminance(const Ink& i) {
  return 0.2126 * linear(i.red) + 0.7152 * linear(i.green) + 0.0722 * linear(i.blue);
}

int grey(const Ink& i) {
  const double y = luminance(i);
  const double c = y <= 0.0031308 ? 12.92 * y : 1.055 * std::pow(y, 1 / 2.4) - 0.055;
  return static_cast<int>(std::lround(255 * c));
}

double contrast(const Ink& a, const Ink& b) {
  const double one = luminance(a), other = luminance(b);
  return (std::max(one, other) + 0.05) / (std::min(one, other) + 0.05);
}

}  // namespace lodeway::sheet::ink
