#pragma once
/// What is met, in words of the plan's language.
#include <string>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/landmarks/surroundings.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::landmarks {

/// "wall", "Ashrow Beck": the name when it has one, else the kind.
[[nodiscard]] std::string thing(mapdata::Kind kind, const std::string& name,
                                units::Language language);
/// "wall crosses", "path joins, left", "cairn, right", "steepens"
[[nodiscard]] std::string words(const Sighting& sighting, units::Language language);
/// "Brennow Edge, cliff, 270 m beyond the end", "cliff, 190 m to your left"
[[nodiscard]] std::string words(const DangerFound& danger, const units::Speech& speech);
/// "Harrik Pike", "path junction", "path at Ashrow Beck"; empty when nothing is there to see.
[[nodiscard]] std::string words(const PlaceFound& place, units::Language language);
/// The same for a fix, and "wall corner", "track bend", "fence end", "west end of Mirk Tarn",
/// "Ashrow Beck leaves Mirk Tarn".
[[nodiscard]] std::string words(const Fix& fix, units::Language language);

}  // namespace lodeway::landmarks
