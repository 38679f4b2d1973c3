#include "lodeway/tasks/learn.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "lodeway/io/gpx/gpx_track.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/party/party_file.hpp"
#include "lodeway/learn/course/codes.hpp"
#include "lodeway/tasks/io_progress.hpp"
#include "lodeway/units/refusal_in.hpp"

namespace lodeway::tasks {

namespace {

void take_newest(std::chrono::year_month_day& newest, std::chrono::year_month_day day) {
  if (!newest.ok() || day > newest) newest = day;
}

Result<void> take(const io::Marks& marks, const std::string& file, Learnt& out) {
  out.boxes_left_empty += marks.empty_boxes;
  for (const auto& m : marks.measured) {
    if (!marks.day.empty() && !m.course.empty() && !learn::is_of_day(marks.day, m.course)) {
      return fail(
          FaultCode::bad_input,
          fmt::format("{}: course: {} is no course of day {}: expected the code that stands "
                      "on that day's marking sheet",
                      file, m.course, marks.day));
    }
    for (auto& question : learn::odd(m, out.basis.language)) {
      out.questions.push_back(fmt::format("{}{}: {}", learn::exercise_name(m.exercise),
                                          m.course.empty() ? "" : " " + m.course,
                                          std::move(question)));
    }
    if (const auto added = learn::add(out.record, m); !added) return fail_in(file, added.error());
    ++out.marks_taken;
  }
  return {};
}

Result<void> take_marks(const LearnRequest& request, Learnt& out, Progress* progress) {
  for (const auto& file : request.marks) {
    const auto marks = io::read_marks(file);
    if (!marks) return std::unexpected(marks.error());
    const auto ground_file = request.ground.empty() ? marks->ground : request.ground;
    if (!marks->day.empty() && !ground_file.empty()) {
      const auto ground = io::open_ground(ground_file, io_progress(progress));
      if (!ground) return std::unexpected(ground.error());
      const auto code = ground_code(*ground);
      if (!marks->day.starts_with(code + "-")) {
        return fail(
            FaultCode::bad_input,
            fmt::format("{}: day: these marks are of a day ({}) that was not made from this "
                        "ground ({}, {})",
                        file, marks->day, ground_file, code));
      }
    }
    if (auto taken = take(*marks, file, out); !taken) return taken;
  }
  return {};
}

TrackLearnt refused(const std::string& file, learn::Why why, std::string words) {
  TrackLearnt out;
  out.file = file;
  out.reading.why = {why};
  out.reading.words = std::move(words);
  return out;
}

/// Reads it as a walk, or refuses it; hands the track back for the picture.
learn::Track take(const std::string& file, Result<learn::Track> track, Learnt& out) {
  if (!track) {
    out.tracks.push_back(refused(file, learn::Why::no_track,
                                 units::refusal_in(out.basis.language, track.error().what)));
    return {};
  }
  TrackLearnt one{file, learn::read_track(*track, {}, out.basis.language), {}};
  if (one.reading.used != learn::Used::refused) {
    if (const auto added = learn::add(out.record, one.reading.day); !added)
      one = refused(file, learn::Why::known,
                    units::refusal_in(out.basis.language, added.error().what));
  }
  out.tracks.push_back(std::move(one));
  return *std::move(track);
}

/// Figures before and after, by the evidence of the two records.
void finish(Learnt& out) {
  out.anything = out.marks_taken > 0 || std::ranges::any_of(out.tracks, [](const auto& t) {
                   return t.reading.used != learn::Used::refused;
                 });
  if (!out.basis.today.ok()) {
    for (const auto& m : out.record.measured) take_newest(out.basis.today, m.date);
    for (const auto& d : out.record.walked) take_newest(out.basis.today, d.date);
  }
  if (!out.basis.today.ok()) out.basis.today = std::chrono::sys_days{std::chrono::days{20000}};
  out.before = learn::figures_of(out.record_before, out.basis);
  out.after = learn::figures_of(out.record, out.basis);
  out.not_shown = learn::not_shown(out.record, out.after, out.basis);
}

}  // namespace

std::vector<std::string> ids_of(const learn::PartyFigures& figures) {
  std::vector<std::string> out;
  for (const auto& f : figures.measured()) out.push_back(learn::figure_id(f));
  if (figures.pace.learnt) {
    for (const auto id : {learn::minutes_id, learn::leg_id, learn::rests_id}) out.emplace_back(id);
  }
  return out;
}

Result<void> choose_figures(Learnt& learnt, const std::vector<std::string>& refuse,
                            const std::vector<std::string>& use) {
  if (refuse.empty() && use.empty()) return {};
  const auto known = ids_of(learnt.after);
  for (const auto* list : {&refuse, &use}) {
    for (const auto& id : *list) {
      if (std::ranges::find(known, id) == known.end())
        return fail(FaultCode::bad_input,
                    fmt::format("{}: expected a figure that was measured: {}", id,
                                known.empty() ? "there is none"
                                              : fmt::format("{}", fmt::join(known, ", "))));
    }
  }
  auto& refused = learnt.record.refused;
  for (const auto& id : refuse) {
    if (std::ranges::find(refused, id) == refused.end()) refused.push_back(id);
  }
  std::erase_if(refused, [&](const auto& id) { return std::ranges::find(use, id) != use.end(); });
  learnt.after = learn::figures_of(learnt.record, learnt.basis);
  learnt.not_shown = learn::not_shown(learnt.record, learnt.after, learnt.basis);
  learnt.anything = true;
  return {};
}

std::string ground_code(const walking::Ground& ground) {
  // FNV-1a (Fowler, Noll & Vo) over what a course depends on; six figures are enough to notice.
  std::uint64_t h = 14695981039346656037ULL;
  const auto take = [&](std::uint64_t v) {
    for (int i = 0; i < 8; ++i) h = (h ^ (v >> (8 * i) & 0xff)) * 1099511628211ULL;
  };
  const auto& f = ground.elevation.frame();
  for (const double v : {f.west_m, f.north_m, f.cell_m}) take(std::bit_cast<std::uint64_t>(v));
  take(static_cast<std::uint64_t>(f.rows));
  take(static_cast<std::uint64_t>(f.cols));
  take(static_cast<std::uint64_t>(ground.grid.epsg()));
  take(ground.map.lines.size());
  take(ground.map.points.size());
  const auto cells = ground.elevation.cells();
  for (std::size_t i = 0; i < cells.size(); i += std::max<std::size_t>(1, cells.size() / 997))
    take(std::isfinite(cells[i]) ? std::bit_cast<std::uint32_t>(cells[i]) : 0U);
  return fmt::format("{:06X}", (h ^ h >> 32) & 0xffffffU);
}

Result<Learnt> learn_from(const LearnRequest& request, Progress* progress) {
  Learnt out;
  out.basis.language = request.language;
  std::error_code error;
  if (std::filesystem::exists(request.party_file, error)) {
    auto record = io::read_party_file(request.party_file);
    if (!record) return std::unexpected(record.error());
    out.record = *std::move(record);
  } else {
    out.record.name = request.name.empty()
                          ? std::filesystem::path(request.party_file).stem().string()
                          : request.name;
  }
  out.record_before = out.record;
  if (const auto taken = take_marks(request, out, progress); !taken)
    return std::unexpected(taken.error());
  std::vector<learn::Track> tracks;
  for (std::size_t i = 0; i < request.tracks.size(); ++i) {
    const auto& file = request.tracks[i];
    if (progress != nullptr &&
        !progress->go_on(static_cast<double>(i) / static_cast<double>(request.tracks.size()),
                         "reading " + file))
      return fail(FaultCode::cancelled, "stopped");
    tracks.push_back(take(file, io::read_gpx_track(file), out));
  }
  out.basis.party = request.table;
  out.basis.who = request.who;
  out.basis.today = request.today;
  finish(out);
  if (const auto chosen = choose_figures(out, request.refuse, request.use); !chosen)
    return std::unexpected(chosen.error());
  if (!request.picture.empty()) {
    if (const auto drawn = picture_tracks(tracks, out.tracks, request.picture); !drawn)
      return std::unexpected(drawn.error());
  }
  return out;
}

Result<Learnt> learn_from_bytes(const LearnBytes& request) {
  Learnt out;
  out.basis.language = request.language;
  if (!request.party.empty()) {
    auto record = io::party_of_text(request.party, "party");
    if (!record) return std::unexpected(record.error());
    out.record = *std::move(record);
  }
  out.record_before = out.record;
  for (const auto& file : request.marks) {
    const auto marks = io::marks_of_text(file.bytes, file.name);
    if (!marks) return std::unexpected(marks.error());
    if (const auto taken = take(*marks, file.name, out); !taken)
      return std::unexpected(taken.error());
  }
  for (const auto& file : request.tracks) {
    const auto track = take(file.name, io::gpx_track_of_bytes(file.bytes, file.name), out);
    auto& places = out.tracks.back().places;
    for (const auto& point : track.points) places.push_back(point.at);
  }
  out.basis.party = request.table;
  finish(out);
  if (request.refused) {
    // A figure of a file that was left out since is measured no more: there is nothing to refuse.
    out.record.refused.clear();
    finish(out);
    auto names = *request.refused;
    const auto known = ids_of(out.after);
    std::erase_if(names,
                  [&](const auto& id) { return std::ranges::find(known, id) == known.end(); });
    if (const auto chosen = choose_figures(out, names, {}); !chosen)
      return std::unexpected(chosen.error());
  }
  return out;
}

Result<void> keep_learnt(const Learnt& learnt, const std::string& party_file) {
  return io::write_party_file(party_file, learnt.record);
}

}  // namespace lodeway::tasks
