#pragma once
/// The printed set: map sheets, route card, home note, escape card, lost card.
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/plan.hpp"

namespace lodeway::tasks {

struct PaperRequest {
  std::string folder;       ///< made when it is not there
  bool large_type = false;  ///< the card in larger letters, fewer legs a side
  bool pictures = false;    ///< each page as PNG too, 150 dots an inch
  bool in_one = false;      ///< everything.pdf too: all pages in the order of printing
  /// Lower left corners of the maps of sheets that were laid by hand; empty: laid along the way.
  std::vector<earth::GridPoint> sheets;
};

struct PaperFiles {
  std::vector<std::string> files;    ///< paths, in the order of writing
  /// One line each: texts whose letters the fonts lack, files of an older set that were removed or
  /// must not be carried.
  std::vector<std::string> remarks;
};

/// Writes sheet-1.pdf …, sheet-index.pdf when there are several, card.pdf, home-note.pdf,
/// escape-card.pdf, lost-card.pdf, card.txt, card.csv. They appear together when all of them are written, or
/// not at all, so that no new sheet lies beside an old card; with a small list of them
/// (paper_manifest.hpp), by which the next set removes what it has no use for.
/// Faults: io_failed (the folder), bad_input (paper), too_large (more sheets than can be carried).
[[nodiscard]] Result<PaperFiles> write_paper(const walking::Ground& ground, const trip::Plan& plan,
                                             const PaperRequest& request,
                                             Progress* progress = nullptr);

/// The verdict on the plan, the files and remarks, and the plan's warnings, as JSON: what is printed
/// is never without the first thing said of it.
[[nodiscard]] std::string paper_as_json(const trip::Plan& plan, const PaperFiles& paper);

}  // namespace lodeway::tasks
