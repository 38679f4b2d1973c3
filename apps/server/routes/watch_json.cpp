#include "apps/server/routes/watch_json.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "lodeway/earth/place.hpp"
#include "lodeway/tasks/walk.hpp"

namespace lodeway::server {

namespace {

using earth::GridPoint;
using Slip = walkers::Track::Slip;

constexpr std::size_t parties = 500;        ///< all are kept: a share has an error of 2 in 100
constexpr std::size_t shown_of_a_leg = 40;  ///< as many crosses as can be told apart
constexpr double apart_m = 12;              ///< of the points of a line that is shown
constexpr double after_m = 600;  ///< how far a party is shown to go on after it went wrong

Json point(GridPoint p) {
  const auto round = [](double v) { return std::round(10 * v) / 10; };
  return {round(p.east_m), round(p.north_m)};
}

/// The true line of a party from the start of the leg to a while after it went wrong.
Json line_of(const walkers::Track& track, const Slip& slip) {
  const auto& moments = track.moments;
  std::size_t first = std::min(slip.moment, moments.size());
  while (first > 0 && moments[first - 1].leg == slip.leg) --first;
  Json line = Json::array();
  GridPoint last{};
  const auto put = [&](GridPoint p, bool anyway) {
    if (!anyway && !line.empty() && earth::grid_distance_m(last, p) < apart_m) return;
    line.push_back(point(p));
    last = p;
  };
  for (std::size_t k = first; k < slip.moment && k < moments.size(); ++k) put(moments[k].at, false);
  put(slip.at, true);
  double gone = 0;
  for (std::size_t k = slip.moment; k < moments.size() && gone < after_m; ++k) {
    if (k > slip.moment) gone += earth::grid_distance_m(moments[k - 1].at, moments[k].at);
    put(moments[k].at, false);
  }
  return line;
}

}  // namespace

Result<Json> watched(const walking::Ground& ground, const trip::Plan& plan, std::uint64_t seed,
                     tasks::Progress& progress) {
  tasks::WalkRequest request;
  request.walkers = request.tracks = parties;
  request.seed = seed;
  const auto walk = tasks::walk_plan(ground, plan, request, &progress);
  if (!walk) return std::unexpected(walk.error());
  if (walk->stopped) return fail(FaultCode::cancelled, "stopped");
  const auto& walked = walk->walked;
  std::vector<std::array<std::size_t, walkers::wrong_count>> lost(walked.legs.size());
  std::vector<std::size_t> shown(walked.legs.size(), 0);
  Json traces = Json::array();
  for (const auto& track : walked.tracks) {
    if (track.slips.empty()) continue;
    const Slip& slip = track.slips.front();
    const auto leg = static_cast<std::size_t>(slip.leg);
    ++lost[leg][static_cast<std::size_t>(slip.wrong)];
    if (++shown[leg] > shown_of_a_leg) continue;
    traces.push_back({{"leg", leg + 1},
                      {"why", walkers::wrong_words(slip.wrong)},
                      {"at_grid_m", point(slip.at)},
                      {"line_grid_m", line_of(track, slip)}});
  }
  Json legs = Json::array();
  std::size_t left = walked.walked;
  for (std::size_t l = 0; l < lost.size(); ++l) {
    std::vector<std::size_t> order(walkers::wrong_count);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, std::greater{}, [&](std::size_t k) { return lost[l][k]; });
    Json why = Json::array();
    for (const auto k : order) {
      if (lost[l][k] > 0)
        why.push_back({{"why", walkers::wrong_words(static_cast<walkers::Wrong>(k))},
                       {"parties", lost[l][k]}});
    }
    const std::size_t here = std::reduce(lost[l].begin(), lost[l].end());
    left -= here;
    legs.push_back({{"leg", l + 1},
                    {"lost", here},
                    {"left", left},
                    {"keep_off", walked.legs[l].keep_off},
                    {"why", why}});
  }
  Json ended = Json::array();
  for (std::size_t k = 0; k < walkers::state_count; ++k) {
    if (walked.ended[k] > 0)
      ended.push_back({{"state", walkers::state_words(static_cast<walkers::State>(k))},
                       {"parties", walked.ended[k]}});
  }
  return Json{{"parties", walked.walked},
              {"keep_off", walked.keep_off},
              {"benighted", walked.benighted},
              {"legs", legs},
              {"lost", traces},
              {"ended", ended}};
}

}  // namespace lodeway::server
