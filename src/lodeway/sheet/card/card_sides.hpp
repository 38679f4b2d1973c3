#pragma once
/// Inside sheet only: which legs stand on which side of the route card, and how high their rows are.
#include <vector>

#include "lodeway/sheet/card/card_parts.hpp"

namespace lodeway::sheet {

namespace card {
inline constexpr double rim_mm = 2;  ///< of a row in a danger frame, below: free of words
}  // namespace card

struct CardSide {
  std::size_t begin, end;  ///< its legs
  bool last;
  std::vector<double> heights;  ///< a row each
};

/// The card parted into sides, before anything is drawn.
struct CardSides {
  std::vector<CardSide> sides;
  Told told = Told::all;
  std::size_t box_rows = 1;  ///< of what is to be ticked off: two where that asks for no side more
  bool help_here = true;  ///< below the last side's rows
  double band_h = 0;      ///< of the verdict, which heads the first side
  std::vector<char> heights_beside;  ///< by leg: is there room for them beside how it is walked?
  std::vector<char> ends_place;      ///< by leg: does it end at one of the day's places?
};
/// As many legs a side as can be read in the hand; the last side keeps room for help. On as few sides
/// as that needs the legs are shared out evenly.
[[nodiscard]] CardSides parted_card(const trip::Plan& plan, const TextMeasure& measure, bool large);

/// Where a side's rows begin: the first side's below the verdict.
[[nodiscard]] double first_leg_y(const CardSides& card, std::size_t side);
/// Is one of these legs that by whose end a party turns round?
[[nodiscard]] bool turns_round_on(const trip::Plan& plan, std::size_t begin, std::size_t end);
/// How large what is seen is written, to draw_see.
[[nodiscard]] inline SeeStyle see_style(bool large, const CardSides& card) {
  return {large ? 1.3 : 1.0, card.told, card.box_rows};
}

}  // namespace lodeway::sheet
