#include "lodeway/route/graph/both_ways.hpp"

#include <algorithm>
#include <bit>
#include <functional>
#include <queue>

namespace lodeway::route {

namespace {
constexpr std::uint32_t none = 0xffffffff;
constexpr double rounding = 1e-9;
// For speed alone: of the legs so large a share is changed before the bounds are found anew, or
// chained before all are packed; of the places so many are reopened; and so many more than are
// asked for does a search visit, before bounds are made exact.
constexpr std::size_t a_share = 8, reopened = 3, opened_up = 8, few_places = 4000;
constexpr unsigned any = 31;  // groups

/// Places by their sums, ascending, where none is ever added below the last taken: by the highest
/// bit in which a sum differs from that (Ahuja, Mehlhorn, Orlin & Tarjan 1990, J. ACM 37:213-223).
class Ascending {
 public:
  struct Item {
    std::uint64_t sum;  ///< its bits: of numbers from 0 in the same order
    std::uint32_t place;
  };
  void add(double sum, std::uint32_t place) { put({std::bit_cast<std::uint64_t>(sum), place}); }
  /// The next that is still `wanted(sum, place)`; none: false.
  template <class Wanted>
  [[nodiscard]] bool take(std::uint32_t& place, Wanted&& wanted) {
    const auto is_wanted = [&](const Item& i) {
      return wanted(std::bit_cast<double>(i.sum), i.place);
    };
    for (;;) {
      auto& least = by_bit_[0];
      while (!least.empty()) {
        const auto item = least.back();
        least.pop_back();
        place = item.place;
        if (is_wanted(item)) return true;
      }
      const auto next = std::ranges::find_if(by_bit_, [](const auto& b) { return !b.empty(); });
      if (next == by_bit_.end()) return false;
      std::erase_if(*next, [&](const Item& i) { return !is_wanted(i); });
      if (next->empty()) continue;
      last_ = std::ranges::min(*next, {}, &Item::sum).sum;
      moved_.swap(*next);
      for (const auto& item : moved_) put(item);
      moved_.clear();
    }
  }

 private:
  void put(const Item& item) {
    by_bit_[static_cast<std::size_t>(std::bit_width(item.sum ^ last_))].push_back(item);
  }
  std::uint64_t last_ = 0;
  std::array<std::vector<Item>, 65> by_bit_;
  std::vector<Item> moved_;
};

}  // namespace

void BothWays::limit(const Limits& within) {
  within_ = within;
  for (std::uint32_t leg = 0; leg < packed_; ++leg) pack_again(leg);
  for (auto& at : at_) at.at_least[0].anew = at.at_least[1].anew = true;
}

std::uint32_t BothWays::number(std::uint32_t place) {
  if (place >= numbers_.size()) numbers_.resize(place + 1, none);
  auto& out = numbers_[place];
  if (out == none) {
    out = static_cast<std::uint32_t>(place_of_.size());
    place_of_.push_back(place);
  }
  return out;
}

std::uint32_t BothWays::number_of(std::uint32_t place) const {
  return place < numbers_.size() ? numbers_[place] : none;
}

std::uint32_t BothWays::add(const Arc& arc, Group group) {
  const auto leg = static_cast<std::uint32_t>(legs_.size());
  const auto from = number(arc.from), to = number(arc.to);
  legs_.push_back({from, to, group, arc.cost});
  for (std::size_t e = 0; e < 2; ++e) {
    auto& ends = ends_[e];
    const auto place = e == 0 ? from : to;
    if (place >= ends.last.size()) ends.last.resize(place + 1, none);
    ends.before.push_back(ends.last[place]);
    ends.last[place] = leg;
  }
  cheaper_.push_back(leg);
  return leg;
}

void BothWays::cost(std::uint32_t leg, const LegCost& cost) {
  auto& was = legs_[leg];
  const bool falls =
      !counts(was, any) || cost.seconds < was.cost.seconds || cost.loss < was.cost.loss;
  was.cost = cost;
  pack_again(leg);
  if (falls) cheaper_.push_back(leg);
  dearer_.push_back(leg);
}

void BothWays::group(std::uint32_t leg, Group group) {
  const bool goes = group == Group::gone, went = legs_[leg].group == Group::gone;
  legs_[leg].group = group;
  if (goes != went) pack_again(leg);
  if (goes) dearer_.push_back(leg);
}

BothWays::FromEnd BothWays::from_end(std::uint32_t i, bool back) const {
  const auto& leg = legs_[i];
  return {back ? leg.from : leg.to, i, counts(leg, any) ? leg.cost.seconds : never, leg.cost.loss};
}

/// After a change, where it is packed.
void BothWays::pack_again(std::uint32_t leg) {
  if (leg >= packed_) return;
  for (std::size_t e = 0; e < 2; ++e) ends_[e].packed[ends_[e].place_in[leg]] = from_end(leg, e != 0);
}

void BothWays::pack() {
  for (std::size_t e = 0; e < 2; ++e) {
    auto& ends = ends_[e];
    const auto place = [&](const Leg& leg) { return e == 0 ? leg.from : leg.to; };
    ends.start.assign(place_of_.size() + 1, 0);
    for (const auto& leg : legs_) ++ends.start[place(leg) + 1];
    for (std::size_t i = 0; i < place_of_.size(); ++i) ends.start[i + 1] += ends.start[i];
    auto next = ends.start;
    ends.packed.resize(legs_.size());
    ends.place_in.resize(legs_.size());
    for (std::uint32_t i = 0; i < legs_.size(); ++i) {
      ends.place_in[i] = next[place(legs_[i])]++;
      ends.packed[ends.place_in[i]] = from_end(i, e != 0);
    }
    ends.last.clear();
    ends.before.clear();
  }
  packed_ = legs_.size();
}

template <class Use>
void BothWays::each(std::uint32_t place, bool back, Use&& use) const {
  const auto& ends = ends_[back ? 1 : 0];
  if (place + 1 < ends.start.size()) {
    for (auto k = ends.start[place]; k < ends.start[place + 1]; ++k) use(ends.packed[k]);
  }
  if (place >= ends.last.size()) return;
  for (auto leg = ends.last[place]; leg != none; leg = ends.before[leg - packed_])
    use(from_end(leg, back));
}

/// From places whose sums are known on to all others, in order of the sum and what is `left` from
/// there. `goes_on(sum, place)`: asked as each is reached; `notes(sum, place, leg)`: before a sum is
/// put down.
template <class Left, class GoesOn, class Notes>
void BothWays::spread(std::vector<double>& sums, const std::vector<std::uint32_t>& from,
                      Groups groups, double price_s, bool back, Left&& left, GoesOn&& goes_on,
                      Notes&& notes) const {
  using Item = std::pair<double, std::uint32_t>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
  for (const auto place : from) heap.emplace(sums[place] + left(place), place);
  while (!heap.empty()) {
    const auto [in_all, place] = heap.top();
    heap.pop();
    const double here = sums[place];
    if (in_all > here + left(place)) continue;
    if (!goes_on(in_all, place)) break;
    each(place, back, [&](const FromEnd& leg) {
      const double sum = here + leg.seconds + price_s * leg.loss;
      if (sum < sums[leg.next] && counts(legs_[leg.leg], groups) && notes(sum, leg.next, leg.leg)) {
        sums[leg.next] = sum;
        heap.emplace(sum + left(leg.next), leg.next);
      }
    });
  }
}

/// The same over legs of any group, all the way, in the order of the sums alone.
void BothWays::spread_all(Bounds& bounds, const std::vector<std::uint32_t>& from, double price_s,
                          bool back) const {
  auto& [sums, by, anew] = bounds;
  Ascending next;
  for (const auto place : from) next.add(sums[place], place);
  const auto still = [&](double sum, std::uint32_t place) { return sum == sums[place]; };
  for (std::uint32_t place = 0; next.take(place, still);) {
    const double here = sums[place];
    each(place, back, [&](const FromEnd& leg) {
      const double sum = here + leg.seconds + price_s * leg.loss;
      if (!(sum < sums[leg.next])) return;
      sums[leg.next] = sum;
      by[leg.next] = leg.leg;
      next.add(sum, leg.next);
    });
  }
}

/// Places whose bound hangs on a leg that became dearer: found again from those beside them, which
/// `from` then holds. False: they are so many that all are better found anew.
bool BothWays::reopen(Bounds& bounds, double price_s, bool back,
                      std::vector<std::uint32_t>& from) const {
  auto& [sums, by, anew] = bounds;
  const auto through = [&](const Leg& leg) {
    return counts(leg, any)
               ? sums[back ? leg.to : leg.from] + leg.cost.seconds + price_s * leg.cost.loss
               : never;
  };
  std::vector<std::uint32_t> lost;
  const auto lose = [&](std::uint32_t place) {
    by[place] = none;
    lost.push_back(place);
  };
  for (const auto i : dearer_) {
    const auto head = back ? legs_[i].from : legs_[i].to;
    if (by[head] == i && through(legs_[i]) > sums[head]) lose(head);
  }
  for (std::size_t i = 0; i < lost.size(); ++i) {
    if (lost.size() > place_of_.size() / reopened) return false;
    each(lost[i], back, [&](const FromEnd& leg) {
      if (by[leg.next] == leg.leg) lose(leg.next);
    });
  }
  for (const auto place : lost) sums[place] = never;
  for (const auto place : lost) {
    each(place, !back, [&](const FromEnd& leg) {
      const double sum = sums[leg.next] + leg.seconds + price_s * leg.loss;
      if (!(sum < sums[place])) return;
      sums[place] = sum;
      by[place] = leg.leg;
    });
    if (sums[place] < never) from.push_back(place);
  }
  return true;
}

/// After changes: bounds again, or `exact`.
void BothWays::mend(Bounds& bounds, double price_s, bool back, bool exact) const {
  auto& [sums, by, anew] = bounds;
  anew = anew || cheaper_.size() > legs_.size() / a_share;
  std::vector<std::uint32_t> from;
  if (!anew) {
    sums.resize(place_of_.size(), never);
    by.resize(place_of_.size(), none);
    if (exact) anew = !reopen(bounds, price_s, back, from);
  }
  if (anew) {
    sums.assign(place_of_.size(), never);
    by.assign(place_of_.size(), none);
    from = {back ? to_ : from_};
    sums[from[0]] = 0;
  } else {
    for (const auto i : cheaper_) {
      const auto& leg = legs_[i];
      const auto tail = back ? leg.to : leg.from, head = back ? leg.from : leg.to;
      const double sum = sums[tail] + leg.cost.seconds + price_s * leg.cost.loss;
      if (!(sum < sums[head]) || !counts(leg, any)) continue;
      sums[head] = sum;
      by[head] = i;
      from.push_back(head);
    }
  }
  anew = false;
  spread_all(bounds, from, price_s, back);
}

void BothWays::mend_all(bool exact) {
  if (legs_.size() - packed_ > legs_.size() / a_share) pack();
  parallel_.for_each_block(2 * at_.size(), [&](std::size_t k) {
    mend(at_[k / 2].at_least[k % 2], prices_s[k / 2], k % 2 != 0, exact);
  });
  cheaper_.clear();
  if (exact) dearer_.clear();
}

bool BothWays::search_at(AtPrice& at, double price_s, Groups groups, double at_most) const {
  for (auto* found : {&at.there, &at.back}) {
    for (const auto place : found->places) found->sums[place] = never;
    found->places.clear();
    found->sums.resize(place_of_.size(), never);
  }
  double bound = never;
  const auto from_one_end = [&](Found& found, const std::vector<double>& left, bool back,
                                auto&& goes_on) {
    const auto end = back ? to_ : from_;
    if (!(left[end] < never)) return;
    found.sums[end] = 0;
    found.places.push_back(end);
    spread(
        found.sums, {end}, groups, price_s, back, [&](std::uint32_t place) { return left[place]; },
        goes_on, [&](double sum, std::uint32_t place, std::uint32_t) {
          if (!(left[place] < never) || sum + left[place] > bound) return false;
          if (!(found.sums[place] < never)) found.places.push_back(place);
          return true;
        });
  };
  // Out from the start, as far as what is left at least allows; then back over what was reached.
  from_one_end(at.there, at.at_least[1].sums, false, [&](double in_all, std::uint32_t place) {
    if (place == to_ && !(bound < never)) {
      bound = (in_all + at_most * (in_all + slack_s)) * (1 + rounding);
    }
    return in_all <= bound;
  });
  at.best = at.there.sums[to_];
  if (!(at.best < never)) return false;
  from_one_end(at.back, at.there.sums, true,
               [&](double in_all, std::uint32_t) { return in_all <= bound; });
  return true;
}

bool BothWays::search(Groups groups, double at_most) {
  mend_all(loose_);
  std::array<bool, prices_s.size()> leads{};
  parallel_.for_each_block(at_.size(), [&](std::size_t k) {
    leads[k] = search_at(at_[k], prices_s[k], groups, at_most);
  });
  std::size_t visited = 0, asked = 0;
  for (const auto& at : at_) {
    visited += at.there.places.size();
    asked += at.back.places.size();
  }
  loose_ = visited > few_places + opened_up * asked;
  return leads[0];
}

std::vector<double> BothWays::over_all(std::size_t places) {
  mend_all(true);
  loose_ = false;
  std::vector<double> out;
  for (const auto& at : at_) {
    const auto &there = at.at_least[0].sums, &back = at.at_least[1].sums;
    const double best = there[to_];
    if (!(best < never)) return {};
    out.resize(places, never);
    for (std::size_t i = 0; i < place_of_.size(); ++i) {
      if (place_of_[i] >= places) continue;
      auto& over = out[place_of_[i]];
      over = std::min(over, (there[i] + back[i] - best) / (best + slack_s));
    }
  }
  return out;
}

std::vector<double> BothWays::over(std::size_t places) const {
  std::vector<double> out(places, never);
  for (const auto& at : at_) {
    for (const auto i : at.back.places) {
      if (place_of_[i] >= places) continue;
      auto& over = out[place_of_[i]];
      over = std::min(over, (at.there.sums[i] + at.back.sums[i] - at.best) / (at.best + slack_s));
    }
  }
  return out;
}

double BothWays::over(const Arc& arc) const {
  double out = never;
  if (arc.cost.loss > within_.leg_loss || arc.cost.hazard > within_.leg_hazard) return out;
  const auto from = number_of(arc.from), to = number_of(arc.to);
  if (from == none || to == none) return out;
  for (std::size_t k = 0; k < at_.size(); ++k) {
    const auto& at = at_[k];
    if (!(at.best < never)) continue;
    const double sum = at.there.sums[from] + arc.cost.seconds + prices_s[k] * arc.cost.loss +
                       at.back.sums[to];
    out = std::min(out, (sum - at.best) / (at.best + slack_s));
  }
  return out;
}

std::vector<double> BothWays::seconds(std::size_t places, bool back) {
  mend_all(true);
  const auto& sums = at_[0].at_least[back ? 1 : 0].sums;
  std::vector<double> out(places, never);
  for (std::size_t i = 0; i < place_of_.size(); ++i) {
    if (place_of_[i] < places) out[place_of_[i]] = sums[i];
  }
  return out;
}

}  // namespace lodeway::route
