#include "lodeway/io/pdf/few_colours.hpp"

#include <png.h>

#include <algorithm>
#include <cstddef>

namespace lodeway::io {

namespace {

constexpr std::size_t most_colours = 256;
constexpr unsigned bits = 7;  // of a channel; colours that agree in them are one

std::size_t bin_of(const std::uint8_t* rgb) {
  constexpr unsigned drop = 8 - bits;
  return ((static_cast<std::size_t>(rgb[0] >> drop) << bits | (rgb[1] >> drop)) << bits) |
         (rgb[2] >> drop);
}
/// Of one bin: how many pixels, and their sum.
struct Bin {
  std::uint32_t number = 0;  ///< bin_of
  double count = 0;
  std::array<double, 3> sum{};
  [[nodiscard]] double at(std::size_t channel) const { return sum[channel] / count; }
};

/// Some of the bins, side by side.
struct Box {
  std::size_t first = 0, last = 0;
  double count = 0;
  std::array<double, 3> mean{};
  std::size_t channel = 0;  ///< along which they differ most
  double apart = 0;         ///< along that, the sum of squared differences from the mean
};

Box box_of(const std::vector<Bin>& bins, std::size_t first, std::size_t last) {
  Box out{first, last};
  std::array<double, 3> squares{};
  for (auto i = first; i < last; ++i) {
    out.count += bins[i].count;
    for (std::size_t k = 0; k < 3; ++k) out.mean[k] += bins[i].sum[k];
  }
  for (auto& m : out.mean) m /= out.count;
  for (auto i = first; i < last; ++i) {
    for (std::size_t k = 0; k < 3; ++k) {
      const double off = bins[i].at(k) - out.mean[k];
      squares[k] += bins[i].count * off * off;
    }
  }
  out.channel = static_cast<std::size_t>(std::ranges::max_element(squares) - squares.begin());
  out.apart = last - first > 1 ? squares[out.channel] : 0;
  return out;
}

}  // namespace

FewColours in_few_colours(const Picture& picture) {
  const std::size_t pixels = picture.rgba.size() / 4;
  std::vector<std::uint32_t> table(std::size_t{1} << (3 * bits), 0);  // by bin: its place and one
  std::vector<Bin> bins;
  for (std::size_t i = 0; i < pixels; ++i) {
    const std::uint8_t* p = picture.rgba.data() + 4 * i;
    auto& place = table[bin_of(p)];
    if (place == 0) {
      bins.push_back({static_cast<std::uint32_t>(bin_of(p)), 0, {}});
      place = static_cast<std::uint32_t>(bins.size());
    }
    auto& bin = bins[place - 1];
    ++bin.count;
    for (std::size_t k = 0; k < 3; ++k) bin.sum[k] += p[k];
  }
  FewColours out{picture.wide, picture.high, {}, {}};
  if (bins.empty()) return out;
  std::vector<Box> boxes{box_of(bins, 0, bins.size())};
  while (boxes.size() < most_colours) {
    const auto widest = std::ranges::max_element(boxes, {}, &Box::apart);
    if (widest->apart <= 0) break;
    const auto [first, last, count, mean, channel, apart] = *widest;
    const auto begin = bins.begin();
    const auto middle = std::partition(
        begin + static_cast<std::ptrdiff_t>(first), begin + static_cast<std::ptrdiff_t>(last),
        [&](const Bin& b) { return b.at(channel) <= mean[channel]; });
    const auto cut = static_cast<std::size_t>(middle - begin);
    if (cut == first || cut == last) {  // alike but for rounding
      widest->apart = 0;
      continue;
    }
    *widest = box_of(bins, first, cut);
    boxes.push_back(box_of(bins, cut, last));
  }
  for (const auto& box : boxes) {
    for (auto i = box.first; i < box.last; ++i)
      table[bins[i].number] = static_cast<std::uint32_t>(out.colours.size());
    std::array<std::uint8_t, 3> colour{};
    for (std::size_t k = 0; k < 3; ++k) colour[k] = static_cast<std::uint8_t>(box.mean[k] + 0.5);
    out.colours.push_back(colour);
  }
  out.index.resize(pixels);
  for (std::size_t i = 0; i < pixels; ++i)
    out.index[i] = static_cast<std::uint8_t>(table[bin_of(picture.rgba.data() + 4 * i)]);
  return out;
}

Result<std::string> png_bytes(const FewColours& picture, int x, int y, int wide, int high) {
  if (x < 0 || y < 0 || wide < 1 || high < 1 || x > picture.wide - wide || y > picture.high - high)
    return fail(FaultCode::bad_input, "the part of the picture does not lie inside it");
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(wide);
  image.height = static_cast<png_uint_32>(high);
  image.format = PNG_FORMAT_RGB_COLORMAP;
  image.colormap_entries = static_cast<png_uint_32>(picture.colours.size());
  const std::uint8_t* from =
      picture.index.data() + static_cast<std::ptrdiff_t>(y) * picture.wide + x;
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string out(size, '\0');
  const int done = png_image_write_to_memory(&image, out.data(), &size, 0, from, picture.wide,
                                             picture.colours.data());
  if (done == 0) return fail(FaultCode::io_failed, image.message);
  out.resize(size);
  return out;
}

}  // namespace lodeway::io
