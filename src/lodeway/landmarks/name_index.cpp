#include "lodeway/landmarks/name_index.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>

namespace lodeway::landmarks {

namespace {

using earth::GridPoint;
using mapdata::Kind;

constexpr double spot_every_m = 400, same_point_m = 200;
constexpr double none = std::numeric_limits<double>::quiet_NaN();

constexpr std::array rank_order = {
    Kind::summit,  Kind::lake,      Kind::sea,   Kind::settlement, Kind::saddle, Kind::hut,
    Kind::shelter, Kind::bridge,    Kind::river, Kind::stream,     Kind::cliff,  Kind::building,
    Kind::ruin,    Kind::waterfall, Kind::mast,  Kind::marsh,      Kind::wood,   Kind::forbidden,
    Kind::road,    Kind::wall,      Kind::path,  Kind::spot_height};

GridPoint inside(const mapdata::AreaFeature& area) {
  GridPoint middle{0, 0};
  for (const auto& p : area.outer) {
    middle.east_m += p.east_m / static_cast<double>(area.outer.size());
    middle.north_m += p.north_m / static_cast<double>(area.outer.size());
  }
  if (mapdata::contains(area, middle)) return middle;
  // A crooked one: the middle of the widest run of its inside along the middle's parallel.
  std::vector<double> cuts;
  const auto cut = [&](const std::vector<GridPoint>& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const auto a = ring[i], b = ring[(i + 1) % ring.size()];
      if ((a.north_m > middle.north_m) == (b.north_m > middle.north_m)) continue;
      const double t = (middle.north_m - a.north_m) / (b.north_m - a.north_m);
      cuts.push_back(a.east_m + t * (b.east_m - a.east_m));
    }
  };
  cut(area.outer);
  for (const auto& hole : area.holes) cut(hole);
  std::ranges::sort(cuts);
  double widest = 0;
  GridPoint best = area.outer.front();
  for (std::size_t i = 0; i + 1 < cuts.size(); i += 2) {
    if (cuts[i + 1] - cuts[i] <= widest) continue;
    widest = cuts[i + 1] - cuts[i];
    best = {(cuts[i] + cuts[i + 1]) / 2, middle.north_m};
  }
  return best;
}

double along_deg(GridPoint a, GridPoint b) {
  const double deg = earth::grid_bearing(a, b).in_degrees();
  return deg >= 180 ? deg - 180 : deg;
}

void add_spots(Named& thing, const std::vector<GridPoint>& line) {
  double to_next = std::min(spot_every_m, mapdata::length_m(line)) / 2;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece = earth::grid_distance_m(line[i - 1], line[i]);
    double at = to_next;
    for (; at <= piece; at += spot_every_m) {
      thing.spots.push_back(
          {line[i - 1] + (at / piece) * (line[i] - line[i - 1]), along_deg(line[i - 1], line[i])});
    }
    to_next = at - piece;
  }
}

bool begins_word(const std::string& text, std::size_t at) { return at == 0 || text[at - 1] == ' '; }

}  // namespace

int name_rank(Kind kind) {
  return static_cast<int>(std::ranges::find(rank_order, kind) - rank_order.begin());
}

int slips_to_begin(std::string_view typed, std::string_view text, int most) {
  const std::size_t width = std::min(text.size(), typed.size() + static_cast<std::size_t>(most));
  std::vector<int> two(width + 1), one(width + 1), now(width + 1);
  for (std::size_t j = 0; j <= width; ++j) one[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= typed.size(); ++i) {
    now[0] = static_cast<int>(i);
    int least = now[0];
    for (std::size_t j = 1; j <= width; ++j) {
      const int wrong = typed[i - 1] == text[j - 1] ? 0 : 1;
      now[j] = std::min({one[j] + 1, now[j - 1] + 1, one[j - 1] + wrong});
      const bool turned =
          i > 1 && j > 1 && typed[i - 1] == text[j - 2] && typed[i - 2] == text[j - 1];
      if (turned) now[j] = std::min(now[j], two[j - 2] + 1);
      least = std::min(least, now[j]);
    }
    if (least > most) return most + 1;
    std::swap(two, one);
    std::swap(one, now);
  }
  return std::min(*std::ranges::min_element(one), most + 1);
}

NameIndex::NameIndex(const terrain::Elevation& heights, const mapdata::MapData& map,
                     const Fold& fold) {
  std::map<std::pair<Kind, std::string>, std::vector<GridPoint>> told;
  for (const auto& p : map.points) {
    const bool told_by_height =
        (p.label.kind == Kind::summit || p.label.kind == Kind::spot_height) &&
        std::isfinite(p.height_m) && p.height_m > 0;
    if (p.label.name.empty() && !told_by_height) continue;
    if (!p.label.name.empty()) {
      auto& same = told[{p.label.kind, p.label.name}];
      const auto close = [&](GridPoint q) {
        return earth::grid_distance_m(q, p.at) < same_point_m;
      };
      if (std::ranges::any_of(same, close)) continue;
      same.push_back(p.at);
    }
    named_.push_back({p.label.name, p.label.kind, p.at, p.height_m, {}});
  }
  for (const auto& a : map.areas) {
    if (a.outer.size() < 3) continue;
    const bool lake = a.label.kind == Kind::lake;
    if (a.label.name.empty() && !lake) continue;
    const auto at = inside(a);
    named_.push_back(
        {a.label.name, a.label.kind, at, lake ? terrain::height_at(heights, at) : none, {}});
  }
  std::map<std::pair<Kind, std::string>, std::pair<std::size_t, double>> lines;
  for (const auto& l : map.lines) {
    if (l.label.name.empty()) continue;
    const double length = mapdata::length_m(l.points);
    const auto [at, fresh] = lines.try_emplace({l.label.kind, l.label.name}, named_.size(), 0.0);
    if (fresh) named_.push_back({l.label.name, l.label.kind, l.points.front(), none, {}});
    auto& thing = named_[at->second.first];
    const std::size_t before = thing.spots.size();
    add_spots(thing, l.points);
    if (length > at->second.second && thing.spots.size() > before) {
      at->second.second = length;
      thing.at = thing.spots[before + (thing.spots.size() - before) / 2].at;
    }
  }
  folded_.reserve(named_.size());
  for (const auto& n : named_) folded_.push_back(fold(n.name));
  ranked_.resize(named_.size());
  for (std::size_t i = 0; i < named_.size(); ++i) ranked_[i] = static_cast<std::uint32_t>(i);
  std::ranges::stable_sort(ranked_, {}, [&](std::uint32_t i) { return name_rank(named_[i].kind); });
}

std::vector<FoundName> NameIndex::find(std::string_view typed, earth::GridPoint near,
                                       std::size_t most, const Fold& fold) const {
  const auto wanted = fold(typed);
  std::vector<FoundName> out;
  if (wanted.empty()) return out;
  for (std::uint32_t i = 0; i < folded_.size(); ++i) {
    const auto& text = folded_[i];
    const auto at = text.find(wanted);
    if (at == std::string::npos) continue;
    bool word = begins_word(text, at);
    for (auto next = at; !word && (next = text.find(wanted, next + 1)) != std::string::npos;)
      word = begins_word(text, next);
    out.push_back({i,
                   text == wanted ? Fit::whole
                   : at == 0      ? Fit::beginning
                   : word         ? Fit::word
                                  : Fit::inside,
                   0});
  }
  if (out.empty() && wanted.size() >= 4) {
    const int allowed = wanted.size() >= 8 ? 2 : 1;
    for (std::uint32_t i = 0; i < folded_.size(); ++i) {
      const auto& text = folded_[i];
      int best = allowed + 1;
      for (std::size_t at = 0; at < text.size(); ++at) {
        if (begins_word(text, at))
          best = std::min(best, slips_to_begin(wanted, std::string_view(text).substr(at), allowed));
      }
      if (best <= allowed) out.push_back({i, Fit::slip, best});
    }
  }
  std::ranges::sort(out, {}, [&](const FoundName& f) {
    const auto& n = named_[f.index];
    return std::tuple(f.fit, f.slips, name_rank(n.kind), earth::grid_distance_m(n.at, near),
                      f.index);
  });
  if (out.size() > most) out.resize(most);
  return out;
}

std::vector<std::uint32_t> NameIndex::in_box(earth::GridPoint low, earth::GridPoint high,
                                             std::size_t most) const {
  const auto in = [&](GridPoint p) {
    return p.east_m >= low.east_m && p.east_m <= high.east_m && p.north_m >= low.north_m &&
           p.north_m <= high.north_m;
  };
  std::vector<std::uint32_t> out;
  for (const auto i : ranked_) {
    if (out.size() == most) break;
    const auto& n = named_[i];
    if (in(n.at) || std::ranges::any_of(n.spots, [&](const auto& s) { return in(s.at); }))
      out.push_back(i);
  }
  return out;
}

}  // namespace lodeway::landmarks
