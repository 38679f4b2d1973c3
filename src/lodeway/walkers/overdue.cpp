#include "lodeway/walkers/overdue.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <queue>

#include <fmt/format.h>

namespace lodeway::walkers {

namespace {
constexpr double cell_m = 50, spread_m = 100, margin_m = 400;
constexpr double most_cells = 250000;
constexpr double most_hectares = 25, least_of_peak = 0.2;
constexpr std::size_t most_areas = 12;
constexpr double least_share = 0.01;

Branch branch_of(const Stand& s) {
  switch (s.state) {
    case State::escaping:
      return Branch::escaped;
    case State::going_back:
      return Branch::turned_round;
    case State::lost:
      return Branch::lost;
    case State::staying:
      return s.lost_on >= 0 ? Branch::lost : Branch::slow;
    default:
      return Branch::slow;
  }
}
int leg_of(const Stand& s) { return s.lost_on >= 0 ? s.lost_on : s.leg; }

terrain::Frame frame_of(const std::vector<const Stand*>& out) {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  for (const Stand* s : out) {
    west = std::min(west, s->at.east_m - margin_m);
    east = std::max(east, s->at.east_m + margin_m);
    south = std::min(south, s->at.north_m - margin_m);
    north = std::max(north, s->at.north_m + margin_m);
  }
  double cell = cell_m;
  while ((east - west) * (north - south) / (cell * cell) > most_cells) cell *= 2;
  west = std::floor(west / cell) * cell;
  north = std::ceil(north / cell) * cell;
  return {west, north, cell, static_cast<int>(std::ceil((north - south) / cell)),
          static_cast<int>(std::ceil((east - west) / cell))};
}

/// A share of 1 for each party, spread by a normal over the cells about it.
void spread(const std::vector<const Stand*>& out, terrain::Raster<float>& share) {
  const auto& f = share.frame();
  const int reach = static_cast<int>(std::ceil(3 * spread_m / f.cell_m));
  std::vector<double> sum(f.size(), 0);
  for (const Stand* s : out) {
    const auto [row, col] = f.cell_of(s->at);
    double all = 0;
    for (const bool put : {false, true}) {
      for (int r = row - reach; r <= row + reach; ++r) {
        for (int c = col - reach; c <= col + reach; ++c) {
          if (!f.holds(r, c)) continue;
          const double d = earth::grid_distance_m(f.centre(r, c), s->at) / spread_m;
          const double w = std::exp(-0.5 * d * d);
          if (put)
            sum[static_cast<std::size_t>(r) * static_cast<std::size_t>(f.cols) +
                static_cast<std::size_t>(c)] += w / all;
          else
            all += w;
        }
      }
    }
  }
  for (std::size_t i = 0; i < sum.size(); ++i)
    share.cells()[i] =
        static_cast<float>(sum[i] * (1 - outside_model) / static_cast<double>(out.size()));
}

/// From the densest cell outwards, densest neighbours first.
std::vector<std::size_t> grown(const terrain::Raster<float>& share, std::vector<bool>& taken,
                               std::size_t peak) {
  const auto& f = share.frame();
  const double hectares = f.cell_m * f.cell_m / 10000;
  const auto& cells = share.cells();
  std::vector<std::size_t> out;
  std::priority_queue<std::pair<float, std::size_t>> next;
  const auto offer = [&](std::size_t i) {
    if (!taken[i] && cells[i] >= static_cast<float>(least_of_peak) * cells[peak]) {
      taken[i] = true;
      next.emplace(cells[i], i);
    }
  };
  offer(peak);
  while (!next.empty()) {
    const std::size_t i = next.top().second;
    next.pop();
    if (hectares * static_cast<double>(out.size() + 1) > std::max(most_hectares, hectares)) {
      taken[i] = false;
      continue;
    }
    out.push_back(i);
    const int r = static_cast<int>(i / static_cast<std::size_t>(f.cols)),
              c = static_cast<int>(i % static_cast<std::size_t>(f.cols));
    for (const auto& [dr, dc] : {std::pair{-1, 0}, {1, 0}, {0, -1}, {0, 1}}) {
      if (f.holds(r + dr, c + dc))
        offer(static_cast<std::size_t>(r + dr) * static_cast<std::size_t>(f.cols) +
              static_cast<std::size_t>(c + dc));
    }
  }
  return out;
}

void order(Overdue& o) {
  std::ranges::stable_sort(
      o.areas, [](const Area& a, const Area& b) { return a.per_hectare() > b.per_hectare(); });
}
}  // namespace

Overdue overdue_at(const Walked& walked, std::size_t moment, double at_min) {
  Overdue o;
  o.at_min = at_min;
  o.walked = walked.walked;
  std::vector<const Stand*> out;
  std::map<std::pair<Branch, int>, std::size_t> count;
  for (const Stand& s : walked.stands[moment]) {
    if (is_home(s.state)) {
      ++o.home;
      continue;
    }
    out.push_back(&s);
    o.keeping_still += s.state == State::staying;
    const Branch b = branch_of(s);
    ++count[{b, b == Branch::lost ? leg_of(s) : -1}];
  }
  if (out.empty()) return o;
  const auto all = static_cast<double>(out.size());
  for (const auto& [what, n] : count)
    o.branches.push_back({what.first, what.second, n, static_cast<double>(n) / all});
  std::ranges::stable_sort(o.branches, std::greater{}, &BranchShare::parties);
  o.share = terrain::Raster<float>(frame_of(out));
  spread(out, o.share);
  const auto& f = o.share.frame();
  std::vector<bool> taken(f.size(), false);
  std::vector<std::int16_t> area_of(f.size(), -1);
  std::vector<std::size_t> by_share;
  for (std::size_t i = 0; i < f.size(); ++i)
    if (o.share.cells()[i] > 0) by_share.push_back(i);
  std::ranges::stable_sort(by_share, [&](std::size_t a, std::size_t b) {
    return o.share.cells()[a] > o.share.cells()[b];
  });
  for (const std::size_t peak : by_share) {
    if (o.areas.size() == most_areas) break;
    if (taken[peak]) continue;
    Area area;
    area.cells = grown(o.share, taken, peak);
    if (area.cells.empty()) continue;
    area.hectares = static_cast<double>(area.cells.size()) * f.cell_m * f.cell_m / 10000;
    double sum = 0;
    GridPoint mean;
    for (const std::size_t i : area.cells) {
      const auto share = static_cast<double>(o.share.cells()[i]);
      sum += share;
      mean = mean + share * f.centre(static_cast<int>(i / static_cast<std::size_t>(f.cols)),
                                     static_cast<int>(i % static_cast<std::size_t>(f.cols)));
      area_of[i] = static_cast<std::int16_t>(o.areas.size());
    }
    if (sum < least_share) {
      for (const std::size_t i : area.cells) area_of[i] = -1;
      continue;
    }
    area.share = sum;
    area.middle = (1 / sum) * mean;
    o.areas.push_back(std::move(area));
  }
  std::vector<std::map<int, int>> legs(o.areas.size());
  std::vector<std::array<int, branch_count>> branches(o.areas.size());
  for (const Stand* s : out) {
    const auto [r, c] = f.cell_of(s->at);
    const auto a = area_of[static_cast<std::size_t>(r) * static_cast<std::size_t>(f.cols) +
                           static_cast<std::size_t>(c)];
    if (a < 0) continue;
    const Branch b = branch_of(*s);
    ++legs[static_cast<std::size_t>(a)][b == Branch::lost ? leg_of(*s) : s->leg];
    ++branches[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)];
  }
  o.elsewhere = 1;
  for (std::size_t a = 0; a < o.areas.size(); ++a) {
    int most = 0;
    for (const auto& [leg, n] : legs[a]) {
      if (n > most) most = n, o.areas[a].leg = leg;
    }
    o.areas[a].branch =
        static_cast<Branch>(std::ranges::max_element(branches[a]) - branches[a].begin());
    o.elsewhere -= o.areas[a].share;
  }
  o.elsewhere = std::max(o.elsewhere, 0.0);
  order(o);
  for (std::size_t a = 0; a < o.areas.size(); ++a) o.areas[a].number = static_cast<int>(a) + 1;
  return o;
}

double detection(double coverage) { return -std::expm1(-std::max(coverage, 0.0)); }

Result<Overdue> looked_at(Overdue o, int number, double chance) {
  const auto found = std::ranges::find(o.areas, number, &Area::number);
  if (found == o.areas.end())
    return fail(FaultCode::bad_input, fmt::format("looked: expected an area from 1 to {}, got {}",
                                                  o.areas.size(), number));
  if (!(chance >= 0 && chance < 1))
    return fail(FaultCode::bad_input,
                fmt::format("looked: expected a chance from 0 to below 1, got {}", chance));
  const double left = 1 - found->share * chance;
  for (float& c : o.share.cells()) c = static_cast<float>(static_cast<double>(c) / left);
  for (const std::size_t i : found->cells)
    o.share.cells()[i] = static_cast<float>(static_cast<double>(o.share.cells()[i]) * (1 - chance));
  for (Area& a : o.areas) a.share /= left;
  found->share *= 1 - chance;
  found->looked = 1 - (1 - found->looked) * (1 - chance);
  o.elsewhere /= left;
  order(o);
  return o;
}

}  // namespace lodeway::walkers
