#pragma once
/// A process that reads what strangers made gives away first what it does not need for that.
#include <string>

namespace lodeway::server {

/// What this machine's kernel can take from a process; without `sockets` and `writes` only memory
/// and time are bounded.
struct Confinement {
  bool sockets = false;  ///< no network and no tracing of others: a system call filter (seccomp)
  bool writes = false;   ///< no file made or changed outside one folder (Landlock)
};
[[nodiscard]] Confinement confinement_here();

/// The environment of a child that shall confine itself before it does anything else: the folder it
/// may write to; gibibytes of memory; seconds of processor time.
inline constexpr const char* confine_folder = "LODEWAY_CONFINED_TO";
inline constexpr const char* confine_memory = "LODEWAY_CONFINED_GIB";
inline constexpr const char* confine_time = "LODEWAY_CONFINED_S";
/// Number of the process that waits for it; where that is gone already there is nothing to do.
inline constexpr const char* confine_for = "LODEWAY_CONFINED_FOR";

/// Called first in main. Does what these ask for, as far as the kernel can; without them nothing.
/// It cannot be undone and goes over to whatever the process starts.
void confine_if_asked();

}  // namespace lodeway::server
