// Names: find a place by what it is called, write the names of a part of the map, say what stands
// at a place.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "apps/server/routes/say.hpp"
#include "apps/server/store/service.hpp"
#include "lodeway/earth/place_text.hpp"
#include "lodeway/io/text/fold_text.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/tasks/map_sign.hpp"
#include "lodeway/units/refusal_in.hpp"

namespace lodeway::server {

namespace {

constexpr std::size_t most_found = 12, most_names = 500;

std::optional<double> figure(const Request& request, const std::string& key) {
  const auto text = request.asked(key);
  double out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  const bool whole = error == std::errc{} && end == text.data() + text.size();
  return whole && std::isfinite(out) ? std::optional(out) : std::nullopt;
}

std::string kind_text(mapdata::Kind kind, units::Language language) {
  return landmarks::thing(kind, "", language);
}

Json found_json(const OpenGround& ground, const landmarks::FoundName& found, earth::GridPoint near,
                units::Language language) {
  const auto& n = ground.names().all()[found.index];
  const double height = terrain::height_at(ground.ground.elevation, n.at);
  return {{"name", n.name},
          {"kind", mapdata::kind_name(n.kind)},
          {"kind_words", kind_text(n.kind, language)},
          {"at_grid_m", point_json(n.at)},
          {"easting_northing", fmt::format("{:.0f} {:.0f}", n.at.east_m, n.at.north_m)},
          {"grid_reference", earth::six_figure_reference(n.at)},
          {"height_m", std::isfinite(height) ? Json(height) : Json()},
          {"distance_m", earth::grid_distance_m(n.at, near)},
          {"slips", found.slips}};
}

units::Language language_of(const Request& request) {
  return request.asked("language") == "de" ? units::Language::german : units::Language::english;
}

/// A square that figures name, and how they were read.
struct ReadFigures {
  earth::GridPoint south_west;
  double side_m = 0;
  std::string east, north;
};
/// Six, eight or ten figures name a square within each 100 km square: those that this ground holds.
std::vector<ReadFigures> squares_of(std::string_view typed, const terrain::Frame& frame) {
  std::string figures, first, second;
  bool parted = false;
  for (const char c : typed) {
    if (c >= '0' && c <= '9') {
      figures += c;
      (parted ? second : first) += c;
    } else if (c == ' ' || c == ',') {
      if (!first.empty()) parted = true;
    } else {
      return {};
    }
  }
  const std::size_t n = figures.size();
  if ((n != 6 && n != 8 && n != 10) || (parted && first.size() != second.size())) return {};
  const auto half = n / 2;
  const double side = std::pow(10.0, 5.0 - static_cast<double>(half));
  const double east = std::stod(figures.substr(0, half)) * side,
               north = std::stod(figures.substr(half)) * side;
  constexpr double hundred_km = 100'000;
  std::vector<ReadFigures> out;
  const auto first_of = [](double low, double part) {
    return std::floor((low - part) / hundred_km) * hundred_km + part;
  };
  for (double e = first_of(frame.west_m, east); e < frame.east_m(); e += hundred_km) {
    for (double k = first_of(frame.south_m(), north); k < frame.north_m; k += hundred_km) {
      if (e + side <= frame.west_m || k + side <= frame.south_m()) continue;
      out.push_back({{e, k}, side, figures.substr(0, half), figures.substr(half)});
    }
  }
  return out;
}

Json square_json(const OpenGround& ground, const ReadFigures& square, earth::GridPoint near,
                 units::Language language) {
  const earth::GridPoint middle{square.south_west.east_m + square.side_m / 2,
                                square.south_west.north_m + square.side_m / 2};
  auto in_it = Json::array();
  const auto& names = ground.names();
  for (const auto i : names.in_box(
           square.south_west,
           {square.south_west.east_m + square.side_m, square.south_west.north_m + square.side_m},
           4)) {
    const auto& n = names.all()[i];
    if (n.name.empty() || !n.spots.empty()) continue;
    in_it.push_back(found_json(ground, {i, landmarks::Fit::whole, 0}, near, language));
  }
  const double height = terrain::height_at(ground.ground.elevation, middle);
  return {{"east_figures", square.east},
          {"north_figures", square.north},
          {"side_m", square.side_m},
          {"south_west_grid_m", point_json(square.south_west)},
          {"at_grid_m", point_json(middle)},
          {"easting_northing", fmt::format("{:.0f} {:.0f}", middle.east_m, middle.north_m)},
          {"grid_reference", earth::six_figure_reference(middle)},
          {"height_m", std::isfinite(height) ? Json(height) : Json()},
          {"distance_m", earth::grid_distance_m(middle, near)},
          {"in_it", in_it}};
}

Answer find(Service& s, const Request& request, const std::string& id) {
  const auto ground = s.shelf.open(id);
  if (!ground) return Answer::fault(ground.error());
  const auto& frame = (*ground)->ground.elevation.frame();
  const auto typed = std::string(request.asked("text"));
  const auto east = figure(request, "east_m"), north = figure(request, "north_m");
  const earth::GridPoint near = east && north
                                    ? earth::GridPoint{*east, *north}
                                    : earth::GridPoint{(frame.west_m + frame.east_m()) / 2,
                                                       (frame.south_m() + frame.north_m) / 2};
  const auto language = language_of(request);
  auto names = Json::array(), squares = Json::array();
  for (const auto& one : (*ground)->names().find(typed, near, most_found, io::fold_text)) {
    names.push_back(found_json(**ground, one, near, language));
  }
  for (const auto& square : squares_of(typed, frame))
    squares.push_back(square_json(**ground, square, near, language));
  Json place;
  std::string why_not;
  const bool figures = std::ranges::any_of(typed, [](char c) { return c >= '0' && c <= '9'; });
  if (squares.empty() && figures) {
    const auto& grid = (*ground)->ground.grid;
    const auto geographic = earth::parse_place(typed, &grid);
    const auto at = geographic ? grid.to_grid(*geographic)
                               : Result<earth::GridPoint>(std::unexpected(geographic.error()));
    if (!at) {
      why_not = units::refusal_in(language, at.error().what);
    } else if (const auto told = place_json((*ground)->ground, *at)) {
      place = *told;
    }
  }
  return Answer::json({{"names", names},
                       {"squares", squares},
                       {"place", place},
                       {"why_not", text_or_null(why_not)}});
}

Answer names_in(Service& s, const Request& request, const std::string& id) {
  const auto ground = s.shelf.open(id);
  if (!ground) return Answer::fault(ground.error());
  const auto west = figure(request, "west_m"), south = figure(request, "south_m"),
             east = figure(request, "east_m"), north = figure(request, "north_m");
  if (!west || !south || !east || !north)
    return Answer::fault(
        {FaultCode::bad_input, "west_m: expected west_m, south_m, east_m, north_m"});
  const auto& names = (*ground)->names();
  const earth::GridPoint low{*west, *south}, high{*east, *north};
  auto out = Json::array();
  for (const auto i : names.in_box(low, high, most_names)) {
    const auto& n = names.all()[i];
    auto spots = Json::array();
    for (const auto& spot : n.spots) {
      if (spot.at.east_m < low.east_m || spot.at.east_m > high.east_m ||
          spot.at.north_m < low.north_m || spot.at.north_m > high.north_m)
        continue;
      spots.push_back({spot.at.east_m, spot.at.north_m, spot.bearing_deg});
    }
    out.push_back({{"name", n.name},
                   {"kind", mapdata::kind_name(n.kind)},
                   {"at_grid_m", point_json(n.at)},
                   {"height_m", std::isfinite(n.height_m) ? Json(n.height_m) : Json()},
                   {"spots", spots}});
  }
  return Answer::json({{"names", out}});
}

constexpr double beside_m = 15, called_within_m = 1000;

/// Eight winds, from north by the sun.
constexpr std::array winds{"north", "north-east", "east", "south-east",
                           "south", "south-west", "west", "north-west"};
constexpr std::array german_winds{"nördlich", "nordöstlich", "östlich",  "südöstlich",
                                  "südlich",  "südwestlich", "westlich", "nordwestlich"};

/// "60 m north of Tarn House"; empty when nothing with a name is within a kilometre.
std::string called(const OpenGround& ground, earth::GridPoint at, units::Language language) {
  const landmarks::Named* best = nullptr;
  double least = called_within_m;
  for (const auto& n : ground.names().all()) {
    const double d = earth::grid_distance_m(n.at, at);
    if (n.name.empty() || !n.spots.empty() || d >= least) continue;
    least = d;
    best = &n;
  }
  if (best == nullptr) return {};
  if (least < 5) return best->name;
  const double deg = earth::grid_bearing(best->at, at).in_degrees();
  const auto wind = static_cast<std::size_t>(std::lround(deg / 45)) % 8;
  const double round = least < 100 ? std::round(least / 5) * 5 : std::round(least / 10) * 10;
  return language == units::Language::german
             ? fmt::format("{:.0f} m {} von {}", round, german_winds[wind], best->name)
             : fmt::format("{:.0f} m {} of {}", round, winds[wind], best->name);
}

/// What a click means: the named thing or the fix that is nearest; a name counts double.
Json stands_on(const OpenGround& ground, earth::GridPoint at, double within_m,
               units::Language language) {
  std::string name, kind;
  earth::GridPoint place;
  double least = std::numeric_limits<double>::infinity(), away = 0;
  const auto offer = [&](const std::string& words, const std::string& what, earth::GridPoint there,
                         double weight) {
    const double d = earth::grid_distance_m(there, at);
    if (d > within_m || d * weight >= least) return;
    least = d * weight;
    away = d;
    name = words;
    kind = what;
    place = there;
  };
  for (const auto& n : ground.names().all()) {
    if (n.spots.empty() && !n.name.empty() && n.kind != mapdata::Kind::wood &&
        n.kind != mapdata::Kind::lake && n.kind != mapdata::Kind::marsh)
      offer(n.name, kind_text(n.kind, language), n.at, 1);
  }
  const auto& fixes = *ground.finder().fixes();
  for (const auto i : fixes.near(at, within_m)) {
    const auto& fix = fixes[i];
    offer(landmarks::words(fix, language), kind_text(fix.kind, language), fix.at, 2);
  }
  if (!std::isfinite(least)) return nullptr;
  return {{"name", name},
          {"kind_words", kind},
          {"at_grid_m", point_json(place)},
          {"easting_northing", fmt::format("{:.0f} {:.0f}", place.east_m, place.north_m)},
          {"distance_m", away}};
}

/// The surfaces that hold the place, and the lines within 15 m of it, in words.
Json what_is_there(const OpenGround& ground, earth::GridPoint at, units::Language language) {
  std::vector<std::string> out;
  const auto add = [&](const mapdata::Label& label) {
    auto words = kind_text(label.kind, language);
    if (!label.name.empty()) words = label.name + ", " + words;
    if (std::ranges::find(out, words) == out.end()) out.push_back(std::move(words));
  };
  for (const auto& area : ground.ground.map.areas) {
    if (area.label.kind != mapdata::Kind::other && mapdata::contains(area, at)) add(area.label);
  }
  const auto& net = ground.finder().fixes()->network();
  for (const auto& touch : net.touch(at, beside_m))
    add(ground.ground.map.lines[net.edges()[touch.edge].line].label);
  return out;
}

Answer what(Service& s, const Request& request, const std::string& id) {
  const auto ground = s.shelf.open(id);
  if (!ground) return Answer::fault(ground.error());
  const auto east = figure(request, "east_m"), north = figure(request, "north_m");
  if (!east || !north)
    return Answer::fault({FaultCode::bad_input, "east_m: expected east_m and north_m"});
  const earth::GridPoint at{*east, *north};
  const double within = std::clamp(figure(request, "within_m").value_or(0), 0.0, 2000.0);
  const auto language = language_of(request);
  const auto place = place_json((*ground)->ground, at);
  if (!place) return Answer::fault(place.error());
  return Answer::json({{"place", *place},
                       {"stands_on", stands_on(**ground, at, within, language)},
                       {"called", text_or_null(called(**ground, at, language))},
                       {"kinds", what_is_there(**ground, at, language)}});
}

/// A sign of the map for the legend; the same for ever, so it may be kept.
Answer sign(const Request& request, const std::string& name) {
  constexpr std::string_view ending = ".png";
  if (!name.ends_with(ending)) return Answer::not_found("sign");
  const auto kind =
      mapdata::kind_from_name(std::string_view(name).substr(0, name.size() - ending.size()));
  if (!kind) return Answer::not_found("sign");
  auto png = tasks::map_sign(*kind, request.asked("dots") == "2" ? 2 : 1,
                             request.asked("theme") == "dark");
  if (!png) return Answer::fault(png.error());
  auto out = Answer::bytes(std::make_shared<const std::string>(*std::move(png)), "image/png");
  out.headers.emplace_back("Cache-Control", "private, max-age=3600");
  return out;
}

using Asked = Answer (*)(Service&, const Request&, const std::string&);

}  // namespace

void add_name_routes(Router& r, Service& s) {
  const auto add = [&](const std::string& pattern, Asked answer) {
    r.add("GET", pattern, [&s, answer](const Request& q, const Pieces& p) {
      return s.shelf.find(p[0]) ? answer(s, q, p[0]) : Answer::not_found("ground");
    });
  };
  add("/api/grounds/{id}/find", find);
  add("/api/grounds/{id}/names", names_in);
  add("/api/grounds/{id}/what", what);
  r.add("GET", "/api/signs/{kind}",
        [](const Request& q, const Pieces& p) { return sign(q, p[0]); });
}

}  // namespace lodeway::server
