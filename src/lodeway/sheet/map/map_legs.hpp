#pragma once
/// The plan on the map: the blackest thing on the sheet, with the ground under it left in view.
#include <array>

#include "lodeway/sheet/draw/labels.hpp"
#include "lodeway/sheet/map/map_frame.hpp"

namespace lodeway::sheet {

/// Where a leg is walked to on the page: its line, or straight to its aim when it is aimed off.
[[nodiscard]] std::vector<Mm> walked(const MapFrame& frame, const trip::PlannedLeg& leg);
/// A leg that ends at a turn where nothing is to be seen.
[[nodiscard]] bool turn_without_fix(const trip::PlannedLeg& leg);

/// The surface of error ribbons and ellipses: under all that warns, for where the party may be is
/// where the hatch of steep ground must be seen.
void draw_doubt_shade(Page& page, const MapFrame& frame, const trip::Plan& plan);
/// Under the legs: the edges of ribbons and ellipses, catching features with the leg they stop.
void draw_doubt(Page& page, Labels& labels, const MapFrame& frame, const trip::Plan& plan);
/// Rails beside what is followed, straight lines with an arrow, tick-off features, fixes, attack
/// points, turns without a fix, aiming-off bars, ways off; holds their room among the labels.
void draw_legs(Page& page, Labels& labels, const MapFrame& frame, const trip::Plan& plan);
/// Leg numbers, and beside bearing legs what the needle shows and the millimetres; clear of the
/// line.
void draw_leg_tags(Page& page, Labels& labels, const MapFrame& frame, const trip::Plan& plan);

/// The legs' lines that the map shows, on the page.
[[nodiscard]] std::vector<std::vector<Mm>> legs_on_page(const MapFrame& frame,
                                                        const trip::Plan& plan);

/// The plan's marks that stand at a place.
enum class PlanSign : unsigned char { place, attack_point, turn, tick_off, escape, safe_ground };
inline constexpr std::size_t plan_sign_count = 6;
/// One of them, alone; an escape route runs some 10 mm across the place.
void draw_sign(Page& page, Mm at, PlanSign sign);
/// Which of them the map shows, in their order. `page`: where draw_legs has drawn.
[[nodiscard]] std::array<bool, plan_sign_count> signs_on_map(const Page& page,
                                                             const MapFrame& frame,
                                                             const trip::Plan& plan);

}  // namespace lodeway::sheet
