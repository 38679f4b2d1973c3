#include "lodeway/tasks/text_table.hpp"

#include <algorithm>
#include <cassert>

namespace lodeway::tasks {

namespace {
/// Letters, not bytes: what follows the first byte of a letter in UTF-8 begins with the bits 10.
std::size_t letters(const std::string& text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
}
}  // namespace

TextTable::TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}

void TextTable::row(std::vector<std::string> cells) {
  assert(cells.size() == columns_.size());
  rows_.push_back(std::move(cells));
}

std::string TextTable::text() const {
  std::vector<std::size_t> widths;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    widths.push_back(letters(columns_[c].head));
    for (const auto& cells : rows_) widths[c] = std::max(widths[c], letters(cells[c]));
  }
  std::string out;
  const auto line = [&](const auto& cell_of) {
    std::string text;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const std::string& cell = cell_of(c);
      const std::string gap(widths[c] - letters(cell), ' ');
      if (c > 0) text += "  ";
      text += columns_[c].side == Side::right ? gap + cell : cell + gap;
    }
    text.erase(text.find_last_not_of(' ') + 1);
    out += text + "\n";
  };
  line([&](std::size_t c) -> const std::string& { return columns_[c].head; });
  for (const auto& cells : rows_)
    line([&](std::size_t c) -> const std::string& { return cells[c]; });
  return out;
}

}  // namespace lodeway::tasks
