#pragma once
/// How a run that another program started tells it more than people need.

namespace lodeway::cli {

/// The environment names the open pipe that progress is written to, "0.25 reading dem.tif" a line.
inline constexpr const char* progress_fd_name = "LODEWAY_PROGRESS_FD";
/// Then a failure ends with this status and more by FaultCode, instead of 2.
inline constexpr int first_fault_status = 10;

}  // namespace lodeway::cli
