#pragma once
/// The steps of relocate(): reading what is told, saying what came out.
#include "lodeway/tasks/relocate.hpp"

namespace lodeway::tasks::detail {

/// Turns what the needle shows into grid bearings and back.
struct Needle {
  double to_grid_deg = 0;   ///< grid = as told + this
  double magnetic_deg = 0;  ///< grid-magnetic angle: magnetic = grid - this
  std::string words;
};

struct Understood {
  Needle needle;
  std::vector<belief::Report> reports;
  std::vector<std::string> words;  ///< one for each report
  std::optional<belief::LastSure> last;
  mapdata::Visibility visibility = mapdata::Visibility::clear;
  walking::Skill skill = walking::Skill::practised;
  bool altimeter = false;
  units::Language in = units::Language::english;
  std::vector<std::string> warnings;
};

[[nodiscard]] Result<Understood> understand(const walking::Ground& ground, const trip::Trip* trip,
                                            const std::vector<sight::Thing>& things,
                                            const Told& told);

/// "140°" as the needle shows it.
[[nodiscard]] std::string on_the_needle(units::GridBearing b, const Needle& needle);
[[nodiscard]] std::string report_words(const belief::Report& r,
                                       const std::vector<sight::Thing>& things,
                                       const Needle& needle, units::Language in);
[[nodiscard]] std::string question_words(const belief::Question& q,
                                         const std::vector<sight::Thing>& things,
                                         units::Language in);
[[nodiscard]] std::string meaning_words(const belief::Meaning& m, const belief::Question& q,
                                        const Needle& needle, units::Language in);
/// What is typed to tell it, always in English; bearings as they are told.
[[nodiscard]] Telling telling_of(const belief::Meaning& m, const belief::Question& q,
                                 const std::vector<sight::Thing>& things, const Needle& needle);

/// Relief in grey, the areas in one hue from dark (50 in 100) to light (99), the last sure place a
/// ring.
[[nodiscard]] Result<void> draw_relocation(const walking::Ground& ground, const Relocation& answer,
                                           const std::string& path);

}  // namespace lodeway::tasks::detail
