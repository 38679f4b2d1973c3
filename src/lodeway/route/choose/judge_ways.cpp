#include "lodeway/route/choose/judge_ways.hpp"

#include <algorithm>
#include <cstddef>
#include <deque>
#include <utility>

namespace lodeway::route {

namespace {

using reckoning::Drift;
using reckoning::LegModel;
using walking::Leg;

/// The figures of a way whose legs are judged.
NamedWay with_figures(walking::Way way, double certainty) {
  NamedWay out;
  out.certainty = certainty;
  double dry = 1;
  for (const auto& leg : way.legs) {
    dry *= 1 - leg.sureness->hazard_probability;
    out.minutes += leg.minutes;
    out.minutes_slow += leg.minutes_slow;
    out.expected_min +=
        leg.minutes + (1 - leg.sureness->certainty) * leg.sureness->recovery_minutes;
  }
  out.hazard = 1 - dry;
  out.way = std::move(way);
  return out;
}

/// One leg, described alike: what a judge reads of it and says about it.
bool alike(const Leg& a, const Leg& b) {
  const auto same_tick = [](const walking::Tick& s, const walking::Tick& t) {
    return s.at_m == t.at_m && s.what == t.what;
  };
  return a.kind == b.kind && a.along_kind == b.along_kind && a.line == b.line &&
         a.minutes == b.minutes && a.length_m == b.length_m && a.ground_factor == b.ground_factor &&
         a.from == b.from && a.to == b.to && a.along == b.along &&
         a.aim_off.has_value() == b.aim_off.has_value() &&
         std::ranges::equal(a.ticks, b.ticks, same_tick) &&
         a.stop.has_value() == b.stop.has_value() &&
         (!a.stop || (a.stop->beyond_m == b.stop->beyond_m && a.stop->what == b.stop->what));
}

/// A leg come to with an error, and what became of both.
struct Judgement {
  const Leg* asked;
  Drift before, after;
  Leg leg;
  LegModel model;
  bool done = false;
};

/// All that is asked, each once. What was given out stays where it is.
class Judgements {
 public:
  const Judgement& of(const Leg& leg, const Drift& carried) {
    const auto answers = [&](const Judgement& known) {
      return alike(*known.asked, leg) &&
             (!reckoning::rests_on_error(leg) || known.before == carried);
    };
    if (const auto known = std::ranges::find_if(all_, answers); known != all_.end()) return *known;
    fresh_.push_back(&all_.emplace_back(&leg, carried, carried, leg));
    return *fresh_.back();
  }
  /// Judges what was asked since; false where that is nothing.
  bool judge_fresh(const reckoning::Judge& judge, numeric::Parallel& parallel) {
    parallel.for_each_block(fresh_.size(), [&](std::size_t i) {
      auto& f = *fresh_[i];
      f.model = judge.judge(f.leg, f.after);
      f.done = true;
    });
    return !std::exchange(fresh_, {}).empty();
  }

 private:
  std::deque<Judgement> all_;
  std::vector<Judgement*> fresh_;
};

/// How far a way is judged.
struct OnTheWay {
  Drift carried;
  std::vector<const Judgement*> legs;
};

}  // namespace

NamedWay judged(const reckoning::Judge& judge, walking::Way way) {
  const double certainty = judge.judge(way);
  return with_figures(std::move(way), certainty);
}

std::vector<NamedWay> judged(const reckoning::Judge& judge, std::vector<walking::Way> ways,
                             numeric::Parallel& parallel) {
  const auto at_fix = judge.at_fix();
  Judgements judgements;
  std::vector<OnTheWay> going(ways.size(), {at_fix, {}});
  for (const auto& way : ways) {
    for (const auto& leg : way.legs) {
      if (!reckoning::rests_on_error(leg)) (void)judgements.of(leg, at_fix);
    }
  }
  do {  // each way goes on as far as its legs are judged, and asks for the next
    for (std::size_t w = 0; w < ways.size(); ++w) {
      auto& [carried, legs] = going[w];
      while (legs.size() < ways[w].legs.size()) {
        const auto& next = judgements.of(ways[w].legs[legs.size()], carried);
        if (!next.done) break;
        carried = next.after;
        legs.push_back(&next);
      }
    }
  } while (judgements.judge_fresh(judge, parallel));
  std::vector<NamedWay> out;
  for (std::size_t w = 0; w < ways.size(); ++w) {
    double certainty = 1;
    for (std::size_t i = 0; i < ways[w].legs.size(); ++i) {
      const auto& judgement = *going[w].legs[i];
      auto& leg = ways[w].legs[i] = judgement.leg;
      if (i + 1 == ways[w].legs.size()) {
        auto model = judgement.model;
        judge.end_of_way(leg, model);
      }
      certainty *= leg.sureness->certainty;
    }
    out.push_back(with_figures(std::move(ways[w]), certainty));
  }
  return out;
}

}  // namespace lodeway::route
