#include "lodeway/belief/detail/drafts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <unordered_map>

#include "lodeway/numeric/normal.hpp"

namespace lodeway::belief::detail {

namespace {
using mapdata::Kind;
using numeric::normal_cdf;
using sight::Cue;

/// Chance that an angle about `middle` falls into [from, from + width), degrees of a turn.
double in_sector(double from, double width, double middle, double sigma, double turn) {
  if (sigma > turn / 3) return width / turn;
  const double a = std::remainder(from - middle, turn);
  double p = 0;
  for (const double lap : {-turn, 0.0, turn})
    p += normal_cdf((a + width + lap) / sigma) - normal_cdf((a + lap) / sigma);
  return p;
}

constexpr int sectors = 8;
constexpr std::array<double, 4> steep_edges{5, 12, 20, 30};
constexpr std::array<double, 4> change_edges{-60, -20, 20, 60};

Row fall_row(const sight::detail::Model& m, std::size_t cell) {
  Row row(sectors + 1, 0.0);
  const double slope = m.planes.slope_deg(cell), level = sight::level_told(slope);
  const double sigma = sight::detail::fall_sigma(m, slope);
  for (int k = 0; k < sectors; ++k)
    row[static_cast<std::size_t>(k)] =
        (1 - level) * in_sector(45.0 * k - 22.5, 45, m.planes.fall_deg(cell), sigma, 360);
  row[sectors] = level;
  return row;
}
/// Of cells that fall alike.
std::uint64_t fall_key(const CuePlanes& planes, std::size_t cell) {
  return std::uint64_t{planes.steepness[cell]} / 3 * 64 + planes.fall[cell] / 4;
}

Report like(Cue cue, Kind kind = Kind::other, std::int32_t thing = -1) {
  Report r;
  r.cue = cue;
  r.kind = kind;
  r.thing = thing;
  return r;
}

Report facing(Report r, double deg) {
  r.has_direction = true;
  r.direction = units::GridBearing::degrees(deg);
  return r;
}

Report fall_told(std::size_t answer) {
  Report r = like(Cue::fall);
  r.level = answer == sectors;
  return r.level ? r : facing(r, 45.0 * static_cast<double>(answer));
}

Draft ask_height(const Asking& asking) {
  constexpr double width = 20;
  auto low = std::make_shared<double>(0);
  Draft d;
  d.question.ask = like(Cue::height);
  if (!asking.altimeter) d.question.ask.sigma = sight::CueSigmas{}.height_unset_m;
  d.told = [low](std::size_t a) {
    Report r = like(Cue::height);
    r.value = *low + width * (static_cast<double>(a) + 0.5);
    return r;
  };
  d.put = [low, ask = d.question.ask](Asked& asked) {
    const auto& p = asked.model().planes;
    double least = 1e9, most = -1e9;
    for (const auto c : asked.cells()) {
      least = std::min(least, p.height_m(c));
      most = std::max(most, p.height_m(c));
    }
    const double sigma = sight::detail::height_sigma(asked.model(), ask);
    *low = width * std::floor((least - 2 * sigma) / width);
    const auto n =
        static_cast<std::size_t>(std::clamp((most + 2 * sigma - *low) / width + 1, 1.0, 200.0));
    asked.put(
        n, [&](std::size_t c) { return std::uint64_t{p.height[c]} / 16; },
        [&](std::size_t c, Row& row) {
          for (std::size_t k = 0; k < n; ++k) {
            const double from = *low + width * static_cast<double>(k) - p.height_m(c);
            const double above = k + 1 < n ? normal_cdf((from + width) / sigma) : 1;
            row[k] = above - (k > 0 ? normal_cdf(from / sigma) : 0);  // the ends take the tails
          }
        });
  };
  return d;
}

Draft ask_fall() {
  Draft d;
  d.question.ask = facing(like(Cue::fall), 0);
  d.told = fall_told;
  d.put = [](Asked& asked) {
    const auto& p = asked.model().planes;
    asked.put(
        sectors + 1, [&](std::size_t c) { return fall_key(p, c); },
        [&](std::size_t c, Row& row) { row = fall_row(asked.model(), c); });
  };
  return d;
}

Draft ask_steepness() {
  Draft d;
  d.question.ask = like(Cue::steepness);
  d.question.minutes = 1.5;
  d.told = [](std::size_t a) {
    static constexpr std::array<double, 5> middles{2.5, 8, 16, 25, 35};
    Report r = like(Cue::steepness);
    r.value = middles[a];
    return r;
  };
  d.put = [](Asked& asked) {
    const auto& p = asked.model().planes;
    const double sigma = sight::detail::steepness_sigma(asked.model());
    asked.put(
        steep_edges.size() + 1, [&](std::size_t c) { return std::uint64_t{p.steepness[c]}; },
        [&](std::size_t c, Row& row) {
          double before = 0;
          for (std::size_t k = 0; k < steep_edges.size(); ++k) {
            const double s = p.slope_deg(c);
            const double below =  // what is told is the size of it
                normal_cdf((steep_edges[k] - s) / sigma) -
                normal_cdf((-steep_edges[k] - s) / sigma);
            row[k] = below - before;
            before = below;
          }
          row[steep_edges.size()] = 1 - before;
        });
  };
  return d;
}

Draft ask_form() {
  Draft d;
  d.question.ask = like(Cue::landform);
  d.question.minutes = 2;
  d.told = [](std::size_t a) {
    Report r = like(Cue::landform);
    r.form = static_cast<sight::Form>(a + 1);
    return r;
  };
  d.put = [](Asked& asked) {
    const auto& p = asked.model().planes;
    asked.put(
        7, [&](std::size_t c) { return static_cast<std::uint64_t>(p.form[c]); },
        [&](std::size_t c, Row& row) {
          for (std::size_t k = 0; k < 7; ++k)
            row[k] = sight::form_told(static_cast<sight::Form>(k + 1), p.form[c]);
        });
  };
  return d;
}

/// Underfoot, with one of four lies, or not.
Draft ask_line(Kind kind) {
  Draft d;
  d.question.ask = facing(like(Cue::on_line, kind), 0);
  d.question.minutes = 1.5;
  d.told = [kind](std::size_t a) {
    Report r = like(Cue::on_line, kind);
    r.seen = a < 4;
    return r.seen ? facing(r, 45.0 * static_cast<double>(a)) : r;
  };
  d.put = [kind](Asked& asked) {
    const auto& m = asked.model();
    const auto* plane = m.planes.plane_of(kind);
    asked.put(
        5,
        [&](std::size_t c) {
          return std::uint64_t{plane->distance[c]} / 2 * 256 + (plane->direction[c] & 127) / 4;
        },
        [&](std::size_t c, Row& row) {
          const auto near = sight::nearest_of(*plane, c);
          const double on = sight::detail::line_told(m, kind, near).on;
          const double sigma = m.perception.widen * m.perception.sigma.line_deg;
          for (int k = 0; k < 4; ++k)
            row[static_cast<std::size_t>(k)] =
                on * (near ? in_sector(45.0 * k - 22.5, 45, near->lie_deg, sigma, 180) : 0.25);
          row[4] = 1 - on;
        });
  };
  return d;
}

Draft ask_wood() {
  Draft d;
  d.question.ask = like(Cue::in_wood);
  d.question.minutes = 0.5;
  d.told = [](std::size_t a) {
    Report r = like(Cue::in_wood);
    r.seen = a == 0;
    return r;
  };
  d.put = [](Asked& asked) {
    const auto& p = asked.model().planes;
    asked.put(
        2, [&](std::size_t c) { return std::uint64_t{p.wood[c]}; },
        [&](std::size_t c, Row& row) {
          row[0] = p.wood[c] != 0 ? 0.95 : 0.05;
          row[1] = 1 - row[0];
        });
  };
  return d;
}

/// A named thing: in one of 36 tens of degrees, or not in sight.
Draft ask_thing(std::int32_t thing) {
  constexpr int tens = 36;
  Draft d;
  d.question.ask = facing(like(Cue::sees_thing, Kind::other, thing), 0);
  d.question.minutes = 2;
  d.told = [thing](std::size_t a) {
    Report r = like(Cue::sees_thing, Kind::other, thing);
    r.seen = a < tens;
    return r.seen ? facing(r, 10.0 * static_cast<double>(a)) : r;
  };
  d.put = [thing](Asked& asked) {
    const auto& m = asked.model();
    std::uint64_t next = 0;
    asked.put(
        tens + 1, [&](std::size_t) { return next++; },
        [&](std::size_t c, Row& row) {
          const auto view = sight::detail::view_of(m.planes, c, static_cast<std::size_t>(thing),
                                                   m.perception, m.visibility);
          const int reach = static_cast<int>(std::min(4 * view.sigma_deg / 10 + 1, 17.0));
          const int middle = static_cast<int>(std::lround(view.bearing_deg / 10));
          double sum = 0;
          for (int k = middle - reach; k <= middle + reach; ++k) {
            const double u = (10.0 * k - view.bearing_deg) / view.sigma_deg;
            const double v = view.sigma_deg > 100 ? 1 : std::exp(-0.5 * u * u);
            row[static_cast<std::size_t>(((k % tens) + tens) % tens)] += v;
            sum += v;
          }
          for (int k = 0; k < tens; ++k)
            row[static_cast<std::size_t>(k)] *= view.chance / std::max(sum, 1e-12);
          row[tens] = 1 - view.chance;
        });
  };
  return d;
}

/// Where one comes who walks from a cell: along the slope or up or down it, step by step.
struct Walk {
  std::size_t cell = 0;
  bool off_map = false, barred = false;
};
Walk walk_from(const CuePlanes& p, std::size_t from, Do act, double length_m) {
  const auto cols = static_cast<std::size_t>(p.frame.cols);
  GridPoint at = p.frame.centre(static_cast<int>(from / cols), static_cast<int>(from % cols));
  const double turn = act == Do::walk_down   ? 0
                      : act == Do::walk_up   ? 180
                      : act == Do::walk_left ? 90
                                             : 270;
  const bool was_barred = p.bar[from] != walking::Bar::none;
  Walk out{from};
  const double step = std::max(p.frame.cell_m, 25.0);
  for (double d = 0; d + 0.5 * step < length_m; d += step) {
    at = earth::step(at, units::GridBearing::degrees(p.fall_deg(out.cell) + turn), step);
    const auto next = p.cell(at);
    if (!next) {
      out.off_map = true;
      return out;
    }
    out.cell = *next;
    if (p.bar[*next] != walking::Bar::none && !was_barred) {
      out.barred = true;
      return out;
    }
  }
  return out;
}
}  // namespace

/// The change of height in five steps, times the fall there.
WalkDraft walk(Do act, const Asking& asking, const Asked& asked) {
  const auto& p = asked.model().planes;
  auto ends = std::make_shared<std::vector<Walk>>();
  std::size_t barred = 0;
  for (const std::size_t c : asked.cells()) {
    ends->push_back(walk_from(p, c, act, asking.walk_m));
    barred += ends->back().barred;
  }
  const double share_barred =
      static_cast<double>(barred) / static_cast<double>(std::max<std::size_t>(ends->size(), 1));
  Draft d;
  d.question.act = act;
  d.question.ask = facing(like(Cue::fall), 0);
  d.question.minutes = 1 + asking.walk_m / (asking.walk_kmh * 1000 / 60);
  d.told = [](std::size_t a) {
    static constexpr std::array<double, 5> middles{-80, -40, 0, 40, 80};
    Report r = fall_told(a % (sectors + 1));
    r.value = middles[a / (sectors + 1)];
    return r;
  };
  d.put = [ends](Asked& a) {
    const auto& planes = a.model().planes;
    std::uint64_t next = 0;
    std::unordered_map<std::uint64_t, Row> falls;
    a.put(
        5 * (sectors + 1), [&](std::size_t) { return next++; },
        [&](std::size_t c, Row& row) {
          const Walk& w = (*ends)[next - 1];
          if (w.off_map) {
            std::ranges::fill(row, 1 / static_cast<double>(row.size()));
            return;
          }
          const auto [fall, fresh] = falls.try_emplace(fall_key(planes, w.cell));
          if (fresh) fall->second = fall_row(a.model(), w.cell);
          // counted and felt, not read off an altimeter: 15 m on a climb of that size
          const double change = planes.height_m(w.cell) - planes.height_m(c), sigma = 15;
          double before = 0;
          for (std::size_t k = 0; k < 5; ++k) {
            const double below =
                k < change_edges.size() ? normal_cdf((change_edges[k] - change) / sigma) : 1;
            for (std::size_t f = 0; f <= sectors; ++f)
              row[k * (sectors + 1) + f] = (below - before) * fall->second[f];
            before = below;
          }
        });
  };
  return {std::move(d), share_barred};
}

std::vector<Draft> looks(const CuePlanes& planes, mapdata::Visibility visibility,
                         std::span<const std::size_t> cells, const Asking& asking) {
  std::vector<Draft> out;
  out.push_back(ask_height(asking));
  out.push_back(ask_fall());
  out.push_back(ask_steepness());
  out.push_back(ask_form());
  for (const auto& plane : planes.near) {
    // crests and valley floors are landforms, cliffs nobody is sent to look for
    if (plane.line && plane.kind != Kind::cliff && plane.kind != Kind::ridge_line &&
        plane.kind != Kind::valley_line)
      out.push_back(ask_line(plane.kind));
  }
  if (std::ranges::any_of(cells, [&](std::size_t c) { return planes.wood[c] != 0; }))
    out.push_back(ask_wood());
  for (std::size_t t = 0; t < planes.things.size(); ++t) {
    if (!planes.things[t].name.empty() && !planes.views[t].empty() &&
        sight::reach_m(planes.things[t].kind, visibility, planes.kinds) > 300)
      out.push_back(ask_thing(static_cast<std::int32_t>(t)));
  }
  return out;
}

}  // namespace lodeway::belief::detail
