#pragma once
/// A folder of its own for one test, gone again afterwards.
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace lodeway::support {

class Scratch {
 public:
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "lodeway-XXXXXX").string();
    folder_ = mkdtemp(name.data());
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  [[nodiscard]] std::string operator/(const std::string& name) const {
    return folder_ + "/" + name;
  }
  [[nodiscard]] const std::string& folder() const { return folder_; }
  /// How many entries the folder has: nothing may be left half-written.
  [[nodiscard]] long count() const {
    return std::distance(std::filesystem::directory_iterator(folder_), {});
  }
  std::string write(const std::string& name, const std::string& bytes) const {
    std::ofstream(*this / name, std::ios::binary) << bytes;
    return *this / name;
  }

 private:
  std::string folder_;
};

inline std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace lodeway::support
