#pragma once
/// The verdict at the head of a page, and the one form that danger has on all paper.
#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

/// A frame with ticks pointing inward, the edge that ground to keep off has on the sheet. Used for
/// danger and nothing else; needs no hue. Millimetres.
void danger_frame(Page& page, double x, double y, double w, double h);

/// How high a band must be that says all it has to, `most` at most. Millimetres; `w` and `fold` are
/// those of draw_verdict_band, with the band's left edge at 0.
[[nodiscard]] double verdict_band_h(const trip::Plan& plan, double w, double fold, double most,
                                    const TextMeasure& measure);

/// Headline and the worst of what fails, at the left; the rest, what else the whole trip must know
/// (a clock that changes, snow above) and both figures at the right. The left part alone carries the
/// verdict: a folded card shows only that. `fold`: where the right part begins. Answers how many of
/// the lines found no room in the height `h`; the band counts them.
std::size_t draw_verdict_band(Page& page, const trip::Plan& plan, Mm at, double w, double fold,
                              double h);

}  // namespace lodeway::sheet
