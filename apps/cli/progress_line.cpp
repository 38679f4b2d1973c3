#include "apps/cli/progress_line.hpp"

#include <unistd.h>

#include <csignal>
#include <cstdio>

namespace lodeway::cli {

namespace {
constexpr int stops[] = {SIGINT, SIGTERM, SIGHUP};
volatile std::sig_atomic_t interrupted = 0;
void interrupt(int) { interrupted = 1; }
}  // namespace

ProgressLine::ProgressLine()
    : begun_(std::chrono::steady_clock::now()), terminal_(isatty(STDERR_FILENO) == 1) {
  for (const int stop : stops) std::signal(stop, interrupt);
}

ProgressLine::~ProgressLine() {
  clear();
  for (const int stop : stops) std::signal(stop, SIG_DFL);
}

bool ProgressLine::go_on(double share, const std::string& doing) {
  using namespace std::chrono_literals;
  if (terminal_ && std::chrono::steady_clock::now() - begun_ > 700ms) {
    if (share >= 0) {
      std::fprintf(stderr, "\r\033[K%3.0f %%  %s", 100 * share, doing.c_str());
    } else {
      std::fprintf(stderr, "\r\033[K%s", doing.c_str());
    }
    std::fflush(stderr);
    shown_ = true;
  }
  return interrupted == 0;
}

void ProgressLine::clear() {
  if (shown_) std::fputs("\r\033[K", stderr);
  shown_ = false;
}

}  // namespace lodeway::cli
