#pragma once
/// The printed set: map sheets, route card, home note, escape card.
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/tasks/plan.hpp"

namespace lodeway::tasks {

struct PaperRequest {
  std::string folder;       ///< made when it is not there
  bool large_type = false;  ///< the card in larger letters, fewer legs a side
  bool pictures = false;    ///< each page as PNG too, 150 dots an inch
};

/// Writes sheet-1.pdf …, card.pdf, card.txt, card.csv, home-note.pdf, escape-card.pdf.
/// Nothing is written unless every page could be drawn; each file appears whole or not at all.
/// Answers the paths written, in that order.
/// Faults: io_failed (the folder), bad_input (paper), too_large (more sheets than can be carried).
[[nodiscard]] Result<std::vector<std::string>> write_paper(const PlannedTrip& planned,
                                                           const PaperRequest& request,
                                                           Progress* progress = nullptr);

}  // namespace lodeway::tasks
