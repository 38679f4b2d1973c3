#include "lodeway/route/named_ways.hpp"

#include <algorithm>
#include <vector>

namespace lodeway::route {

namespace {

/// Share of the chord's triangle: 0 on the chord from a to b, 1 in its inner corner.
double below_chord(const LegCost& a, const LegCost& b, const LegCost& way) {
  return 1 - (way.seconds - a.seconds) / (b.seconds - a.seconds) -
         (way.loss - b.loss) / (a.loss - b.loss);
}

class Namer {
 public:
  Namer(std::span<const LegCost> front, const AboutWays& about, const NamingRules& rules)
      : front_(front), about_(about), rules_(rules) {}

  Naming run() {
    for (std::size_t i = 0; i < front_.size(); ++i) {
      const double late = about_.late_s ? about_.late_s(i) : 0;
      if (late <= 0)
        in_time_.push_back(i);
      else if (i == 0 || late < naming_.late_s)
        naming_.quickest = i, naming_.late_s = late;
    }
    if (in_time_.empty()) {
      naming_.why_no_surest = NotNamed::no_surer;
      naming_.why_no_balanced = NotNamed::none_between;
      return naming_;
    }
    naming_.quickest = in_time_.front();
    naming_.late_s = 0;
    name_surest();
    name_balanced();
    return naming_;
  }

 private:
  [[nodiscard]] bool alike(std::size_t a, std::size_t b) const {
    return std::abs(front_[a].loss - front_[b].loss) < rules_.as_sure && about_.common &&
           about_.common(a, b) > rules_.most_common;
  }

  /// The quickest of those as sure as the surest in time.
  [[nodiscard]] std::size_t end_of_chord() const {
    const double enough = front_[in_time_.back()].loss + rules_.same_loss;
    return *std::ranges::find_if(in_time_, [&](auto i) { return front_[i].loss <= enough; });
  }

  void name_surest() {
    const auto surest = end_of_chord();
    if (surest == naming_.quickest)
      naming_.why_no_surest = NotNamed::no_surer;
    else if (alike(surest, naming_.quickest))
      naming_.why_no_surest = NotNamed::alike;
    else
      naming_.surest = surest;
  }

  void name_balanced() {
    if (!naming_.surest) {
      naming_.why_no_balanced = NotNamed::none_between;
      return;
    }
    struct Trade {
      double gain;
      std::size_t way;
    };
    const LegCost &a = front_[naming_.quickest], &b = front_[*naming_.surest];
    std::vector<Trade> trades;
    bool between = false;
    for (const auto i : in_time_) {
      if (i <= naming_.quickest || i >= *naming_.surest) continue;
      between = true;
      const double gain = below_chord(a, b, front_[i]);
      if (gain > 0) trades.push_back({gain, i});
    }
    std::ranges::stable_sort(trades, std::greater{}, &Trade::gain);
    const auto own = std::ranges::find_if(trades, [&](const Trade& t) {
      return !alike(t.way, naming_.quickest) && !alike(t.way, *naming_.surest);
    });
    if (own != trades.end())
      naming_.balanced = own->way;
    else if (!between)
      naming_.why_no_balanced = NotNamed::none_between;
    else if (trades.empty())
      naming_.why_no_balanced = NotNamed::no_good_trade;
    else
      naming_.why_no_balanced = NotNamed::between_alike;
  }

  std::span<const LegCost> front_;
  const AboutWays& about_;
  const NamingRules& rules_;
  std::vector<std::size_t> in_time_;
  Naming naming_;
};

}  // namespace

Naming name_ways(std::span<const LegCost> front, const AboutWays& about, const NamingRules& rules) {
  return Namer(front, about, rules).run();
}

}  // namespace lodeway::route
