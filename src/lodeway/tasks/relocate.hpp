#pragma once
/// Where are we? What a party tells of a place, in its own words, to a map of probability, the next
/// question, and the move that works wherever it is. Method: docs/method/where-are-we.md
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "lodeway/belief/moves.hpp"
#include "lodeway/belief/questions.hpp"
#include "lodeway/belief/resection.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/tasks/plan.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::tasks {

/// What is told, as it is typed. Bearings and falls are as the needle shows unless `north` says
/// otherwise. Empty: not told.
struct Told {
  std::string height;                    ///< metres: "640"
  std::string height_from = "contours";  ///< contours; altimeter (set within the day)
  std::string falls;                     ///< "210", or "nowhere": flat ground
  std::string slope;                     ///< degrees, or flat, gentle, moderate, steep, very steep
  std::string landform;                  ///< flat, top, ridge, spur, slope, hollow, valley, saddle
  std::string wood;                      ///< "yes", "no"
  std::vector<std::string> on;           ///< "stream", "stream, 40": its lie; "no path"
  std::vector<std::string> beside;       ///< "wall", "wall, left", "wall, 270": the way to it
  std::vector<std::string> sees;         ///< "Harrik Pike, 312", "lake, 200", "lake"
  std::vector<std::string> not_seen;     ///< "Harrik Pike", "path"
  std::string last;                      ///< "PLACE, 25 min, 340"; the bearing may be missing
  int leg = 0;                           ///< of the trip's plan, from 1; 0: none
  std::string leg_minutes;               ///< since its start
  std::string north = "magnetic";        ///< magnetic, grid, true
  std::string date;                      ///< "2026-11-14"; empty: the trip's, else today
  std::string visibility, skill;         ///< empty: the trip's, else clear and practised
  std::string language;  ///< of the answer, "en" or "de"; empty: the trip's, else "en"
  friend bool operator==(const Told&, const Told&) = default;
};

struct RelocateRequest {
  std::string file;         ///< a ground, or a trip file that names one
  std::string ground_file;  ///< another ground than the trip names
  Told told;
  std::string picture;  ///< PNG; empty: none
  std::string raster;   ///< GeoTIFF of the share of each cell; empty: none
  /// Of the answer where neither `told` nor a trip says it.
  units::Language readers = units::Language::english;
};

/// A place that fits, for people.
struct PlaceThatFits {
  belief::Part part;
  std::string grid_reference;  ///< six figures
  double height_m = 0;         ///< NaN on a void
  std::string near;            ///< "120 m SE of Harrik Pike"; empty when nothing has a name near
};

/// What an answer to a question would add to what is told: a key of Told and its text. Empty: it
/// cannot be told so (the answer to a walk).
struct Telling {
  std::string key, text;
};

struct Relocation {
  std::vector<std::string> warnings;  ///< dangers first; none of them refuses an answer
  std::vector<PlaceThatFits> places;  ///< likeliest first, at most 6
  belief::Summary summary;
  belief::Belief belief;
  std::vector<belief::Question> questions;
  std::vector<std::string> asks;                ///< a sentence for each question
  std::vector<std::vector<std::string>> means;  ///< for each, a sentence for each answer
  std::vector<std::vector<Telling>> tells;      ///< for each, what each answer would tell
  belief::Moves moves;
  std::vector<std::string> goes;  ///< a sentence for each move; empty moves: one that says so
  std::optional<belief::Resection> resection;  ///< from two bearings or more to named things
  std::string resection_words;
  std::vector<belief::Report> reports;
  std::vector<std::string> told;  ///< each report as it was understood, a few words
  std::string from;               ///< where the looking began: the last sure place, a leg; may be empty
  std::string norths;             ///< "magnetic, declination 2.3° W on 2026-11-14"
  double grid_magnetic_deg = 0;   ///< magnetic = grid - it
  std::optional<earth::GridPoint> last;
  mapdata::Visibility visibility = mapdata::Visibility::clear;
  units::Language language = units::Language::english;  ///< of every text above
};

/// What does not change from one answer to the next: kept by the page's server between them.
struct RelocateGround {
  sight::Chances chances;
  sight::CuePlanes planes;  ///< of the whole ground; views are added as they are needed
};
[[nodiscard]] RelocateGround ready_to_relocate(const walking::Ground& ground,
                                               const walking::Request& request,
                                               const sight::Chances& chances = {});

/// One answer. `trip` and `legs` may be null (then `told.leg` is refused). `ready` may be null:
/// then planes of the window are made. Faults: bad_input, one line, for what cannot be read: a
/// thing that is not on the map, an angle of 400. What cannot be true is never refused: it is
/// warned of.
[[nodiscard]] Result<Relocation> relocate(const walking::Ground& ground, const trip::Trip* trip,
                                          const std::vector<walking::Leg>* legs, const Told& told,
                                          RelocateGround* ready = nullptr,
                                          Progress* progress = nullptr,
                                          const sight::Chances& chances = {});

struct Relocated {
  walking::Ground ground;
  Relocation answer;
  std::optional<trip::Trip> trip;   ///< where a trip file was given
  std::vector<walking::Leg> legs;   ///< of its plan, where a leg was told
};
/// Opens, answers, writes the files asked for. Faults: also of io::open_ground, io::read_trip,
/// plan_trip (only where a leg is told), io_failed.
[[nodiscard]] Result<Relocated> relocate(const RelocateRequest& request,
                                         Progress* progress = nullptr);

/// The place is settled: the rest of the trip from there.
struct GoOn {
  int place = 0;     ///< of the answer's, from 1; 0: the likeliest, which then must be settled
  std::string time;  ///< clock time now, "14:30"
  std::string next;  ///< name of the trip's place to go on to; empty: the one after the leg told
};
/// A place is settled that holds so much of what may be, of 1. *Practice*.
inline constexpr double settled_share = 0.8;
/// What plan_trip is asked for it. Faults: bad_input, one line: no trip, no such place, a place that
/// is not settled, a time or a name that cannot be read.
[[nodiscard]] Result<PlanRequest> plan_from_here(const RelocateRequest& request,
                                                 const Relocated& found, const GoOn& go_on);

/// "Go on from place 1, [82 53], at 14:30, to Kell Gap:"
[[nodiscard]] std::string go_on_words(const trip::Plan& plan, const trip::FromHere& from,
                                      const Relocated& found, const GoOn& go_on);

[[nodiscard]] std::string relocation_text(const Relocation& answer);
/// The outlines of the areas that hold 50 and 90 in 100 of what is on the map: closed rings, with
/// holes, of places where the share between cell centres crosses the area's level (its logarithm is
/// taken as linear there). Higher share lies to the right. Accuracy: half a cell.
struct LikelyAreas {
  std::vector<std::vector<earth::GridPoint>> half, nine_in_ten;
};
[[nodiscard]] LikelyAreas likely_areas(const Relocation& answer);

/// Keys: docs/method/where-are-we.md. Bearings named magnetic are the needle's, others grid.
[[nodiscard]] std::string relocation_json(const Relocation& answer);

/// Reads a JSON object with Told's keys (lists of texts for on, beside, sees, not_seen). Faults:
/// bad_input, naming the key.
[[nodiscard]] Result<Told> told_of_json(const std::string& json);

}  // namespace lodeway::tasks
