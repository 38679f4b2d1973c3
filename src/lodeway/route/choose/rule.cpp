#include "lodeway/route/choose/rule.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>
#include <tuple>
#include <vector>

namespace lodeway::route {

namespace {

/// The knee: how far below the chord from a to b, in parts of the chord's triangle.
double below_chord(const Candidate& a, const Candidate& b, const Candidate& way) {
  return 1 - (way.expected_min - a.expected_min) / (b.expected_min - a.expected_min) -
         (way.loss - b.loss) / (a.loss - b.loss);
}

std::size_t least_broken(std::span<const Candidate> ways, const ChoiceRules& rules) {
  const double least = std::ranges::min(ways, {}, &Candidate::keep_off).keep_off;
  const auto key = [&](const Candidate& way) {
    return std::tuple(way.keep_off > least + rules.same_keep_off,
                      std::lround(way.short_of / rules.rounding), way.expected_min);
  };
  return static_cast<std::size_t>(std::ranges::min_element(ways, {}, key) - ways.begin());
}

}  // namespace

bool keeps_limits(const Candidate& way, const ChoiceRules& rules) {
  return way.keep_off <= rules.most_keep_off && way.short_of <= rules.rounding && way.late_min <= 0;
}

Picked pick_ways(std::span<const Candidate> ways,
                 const std::function<double(std::size_t, std::size_t)>& apart,
                 const ChoiceRules& rules) {
  assert(!ways.empty());
  std::vector<std::size_t> within;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    if (keeps_limits(ways[i], rules)) within.push_back(i);
  }
  Picked out;
  if (within.empty()) {
    out.quick = least_broken(ways, rules);
    out.why_no_middle = out.why_no_sure = NotNamed::outside;
    return out;
  }
  const auto minutes = [&](std::size_t i) { return ways[i].expected_min; };
  const auto loss = [&](std::size_t i) { return ways[i].loss; };
  out.quick = *std::ranges::min_element(
      within, {}, [&](std::size_t i) { return std::pair(minutes(i), loss(i)); });
  const double enough = loss(*std::ranges::min_element(within, {}, loss)) + rules.same_loss;
  std::erase_if(within, [&](std::size_t i) { return loss(i) > loss(out.quick); });
  std::vector<std::size_t> surest;
  std::ranges::copy_if(within, std::back_inserter(surest),
                       [&](std::size_t i) { return loss(i) <= enough; });
  const auto sure = *std::ranges::min_element(surest, {}, minutes);
  out.why_no_middle = NotNamed::none_between;
  if (loss(out.quick) <= enough) {
    out.why_no_sure = NotNamed::no_surer;
    return out;
  }
  if (apart(sure, out.quick) < rules.apart_share) {
    out.why_no_sure = NotNamed::same_on_map;
    return out;
  }
  out.sure = sure;
  const auto& a = ways[out.quick];
  const auto& b = ways[sure];
  std::vector<std::pair<double, std::size_t>> between;
  for (const auto i : within) {
    const double gain = below_chord(a, b, ways[i]);
    if (minutes(i) > a.expected_min && minutes(i) < b.expected_min && gain > 0)
      between.emplace_back(-gain, i);
  }
  std::ranges::sort(between);
  const auto knee = std::ranges::find_if(between, [&](const auto& way) {
    return apart(way.second, out.quick) >= rules.apart_share &&
           apart(way.second, sure) >= rules.apart_share;
  });
  if (knee != between.end()) {
    out.middle = knee->second;
    out.why_no_middle = NotNamed::given;
  } else if (!between.empty()) {
    out.why_no_middle = NotNamed::between_same;
  }
  return out;
}

}  // namespace lodeway::route
