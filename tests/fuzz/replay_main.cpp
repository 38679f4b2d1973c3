// Without a fuzzer's engine, as the suite does on every machine:
//   fuzz_NAME SECONDS DICTIONARY FOLDER...
// goes once through the files of the folders, then through changes to them for so long. DICTIONARY is
// a file, or - where there is none. The input that ends the program, or takes longer than a minute, is
// kept in the folder it was called in, as fuzz_NAME.found.
#include <fcntl.h>
#include <signal.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <iterator>
#include <vector>

#include "fuzz/changed.hpp"
#include "fuzz/fuzz.hpp"

namespace {

namespace fs = std::filesystem;

std::string kept_in;               // the file's name
const std::string* input = nullptr;  // the one that is tried now

/// Only what a signal allows: the input is written, and the signal does what it does without us.
void keep(int signal) {
  if (input != nullptr) {
    const int file = open(kept_in.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    const bool whole = file >= 0 && write(file, input->data(), input->size()) ==
                                        static_cast<ssize_t>(input->size());
    const char* words = whole ? "the input that did it is kept as " : "an input did it, not kept: ";
    (void)!write(2, words, std::char_traits<char>::length(words));
    (void)!write(2, kept_in.data(), kept_in.size());
    (void)!write(2, "\n", 1);
  }
  ::signal(signal, SIG_DFL);
  raise(signal);
}

void tried(const std::string& bytes) {
  input = &bytes;
  alarm(60);
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  alarm(0);
  input = nullptr;
}

std::string bytes_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

int main(int argc, char** argv) {
  using Clock = std::chrono::steady_clock;
  if (argc < 4) return std::fputs("expected seconds, a dictionary and folders with inputs\n", stderr), 2;
  const std::chrono::duration<double> seconds(std::strtod(argv[1], nullptr));
  kept_in = fs::path(argv[0]).filename().string() + ".found";
  for (const int s : {SIGABRT, SIGSEGV, SIGFPE, SIGBUS, SIGILL, SIGALRM}) ::signal(s, keep);
  std::vector<fs::path> files;
  for (int i = 3; i < argc; ++i) {
    for (const auto& entry : fs::recursive_directory_iterator(argv[i]))
      if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::ranges::sort(files);
  if (files.empty()) return std::fputs("expected folders with inputs\n", stderr), 2;
  std::vector<std::string> seeds;
  for (const auto& file : files) {
    std::printf("%s\n", file.c_str());
    std::fflush(stdout);  // so that the last one named is the one that did it
    tried(seeds.emplace_back(bytes_of(file)));
  }
  const std::string words = argv[2];
  lodeway::fuzz::Changer changer(seeds, lodeway::fuzz::dictionary_words(words == "-" ? "" : bytes_of(words)));
  std::size_t changes = 0;
  // The same inputs everywhere, as far as the time goes, and no more than so many: the suite asks what
  // it asked before, and what is new is looked for with the engine.
  constexpr std::size_t most_changes = 200'000;
  for (const auto end = Clock::now() + seconds; Clock::now() < end && changes < most_changes; ++changes)
    tried(changer.next());
  std::printf("%zu inputs, %zu changes to them\n", files.size(), changes);
  return 0;
}
