#pragma once
/// Inside sheet only: what the sides of the page that stays at home share.
#include <string>
#include <vector>

#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet::home {

// Millimetres of the A4 page.
inline constexpr double page_w = 210, page_h = 297, edge = 14, wide = page_w - 2 * edge;

[[nodiscard]] Type words(double points, bool bold = false);
/// What a rescuer can use anywhere, or the six figures where the place has no other name.
[[nodiscard]] const std::string& full_or_six(const std::string& reference, const std::string& six);
/// Whose page it is, of which trip and day, and for whom.
void draw_title(Page& page, const trip::Plan& plan);
/// Which side of how many.
struct SideOf {
  std::size_t side = 1, of = 1;
};
/// That a plan is only a plan, and which side this is where there are several.
void draw_promise(Page& page, const trip::Plan& plan, SideOf side);
/// The sides behind the first: the whole verdict, what else to know, and the start and each leg's
/// end in full, as many sides as they need.
[[nodiscard]] std::vector<Drawing> draw_overleaf(const trip::Plan& plan,
                                                 const TextMeasure& measure);

}  // namespace lodeway::sheet::home
