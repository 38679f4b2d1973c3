#pragma once
/// Learning what a party does: tracks and marks in, figures before and after out. Nothing is
/// written but by keep_learnt.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/io/party/marks_file.hpp"
#include "lodeway/learn/figures/party_figures.hpp"
#include "lodeway/learn/track/track.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/tasks/trip_change.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

struct LearnRequest {
  std::string party_file;  ///< one that is not there yet is a new party
  std::string name;        ///< of a new party; empty: the file's name without its ending
  std::vector<std::string> tracks;
  std::vector<std::string> marks;
  std::string ground;    ///< that the marks were made on; empty: the one they name, if any
  walking::Party table;  ///< skill, instrument, visibility, time model: the row to hold against
  std::string who;       ///< whose figures; empty: the party's
  units::Language language = units::Language::english;  ///< of what is said
  std::vector<std::string> refuse;      ///< figures to leave at the table (learn::figure_id)
  std::vector<std::string> use;         ///< figures that were refused before, and count again
  std::string picture;                  ///< PNG of the tracks; empty: none
  std::chrono::year_month_day today{};  ///< evidence fades towards it; not ok: the newest evidence
};

struct TrackLearnt {
  std::string file;
  learn::Reading reading;
  std::vector<earth::Geographic> places;  ///< of its points, for a map; only learn_from_bytes
};

struct Learnt {
  learn::PartyRecord record_before;
  learn::PartyRecord record;  ///< with everything that was learnt
  learn::Basis basis;
  learn::PartyFigures before, after;
  std::vector<TrackLearnt> tracks;
  std::size_t marks_taken = 0, boxes_left_empty = 0;
  std::vector<std::string> questions;  ///< what is odd: to be asked before it is kept
  std::vector<std::string> not_shown;  ///< what this evidence could not show
  bool anything = false;  ///< false: all tracks were refused, no marks, and no figure was chosen
};

/// A track that cannot be read or is no walk is refused with its reason, and the others go on; bad
/// marks stop the whole. Faults: as io::read_party_file, read_marks; bad_input when the marks were
/// made on another ground; io_failed (picture); cancelled.
[[nodiscard]] Result<Learnt> learn_from(const LearnRequest& request, Progress* progress = nullptr);

/// Figures of `learnt.after` that the leader refuses, and others that count again; each figure's
/// counts stay. Faults: bad_input (a name that is none of a figure that was measured).
[[nodiscard]] Result<void> choose_figures(Learnt& learnt, const std::vector<std::string>& refuse,
                                          const std::vector<std::string>& use);

/// What a page sends: nothing touches the disk. `party` is a party file's text, empty for a new
/// one.
struct LearnBytes {
  struct File {
    std::string name, bytes;
  };
  std::string party;
  std::vector<File> tracks, marks;
  std::optional<std::vector<std::string>> refused;  ///< instead of those that `party` refuses
  units::Language language = units::Language::english;  ///< of what is said
  walking::Party table;
};
/// Marks are not held against a ground. Faults: as learn_from.
[[nodiscard]] Result<Learnt> learn_from_bytes(const LearnBytes& request);

/// Names of all that was measured, used or refused: what choose_figures takes.
[[nodiscard]] std::vector<std::string> ids_of(const learn::PartyFigures& figures);

/// Writes the party file beside, and renames. Faults: io_failed.
[[nodiscard]] Result<void> keep_learnt(const Learnt& learnt, const std::string& party_file);

/// The code of a ground on all sheets of a training day: name, grid, extent and heights.
[[nodiscard]] std::string ground_code(const walking::Ground& ground);

[[nodiscard]] std::string learnt_as_text(const Learnt& learnt);
/// Keys: docs/method/party-file.md. `trip`: what it changes on a trip, if that was asked.
[[nodiscard]] std::string learnt_as_json(const Learnt& learnt, bool kept,
                                         const TripChange* trip = nullptr);

/// The tracks on one page, ridden, walked, standing and left out told apart in grey too.
[[nodiscard]] Result<void> picture_tracks(const std::vector<learn::Track>& tracks,
                                          const std::vector<TrackLearnt>& readings,
                                          const std::string& png);

}  // namespace lodeway::tasks
