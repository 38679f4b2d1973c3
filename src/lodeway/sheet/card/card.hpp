#pragma once
/// The route card: A5 lying, folded outward at the middle to A6: do on the left, see on the right.
#include <vector>

#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

struct CardStyle {
  bool large_type = false;  ///< three legs a side and letters half as large again
};

/// Five legs a side (three in large type), as many sides as the way needs. The side on which the
/// party turns carries the turn-round rule; the last side what to do when lost, help and the marks.
[[nodiscard]] std::vector<Drawing> draw_card(const trip::Plan& plan, const TextMeasure& measure,
                                             CardStyle style = {});

/// The same card as plain text for an e-mail, lines up to 78 characters, and as CSV (RFC 4180,
/// UTF-8, one row a leg, figures rounded as on the card).
[[nodiscard]] std::string card_text(const trip::Plan& plan);
[[nodiscard]] std::string card_csv(const trip::Plan& plan);

/// Four stones: 98, 95, 90, 75 of 100 and more; 0 below.
[[nodiscard]] int stones_of(double certainty);

/// How a leg is walked: "Along: Hause path," with "beck on your left"; "At the beck turn right, 90
/// m to the end" with "Aim off left." standing first. `side` is what is set in bold; it may be
/// empty.
struct HowTo {
  std::string how, side;
  bool side_first = false;
};
[[nodiscard]] HowTo how_to(const trip::PlannedLeg& leg, const trip::Plan& plan);
[[nodiscard]] std::string in_words(const HowTo& how);
/// "Long Wall +120 m", or that nothing stops.
[[nodiscard]] std::string stop_words(const trip::PlannedLeg& leg, const trip::Plan& plan);
/// "294° to Ostreldale road, 43 min", or that the leg is on a road, or that none is known.
[[nodiscard]] std::string way_off_words(const trip::PlannedLeg& leg, const trip::Plan& plan);
/// The distress signal of the trip's region.
[[nodiscard]] std::string signal_words(const trip::Plan& plan);

}  // namespace lodeway::sheet
