#include "apps/server/store/kept.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <vector>

#include "lodeway/io/files/write_beside.hpp"

namespace lodeway::server {

namespace {

namespace fs = std::filesystem;
constexpr const char* answer_name = "answer.json";

std::shared_ptr<const std::string> read(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return in ? std::make_shared<const std::string>(std::move(text).str()) : nullptr;
}

}  // namespace

Kept::Kept(std::string folder, std::size_t most) : folder_(std::move(folder)), most_(most) {
  std::error_code error;
  fs::create_directories(folder_, error);
  std::vector<fs::path> unfinished;
  for (const auto& entry : fs::directory_iterator(folder_, error)) {
    if (!fs::exists(entry.path() / answer_name, error)) unfinished.push_back(entry.path());
  }
  for (const auto& path : unfinished) fs::remove_all(path, error);
}

Result<void> Kept::keep(const std::string& id, const Json& answer) {
  const auto text = answer.dump(-1, ' ', false, Json::error_handler_t::replace);
  std::error_code error;
  fs::create_directories(folder_of(id), error);
  if (auto done = io::write_beside(folder_of(id) + "/" + answer_name, text); !done) return done;
  forget_old(id);
  return {};
}

void Kept::forget_old(const std::string& but) {
  const std::lock_guard lock(mutex_);
  std::error_code error;
  std::vector<std::pair<fs::file_time_type, fs::path>> all;
  for (const auto& entry : fs::directory_iterator(folder_, error)) {
    const auto at = fs::last_write_time(entry.path() / answer_name, error);
    if (!error && entry.path().filename() != but) all.emplace_back(at, entry.path());
  }
  std::ranges::sort(all, std::greater{});
  for (std::size_t i = most_ - 1; i < all.size(); ++i) fs::remove_all(all[i].second, error);
}

std::optional<Json> Kept::answer(const std::string& id) const {
  const auto text = file(id, answer_name);
  if (!text) return std::nullopt;
  auto value = Json::parse(*text, nullptr, false);
  return value.is_object() ? std::optional(std::move(value)) : std::nullopt;
}

std::shared_ptr<const std::string> Kept::file(const std::string& id,
                                              const std::string& name) const {
  for (const auto* part : {&id, &name}) {
    if (part->empty() || part->starts_with('.') || part->find('/') != std::string::npos)
      return nullptr;
  }
  return read(folder_of(id) + "/" + name);
}

}  // namespace lodeway::server
