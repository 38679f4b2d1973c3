/// Pictures in few colours, read back from their PNG by Cairo.
#include <cairo.h>

#include <cstdlib>
#include <cstring>
#include <set>

#include <gtest/gtest.h>

#include "lodeway/io/pdf/few_colours.hpp"

namespace lodeway {
namespace {

struct Read {
  int wide = 0, high = 0;
  std::vector<std::array<int, 3>> rgb;
};

Read read_png(const std::string& png) {
  struct Left {
    const std::string& png;
    std::size_t at = 0;
  } left{png};
  const auto more = [](void* from, unsigned char* to, unsigned length) {
    auto& l = *static_cast<Left*>(from);
    if (l.png.size() - l.at < length) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(to, l.png.data() + l.at, length);
    l.at += length;
    return CAIRO_STATUS_SUCCESS;
  };
  auto* surface = cairo_image_surface_create_from_png_stream(more, &left);
  Read out{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  for (int y = 0; y < out.high; ++y) {
    const auto* row = cairo_image_surface_get_data(surface) +
                      static_cast<std::ptrdiff_t>(y) * cairo_image_surface_get_stride(surface);
    for (int x = 0; x < out.wide; ++x) {
      std::uint32_t pixel = 0;
      std::memcpy(&pixel, row + 4 * static_cast<std::ptrdiff_t>(x), 4);
      out.rgb.push_back({static_cast<int>(pixel >> 16U & 255U),
                         static_cast<int>(pixel >> 8U & 255U), static_cast<int>(pixel & 255U)});
    }
  }
  cairo_surface_destroy(surface);
  return out;
}

template <class Colour>
io::Picture picture(int wide, int high, Colour&& colour) {
  io::Picture p{wide, high, {}};
  for (int y = 0; y < high; ++y) {
    for (int x = 0; x < wide; ++x) {
      for (const int v : colour(x, y)) p.rgba.push_back(static_cast<std::uint8_t>(v));
      p.rgba.push_back(255);
    }
  }
  return p;
}

/// Of a part of it, the greatest difference of a channel.
int furthest(const io::Picture& p, const Read& read, int x0, int y0) {
  int out = 0;
  for (int y = 0; y < read.high; ++y) {
    for (int x = 0; x < read.wide; ++x) {
      for (std::size_t k = 0; k < 3; ++k) {
        const auto at = static_cast<std::size_t>((y0 + y) * p.wide + x0 + x) * 4 + k;
        const auto got = read.rgb[static_cast<std::size_t>(y * read.wide + x)][k];
        out = std::max(out, std::abs(static_cast<int>(p.rgba[at]) - got));
      }
    }
  }
  return out;
}

TEST(FewColours, TwoHundredColoursComeBackExactly) {
  const auto p = picture(40, 30, [](int x, int y) {
    const int n = (x + 40 * y) % 200;
    return std::array{4 * (n % 50), 60 * (n / 50), 255 - 4 * (n % 50)};
  });
  const auto few = io::in_few_colours(p);
  EXPECT_EQ(few.colours.size(), 200U);
  const auto png = io::png_bytes(few, 0, 0, 40, 30);
  ASSERT_TRUE(png) << png.error().what;
  const auto read = read_png(*png);
  ASSERT_EQ(std::pair(read.wide, read.high), std::pair(40, 30));
  EXPECT_EQ(furthest(p, read, 0, 0), 0);
}

TEST(FewColours, APartIsThatPart) {
  const auto p = picture(9, 7, [](int x, int y) { return std::array{20 * x, 30 * y, 7}; });
  const auto few = io::in_few_colours(p);
  const auto png = io::png_bytes(few, 3, 2, 5, 4);
  ASSERT_TRUE(png) << png.error().what;
  const auto read = read_png(*png);
  ASSERT_EQ(std::pair(read.wide, read.high), std::pair(5, 4));
  EXPECT_EQ(furthest(p, read, 3, 2), 0);
  EXPECT_FALSE(io::png_bytes(few, 5, 0, 5, 7));
}

// A shade of all greys, and few pixels of a colour far from it, as names and lines are on a map.
TEST(FewColours, SmoothShadeStaysSmoothAndWhatIsRareKeepsItsColour) {
  const auto p = picture(256, 64, [](int x, int y) {
    return x % 50 == 7 && y == 9 ? std::array{200, 20, 20} : std::array{x, x, x};
  });
  const auto few = io::in_few_colours(p);
  EXPECT_LE(few.colours.size(), 256U);
  const auto png = io::png_bytes(few, 0, 0, 256, 64);
  ASSERT_TRUE(png) << png.error().what;
  EXPECT_LE(furthest(p, read_png(*png), 0, 0), 1);
}

// More colours than there is room for: a cube of 16 levels a channel; nobody takes one for another.
TEST(FewColours, ManyColoursFallTogetherWithTheirNeighbours) {
  const auto p = picture(64, 64, [](int x, int y) {
    const int n = x + 64 * y;
    return std::array{17 * (n % 16), 17 * (n / 16 % 16), 17 * (n / 256)};
  });
  const auto few = io::in_few_colours(p);
  EXPECT_EQ(few.colours.size(), 256U);
  const auto png = io::png_bytes(few, 0, 0, 64, 64);
  ASSERT_TRUE(png) << png.error().what;
  // 4096 colours in 256 boxes are 16 a box: 2 to 4 levels a channel, so at most 1.5 levels of 17
  EXPECT_LE(furthest(p, read_png(*png), 0, 0), 34);
}

}  // namespace
}  // namespace lodeway
