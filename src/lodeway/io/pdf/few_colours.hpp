#pragma once
/// A picture in at most 256 colours, and that as a PNG: a third of the bytes of one in full colour.
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/io/pdf/picture.hpp"

namespace lodeway::io {

/// Row 0 on top; of each pixel the index of its colour (red, green, blue).
struct FewColours {
  int wide = 0, high = 0;
  std::vector<std::array<std::uint8_t, 3>> colours;
  std::vector<std::uint8_t> index;
};

/// The colours are those of boxes that are halved at their mean, the box with the greatest sum of
/// squared differences first (as Wan, Prusinkiewicz & Wong 1990, Color Research and Application
/// 15:52-55). Up to 256 colours of which no two are neighbours come back exactly. No dots are
/// strewn to feign more. Opacity is left out of account.
[[nodiscard]] FewColours in_few_colours(const Picture& picture);

/// As png_bytes of a Picture, with a table of colours.
[[nodiscard]] Result<std::string> png_bytes(const FewColours& picture, int x, int y, int wide,
                                            int high);

}  // namespace lodeway::io
