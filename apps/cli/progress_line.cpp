#include "apps/cli/progress_line.hpp"

#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "apps/cli/fault_status.hpp"
#include "apps/cli/spoken_language.hpp"
#include "lodeway/io/files/unfinished.hpp"
#include "lodeway/trip/progress_words.hpp"

namespace lodeway::cli {

namespace {
constexpr int stops[] = {SIGINT, SIGTERM, SIGHUP};
volatile std::sig_atomic_t interrupted = 0;
/// Chosen before a signal can come: who handles one may not look anything up.
std::string_view stopped_line = "\nlodeway: stopped\n";

/// Work that has not come to its end by now is not waited for.
void end_now(int) {
  io::remove_unfinished();
  const std::string_view line = stopped_line;
  const std::size_t from = isatty(STDERR_FILENO) == 1 ? 0 : 1;
  const auto said = write(STDERR_FILENO, line.data() + from, line.size() - from);
  _exit(said < 0 ? 3 : 2);
}

void wait_for(long microseconds) {
  const itimerval patience{{0, 0}, {0, microseconds}};
  setitimer(ITIMER_REAL, &patience, nullptr);
}

void interrupt(int signal) {
  if (interrupted != 0) {  // asked twice
    io::remove_unfinished();
    std::signal(signal, SIG_DFL);
    sigset_t one;
    sigemptyset(&one);
    sigaddset(&one, signal);
    sigprocmask(SIG_UNBLOCK, &one, nullptr);
    raise(signal);
  }
  interrupted = 1;
  wait_for(400'000);
}
}  // namespace

ProgressLine::ProgressLine()
    : begun_(std::chrono::steady_clock::now()), terminal_(isatty(STDERR_FILENO) == 1) {
  if (const char* fd = std::getenv(progress_fd_name)) {
    struct stat what {};
    const int number = std::atoi(fd);
    if (number > STDERR_FILENO && fstat(number, &what) == 0 && S_ISFIFO(what.st_mode))
      pipe_ = number;
  }
  if (spoken_language() == units::Language::german) stopped_line = "\nlodeway: abgebrochen\n";
  std::signal(SIGALRM, end_now);
  for (const int stop : stops) std::signal(stop, interrupt);
}

ProgressLine::~ProgressLine() {
  clear();
  wait_for(0);
  for (const int stop : stops) std::signal(stop, SIG_DFL);
}

bool ProgressLine::go_on(double share, const std::string& doing) {
  using namespace std::chrono_literals;
  if (terminal_ && std::chrono::steady_clock::now() - begun_ > 700ms) {
    const auto words = trip::progress_in(spoken_language(), doing);
    if (share >= 0) {
      std::fprintf(stderr, "\r\033[K%3.0f %%  %s", 100 * share, words.c_str());
    } else {
      std::fprintf(stderr, "\r\033[K%s", words.c_str());
    }
    std::fflush(stderr);
    shown_ = true;
  }
  const auto now = std::chrono::steady_clock::now();
  if (pipe_ >= 0 && (doing != doing_ || now - told_ > 100ms)) {
    told_ = now;
    doing_ = doing;
    std::string line = std::to_string(share) + " " + doing + "\n";
    if (write(pipe_, line.data(), line.size()) < 0) pipe_ = -1;
  }
  return interrupted == 0;
}

void ProgressLine::clear() {
  if (shown_) std::fputs("\r\033[K", stderr);
  shown_ = false;
}

}  // namespace lodeway::cli
