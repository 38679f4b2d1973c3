#include "lodeway/route/choose/named_ways.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
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
      : front_(front),
        about_(about),
        rules_(rules),
        late_(front.size(), std::numeric_limits<double>::quiet_NaN()) {}

  Naming run() {
    std::size_t first = 0, last = front_.size();
    while (first < last && !in_time(first)) ++first;
    if (first == last) {
      const auto least = std::ranges::min_element(late_);
      naming_.quickest = static_cast<std::size_t>(least - late_.begin());
      naming_.late_s = *least;
      naming_.why_no_surest = NotNamed::no_surer;
      naming_.why_no_balanced = NotNamed::none_between;
      return naming_;
    }
    while (!in_time(last - 1)) --last;
    naming_.quickest = first;
    name_surest(last - 1);
    name_balanced();
    return naming_;
  }

 private:
  [[nodiscard]] bool alike(std::size_t a, std::size_t b) const {
    return std::abs(front_[a].loss - front_[b].loss) < rules_.as_sure && about_.common &&
           about_.common(a, b) > rules_.most_common;
  }

  [[nodiscard]] bool in_time(std::size_t way) {
    if (!about_.late_s) return true;
    if (std::isnan(late_[way])) late_[way] = about_.late_s(way);
    return late_[way] <= 0;
  }

  void name_surest(std::size_t last) {
    std::vector<std::size_t> by_price;
    for (std::size_t i = naming_.quickest; i <= last; ++i) by_price.push_back(i);
    std::ranges::stable_sort(by_price, {}, [&](std::size_t i) {
      return front_[i].seconds + rules_.most_price_s * front_[i].loss;
    });
    const auto worth = *std::ranges::find_if(by_price, [&](std::size_t i) { return in_time(i); });
    const double enough = front_[worth].loss + rules_.same_loss;
    std::size_t surest = naming_.quickest;
    while (front_[surest].loss > enough || !in_time(surest)) ++surest;
    if (surest == naming_.quickest)
      naming_.why_no_surest = front_[last].loss + rules_.same_loss < front_[surest].loss
                                  ? NotNamed::too_dear
                                  : NotNamed::no_surer;
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
    for (std::size_t i = naming_.quickest + 1; i < *naming_.surest; ++i) {
      const double gain = below_chord(a, b, front_[i]);
      if (gain > 0) trades.push_back({gain, i});
    }
    std::ranges::stable_sort(trades, std::greater{}, &Trade::gain);
    const auto own = std::ranges::find_if(trades, [&](const Trade& t) {
      return in_time(t.way) && !alike(t.way, naming_.quickest) && !alike(t.way, *naming_.surest);
    });
    if (own != trades.end())
      naming_.balanced = own->way;
    else if (naming_.quickest + 1 == *naming_.surest)
      naming_.why_no_balanced = NotNamed::none_between;
    else if (trades.empty())
      naming_.why_no_balanced = NotNamed::no_good_trade;
    else
      naming_.why_no_balanced = NotNamed::between_alike;
  }

  std::span<const LegCost> front_;
  const AboutWays& about_;
  const NamingRules& rules_;
  std::vector<double> late_;  ///< by way; NaN: not asked
  Naming naming_;
};

}  // namespace

Naming name_ways(std::span<const LegCost> front, const AboutWays& about, const NamingRules& rules) {
  return Namer(front, about, rules).run();
}

}  // namespace lodeway::route
