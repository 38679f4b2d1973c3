#include "lodeway/sheet/notes/escape_card.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/draw/verdict_band.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/verdict_words.hpp"

namespace lodeway::sheet {

namespace {

using reckoning::LeavesAt;
using trip::PlannedEscape;

constexpr double left = 8, right = 202, first_y = 20, last_y = 120;
constexpr double rail_x = 12, place_x = 18, steps_x = 62, total_x = 178, step_w = 29;
constexpr double steps_h = 19.5, line_h = 7, middle_h = 6.4, full_h = 3.2,
                 second_line_h = 3.4;
constexpr std::size_t most_columns = 4;

/// A place of the way, or the middle of a leg: what the leader looks for at the left.
struct Row {
  std::size_t leg = 0;
  LeavesAt from = LeavesAt::end;
  const PlannedEscape* route = nullptr;  ///< none: not known to this plan
};

bool in_columns(const Row& row) {
  return row.from != LeavesAt::middle && row.route != nullptr && !row.route->legs.empty() &&
         row.route->legs.size() <= most_columns;
}

class EscapeCard {
 public:
  EscapeCard(const trip::Plan& plan, const TextMeasure& measure) : plan_(plan), measure_(measure) {
    const auto& legs = plan.way.legs;
    for (std::size_t i = 0; i < legs.size(); ++i) {
      const auto add = [&](LeavesAt from) {
        const auto found = std::ranges::find(legs[i].escapes, from, &PlannedEscape::from);
        const bool known = found != legs[i].escapes.end();
        if (known || from != LeavesAt::middle) rows_.push_back({i, from, known ? &*found : nullptr});
      };
      if (i == 0) add(LeavesAt::start);
      add(LeavesAt::middle);
      add(LeavesAt::end);
    }
  }

  std::vector<Drawing> draw() {
    std::vector<std::size_t> begins{0};
    double y = first_y;
    for (std::size_t k = 0; k < rows_.size(); ++k) {
      const double h = height(rows_[k]);
      if (y + h > last_y && k > begins.back()) {
        begins.push_back(k);
        y = first_y;
      }
      y += h;
    }
    begins.push_back(rows_.size());
    std::vector<Drawing> out;
    for (std::size_t s = 0; s + 1 < begins.size(); ++s)
      out.push_back(side(s, begins.size() - 1, begins[s], begins[s + 1]));
    return out;
  }

 private:
  [[nodiscard]] units::Language language() const { return plan_.trip.language; }
  [[nodiscard]] bool dangerous(const Row& row) const {
    return row.route != nullptr && row.route->hazard_probability > plan_.trip.most_keep_off;
  }
  [[nodiscard]] std::vector<std::string> notes(const PlannedEscape& route) const {
    std::vector<std::string> out;
    if (route.hazard_probability >= trip::told_harm)
      out.push_back(say(Say::escape_strays, language(),
                        {trip::harmed_of_hundred(route.hazard_probability)}));
    for (const auto& leg : route.legs) {
      for (const auto& danger : leg.dangers) {
        if (danger.side == mapdata::Side::none)
          out.push_back(std::string(say(Say::keep_off, language())) + ": " + danger.what);
      }
    }
    if (route.snow_slope) out.emplace_back(say(Say::escape_on_snow_slope, language()));
    if (route.after_last_light) out.emplace_back(say(Say::escape_after_dark, language()));
    // Steps alone do not show that they are the way that was walked.
    if (route.back && route.from != LeavesAt::middle && route.legs.size() <= most_columns)
      out.push_back(say(Say::escape_back, language(), {route.to}));
    if (!route.back && route.back_minutes > 0)
      out.push_back(say(Say::escape_or_back, language(), {hours_or_minutes(route.back_minutes)}));
    return out;
  }
  /// What rescuers ask for, of a place.
  [[nodiscard]] std::string full_reference(const Row& row) const {
    return row.from == LeavesAt::middle  ? ""
           : row.from == LeavesAt::start ? plan_.start_full_reference
                                         : plan_.way.legs[row.leg].full_reference;
  }
  /// Who stands here needs no steps: all of it is one line.
  static bool is_here(const Row& row) {
    return row.from != LeavesAt::middle && row.route != nullptr && row.route->legs.empty();
  }
  [[nodiscard]] double height(const Row& row) const {
    double h = row.from == LeavesAt::middle ? middle_h : in_columns(row) ? steps_h : line_h;
    if (row.from == LeavesAt::middle && middle_in_two(row)) h += second_line_h;
    if (row.route != nullptr && !row.route->legs.empty() && row.from != LeavesAt::middle &&
        !notes(*row.route).empty())
      h += 4;
    if (!full_reference(row).empty() && !is_here(row)) h += full_h;
    return dangerous(row) ? h + 2.4 : h;
  }
  static std::string hours_or_minutes(double minutes) {
    return minutes < 99.5 ? fmt::format("{:.0f} min", minutes) : hours_text(minutes);
  }
  static std::string joined(const std::vector<std::string>& parts) {
    std::string out;
    for (const auto& part : parts) out += (out.empty() ? "" : "; ") + part;
    return out;
  }

  Drawing side(std::size_t s, std::size_t of, std::size_t begin, std::size_t end) {
    Page page(card::page_w, card::page_h, plan_.trip.name, measure_);
    head(page, s, of);
    double y = first_y;
    page.stroke({{left, y}, {right, y}}, {ink::night, 0.3});
    for (auto k = begin; k < end; ++k) {
      const double h = height(rows_[k]), pad = dangerous(rows_[k]) ? 1.2 : 0;
      page.stroke({{rail_x, y + 1}, {rail_x, y + h}}, {ink::night, 0.5});
      rows_[k].from == LeavesAt::middle ? middle(page, rows_[k], y + pad)
                                        : place(page, rows_[k], y + pad);
      if (pad > 0) danger_frame(page, left - 1.4, y + 0.3, right - left + 2.8, h - 0.6);
      y += h;
      if (k + 1 < end && rows_[k].from != LeavesAt::middle)
        page.stroke({{left, y}, {right, y}}, {ink::rule, 0.2});
    }
    page.stroke({{left, y}, {right, y}}, {ink::night, 0.3});
    y = page.paragraph(signal_words(plan_), {left, std::max(y + 4.6, last_y + 3.6)}, right - left,
                       card_words(9, true), 4.1, 2);
    y = page.paragraph(
        std::string(say(Say::aircraft_arms, language())) + " " + say(Say::help_say, language()),
        {left, y + 0.2}, right - left, card_words(8.2), 3.7, 2);
    page.paragraph(say(Say::escape_caution, language()), {left, y + 0.2}, right - left,
                   card_words(8), 3.6, 2);
    return page.take();
  }

  void head(Page& page, std::size_t s, std::size_t of) const {
    const auto& number = plan_.trip.emergency_number;
    const double w = page.text(number.empty() ? "________" : number, {right, 12},
                               {Face::figures_bold, 6, ink::night}, Anchor::right);
    const double side_w =
        of > 1 ? page.text(say(Say::side_of, language(), {std::to_string(s + 1), std::to_string(of)}),
                           {right - w - 5, 12}, card_words(8), Anchor::right)
               : 0;
    page.fitted(fmt::format("{} · {}", say(Say::escape_title, language()), plan_.trip.name),
                {left, 12}, right - left - w - side_w - 12, card_words(14, true), Anchor::left,
                0.5);
    page.fitted(say(Say::escape_find, language()), {left, first_y - 2.2}, right - left,
                card_words(8));
  }

  void ring(Page& page, double y) const {
    page.fill({circle({rail_x, y}, 2.3)}, ink::paper);
    page.stroke(circle({rail_x, y}, 1.7), {ink::night, 0.6}, true);
    page.fill({circle({rail_x, y}, 0.4)}, ink::night);
  }

  /// Where the row begins, its name and its reference.
  void place(Page& page, const Row& row, double y) const {
    const auto& leg = plan_.way.legs[row.leg];
    const bool start = row.from == LeavesAt::start;
    ring(page, y + 3.4);
    const auto& name = start ? leg.course.from : leg.course.to;
    const auto& reference = start ? plan_.start_reference : leg.reference;
    double end = right;
    if (is_here(row))
      end -= page.text(full_reference(row), {right, y + 4.6}, {Face::figures, 2.3, ink::text},
                       Anchor::right) + 2;
    else
      page.fitted(full_reference(row),  // below all else of the row
                  {place_x, y + height(row) - (dangerous(row) ? 2.4 : 0) - 1.3}, right - place_x,
                  {Face::figures, 2.3, ink::text}, Anchor::left, 0.6);
    const auto said = [&](const std::string& words) {
      const double w = page.fitted(name, {place_x, y + 4.6}, 48, card_words(10, true),
                                   Anchor::left, 0.55);
      const double r =
          page.text(reference, {place_x + w + 2.5, y + 4.6}, {Face::figures_bold, 3.1, ink::night});
      const double x = place_x + w + r + 6;
      page.fitted(words, {x, y + 4.6}, end - x, card_words(9), Anchor::left, 0.6);
    };
    if (row.route == nullptr) return said(say(Say::escape_none, language()));
    const auto& route = *row.route;
    if (route.legs.empty()) return said(say(Say::escape_here, language(), {route.to}));
    const auto more = joined(notes(route));
    const double below = y + (in_columns(row) ? steps_h : line_h);
    if (!more.empty())
      page.fitted(more, {place_x, below + 1.8}, right - place_x, card_words(8.4, dangerous(row)),
                  Anchor::left, 0.6);
    if (!in_columns(row)) {
      // Of many legs: they stand on the card already.
      const auto words = route.back
                             ? say(Say::escape_back, language(), {route.to})
                             : say(Say::escape_on, language(), {route.to});
      const double w = page.fitted(name, {place_x, y + 4.6}, 48, card_words(10, true),
                                   Anchor::left, 0.55);
      const double r =
          page.text(reference, {place_x + w + 2.5, y + 4.6}, {Face::figures_bold, 3.1, ink::night});
      const double x = place_x + w + r + 6;
      page.fitted(words, {x, y + 4.6}, total_x - 24 - x, card_words(9, true), Anchor::left, 0.6);
      page.text(hours_or_minutes(route.minutes), {total_x - 2, y + 4.8},
                {Face::figures_bold, 4, ink::night}, Anchor::right);
      sure(page, route, y + 1.2, y + 4.6);
      return;
    }
    page.paragraph(name, {place_x, y + 4.6}, steps_x - place_x - 3, fit_in_two(page, name), 3.9, 2);
    page.text(reference, {place_x, y + 12.8}, {Face::figures_bold, 3.1, ink::night});
    if (!start)
      page.fitted(say(Say::escape_end_of, language(), {std::to_string(row.leg + 1)}),
                  {place_x, y + 16.6}, steps_x - place_x - 3, card_words(7.6));
    for (std::size_t k = 0; k < route.legs.size(); ++k)
      step(page, route, k, {steps_x + step_w * static_cast<double>(k), y});
    page.stroke({{total_x, y + 1.4}, {total_x, y + steps_h - 1.8}}, {ink::rule, 0.25});
    page.fitted(hours_or_minutes(route.minutes), {right, y + 6.2}, right - total_x - 1.5,
                {Face::figures_bold, 14 * mm_per_point, ink::night}, Anchor::right);
    sure(page, route, y + 8.6, y + 15.4);
  }

  [[nodiscard]] Type fit_in_two(const Page& page, const std::string& name) const {
    auto type = card_words(10, true);
    const double room = steps_x - place_x - 3;
    while (type.size_mm > 1.8 &&
           (page.lines_needed(name, room, type) > 2 || page.longest_word(name, type) > room))
      type.size_mm *= 0.95;
    return type;
  }

  void sure(Page& page, const PlannedEscape& route, double stones_y, double words_y) const {
    draw_stone_row(page, route.certainty, right, stones_y);
    page.fitted(say(Say::certainty_of, language(), {of_hundred(route.certainty)}),
                {right - (words_y - stones_y < 5 ? 13 : 0), words_y}, 13, card_words(7.4, true),
                Anchor::right, 0.6);
  }

  /// There is room for what must be known on the way: where the turn is, and how far after it.
  [[nodiscard]] std::string aim_words(const trip::AlongAfter& after) const {
    const bool to_left = after.aimed_to == mapdata::Side::left;
    const auto l = language();
    return trip::told(l, "aim off {}; at {} turn {}: {}",
                      {trip::told_in(l, to_left ? "left" : "right"), after.line,
                       trip::told_in(l, to_left ? "right" : "left"),
                       length_text(after.length_m, plan_.trip.lengths)});
  }

  void step(Page& page, const PlannedEscape& route, std::size_t k, Mm at) const {
    const auto& leg = route.legs[k];
    page.frame(at.x, at.y + 1.5, 3.6, 4.2, {ink::haven, 0.45});
    page.text(std::to_string(k + 1), {at.x + 1.8, at.y + 4.8}, {Face::figures_bold, 2.9, ink::night},
              Anchor::middle);
    const double x = at.x + 4.6, room = step_w - 6;
    page.fitted(bearing_text(leg.first_magnetic_bearing, plan_.trip.angles) +
                    bearing_sign(plan_.trip.angles),
                {x, at.y + 5.2}, room, {Face::figures_bold, 11.5 * mm_per_point, ink::night});
    const auto far = fmt::format("{}, {:.0f} min",
                                 length_text(leg.counted.length_m, plan_.trip.lengths),
                                 leg.counted.minutes);
    page.fitted(far, {x, at.y + 17.6}, room, card_words(8, true), Anchor::left, 0.6);
    const auto to = say(Say::escape_to, language(), {leg.course.to});
    const auto words =
        leg.after    ? aim_words(*leg.after)
        : leg.needle ? to
                     : say(Say::escape_along, language(), {leg.course.followed.name}) + ", " + to;
    auto type = card_words(7.8);
    while (type.size_mm > 1.4 &&
           (page.lines_needed(words, room, type) > 3 || page.longest_word(words, type) > room))
      type.size_mm *= 0.95;
    page.paragraph(words, {x, at.y + 8.4}, room, type, std::min(2.95, 1.2 * type.size_mm), 3);
  }

  /// What is said half way on a leg.
  [[nodiscard]] std::string middle_words(const Row& row) const {
    const auto& route = *row.route;
    std::string words;
    if (route.legs.empty()) {
      words = say(Say::escape_here, language(), {route.to});
    } else if (route.back || route.legs.size() > most_columns) {
      words = say(route.back ? Say::escape_back : Say::escape_on, language(), {route.to});
    } else {
      for (const auto& leg : route.legs) {
        const auto how = leg.needle
                             ? std::string()
                             : say(Say::escape_along, language(), {leg.course.followed.name}) + " ";
        words += (words.empty() ? "" : ", ") +
                 bearing_text(leg.first_magnetic_bearing, plan_.trip.angles) +
                 bearing_sign(plan_.trip.angles) + " " + how +
                 length_text(leg.counted.length_m, plan_.trip.lengths) + " " +
                 say(Say::escape_to, language(), {leg.course.to});
      }
    }
    if (!route.legs.empty()) words += ", " + hours_or_minutes(route.minutes);
    auto more = notes(route);
    if (!more.empty()) words += "; " + joined(more);
    return say(Say::escape_half_way, language(), {std::to_string(row.leg + 1)}) + " " + words;
  }
  static double middle_room(const Row& row) {
    return (row.route->legs.empty() ? right : right - 27) - place_x;
  }
  [[nodiscard]] Type middle_type(const Row& row) const { return card_words(8.6, dangerous(row)); }
  /// In two lines before it is made too small to read on the hill.
  [[nodiscard]] bool middle_in_two(const Row& row) const {
    const auto type = middle_type(row);
    return smallest_in_one * measure_.width_mm(middle_words(row), type.face, type.size_mm) >
           middle_room(row);
  }

  /// Half way on a leg: beside its number.
  void middle(Page& page, const Row& row, double y) const {
    page.box(rail_x - 3, y + 0.8, 6, 4.8, ink::night);
    page.fitted(std::to_string(row.leg + 1), {rail_x, y + 4.4}, 5.4,
                {Face::figures_bold, 3.2, ink::paper}, Anchor::middle);
    const auto words = middle_words(row);
    const double room = middle_room(row);
    auto type = middle_type(row);
    if (middle_in_two(row)) {
      while (type.size_mm > 1.7 && page.lines_needed(words, room, type) > 2) type.size_mm *= 0.97;
      page.paragraph(words, {place_x, y + 4.2}, room, type, second_line_h, 2);
    } else {
      page.fitted(words, {place_x, y + 4.4}, room, type, Anchor::left, smallest_in_one);
    }
    if (!row.route->legs.empty()) sure(page, *row.route, y + 1.0, y + 4.4);
  }

  static constexpr double smallest_in_one = 0.85;
  const trip::Plan& plan_;
  const TextMeasure& measure_;
  std::vector<Row> rows_;
};

}  // namespace

std::vector<Drawing> draw_escape_card(const trip::Plan& plan, const TextMeasure& measure) {
  return EscapeCard(plan, measure).draw();
}

}  // namespace lodeway::sheet
