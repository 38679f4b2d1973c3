#include <memory>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lodeway/sheet/notes/home_note_parts.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/not_to_walk.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::sheet::home {

namespace {

/// The sides behind the first, one after the other, filled from the top.
class Overleaf {
 public:
  /// `of`: how many sides there are, with the first.
  Overleaf(const trip::Plan& plan, const TextMeasure& measure, std::size_t of)
      : plan_(plan), measure_(measure), of_(of), page_(begun("")) {}

  std::vector<Drawing> draw() {
    heading(trip::headline_of(plan_));
    for (const auto& reason : trip::sentences_of(plan_)) line(reason);
    if (plan_.verdict.reasons.empty()) line(trip::within_caution(language()));
    line(say(Say::both_figures, language(),
             {trip::harmed_of_hundred(plan_.keep_off), of_hundred(plan_.way.certainty)}));
    const auto known = trip::told_on(plan_, trip::Reach::home_note);
    if (!known.empty()) heading(say(Say::what_to_know, language()));
    for (const auto& text : known) line(text);
    heading(say(Say::full_reference, language()));
    const auto& legs = plan_.way.legs;
    row("", plan_.schedule.start, legs.front().course.from,
        full_or_six(plan_.start_full_reference, plan_.start_reference));
    for (std::size_t i = 0; i < legs.size(); ++i)
      row(std::to_string(i + 1), plan_.schedule.legs[i].arrive, legs[i].course.to,
          full_or_six(legs[i].full_reference, legs[i].reference));
    end();
    return std::move(out_);
  }

 private:
  static constexpr double top = 30, bottom = 276;

  [[nodiscard]] units::Language language() const { return plan_.trip.language; }

  [[nodiscard]] std::unique_ptr<Page> begun(const std::string& again) {
    auto page = std::make_unique<Page>(page_w, page_h, plan_.trip.name, measure_);
    draw_title(*page, plan_);
    y_ = top;
    if (!again.empty()) {
      page->text(again, {edge, y_ + 2}, words(11, true));
      y_ += 8;
    }
    return page;
  }
  void end() {
    draw_promise(*page_, plan_, {out_.size() + 2, of_});
    out_.push_back(page_->take());
  }
  /// A side more where the next `high` millimetres have no room.
  void room_for(double high) {
    if (y_ + high <= bottom) return;
    end();
    page_ = begun(heading_);
  }

  void heading(const std::string& words_of_it) {
    heading_ = words_of_it;
    room_for(16);
    if (y_ > top) y_ += 3;
    page_->text(words_of_it, {edge, y_ + 2}, words(11, true));
    y_ += 8;
  }

  void line(const std::string& text) {
    constexpr double leading = 4.4;
    const auto type = words(9.6);
    room_for(leading * page_->lines_needed(text, wide, type));
    y_ = page_->paragraph(text, {edge, y_}, wide, type, leading) + 0.8;
  }

  void row(const std::string& leg, trip::Clock time, const std::string& name,
           const std::string& reference) {
    constexpr double high = 4.8, reference_w = 88;
    room_for(high);
    page_->text(leg, {edge + 6, y_}, {Face::figures, 3, ink::text}, Anchor::right);
    page_->fitted(clock_text(time, plan_.daylight), {edge + 9, y_}, 14,
                  {Face::figures_bold, 3, ink::night});
    page_->fitted(reference, {edge + wide, y_}, reference_w, {Face::figures, 3.2, ink::text},
                  Anchor::right, 0.6);
    page_->fitted(name, {edge + 25, y_}, wide - 27 - reference_w, words(9), Anchor::left, 0.6);
    page_->stroke({{edge, y_ + 1.4}, {edge + wide, y_ + 1.4}}, {ink::rule, 0.12});
    y_ += high;
  }

  const trip::Plan& plan_;
  const TextMeasure& measure_;
  std::size_t of_;
  double y_ = top;
  std::string heading_;
  std::unique_ptr<Page> page_;
  std::vector<Drawing> out_;
};

}  // namespace

Type words(double points, bool bold) {
  return {bold ? Face::words_bold : Face::words, points * mm_per_point, ink::text};
}

const std::string& full_or_six(const std::string& reference, const std::string& six) {
  return reference.empty() ? six : reference;
}

void draw_title(Page& page, const trip::Plan& plan) {
  const auto& t = plan.trip;
  const auto language = t.language;
  page.text(say(Say::home_title, language), {edge, 16}, words(17, true));
  page.fitted(fmt::format("{} · {}", t.name, date_text(t.date, language)), {page_w - edge, 16}, 84,
              words(10.5, true), Anchor::right, 0.6);
  page.fitted(say(Say::home_keep, language), {edge, 22}, 130, words(9), Anchor::left, 0.7);
  if (!t.at_home.name.empty()) {
    page.fitted(say(Say::home_for, language, {t.at_home.name + " " + t.at_home.phone}),
                {page_w - edge, 22}, 48, words(9), Anchor::right, 0.6);
  }
}

void draw_promise(Page& page, const trip::Plan& plan, SideOf side) {
  page.stroke({{edge, 280}, {page_w - edge, 280}}, {ink::rule, 0.2});
  constexpr double side_w = 24;
  if (side.of > 1)
    page.text(say(Say::side_of, plan.trip.language,
                  {std::to_string(side.side), std::to_string(side.of)}),
              {page_w - edge, 284}, words(8, true), Anchor::right);
  page.paragraph(say(Say::promise, plan.trip.language), {edge, 284}, wide - side_w,
                 {Face::words, 2.8, ink::stone}, 3.6, 2);
}

std::vector<Drawing> draw_overleaf(const trip::Plan& plan, const TextMeasure& measure) {
  const auto sides = Overleaf(plan, measure, 2).draw().size();
  return Overleaf(plan, measure, sides + 1).draw();
}

}  // namespace lodeway::sheet::home
