#pragma once
/// The inks of all paper, and how well one is read on another.
#include "lodeway/sheet/draw/drawing.hpp"

namespace lodeway::sheet::ink {

// The plan is the darkest; the ground is in middle tones; pale inks are surfaces and never text.
inline constexpr Ink night{0x0F, 0x20, 0x36};       ///< the plan: legs, fixes, bearings
inline constexpr Ink text{0x1B, 0x22, 0x28};        ///< words, buildings, frame
inline constexpr Ink stone{0x45, 0x4C, 0x52};       ///< things built; second-rank words
inline constexpr Ink rule{0x8B, 0x94, 0x9B};        ///< grid and table rules, never text
inline constexpr Ink peat{0x6F, 0x4A, 0x2F};        ///< contours, scree, boulders
inline constexpr Ink tarn{0x0E, 0x5A, 0x7D};        ///< water lines and names
inline constexpr Ink tarn_pale{0xD3, 0xE6, 0xEE};   ///< water surface
inline constexpr Ink holt{0x4B, 0x76, 0x41};        ///< wood edge and marks
inline constexpr Ink holt_pale{0xE0, 0xEB, 0xD6};   ///< wood surface
inline constexpr Ink rowan{0x9A, 0x1B, 0x1E};       ///< hazard
inline constexpr Ink rowan_pale{0xF8, 0xE1, 0xDE};  ///< hazard surface
inline constexpr Ink lamp{0xE9, 0xA8, 0x1C};        ///< catching feature, always edged with night
inline constexpr Ink lamp_pale{0xFB, 0xE7, 0xB0};   ///< position error
inline constexpr Ink haven{0x0B, 0x62, 0x58};       ///< the way off
inline constexpr Ink heath_1{0xF0, 0xEB, 0xF3};     ///< slope from 20 degrees
inline constexpr Ink heath_2{0xDD, 0xD4, 0xE4};     ///< from 25
inline constexpr Ink heath_3{0xC8, 0xBB, 0xD3};     ///< from 30
inline constexpr Ink heath_4{0xB1, 0xA2, 0xC0};     ///< from 35
inline constexpr Ink paper{0xFF, 0xFF, 0xFF};

/// The ink with another opacity.
[[nodiscard]] constexpr Ink faint(Ink i, double alpha) {
  i.alpha = alpha;
  return i;
}

/// Relative luminance, 0 black to 1 white. Source: W3C, WCAG 2.2 (2023), "relative luminance";
/// opacity is left out.
[[nodiscard]] double luminance(const Ink& i);
/// What a black-and-white printer makes of it: the sRGB value of a grey of the same luminance, 0
/// black to 255 white. Source of the curve: IEC 61966-2-1 (1999).
[[nodiscard]] int grey(const Ink& i);
/// Contrast, 1 to 21. Source: WCAG 2.2 (2023), "contrast ratio".
[[nodiscard]] double contrast(const Ink& a, const Ink& b);

}  // namespace lodeway::sheet::ink
