/// The names of a trip's ways, with the reason where there are fewer than three.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/route/choose/named_ways.hpp"
#include "lodeway/route/choose/way_parts.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Choice;

constexpr double beside_m = 50, sample_m = 25;  // *practice*

std::vector<GridPoint> line_of(const reckoning::JudgedWay& way) {
  std::vector<GridPoint> out;
  for (const auto& leg : way.legs) out.insert(out.end(), leg.course.line.begin(), leg.course.line.end());
  return out;
}

// In the order of NotNamed.
constexpr std::array<std::array<const char*, 2>, 7> reasons{{
    {"", ""},
    {"no way is surer than the quick one by more than 2 of 100",
     "kein Weg ist um mehr als 2 von 100 zuverlässiger als der schnelle"},
    {"for each 1 of 100 that a way is surer than the quick one it takes some 12 min more, or longer",
     "für jedes 1 von 100, um das ein Weg zuverlässiger ist als der schnelle, braucht er gut 12 min "
     "mehr"},
    {"the surer ways lie where the quick one does and are hardly surer",
     "die zuverlässigeren Wege liegen wie der schnelle und sind kaum zuverlässiger"},
    {"no way lies in time between the quick and the sure one",
     "der Zeit nach liegt kein Weg zwischen dem schnellen und dem zuverlässigen"},
    {"no way between the quick and the sure one buys its certainty cheaper than these two do",
     "kein Weg zwischen dem schnellen und dem zuverlässigen ist ein besserer Tausch als diese"},
    {"the ways between the quick and the sure one are like one of these",
     "die Wege zwischen dem schnellen und dem zuverlässigen gleichen einem von beiden"},
}};

constexpr std::array<const char*, 2> within_limits{
    "what is surer than the quick one by more than 2 of 100 breaks the limits more",
    "was um mehr als 2 von 100 zuverlässiger ist als der schnelle, verletzt die Grenzen mehr"};

}  // namespace

double common_share(const reckoning::JudgedWay& a, const reckoning::JudgedWay& b) {
  const auto first = line_of(a), second = line_of(b);
  const mapdata::Measured measured(first);
  const int count = std::max(1, static_cast<int>(measured.length_m() / sample_m));
  int near = 0;
  for (int k = 0; k < count; ++k) {
    const auto p = measured.at((k + 0.5) * measured.length_m() / count);
    for (std::size_t i = 1; i < second.size(); ++i) {
      const double t = mapdata::nearest_fraction(second[i - 1], second[i], p);
      if (earth::grid_distance_m(second[i - 1] + t * (second[i] - second[i - 1]), p) <= beside_m) {
        ++near;
        break;
      }
    }
  }
  return static_cast<double>(near) / count;
}

std::vector<std::string> missed_words(std::span<const NamedWay> ways, const Missed& missed,
                                      const Wishes& wishes) {
  const bool german = wishes.language == units::Language::german;
  const auto certainty = [](const reckoning::JudgedLeg& leg) { return leg.judged.certainty; };
  const auto spared = [](const reckoning::JudgedLeg& leg) { return -leg.judged.hazard_probability; };
  /// Of each way's worst leg the best.
  const auto nearest = [&](const auto& good) -> const reckoning::JudgedLeg& {
    const reckoning::JudgedLeg* best = nullptr;
    for (const auto& way : ways) {
      const auto& worst = *std::ranges::min_element(way.way.legs, {}, good);
      if (best == nullptr || good(worst) > good(*best)) best = &worst;
    }
    return *best;
  };
  std::vector<std::string> out;
  if (missed.certainty) {
    const auto& leg = nearest(certainty);
    out.push_back(fmt::format(
        fmt::runtime(german ? "kein Weg hält {} von 100 auf jedem Abschnitt; am nächsten kommt "
                              "einer mit {} von 100 von {} nach {}"
                            : "no way keeps {} of 100 on every leg; the nearest has {} of 100 "
                              "from {} to {}"),
        units::of_hundred(wishes.min_certainty), units::of_hundred(certainty(leg)), leg.course.from,
        leg.course.to));
  }
  if (missed.hazard) {
    const auto& leg = nearest(spared);
    out.push_back(fmt::format(
        fmt::runtime(german ? "jeder Weg kommt gesperrtem Gelände näher, als verlangt ist; am "
                              "wenigsten der, der es mit {:.0f} statt {:.0f} von 100 betritt, von "
                              "{} nach {}"
                            : "every way comes nearer to barred ground than is asked for; the one "
                              "that does least sets foot on it with {:.0f}, not {:.0f} of 100, "
                              "from {} to {}"),
        100 * leg.judged.hazard_probability, 100 * wishes.most_hazard, leg.course.from, leg.course.to));
  }
  return out;
}

void choose(std::span<const LegCost> front, const Wishes& wishes, const WayOf& way_of,
            bool surer_gone, Ways& out) {
  const auto language = static_cast<std::size_t>(wishes.language == units::Language::german);
  AboutWays about;
  about.late_s = [&](std::size_t i) { return 60 * (way_of(i).minutes_slow - wishes.most_minutes); };
  about.common = [&](std::size_t i, std::size_t j) {
    const auto &a = way_of(i).way, &b = way_of(j).way;
    return std::max(common_share(a, b), common_share(b, a));
  };
  const auto naming = name_ways(front, about);
  const auto take = [&](std::size_t i, Choice choice) {
    out.ways.push_back(way_of(i));
    out.ways.back().choice = choice;
  };
  take(naming.quickest, Choice::quickest);
  if (naming.late_s > 0) {
    out.remarks.push_back(fmt::format(
        fmt::runtime(language == 1
                         ? "das Tageslicht reicht nicht: an einem langsamen Tag ist auch der "
                           "schnelle Weg um {:.0f} min Gehzeit zu lang"
                         : "the daylight does not suffice: on a slow day even the quick way is "
                           "{:.0f} min of walking too long"),
        naming.late_s / 60));
    return;
  }
  if (naming.balanced) take(*naming.balanced, Choice::balanced);
  if (naming.surest) take(*naming.surest, Choice::surest);
  for (const auto why : {naming.why_no_surest, naming.why_no_balanced}) {
    if (why == NotNamed::given) continue;
    const bool limits = why == NotNamed::no_surer && surer_gone;
    out.remarks.emplace_back(limits ? within_limits[language]
                                    : reasons[static_cast<std::size_t>(why)][language]);
    break;
  }
}

}  // namespace lodeway::route
