#include "apps/server/store/shelf.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/text/fold_text.hpp"
#include "lodeway/units/refusal_in.hpp"

namespace lodeway::server {

namespace {

std::vector<std::string> in_german(const std::vector<std::string>& lines) {
  std::vector<std::string> out;
  for (const auto& line : lines) out.push_back(units::refusal_in(units::Language::german, line));
  return out;
}

constexpr std::size_t most_open = 2;

Json finite(double value) { return std::isfinite(value) ? Json(value) : Json(); }

/// Everything of GroundSummary but the tiles, whose address has the id in it.
Json summary_json(const tasks::GroundSummary& s, const walking::Ground& ground) {
  auto kinds = Json::array();
  for (const auto& k : s.kinds) {
    kinds.push_back({{"kind", mapdata::kind_name(k.kind)},
                     {"words", mapdata::kind_words(k.kind)},
                     {"count", k.count},
                     {"length_km", k.length_km}});
  }
  auto sources = Json::array();
  for (const auto& x : s.sources) {
    sources.push_back({{"name", x.title.empty() ? x.file : x.title + " (" + x.file + ")"},
                       {"licence", x.licence},
                       {"attribution", x.attribution},
                       {"date", x.date}});
  }
  const auto& f = s.frame;
  const auto centre =
      ground.grid.to_geographic({(f.west_m + f.east_m()) / 2, (f.south_m() + f.north_m) / 2});
  const auto pyramid = tasks::tile_pyramid(f);
  return {{"crs", s.crs},
          {"epsg", s.epsg},
          {"wkt", ground.grid.wkt()},
          {"extent_grid_m", {f.west_m, f.south_m(), f.east_m(), f.north_m}},
          {"centre_latitude_deg", centre ? centre->lat_deg : 0.0},
          {"centre_longitude_deg", centre ? centre->lon_deg : 0.0},
          {"cell_m", f.cell_m},
          {"rows", f.rows},
          {"cols", f.cols},
          {"void_share", s.void_share},
          {"height_min_m", finite(s.min_m)},
          {"height_max_m", finite(s.max_m)},
          {"kinds", kinds},
          {"sources", sources},
          {"missing", s.missing},
          {"remarks", s.remarks},
          {"missing_in_german", in_german(s.missing)},
          {"remarks_in_german", in_german(s.remarks)},
          {"tiles",
           {{"url", ""},
            {"origin_grid_m", {pyramid.origin.east_m, pyramid.origin.north_m}},
            {"extent_grid_m", {f.west_m, f.south_m(), f.east_m(), f.north_m}},
            {"size_px", tasks::TilePyramid::tile_px},
            {"resolutions_m_per_px", pyramid.metres_per_px}}}};
}

}  // namespace

const route::WayFinder& OpenGround::finder() const {
  std::call_once(once_, [this] { finder_ = std::make_unique<const route::WayFinder>(ground); });
  return *finder_;
}

const landmarks::NameIndex& OpenGround::names() const {
  std::call_once(names_once_, [this] {
    names_ = landmarks::NameIndex(ground.elevation, ground.map, io::fold_text);
  });
  return names_;
}

std::string stamp_of(const std::string& path) {
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  if (error) return {};
  const auto time = std::filesystem::last_write_time(path, error);
  return std::to_string(size) + "-" + std::to_string(time.time_since_epoch().count());
}

std::optional<StoredGround> Shelf::find(const std::string& id) {
  for (auto& one : store_.grounds()) {
    if (one.id == id) return one;
  }
  return std::nullopt;
}

std::optional<StoredGround> Shelf::find_file(const std::string& path) {
  for (auto& one : store_.grounds()) {
    if (one.file == path) return one;
  }
  return std::nullopt;
}

Result<StoredGround> Shelf::add(const std::string& given, bool ours,
                                const std::vector<std::string>* built) {
  std::error_code error;
  const auto path = std::filesystem::weakly_canonical(given, error).string();
  if (error || !std::filesystem::is_regular_file(path, error))
    return fail(FaultCode::io_failed, given + ": expected a file that can be read");
  const auto stamp = stamp_of(path);
  auto known = find_file(path);
  if (known && known->stamp == stamp && !known->summary.empty()) return *known;
  if (built == nullptr) {
    if (auto harmless = vet_ground(path); !harmless) return std::unexpected(harmless.error());
  }
  auto ground = io::open_ground(path);
  if (!ground) return std::unexpected(ground.error());
  auto summary = tasks::summarise(*ground);
  if (built != nullptr) summary.remarks = *built;
  StoredGround out{known ? known->id : new_id(), ground->name, path, stamp, "", ours};
  out.summary = summary_json(summary, *ground).dump(-1, ' ', false, Json::error_handler_t::replace);
  store_.keep_ground(out);
  return out;
}

void Shelf::touch(const std::string& id) {
  const std::lock_guard lock(mutex_);
  recent_.remove(id);
  recent_.push_front(id);
  while (recent_.size() > most_open) {
    slots_.erase(recent_.back());  // whoever works on it still holds it
    recent_.pop_back();
  }
}

Result<GroundHandle> Shelf::open(const std::string& id) {
  const auto stored = find(id);
  if (!stored) return fail(FaultCode::bad_input, "ground_id: expected a ground that is known");
  std::shared_ptr<Slot> slot;
  {
    const std::lock_guard lock(mutex_);
    auto& there = slots_[id];
    if (!there) there = std::make_shared<Slot>();
    slot = there;
  }
  touch(id);
  const std::lock_guard lock(slot->mutex);
  const auto stamp = stamp_of(stored->file);
  if (slot->ground && slot->ground->stamp == stamp) return slot->ground;
  if (stamp != stored->stamp) {  // another file than the one that was vetted
    if (auto harmless = vet_ground(stored->file); !harmless)
      return std::unexpected(harmless.error());
  }
  auto ground = io::open_ground(stored->file);
  if (!ground) return std::unexpected(ground.error());
  auto opened = std::make_shared<OpenGround>();
  opened->id = id;
  opened->stamp = stamp;
  opened->pyramid = tasks::tile_pyramid(ground->elevation.frame());
  opened->ground = *std::move(ground);
  slot->ground = opened;
  return slot->ground;
}

GroundHandle Shelf::as_known_by(const GroundHandle& ground,
                                const std::vector<mapdata::KindChange>& changes) {
  if (changes.empty()) return ground;
  auto stamp = ground->stamp;
  for (const auto& change : changes) {
    stamp += fmt::format(" {}", mapdata::kind_name(change.kind));
    for (const auto& figures : {change.seen_from_m, change.recognised})
      if (figures) stamp += fmt::format(" {}", fmt::join(*figures, " "));
  }
  const std::lock_guard lock(known_mutex_);
  const auto kept = std::ranges::find_if(known_, [&](const GroundHandle& one) {
    return one->id == ground->id && one->stamp == stamp;
  });
  if (kept != known_.end()) {
    known_.splice(known_.begin(), known_, kept);
    return known_.front();
  }
  auto out = std::make_shared<OpenGround>();
  out->id = ground->id;
  out->stamp = stamp;
  out->pyramid = ground->pyramid;
  out->ground = ground->ground;
  for (const auto& change : changes) out->ground.kinds.take(change);
  known_.push_front(out);
  while (known_.size() > most_open) known_.pop_back();
  return out;
}

bool Shelf::forget(const std::string& id) {
  const auto stored = find(id);
  if (!stored) return false;
  {
    const std::lock_guard lock(mutex_);
    slots_.erase(id);
    recent_.remove(id);
  }
  {
    const std::lock_guard lock(known_mutex_);
    known_.remove_if([&](const GroundHandle& one) { return one->id == id; });
  }
  store_.drop_ground(id);
  if (stored->ours) {
    std::error_code ignored;
    std::filesystem::remove(stored->file, ignored);
  }
  return true;
}

Json Shelf::as_json(const StoredGround& g) {
  Json out{
      {"id", g.id}, {"name", g.name}, {"file", g.file}, {"fault", nullptr}, {"summary", nullptr}};
  if (stamp_of(g.file).empty()) {
    out["fault"] =
        server::as_json(said({FaultCode::io_failed, g.file + ": the file is not there any more"}));
    return out;
  }
  out["summary"] = Json::parse(g.summary);
  // The stamp is in the address, so that a picture may be kept for ever and a new ground shows.
  std::string version;
  for (const char c : g.stamp) version += c == '-' ? '_' : c;
  out["summary"]["tiles"]["url"] = "/api/grounds/" + g.id + "/tiles/{z}/{x}/{y}.png?v=" + version;
  return out;
}

Json Shelf::all() {
  auto out = Json::array();
  for (const auto& g : store_.grounds()) out.push_back(as_json(g));
  return {{"grounds", out}};
}

}  // namespace lodeway::server
