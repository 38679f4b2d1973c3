// From a plan to bytes: an A4 sheet at 1:25 000 of the fells (bound: 0.5 s), a way of five sheets
// (bound: 2 s), the card. The counter `bytes` is the size of the file written.
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>

#include <benchmark/benchmark.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_pdf.hpp"
#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"

namespace {

using namespace lodeway;

const walking::Ground& fells() {
  static const auto made = fells::make_skarrow_fells();
  return made;
}

/// Ten legs round the middle of the fells.
trip::Plan plan(double scale, trip::Paper paper) {
  trip::Plan out;
  out.trip.name = "bench";
  out.trip.date = std::chrono::year{2026} / 11 / 14;
  out.trip.map_scale = scale;
  out.trip.paper = paper;
  earth::GridPoint at{481900, 6050600};
  for (int i = 0; i < 10; ++i) {
    const double a = 0.6 * i;
    const auto to = at + earth::GridPoint{800 * std::sin(a), 700 * std::cos(a)};
    auto& leg = out.way.legs.emplace_back();
    leg.course.from = leg.course.to = "Low Hause";
    leg.course.line = {at, to};
    leg.figures.length_m = earth::grid_distance_m(at, to);
    leg.counted = {leg.figures.length_m, units::map_mm(leg.figures.length_m, scale), 0, 0};
    leg.needle = trip::OnTheNeedle{leg.counted, to, {}, {}};
    leg.reference = "819 505";
    out.schedule.legs.push_back({});
    at = to;
  }
  return out;
}

struct Written {
  std::size_t pages = 0, bytes = 0;
};

Written write(const std::vector<sheet::Drawing>& pages) {
  const auto path = std::filesystem::temp_directory_path() / "lodeway-bench-sheet.pdf";
  if (!io::write_pdf(pages, path, std::chrono::year{2026} / 11 / 14)) std::abort();
  const Written out{pages.size(), std::filesystem::file_size(path)};
  std::filesystem::remove(path);
  return out;
}

void sheets(benchmark::State& state, double scale, trip::Paper paper, trip::Shade shade) {
  const auto measure = io::make_text_measure();
  auto p = plan(scale, paper);
  p.trip.shade = shade;
  (void)fells();
  Written done;
  for (auto _ : state) {
    const auto drawn = sheet::draw_map_sheets(p, fells(), **measure);
    if (!drawn) std::abort();
    done = write(*drawn);
  }
  state.counters["pages"] = static_cast<double>(done.pages);
  state.counters["bytes"] = static_cast<double>(done.bytes);
}

void draw_only(benchmark::State& state) {
  const auto measure = io::make_text_measure();
  const auto p = plan(25000, trip::Paper::a4);
  (void)fells();
  for (auto _ : state) benchmark::DoNotOptimize(sheet::draw_map_sheets(p, fells(), **measure));
}

void card(benchmark::State& state) {
  const auto measure = io::make_text_measure();
  const auto p = plan(25000, trip::Paper::a4);
  Written done;
  for (auto _ : state) done = write(sheet::draw_card(p, **measure));
  state.counters["bytes"] = static_cast<double>(done.bytes);
}

}  // namespace

BENCHMARK_CAPTURE(sheets, a4_25000, 25000, trip::Paper::a4, trip::Shade::relief)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(sheets, a4_25000_slope, 25000, trip::Paper::a4, trip::Shade::slope)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(sheets, five_a5_10000, 10000, trip::Paper::a5, trip::Shade::relief)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(draw_only)->Unit(benchmark::kMillisecond);
BENCHMARK(card)->Unit(benchmark::kMillisecond);

BENCHMARK_MAIN();
