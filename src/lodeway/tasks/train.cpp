#include "lodeway/tasks/train.hpp"

#include <cmath>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/party/marks_file.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_pdf.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/learn/course/codes.hpp"
#include "lodeway/magnetic/declination.hpp"
#include "lodeway/sheet/training/training_sheets.hpp"
#include "lodeway/tasks/io_progress.hpp"
#include "lodeway/tasks/learn.hpp"
#include "lodeway/tasks/place_named.hpp"

namespace lodeway::tasks {

namespace {

struct Paper {
  std::string name;
  std::vector<sheet::Drawing> pages;
};

Result<std::vector<Paper>> draw(const Trained& trained) {
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  const sheet::TrainingPaper paper{trained.day, trained.ground, trained.code};
  std::vector<Paper> out;
  out.push_back({"course-sheet", sheet::draw_course_sheet(paper, **measure)});
  out.push_back({"answer-sheet", sheet::draw_answer_sheet(paper, **measure)});
  out.push_back({"marking-sheet", sheet::draw_marking_sheet(paper, **measure)});
  out.push_back({"map-piece", {sheet::draw_map_piece(paper, **measure)}});
  return out;
}

Result<void> write_all(const TrainRequest& request, Trained& trained, Progress* progress) {
  const auto papers = draw(trained);
  if (!papers) return std::unexpected(papers.error());
  auto set = io::SetBeside::into(request.folder);
  if (!set) return std::unexpected(set.error());
  const auto path = [&](const std::string& name) {
    trained.files.push_back((std::filesystem::path(request.folder) / name).string());
    return (std::filesystem::path(set->temporary()) / name).string();
  };
  for (const auto& paper : *papers) {
    if (progress != nullptr && !progress->go_on(0.7, "drawing the paper"))
      return fail(FaultCode::cancelled, "stopped");
    if (auto written = io::write_pdf(paper.pages, path(paper.name + ".pdf"), request.date);
        !written)
      return written;
    for (std::size_t k = 0; request.pictures && k < paper.pages.size(); ++k) {
      if (auto drawn =
              io::write_png(paper.pages[k], path(fmt::format("{}-{}.png", paper.name, k + 1)), 110);
          !drawn)
        return drawn;
    }
  }
  io::Marks marks;
  marks.day = trained.code;
  std::error_code error;
  const auto beside = std::filesystem::relative(request.ground_file, request.folder, error);
  if (!error) marks.ground = beside.generic_string();
  marks.measured = learn::marks_of(trained.day, trained.code);
  if (auto written = io::write_beside(path("marks.toml"), io::marks_template(marks)); !written)
    return written;
  return set->keep();
}

}  // namespace

Result<Trained> train(const TrainRequest& request, Progress* progress) {
  const auto go_on = [&](double share, const char* doing) {
    return progress == nullptr || progress->go_on(share, doing);
  };
  const auto stopped = [] { return fail(FaultCode::cancelled, "stopped"); };
  if (!go_on(0, "opening the ground")) return stopped();
  auto ground = io::open_ground(request.ground_file, io_progress(progress));
  if (!ground) return std::unexpected(ground.error());
  Trained out;
  out.ground = *std::move(ground);
  out.ground_file = request.ground_file;
  const auto at = place_named(out.ground, request.from, "from");
  if (!at) return std::unexpected(at.error());
  if (!std::isfinite(terrain::height_at(out.ground.elevation, *at))) {
    return fail(
        FaultCode::outside_ground,
        fmt::format("from: {}: outside the ground, or no height is known there", request.from));
  }
  const auto place = out.ground.grid.to_geographic(*at);
  if (!place) return std::unexpected(place.error());
  const auto field = magnetic::field_at(*place, 0, request.date);
  if (!field) return std::unexpected(field.error());
  const auto convergence = out.ground.grid.convergence(*at);
  if (!convergence) return std::unexpected(convergence.error());
  if (!go_on(0.2, "looking where nothing can hurt")) return stopped();
  const learn::TrainingGround ready(out.ground);
  if (!go_on(0.5, "laying out courses")) return stopped();
  out.day =
      learn::make_day(ready, *at, request.from,
                      units::grid_magnetic_angle(*convergence, field->declination).in_degrees(),
                      request.seed, request.language);
  out.code = learn::day_code(ground_code(out.ground), out.day, request.date);
  if (out.day.empty()) {
    return fail(FaultCode::no_way, fmt::format("no course keeps the rules within 2 km of {}: {}",
                                               request.from, fmt::join(out.day.missing, " ")));
  }
  if (!request.folder.empty()) {
    if (const auto written = write_all(request, out, progress); !written)
      return std::unexpected(written.error());
  }
  if (!go_on(1, "drawing the paper")) return stopped();
  return out;
}

}  // namespace lodeway::tasks
