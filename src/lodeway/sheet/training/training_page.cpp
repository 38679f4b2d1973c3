#include "lodeway/sheet/training/training_page.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "lodeway/units/text.hpp"

namespace lodeway::sheet::training {

const char* exercise_foot(units::Language language) {
  return in(language,
            "Only an exercise. Ground, weather and people change it: the instructor on the spot "
            "decides.",
            "Nur eine Übung. Gelände, Wetter und Menschen ändern sie: es entscheidet, wer vor Ort "
            "ausbildet.");
}

const char* pace_words(learn::PaceGround ground, units::Language language) {
  switch (ground) {
    case learn::PaceGround::level:
      return in(language, "level", "eben");
    case learn::PaceGround::up:
      return in(language, "up", "bergauf");
    case learn::PaceGround::down:
      return in(language, "down", "bergab");
    case learn::PaceGround::rough:
      return in(language, "rough", "rau");
  }
  return "";
}

Column::Column(std::string title, std::string code, std::string foot, const TextMeasure& measure)
    : title_(std::move(title)), code_(std::move(code)), foot_(std::move(foot)), measure_(measure) {
  pages_.reserve(40);
  begin();
}

void Column::begin() {
  pages_.emplace_back(page_w, page_h, title_, measure_);
  auto& p = pages_.back();
  p.fitted(title_, {edge, 17}, 130, words(16, true));
  p.fitted(fmt::format("{}   {}", code_, pages_.size()), {page_w - edge, 17}, 46, figures(10),
           Anchor::right);
  p.stroke({{edge, 20}, {page_w - edge, 20}}, {ink::night, 0.5});
  p.stroke({{edge, low + 4}, {page_w - edge, low + 4}}, {ink::rule, 0.2});
  p.fitted(foot_, {edge, low + 8.5}, wide, words(8, false, ink::stone));
  y_ = 27;
}

void Column::need(double mm) {
  if (y_ + mm > low) begin();
}

void Column::heading(const std::string& text, const std::string& note) {
  need(18);
  y_ += 3;
  const double w = page().text(text, {edge, y_}, words(11.5, true));
  if (!note.empty())
    page().fitted(note, {edge + w + 3, y_}, wide - w - 3, words(9, false, ink::stone));
  y_ += 1.6;
  page().stroke({{edge, y_}, {page_w - edge, y_}}, {ink::rule, 0.2});
  y_ += 4.6;
}

void Column::paragraph(const std::string& rich, double points) {
  const double leading = points * mm_per_point * 1.3;
  const auto type = words(points);
  need(leading * page().lines_needed(rich, wide, type) + 1);
  y_ = page().paragraph(rich, {edge, y_}, wide, type, leading) + 0.8;
}

void Column::caution(const std::vector<std::string>& sentences) {
  const auto type = words(10);
  const double leading = 4.7, inner = wide - 8;
  double high = 4;
  for (const auto& s : sentences) high += leading * page().lines_needed(s, inner, type) + 0.6;
  need(high + 4);
  page().frame(edge, y_ - 4, wide, high, {ink::rowan, 0.8});
  page().box(edge, y_ - 4, 2, high, ink::rowan);
  double at = y_ + 1.2;
  for (const auto& s : sentences)
    at = page().paragraph(s, {edge + 5, at}, inner, type, leading) + 0.6;
  y_ += high + 3;
}

std::vector<Drawing> Column::take() {
  std::vector<Drawing> out;
  for (auto& p : pages_) out.push_back(p.take());
  return out;
}

std::string reference(earth::GridPoint p) { return learn::day_reference(p); }

std::string full_reference(earth::GridPoint p) {
  return fmt::format("E {:.0f} N {:.0f}", p.east_m, p.north_m);
}

std::string dial(units::MagneticBearing b) { return units::bearing_text(b, {}, 0); }

}  // namespace lodeway::sheet::training
