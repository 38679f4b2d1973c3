#pragma once
/// Legs between places, searched from both ends again and again while legs are added and their
/// costs become known. Method: docs/method/legs-to-choose-from.md. Not for use outside route.
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/route/front/front.hpp"

namespace lodeway::route {

/// How far the best way over a place or a leg is above the best way of all, at several prices of
/// certainty. Exact but for the rounding of sums in 64 bits. From search to search it is kept how
/// much there is to go at least, from the start and to the end: so that legs added and costs that
/// change cost what hangs on them, and a search for little over the best what lies there.
/// (Ramalingam & Reps 1996 for the first, A* of Hart, Nilsson & Raphael 1968 for the second.)
class BothWays {
 public:
  /// What a leg is to whoever searches; a search takes some groups only.
  enum class Group : unsigned { near_line = 1, line = 2, known = 4, open = 8, far = 16, gone = 32 };
  using Groups = unsigned;

  // All *practice*. What lies on a way that is best at one of these prices of certainty is judged
  // (seconds for a loss of 1: half an hour is what an unsure party spends on getting lost; the
  // highest is that of the surest way). So much more time is little, on the shortest way too.
  static constexpr std::array<double, 5> prices_s{0, 1800, 7200, 28800, most_price_s};
  static constexpr double slack_s = 600;

  BothWays(std::uint32_t from, std::uint32_t to, const Limits& within, numeric::Parallel& parallel)
      : within_(within), parallel_(parallel), from_(number(from)), to_(number(to)) {}

  /// Legs that break `within` are on no way, from now on.
  void limit(const Limits& within);
  /// The number by which it is spoken of here.
  std::uint32_t add(const Arc& arc, Group group);
  void cost(std::uint32_t leg, const LegCost& cost);
  void group(std::uint32_t leg, Group group);

  /// Over all legs that are not gone: each place, of so many, as a share of the best and the slack,
  /// the least over the prices. Empty where no way leads.
  [[nodiscard]] std::vector<double> over_all(std::size_t places);
  /// Over legs of these groups, as far as `at_most` above the best; false where no way leads. Then,
  /// as such a share: of each place, of an arc among them. Over `at_most` it may be more than it is.
  [[nodiscard]] bool search(Groups groups, double at_most);
  [[nodiscard]] std::vector<double> over(std::size_t places) const;
  [[nodiscard]] double over(const Arc& arc) const;
  /// By place, of so many: the least seconds from the start, or `back`: to the end; endless: none.
  [[nodiscard]] std::vector<double> seconds(std::size_t places, bool back);

 private:
  static constexpr double never = no_limit;
  struct Leg {
    std::uint32_t from, to;
    Group group;
    LegCost cost;
  };
  /// What a search reads of a leg from one of its ends, so that those of a place lie side by side.
  struct FromEnd {
    std::uint32_t next, leg;
    double seconds, loss;  ///< endless where the leg is gone or breaks the limits
  };
  /// The legs by one of their ends: packed, and in chains those that came since.
  struct Ends {
    std::vector<FromEnd> packed;
    std::vector<std::uint32_t> start, place_in, last, before;  ///< `place_in`: by leg, in `packed`
  };
  /// By place, no way takes less, over whatever legs; and the leg that leads there.
  struct Bounds {
    std::vector<double> sums;
    std::vector<std::uint32_t> by;
    bool anew = true;  ///< nothing is known
  };
  /// What a search found by place, endless elsewhere; and of which places.
  struct Found {
    std::vector<double> sums;
    std::vector<std::uint32_t> places;
  };
  struct AtPrice {
    std::array<Bounds, 2> at_least;  ///< from the start; to the end
    Found there, back;
    double best = 0;
  };

  [[nodiscard]] bool counts(const Leg& leg, Groups groups) const {
    return (groups & static_cast<unsigned>(leg.group)) != 0 && leg.cost.loss <= within_.leg_loss &&
           leg.cost.hazard <= within_.leg_hazard;
  }
  [[nodiscard]] FromEnd from_end(std::uint32_t leg, bool back) const;
  void pack_again(std::uint32_t leg);
  void pack();
  template <class Use>
  void each(std::uint32_t place, bool back, Use&& use) const;
  template <class Left, class GoesOn, class Notes>
  void spread(std::vector<double>& sums, const std::vector<std::uint32_t>& from, Groups groups,
              double price_s, bool back, Left&& left, GoesOn&& goes_on, Notes&& notes) const;
  void spread_all(Bounds& bounds, const std::vector<std::uint32_t>& from, double price_s,
                  bool back) const;
  void mend_all(bool exact);
  void mend(Bounds& bounds, double price_s, bool back, bool exact) const;
  [[nodiscard]] bool reopen(Bounds& bounds, double price_s, bool back,
                            std::vector<std::uint32_t>& from) const;
  [[nodiscard]] bool search_at(AtPrice& at, double price_s, Groups groups, double at_most) const;

  /// Own numbers, in the order in which they are first met: what is near on the ground lies near.
  [[nodiscard]] std::uint32_t number(std::uint32_t place);
  [[nodiscard]] std::uint32_t number_of(std::uint32_t place) const;

  Limits within_;
  numeric::Parallel& parallel_;
  std::vector<std::uint32_t> numbers_, place_of_;  ///< by place; by number
  std::uint32_t from_, to_;  ///< numbers, as all places below
  std::size_t packed_ = 0;   ///< legs that are packed
  std::vector<Leg> legs_;
  std::array<Ends, 2> ends_;            ///< by first place; by last place
  /// Changed since the bounds were mended; what rose may wait: they are below the truth for it.
  std::vector<std::uint32_t> cheaper_, dearer_;
  bool loose_ = false;  ///< so far below that searches go far astray
  std::array<AtPrice, prices_s.size()> at_;
};

}  // namespace lodeway::route
