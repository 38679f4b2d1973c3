#include "support/support.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>

#include <gtest/gtest.h>

namespace lodeway::support {

namespace {
std::ifstream open_published(const std::string& name) {
  std::ifstream in(std::string(LODEWAY_TESTS_DIR) + "/published/" + name);
  EXPECT_TRUE(in) << name;
  return in;
}
}  // namespace

std::string tests_folder() { return LODEWAY_TESTS_DIR; }

std::optional<std::string> shared_data() {
  if (const char* given = std::getenv("LODEWAY_SHARED_DATA")) return std::string(given);
  const auto beside = std::filesystem::path(LODEWAY_TESTS_DIR) / "../../shared/data";
  if (std::filesystem::is_directory(beside)) return std::filesystem::canonical(beside).string();
  return std::nullopt;
}

std::vector<std::vector<double>> read_table(const std::string& name) {
  auto in = open_published(name);
  std::vector<std::vector<double>> out;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    for (char& c : line) {
      if (c == ',') c = ' ';
    }
    std::istringstream words(line);
    std::vector<double> row;
    for (std::string word; words >> word;) {
      char* end = nullptr;
      const double value = std::strtod(word.c_str(), &end);
      row.push_back(*end == '\0' ? value : std::numeric_limits<double>::quiet_NaN());
    }
    if (!row.empty()) out.push_back(std::move(row));
  }
  return out;
}

std::vector<std::vector<std::string>> read_csv(const std::string& name) {
  auto in = open_published(name);
  std::vector<std::vector<std::string>> out;
  for (std::string line; std::getline(in, line);) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (line.empty() || line[0] == '#') continue;
    std::istringstream cells(line + ",");
    std::vector<std::string> row;
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(cell);
    out.push_back(std::move(row));
  }
  return out;
}

int of_study(int whole, int part) {
  const char* size = std::getenv("LODEWAY_STUDY");
  return size != nullptr && std::string_view(size) == "whole" ? whole : part;
}

Outcome run_lodeway(const std::vector<std::string>& words) {
  const TemporaryFolder folder;
  const auto out = folder / "out", err = folder / "err";
  const pid_t child = fork();
  if (child == 0) {
    std::vector<std::string> own = words;
    own.insert(own.begin(), LODEWAY_PROGRAM);
    std::vector<char*> argv;
    for (auto& word : own) argv.push_back(word.data());
    argv.push_back(nullptr);
    dup2(open("/dev/null", O_RDONLY | O_CLOEXEC), STDIN_FILENO);
    dup2(open(out.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600), STDOUT_FILENO);
    dup2(open(err.c_str(), O_WRONLY | O_CREAT | O_CLOEXEC, 0600), STDERR_FILENO);
    execv(argv[0], argv.data());
    _exit(127);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), read_text(out),
          read_text(err)};
}

Outcome skarrow_ground(const std::string& path) {
  const char* made = std::getenv("LODEWAY_SKARROW");
  if (made == nullptr) return run_lodeway({"ground", "demo", path});
  std::error_code fault;
  std::filesystem::copy_file(made, path, fault);
  return {fault ? 2 : 0, "", fault ? std::string(made) + ": " + fault.message() : ""};
}

TemporaryFolder::TemporaryFolder() {
  auto pattern = (std::filesystem::temp_directory_path() / "lodeway-test-XXXXXX").string();
  path_ = mkdtemp(pattern.data());
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

long TemporaryFolder::count() const {
  return std::distance(std::filesystem::directory_iterator(path_), {});
}

std::string TemporaryFolder::write(const std::string& name, const std::string& text) const {
  write_text(*this / name, text);
  return *this / name;
}

std::string read_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

void write_text(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

}  // namespace lodeway::support
