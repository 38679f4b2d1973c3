#include "lodeway/tasks/rehearse.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/io/raster/write_raster.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::tasks {

namespace {
using earth::GridPoint;

/// Relief in light grey, the walkers in one hue from light to dark, the way as planned in black.
terrain::Raster<io::Colour> picture_of(const walking::Ground& ground, const trip::PlannedWay& way,
                                       const terrain::Raster<float>& strayed) {
  terrain::Raster<io::Colour> picture(strayed.frame());
  const auto& f = strayed.frame();
  constexpr float first_seen = 1e-4F;  // of the walkers
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      const terrain::Gradient g = terrain::gradient_at(ground.elevation, f.centre(r, c));
      const double light =
          std::isfinite(g.east) ? std::clamp(0.75 - 0.6 * (g.north - g.east), 0.35, 1.0) : 1.0;
      double red = 190 + 65 * light, green = red, blue = red;
      if (strayed[r, c] > 0) {
        const auto share = static_cast<double>(std::max(strayed[r, c] / first_seen, 1.0F));
        const double ink = std::clamp(0.15 + 0.2 * std::log10(share), 0.15, 0.9);
        red += ink * (150 - red);
        green += ink * (20 - green);
        blue += ink * (60 - blue);
      }
      picture[r, c] = {static_cast<std::uint8_t>(red), static_cast<std::uint8_t>(green),
                       static_cast<std::uint8_t>(blue)};
    }
  }
  for (const auto& leg : way.legs) {
    for (std::size_t i = 1; i < leg.course.line.size(); ++i) {
      const GridPoint a = leg.course.line[i - 1], d = leg.course.line[i] - a;
      const int steps =
          std::max(1, static_cast<int>(2 * std::hypot(d.east_m, d.north_m) / f.cell_m));
      for (int k = 0; k <= steps; ++k) {
        const auto [row, col] = f.cell_of(a + (static_cast<double>(k) / steps) * d);
        if (f.holds(row, col)) picture[row, col] = {0, 0, 0};
      }
    }
  }
  return picture;
}
}  // namespace

Result<reckoning::Rehearsal> rehearse_plan(const walking::Ground& ground, const trip::Plan& plan,
                                           const reckoning::RehearsalRequest& request,
                                           Progress* progress) {
  const auto stopped = [] { return fail(FaultCode::cancelled, "stopped; nothing was written"); };
  if (progress != nullptr && !progress->go_on(-1, "rehearsing")) return stopped();
  const auto sigma = declination_sigma_deg(ground, plan.trip);
  if (!sigma) return std::unexpected(sigma.error());
  const walking::Cover cover(ground, plan.trip.request);
  const reckoning::Judge judge(ground, plan.trip.request.party, reckoning::forbidden_of(cover),
                               *sigma, {}, plan.trip.language);
  Threads threads(progress, "rehearsing", 0);
  auto rehearsal = reckoning::rehearse(ground, judge, trip::plain(plan.way), request, threads);
  if (threads.stopped()) return stopped();
  return rehearsal;
}

Result<RehearsedTrip> rehearse_trip(const RehearseRequest& request, Progress* progress) {
  if (request.walkers == 0)
    return fail(FaultCode::bad_input, "walkers: expected at least 1, got 0");
  if (request.walkers > reckoning::most_walkers) {
    return fail(FaultCode::too_large, "walkers: expected at most " +
                                          std::to_string(reckoning::most_walkers) + ", got " +
                                          std::to_string(request.walkers));
  }
  auto planned = plan_trip(request.plan, progress);
  if (!planned) return std::unexpected(planned.error());
  auto rehearsal =
      rehearse_plan(planned->ground, planned->plan, {request.walkers, request.seed}, progress);
  if (!rehearsal) return std::unexpected(rehearsal.error());
  if (!request.raster.empty()) {
    if (auto done = io::write_geotiff(rehearsal->strayed, planned->ground.grid, request.raster);
        !done)
      return std::unexpected(done.error());
  }
  if (!request.picture.empty()) {
    const auto picture = picture_of(planned->ground, planned->plan.way, rehearsal->strayed);
    if (auto done = io::write_picture(picture, request.picture); !done)
      return std::unexpected(done.error());
  }
  return RehearsedTrip{*std::move(planned), *std::move(rehearsal)};
}

}  // namespace lodeway::tasks
