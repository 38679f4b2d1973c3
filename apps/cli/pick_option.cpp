#include "apps/cli/pick_option.hpp"

#include <array>
#include <string>

namespace lodeway::cli {

void add_pick(CLI::App& app, tasks::PlanRequest& request) {
  static const std::array<std::string, walking::choice_count> names{"quickest", "balanced",
                                                                    "surest"};
  app.add_option_function<std::string>(
         "--pick",
         [&request](const std::string& name) {
           for (std::size_t i = 0; i < names.size(); ++i) {
             if (names[i] == name) request.choice = static_cast<walking::Choice>(i);
           }
         },
         "Which of the ways found, instead of what the trip file picks")
      ->check(CLI::IsMember(names));
}

}  // namespace lodeway::cli
