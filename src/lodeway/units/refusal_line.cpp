#include "lodeway/units/refusal_line.hpp"

#include <algorithm>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::units {

namespace {

constexpr std::size_t longest_word = 250, most_shown = 60;

std::string quotes_cut(std::string_view what) {
  std::string out;
  while (!what.empty()) {
    const auto from = what.find('"');
    const auto to = from == std::string_view::npos ? from : what.find('"', from + 1);
    if (to == std::string_view::npos) break;
    out += what.substr(0, from + 1);
    out += plain(what.substr(from + 1, to - from - 1), most_shown);
    out += '"';
    what.remove_prefix(to + 1);
  }
  out += what;
  return out;
}

std::string words_cut(std::string_view what) {
  std::string out;
  for (std::size_t at = 0; at < what.size();) {
    const auto end = std::min(what.find(' ', at), what.size());
    const auto word = what.substr(at, end - at);
    out += word.size() > longest_word ? plain(word, most_shown) : std::string(word);
    if (end < what.size()) out += ' ';
    at = end + 1;
  }
  return out;
}

}  // namespace

std::string refusal_line(std::string_view what) {
  return plain(words_cut(quotes_cut(what)), what.size());
}

}  // namespace lodeway::units
