#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/tasks/ground.hpp"
#include "lodeway/tasks/ground_words.hpp"
#include "lodeway/units/refusal_in.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::tasks {

namespace {

using mapdata::Kind;

void count_heights(GroundSummary& out, const terrain::Elevation& heights) {
  std::size_t voids = 0;
  out.min_m = std::numeric_limits<double>::infinity();
  out.max_m = -out.min_m;
  for (const float z : heights.cells()) {
    if (std::isnan(z)) {
      ++voids;
      continue;
    }
    out.min_m = std::min(out.min_m, static_cast<double>(z));
    out.max_m = std::max(out.max_m, static_cast<double>(z));
  }
  const std::size_t all = heights.cells().size();
  out.void_share = all == 0 ? 1.0 : static_cast<double>(voids) / static_cast<double>(all);
  if (voids == all) out.min_m = out.max_m = std::numeric_limits<double>::quiet_NaN();
}

void count_landforms(GroundSummary& out, const terrain::Raster<terrain::Landform>& forms) {
  std::array<std::size_t, 11> counts{};
  for (const auto form : forms.cells()) ++counts[static_cast<std::size_t>(form)];
  const auto known = static_cast<double>(forms.cells().size() - counts[0]);
  for (std::size_t k = 1; k < counts.size(); ++k) {
    if (counts[k] == 0) continue;
    out.landforms.push_back(
        {static_cast<terrain::Landform>(k), static_cast<double>(counts[k]) / known});
  }
}

double area_m2(const mapdata::AreaFeature& area) {
  const auto of = [](const std::vector<earth::GridPoint>& ring) {  // holes run the other way
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const auto a = ring[i] - ring[0], b = ring[(i + 1) % ring.size()] - ring[0];
      twice += a.east_m * b.north_m - b.east_m * a.north_m;
    }
    return twice / 2;
  };
  double sum = of(area.outer);
  for (const auto& hole : area.holes) sum += of(hole);
  return sum;
}

void say_missing(GroundSummary& out, const walking::Ground& ground) {
  const auto any = [&](std::initializer_list<Kind> kinds) {
    return std::ranges::any_of(out.kinds, [&](const auto& k) {
      return k.count > k.from_relief && std::ranges::find(kinds, k.kind) != kinds.end();
    });
  };
  const auto say = [&](bool missing, const char* what) {
    if (missing) out.missing.emplace_back(what);
  };
  const bool any_mapped =
      std::ranges::any_of(out.kinds, [](const auto& k) { return k.count > k.from_relief; });
  say(!any_mapped, "no map features at all: only the relief is known");
  const auto stream = std::ranges::find(out.kinds, Kind::stream, &GroundSummary::OfKind::kind);
  if (stream != out.kinds.end() && stream->from_relief > 0) {
    out.missing.emplace_back(
        "no streams on the map: those worked out from the relief stand in; some may be dry");
  }
  std::int64_t guessed = 0;
  double guessed_m2 = 0;
  for (const auto& area : ground.map.areas) {
    if (area.label.origin != mapdata::Origin::from_relief) continue;
    ++guessed;
    guessed_m2 += area_m2(area);
  }
  if (guessed > 0) {
    out.missing.push_back(fmt::format(
        "no lakes on the map: {} of the heights ({:.2f} km2) taken as water, drawn with a broken "
        "rim "
        "and never walked over; if this is land, build with --dry-flats. Smaller or rougher lakes "
        "are not found: a way may lead into water",
        guessed == 1 ? "one dead-flat area" : fmt::format("{} dead-flat areas", guessed),
        guessed_m2 / 1e6));
  } else {
    say(!any({Kind::lake, Kind::sea}),
        "no lakes on the map, and no dead-flat area of the heights is taken as one: a way may lead "
        "into water");
  }
  say(!any({Kind::river}), "no rivers on the map: a way may cross one without a word of it");
  say(!any({Kind::cliff}),
      "no cliffs on the map: steep ground is known from the heights alone, and a drop narrower "
      "than "
      "two of their cells may not show in them");
  say(!any({Kind::path, Kind::faint_path, Kind::track}),
      "no paths or tracks on the map: every leg is on a bearing or along water, ridges and "
      "valleys");
  if (any_mapped) {
    say(!any({Kind::road}), "no roads on the map: escape routes do not end at one");
    say(!any({Kind::stream, Kind::ditch}) &&
            !(stream != out.kinds.end() && stream->from_relief > 0),
        "no streams on the map: neither led by, nor stopped by, nor kept off");
    say(!any({Kind::wood}), "no woods on the map: walked through and seen through as if open");
    say(!any({Kind::wall, Kind::fence, Kind::hedge}),
        "no walls or fences on the map: neither led by nor climbed");
  }
  if (out.void_share > 0) {
    out.missing.push_back(
        fmt::format("no heights on {:.1f} % of the ground", 100 * out.void_share));
  }
  const auto say_unknown = [&](std::string mapdata::Source::* field, const char* what) {
    std::vector<std::string> names;
    for (const mapdata::Source& s : out.sources) {
      if ((s.*field).empty()) names.push_back(s.file);
    }
    if (!names.empty())
      out.missing.push_back(fmt::format("{} of {}", what, fmt::join(names, ", ")));
  };
  say_unknown(&mapdata::Source::licence, "the licence");
  say_unknown(&mapdata::Source::attribution, "whom to credit for the use");
  if (const std::string datum = ground.grid.datum_remark(); !datum.empty())
    out.missing.push_back(datum);
}

std::string or_unknown(const std::string& text, units::Language in) {
  return text.empty() ? units::in(in, "not known", "nicht bekannt") : text;
}

std::string kind_text(Kind kind, units::Language in) {
  return in == units::Language::german ? landmarks::thing(kind, "", in)
                                       : std::string(mapdata::kind_words(kind));
}

std::string form_text(terrain::Landform form, units::Language in) {
  constexpr std::array german{"unbekannt", "eben",  "Gipfel",  "Rücken", "Schulter", "Sporn",
                              "Hang",      "Mulde", "Hangfuß", "Tal",    "Senke"};
  return in == units::Language::german ? german[static_cast<std::size_t>(form)]
                                       : std::string(terrain::landform_name(form));
}

}  // namespace

GroundSummary summarise(const walking::Ground& ground) {
  GroundSummary out;
  out.name = ground.name;
  out.crs = ground.grid.name();
  out.epsg = ground.grid.epsg();
  out.frame = ground.elevation.frame();
  out.sources = ground.sources;
  count_heights(out, ground.elevation);
  std::array<GroundSummary::OfKind, mapdata::kind_count> all{};
  const auto of = [&](const mapdata::Label& label) -> GroundSummary::OfKind& {
    return all[static_cast<std::size_t>(label.kind)];
  };
  const auto count = [&](const mapdata::Label& label) {
    ++of(label).count;
    if (label.origin == mapdata::Origin::from_relief) ++of(label).from_relief;
  };
  for (const auto& p : ground.map.points) count(p.label);
  for (const auto& a : ground.map.areas) count(a.label);
  for (const auto& l : ground.map.lines) {
    count(l.label);
    of(l.label).length_km += mapdata::length_m(l.points) / 1000;
  }
  for (int k = 0; k < mapdata::kind_count; ++k) {
    auto& one = all[static_cast<std::size_t>(k)];
    one.kind = static_cast<Kind>(k);
    if (one.count > 0) out.kinds.push_back(one);
  }
  count_landforms(out, ground.landforms);
  say_missing(out, ground);
  return out;
}

std::string ground_text(const GroundSummary& s, units::Language in) {
  const auto said = [&](const char* english, const char* german, const auto&... values) {
    return units::said(in, english, german, values...);
  };
  const terrain::Frame& f = s.frame;
  std::string out =
      fmt::format("{}\n  {} {}{}\n", s.name, units::in(in, "grid      ", "Gitter    "), s.crs,
                  s.epsg > 0 ? fmt::format(" (EPSG:{})", s.epsg) : std::string());
  out += said("  extent     east {:.0f} to {:.0f}, north {:.0f} to {:.0f} m ({:.1f} x {:.1f} km)\n",
              "  Ausdehnung Ost {:.0f} bis {:.0f}, Nord {:.0f} bis {:.0f} m ({:.1f} x {:.1f} km)\n",
              f.west_m, f.east_m(), f.south_m(), f.north_m, f.cell_m * f.cols / 1000,
              f.cell_m * f.rows / 1000);
  const auto heights =
      std::isnan(s.min_m)
          ? std::string(units::in(in, "no height is known", "keine Höhe ist bekannt"))
          : said("{:.0f} to {:.0f} m", "{:.0f} bis {:.0f} m", s.min_m, s.max_m);
  out += said("  relief     {} x {} cells of {:g} m, {}, {:.1f} % void\n",
              "  Relief     {} x {} Zellen von {:g} m, {}, {:.1f} % Lücken\n", f.cols, f.rows,
              f.cell_m, heights, 100 * s.void_share);
  out += units::in(in, "  features\n", "  Objekte\n");
  const auto* derived = units::in(in, "derived from elevation", "aus den Höhen berechnet");
  for (const auto& k : s.kinds) {
    out += fmt::format("    {:<14}{:>8}", kind_text(k.kind, in), k.count);
    std::string more =
        k.length_km > 0 ? units::decimals(in, fmt::format("{:>10.1f} km", k.length_km)) : "";
    if (k.from_relief == k.count) {
      more = fmt::format("{:13}  {}", more, derived);
    } else if (k.from_relief > 0) {
      more = fmt::format("{:13}  {} {}", more, k.from_relief, derived);
    }
    out += more + "\n";
  }
  if (!s.landforms.empty()) {
    std::vector<std::string> shares;
    for (const auto& [form, share] : s.landforms) {
      shares.push_back(fmt::format("{} {} %", form_text(form, in),
                                   units::decimals(in, fmt::format("{:.1f}", 100 * share))));
    }
    out += fmt::format("  {} {}\n", units::in(in, "landforms ", "Formen    "),
                       fmt::join(shares, ", "));
  }
  out += units::in(in, "  sources\n", "  Quellen\n");
  const auto what = [&](const std::string& of) {
    if (in == units::Language::english) return of;
    return std::string(of == "elevation" ? "Höhen" : of == "features" ? "Objekte" : of);
  };
  for (const auto& source : s.sources) {
    out += fmt::format(fmt::runtime(units::in(in, "    {} ({}, {}{}): licence {}; credit {}\n",
                                              "    {} ({}, {}{}): Lizenz {}; zu nennen {}\n")),
                       source.file, what(source.what), or_unknown(source.crs, in),
                       source.date.empty() ? "" : ", " + source.date,
                       or_unknown(source.licence, in), or_unknown(source.attribution, in));
  }
  for (const auto& line : s.missing)
    out += units::in(in, "  missing    ", "  Lücke      ") + units::refusal_in(in, line) + "\n";
  for (const auto& line : s.remarks)
    out += units::in(in, "  remark     ", "  Hinweis    ") + units::refusal_in(in, line) + "\n";
  return out;
}

std::string ground_json(const GroundSummary& s) {
  const auto number = [](double v) {
    return std::isfinite(v) ? nlohmann::ordered_json(v) : nlohmann::ordered_json();
  };
  nlohmann::ordered_json out;
  out["name"] = s.name;
  out["crs"] = s.crs;
  out["epsg"] = s.epsg;
  out["cell_m"] = s.frame.cell_m;
  out["rows"] = s.frame.rows;
  out["cols"] = s.frame.cols;
  out["bounds_m"] = {s.frame.west_m, s.frame.south_m(), s.frame.east_m(), s.frame.north_m};
  out["void_share"] = s.void_share;
  out["min_m"] = number(s.min_m);
  out["max_m"] = number(s.max_m);
  out["kinds"] = nlohmann::ordered_json::object();
  out["lengths_km"] = nlohmann::ordered_json::object();
  for (const auto& k : s.kinds) {
    const std::string name(mapdata::kind_name(k.kind));
    out["kinds"][name] = k.count;
    if (k.length_km > 0) out["lengths_km"][name] = k.length_km;
  }
  out["derived_from_elevation"] = nlohmann::ordered_json::object();
  for (const auto& k : s.kinds) {
    if (k.from_relief > 0) {
      out["derived_from_elevation"][std::string(mapdata::kind_name(k.kind))] = k.from_relief;
    }
  }
  out["landforms"] = nlohmann::ordered_json::object();
  for (const auto& f : s.landforms) {
    out["landforms"][std::string(terrain::landform_name(f.form))] = f.share;
  }
  out["sources"] = nlohmann::ordered_json::array();
  for (const auto& source : s.sources) {
    out["sources"].push_back({{"what", source.what},
                              {"file", source.file},
                              {"title", source.title},
                              {"licence", source.licence},
                              {"attribution", source.attribution},
                              {"crs", source.crs},
                              {"date", source.date}});
  }
  out["missing"] = s.missing;
  if (!s.remarks.empty()) out["remarks"] = s.remarks;
  return out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
