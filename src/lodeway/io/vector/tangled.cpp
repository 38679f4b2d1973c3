#include "lodeway/io/vector/detail/tangled.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

namespace lodeway::io {

namespace {

constexpr std::int64_t most_pairs = 100'000'000;

struct Place {
  double x = 0, y = 0;
  friend bool operator==(const Place&, const Place&) = default;
};
struct Side {
  Place a, b;  ///< a is the western end
  double south = 0, north = 0;
};

void put_sides(const OGRLinearRing& ring, std::vector<Side>& sides) {
  for (int i = 1; i < ring.getNumPoints(); ++i) {
    Place a{ring.getX(i - 1), ring.getY(i - 1)}, b{ring.getX(i), ring.getY(i)};
    if (a == b) continue;
    if (b.x < a.x) std::swap(a, b);
    sides.push_back({a, b, std::min(a.y, b.y), std::max(a.y, b.y)});
  }
}

/// Which side of a-b: its sign.
double turn(Place a, Place b, Place p) {
  return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

/// On the line, within the side's box, and none of its ends.
bool lies_within(const Side& s, Place p, double turned) {
  return turned == 0 && p.x >= s.a.x && p.x <= s.b.x && p.y >= s.south && p.y <= s.north &&
         !(p == s.a) && !(p == s.b);
}

bool meet(const Side& s, const Side& t) {
  const double ta = turn(s.a, s.b, t.a), tb = turn(s.a, s.b, t.b);
  const double sa = turn(t.a, t.b, s.a), sb = turn(t.a, t.b, s.b);
  if (((ta < 0 && tb > 0) || (ta > 0 && tb < 0)) && ((sa < 0 && sb > 0) || (sa > 0 && sb < 0)))
    return true;
  return lies_within(s, t.a, ta) || lies_within(s, t.b, tb) || lies_within(t, s.a, sa) ||
         lies_within(t, s.b, sb);
}

}  // namespace

bool is_tangled(const OGRPolygon& polygon) {
  std::vector<Side> sides;
  for (const OGRLinearRing* ring : polygon) put_sides(*ring, sides);
  std::ranges::sort(sides, {}, [](const Side& s) { return s.a.x; });
  std::int64_t pairs = 0;
  int crossings = 0;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    for (std::size_t j = i + 1; j < sides.size() && sides[j].a.x <= sides[i].b.x; ++j) {
      if (++pairs > most_pairs) return true;
      const bool apart = sides[j].south > sides[i].north || sides[j].north < sides[i].south;
      if (!apart && meet(sides[i], sides[j]) && ++crossings > most_crossings) return true;
    }
  }
  return false;
}

}  // namespace lodeway::io
