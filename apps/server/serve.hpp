#pragma once
/// `lodeway serve`: the page and its program on this machine.
#include <functional>
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/units/language.hpp"

namespace lodeway::server {

struct ServeRequest {
  std::string ground;                 ///< a ground file to put on the shelf, or empty
  std::string address = "127.0.0.1";
  int port = 8431;                    ///< 0: any that is free
  std::string state;  ///< folder; empty: $XDG_STATE_HOME/lodeway or ~/.local/state/lodeway
  std::string version;
  units::Language language = units::Language::english;  ///< of what is said in the terminal
};

/// Serves until SIGINT or SIGTERM; a second of them ends the program at once. `ready` is told the
/// address to open once it is served, with the key that is kept in the state folder; and the same
/// with a key that is good for one visit, for handing to another program (whose words all users of
/// the machine can see).
/// Faults: io_failed (port, state folder), as Shelf::add for the ground.
[[nodiscard]] Result<void> serve(const ServeRequest& request,
                                 const std::function<void(const std::string& url, const std::string& once)>& ready);

/// Opens an address in the leader's browser; false when there is no way to.
bool open_browser(const std::string& url);

}  // namespace lodeway::server
