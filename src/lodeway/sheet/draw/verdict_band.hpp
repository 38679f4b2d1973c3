#pragma once
/// The verdict at the head of a page, and the one form that danger has on all paper.
#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

/// A frame with ticks pointing inward, the edge that ground to keep off has on the sheet. Used for
/// danger and nothing else; needs no hue. Millimetres.
void danger_frame(Page& page, double x, double y, double w, double h);

/// How high the band of this verdict is: taller where it tells of dangers. Millimetres.
[[nodiscard]] double verdict_band_h(const trip::Verdict& verdict);

/// Headline and the worst of what fails, at the left; the rest and both figures at the right. The
/// left part alone carries the verdict: a folded card shows only that. `fold`: where the right part
/// begins.
void draw_verdict_band(Page& page, const trip::Plan& plan, Mm at, double w, double fold);

}  // namespace lodeway::sheet
