#pragma once
/// Walking a way many times in simulation: the second, slower judge of the closed forms.
/// Method, and what a simulated walker does and does not do: docs/method/rehearsal.md
#include <array>
#include <cstdint>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/judge.hpp"

namespace lodeway::reckoning {

/// Why a walker did not end a leg where it should.
enum class Loss : unsigned char { missed, wrong_way, not_known, mistaken, line_lost, overshot };
inline constexpr std::size_t loss_count = 6;
/// "walked past it": for a sentence, English.
[[nodiscard]] std::string_view loss_words(Loss loss);

struct RehearsedLeg {
  std::size_t walkers = 0;  ///< who set out on it
  std::size_t kept = 0;     ///< who ended where they should, at the first try
  /// Of those that had kept the leg before: what the closed form means, given the one before.
  std::size_t walkers_on_course = 0, kept_on_course = 0;
  std::array<std::size_t, loss_count> lost{};
  std::size_t hazard = 0;                     ///< who set foot on forbidden ground
  double certainty = 0, certainty_error = 0;  ///< kept / walkers, its standard error
  double expected = 0;                        ///< the closed form's
  bool rehearsed = true;  ///< false: leads over ground without heights; passed over, figures are 0
  double minutes_10 = 0, minutes_50 = 0, minutes_90 = 0;  ///< searches and retries in it
};

/// Where one walker went, to be shown: straight between the points.
struct Trail {
  struct Point {
    double minutes = 0;  ///< since the start of the way, rests and stays not in it
    GridPoint at;
  };
  std::vector<Point> points;
  int lost_on_leg = -1;  ///< index of the first leg it lost; -1: it kept all
};

struct Rehearsal {
  std::size_t walkers = 0;
  double certainty = 0, certainty_error = 0;  ///< share that kept every leg at the first try
  double expected = 0;                        ///< product of the closed forms
  double hazard_share = 0, hazard_error = 0;
  double turned_back_share = 0;  ///< gave the way up
  double off_ground_share =
      0;  ///< strayed where no height is known; walked on there as on the level
  double minutes_10 = 0, minutes_50 = 0, minutes_90 = 0;  ///< of those who came through
  std::vector<RehearsedLeg> legs;
  int weakest = -1;  ///< index of the leg that loses most walkers; -1: none is lost
  /// Steps set in each cell on bearing legs, over all walkers: where they stray.
  terrain::Raster<float> strayed;
  std::vector<Trail> trails;  ///< of the first walkers, as many as were asked for
};

struct RehearsalRequest {
  std::size_t walkers = 10000;
  std::uint64_t seed = 1;
  std::size_t trails = 0;  ///< at most `most_trails`; does not change what the walkers do
};
inline constexpr std::size_t most_walkers = 1'000'000, most_trails = 200;

/// Legs that lead over voids or out of the heights are not rehearsed: walkers stand at their end,
/// in the card's time, and neither certainty counts them. Legs are judged first (a copy of the
/// way), so that walkers aim as the card tells them to. The same seed gives the same bytes however
/// many threads `parallel` has. Faults: bad_input (0 walkers, no legs), too_large (more than
/// `most_walkers`).
[[nodiscard]] Result<Rehearsal> rehearse(const walking::Ground& ground, const Judge& judge,
                                         const walking::Way& way, const RehearsalRequest& request,
                                         numeric::Parallel& parallel);

}  // namespace lodeway::reckoning
