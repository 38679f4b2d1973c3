#include "apps/cli/pick_option.hpp"

#include <string>
#include <vector>

namespace lodeway::cli {

void add_pick(Command& app, tasks::PlanRequest& request) {
  static const std::vector<std::string> names{"quickest", "balanced", "surest"};
  app.add_option_function(
         "--pick",
         [&request](const std::string& name) {
           for (std::size_t i = 0; i < names.size(); ++i) {
             if (names[i] == name) request.choice = static_cast<walking::Choice>(i);
           }
         },
         "Which of the ways found, instead of what the trip file picks")
      ->one_of(names);
}

}  // namespace lodeway::cli
