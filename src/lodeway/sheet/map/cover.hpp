#pragma once
/// Which sheets a way needs. Method: docs/method/paper.md
#include <optional>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/map/map_frame.hpp"

namespace lodeway::sheet {

/// The way leaves a sheet here and goes on, or comes from, another.
struct GoesOn {
  Mm at;                  ///< on the map's frame
  std::size_t sheet = 0;  ///< index
};

struct SheetPlace {
  MapFrame frame;
  std::vector<std::size_t> legs;  ///< indices of those that are on it, in order
  std::vector<GoesOn> goes_on;
};

inline constexpr double inside_mm = 12;   ///< the way keeps so far from the map's frame
inline constexpr double overlap_mm = 15;  ///< of the way is on both of two sheets
inline constexpr std::size_t most_sheets = 40;

/// Sheets that cover a way in its order, upright or lying as it covers more (`landscape` forces
/// one), as few as such a cover can be; a sheet whose piece lies on others is left out.
/// Faults: bad_input (a scale not above 0); too_large over most_sheets: proposes a scale that needs
/// eight at most.
[[nodiscard]] Result<std::vector<SheetPlace>> cover(const trip::PlannedWay& way, double scale,
                                                    trip::Paper paper,
                                                    std::optional<bool> landscape = {});

/// The same sheets with their maps' lower left corners laid by hand, as many as there are corners;
/// without corners, cover(). Whether they hold the whole way is not asked. Faults: as cover();
/// too_large over most_sheets corners.
[[nodiscard]] Result<std::vector<SheetPlace>> cover_by_hand(
    const trip::PlannedWay& way, double scale, trip::Paper paper, std::optional<bool> landscape,
    const std::vector<earth::GridPoint>& corners);

/// "1–3, 7" from indices 0, 1, 2, 6: what people count from one.
[[nodiscard]] std::string numbers_text(const std::vector<std::size_t>& indices);
/// "legs 1–3, 7", "leg 7".
[[nodiscard]] std::string legs_text(const std::vector<std::size_t>& indices,
                                    units::Language language);

}  // namespace lodeway::sheet
