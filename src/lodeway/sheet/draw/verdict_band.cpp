#include "lodeway/sheet/draw/verdict_band.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "lodeway/trip/verdict_words.hpp"
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
  constexpr double least = 0.66;  // of its size, before a sentence is left out
  std::size_t done = first;
  double y = at.y;
  for (; done < lines.size() && y <= bottom; ++done) {
    const int left = static_cast<int>((bottom - y) / leading) + 1;
    if (page.lines_needed(lines[done], w, type) <= left) {
      y = page.paragraph(lines[done], {at.x, y}, w, type, leading, left);
    } else if (least * page.width(lines[done], type) <= w) {
      page.fitted(lines[done], {at.x, y}, w, type, Anchor::left, least);
      y += leading;
    } else {
      break;
    }
  }
  return done;
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

double verdict_band_h(const trip::Verdict& verdict) {
  if (verdict.band == trip::Band::within) return 12;
  return is_danger(verdict) ? 17.4 : 12.6;
}

void draw_verdict_band(Page& page, const trip::Plan& plan, Mm at, double w, double fold) {
  const auto& verdict = plan.verdict;
  const auto language = plan.trip.language;
  const double h = verdict_band_h(verdict);
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
  const double left = at.x + 2.6, left_w = fold - left - 3, right = fold + 2,
               right_w = at.x + w - right - 2.6, bottom = at.y + h - 1.9;
  const double down = is_danger(verdict) ? 0.9 : 0;  // clear of the frame's teeth
  page.fitted(trip::verdict_headline(verdict.band, language), {left, at.y + 5.4 + down}, left_w,
              words(14.5, true), Anchor::left, 0.6);
  auto lines = trip::verdict_sentences(verdict, language);
  if (lines.empty()) lines.push_back(trip::within_caution(language));
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
}

}  // namespace lodeway::sheet
