// How many come to harm is one figure, wherever it is said.
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "lodeway/trip/verdict.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::trip {
namespace {

/// One leg that sends so many onto ground to keep off, with its warnings.
Plan plan_with(double harm, Language language) {
  walking::Ground ground;
  ground.grid = earth::MapGrid::from_text("EPSG:32629").value();
  ground.elevation = terrain::Elevation(terrain::Frame{480000, 6051000, 20, 50, 50}, 100.0F);
  Plan plan;
  plan.trip.language = language;
  plan.trip.date = std::chrono::year{2026} / 9 / 12;
  plan.trip.zone = "Europe/Dublin";
  auto& leg = plan.way.legs.emplace_back();
  leg.course.line = {{480200, 6050200}, {480700, 6050700}};
  leg.judged.certainty = 0.99;
  leg.judged.hazard_probability = harm;
  plan.warnings = warnings_for(plan, ground);
  return plan;
}

std::string warned(const Plan& plan) {
  for (const auto& w : plan.warnings) {
    if (w.leg == 0 && w.severity == Severity::danger) return w.text;
  }
  return "";
}

// Of 100, rounded up: 81.1 is 82 on the screen's line of danger as in the verdict.
TEST(OneFigure, TheLineOfDangerSaysTheVerdictsFigure) {
  EXPECT_EQ(warned(plan_with(0.811, Language::english)),
            "Leg 1: 82 in 100 stray onto ground to keep off.");
  EXPECT_EQ(warned(plan_with(0.29, Language::german)),
            "Abschnitt 1: 29 von 100 geraten auf zu meidendes Gelände.");
}

RC_GTEST_PROP(OneFigure, WhateverTheChance, ()) {
  const double harm = *rc::gen::inRange(10'000, 1'000'000) * 1e-6;
  const auto german = *rc::gen::arbitrary<bool>();
  const auto language = german ? Language::german : Language::english;
  const auto reason = reason_words({Band::outside, Fails::keep_off, 0, harm, 0.05}, language);
  RC_ASSERT(warned(plan_with(harm, language)) == reason);
}

}  // namespace
}  // namespace lodeway::trip
