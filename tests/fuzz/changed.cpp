#include "fuzz/changed.hpp"

#include <algorithm>
#include <charconv>

namespace lodeway::fuzz {

std::vector<std::string> dictionary_words(std::string_view text) {
  std::vector<std::string> out;
  while (!text.empty()) {
    const auto end = std::min(text.find('\n'), text.size());
    const auto line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const auto from = line.find('"'), to = line.rfind('"');
    if (line.starts_with('#') || from == std::string_view::npos || to <= from) continue;
    std::string word;
    for (auto rest = line.substr(from + 1, to - from - 1); !rest.empty();) {
      if (rest.starts_with("\\x") && rest.size() >= 4) {
        unsigned byte = 0;
        std::from_chars(rest.data() + 2, rest.data() + 4, byte, 16);
        word += static_cast<char>(byte);
        rest.remove_prefix(4);
        continue;
      }
      if (rest.front() == '\\' && rest.size() >= 2) rest.remove_prefix(1);
      word += rest.front();
      rest.remove_prefix(1);
    }
    if (!word.empty()) out.push_back(word);
  }
  return out;
}

Changer::Changer(std::vector<std::string> seeds, std::vector<std::string> words)
    : seeds_(std::move(seeds)), words_(std::move(words)) {}

std::size_t Changer::below(std::size_t n) { return n == 0 ? 0 : dice_.bits() % n; }

std::string Changer::some_piece(const std::string& of) {
  const auto at = below(of.size());
  // Mostly short: a long piece of another input hides what came before it.
  return of.substr(at, 1 + below(below(4) == 0 ? of.size() - at : 16));
}

/// Put in, or laid over what is there.
void Changer::put(std::size_t at, const std::string& piece) {
  input_.replace(at, below(2) == 0 ? 0 : std::min(piece.size(), input_.size() - at), piece);
}

/// Some run of digits becomes another figure.
void Changer::figure() {
  static const std::string odd[] = {"0",     "-1",     "1e309",      "-0",
                                    "nan",   "1e-320", "2147483648", "18446744073709551616",
                                    "1e300", "inf",    "0.5",        std::string(400, '9')};
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  const auto start = below(input_.size());
  const auto from =
      std::find_if(input_.begin() + static_cast<std::ptrdiff_t>(start), input_.end(), digit);
  const auto to = std::find_if_not(from, input_.end(), digit);
  if (from != to) input_.replace(from, to, odd[below(std::size(odd))]);
}

void Changer::change() {
  const auto at = below(input_.size() + 1);
  const auto size = std::min(input_.size() - at, 1 + below(below(4) == 0 ? 4096 : 8));
  const auto byte = [&]() -> char& { return input_[std::min(at, input_.size() - 1)]; };
  switch (input_.empty() ? 5 : below(10)) {
    case 0:
      byte() = static_cast<char>(byte() ^ (1 << below(8)));
      break;
    case 1:
      byte() = static_cast<char>(dice_.bits());
      break;
    case 2:
      byte() = "\x00\x01\x7f\x80\xff"[below(5)];
      break;
    case 3:
      input_.erase(at, size);
      break;
    case 4:
      input_.insert(at, input_.substr(at, size));
      break;
    case 5:
      put(at, some_piece(seeds_[below(seeds_.size())]));
      break;
    case 6:
      put(at, words_.empty() ? some_piece(input_) : words_[below(words_.size())]);
      break;
    case 7:
      figure();
      break;
    case 8: {
      const auto piece = input_.substr(at, size);
      input_.erase(at, size);
      input_.insert(below(input_.size() + 1), piece);
      break;
    }
    default:  // its end, with another's
      input_ = input_.substr(0, at);
      if (below(2) == 0) {
        const auto& other = seeds_[below(seeds_.size())];
        input_ += other.substr(below(other.size()));
      }
  }
  if (input_.size() > max_bytes) input_.resize(max_bytes);
}

const std::string& Changer::next() {
  if (below(4) != 0 || input_.empty())
    input_ = seeds_[below(seeds_.size())];  // else it goes on changing
  if (input_.size() > max_bytes) input_.resize(max_bytes);
  for (auto n = 1 + below(6); n > 0; --n) change();
  return input_;
}

}  // namespace lodeway::fuzz
