#include <unistd.h>

#include <cstdio>
#include <memory>

#include "apps/cli/command.hpp"
#include "apps/cli/spoken_language.hpp"
#include "apps/cli/version.hpp"
#include "apps/server/serve.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::cli {

void add_serve(Command& app) {
  struct Options {
    server::ServeRequest request;
    bool open = false;
  };
  auto o = std::make_shared<Options>();
  o->request.language = spoken_language();
  o->request.version = version();
  auto* c = app.add_subcommand("serve", "Plan, compare, rehearse and print in the browser");
  c->footer(
      "Nothing leaves this machine and nothing is fetched. Trips are kept in the state folder.\n"
      "Example: lodeway serve --ground hills.gpkg --open");
  c->add_option("--ground", o->request.ground, "A ground file to begin with");
  c->add_option("--port", o->request.port, "0 takes any that is free")
      ->within(0, 65535)
      ->capture_default_str();
  c->add_option("--address", o->request.address, "Another address than this machine's own")
      ->capture_default_str();
  c->add_option("--state", o->request.state,
                "Folder for trips and grounds; else $XDG_STATE_HOME/lodeway or "
                "~/.local/state/lodeway");
  c->add_flag("--open", o->open, "Open the page in the browser");
  c->callback([o] {
    stop_unless(server::serve(o->request, [&](const std::string& url, const std::string& once) {
      std::printf("%s\n", url.c_str());
      std::fflush(stdout);
      const auto in = spoken_language();
      if (isatty(STDERR_FILENO) != 0)
        std::fprintf(stderr, "%s\n",
                     trip::told(in, "Ctrl-C ends it; your trips are kept.").c_str());
      if (o->open && !server::open_browser(once))
        std::fprintf(stderr, "lodeway: %s\n",
                     trip::told(in, "no browser was found; open the address above").c_str());
    }));
  });
}

}  // namespace lodeway::cli
