#include "lodeway/route/choose/choose_ways.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/route/choose/way_parts.hpp"
#include "lodeway/route/legs/under_wires.hpp"
#include "lodeway/units/hundredths_up.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using reckoning::JudgedLeg;
using walking::Choice;
using Two = std::array<const char*, 2>;

constexpr double sample_m = 25;

std::size_t at(const Wishes& wishes) { return wishes.language == units::Language::german ? 1 : 0; }

std::vector<GridPoint> line_of(const reckoning::JudgedWay& way) {
  std::vector<GridPoint> out;
  for (const auto& leg : way.legs)
    out.insert(out.end(), leg.course.line.begin(), leg.course.line.end());
  return out;
}

// In the order of NotNamed.
constexpr std::array<Two, 6> reasons{{
    {"", ""},
    {"No way keeps all that you ask for. Shown is the one that fewest leave for ground to keep off; of "
     "those, the one least short of the certainty you asked for; of those, the quickest.",
     "Kein Weg hält alles ein, was ihr verlangt. Gezeigt ist der, von dem am wenigsten auf zu meidendes "
     "Gelände geraten; von diesen der, dem an der verlangten Zuverlässigkeit am wenigsten fehlt; "
     "von diesen der schnellste."},
    {"No other way is kept by at least 2 in 100 more than the quick one.",
     "Kein anderer Weg ist um mindestens 2 von 100 zuverlässiger als der schnelle."},
    {"The surer ways run where the quick one does.",
     "Die zuverlässigeren Wege verlaufen wie der schnelle."},
    {"No way between quick and sure is worth its extra time.",
     "Kein Weg zwischen dem schnellen und dem zuverlässigen ist seine Zeit wert."},
    {"The ways between quick and sure run where one of the two does.",
     "Die Wege dazwischen verlaufen wie einer der beiden."},
}};

constexpr Two no_certainty{
    "No way reaches {} in 100 on every leg. The best one's weakest leg is {} to {} ({} in 100), by "
    "the middle of its range; the verdict goes by the low end.",
    "Kein Weg erreicht {} von 100 auf jedem Abschnitt. Beim besten ist der schwächste von {} nach "
    "{} ({} von 100), nach der Mitte seiner Spanne; das Urteil nimmt das untere Ende."};
constexpr Two no_keep_off{
    "Every way sends more onto ground to keep off than your limit of {} in 100; the best one risks "
    "{} in 100, those who lose the way not counted.",
    "Auf jedem Weg geraten mehr auf zu meidendes Gelände als eure Grenze von {} von 100; auf dem "
    "besten {} von 100; wer sich verirrt, ist nicht mitgezählt."};
constexpr Two no_light{
    "Daylight is too short. Predicted: on a slow day even the shortest way is {:.0f} min of "
    "walking too long.",
    "Das Tageslicht reicht nicht. Berechnet: an einem langsamen Tag ist auch der kürzeste Weg um "
    "{:.0f} min Gehzeit zu lang."};

/// The weakest leg of the way whose weakest leg is the best.
const JudgedLeg& nearest_leg(const std::vector<NamedWay>& ways) {
  const auto certainty = [](const JudgedLeg& leg) { return leg.judged.certainty; };
  const JudgedLeg* best = nullptr;
  for (const auto& way : ways) {
    const auto& weakest = *std::ranges::min_element(way.way.legs, {}, certainty);
    if (best == nullptr || certainty(weakest) > certainty(*best)) best = &weakest;
  }
  return *best;
}

std::vector<std::string> broken_words(const std::vector<NamedWay>& ways, const Wishes& wishes) {
  const auto broken = broken_by_all(ways, wishes);
  std::vector<std::string> out;
  const auto add = [&](const Two& form, const auto&... values) {
    out.push_back(fmt::format(fmt::runtime(form[at(wishes)]), values...));
  };
  if (broken.keep_off) {
    const auto least = std::ranges::min(ways, {}, &NamedWay::hazard).hazard;
    add(no_keep_off, units::hundredths_up(wishes.most_hazard), units::hundredths_up(least));
  }
  if (broken.light)
    add(no_light,
        std::ranges::min(ways, {}, &NamedWay::minutes_slow).minutes_slow - wishes.most_minutes);
  if (broken.certainty) {
    const auto& leg = nearest_leg(ways);
    add(no_certainty, units::of_hundred(wishes.min_certainty), leg.course.from, leg.course.to,
        units::of_hundred(leg.judged.certainty));
  }
  return out;
}

std::vector<LegCost> front_of(const std::vector<NamedWay>& ways) {
  std::vector<LegCost> all, front;
  for (const auto& way : ways) all.push_back(cost_of(way));
  std::ranges::stable_sort(all, [](const LegCost& a, const LegCost& b) {
    return std::pair(a.seconds, a.loss) < std::pair(b.seconds, b.loss);
  });
  for (const auto& cost : all) {
    if (front.empty() || (cost.seconds > front.back().seconds && cost.loss < front.back().loss))
      front.push_back(cost);
  }
  return front;
}

}  // namespace

Candidate candidate_of(const NamedWay& way, const Wishes& wishes) {
  Candidate out{way.expected_min + way.wading_min, cost_of(way).loss, way.hazard, 0,
                way.minutes_slow - wishes.most_minutes};
  for (const auto& leg : way.way.legs) {
    const auto& j = leg.judged;
    out.expected_min += (counts_times(leg.course.kind, leg.course.followed.kind) - 1) *
                        (j.minutes + (1 - j.certainty) * j.recovery_minutes);
    const double under = wishes.min_certainty - leg.judged.certainty;
    if (under > chance_rounding) out.short_of += under;
  }
  return out;
}

ChoiceRules rules_of(const Wishes& wishes) {
  ChoiceRules out;
  out.most_keep_off = wishes.most_hazard;
  return out;
}

BrokenByAll broken_by_all(const std::vector<NamedWay>& ways, const Wishes& wishes) {
  BrokenByAll out;
  for (const auto& way : ways) {
    const auto c = candidate_of(way, wishes);
    out.certainty = out.certainty && c.short_of > 0;
    out.keep_off = out.keep_off && c.keep_off > wishes.most_hazard;
    out.light = out.light && c.late_min > 0;
  }
  return out;
}

bool any_keeps(const std::vector<NamedWay>& ways, const Wishes& wishes) {
  return std::ranges::any_of(ways, [&](const NamedWay& way) {
    return keeps_limits(candidate_of(way, wishes), rules_of(wishes));
  });
}

double share_off(const reckoning::JudgedWay& a, const reckoning::JudgedWay& b, double within_m) {
  const auto first = line_of(a), second = line_of(b);
  const mapdata::Measured measured(first);
  const int count = std::max(1, static_cast<int>(measured.length_m() / sample_m));
  int off = 0;
  for (int k = 0; k < count; ++k) {
    const auto p = measured.at((k + 0.5) * measured.length_m() / count);
    bool near = false;
    for (std::size_t i = 1; i < second.size() && !near; ++i) {
      const double t = mapdata::nearest_fraction(second[i - 1], second[i], p);
      near = earth::grid_distance_m(second[i - 1] + t * (second[i] - second[i - 1]), p) <= within_m;
    }
    off += near ? 0 : 1;
  }
  return static_cast<double>(off) / count;
}

Ways named(std::vector<NamedWay> ways, const Wishes& wishes) {
  Ways out;
  out.front = front_of(ways);
  std::vector<Candidate> candidates;
  for (const auto& way : ways) candidates.push_back(candidate_of(way, wishes));
  const auto apart = [&](std::size_t i, std::size_t j) {
    return std::min(share_off(ways[i].way, ways[j].way), share_off(ways[j].way, ways[i].way));
  };
  const auto picked = pick_ways(candidates, apart, rules_of(wishes));
  const auto say = [&](NotNamed why) {
    out.remarks.emplace_back(reasons[static_cast<std::size_t>(why)][at(wishes)]);
  };
  if (picked.outside()) {
    say(NotNamed::outside);
    std::ranges::move(broken_words(ways, wishes), std::back_inserter(out.remarks));
  } else if (!picked.sure) {
    say(picked.why_no_sure);
  } else if (!picked.middle) {
    say(picked.why_no_middle);
  }
  const auto take = [&](std::size_t i, Choice choice) {
    out.ways.push_back(std::move(ways[i]));
    out.ways.back().choice = choice;
  };
  take(picked.quick, Choice::quick);
  if (picked.middle) take(*picked.middle, Choice::middle);
  if (picked.sure) take(*picked.sure, Choice::sure);
  return out;
}

}  // namespace lodeway::route
