#pragma once
/// Legs that come up again and again, for the ways of one front share most of them: described once
/// each. Not for use outside route.
#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/walking/way.hpp"

namespace lodeway::route {

/// Of one request: a description rests else only on the leg's line and on what is followed. First
/// legs are noted, by one thread; after `describe_all` they are read, by any.
class ToldLegs {
 public:
  [[nodiscard]] bool noting() const { return noting_; }
  void start_noting() { noting_ = true; }
  void note(const walking::Leg& leg, int followed) { legs_.try_emplace(key_of(leg, followed), leg); }
  /// `describe(leg, followed)` of every leg that was noted.
  template <class Describe>
  void describe_all(numeric::Parallel& parallel, Describe&& describe) {
    noting_ = false;
    std::vector<std::pair<const Key, walking::Leg>*> all;
    for (auto& noted : legs_) all.push_back(&noted);
    parallel.for_each_block(all.size(),
                            [&](std::size_t i) { describe(all[i]->second, all[i]->first.followed); });
  }
  /// The leg as it was described, or null.
  [[nodiscard]] const walking::Leg* find(const walking::Leg& leg, int followed) const {
    const auto known = legs_.find(key_of(leg, followed));
    return known == legs_.end() ? nullptr : &known->second;
  }

 private:
  struct Key {
    int followed;
    walking::LegKind kind;
    std::vector<std::pair<double, double>> line;
    auto operator<=>(const Key&) const = default;
  };
  [[nodiscard]] static Key key_of(const walking::Leg& leg, int followed) {
    Key out{followed, leg.kind, {}};
    for (const auto p : leg.line) out.line.emplace_back(p.east_m, p.north_m);
    return out;
  }
  bool noting_ = false;
  std::map<Key, walking::Leg> legs_;
};

}  // namespace lodeway::route
