#include "lodeway/sheet/draw/verdict_band.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "lodeway/trip/not_to_walk.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

namespace {

Type words(double points, bool bold) {
  return {bold ? Face::words_bold : Face::words, points * mm_per_point, ink::night};
}

bool is_danger(const trip::Verdict& verdict) {
  return std::ranges::any_of(verdict.reasons, [](const trip::Reason& r) {
    return r.band == trip::Band::outside && r.what != trip::Fails::lost_leg;
  });
}

/// As many of the sentences as fit whole, from `first` on; answers the first that was not written.
std::size_t write_lines(Page& page, const std::vector<std::string>& lines, std::size_t first, Mm at,
                        double w, double bottom, const Type& type, double leading) {
  constexpr double least = 0.86;  // of its size, before it takes a second line
  std::size_t done = first;
  double y = at.y;
  for (; done < lines.size() && y <= bottom; ++done) {
    const int left = static_cast<int>((bottom - y) / leading) + 1;
    if (const double one = page.width(lines[done], type); one > w && least * one <= w) {
      page.fitted(lines[done], {at.x, y}, w, type, Anchor::left, least);
      y += leading;
    } else if (page.lines_needed(lines[done], w, type) <= left) {
      y = page.paragraph(lines[done], {at.x, y}, w, type, leading, left);
    } else {
      break;
    }
  }
  return done;
}

/// What the band says: what fails, worst first, then what else the whole trip must know.
std::vector<std::string> lines_of(const trip::Plan& plan) {
  auto lines = trip::sentences_of(plan);
  if (lines.empty()) lines.push_back(trip::within_caution(plan.trip.language));
  for (auto& told : trip::told_on(plan, trip::Reach::card)) lines.push_back(std::move(told));
  if (auto none = trip::no_turn_words(plan); !none.empty()) lines.push_back(std::move(none));
  return lines;
}

/// All but the frame, in a band of height `h`; answers how many lines found no room.
std::size_t write_band(Page& page, const trip::Plan& plan, Mm at, double w, double fold, double h) {
  const auto& verdict = plan.verdict;
  const auto language = plan.trip.language;
  const double left = at.x + 2.6, left_w = fold - left - 3, right = fold + 2,
               right_w = at.x + w - right - 2.6, bottom = at.y + h - 1.9;
  const double down = is_danger(verdict) ? 0.9 : 0;  // clear of the frame's teeth
  page.fitted(trip::headline_of(plan), {left, at.y + 5.4 + down}, left_w,
              words(14.5, true), Anchor::left, 0.6);
  const auto lines = lines_of(plan);
  const auto bold = words(8.4, verdict.band == trip::Band::outside);
  const auto done =
      write_lines(page, lines, 0, {left, at.y + 9.2 + down}, left_w, bottom, bold, 3.5);
  // Both figures, as large as each other, whatever the verdict.
  const auto figures =
      say(trip::Say::both_figures, language,
          {trip::harmed_of_hundred(plan.keep_off), units::of_hundred(plan.way.certainty)});
  constexpr double one_line = 0.85;  // a little smaller rather than a second line
  double y = at.y + 8;
  if (one_line * page.width(figures, words(8.4, true)) <= right_w)
    page.fitted(figures, {right, at.y + 4.4}, right_w, words(8.4, true), Anchor::left, one_line);
  else
    y = page.paragraph(figures, {right, at.y + 4.4}, right_w, words(8.4, true), 3.6, 2);
  // What does not fit is counted on a line of its own.
  const auto fine = words(7.6, false);
  int needed = 0;
  for (auto k = done; k < lines.size(); ++k) needed += page.lines_needed(lines[k], right_w, fine);
  const double room = y + 3.2 * (needed - 1) > bottom ? bottom - 3.0 : bottom;
  const auto rest = write_lines(page, lines, done, {right, y}, right_w, room, fine, 3.2);
  if (rest < lines.size()) {
    page.fitted(say(trip::Say::more_fails, language, {std::to_string(lines.size() - rest)}),
                {at.x + w - 2.6, bottom + 0.6}, right_w, words(6.4, true), Anchor::right, 0.6);
  }
  return lines.size() - rest;
}

}  // namespace

void danger_frame(Page& page, double x, double y, double w, double h) {
  constexpr double pen = 0.55, tick = 1.0, every = 2.2;
  page.frame(x, y, w, h, {ink::night, pen});
  std::vector<std::vector<Mm>> ticks;
  for (double a = x + every; a < x + w - 0.5 * every; a += every) {
    ticks.push_back({{a, y}, {a, y + tick}});
    ticks.push_back({{a, y + h}, {a, y + h - tick}});
  }
  for (double a = y + every; a < y + h - 0.5 * every; a += every) {
    ticks.push_back({{x, a}, {x + tick, a}});
    ticks.push_back({{x + w, a}, {x + w - tick, a}});
  }
  page.strokes(std::move(ticks), {ink::night, 0.35});
}

double verdict_band_h(const trip::Plan& plan, double w, double fold, double most,
                      const TextMeasure& measure) {
  const auto least = [&] {
    if (plan.verdict.band == trip::Band::within) return 12.0;
    return is_danger(plan.verdict) ? 17.4 : 12.6;
  };
  constexpr double step = 0.8;
  for (double h = least(); h < most; h += step) {
    Page aside(2 * w, 2 * most, "", measure);
    if (write_band(aside, plan, {0, 0}, w, fold, h) == 0) return h;
  }
  return most;
}

std::size_t draw_verdict_band(Page& page, const trip::Plan& plan, Mm at, double w, double fold,
                              double h) {
  const auto& verdict = plan.verdict;
  switch (verdict.band) {
    case trip::Band::outside:
      if (is_danger(verdict))
        danger_frame(page, at.x, at.y, w, h);
      else
        page.frame(at.x, at.y, w, h, {ink::night, 0.7});
      break;
    case trip::Band::not_judged:
      page.frame(at.x, at.y, w, h, {ink::night, 0.5, {2.0, 1.2}});
      break;
    case trip::Band::close_to:
      page.frame(at.x, at.y, w, h, {ink::night, 0.5});
      break;
    case trip::Band::within:
      page.frame(at.x, at.y, w, h, {ink::night, 0.35});
      break;
  }
  return write_band(page, plan, at, w, fold, h);
}

}  // namespace lodeway::sheet
