#include "lodeway/earth/place_text.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cctype>
#include <charconv>
#include <cmath>
#include <exception>
#include <iterator>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <GeographicLib/MGRS.hpp>
#include <GeographicLib/UTMUPS.hpp>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::earth {

namespace {

constexpr std::size_t longest_text = 200;
constexpr double equator_from_south_m = 10'000'000;

/// 399999.9999999998 is no place of its own: it is what projecting 400 000 there and back leaves,
/// and cutting it off would name the next square.
double to_millimetres(double m) { return std::round(m * 1000) / 1000; }

std::unexpected<Fault> refuse(std::string_view text, const std::string& expected) {
  return fail(FaultCode::bad_input,
              fmt::format("place \"{}\": expected {}", units::plain(text, 60), expected));
}

/// Every form that is understood, by an example of each.
std::string any_place(bool grid) {
  return std::string(grid ? "easting northing of the ground's grid (481800 6050400), " : "") +
         "latitude longitude (53.0685 -4.0763), UTM (30N 427884 5880432) or MGRS (30UVD 27884 "
         "80432)";
}

/// Marks of degrees, minutes and seconds, and blanks, as keyboards and web pages give them, become
/// spaces; the minus and the hyphens of typesetters become "-". What is left is of the text itself.
std::string plain(std::string_view text) {
  constexpr std::array<std::pair<std::string_view, char>, 19> marks{{
      {"\u00b0", ' '}, {"\u00ba", ' '}, {"\u00b4", ' '}, {"\u02b9", ' '}, {"\u02ba", ' '},
      {"\u2018", ' '}, {"\u2019", ' '}, {"\u201c", ' '}, {"\u201d", ' '}, {"\u2032", ' '},
      {"\u2033", ' '}, {"\u00a0", ' '}, {"\u2009", ' '}, {"\u202f", ' '}, {"\xb0", ' '},
      {"\u2212", '-'}, {"\u2010", '-'}, {"\u2011", '-'}, {"\u2013", '-'},
  }};
  std::string out;
  while (!text.empty()) {
    const auto mark =
        std::ranges::find_if(marks, [&](const auto& m) { return text.starts_with(m.first); });
    out += mark == marks.end() ? text.front() : mark->second;
    text.remove_prefix(mark == marks.end() ? 1 : mark->first.size());
  }
  return out;
}

/// The text cut into numbers and letters; marks, commas and spaces part them.
struct Token {
  bool number = false;
  double value = 0;
  std::string text;
  bool behind_comma = false;
};

std::optional<std::vector<Token>> tokens_of(std::string_view text) {
  std::vector<Token> out;
  std::size_t i = 0;
  bool comma = false;
  while (i < text.size()) {
    const char c = text[i];
    if ((c >= '0' && c <= '9') || c == '-' || c == '+' || c == '.') {
      const std::size_t start = c == '+' ? i + 1 : i;
      double value = 0;
      const auto [end, error] = std::from_chars(text.data() + start, text.data() + text.size(),
                                                value, std::chars_format::fixed);
      if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
      out.push_back({true, value, std::string(text.data() + i, end), std::exchange(comma, false)});
      i = static_cast<std::size_t>(end - text.data());
    } else if ((c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z')) {
      std::string word;
      while (i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])) != 0) {
        word += static_cast<char>(std::toupper(static_cast<unsigned char>(text[i++])));
      }
      out.push_back({false, 0, word, std::exchange(comma, false)});
    } else if (c == ' ' || c == ',' || c == '\t' || c == '\'' || c == '"' || c == ';' || c == ':') {
      comma = comma || c == ',';
      ++i;
    } else {
      return std::nullopt;
    }
  }
  return out;
}

bool is_letter(const Token& t, std::string_view letters) {
  return !t.number && t.text.size() == 1 && letters.find(t.text[0]) != std::string_view::npos;
}

/// Degrees from one to three numbers: degrees, minutes, seconds; the sign stands on the degrees. No
/// comma between them: in "53,07" somebody meant a decimal, not seven minutes.
std::optional<double> degrees_of(std::span<const Token> part) {
  if (part.empty() || part.size() > 3) return std::nullopt;
  double sum = 0, unit = 1;
  for (std::size_t i = 0; i < part.size(); ++i) {
    const double v = std::abs(part[i].value);
    const bool last = i + 1 == part.size();
    if (i > 0 && (part[i].text[0] == '-' || part[i].behind_comma || v >= 60)) return std::nullopt;
    if (!last && v != std::floor(v)) return std::nullopt;
    sum += v / unit;
    unit *= 60;
  }
  return part[0].text[0] == '-' ? -sum : sum;
}

Result<Geographic> checked(std::string_view text, double lat, double lon) {
  if (std::abs(lat) > 90) return refuse(text, "a latitude within 90 degrees");
  if (std::abs(lon) > 180) return refuse(text, "a longitude within 180 degrees");
  return Geographic{lat, lon};
}

/// "53 04.11N 4 04.58W" or "N53 04.11 W4 04.58": the letters stand behind their numbers, or before.
/// Longitude may come first.
Result<Geographic> with_letters(std::string_view text, const std::vector<Token>& t, bool grid) {
  std::vector<std::size_t> letters;
  for (std::size_t i = 0; i < t.size(); ++i) {
    if (!t[i].number) letters.push_back(i);
  }
  if (letters.size() == 2 && (letters[1] + 1 == t.size() || letters[0] == 0)) {
    const std::span<const Token> all(t);
    const auto [la, lb] = std::pair{letters[0], letters[1]};
    const auto a = degrees_of(la == 0 ? all.subspan(1, lb - 1) : all.subspan(0, la));
    const auto b = degrees_of(la == 0 ? all.subspan(lb + 1) : all.subspan(la + 1, lb - la - 1));
    const auto signed_by = [&](double v, std::size_t letter) {
      return is_letter(t[letter], "SW") ? -v : v;
    };
    if (a && b && !std::signbit(*a) && !std::signbit(*b)) {
      const double first = signed_by(*a, la), second = signed_by(*b, lb);
      if (is_letter(t[la], "NS") && is_letter(t[lb], "EW")) return checked(text, first, second);
      if (is_letter(t[la], "EW") && is_letter(t[lb], "NS")) return checked(text, second, first);
    }
  }
  return letters.size() == 2 && t.size() > 2
             ? refuse(text,
                      "latitude and longitude, like 53.0685 -4.0763 or 53°04'06.6\"N 4°04'34.7\"W")
             : refuse(text, any_place(grid));
}

Result<Geographic> utm_text(std::string_view text, const std::vector<Token>& t) {
  if (!(t[0].value >= 1 && t[0].value <= 60) || t[0].value != std::floor(t[0].value)) {
    return refuse(text, "a UTM zone from 1 to 60");
  }
  if (!is_letter(t[1], "NS")) {
    return refuse(text, "N or S (the hemisphere) after the UTM zone, like 30N 427884 5880432");
  }
  const int zone = static_cast<int>(t[0].value);
  try {
    Geographic out;
    double gamma = 0, k = 0;
    GeographicLib::UTMUPS::Reverse(zone, t[1].text == "N", t[2].value, t[3].value, out.lat_deg,
                                   out.lon_deg, gamma, k);
    return out;
  } catch (const std::exception&) {
    return refuse(text, "a UTM easting of 0 to 1000 km and a northing that the zone has");
  }
}

std::string without_spaces(std::string_view text) {
  std::string out;
  std::ranges::copy_if(text, std::back_inserter(out), [](char c) { return c != ' '; });
  return out;
}

bool looks_like_mgrs(const std::string& s) {
  std::size_t digits = 0;
  while (digits < s.size() && digits < 2 &&
         std::isdigit(static_cast<unsigned char>(s[digits])) != 0)
    ++digits;
  std::size_t letters = 0;
  while (digits + letters < s.size() &&
         std::isalpha(static_cast<unsigned char>(s[digits + letters])) != 0)
    ++letters;
  const auto rest = s.substr(digits + letters);
  return letters == 3 && rest.size() % 2 == 0 && rest.size() <= 10 &&
         std::ranges::all_of(rest, [](unsigned char c) { return std::isdigit(c) != 0; });
}

}  // namespace

Result<Geographic> parse_place(std::string_view text, const MapGrid* ground_grid) {
  if (text.size() > longest_text) return refuse(text, "at most 200 characters");
  const auto typed = plain(text);
  if (looks_like_mgrs(without_spaces(typed))) {
    const auto square = parse_mgrs(typed);
    if (!square) return std::unexpected(square.error());
    return square->centre;
  }
  const auto t = tokens_of(typed);
  if (!t || t->empty()) {
    return refuse(text, any_place(ground_grid != nullptr));
  }
  const auto letters = std::ranges::count_if(*t, [](const Token& k) { return !k.number; });
  if (letters == 1 && t->size() == 4 && !(*t)[1].number) return utm_text(text, *t);
  if (letters > 0) return with_letters(text, *t, ground_grid != nullptr);
  if (t->size() == 4 || t->size() == 6) {
    const auto half = t->size() / 2;
    const std::span<const Token> all(*t);
    const auto lat = degrees_of(all.first(half)), lon = degrees_of(all.subspan(half));
    if (!lat || !lon) {
      return refuse(text,
                    "whole degrees, then minutes and seconds below 60; decimals with a point");
    }
    return checked(text, *lat, *lon);
  }
  if (t->size() != 2) {
    return refuse(text, any_place(ground_grid != nullptr));
  }
  const auto figures = [](const Token& k) {
    return k.text.size() >= 3 && k.text.size() <= 5 &&
           std::ranges::all_of(k.text, [](unsigned char c) { return std::isdigit(c) != 0; });
  };
  if (ground_grid == nullptr && figures((*t)[0]) && (*t)[0].text.size() == (*t)[1].text.size() &&
      figures((*t)[1])) {
    return refuse(text,
                  "the zone and letters of its 100 km square before a grid reference, like 30UVD "
                  "278 804");
  }
  const double a = (*t)[0].value, b = (*t)[1].value;
  if (std::abs(a) <= 90 && std::abs(b) <= 180) return Geographic{a, b};
  if (ground_grid == nullptr) return checked(text, a, b);
  return ground_grid->to_geographic({a, b});
}

Result<UtmUps> utm_ups(Geographic at) {
  if (!std::isfinite(at.lat_deg) || !std::isfinite(at.lon_deg) || std::abs(at.lat_deg) > 90) {
    return fail(FaultCode::bad_input, "latitude: expected a number within 90");
  }
  UtmUps out;
  double gamma = 0;
  GeographicLib::UTMUPS::Forward(at.lat_deg, at.lon_deg, out.zone, out.north, out.east_m,
                                 out.north_m, gamma, out.scale);
  out.convergence = units::Convergence(units::Angle::degrees(gamma));
  return out;
}

Result<MgrsSquare> parse_mgrs(std::string_view text) {
  const auto code = without_spaces(text.substr(0, longest_text));
  if (!looks_like_mgrs(code)) return refuse(text, "an MGRS reference, like 30UVD 27884 80432");
  try {
    MgrsSquare out;
    int digits = 0;
    double gamma = 0, k = 0;
    GeographicLib::MGRS::Reverse(code, out.zone, out.north, out.south_west.east_m,
                                 out.south_west.north_m, digits, false);
    // "INV" is a word of the library's own: a place that is none. Nothing is meant by it here.
    if (digits < -1) return refuse(text, "an MGRS reference, like 30UVD 27884 80432");
    out.side_m = std::round(std::pow(10.0, 5 - digits));
    GeographicLib::UTMUPS::Reverse(out.zone, out.north, out.south_west.east_m + out.side_m / 2,
                                   out.south_west.north_m + out.side_m / 2, out.centre.lat_deg,
                                   out.centre.lon_deg, gamma, k);
    return out;
  } catch (const std::exception&) {
    return refuse(text, "an MGRS reference, like 30UVD 27884 80432");
  }
}

Result<std::string> mgrs(Geographic at, int digits) {
  auto u = utm_ups(at);
  if (!u) return std::unexpected(u.error());
  u->east_m = to_millimetres(u->east_m);
  u->north_m = to_millimetres(u->north_m);
  if (u->zone > 0 && !u->north && u->north_m >= equator_from_south_m) {  // on the equator itself
    u->north = true;
    u->north_m = 0;
    at.lat_deg = 0;
  }
  std::string out;
  GeographicLib::MGRS::Forward(u->zone, u->north, u->east_m, u->north_m, at.lat_deg,
                               std::clamp(digits, 0, 5), out);
  return out;
}

std::string grid_reference(GridPoint at, int digits) {
  assert(digits >= 1 && digits <= 5);
  const double side = std::round(std::pow(10.0, 5 - digits));
  const auto part = [&](double m) {
    const double in_square = std::fmod(std::fmod(to_millimetres(m), 100000.0) + 100000.0, 100000.0);
    return static_cast<int>(std::floor(in_square / side));
  };
  return fmt::format("{:0{}} {:0{}}", part(at.east_m), digits, part(at.north_m), digits);
}

std::string six_figure_reference(GridPoint at) { return grid_reference(at, 3); }

}  // namespace lodeway::earth
