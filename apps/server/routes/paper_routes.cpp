// Paper: where the sheets lie, and the printed set to look at and to take away.
#include <algorithm>
#include <array>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "apps/server/routes/say.hpp"
#include "apps/server/store/ways.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/gpx/gpx.hpp"
#include "lodeway/io/gpx/kml.hpp"
#include "lodeway/io/zip/zip.hpp"
#include "lodeway/sheet/map/cover.hpp"
#include "lodeway/tasks/paper.hpp"
#include "lodeway/tasks/say.hpp"
#include "lodeway/tasks/take_away.hpp"

namespace lodeway::server {

namespace {

namespace fs = std::filesystem;
constexpr double preview_dots_mm = 150 / 25.4;

struct Page {
  std::string file;
  double width_mm = 0, height_mm = 0;
};
struct File {
  std::string name, title, what, type;
  std::uint64_t size = 0;
  std::vector<Page> pages;
};
struct Sort {
  const char *begin, *end, *title, *what, *type;
};
constexpr Sort sorts[] = {
    {"everything", ".pdf", "Everything in one file", "everything", "application/pdf"},
    {"sheet-index", ".pdf", "How the sheets lie", "sheet", "application/pdf"},
    {"sheet-", ".pdf", "Map sheet ", "sheet", "application/pdf"},
    {"card", ".pdf", "Route card", "card", "application/pdf"},
    {"home-note", ".pdf", "Home note", "home_note", "application/pdf"},
    {"escape-card", ".pdf", "Escape card", "escape_card", "application/pdf"},
    {"lost-card", ".pdf", "Lost card", "lost_card", "application/pdf"},
    {"way", ".gpx", "The way for other programs, GPX", "gpx", "application/gpx+xml"},
    {"way", ".geojson", "The legs for other programs, GeoJSON", "geojson", "application/geo+json"},
    {"way", ".kml", "The legs and places for other programs, KML", "kml",
     "application/vnd.google-earth.kml+xml"},
    {"home", ".ics", "The three times for a calendar at home", "calendar", "text/calendar; charset=utf-8"},
    {"paper", ".zip", "All of these files in one", "zip", "application/zip"},
    {"trip", ".toml", "The trip file", "trip", "application/toml"},
    {"card", ".txt", "Route card as plain text", "text", "text/plain; charset=utf-8"},
    {"card", ".csv", "Route card as a table", "table", "text/csv; charset=utf-8"},
};

/// Sides of a PNG in millimetres at 150 dots an inch, from its header.
Page page_of(const fs::path& png) {
  std::ifstream in(png, std::ios::binary);
  std::array<unsigned char, 24> head{};
  in.read(reinterpret_cast<char*>(head.data()), head.size());
  const auto side = [&](std::size_t at) {
    return (head[at] << 24 | head[at + 1] << 16 | head[at + 2] << 8 | head[at + 3]) /
           preview_dots_mm;
  };
  return {png.filename().string(), side(16), side(20)};
}

std::vector<File> list(const std::string& folder) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder))
    names.push_back(entry.path().filename().string());
  std::ranges::sort(names, {}, [](const std::string& n) { return std::pair(n.size(), n); });
  std::vector<File> out;
  std::vector<std::string> taken;
  for (const auto& sort : sorts) {
    for (const auto& name : names) {
      if (!name.starts_with(sort.begin) || !name.ends_with(sort.end)) continue;
      if (std::ranges::find(taken, name) != taken.end()) continue;
      taken.push_back(name);
      const auto stem = name.substr(0, name.rfind('.'));
      File file{name, sort.title, sort.what, sort.type, fs::file_size(folder + "/" + name), {}};
      if (file.title.ends_with(' ')) file.title += stem.substr(std::string_view(sort.begin).size());
      for (const auto& png : names) {
        const auto rest = png.starts_with(stem) ? png.substr(stem.size()) : "";
        const bool page =
            rest == ".png" || (rest.starts_with('-') && rest.ends_with(".png") &&
                               rest.find_first_not_of("0123456789", 1) == rest.size() - 4);
        if (page && sort.type == std::string_view("application/pdf"))
          file.pages.push_back(page_of(folder + "/" + png));
      }
      out.push_back(std::move(file));
    }
  }
  return out;
}

Json frames_json(const std::vector<sheet::MapFrame>& frames) {
  auto out = Json::array();
  for (std::size_t i = 0; i < frames.size(); ++i) {
    const auto& f = frames[i];
    out.push_back({{"name", "sheet-" + std::to_string(i + 1)},
                   {"south_west_grid_m", point_json(f.south_west)},
                   {"width_m", f.metres(f.w)},
                   {"height_m", f.metres(f.h)},
                   {"scale", f.scale}});
  }
  return out;
}

/// Sheets laid by hand, from the trip's state.
std::vector<earth::GridPoint> laid(const ReadyTrip& trip) {
  std::vector<earth::GridPoint> out;
  const auto& sheets = trip.stored.state["sheets"];
  if (!sheets.is_array()) return out;
  for (const auto& p : sheets) {
    if (p.is_array() && p.size() == 2 && p[0].is_number() && p[1].is_number())
      out.push_back({p[0].get<double>(), p[1].get<double>()});
  }
  return out;
}

Result<std::vector<sheet::MapFrame>> frames_of(const trip::Plan& plan, const ReadyTrip& trip) {
  const auto& t = plan.trip;
  const auto places = sheet::cover_by_hand(plan.way, t.map_scale, t.paper, t.landscape, laid(trip));
  if (!places) return std::unexpected(places.error());
  std::vector<sheet::MapFrame> out;
  for (const auto& place : *places) out.push_back(place.frame);
  return out;
}

Json files_json(const std::vector<File>& files, const std::string& base) {
  auto out = Json::array();
  for (const auto& f : files) {
    auto pages = Json::array();
    for (const auto& p : f.pages) {
      pages.push_back(
          {{"preview_url", base + p.file}, {"width_mm", p.width_mm}, {"height_mm", p.height_mm}});
    }
    out.push_back({{"file", f.name},
                   {"title", f.title},
                   {"what", f.what},
                   {"url", base + f.name},
                   {"size_bytes", f.size},
                   {"pages", pages}});
  }
  return out;
}

Result<Outcome> print(Service& s, const ReadyTrip& trip, const std::string& way, bool large_type,
                      tasks::Progress& progress, const std::string& job) {
  const auto ways = ways_for(s, trip, &progress);
  if (!ways) return std::unexpected(ways.error());
  const auto plan = plan_of(**ways, way, trip);
  if (!plan) return std::unexpected(plan.error());
  const auto& ground = trip.ground->ground;
  const auto frames = frames_of(*plan, trip);
  if (!frames) return std::unexpected(frames.error());
  tasks::PaperRequest wanted;
  wanted.folder = s.papers.folder_of(job);
  wanted.large_type = large_type;
  wanted.pictures = wanted.in_one = true;
  wanted.sheets = laid(trip);
  const auto written = tasks::write_paper(ground, *plan, wanted, &progress);
  if (!written) return std::unexpected(written.error());
  if (auto done = io::write_gpx(plan->way, ground.grid, wanted.folder + "/way.gpx"); !done)
    return std::unexpected(done.error());
  if (auto done = io::write_geojson(plan->way, ground.grid, wanted.folder + "/way.geojson"); !done)
    return std::unexpected(done.error());
  if (auto done = io::write_kml(plan->way, ground.grid, wanted.folder + "/way.kml"); !done)
    return std::unexpected(done.error());
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  if (auto done = tasks::write_home_calendar(*plan, now, wanted.folder + "/home.ics"); !done)
    return std::unexpected(done.error());
  const auto text = trip_file_text(s, trip.stored);
  if (!text) return std::unexpected(text.error());
  if (auto done = io::write_beside(wanted.folder + "/trip.toml", *text); !done)
    return std::unexpected(done.error());
  std::vector<io::ZipEntry> entries;
  for (const auto& file : list(wanted.folder))
    entries.push_back({file.name, wanted.folder + "/" + file.name});
  if (auto done = io::write_zip(entries, wanted.folder + "/paper.zip"); !done)
    return std::unexpected(done.error());
  const Json answer{{"job", job},
                    {"trip_id", trip.stored.id},
                    {"revision", trip.stored.revision},
                    {"way", way},
                    {"verdict", tasks::verdict_json(*plan)},
                    {"files", files_json(list(wanted.folder), "/api/papers/" + job + "/")},
                    {"frames", frames_json(*frames)}};
  if (auto done = s.papers.keep(job, answer); !done) return std::unexpected(done.error());
  return Outcome{std::make_shared<const std::string>(job), "/api/papers/" + job, ""};
}

Answer start_paper(Service& s, const Request& request, const std::string& id) {
  auto ask = asked_way(s, request, id);
  if (!ask) return ask.error();
  const bool large = ask->body.value("large_type", Json(false)) == true;
  const ReadyTrip& ready = ask->trip;
  const JobAbout about{"paper", id, ready.ground->id, ready.stored.revision,
                       "paper " + ask->way + (large ? " large " : " ") + ready.stored.state.dump() +
                           ready.ground->stamp};
  auto work = [&s, trip = std::move(ask->trip), way = ask->way, large](tasks::Progress& progress,
                                                                       const std::string& job) {
    return print(s, trip, way, large, progress, job);
  };
  return started(s, s.jobs.start(about, std::move(work)));
}

Answer sheets(Service& s, const Request& request, const std::string& id) {
  const auto ask = asked_way(s, request, id);
  if (!ask) return ask.error();
  const auto ways = s.jobs.answer_to<FoundWays>("ways " + ask->trip.question);
  if (!ways)
    return Answer::problem(
        409, {"not_ready", "the ways have not been found yet", "", "Find the ways first."});
  const auto plan = plan_of(*ways, ask->way, ask->trip);
  if (!plan) return Answer::fault(plan.error());
  const auto frames = frames_of(*plan, ask->trip);
  if (!frames) return Answer::fault(frames.error());
  auto uncovered = Json::array();
  for (std::size_t i = 0; i < plan->way.legs.size(); ++i) {
    const auto& line = plan->way.legs[i].course.line;
    const bool whole = std::ranges::any_of(*frames, [&](const auto& f) {
      return std::ranges::all_of(line, [&](earth::GridPoint p) { return f.near(p); });
    });
    if (!whole) uncovered.push_back(i + 1);
  }
  return Answer::json({{"frames", frames_json(*frames)}, {"uncovered_legs", uncovered}});
}

/// Only what was listed: the name is compared, never joined to a path unseen.
Answer file(Service& s, const std::string& job, const std::string& name) {
  const auto paper = s.papers.answer(job);
  if (!paper) return Answer::not_found("paper");
  const auto read = [&](const std::string& type, bool takes_away) {
    const auto text = s.papers.file(job, name);
    if (!text) return Answer::not_found("paper");
    auto out = Answer::bytes(text, type);
    if (takes_away)
      out.headers.emplace_back("Content-Disposition", "attachment; filename=\"" + name + "\"");
    return out;
  };
  const auto base = "/api/papers/" + job + "/";
  for (const auto& f : (*paper)["files"]) {
    if (f["file"] == name) {
      const auto* sort = std::ranges::find_if(
          sorts, [&](const Sort& k) { return name.starts_with(k.begin) && name.ends_with(k.end); });
      return read(sort == std::end(sorts) ? "application/octet-stream" : sort->type, true);
    }
    for (const auto& p : f["pages"]) {
      if (p["preview_url"] == base + name) return read("image/png", false);
    }
  }
  return Answer::not_found("paper");
}

}  // namespace

void add_paper_routes(Router& r, Service& s) {
  r.add("POST", "/api/trips/{id}/sheets",
        [&s](const Request& q, const Pieces& p) { return sheets(s, q, p[0]); });
  r.add("POST", "/api/trips/{id}/paper",
        [&s](const Request& q, const Pieces& p) { return start_paper(s, q, p[0]); });
  r.add("GET", "/api/papers/{job}", [&s](auto&, const Pieces& p) {
    const auto paper = s.papers.answer(p[0]);
    return paper ? Answer::json(*paper) : Answer::not_found("paper");
  });
  r.add("GET", "/api/papers/{job}/{file}",
        [&s](auto&, const Pieces& p) { return file(s, p[0], p[1]); });
}

}  // namespace lodeway::server
