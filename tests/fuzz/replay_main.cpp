// Without a fuzzer's engine: goes once through the files of the folders that are named, as the suite
// does on every machine.
#include <algorithm>
#include <cstdio>
#include <iterator>
#include <vector>

#include "fuzz/fuzz.hpp"

int main(int argc, char** argv) {
  namespace fs = std::filesystem;
  std::vector<fs::path> files;
  for (int i = 1; i < argc; ++i) {
    for (const auto& entry : fs::recursive_directory_iterator(argv[i]))
      if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::ranges::sort(files);
  if (files.empty()) return std::fputs("expected folders with inputs\n", stderr), 2;
  for (const auto& file : files) {
    std::printf("%s\n", file.c_str());
    std::fflush(stdout);  // so that the last one named is the one that did it
    std::ifstream in(file, std::ios::binary);
    const std::string bytes(std::istreambuf_iterator<char>(in), {});
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  }
  std::printf("%zu inputs\n", files.size());
  return 0;
}
