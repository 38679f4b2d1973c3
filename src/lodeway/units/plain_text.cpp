#include "lodeway/units/plain_text.hpp"

#include <cstdint>

namespace lodeway::units {
namespace {

struct Decoded {
  char32_t letter = 0xFFFD;
  std::size_t bytes = 1;
  bool good = false;
};

// UTF-8 as RFC 3629 has it: no overlong forms, no surrogates, nothing above U+10FFFF.
Decoded decode(std::string_view s) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(s[i]); };
  const unsigned char b0 = byte(0);
  if (b0 < 0x80) return {b0, 1, true};
  const std::size_t n = b0 >= 0xF0 ? 4 : b0 >= 0xE0 ? 3 : b0 >= 0xC2 ? 2 : 0;
  if (n == 0 || b0 > 0xF4 || s.size() < n) return {};
  char32_t c = b0 & (0x7Fu >> n);
  for (std::size_t i = 1; i < n; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return {};
    c = c << 6 | (byte(i) & 0x3Fu);
  }
  const bool overlong = (n == 3 && c < 0x800) || (n == 4 && c < 0x10000);
  if (overlong || c > 0x10FFFF || (c >= 0xD800 && c < 0xE000)) return {};
  return {c, n, true};
}

bool is_control(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029 ||
         (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF ||
         (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF);  // no letters: XML has none of them
}

}  // namespace

std::string plain(std::string_view text, std::size_t max_letters) {
  std::string out;
  std::size_t count = 0;
  bool blank = true;  // at the start: leading blanks go
  while (!text.empty()) {
    const Decoded d = decode(text);
    const std::string_view raw = text.substr(0, d.bytes);
    text.remove_prefix(d.bytes);
    if (d.good && (is_control(d.letter) || d.letter == ' ')) {
      blank = blank || out.empty();
      if (!blank && count < max_letters) {
        out += ' ';
        ++count;
      }
      blank = true;
      continue;
    }
    if (count == max_letters) {
      while (!out.empty() && out.back() == ' ') out.pop_back();
      return out + "…";
    }
    out += d.good ? raw : std::string_view("\xEF\xBF\xBD");
    blank = false;
    ++count;
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::vector<std::string_view> letters(std::string_view text) {
  std::vector<std::string_view> out;
  while (!text.empty()) {
    const std::size_t n = decode(text).bytes;
    out.push_back(text.substr(0, n));
    text.remove_prefix(n);
  }
  return out;
}

}  // namespace lodeway::units
