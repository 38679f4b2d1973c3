// Grounds: take files, build, say what is there, show the map.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <filesystem>

#include "apps/server/routes/say.hpp"
#include "apps/server/store/child.hpp"
#include "apps/server/store/service.hpp"
#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/tasks/demo_ground.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::server {

namespace {

template <class T>
std::optional<T> number(std::string_view text) {
  T out{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return out;
}

Answer or_fault(const Result<Json>& value) {
  return value ? Answer::json(*value) : Answer::fault(value.error());
}

void tell_grounds(Service& s) { s.hub.tell("grounds", R"({"type":"grounds"})"); }

Result<std::string> file_of(Service& s, const Json& ref) {
  if (ref.is_object() && ref.contains("upload")) {
    const auto id = text_at(ref, "upload");
    if (!id) return std::unexpected(id.error());
    const auto upload = s.uploads.find(*id);
    if (!upload)
      return fail(FaultCode::bad_input, "upload: the file is not here any more; send it again");
    return upload->path;
  }
  if (!ref.is_object()) return fail(FaultCode::bad_input, "expected {upload} or {path}");
  return text_at(ref, "path");
}

Result<std::vector<std::string>> files_of(Service& s, const Json& body, const char* key) {
  std::vector<std::string> out;
  const auto found = body.find(key);
  if (found == body.end() || !found->is_array())
    return fail(FaultCode::bad_input, std::string(key) + ": expected a list of files");
  for (const auto& one : *found) {
    auto file = file_of(s, one);
    if (!file) return std::unexpected(file.error());
    out.push_back(*std::move(file));
  }
  return out;
}

Result<tasks::BuildRequest> build_request(Service& s, const Json& body) {
  tasks::BuildRequest out;
  const auto name = text_at(body, "name");
  auto elevation = files_of(s, body, "elevation"), features = files_of(s, body, "features");
  for (const auto* part : {&elevation, &features}) {
    if (!*part) return std::unexpected(part->error());
  }
  if (!name || name->empty())
    return fail(FaultCode::bad_input, "name: expected a name for the ground");
  if (elevation->empty())
    return fail(FaultCode::bad_input, "elevation: expected a file of heights at least");
  out.name = *name;
  out.elevation = *std::move(elevation);
  out.features = *std::move(features);
  if (body.contains("crs") && body["crs"].is_string()) out.crs = body["crs"];
  if (body.contains("cell_m") && body["cell_m"].is_number()) out.cell_m = body["cell_m"];
  for (const auto& [key, list] :
       {std::pair{"licence", &out.licences}, {"attribution", &out.attributions}}) {
    if (body.contains(key) && body[key].is_string() && !body[key].get<std::string>().empty())
      list->push_back(body[key]);
  }
  return out;
}

/// In a process of its own: what strangers made is never read in this one. Answers the remarks.
Result<std::vector<std::string>> build_confined(const tasks::BuildRequest& wanted,
                                                const std::string& folder,
                                                tasks::Progress& progress) {
  ChildRequest child;
  child.words = {"ground", "build", wanted.out, "--json", "--name=" + wanted.name};
  const auto add = [&](const std::string& option, const std::string& value) {
    if (!value.empty()) child.words.push_back(option + "=" + value);
  };
  for (const auto& file : wanted.elevation) add("--elevation", file);
  for (const auto& file : wanted.features) add("--features", file);
  for (const auto& text : wanted.licences) add("--licence", text);
  for (const auto& text : wanted.attributions) add("--attribution", text);
  add("--crs", wanted.crs);
  if (wanted.cell_m > 0) add("--cell", std::to_string(wanted.cell_m));
  child.folder = folder;
  child.memory_gib = 16;
  child.processor_s = 3600;
  child.file = wanted.elevation.front();
  const auto said = run_confined(child, &progress);
  if (!said) return std::unexpected(said.error());
  const auto summary = Json::parse(*said, nullptr, false);
  std::vector<std::string> out;
  if (!summary.is_object() || !summary.contains("remarks")) return out;
  for (const auto& remark : summary["remarks"]) {
    if (remark.is_string()) out.push_back(remark);
  }
  return out;
}

Answer build(Service& s, const Request& request) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  auto wanted = build_request(s, *body);
  if (!wanted) return Answer::fault(wanted.error());
  wanted->out = s.folder + "/grounds/" + new_id() + ".gpkg";
  auto work = [&s, wanted = *wanted](tasks::Progress& progress,
                                     const std::string&) -> Result<Outcome> {
    const auto built = build_confined(wanted, s.folder + "/grounds", progress);
    if (!built) return std::unexpected(built.error());
    const auto ground = s.shelf.add(wanted.out, true, &*built);
    if (!ground) return std::unexpected(ground.error());
    tell_grounds(s);
    return Outcome{std::any{}, "/api/grounds/" + ground->id, ground->id};
  };
  return started(s, s.jobs.start({"ground", "", "", 0, ""}, std::move(work)));
}

Answer demo(Service& s) {
  auto work = [&s](tasks::Progress& progress, const std::string&) -> Result<Outcome> {
    const auto path = s.folder + "/grounds/skarrow.gpkg";
    if (stamp_of(path).empty()) {
      if (auto made = tasks::make_demo_ground(path, 1, &progress); !made)
        return std::unexpected(made.error());
    }
    if (!progress.go_on(0.9, "reading the ground")) return fail(FaultCode::cancelled, "stopped");
    const auto ground = s.shelf.add(path, true);
    if (!ground) return std::unexpected(ground.error());
    tell_grounds(s);
    return Outcome{std::any{}, "/api/grounds/" + ground->id, ground->id};
  };
  return started(s, s.jobs.start({"ground", "", "", 0, "demo"}, std::move(work)));
}

Answer open(Service& s, const Request& request) {
  const auto body = body_json(request);
  if (!body) return Answer::fault(body.error());
  const auto path = text_at(*body, "path");
  if (!path) return Answer::fault(path.error());
  if (!path->starts_with('/'))
    return Answer::fault({FaultCode::bad_input, "path: expected a whole path, beginning with /"});
  const auto ground = s.shelf.add(*path, false);
  if (!ground) return Answer::fault(ground.error());
  tell_grounds(s);
  return Answer::json(s.shelf.as_json(*ground));
}

Result<Json> place(Service& s, const Request& request, const std::string& id) {
  const auto ground = s.shelf.open(id);
  if (!ground) return std::unexpected(ground.error());
  const auto typed = request.asked("at");
  if (!typed.empty()) {
    const auto at = earth::place_on_ground(typed, walking::area_of((*ground)->ground));
    if (!at) return fail_in("at", at.error());
    return place_json((*ground)->ground, *at);
  }
  const auto east = number<double>(request.asked("east_m")),
             north = number<double>(request.asked("north_m"));
  if (!east || !north || !std::isfinite(*east) || !std::isfinite(*north))
    return fail(FaultCode::bad_input, "at: expected a place, or east_m and north_m");
  return place_json((*ground)->ground, {*east, *north});
}

Answer tile(Service& s, const Request& request, const Pieces& p) {
  constexpr std::string_view ending = ".png";
  if (!p[3].ends_with(ending)) return Answer::not_found("tile");
  const auto z = number<int>(p[1]), x = number<int>(p[2]),
             y = number<int>(std::string_view(p[3]).substr(0, p[3].size() - ending.size()));
  if (!z || !x || !y) return Answer::not_found("tile");
  const auto ground = s.shelf.open(p[0]);
  if (!ground) return Answer::fault(ground.error());
  const auto steep = number<int>(request.asked("keep_off"));
  const tasks::TileStyle style{request.asked("dots") == "2" ? 2 : 1, request.asked("slope") == "1",
                               request.asked("theme") == "dark", request.asked("names") != "0",
                               steep ? std::clamp(*steep, 1, 90) : 90};
  const auto png = s.tiles.tile(**ground, *z, *x, *y, style);
  if (!png) return Answer::not_found("tile");
  auto out = Answer::bytes(*png, "image/png");
  out.headers.emplace_back("Cache-Control", "private, max-age=86400");
  return out;
}

Answer take_upload(Service& s, const Request& request) {
  const auto taken = s.uploads.take(request, std::string(request.asked("name")));
  if (!taken) return Answer::fault(taken.error());
  return Answer::json({{"id", taken->id},
                       {"name", taken->name},
                       {"size_bytes", taken->size},
                       {"role", taken->role}});
}

}  // namespace

void add_ground_routes(Router& r, Service& s) {
  r.add("GET", "/api/grounds", [&s](auto&, auto&) { return Answer::json(s.shelf.all()); });
  r.add("POST", "/api/grounds/open", [&s](const Request& q, auto&) { return open(s, q); });
  r.add("POST", "/api/grounds/build", [&s](const Request& q, auto&) { return build(s, q); });
  r.add("POST", "/api/grounds/demo", [&s](auto&, auto&) { return demo(s); });
  r.add("GET", "/api/grounds/{id}", [&s](auto&, const Pieces& p) {
    const auto found = s.shelf.find(p[0]);
    return found ? Answer::json(s.shelf.as_json(*found)) : Answer::not_found("ground");
  });
  r.add("DELETE", "/api/grounds/{id}", [&s](auto&, const Pieces& p) {
    if (!s.shelf.forget(p[0])) return Answer::not_found("ground");
    tell_grounds(s);
    return Answer::json(s.shelf.all());
  });
  r.add("GET", "/api/grounds/{id}/place", [&s](const Request& q, const Pieces& p) {
    return s.shelf.find(p[0]) ? or_fault(place(s, q, p[0])) : Answer::not_found("ground");
  });
  r.add("GET", "/api/grounds/{id}/tiles/{z}/{x}/{y}", [&s](const Request& q, const Pieces& p) {
    return s.shelf.find(p[0]) ? tile(s, q, p) : Answer::not_found("ground");
  });
  r.add("POST", "/api/uploads", [&s](const Request& q, auto&) { return take_upload(s, q); });
  r.add("DELETE", "/api/uploads/{id}", [&s](auto&, const Pieces& p) {
    return s.uploads.drop(p[0]) ? Answer::json({{"done", true}}) : Answer::not_found("upload");
  });
}

}  // namespace lodeway::server
