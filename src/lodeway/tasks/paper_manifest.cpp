#include "lodeway/tasks/paper_manifest.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string_view>
#include <utility>

#include <fmt/format.h>

namespace lodeway::tasks {

namespace {

namespace files = std::filesystem;

constexpr std::string_view heading =
    "Files of Lodeway's paper in this folder; it removes them when a newer set has fewer.";
constexpr std::uintmax_t most_bytes = 1U << 20U;

struct Entry {
  std::uint64_t checksum = 0;
  std::uintmax_t size = 0;
  std::string name;
};

/// FNV-1a, 64 bits (Fowler, Noll, Vo). Nothing when the file cannot be read, or is no plain file.
std::optional<Entry> entry_of(const files::path& path) {
  std::error_code error;
  if (files::symlink_status(path, error).type() != files::file_type::regular) return std::nullopt;
  std::ifstream in(path, std::ios::binary);
  Entry out{14695981039346656037ULL, 0, path.filename().string()};
  std::array<char, 65536> bytes{};
  while (in) {
    in.read(bytes.data(), bytes.size());
    const auto got = in.gcount();
    for (std::streamsize i = 0; i < got; ++i) {
      out.checksum ^= static_cast<unsigned char>(bytes[static_cast<std::size_t>(i)]);
      out.checksum *= 1099511628211ULL;
    }
    out.size += static_cast<std::uintmax_t>(got);
  }
  if (!in.eof()) return std::nullopt;
  return out;
}

/// A name in this folder and of it: what else stands in a manifest is not followed.
bool plain_name(std::string_view name) {
  return !name.empty() && name != "." && name != ".." && name != manifest_name &&
         name.find('/') == std::string_view::npos && name.find('\0') == std::string_view::npos;
}

std::optional<std::vector<Entry>> entries_of(const std::string& manifest) {
  std::istringstream in(manifest);
  std::string line;
  if (!std::getline(in, line) || line != heading) return std::nullopt;
  std::vector<Entry> out;
  while (std::getline(in, line)) {
    Entry e;
    const char* end = line.data() + line.size();
    const auto [at, bad] = std::from_chars(line.data(), end, e.checksum, 16);
    if (bad != std::errc{} || at == end || *at != ' ') return std::nullopt;
    const auto [behind, wrong] = std::from_chars(at + 1, end, e.size);
    if (wrong != std::errc{} || behind == end || *behind != ' ') return std::nullopt;
    e.name.assign(behind + 1, end);
    if (!plain_name(e.name)) return std::nullopt;
    out.push_back(std::move(e));
  }
  return out;
}

bool named_like_a_sheet(std::string_view name) {
  constexpr std::string_view front = "sheet-", back = ".pdf";
  return name.starts_with(front) && name.ends_with(back) &&
         name.size() > front.size() + back.size();
}

}  // namespace

Result<std::string> manifest_of(const std::string& folder, const std::vector<std::string>& names) {
  std::string out = std::string(heading) + "\n";
  for (const std::string& name : names) {
    const auto entry = entry_of(files::path(folder) / name);
    if (!entry)
      return fail(FaultCode::io_failed, (files::path(folder) / name).string() + ": unreadable");
    out += fmt::format("{:016x} {} {}\n", entry->checksum, entry->size, name);
  }
  return out;
}

std::vector<std::string> remove_stale(const std::string& folder, const std::string& old_manifest,
                                      const std::vector<std::string>& names) {
  std::vector<std::string> said;
  std::vector<std::string> told = names;
  const auto is_new = [&](const std::string& name) {
    return std::ranges::find(names, name) != names.end();
  };
  const auto old = old_manifest.empty() ? std::vector<Entry>{} : entries_of(old_manifest);
  if (!old) {
    said.push_back(
        fmt::format("{}: expected the list of an older set, found something else; no "
                    "older file was removed",
                    (files::path(folder) / manifest_name).string()));
  }
  for (const Entry& e : old.value_or(std::vector<Entry>{})) {
    if (is_new(e.name)) continue;
    const auto path = files::path(folder) / e.name;
    const auto now = entry_of(path);
    if (!now) continue;  // gone, or no longer a file
    told.push_back(e.name);
    std::error_code error;
    if (now->checksum != e.checksum || now->size != e.size) {
      said.push_back(path.string() +
                     ": of an older set, and changed since it was written; left there, do not "
                     "carry it");
    } else if (files::remove(path, error); !error) {
      said.push_back(path.string() + ": of an older set; removed");
    } else {
      said.push_back(path.string() + ": of an older set, and could not be removed (" +
                     error.message() + "); do not carry it");
    }
  }
  std::error_code error;
  std::vector<std::string> others;
  for (files::directory_iterator at(folder, error), end; !error && at != end; at.increment(error)) {
    const auto name = at->path().filename().string();
    if (named_like_a_sheet(name) && std::ranges::find(told, name) == told.end())
      others.push_back(at->path().string() + ": not of this set; do not carry it");
  }
  std::ranges::sort(others);
  said.insert(said.end(), others.begin(), others.end());
  return said;
}

std::string read_manifest(const std::string& folder) {
  const auto path = files::path(folder) / manifest_name;
  std::error_code error;
  if (files::symlink_status(path, error).type() != files::file_type::regular ||
      files::file_size(path, error) > most_bytes || error) {
    return "";
  }
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace lodeway::tasks
