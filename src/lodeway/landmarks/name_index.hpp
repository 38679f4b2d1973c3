#pragma once
/// The names of a ground: found as they are typed, slips forgiven; and those of a part of it, by
/// rank.
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "lodeway/mapdata/map_data.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::landmarks {

/// One named thing, or a top or lake that has a height only. Pieces of one line are one thing.
struct Named {
  std::string name;  ///< empty: its height is all that is known of it
  mapdata::Kind kind = mapdata::Kind::other;
  /// A point's place; of a surface a place inside it; of a line the middle of its longest piece.
  earth::GridPoint at;
  double height_m = 0;  ///< of points as the map gives it, of lakes their level; NaN: not known
  /// Places along a line, some 400 m apart, each with the line's grid bearing there (0 to 180).
  struct Spot {
    earth::GridPoint at;
    double bearing_deg = 0;
  };
  std::vector<Spot> spots;
};

/// How well a name fits what was typed; smaller is better.
enum class Fit : unsigned char { whole, beginning, word, inside, slip };

struct FoundName {
  std::uint32_t index = 0;  ///< into NameIndex::all()
  Fit fit = Fit::whole;
  int slips = 0;  ///< letters wrong, missing, too many or turned round
};

/// Keeps copies. Every const function may be called from any thread.
class NameIndex {
 public:
  /// What is compared is what `fold` makes of a name: accents and capitals are its affair.
  using Fold = std::function<std::string(std::string_view)>;
  NameIndex() = default;
  NameIndex(const terrain::Elevation& heights, const mapdata::MapData& map, const Fold& fold);

  [[nodiscard]] const std::vector<Named>& all() const { return named_; }

  /// At most `most`, best first; equal ones by rank, then by distance from `near`. Slips (Damerau
  /// 1964: one letter wrong, missing, too many, or two turned round) are forgiven where nothing
  /// fits without: one from 4 letters typed, two from 8. *Practice.*
  [[nodiscard]] std::vector<FoundName> find(std::string_view typed, earth::GridPoint near,
                                            std::size_t most, const Fold& fold) const;

  /// What has a place in the box, by rank (tops first, paths last), at most `most`.
  [[nodiscard]] std::vector<std::uint32_t> in_box(earth::GridPoint low, earth::GridPoint high,
                                                  std::size_t most) const;

 private:
  std::vector<Named> named_;
  std::vector<std::string> folded_;
  std::vector<std::uint32_t> ranked_;  // by rank
};

/// Order of names on a map: 0 is written first. The same as the sheet's.
[[nodiscard]] int name_rank(mapdata::Kind kind);

/// Fewest slips that make `typed` the beginning of `text`; `most` + 1 when it takes more. Optimal
/// string alignment (Damerau 1964, Comm. ACM 7:171-176), letters as bytes.
[[nodiscard]] int slips_to_begin(std::string_view typed, std::string_view text, int most);

}  // namespace lodeway::landmarks
