#include "lodeway/earth/place_on_ground.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lodeway/earth/place_text.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::earth {

namespace {

constexpr double square_m = 100'000;

/// A reference without its square: the south-west corner within a 100 km square, and the side.
struct Reference {
  double east_m = 0, north_m = 0, side_m = 0;
  int digits = 0;  ///< each way
};

bool all_digits(std::string_view text) {
  return std::ranges::all_of(text, [](unsigned char c) { return std::isdigit(c) != 0; });
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c != ' ' && c != '\t')
      words.back() += c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

std::optional<Reference> reference_of(std::string_view text) {
  auto words = words_of(text);
  if (words.size() == 1 && words[0].size() % 2 == 0) {
    const auto half = words[0].size() / 2;
    words = {words[0].substr(0, half), words[0].substr(half)};
  }
  if (words.size() != 2 || words[0].size() != words[1].size()) return std::nullopt;
  const auto digits = static_cast<int>(words[0].size());
  if (digits < 3 || digits > 5 || !all_digits(words[0]) || !all_digits(words[1]))
    return std::nullopt;
  const double side = std::pow(10.0, 5 - digits);
  return Reference{side * std::stoi(words[0]), side * std::stoi(words[1]), side, digits};
}

/// Two whole numbers of few figures that are no whole reference: "97 18", "970 18".
std::optional<GridPoint> short_numbers(std::string_view text) {
  constexpr std::size_t most = 5;
  const auto words = words_of(text);
  if (words.size() != 2) return std::nullopt;
  for (const auto& word : words) {
    if (word.size() > most || !all_digits(word)) return std::nullopt;
  }
  return GridPoint{std::stod(words[0]), std::stod(words[1])};
}

std::string metres_text(GridPoint at) {
  return fmt::format("{:.0f} {:.0f}", at.east_m, at.north_m);
}

std::string how_to_write(const GridArea& ground) {
  const bool bounded = std::isfinite(ground.west_m);
  return fmt::format(
      "write its easting and northing in metres{}, or latitude and longitude",
      bounded ? fmt::format(" (from {} to {})", metres_text({ground.west_m, ground.south_m}),
                            metres_text({ground.east_m, ground.north_m}))
              : std::string());
}

bool is_on(GridPoint at, const GridArea& g) {
  return at.east_m >= g.west_m && at.east_m <= g.east_m && at.north_m >= g.south_m &&
         at.north_m <= g.north_m;
}

/// Centres of the reference's square in every 100 km square of the grid that lie on the ground.
std::vector<GridPoint> fitting(const Reference& r, const GridArea& g) {
  std::vector<GridPoint> out;
  const auto first = [&](double low, double within) {
    return std::ceil((low - within) / square_m) * square_m + within;
  };
  const double half = r.side_m / 2;
  for (double n = first(g.south_m, r.north_m + half); n <= g.north_m; n += square_m) {
    for (double e = first(g.west_m, r.east_m + half); e <= g.east_m; e += square_m)
      out.push_back({e, n});
  }
  return out;
}

Result<GridPoint> completed(std::string_view text, const Reference& r, const GridArea& ground) {
  const auto refused = [&](const std::string& why) {
    return fail(FaultCode::bad_input, fmt::format("place \"{}\": {}", units::plain(text, 60), why));
  };
  if (!std::isfinite(ground.west_m + ground.east_m + ground.south_m + ground.north_m)) {
    return refused(
        "expected a place; a grid reference without the letters of its 100 km square "
        "fits many; " +
        how_to_write(ground));
  }
  auto fit = fitting(r, ground);
  if (r.digits == 5) {  // a grid whose metres have five figures; where both are meant, it is one
    const GridPoint metres{r.east_m, r.north_m};
    const bool same = std::ranges::any_of(fit, [&](GridPoint p) {
      return std::abs(p.east_m - metres.east_m) <= r.side_m &&
             std::abs(p.north_m - metres.north_m) <= r.side_m;
    });
    if (same && fit.size() == 1) return metres;
    if (!same && is_on(metres, ground)) fit.push_back(metres);
  }
  if (fit.size() == 1) return fit.front();
  if (fit.empty()) {
    return refused("expected a place on the ground; nowhere on it is this grid reference; " +
                   how_to_write(ground));
  }
  std::vector<std::string> which;
  // With a point it is metres beyond doubt, also where those have five figures.
  for (const GridPoint p : fit)
    which.push_back(r.digits == 5 ? fmt::format("{:.1f} {:.1f}", p.east_m, p.north_m)
                                  : metres_text(p));
  if (which.size() > 3) which.resize(3);
  return refused(
      fmt::format("expected one place; {} on the ground have this grid reference: "
                  "write {} in full",
                  fit.size(), fmt::join(which, " or ")));
}

}  // namespace

Result<void> on_ground(GridPoint at, const GridArea& g) {
  if (is_on(at, g)) return {};
  const double east = std::max(at.east_m - g.east_m, 0.0) - std::max(g.west_m - at.east_m, 0.0);
  const double north =
      std::max(at.north_m - g.north_m, 0.0) - std::max(g.south_m - at.north_m, 0.0);
  const double far = std::hypot(east, north);
  const std::string side = std::string(north > 0   ? "north"
                                       : north < 0 ? "south"
                                                   : "") +
                           (north != 0 && east != 0 ? "-" : "") +
                           (east > 0   ? "east"
                            : east < 0 ? "west"
                                       : "");
  return fail(FaultCode::outside_ground,
              fmt::format("expected a place on the ground; this one lies {} outside it, to the {}",
                          far < 1000 ? fmt::format("{:.0f} m", std::max(1.0, far))
                                     : fmt::format("{:.1f} km", far / 1000),
                          side));
}

namespace {

/// Latitude and longitude in whole degrees, or metres of a grid whose figures are few, where that is
/// on the ground. Anything else somebody read off a map's edge: it is never metres near the grid's
/// origin.
Result<GridPoint> from_short_numbers(std::string_view text, GridPoint numbers,
                                     const GridArea& ground) {
  if (std::abs(numbers.east_m) <= 90 && std::abs(numbers.north_m) <= 180) {
    const auto at = ground.grid.to_grid({numbers.east_m, numbers.north_m});
    if (at && is_on(*at, ground)) return at;
  }
  if (is_on(numbers, ground)) return numbers;
  return fail(FaultCode::bad_input,
              fmt::format("place \"{}\": expected a place; a grid reference has three figures or "
                          "more to the east and as many to the north, like 970 185; or {}",
                          units::plain(text, 60), how_to_write(ground)));
}

}  // namespace

Result<GridPoint> place_about_ground(std::string_view text, const GridArea& ground) {
  if (const auto reference = reference_of(text)) return completed(text, *reference, ground);
  const bool bounded = std::isfinite(ground.west_m + ground.east_m + ground.south_m + ground.north_m);
  if (const auto numbers = short_numbers(text); numbers && bounded)
    return from_short_numbers(text, *numbers, ground);
  const auto geographic = parse_place(text, &ground.grid);
  if (!geographic) return std::unexpected(geographic.error());
  auto at = ground.grid.to_grid(*geographic);
  if (!at && at.error().code == FaultCode::outside_validity)
    return fail(FaultCode::outside_validity,
                at.error().what + "; a longitude west of Greenwich has a minus");
  return at;
}

Result<GridPoint> place_on_ground(std::string_view text, const GridArea& ground) {
  const auto at = place_about_ground(text, ground);
  if (!at) return at;
  if (const auto inside = on_ground(*at, ground); !inside)
    return fail_in(fmt::format("place \"{}\"", units::plain(text, 60)), inside.error());
  return at;
}

}  // namespace lodeway::earth
