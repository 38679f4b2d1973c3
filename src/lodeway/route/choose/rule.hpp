#pragma once
/// One rule for which of the judged ways are named quick, middle and sure.
/// The rule in half a page, with an example: docs/method/choosing-the-way.md
#include <cstddef>
#include <functional>
#include <optional>
#include <span>

#include "lodeway/route/front/front.hpp"

namespace lodeway::route {

/// A whole way, as its legs were judged.
struct Candidate {
  double expected_min = 0;  ///< walking, and recovery by the chance that it is needed; where nothing
                            ///< leads a tenth more; water to wade
  double loss = 0;          ///< -ln of the chance that every leg is kept
  double keep_off = 0;      ///< chance to set foot on ground to keep off, on the whole way
  double short_of = 0;      ///< what its legs are short of the certainty asked, added up as chances
  double late_min = 0;      ///< of a slow day, after last light; at most 0: in time
};

/// All *practice*, no source. With the certainty asked for (Wishes), beside_m of share_off and
/// counts_times these are all eight numbers of the choice; what each does when it is a third off is
/// counted on the method page.
struct ChoiceRules {
  double most_keep_off =
      0.05;  ///< more parties than this on ground to keep off: outside the limits
  double rounding = chance_rounding;
  /// Half a party in 100: less is no difference that the figures can tell (hazard_probability is
  /// good to 0.02, and those who have lost the way are not in it).
  double same_keep_off = chance_rounding;
  double same_loss = 0.02;   ///< losses nearer than this are equally sure
  double apart_share = 0.2;  ///< of a way's length that lies off the other: a leader would tell
                             ///< the two apart on the map
  double other_home_min = 5;  ///< so many expected minutes quicker, and another way home is better
};

/// Why a name is not given.
enum class NotNamed : unsigned char {
  given,         ///< it is
  outside,       ///< every way breaks a limit: only the one that breaks them least is shown
  no_surer,      ///< no way is surer than the quick one by more than `same_loss`
  same_on_map,   ///< the surer way lies where the quick one does
  none_between,  ///< no way between the two others buys its certainty cheaper than they do
  between_same,  ///< those between lie where one of the two others does
};

/// Indices into the candidates.
struct Picked {
  std::size_t quick = 0;
  std::optional<std::size_t> middle, sure;
  NotNamed why_no_middle = NotNamed::given, why_no_sure = NotNamed::given;
  [[nodiscard]] bool outside() const { return why_no_sure == NotNamed::outside; }
};

/// Does a candidate keep every limit?
[[nodiscard]] bool keeps_limits(const Candidate& way, const ChoiceRules& rules);

/// Outside the limits, where no candidate keeps them: those that fewest leave for ground to keep
/// off (within `same_keep_off` of the least), of those the one least short of the certainty asked
/// (by `rounding`), of those the quickest; it alone is named, as quick. Within them: quick is the least
/// expected time; sure the quickest of those within `same_loss` of the least loss; middle the one
/// farthest below the chord from quick to sure, time and loss each scaled to its ends (the knee).
/// A name goes only to a way that is `apart` from those already named.
/// `apart(i, j)`: share of the shorter way's length that lies off the other, 0 to 1; asked only for
/// ways that may be named. At least one candidate. The order of candidates matters only where two
/// are equal in every figure: the earlier is taken.
[[nodiscard]] Picked pick_ways(std::span<const Candidate> ways,
                               const std::function<double(std::size_t, std::size_t)>& apart,
                               const ChoiceRules& rules = {});

}  // namespace lodeway::route
