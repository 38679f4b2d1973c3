#include "lodeway/sheet/notes/lost_card.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <tuple>

#include <fmt/format.h>

#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/draw/verdict_band.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/verdict_words.hpp"

namespace lodeway::sheet {

namespace {

using trip::LostLeg;
using trip::LostRow;
using trip::told;

constexpr double face_w = 105, edge = 6.5, width = face_w - 2 * edge;
constexpr double top_y = 9, bottom_y = 141;
constexpr double row_h = 4.6, head_h = 10.4, gap = 3, line_h = 3.7, frame_pad = 2.2;
// Columns of a row, from the left of the face.
constexpr double metres_x = 7.6, height_x = 17.9, needle_x = 20.9, degrees_x = 28.8, steep_x = 29.8,
                 form_x = 42.6, section_x = 51.6, left_x = 60.2, right_x = 76.4;
constexpr double section_w = 7, metres_a_mm = 2 * trip::lost_beside_m / section_w;

std::string bold(const std::string& words) { return bold_on + words + plain_on; }

class LostCard {
 public:
  LostCard(const trip::Plan& plan, const std::vector<LostLeg>& legs, const TextMeasure& measure)
      : plan_(plan),
        legs_(legs),
        measure_(measure),
        in_(plan.trip.language),
        unit_(plan.trip.lengths == trip::LengthUnit::imperial ? "ft" : "m") {}

  std::vector<Drawing> draw() {
    start_side();
    drill();
    next_face();
    for (std::size_t i = 0; i < legs_.size(); ++i) leg(i);
    key();
    std::vector<Drawing> out;
    for (auto& page : pages_) out.push_back(page.take());
    return out;
  }

 private:
  [[nodiscard]] Page& page() { return pages_[side_]; }
  [[nodiscard]] double x(double column) const { return face_ * face_w + edge + column; }

  void start_side() {
    pages_.emplace_back(card::page_w, card::page_h, plan_.trip.name, measure_);
    page().stroke({{card::fold, 2}, {card::fold, card::page_h - 2}}, {ink::rule, 0.2, {1.2, 1.2}});
    side_ = pages_.size() - 1;
    face_ = 0;
    y_ = top_y;
  }
  void next_face() {
    left_over_.push_back({side_, face_, y_});
    if (face_ == 1) return start_side();
    face_ = 1;
    y_ = top_y;
  }

  // Face 1: what to do.
  void drill() {
    auto& p = page();
    p.fitted(told(in_, "Lost card"), {x(0), y_ + 3.4}, 40, card_words(15, true));
    p.fitted(plan_.trip.name + ", " + date_text(plan_.trip.date, in_), {x(width), y_ + 3.4}, 50,
             card_words(8), Anchor::right, 0.6);
    y_ += 6;
    const auto number = plan_.trip.emergency_number;
    const std::array<std::string, 6> steps{
        bold(told(in_, "Stop, together.")) + " " +
            told(in_, "Time ______ Height ______. Look about you before you go a step."),
        bold(told(in_, "Last sure place")) + " " +
            told(in_,
                 "____________ at ______. Minutes since: ____, so about ____ {} on leg ____. How "
                 "far you "
                 "go in 10 minutes stands at the head of each leg.",
                 {unit_}),
        bold(told(in_, "Look, and write")) + " " +
            told(in_,
                 "before you open the map. The ground falls towards ____° and is ____° steep. A "
                 "path, wall or stream near you runs ____°. On the left ________, on the right "
                 "________."),
        bold(told(in_, "Find the row.")) + " " +
            told(in_,
                 "Height within {} and fall within 30°: both must fit. Then look for one thing "
                 "that the row names and you have not used yet.",
                 {height_text(30, plan_.trip.lengths)}),
        bold(told(in_, "One row fits: go on.")) + " " +
            told(in_,
                 "Two rows fit, or none: do not guess. Make the move in the frame under your leg. "
                 "It is reckoned from everywhere that a party on this leg may be."),
        bold(told(in_, "No move can be made")) + " " +
            told(in_,
                 "(danger, dark, someone hurt): stay together, shelter, keep warm, and call {}.",
                 {number.empty() ? std::string("________") : number})};
    for (std::size_t k = 0; k < steps.size(); ++k) {
      p.stroke({{x(0), y_}, {x(width), y_}}, {ink::rule, 0.25});
      p.text(std::to_string(k + 1), {x(0), y_ + 5.4}, {Face::figures_bold, 5, ink::night});
      const double after =
          p.paragraph(steps[k], {x(8), y_ + 4.8}, width - 8, card_words(10.2), 5.2);
      y_ = after - 5.2 + 3.4;
    }
    p.stroke({{x(0), y_}, {x(width), y_}}, {ink::rule, 0.25});
  }

  void number_box(std::size_t leg, double bx, double by, double size) {
    const double h = std::min(4.6, size);
    page().box(bx, by, 5.4, h, ink::night);
    page().fitted(std::to_string(leg + 1), {bx + 2.7, by + 0.8 * h}, 4.8,
                  {Face::figures_bold, 0.72 * h, ink::paper}, Anchor::middle);
  }

  // The frame under a leg.
  [[nodiscard]] std::string frame_words(std::size_t i) const {
    const auto& leg = legs_[i];
    std::string out;
    if (leg.standing_barred >= 0.01)
      out += bold(told(in_,
                       "{} in 100 of the places where you may be lie on ground to keep off: look "
                       "before each step.",
                       {trip::harmed_of_hundred(leg.standing_barred)})) +
             " ";
    if (leg.downhill_barred > 0.01)
      out += bold(told(in_,
                       "Not straight downhill: from {} in 100 of these places that leads onto "
                       "ground to keep off.",
                       {trip::harmed_of_hundred(leg.downhill_barred)})) +
             " ";
    for (std::size_t k = 0; k < leg.moves.size(); ++k)
      out += (k > 0 ? bold(told(in_, "Or:")) + " " : "") + leg.moves[k] + " ";
    if (leg.moves.empty())
      out += bold(told(in_, "No one move works from everywhere on leg {}.", {i + 1})) + " " +
             rest_words(leg) + " ";
    return out;
  }
  [[nodiscard]] std::string rest_words(const LostLeg& leg) const {
    if (leg.by_fall.empty())
      return told(in_, "Find the row; if none fits stay together, sheltered, and call for help.");
    std::string out;
    for (const auto& words : leg.by_fall) out += words + " ";
    return out + told(in_, "Else stay together, sheltered, and call for help.");
  }
  [[nodiscard]] double frame_h(std::size_t i) {
    return page().lines_needed(frame_words(i), width - 2 * frame_pad, card_words(8)) * line_h +
           2 * frame_pad;
  }

  void leg(std::size_t i) {
    const auto& rows = legs_[i].rows;
    const double frame = frame_h(i);
    const auto fits = [&](std::size_t count, bool with_frame) {
      return y_ + head_h + static_cast<double>(count) * row_h + (with_frame ? frame + 1.4 : 0) <=
             bottom_y;
    };
    std::size_t first = 0;
    if (!fits(std::min<std::size_t>(rows.size(), 3), rows.size() <= 3)) next_face();
    while (first < rows.size()) {
      std::size_t count = rows.size() - first;
      if (!fits(count, true)) {
        while (count > 1 && !fits(count, false)) --count;
        if (first + count == rows.size() && count > 1) --count;  // the frame is not left alone
      }
      const bool last = first + count == rows.size();
      head(i, first > 0);
      for (std::size_t k = first; k < first + count; ++k) row(rows[k]);
      first += count;
      if (!last) next_face();
      if (last && y_ + frame + 1.4 > bottom_y) next_face();
    }
    y_ += 1.4;
    move(i, frame);
    y_ += frame + gap;
  }

  void head(std::size_t i, bool again) {
    auto& p = page();
    const auto& leg = plan_.way.legs[i];
    p.stroke({{x(0), y_}, {x(width), y_}}, {ink::night, 0.4});
    number_box(i, x(0), y_ + 1, 4.6);
    const auto needle = bearing_text(leg.first_magnetic_bearing, plan_.trip.angles) +
                        bearing_sign(plan_.trip.angles);
    const auto words = leg.course.kind == walking::LegKind::along
                           ? leg.course.followed.name + ", " + needle
                           : told(in_, "bearing {}", {needle});
    const double w =
        p.fitted(words, {x(7), y_ + 4.6}, 44, card_words(9.6, true), Anchor::left, 0.7);
    const auto to = again ? told(in_, "goes on")
                          : say(Say::escape_to, in_, {leg.course.to}) + ", " +
                                length_text(leg.figures.length_m, plan_.trip.lengths) + "; " +
                                told(in_, "10 min: {}",
                                     {length_text(10 * std::round(legs_[i].ten_minutes_m / 10),
                                                  plan_.trip.lengths)});
    p.fitted(to, {x(width), y_ + 4.6}, width - w - 10, card_words(7.6), Anchor::right, 0.6);
    const double base = y_ + 9;
    const auto label = card_words(6.4);
    p.text(unit_, {x(metres_x), base}, label, Anchor::right);
    p.fitted(told(in_, "height"), {x(height_x), base}, 9, label, Anchor::right, 0.6);
    p.fitted(told(in_, "falls"), {x(needle_x - 2), base}, 10, label, Anchor::left, 0.6);
    p.fitted(told(in_, "form"), {x(form_x), base}, 10, label, Anchor::left, 0.6);
    p.fitted(told(in_, "across"), {x(section_x), base}, section_w + 1, label, Anchor::left, 0.6);
    p.fitted(told(in_, "on the left"), {x(left_x), base}, right_x - left_x - 1, label, Anchor::left,
             0.6);
    p.fitted(told(in_, "on the right"), {x(right_x), base}, width - right_x, label, Anchor::left,
             0.6);
    y_ += head_h;
  }

  void row(const LostRow& r) {
    auto& p = page();
    const bool mind = r.keep_off();
    const double base = y_ + 3.5;
    p.stroke({{x(0), y_}, {x(width), y_}}, {ink::rule, 0.15});
    if (mind) p.box(x(-1.6), y_ + 0.3, 1, row_h - 0.6, ink::night);
    const auto along = plan_.trip.lengths == trip::LengthUnit::imperial
                           ? fmt::format("{:.0f}", r.along_m / 0.3048)
                           : fmt::format("{:.0f}", r.along_m);
    p.fitted(along, {x(metres_x), base}, 9, {Face::figures, 2.8, ink::text}, Anchor::right);
    if (std::isnan(r.height_m)) {
      p.fitted(told(in_, "the elevation data has no height here"), {x(height_x + 2), base}, 60,
               card_words(7.4));
      y_ += row_h;
      return;
    }
    const auto height = plan_.trip.lengths == trip::LengthUnit::imperial
                            ? fmt::format("{:.0f}", std::round(r.height_m / 0.3048 / 10) * 10)
                            : fmt::format("{:.0f}", r.height_m);
    p.fitted(height, {x(height_x), base}, 9, {Face::figures_bold, 3.4, ink::night}, Anchor::right);
    if (r.falls) needle(r.falls->in_degrees(), {x(needle_x), y_ + 0.5 * row_h});
    p.text(fmt::format("{:.0f}°", r.slope_deg), {x(degrees_x), base},
           {Face::figures, 2.8, ink::text}, Anchor::right);
    p.fitted(r.steepness, {x(steep_x), base}, form_x - steep_x - 0.8, card_words(7.4, mind),
             Anchor::left, 0.6);
    p.fitted(r.form, {x(form_x), base}, section_x - form_x - 0.8, card_words(7.4, mind),
             Anchor::left, 0.6);
    section(r);
    const auto hand = [&](const std::optional<trip::OnHand>& thing, double column, double room) {
      const auto words = !thing              ? std::string("–")
                         : thing->away_m < 1 ? thing->what
                                             : thing->what + " " + length_figure(thing->away_m);
      p.fitted(words, {x(column), base}, room, card_words(7.4, thing && thing->keep_off),
               Anchor::left, 0.6);
    };
    hand(r.left, left_x, right_x - left_x - 0.8);
    hand(r.right, right_x, width - right_x);
    y_ += row_h;
  }
  [[nodiscard]] std::string length_figure(double metres) const {
    return plan_.trip.lengths == trip::LengthUnit::imperial
               ? fmt::format("{:.0f}", std::round(metres / 0.3048 / 10) * 10)
               : fmt::format("{:.0f}", metres);
  }

  /// Which way the ground falls, north up.
  void needle(double degrees, Mm at) {
    auto& p = page();
    p.stroke(circle(at, 1.75), {ink::rule, 0.15}, true);
    p.stroke({{at.x, at.y - 1.75}, {at.x, at.y - 1.25}}, {ink::stone, 0.25});
    const double rad = degrees * std::numbers::pi / 180;
    const Mm on{std::sin(rad), -std::cos(rad)}, side{-on.y, on.x};
    const auto place = [&](double along, double across) {
      return Mm{at.x + along * on.x + across * side.x, at.y + along * on.y + across * side.y};
    };
    p.stroke({place(-1.2, 0), place(0.3, 0)}, {ink::night, 0.4});
    p.fill({{place(1.4, 0), place(-0.1, 0.85), place(-0.1, -0.85)}}, ink::night);
  }

  /// The ground from one hand to the other at its true slope, cut off where it leaves the row.
  void section(const LostRow& r) {
    auto& p = page();
    const double middle = y_ + 0.55 * row_h, x0 = x(section_x), most = 0.42 * row_h;
    const auto up = [&](double rise_m) {
      return middle - std::clamp((std::isnan(rise_m) ? 0 : rise_m) / metres_a_mm, -most, most);
    };
    const double below = y_ + row_h - 0.25;
    const std::vector<Mm> line{{x0, up(r.left_rise_m)},
                               {x0 + 0.5 * section_w, middle},
                               {x0 + section_w, up(r.right_rise_m)}};
    auto ring = line;
    ring.push_back({x0 + section_w, below});
    ring.push_back({x0, below});
    p.fill({ring}, ink::faint(ink::rule, 0.5));
    p.stroke(line, {ink::night, 0.35});
    p.fill({circle({x0 + 0.5 * section_w, middle - 0.7}, 0.65)}, ink::night);
  }

  void move(std::size_t i, double h) {
    auto& p = page();
    const auto words = frame_words(i);
    const bool danger = legs_[i].moves.empty() || legs_[i].standing_barred >= 0.01;
    danger ? danger_frame(p, x(0), y_, width, h) : p.frame(x(0), y_, width, h, {ink::night, 0.55});
    p.paragraph(words, {x(frame_pad), y_ + frame_pad + 2.4}, width - 2 * frame_pad, card_words(8),
                line_h);
  }

  /// How a row is read.
  void key() {
    const std::array<std::string, 3> lines{
        told(in_, "the ground falls this way; magnetic north is up"),
        told(in_, "the ground {} to each hand, at its true slope",
             {length_text(trip::lost_beside_m, plan_.trip.lengths)}),
        told(in_, "ground to keep off within {} of the leg, and how far it is",
             {length_text(trip::lost_reach_m, plan_.trip.lengths)})};
    constexpr double words_x = 13;
    double h = 6;
    for (const auto& line : lines)
      h += std::max(5.2, page().lines_needed(line, width - words_x, card_words(7.6)) * 3.5 + 1.6);
    if (y_ + h > bottom_y) {  // where another face has room for it, else on one of its own
      const auto room = std::ranges::find_if(
          left_over_, [&](const Place& place) { return place.y + h <= bottom_y; });
      if (room == left_over_.end())
        next_face();
      else
        std::tie(side_, face_, y_) = std::tuple(room->side, room->face, room->y);
    }
    auto& p = page();
    p.text(told(in_, "How to read a row"), {x(0), y_ + 3.6}, card_words(9.4, true));
    y_ += 6;
    for (std::size_t k = 0; k < lines.size(); ++k) {
      const double room =
          std::max(5.2, p.lines_needed(lines[k], width - words_x, card_words(7.6)) * 3.5 + 1.6);
      if (k == 0) needle(135, {x(3), y_ + 2});
      if (k == 1) {
        const std::vector<Mm> line{{x(1), y_ + 0.9}, {x(5), y_ + 2.4}, {x(9), y_ + 3.9}};
        p.stroke(line, {ink::night, 0.35});
        p.fill({circle({x(5), y_ + 1.7}, 0.65)}, ink::night);
      }
      if (k == 2) p.box(x(2.6), y_ + 0.4, 1, 3.8, ink::night);
      p.paragraph(lines[k], {x(words_x), y_ + 3}, width - words_x, card_words(7.6), 3.5);
      y_ += room;
    }
  }

  const trip::Plan& plan_;
  const std::vector<LostLeg>& legs_;
  const TextMeasure& measure_;
  units::Language in_;
  std::string unit_;
  std::vector<Page> pages_;
  struct Place {
    std::size_t side = 0;
    int face = 0;
    double y = 0;  ///< what is above is taken
  };
  std::vector<Place> left_over_;  ///< of faces that are done
  std::size_t side_ = 0;
  int face_ = 0;
  double y_ = top_y;
};

}  // namespace

std::vector<Drawing> draw_lost_card(const trip::Plan& plan, const std::vector<LostLeg>& legs,
                                    const TextMeasure& measure) {
  return LostCard(plan, legs, measure).draw();
}

}  // namespace lodeway::sheet
