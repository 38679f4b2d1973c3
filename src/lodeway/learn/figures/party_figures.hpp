#pragma once
/// From raw counts to figures: the table as the prior, the party's own trials on top, each with its
/// interval. Method with worked examples: docs/method/learning.md
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lodeway/learn/estimate/estimates.hpp"
#include "lodeway/learn/figures/pace.hpp"
#include "lodeway/learn/record/record.hpp"
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/sight/chances.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::learn {

enum class Quantity : unsigned char {
  bearing,        ///< a leg's bearing error against the table's, factor
  distance,       ///< a leg's distance error against the table's, factor
  compass,        ///< shared by all legs, degrees, right positive
  stride,         ///< shared by all legs, fraction, long positive
  paces,          ///< double paces for 100 m, by ground
  gross,          ///< chance that a bearing is set over 15 degrees wrong
  know,           ///< chance that an end is known for what it is
  notice,         ///< chance that a line that is crossed is noticed and named
  branch,         ///< chance of the right branch at a fork
  losses,         ///< of a line that is followed, for each km
  sweep,          ///< width that a search sweeps, m
  noticing,       ///< metres until a wrong branch is noticed
  doubting,       ///< metres until a wrong bearing is doubted
  height,         ///< error of a height that is guessed, m
  fall,           ///< error of the direction in which the ground falls, degrees
  sight_bearing,  ///< error of a bearing taken to a thing, degrees
  area,           ///< chance that the place lies in the area they draw
  time_guess      ///< guessed over true minutes, less one
};
inline constexpr int quantity_count = static_cast<int>(Quantity::time_guess) + 1;
/// "bearing": the key in JSON.
[[nodiscard]] std::string_view quantity_name(Quantity quantity);
/// "error of a bearing, against the table": for people; and its unit, maybe empty.
[[nodiscard]] std::string_view quantity_words(Quantity quantity,
                                              units::Language language = units::Language::english);
[[nodiscard]] std::string_view quantity_unit(Quantity quantity,
                                             units::Language language = units::Language::english);

struct Figure {
  Quantity quantity = Quantity::bearing;
  mapdata::Kind kind = mapdata::Kind::other;  ///< of know, notice, losses
  PaceGround ground = PaceGround::level;      ///< of paces
  double table = 0;
  Estimate estimate;
  double trials = 0;    ///< as counted
  double evidence = 0;  ///< weighted: training half, older less, at most 60
};

/// Who, when, and the table that they are held against.
struct Basis {
  walking::Party party;  ///< skill, instrument, visibility: which row of the table
  mapdata::KindTable kinds;
  std::chrono::year_month_day today{};
  std::string who;                                      ///< who holds the compass; empty: the party
  units::Language language = units::Language::english;  ///< of what is said
};

/// Names one figure in files, commands and JSON: "compass", "know.stream", "paces.up".
[[nodiscard]] std::string figure_id(const Figure& figure);
/// What walked days say, in three parts that can be refused: minutes against the model with what
/// days differ by, one leg against the next, rests.
inline constexpr std::string_view minutes_id = "minutes", leg_id = "leg", rests_id = "rests";
/// Whether it is spelled as figure_id spells one, or is one of the three above.
[[nodiscard]] bool names_a_figure(std::string_view id);

struct PartyFigures {
  std::vector<Figure> all;   ///< measured and used; in the order of Quantity, kind, ground
  std::vector<Figure> left;  ///< measured, and left at the table because the leader refuses them
  std::vector<std::string> refused;  ///< their names, those of the pace too
  Pace pace;
  [[nodiscard]] bool is_refused(std::string_view id) const;
  /// `all` and `left` in one, in the same order.
  [[nodiscard]] std::vector<Figure> measured() const;
  [[nodiscard]] const Figure* find(Quantity quantity,
                                   mapdata::Kind kind = mapdata::Kind::other) const;
};

/// Of other conditions than basis.party.visibility, and for a chance of other kinds, half of the
/// shift (log, logit) is carried over as the prior. With `who` the group's figure is that person's
/// prior. All *practice*.
[[nodiscard]] PartyFigures figures_of(const PartyRecord& record, const Basis& basis);

/// The party with what it has shown: errors, stride, bands, rests, and how little is left unknown.
/// What the trip itself states (an override at or above 0) stays as stated.
[[nodiscard]] walking::Party learnt_party(const walking::Party& party, const PartyFigures& figures,
                                          const Basis& basis);
/// How well things are known for what they are, and lines noticed, where that was measured: by
/// kind, in the party's visibility, others moved by half the shift (logit).
[[nodiscard]] std::vector<mapdata::KindChange> learnt_kinds(const PartyFigures& figures,
                                                            const Basis& basis);

/// The table of chances (sight) as this party has shown otherwise: noticing, knowing, staying on a
/// line by class of kind, in the party's visibility, in others by half the shift (logit); branches
/// alike for all classes; gross errors. These are counted at a desk, where there are fewer than on
/// a hill: better than the table they count half the shift, worse the whole. All *practice*.
[[nodiscard]] sight::Changes learnt_chances(const PartyFigures& figures, const Basis& basis);

/// What a day could not show, one sentence each: cloud and night on a clear day, path keeping in
/// few kilometres, chances that were never missed.
[[nodiscard]] std::vector<std::string> not_shown(const PartyRecord& record,
                                                 const PartyFigures& figures, const Basis& basis);

}  // namespace lodeway::learn
