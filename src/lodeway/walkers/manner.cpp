#include "lodeway/walkers/manner.hpp"

namespace lodeway::walkers {

Manner manner_of(walking::Skill skill) {
  Manner m;
  switch (skill) {
    case walking::Skill::novice:
      m.owns_up = 0.25;
      m.doubt_min = 15;
      m.tries = 3;
      break;
    case walking::Skill::practised:
      break;
    case walking::Skill::expert:
      m.owns_up = 0.75;
      m.doubt_min = 7;
      m.tries = 5;
      break;
  }
  return m;
}

}  // namespace lodeway::walkers
