#pragma once
/// What happened, leg by leg, to be talked over: A4.
#include <string>
#include <vector>

#include "lodeway/learn/debrief/debrief.hpp"
#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/trip/plan.hpp"

namespace lodeway::sheet {

struct DebriefPaper {
  const trip::Plan& plan;
  const std::vector<learn::DebriefLeg>& legs;
  const learn::Debrief& debrief;
  const std::vector<std::string>& notes;
};
[[nodiscard]] std::vector<Drawing> draw_debrief(const DebriefPaper& paper,
                                                const TextMeasure& measure);

}  // namespace lodeway::sheet
