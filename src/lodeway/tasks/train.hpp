#pragma once
/// A training day from real ground: courses, items, their paper, and a marks file to be filled in.
#include <chrono>
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/learn/course/training_day.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/tasks/progress.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

struct TrainRequest {
  std::string ground_file;
  std::string from;  ///< a name on the map or a grid reference
  std::uint64_t seed = 1;
  std::chrono::year_month_day date{};  ///< for the declination
  units::Language language = units::Language::english;  ///< of the paper and of what is said
  std::string folder;                  ///< for the paper; empty: none is written
  bool pictures = false;               ///< each page as PNG too
};

struct Trained {
  walking::Ground ground;
  std::string ground_file;
  learn::TrainingDay day;
  std::string code;                ///< on every sheet: ground and seed
  std::vector<std::string> files;  ///< written, in their order
};

/// Faults: as io::open_ground and magnetic::field_at; bad_input (no such place); no_way when not
/// one course, feature, fork walk or drop is safe there: says why; io_failed; cancelled.
[[nodiscard]] Result<Trained> train(const TrainRequest& request, Progress* progress = nullptr);

[[nodiscard]] std::string trained_as_text(const Trained& trained);
/// Keys: docs/method/training-day.md.
[[nodiscard]] std::string trained_as_json(const Trained& trained);

}  // namespace lodeway::tasks
