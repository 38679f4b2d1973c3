#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include <fmt/format.h>

#include "lodeway/earth/place_text.hpp"
#include "lodeway/sheet/map/map_margin.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::sheet {

namespace {

using units::Language;

const Type title{Face::words_bold, 2.7, ink::text}, small{Face::words, 2.4, ink::stone},
    figure{Face::figures, 2.4, ink::text};

/// The three norths, turned as they are but opened wider so that they can be told apart.
void draw_norths(Page& page, Mm at, const trip::Plan& plan) {
  const auto language = plan.trip.language;
  const auto& n = plan.norths;
  page.text(say(Say::norths_on, language, {date_text(plan.trip.date, language)}), {at.x, at.y},
            title);
  const Mm foot{at.x + 9, at.y + 20};
  const double magnetic = units::grid_magnetic_angle(n.at).in_degrees(),
               truth = -n.at.convergence.east.in_degrees();
  // Opened to 18 degrees apart at least, each on its own side; a north that is grid north's very
  // own direction is opened too, or its letter would lie on the other's.
  const auto opened = [](double deg) {
    return std::copysign(std::clamp(3 * std::abs(deg) + 8, 18.0, 40.0), deg);
  };
  double turn_true = opened(truth), turn_magnetic = opened(magnetic);
  if (std::abs(turn_true - turn_magnetic) < 18) {
    auto& wider = std::abs(truth) > std::abs(magnetic) ? turn_true : turn_magnetic;
    wider += std::copysign(18.0, wider);
  }
  const auto needle = [&](double deg, const char* name, double length) {
    const double a = deg * std::numbers::pi / 180;
    const Mm tip{foot.x + length * std::sin(a), foot.y - length * std::cos(a)};
    page.stroke({foot, tip}, {ink::text, 0.28});
    page.text(name, {tip.x, tip.y - 0.9}, {Face::words_bold, 2.6, ink::text}, Anchor::middle);
    return tip;
  };
  needle(0, say(Say::grid_letter, language), 13.5);
  needle(turn_true, say(Say::true_letter, language), 13.5);
  const Mm m = needle(turn_magnetic, say(Say::magnetic_letter, language), 13.5);
  page.fill({circle(m, 0.5)}, ink::text);
  page.text(say(Say::not_to_scale, language), {at.x, at.y + 24}, {Face::words, 2.1, ink::stone});
  const double x = at.x + 22, right = at.x + 62;
  double y = at.y + 4.6;
  const auto row = [&](Say what, const std::string& value) {
    const double w = page.text(value, {right, y}, figure, Anchor::right);
    page.fitted(say(what, language), {x, y}, right - x - w - 1.2, small, Anchor::left, 0.5);
    y += 3.6;
  };
  const auto unit = plan.trip.angles;
  row(Say::grid_to_magnetic, angle_text(units::grid_magnetic_angle(n.at).in_degrees(), unit, language));
  row(Say::true_to_magnetic, angle_text(n.at.declination.east.in_degrees(), unit, language) + " ±" +
                                 size_text(n.declination_sigma_deg, unit, language));
  row(Say::true_to_grid, angle_text(n.at.convergence.east.in_degrees(), unit, language));
  row(Say::change_a_year, angle_text(n.annual_change_deg, unit, language));
  const bool east = units::grid_magnetic_angle(n.at).in_degrees() > 0;
  const auto amount = size_text(std::abs(units::grid_magnetic_angle(n.at).in_degrees()), unit, language);
  page.frame(x - 1, y - 1.6, right - x + 2, 8.2, {ink::text, 0.35});
  page.fitted(
      say(Say::map_to_compass, language, {say(east ? Say::take_off : Say::add, language), amount}),
      {x, y + 1.6}, right - x, {Face::words_bold, 2.5, ink::text});
  page.fitted(
      say(Say::compass_to_map, language, {say(east ? Say::add : Say::take_off, language), amount}),
      {x, y + 5.2}, right - x, {Face::words_bold, 2.5, ink::text});
}

/// A bar of `parts` equal pieces, filled in turn, with figures above.
void draw_bar(Page& page, Mm at, double piece_mm, int parts, double piece_value) {
  for (int i = 0; i < parts; ++i) {
    const double x = at.x + i * piece_mm;
    if (i % 2 == 0) page.box(x, at.y, piece_mm, 1.1, ink::text);
    page.text(fmt::format("{:.0f}", i * piece_value), {x, at.y - 0.8}, figure,
              i == 0 ? Anchor::left : Anchor::middle);
  }
  page.text(fmt::format("{:.0f}", parts * piece_value), {at.x + parts * piece_mm, at.y - 0.8},
            figure, Anchor::middle);
  page.frame(at.x, at.y, parts * piece_mm, 1.1, {ink::text, 0.2});
}

/// A round value whose piece is 10 to 25 mm.
double round_piece(double value_a_mm) {
  for (double v = 1; v < 1e7; v *= 10) {
    for (const double k : {1.0, 2.0, 2.5, 5.0}) {
      if (k * v / value_a_mm >= 10) return k * v;
    }
  }
  return 1e7;
}

/// Metres or feet, and the party's double paces; under each other, or side by side in a narrow
/// foot.
void draw_bars(Page& page, Mm at, double width, bool narrow, const MapFrame& f,
               const trip::Plan& plan) {
  const auto language = plan.trip.language;
  const bool feet = plan.trip.lengths == trip::LengthUnit::imperial;
  const double each = narrow ? 0.5 * width - 3 : width;
  const auto bar = [&](Mm p, double value_a_mm) {
    const double piece = round_piece(value_a_mm), piece_mm = piece / value_a_mm;
    draw_bar(page, {p.x, p.y + 5}, piece_mm, std::max(1, static_cast<int>((each - 6) / piece_mm)),
             piece);
  };
  page.text(say(feet ? Say::feet : Say::metres, language), at, title);
  bar(at, f.metres(1) / (feet ? units::metres_per_foot : 1.0));
  const double pace_m = 2 * plan.trip.request.party.stride_m;
  const Mm second = narrow ? Mm{at.x + each + 6, at.y} : Mm{at.x, at.y + 10.2};
  page.fitted(say(narrow ? Say::double_paces_short : Say::double_paces_bar, language,
                  {decimal_text((feet ? 300 * units::metres_per_foot : 100.0) / pace_m, 1, language),
                   feet ? "300 ft" : "100 m"}),
              second, each, title, Anchor::left, 0.7);
  bar(second, f.metres(1) / pace_m);
  if (!narrow)
    page.fitted(say(Say::paces_note, language), {at.x, at.y + 19.4}, width,
                {Face::words, 2.2, ink::stone});
}

void draw_check_line(Page& page, Mm at, units::Language language) {
  page.fitted(say(Say::check_line, language), at, 100, {Face::words_bold, 2.4, ink::text},
              Anchor::left, 0.7);
  const double y = at.y + 2.8;
  page.stroke({{at.x, y}, {at.x + 100, y}}, {ink::text, 0.25});
  for (int i = 0; i <= 10; ++i) {
    const double half = i % 5 == 0 ? 1.3 : 0.7;
    page.stroke({{at.x + 10 * i, y - half}, {at.x + 10 * i, y + half}}, {ink::text, 0.2});
  }
}

/// The romer's corner is upper right, as it lies on the place; figures count hundreds of metres.
void draw_romer(Page& page, Mm corner, const MapFrame& f, units::Language language) {
  const double step = f.mm(100), length = std::min(10 * step, 24.0);
  page.stroke({{corner.x - length, corner.y}, corner, {corner.x, corner.y + length}},
              {ink::text, 0.4});
  const int every = step < 2.2 ? 5 : 1;
  for (int i = 1; i * step <= length + 1e-9; ++i) {
    const double tick = i % 5 == 0 ? 2.2 : 1.4;
    page.stroke({{corner.x - i * step, corner.y}, {corner.x - i * step, corner.y + tick}},
                {ink::text, 0.25});
    page.stroke({{corner.x, corner.y + i * step}, {corner.x - tick, corner.y + i * step}},
                {ink::text, 0.25});
    if (i % every != 0) continue;
    page.text(std::to_string(i), {corner.x - i * step, corner.y + tick + 2.2},
              {Face::figures, 2.1, ink::text}, Anchor::middle);
    page.text(std::to_string(i), {corner.x - tick - 0.5, corner.y + i * step + 0.7},
              {Face::figures, 2.1, ink::text}, Anchor::right);
  }
  page.text(say(Say::romer, language), {corner.x, corner.y - 1.2},
            {Face::words_bold, 2.2, ink::text}, Anchor::right);
  page.paragraph(say(Say::romer_note, language), {corner.x - length, corner.y + 8}, length - 6,
                 {Face::words, 2.0, ink::stone}, 2.5, 6);
}

/// The last year at whose end a bearing is off by no more than half a degree, within the model.
int good_until(const trip::Plan& plan) {
  constexpr int model_ends = 2029;
  constexpr double bound_deg = 0.5;
  const double a_year = std::max(std::abs(plan.norths.annual_change_deg), 1e-6);
  const auto& day = plan.trip.date;
  const double from = static_cast<int>(day.year()) +
                      (static_cast<double>(static_cast<unsigned>(day.month())) - 0.5) / 12;
  const double last = std::floor(std::min(from + bound_deg / a_year, 1e4)) - 1;
  return std::clamp(static_cast<int>(last), static_cast<int>(day.year()), model_ends);
}

std::string sources_text(const walking::Ground& ground, Language language) {
  std::string out;
  std::set<std::string> said;
  for (const auto& s : ground.sources) {
    const auto one = fmt::format(
        "{}{}{}, {}{}", s.title.empty() ? s.file : s.title, s.attribution.empty() ? "" : ": ",
        s.attribution, s.licence.empty() ? say(Say::unknown_licence, language) : s.licence,
        s.date.empty() ? "" : ", " + s.date);
    if (said.insert(one).second) out += (out.empty() ? "" : "; ") + one;
  }
  return out.empty() ? say(Say::unknown_licence, language) : out;
}

}  // namespace

void draw_foot(Page& page, const MapFrame& f, const trip::Plan& plan, const walking::Ground& ground,
               const SheetFacts& facts) {
  const auto language = plan.trip.language;
  const double top = f.at.y + f.h + 8.5 + legend_height_mm(f.w);
  const bool narrow = f.w < narrow_map_mm;
  draw_norths(page, {f.at.x, top}, plan);
  draw_romer(page, {f.at.x + f.w, top}, f, language);
  double below = top + 30;
  if (narrow) {
    draw_bars(page, {f.at.x, top + 30}, f.w, true, f, plan);
    draw_check_line(page, {f.at.x, top + 40.4}, language);
    below = top + 45.6;
  } else {
    draw_bars(page, {f.at.x + 67, top}, 80, false, f, plan);
    draw_check_line(page, {f.at.x + 67, top + 23.6}, language);
  }
  page.stroke({{f.at.x, below}, {f.at.x + f.w, below}}, {ink::rule, 0.2});
  const double e = std::ceil(f.south_west.east_m / 1000) * 1000,
               n = std::ceil(f.south_west.north_m / 1000) * 1000;
  std::string square = "-";
  if (const auto middle =
          ground.grid.to_geographic(f.on_ground({f.at.x + 0.5 * f.w, f.at.y + 0.5 * f.h}))) {
    if (const auto m = earth::mgrs(*middle, 0)) square = *m;
  }
  const auto bold = [](std::string words) {  // the first word of each note stands out
    const auto space = words.find(' ');
    return std::string(1, bold_on) + words.substr(0, space) + std::string(1, plain_on) +
           words.substr(space);
  };
  const auto crs =
      ground.grid.epsg() > 0 ? fmt::format("EPSG:{}", ground.grid.epsg()) : std::string("-");
  std::string caution =
      bold(say(narrow ? Say::foot_caution_short : Say::foot_caution, language)) + " " +
      say(Say::foot_slope, language, {fmt::format("{:.0f}", ground.elevation.frame().cell_m)});
  if (const auto lacks = trip::map_lacks_words(ground.map, language); !lacks.empty())
    caution = std::string(1, bold_on) + lacks + std::string(1, plain_on) + " " + caution;
  if (facts.shows_void)
    caution = std::string(1, bold_on) + say(Say::void_note, language) + std::string(1, plain_on) +
              " " + caution;
  if (const auto remark = ground.grid.datum_remark(); !remark.empty())
    caution += " " + remark + ".";
  double y = below + 3.2;
  const Type print{Face::words, 2.15, ink::stone};
  const double leading = narrow ? 2.6 : 2.75;
  const double lowest = f.page_h - clear_edge_mm - 0.6;
  const std::string notes[] = {
      caution,
      bold(say(
          narrow ? Say::foot_grid_short : Say::foot_grid, language,
          {ground.grid.name(), crs, fmt::format("{:02.0f}", std::fmod(e / 1000, 100)), thousands(e),
           fmt::format("{:02.0f}", std::fmod(n / 1000, 100)), thousands(n), square})),
      bold(say(narrow ? Say::foot_magnetism_short : Say::foot_magnetism, language,
               {date_text(plan.trip.date, language),
                size_text(plan.norths.declination_sigma_deg, plan.trip.angles, language),
                std::to_string(good_until(plan))})),
      bold(say(Say::foot_sources, language, {sources_text(ground, language)}))};
  // Many sources can need more lines than there are: then the print is made smaller, not cut.
  Type fitting = print;
  double step = leading;
  const auto lines = [&] {
    int sum = 0;
    for (const auto& note : notes) sum += page.lines_needed(note, f.w, fitting);
    return sum;
  };
  while (fitting.size_mm > 1.5 && y + (lines() - 1) * step > lowest) {
    fitting.size_mm *= 0.96;
    step *= 0.96;
  }
  for (const auto& note : notes) {
    const int room = static_cast<int>((lowest - y) / step) + 1;
    if (room > 0) y = page.paragraph(note, {f.at.x, y}, f.w, fitting, step, room);
  }
}

}  // namespace lodeway::sheet
