#include "apps/server/store/uploads.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <filesystem>
#include <fstream>

#include "apps/server/http/http.hpp"
#include "apps/server/store/store.hpp"
#include "lodeway/io/files/write_beside.hpp"

namespace lodeway::server {

namespace {

namespace fs = std::filesystem;
constexpr std::uint64_t disk_reserve = 512ULL << 20U;
constexpr auto kept = std::chrono::hours(24);

struct Ending {
  std::string_view ending, role;
};
constexpr std::array endings{
    Ending{".tif", "elevation"}, Ending{".tiff", "elevation"},   Ending{".hgt", "elevation"},
    Ending{".asc", "elevation"}, Ending{".dem", "elevation"},    Ending{".bt", "elevation"},
    Ending{".dt0", "elevation"}, Ending{".dt1", "elevation"},    Ending{".dt2", "elevation"},
    Ending{".img", "elevation"}, Ending{".vrt", "unknown"},      Ending{".pbf", "features"},
    Ending{".osm", "features"},  Ending{".geojson", "features"}, Ending{".json", "features"},
    Ending{".shp", "features"},  Ending{".gpkg", "ground"},      Ending{".dbf", "part"},
    Ending{".shx", "part"},      Ending{".prj", "part"},         Ending{".cpg", "part"},
    Ending{".tfw", "part"},      Ending{".hdr", "part"},      Ending{".gpx", "marks"},
    Ending{".toml", "trip"},     Ending{".zip", "whole"},
};

std::string plain_name(const std::string& given) {
  std::string out;
  for (const char c : given.substr(given.find_last_of("/\\") + 1)) {
    const auto u = static_cast<unsigned char>(c);
    const bool keeps = (u >= '0' && u <= '9') || (u >= 'a' && u <= 'z') || (u >= 'A' && u <= 'Z') ||
                       c == '-' || c == '_' || c == '.' || c == ' ';
    out += keeps ? c : '_';
  }
  constexpr std::size_t longest = 120;
  if (out.size() > longest) out.erase(0, out.size() - longest);
  while (out.starts_with('.')) out.erase(0, 1);
  return out;
}

std::string stem_of(const std::string& name) { return name.substr(0, name.find_last_of('.')); }

std::uint64_t bytes_in(const std::string& folder) {
  std::uint64_t out = 0;
  std::error_code error;
  for (const auto& entry : fs::recursive_directory_iterator(folder, error)) {
    if (entry.is_regular_file(error)) out += entry.file_size(error);
  }
  return out;
}

}  // namespace

std::string role_of(const std::string& name) {
  std::string low = name;
  std::ranges::transform(low, low.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const auto& [ending, role] : endings) {
    if (low.ends_with(ending)) return std::string(role);
  }
  return "unknown";
}

Uploads::Uploads(std::string folder) : folder_(std::move(folder)) {
  std::error_code error;
  const auto now = fs::file_time_type::clock::now();
  for (const auto& entry : fs::directory_iterator(folder_, error)) {
    io::clear_left_behind(entry.path().string());
    if (now - entry.last_write_time(error) > kept) fs::remove_all(entry.path(), error);
    fs::remove(entry.path(), error);  // when nothing is left in it
  }
}

// An upload's id is its folder's name; parts of one Shapefile share a folder, and theirs have the
// ending behind it: "1f2a…", "1f2a…-shp", "1f2a…-dbf".
std::string Uploads::folder_for(const std::string& name) const {
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder_, error)) {
    for (const auto& file : fs::directory_iterator(entry.path(), error)) {
      const auto other = file.path().filename().string();
      const bool joins = stem_of(other) == stem_of(name) && other != name &&
                         (role_of(other) == "part" || role_of(name) == "part");
      if (joins) return entry.path().filename().string();
    }
  }
  const auto id = new_id();
  fs::create_directory(folder_ + "/" + id, error);
  return id;
}

Result<Upload> Uploads::take(const Request& request, const std::string& given) {
  Upload out;
  out.name = plain_name(given);
  out.role = role_of(out.name);
  if (out.name.empty()) return fail(FaultCode::bad_input, "name: expected the file's name");
  if (out.role == "unknown") {
    return fail(FaultCode::bad_input,
                out.name +
                    ": expected heights (.tif, .hgt, .asc, .dt2 …), map features (.osm.pbf, "
                    ".geojson, .shp, .gpkg), a ground file (.gpkg), a trip (.toml, .zip) or a route or "
                    "track (.gpx)");
  }
  std::error_code error;
  const auto space = fs::space(folder_, error);
  if (request.content_length > most_upload_bytes ||
      bytes_in(folder_) + request.content_length > most_uploads_bytes ||
      space.available < request.content_length + disk_reserve) {
    return fail(FaultCode::too_large,
                out.name + ": too large to be sent; give its path on this machine instead");
  }
  {
    const std::lock_guard lock(mutex_);
    const auto folder = folder_for(out.name);
    const auto ending = out.name.substr(out.name.find_last_of('.') + 1);
    out.id = out.role == "part" || ending == "shp" ? folder + "-" + ending : folder;
    out.path = folder_ + "/" + folder + "/" + out.name;
  }
  io::Beside beside(out.path);
  std::ofstream file(beside.temporary(), std::ios::binary);
  const bool whole =
      request.read_body && request.read_body([&](const char* data, std::size_t size) {
        out.size += size;
        return out.size <= most_upload_bytes &&
               static_cast<bool>(file.write(data, static_cast<std::streamsize>(size)));
      });
  file.close();
  if (!whole || !file || out.size != request.content_length || !beside.keep()) {
    fs::remove(beside.temporary(), error);
    fs::remove(fs::path(out.path).parent_path(), error);  // when it is empty
    return fail(FaultCode::io_failed, out.name + ": the file did not arrive whole");
  }
  return out;
}

std::optional<Upload> Uploads::find(const std::string& id) const {
  const auto cut = id.find('-');
  const auto folder = folder_ + "/" + id.substr(0, cut);
  const auto ending = cut == std::string::npos ? std::string() : id.substr(cut);
  std::error_code error;
  if (id.find('/') != std::string::npos || id.starts_with('.') || id.empty()) return std::nullopt;
  for (const auto& file : fs::directory_iterator(folder, error)) {
    const auto name = file.path().filename().string();
    if (name.starts_with('.')) continue;  // still on its way
    if (!ending.empty() && !name.ends_with("." + ending.substr(1))) continue;
    return Upload{id, name, file.path().string(), role_of(name), file.file_size(error)};
  }
  return std::nullopt;
}

bool Uploads::drop(const std::string& id) {
  const auto found = find(id);
  if (!found) return false;
  std::error_code error;
  const auto folder = fs::path(found->path).parent_path();
  fs::remove(found->path, error);
  fs::remove(folder, error);  // when it is empty
  return true;
}

}  // namespace lodeway::server
