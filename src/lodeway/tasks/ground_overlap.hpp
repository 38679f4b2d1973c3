#pragma once
/// Do heights and map lie on each other? Said with where each lies, before a ground is made that is
/// a map's only in name.
#include <string>
#include <vector>

#include "lodeway/io/vector/features.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// One file of features, as read onto the ground.
struct FileOnGround {
  std::string file;
  std::optional<std::array<double, 4>> lies_deg;  ///< io::FeaturesRead::lies_deg
  bool gave_any = false;                          ///< a feature of it lies on the heights
};

/// A sentence for each file that gave nothing: empty, beside the heights (with where both lie, to
/// 0.01 degrees, and how far apart, to 1 km), or about them and yet without a feature on them.
/// Faults: bad_input when there are files and every one lies beside the heights.
[[nodiscard]] Result<std::vector<std::string>> overlap_remarks(
    const walking::Ground& ground, const std::vector<FileOnGround>& files);

}  // namespace lodeway::tasks
