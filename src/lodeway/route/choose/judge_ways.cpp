#include "lodeway/route/choose/judge_ways.hpp"

#include <algorithm>
#include <cstddef>
#include <deque>
#include <utility>

#include "lodeway/reckoning/ends/handrail.hpp"
#include "lodeway/route/legs/wades.hpp"

namespace lodeway::route {

namespace {

using reckoning::Drift;
using reckoning::JudgedWay;
using walking::Leg;

/// The figures of a way whose legs are judged.
NamedWay with_figures(JudgedWay way, const walking::Party& party) {
  NamedWay out;
  double dry = 1;
  std::vector<double> expected;
  for (const auto& leg : way.legs) {
    const auto& j = leg.judged;
    dry *= 1 - j.hazard_probability;
    out.minutes += j.minutes;
    expected.push_back(j.minutes + (1 - j.certainty) * j.recovery_minutes);
    out.expected_min += expected.back();
  }
  out.minutes_slow = walking::nine_in_ten_minutes(expected, walking::bands_of(party));
  out.hazard = 1 - dry;
  out.way = std::move(way);
  return out;
}

/// One leg, described alike: what a judge reads of it and says about it.
bool alike(const Leg& a, const Leg& b) {
  const auto same_tick = [](const walking::Tick& s, const walking::Tick& t) {
    return s.at_m == t.at_m && s.what == t.what;
  };
  const auto &x = a.course, &y = b.course;
  return x.kind == y.kind && x.followed.kind == y.followed.kind && x.line == y.line &&
         a.figures.minutes == b.figures.minutes && a.figures.length_m == b.figures.length_m &&
         x.ground_factor == y.ground_factor && x.from == y.from && x.to == y.to &&
         x.followed.name == y.followed.name && std::ranges::equal(a.ticks, b.ticks, same_tick) &&
         a.stop.has_value() == b.stop.has_value() &&
         (!a.stop || (a.stop->beyond_m == b.stop->beyond_m && a.stop->what == b.stop->what));
}

/// A leg come to with an error, and what became of both.
struct Judgement {
  const Leg* asked;
  Drift before, after;
  reckoning::Weighed model;
  reckoning::Judged judged;
  bool done = false;
};

/// All that is asked, each once. What was given out stays where it is.
class Judgements {
 public:
  const Judgement& of(const Leg& leg, const Drift& carried) {
    const auto answers = [&](const Judgement& known) {
      return alike(*known.asked, leg) && reckoning::comes_alike(leg, known.before, carried);
    };
    if (const auto known = std::ranges::find_if(all_, answers); known != all_.end()) return *known;
    fresh_.push_back(&all_.emplace_back(&leg, carried, carried));
    return *fresh_.back();
  }
  /// Judges what was asked since; false where that is nothing.
  bool judge_fresh(const reckoning::Teller& teller, numeric::Parallel& parallel) {
    parallel.for_each_block(fresh_.size(), [&](std::size_t i) {
      auto& f = *fresh_[i];
      f.model = teller.judge().weigh(*f.asked, f.after);
      f.judged = teller.judged(*f.asked, f.model);
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

NamedWay judged(const reckoning::Teller& teller, const walking::Way& way) {
  return with_figures(teller.judged(way), teller.judge().party());
}

Result<std::vector<NamedWay>> judged(const reckoning::Teller& teller,
                                     const std::vector<walking::Way>& ways,
                                     numeric::Parallel& parallel,
                                     const std::function<bool()>& go_on) {
  const auto& judge = teller.judge();
  const auto at_fix = judge.at_fix();
  Judgements judgements;
  std::vector<OnTheWay> going(ways.size(), {at_fix, {}});
  for (const auto& way : ways) {
    auto comes = at_fix;  // to a leg along a line only where the party came by counts
    for (const auto& leg : way.legs) {
      const bool along = leg.course.kind == walking::LegKind::along;
      if (along) (void)judgements.of(leg, comes);
      comes.come_by({});
      if (along) comes.come_by(reckoning::arm_come_by(leg.course.line));
    }
  }
  do {  // each way goes on as far as its legs are judged, and asks for the next
    if (go_on && !go_on()) return fail(FaultCode::cancelled, "stopped");
    for (std::size_t w = 0; w < ways.size(); ++w) {
      auto& [carried, legs] = going[w];
      while (legs.size() < ways[w].legs.size()) {
        const auto& next = judgements.of(ways[w].legs[legs.size()], carried);
        if (!next.done) break;
        carried = next.after;
        legs.push_back(&next);
      }
    }
  } while (judgements.judge_fresh(teller, parallel));
  std::vector<NamedWay> out;
  for (std::size_t w = 0; w < ways.size(); ++w) {
    JudgedWay way{ways[w].name, {}, 1};
    for (std::size_t i = 0; i < ways[w].legs.size(); ++i) {
      const auto& known = *going[w].legs[i];
      const Leg& leg = ways[w].legs[i];
      const bool last = i + 1 == ways[w].legs.size();
      way.legs.push_back(
          {leg, last ? teller.judged(leg, judge.as_end_of_way(leg, known.model)) : known.judged});
      way.certainty *= way.legs.back().judged.certainty;
    }
    out.push_back(with_figures(std::move(way), judge.party()));
  }
  return out;
}

void count_wading(const Cutting& c, NamedWay& way) {
  way.wading_min = 0;
  for (const auto& leg : way.way.legs) way.wading_min += wading_s(c, leg.course) / 60;
}

}  // namespace lodeway::route
