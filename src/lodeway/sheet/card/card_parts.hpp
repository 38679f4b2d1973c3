#pragma once
/// Inside sheet only: the parts of the route card, each drawn into its own room.
#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

// Millimetres of the A5 page.
namespace card {
inline constexpr double page_w = 210, page_h = 148, edge = 7, fold = 105, head_h = 20.6;
inline constexpr double first_leg_y = 22, foot_y = 132;
inline constexpr double left_end = fold - 4;  ///< right end of what the hand does
inline constexpr double see_x = fold + 5;     ///< where what the eye looks for begins
inline constexpr double right = page_w - edge;
inline constexpr double danger_x = edge + 11.5;  ///< right of the leg's number
}  // namespace card

[[nodiscard]] Type card_figures(double points);
[[nodiscard]] Type card_words(double points, bool bold = false);

/// The day as a bar: dark, twilight, light, the legs by the clock, start, turn and sunset named.
void draw_day_bar(Page& page, const trip::Plan& plan, Mm at, double width);

/// How much is said of a leg. On a long day escape routes stand on the escape card alone, and what two
/// lines say is said once.
enum class Told : unsigned char { all, briefly };

/// How what is seen on a leg is written. What is to be ticked off stands in so many rows of three boxes;
/// what finds no room there in a line of words.
struct SeeStyle {
  double k = 1;  ///< of the usual size
  Told told = Told::all;
  std::size_t box_rows = 1;
};

/// What the eye looks for on leg i: ticks, stones, what stops, keep off, if lost, the escape route. The
/// letters grow smaller before a sentence is cut.
void draw_see(Page& page, const trip::Plan& plan, std::size_t leg, double y, double height,
              const SeeStyle& style);

/// The first danger of a leg stands in the left half in one line from `card::danger_x`, its letters
/// no smaller than `least_danger` of these.
inline constexpr double least_danger = 0.6;
[[nodiscard]] Type danger_type(double k);
/// Does it stand there whole? If not, it is cut there, and must stand whole in the right half.
[[nodiscard]] bool whole_on_left(const Page& page, const std::string& danger, double k);

/// draw_see makes its letters no smaller than this share of the usual ones.
inline constexpr double smallest_see = 0.62;
/// The height, in millimetres, of which draw_see fills all with letters of `size` times the usual.
[[nodiscard]] double see_height(const trip::Plan& plan, std::size_t leg, double size,
                                const SeeStyle& style, const TextMeasure& measure);

/// What makes a leg dangerous, in words, worst first; empty: nothing does.
[[nodiscard]] std::vector<std::string> leg_dangers(const trip::Plan& plan, std::size_t leg);

/// What stands beside a leg's certainty where it is not among its dangers: how many stray onto
/// ground to keep off; empty where that is under trip::told_harm.
[[nodiscard]] std::string leg_strays(const trip::Plan& plan, std::size_t leg);

/// Four stones, the fuller the surer, from `right - 11.4` to `right`.
void draw_stone_row(Page& page, double certainty, double right, double top);
/// The same with the figure below; dashes where no fix ends the leg.
void draw_stones(Page& page, const trip::PlannedLeg& leg, const trip::Plan& plan, double right,
                 double y);

/// "Turn round if not at …", in a frame across the page.
void draw_turn_rule(Page& page, const trip::Plan& plan, double y);
/// What to do when lost, help, the marks; between `y` and `below`. Told briefly, escape routes stand on
/// their own card.
void draw_help(Page& page, const trip::Plan& plan, double y, double below, Told told);

}  // namespace lodeway::sheet
