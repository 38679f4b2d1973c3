#include "lodeway/tasks/rehearse.hpp"

#include <utility>

#include "lodeway/io/raster/write_raster.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/map_picture.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::tasks {

namespace {
/// The ground, where walkers set foot besides the way in one hue, and the way as planned.
Result<void> draw_strayed(const walking::Ground& ground, const trip::Plan& plan,
                          const terrain::Raster<float>& strayed, const std::string& path) {
  const auto in = plan.trip.language;
  constexpr std::pair<double, double> steps[] = {{1e-9, 0.22}, {1e-3, 0.30}, {1e-2, 0.42}};
  const auto over = [&](sheet::Page& page, sheet::Labels&, const sheet::MapFrame& frame) {
    for (const auto& [least, strength] : steps) {
      draw_mask(
          page, frame, strayed.frame(),
          [&](int r, int c) { return static_cast<double>(strayed[r, c]) >= least; },
          share_ink(strength));
    }
    draw_way_line(page, frame, plan.way);
  };
  return draw_map_picture(
      ground, strayed.frame(), path, over,
      {{share_ink(0.68), trip::told(in, "a step here by 1 in 100 walkers or more")},
       {share_ink(0.45), trip::told(in, "by 1 in 1000 or more")},
       {share_ink(0.22), trip::told(in, "by anyone")}});
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
                               *sigma);
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
    if (auto done =
            draw_strayed(planned->ground, planned->plan, rehearsal->strayed, request.picture);
        !done)
      return std::unexpected(done.error());
  }
  return RehearsedTrip{*std::move(planned), *std::move(rehearsal)};
}

}  // namespace lodeway::tasks
