// Brought in and taken away: trips from files, routes and tracks, a trip with its ground as one
// file.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <fmt/format.h>

#include "apps/server/routes/say.hpp"
#include "apps/server/store/trips.hpp"
#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/gpx/gpx.hpp"
#include "lodeway/io/trip/trip_document.hpp"
#include "lodeway/io/zip/zip.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::server {

namespace {

namespace fs = std::filesystem;
constexpr const char* trip_name = "trip.toml";
constexpr const char* ground_name = "ground.gpkg";
constexpr std::uint64_t most_trip_bytes = 1ULL << 20U, most_ground_bytes = 4ULL << 30U;
constexpr std::size_t most_places = 25;

Result<std::string> text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) return fail(FaultCode::io_failed, path + ": could not be read");
  return std::move(text).str();
}

Json nothing_of(const std::string& kind, const std::string& name) {
  return {{"kind", kind},
          {"name", name},
          {"document", nullptr},
          {"ground_id", nullptr},
          {"chosen_way", nullptr},
          {"points", Json::array()},
          {"line_grid_m", Json::array()},
          {"length_m", nullptr},
          {"outside", 0}};
}

Result<Json> trip_of(const std::string& path, const std::string& kind, const std::string& name) {
  const auto text = text_of(path);
  if (!text) return std::unexpected(text.error());
  const auto document = io::document_of_trip_file(*text);
  if (!document) return fail_in(name, document.error());
  auto out = nothing_of(kind, name);
  auto read = Json::parse(*document);
  if (read.contains("pick")) {
    out["chosen_way"] = read["pick"];
    read.erase("pick");
  }
  out["name"] = read.value("name", name);
  out["document"] = std::move(read);
  return out;
}

/// A whole trip: its ground goes on the shelf first, vetted as any file from outside.
Result<Json> whole_of(Service& s, const Upload& upload) {
  const auto names = io::names_in_zip(upload.path);
  if (!names) return fail(FaultCode::bad_input, upload.name + ": expected a whole trip (ZIP)");
  for (const auto* wanted : {trip_name, ground_name}) {
    if (std::ranges::find(*names, wanted) == names->end())
      return fail(FaultCode::bad_input, upload.name + ": expected " + wanted + " in it");
  }
  const auto folder = fs::path(upload.path).parent_path().string();
  const auto toml = folder + "/" + trip_name;
  if (auto done = io::take_from_zip(upload.path, trip_name, toml, most_trip_bytes); !done)
    return std::unexpected(done.error());
  auto out = trip_of(toml, "whole", upload.name);
  if (!out) return out;
  const auto file = s.folder + "/grounds/" + new_id() + ".gpkg";
  if (auto done = io::take_from_zip(upload.path, ground_name, file, most_ground_bytes); !done)
    return std::unexpected(done.error());
  const auto ground = s.shelf.add(file, true);
  if (!ground) {
    std::error_code ignored;
    fs::remove(file, ignored);
    return std::unexpected(ground.error());
  }
  s.hub.tell("grounds", R"({"type":"grounds"})");
  (*out)["ground_id"] = ground->id;
  return out;
}

/// The places that say the same way: the line's own corners, fewer until the trip can take them.
std::vector<earth::GridPoint> telling(const std::vector<earth::GridPoint>& line) {
  auto out = line;
  for (double most_m = 10; out.size() > most_places; most_m *= 1.5)
    out = mapdata::simplify(line, most_m);
  return out;
}

Result<Json> marks_of(Service& s, const Upload& upload, const Json& ground_id) {
  if (!ground_id.is_string())
    return fail(FaultCode::bad_input,
                upload.name + ": a route or track needs a ground to lie on; choose one first");
  const auto ground = s.shelf.open(ground_id.get<std::string>());
  if (!ground) return std::unexpected(ground.error());
  const auto marks = io::read_gpx(upload.path);
  if (!marks)
    return fail(marks.error().code,
                upload.name + ": expected a GPX file with a route, a track or marked places");
  const auto of = io::sort_of_gpx(upload.path);
  if (!of) return std::unexpected(of.error());
  const auto& held = (*ground)->ground;
  std::vector<earth::GridPoint> line;
  std::vector<std::string> names;
  int outside = 0;
  for (const auto& mark : *marks) {
    const auto at = held.grid.to_grid(mark.at);
    if (!at || !held.elevation.frame().contains(*at)) {
      ++outside;
      continue;
    }
    if (!line.empty() && earth::grid_distance_m(line.back(), *at) < 1) continue;
    line.push_back(*at);
    names.push_back(mark.name);
  }
  auto out = nothing_of(*of == io::MarksOf::route   ? "route"
                        : *of == io::MarksOf::track ? "track"
                                                    : "waypoints",
                        upload.name);
  out["outside"] = outside;
  if (line.size() < 2) return out;
  out["length_m"] = mapdata::length_m(line);
  out["line_grid_m"] = line_json(line.size() > 2000 ? mapdata::simplify(line, 2) : line);
  auto points = Json::array();
  for (const auto& p : telling(line)) {
    const auto i = static_cast<std::size_t>(std::ranges::find(line, p) - line.begin());
    Json point{{"at", fmt::format("{:.0f} {:.0f}", p.east_m, p.north_m)}};
    if (i < names.size() && !names[i].empty()) point["name"] = names[i];
    points.push_back(std::move(point));
  }
  out["points"] = std::move(points);
  return out;
}

Answer bring(Service& s, const Request& request) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  const auto id = text_at(*body, "upload");
  if (!id) return Answer::fault(id.error());
  const auto upload = s.uploads.find(*id);
  if (!upload)
    return Answer::fault(
        {FaultCode::bad_input, "upload: the file is not here any more; send it again"});
  const auto out = upload->role == "trip"    ? trip_of(upload->path, "trip", upload->name)
                   : upload->role == "whole" ? whole_of(s, *upload)
                   : upload->role == "marks"
                       ? marks_of(s, *upload, body->value("ground_id", Json()))
                       : Result<Json>(fail(FaultCode::bad_input,
                                           upload->name + ": expected a trip, a route or a track"));
  return out ? Answer::json(*out) : Answer::fault(out.error());
}

/// Trip and ground in one file. The trip names its ground as it lies beside it.
Answer whole(Service& s, const std::string& id) {
  const auto stored = s.store->trip(id);
  if (!stored) return Answer::not_found("trip");
  const auto& ground_id = stored->state["ground_id"];
  const auto ground =
      ground_id.is_string() ? s.shelf.find(ground_id.get<std::string>()) : std::nullopt;
  if (!ground)
    return Answer::fault({FaultCode::bad_input, "ground_id: expected a ground to take along"});
  auto document = stored->state["document"];
  const auto& way = stored->state["chosen_way"];
  if (way.is_string() && way != "given") document["pick"] = way;
  const auto text = io::trip_file_of_document(document.dump(), ground_name);
  if (!text) return Answer::fault(text.error());
  const auto folder = s.folder + "/papers/whole-" + new_id();
  std::error_code ignored;
  fs::create_directories(folder, ignored);
  struct Gone {
    std::string folder;
    ~Gone() {
      std::error_code none;
      fs::remove_all(folder, none);
    }
  } const gone{folder};
  const auto toml = folder + "/" + trip_name, zip = folder + "/whole.zip";
  if (auto done = io::write_beside(toml, *text); !done) return Answer::fault(done.error());
  if (auto done = io::write_zip({{trip_name, toml}, {ground_name, ground->file}}, zip); !done)
    return Answer::fault(done.error());
  auto bytes = text_of(zip);
  if (!bytes) return Answer::fault(bytes.error());
  auto out =
      Answer::bytes(std::make_shared<const std::string>(*std::move(bytes)), "application/zip");
  out.headers.emplace_back("Content-Disposition", "attachment; filename=\"trip-and-ground.zip\"");
  return out;
}

}  // namespace

void add_bring_routes(Router& r, Service& s) {
  r.add("POST", "/api/bring", [&s](const Request& q, auto&) { return bring(s, q); });
  r.add("GET", "/api/trips/{id}/whole.zip",
        [&s](auto&, const Pieces& p) { return whole(s, p[0]); });
}

}  // namespace lodeway::server
