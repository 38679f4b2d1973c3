// Loaded before the program (LD_PRELOAD): lets one moment of writing fail, as a full disk, a disk that
// may only be read or a broken one would, or sets the clock. By environment:
//   NO_ROOM_AT=n        the n-th moment (from 1) at which a plain file is made, written, flushed or
//                       renamed fails: EROFS, ENOSPC, EIO; all after it too with NO_ROOM_FROM set
//   NO_ROOM_COUNT=file  how many moments there were is written there at the end
//   NO_ROOM_CLOCK=s     the time of day is so many seconds later (or, negative, earlier)
#ifndef _GNU_SOURCE
#define _GNU_SOURCE
#endif
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <time.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

namespace {

std::atomic<long> moments{0};

template <class F>
F real(const char* name) {
  return reinterpret_cast<F>(dlsym(RTLD_NEXT, name));
}

long number(const char* name) {
  const char* text = std::getenv(name);
  return text != nullptr ? std::atol(text) : 0;
}

bool fails() {
  static const long at = number("NO_ROOM_AT");
  static const bool on = std::getenv("NO_ROOM_FROM") != nullptr;
  const long now = ++moments;
  return at > 0 && (on ? now >= at : now == at);
}

bool is_plain(int fd) {
  struct stat what {};
  return fstat(fd, &what) == 0 && S_ISREG(what.st_mode);
}

bool ours(const char* path) {
  return std::strncmp(path, "/dev/", 5) != 0 && std::strncmp(path, "/proc/", 6) != 0;
}

int refused(int error) {
  errno = error;
  return -1;
}

struct Count {
  ~Count() {
    const char* path = std::getenv("NO_ROOM_COUNT");
    if (path == nullptr) return;
    const auto n = std::to_string(moments.load());
    const int fd = real<int (*)(const char*, int, ...)>("open")(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (fd < 0) return;
    const auto written = real<ssize_t (*)(int, const void*, size_t)>("write")(fd, n.data(), n.size());
    if (written < 0) std::abort();
    close(fd);
  }
} count;

int opened(const char* name, const char* path, int flags, mode_t mode) {
  const bool writes = (flags & O_ACCMODE) != O_RDONLY && (flags & O_DIRECTORY) == 0;
  if (writes && ours(path) && fails()) return refused(EROFS);
  return real<int (*)(const char*, int, ...)>(name)(path, flags, mode);
}

std::FILE* fopened(const char* name, const char* path, const char* how) {
  if (std::strpbrk(how, "wa+") != nullptr && ours(path) && fails()) {
    errno = EROFS;
    return nullptr;
  }
  return real<std::FILE* (*)(const char*, const char*)>(name)(path, how);
}

mode_t mode_of(int flags, va_list more) {
  return (flags & (O_CREAT | O_TMPFILE)) != 0 ? static_cast<mode_t>(va_arg(more, int)) : 0;
}

}  // namespace

extern "C" {

int open(const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = mode_of(flags, more);
  va_end(more);
  return opened("open", path, flags, mode);
}
int open64(const char* path, int flags, ...) {
  va_list more;
  va_start(more, flags);
  const mode_t mode = mode_of(flags, more);
  va_end(more);
  return opened("open64", path, flags, mode);
}
std::FILE* fopen(const char* path, const char* how) { return fopened("fopen", path, how); }
std::FILE* fopen64(const char* path, const char* how) { return fopened("fopen64", path, how); }

ssize_t write(int fd, const void* bytes, size_t n) {
  if (is_plain(fd) && fails()) return refused(ENOSPC);
  return real<ssize_t (*)(int, const void*, size_t)>("write")(fd, bytes, n);
}
ssize_t writev(int fd, const iovec* pieces, int n) {
  if (is_plain(fd) && fails()) return refused(ENOSPC);
  return real<ssize_t (*)(int, const iovec*, int)>("writev")(fd, pieces, n);
}
ssize_t pwrite(int fd, const void* bytes, size_t n, off_t at) {
  if (is_plain(fd) && fails()) return refused(ENOSPC);
  return real<ssize_t (*)(int, const void*, size_t, off_t)>("pwrite")(fd, bytes, n, at);
}
ssize_t pwrite64(int fd, const void* bytes, size_t n, off64_t at) {
  if (is_plain(fd) && fails()) return refused(ENOSPC);
  return real<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64")(fd, bytes, n, at);
}
size_t fwrite(const void* bytes, size_t size, size_t n, std::FILE* file) {
  if (is_plain(fileno(file)) && fails()) {
    errno = ENOSPC;
    return 0;
  }
  return real<size_t (*)(const void*, size_t, size_t, std::FILE*)>("fwrite")(bytes, size, n, file);
}
int fclose(std::FILE* file) {  // what was still in the buffer does not arrive
  const bool writes = (fcntl(fileno(file), F_GETFL) & O_ACCMODE) != O_RDONLY;
  const bool bad = writes && is_plain(fileno(file)) && fails();
  const int closed = real<int (*)(std::FILE*)>("fclose")(file);
  return bad ? refused(ENOSPC) : closed;
}
int fsync(int fd) {
  if (is_plain(fd) && fails()) return refused(EIO);
  return real<int (*)(int)>("fsync")(fd);
}
int fdatasync(int fd) {
  if (is_plain(fd) && fails()) return refused(EIO);
  return real<int (*)(int)>("fdatasync")(fd);
}
int rename(const char* from, const char* to) {
  if (fails()) return refused(EROFS);
  return real<int (*)(const char*, const char*)>("rename")(from, to);
}

int clock_gettime(clockid_t which, timespec* out) {
  static const auto ask = real<int (*)(clockid_t, timespec*)>("clock_gettime");
  static const long by = number("NO_ROOM_CLOCK");
  const int status = ask(which, out);
  if (status == 0 && which == CLOCK_REALTIME) out->tv_sec += by;
  return status;
}
time_t time(time_t* out) {
  timespec now{};
  clock_gettime(CLOCK_REALTIME, &now);
  if (out != nullptr) *out = now.tv_sec;
  return now.tv_sec;
}

}  // extern "C"
