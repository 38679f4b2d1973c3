/// Tracks as a picture: walked, ridden, standing, left out.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/earth/map_grid.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/tasks/learn.hpp"

namespace lodeway::tasks {

namespace {
using sheet::Mm;
namespace ink = sheet::ink;
constexpr double wide = 180, high = 96, margin = 8, foot = 16;

/// East and north metres about the track's middle: good enough to look at.
std::vector<earth::GridPoint> flat(const learn::Track& track) {
  std::vector<earth::GridPoint> out;
  if (track.points.empty()) return out;
  const auto first = track.points.front().at;
  constexpr double metres = 111320, degree = 3.14159265358979 / 180;
  const double shrink = std::cos(first.lat_deg * degree);
  for (const auto& p : track.points) {
    out.push_back({std::remainder(p.at.lon_deg - first.lon_deg, 360.0) * metres * shrink,
                   (p.at.lat_deg - first.lat_deg) * metres});
  }
  return out;
}

sheet::Pen pen_of(learn::Mode mode) {
  switch (mode) {
    case learn::Mode::walked:
      return {ink::tarn, 0.6};
    case learn::Mode::ride:
      return {ink::rowan, 0.5, {1.6, 1.0}};
    case learn::Mode::standing:
      return {ink::night, 1.6};
    case learn::Mode::dropped:
      break;
  }
  return {ink::rule, 0.3, {0.4, 0.8}};
}

void draw_one(sheet::Page& page, const learn::Track& track, const TrackLearnt& read, double top) {
  const auto points = flat(track);
  page.fitted(fmt::format("{}: {}", learn::used_name(read.reading.used),
                          track.file.empty() ? read.file : track.file),
              {margin, top + 6}, wide - 2 * margin, {sheet::Face::words_bold, 3.6, ink::text});
  page.fitted(read.reading.words, {margin, top + 11}, wide - 2 * margin,
              {sheet::Face::words, 3, ink::stone});
  page.stroke({{margin, top + high - 0.5}, {wide - margin, top + high - 0.5}}, {ink::rule, 0.2});
  if (points.size() < 2) return;
  double west = 1e18, east = -1e18, south = 1e18, north = -1e18;
  for (const auto& p : points) {
    west = std::min(west, p.east_m);
    east = std::max(east, p.east_m);
    south = std::min(south, p.north_m);
    north = std::max(north, p.north_m);
  }
  const double box_w = wide - 2 * margin, box_h = high - foot - 4;
  const double mm =
      std::min(box_w / std::max(east - west, 1.0), box_h / std::max(north - south, 1.0));
  const auto at = [&](std::size_t i) {
    return Mm{margin + 0.5 * (box_w - mm * (east - west)) + mm * (points[i].east_m - west),
              top + foot + mm * (north - points[i].north_m)};
  };
  const auto piece = [&](std::size_t from, std::size_t to, const sheet::Pen& pen) {
    std::vector<Mm> line;
    const std::size_t step = std::max<std::size_t>(1, (to - from) / 4000);
    for (std::size_t i = from; i < to; i += step) line.push_back(at(i));
    line.push_back(at(to));
    page.stroke(std::move(line), pen);
  };
  piece(0, points.size() - 1, pen_of(learn::Mode::dropped));
  for (const auto mode : {learn::Mode::walked, learn::Mode::ride, learn::Mode::standing}) {
    for (const auto& s : read.reading.stretches) {
      if (s.mode == mode && s.to > s.from && read.reading.used != learn::Used::refused)
        piece(s.from, s.to, pen_of(mode));
      if (s.mode == mode && mode == learn::Mode::ride && s.to > s.from &&
          read.reading.used == learn::Used::refused)
        piece(s.from, s.to, pen_of(mode));
    }
  }
}
}  // namespace

Result<void> picture_tracks(const std::vector<learn::Track>& tracks,
                            const std::vector<TrackLearnt>& readings, const std::string& png) {
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  const std::size_t most = 20;
  const auto count = std::min(tracks.size(), most);
  sheet::Page page(wide, high * static_cast<double>(std::max<std::size_t>(count, 1)) + 10, "tracks",
                   **measure);
  double x = margin;
  for (const auto& [mode, words] : {std::pair{learn::Mode::walked, "walked"},
                                    {learn::Mode::ride, "ride, cut off"},
                                    {learn::Mode::standing, "standing"},
                                    {learn::Mode::dropped, "not used"}}) {
    page.stroke({{x, 6}, {x + 10, 6}}, pen_of(mode));
    x += 12 + page.text(words, {x + 12, 7}, {sheet::Face::words, 3, ink::text}) + 6;
  }
  for (std::size_t i = 0; i < count; ++i)
    draw_one(page, tracks[i], readings[i], 8 + high * static_cast<double>(i));
  return io::write_png(page.take(), png, 110);
}

}  // namespace lodeway::tasks
