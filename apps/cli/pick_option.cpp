#include "apps/cli/pick_option.hpp"

#include <string>

#include "apps/cli/command.hpp"
#include "lodeway/walking/choice.hpp"

namespace lodeway::cli {

void add_pick(Command& app, tasks::PlanRequest& request) {
  app.add_option_function(
         "--pick",
         [&request](const std::string& word) {
           const auto choice = walking::choice_of(word);
           if (!choice) throw Stopped{fail_in("--pick", choice.error()).error()};
           request.choice = *choice;
         },
         "Which of the ways found, instead of what the trip file picks")
      ->option_text("quick|middle|sure");
}

}  // namespace lodeway::cli
