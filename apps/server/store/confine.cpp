#include "apps/server/store/confine.hpp"

#include <fcntl.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstddef>
#include <cstdlib>

namespace lodeway::server {

namespace {

#if defined(__x86_64__)
constexpr unsigned machine = AUDIT_ARCH_X86_64;
#elif defined(__aarch64__)
constexpr unsigned machine = AUDIT_ARCH_AARCH64;
#else
constexpr unsigned machine = 0;  // not known here: no filter
#endif

// What reading, counting and writing one's own files never needs.
constexpr std::array<unsigned, 20> needless{
    SYS_socket,      SYS_socketpair, SYS_connect,         SYS_bind,
    SYS_listen,      SYS_accept,     SYS_accept4,         SYS_sendto,
    SYS_sendmsg,     SYS_ptrace,     SYS_process_vm_readv, SYS_process_vm_writev,
    SYS_kill,        SYS_tkill,      SYS_mount,           SYS_bpf,
    SYS_keyctl,      SYS_unshare,    SYS_perf_event_open, SYS_io_uring_setup};

bool filter_calls() {
  if (machine == 0) return false;
  constexpr auto n = needless.size();
  std::array<sock_filter, n + 8> code{};
  std::size_t at = 0;
  const auto put = [&](unsigned short what, unsigned k, std::size_t yes = 0, std::size_t no = 0) {
    code[at++] = {what, static_cast<unsigned char>(yes), static_cast<unsigned char>(no), k};
  };
  const auto deny = [&] {
    put(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EPERM);
  };
  put(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, arch));
  put(BPF_JMP | BPF_JEQ | BPF_K, machine, 1, 0);
  deny();  // a call in another machine's numbers
  put(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, nr));
#if defined(__x86_64__)
  put(BPF_JMP | BPF_JGE | BPF_K, 0x40000000U, n + 1, 0);  // x32 has other numbers too
#endif
  for (std::size_t i = 0; i < n; ++i) put(BPF_JMP | BPF_JEQ | BPF_K, needless[i], n - i, 0);
  put(BPF_RET | BPF_K, SECCOMP_RET_ALLOW);
  deny();
  const sock_fprog program{static_cast<unsigned short>(at), code.data()};
  return prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

long landlock_version() {
  return syscall(SYS_landlock_create_ruleset, nullptr, 0, LANDLOCK_CREATE_RULESET_VERSION);
}

bool bar_writes(const char* folder) {
  if (landlock_version() < 1) return false;
  constexpr auto writing =
      LANDLOCK_ACCESS_FS_WRITE_FILE | LANDLOCK_ACCESS_FS_REMOVE_DIR | LANDLOCK_ACCESS_FS_REMOVE_FILE |
      LANDLOCK_ACCESS_FS_MAKE_CHAR | LANDLOCK_ACCESS_FS_MAKE_DIR | LANDLOCK_ACCESS_FS_MAKE_REG |
      LANDLOCK_ACCESS_FS_MAKE_SOCK | LANDLOCK_ACCESS_FS_MAKE_FIFO | LANDLOCK_ACCESS_FS_MAKE_BLOCK |
      LANDLOCK_ACCESS_FS_MAKE_SYM;
  landlock_ruleset_attr rules{};
  rules.handled_access_fs = writing;
  const int ruleset =
      static_cast<int>(syscall(SYS_landlock_create_ruleset, &rules, sizeof rules, 0));
  if (ruleset < 0) return false;
  bool good = true;
  const auto allow = [&](const char* path, unsigned long long what) {
    landlock_path_beneath_attr below{};
    below.allowed_access = what;
    below.parent_fd = open(path, O_PATH | O_CLOEXEC);
    good = good && below.parent_fd >= 0 &&
           syscall(SYS_landlock_add_rule, ruleset, LANDLOCK_RULE_PATH_BENEATH, &below, 0) == 0;
    if (below.parent_fd >= 0) close(below.parent_fd);
  };
  if (*folder != '\0') allow(folder, writing);
  allow("/dev/null", LANDLOCK_ACCESS_FS_WRITE_FILE);
  good = good && syscall(SYS_landlock_restrict_self, ruleset, 0) == 0;
  close(ruleset);
  return good;
}

void limit(__rlimit_resource what, const char* text, unsigned long long unit) {
  if (text == nullptr) return;
  const auto most = std::strtoull(text, nullptr, 10) * unit;
  if (most == 0) return;
  const rlimit both{most, most};
  setrlimit(what, &both);
}

}  // namespace

Confinement confinement_here() {
  return {machine != 0 && prctl(PR_GET_SECCOMP) >= 0, landlock_version() >= 1};
}

void confine_if_asked() {
  const char* folder = std::getenv(confine_folder);
  if (folder == nullptr) return;
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)  // their shadow is larger
  constexpr unsigned long long gib = 1ULL << 30U;
  limit(RLIMIT_AS, std::getenv(confine_memory), gib);
#endif
  limit(RLIMIT_CPU, std::getenv(confine_time), 1);
  const rlimit none{0, 0};
  setrlimit(RLIMIT_CORE, &none);
  prctl(PR_SET_PDEATHSIG, SIGKILL);  // nobody waits for it any more
  // Killed before that was heard of: it would go on for nobody, and leave files behind.
  if (const char* parent = std::getenv(confine_for);
      parent != nullptr && std::strtol(parent, nullptr, 10) != getppid())
    _exit(2);
  // What cannot be had was said when the server began (confinement_here).
  if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0) return;
  (void)bar_writes(folder);
  (void)filter_calls();
}

}  // namespace lodeway::server

#if defined(__SANITIZE_ADDRESS__)
/// Who is confined may not look at itself as the search for leaks does at the end.
extern "C" int __lsan_is_turned_off() { return std::getenv(lodeway::server::confine_folder) != nullptr ? 1 : 0; }
#endif
