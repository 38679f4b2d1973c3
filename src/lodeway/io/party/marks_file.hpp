#pragma once
/// The marks of one training day, as typed in from the marking sheet.
#include <string>
#include <vector>

#include "lodeway/learn/record/record.hpp"
#include "lodeway/result/result.hpp"

namespace lodeway::io {

struct Marks {
  std::string ground;    ///< file of the ground, beside the marks file; empty: none is named
  std::string day;       ///< the code on every sheet of the day; empty: marks without a made day
  bool training = true;  ///< false: of a walked trip, counts in full
  std::vector<learn::Measured> measured;
  std::size_t empty_boxes = 0;  ///< exercises left blank: they are not 0, and not taken
};

/// An exercise whose lists and counts are all empty was not done, and is left out. Faults: as
/// read_party_file; bad_input when nothing at all was filled in.
[[nodiscard]] Result<Marks> read_marks(const std::string& path);
[[nodiscard]] Result<Marks> marks_of_text(const std::string& text, const std::string& name);

/// An empty marks file for these exercises, to be filled in: `measured` with empty lists and
/// counts.
[[nodiscard]] std::string marks_template(const Marks& marks);

}  // namespace lodeway::io
