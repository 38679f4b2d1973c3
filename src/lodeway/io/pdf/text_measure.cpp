#include "lodeway/io/pdf/text_measure.hpp"

#include <pango/pangocairo.h>

#include <string>
#include <unordered_map>
#include <utility>

#include "lodeway/io/pdf/fonts.hpp"

namespace lodeway::io {
namespace {

class PangoMeasure final : public sheet::TextMeasure {
 public:
  [[nodiscard]] Result<void> check() const { return fonts_.check(); }

  // Widths are kept for one size and scaled: without hinting they are proportional.
  [[nodiscard]] double width_mm(const std::string& text, sheet::Face face,
                                double size_mm) const override {
    std::string key = text;
    key.push_back(static_cast<char>(face));
    const auto known = widths_.find(key);
    if (known != widths_.end()) return known->second * size_mm;
    constexpr double at_size = 16;
    const double unit = io::width_mm(fonts_.line(text, face, at_size).get()) / at_size;
    if (widths_.size() < max_kept) widths_.emplace(std::move(key), unit);
    return unit * size_mm;
  }

  [[nodiscard]] bool covers(const std::string& text, sheet::Face face) const override {
    std::string key = text;
    key.push_back(static_cast<char>(face));
    const auto known = covered_.find(key);
    if (known != covered_.end()) return known->second;
    const bool all = pango_layout_get_unknown_glyphs_count(fonts_.line(text, face, 3).get()) == 0;
    if (covered_.size() < max_kept) covered_.emplace(std::move(key), all);
    return all;
  }

 private:
  static constexpr std::size_t max_kept = 20000;
  Fonts fonts_;
  mutable std::unordered_map<std::string, double> widths_;
  mutable std::unordered_map<std::string, bool> covered_;
};

}  // namespace

Result<std::unique_ptr<const sheet::TextMeasure>> make_text_measure() {
  auto measure = std::make_unique<PangoMeasure>();
  if (auto ok = measure->check(); !ok) return std::unexpected(ok.error());
  return std::unique_ptr<const sheet::TextMeasure>(std::move(measure));
}

}  // namespace lodeway::io
