#include "lodeway/sheet/draw/page.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/units/plain_text.hpp"

namespace lodeway::sheet {
namespace {

constexpr const char* ellipsis = "…";

/// A figure and its unit stay on one line.
std::string bound(const std::string& rich) {
  std::string out;
  for (std::size_t i = 0; i < rich.size(); ++i) {
    const bool behind_figure = rich[i] == ' ' && i > 0 && rich[i - 1] >= '0' && rich[i - 1] <= '9';
    bool unit = false;
    for (const std::string_view u : {"m", "mm", "km", "ft", "mi", "min", "mil"}) {
      if (!behind_figure || rich.compare(i + 1, u.size(), u) != 0) continue;
      const std::size_t next = i + 1 + u.size();
      unit = unit || next >= rich.size() ||
             std::string_view(" ,.;:)").find(rich[next]) != std::string_view::npos;
    }
    out += unit ? std::string("\u00A0") : std::string(1, rich[i]);
  }
  return out;
}

Face bold_of(Face face) { return face == Face::figures ? Face::figures_bold : Face::words_bold; }

}  // namespace

Page::Page(double width_mm, double height_mm, std::string title, const TextMeasure& measure)
    : measure_(measure) {
  drawing_.width_mm = width_mm;
  drawing_.height_mm = height_mm;
  drawing_.title = std::move(title);
}

void Page::stroke(std::vector<Mm> line, const Pen& pen, bool closed) {
  std::vector<std::vector<Mm>> lines;
  lines.push_back(std::move(line));
  strokes(std::move(lines), pen, closed);
}

namespace {
void edge_with(PathCommand& path, const Pen& pen) {
  path.width_mm = pen.width_mm;
  path.stroke = pen.ink;
  path.dash_mm = pen.dash_mm;
  path.round_ends = pen.round;
}
}  // namespace

void Page::strokes(std::vector<std::vector<Mm>> lines, const Pen& pen, bool closed) {
  if (lines.empty()) return;
  PathCommand path;
  path.rings = std::move(lines);
  path.closed = closed;
  edge_with(path, pen);
  add(std::move(path));
}

void Page::fill(std::vector<std::vector<Mm>> rings, const Ink& ink) {
  if (rings.empty()) return;
  PathCommand path;
  path.rings = std::move(rings);
  path.closed = path.fill = true;
  path.fill_ink = ink;
  add(std::move(path));
}

void Page::shape(std::vector<std::vector<Mm>> rings, const Ink& ink, const Pen& edge) {
  if (rings.empty()) return;
  PathCommand path;
  path.rings = std::move(rings);
  path.closed = path.fill = true;
  path.fill_ink = ink;
  edge_with(path, edge);
  add(std::move(path));
}

void Page::box(double x, double y, double w, double h, const Ink& ink) {
  fill({{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}}, ink);
}

void Page::frame(double x, double y, double w, double h, const Pen& pen) {
  stroke({{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, pen, true);
}

void Page::clip(double x, double y, double w, double h) { add(ClipCommand{{x, y}, w, h}); }
void Page::unclip() { add(UnclipCommand{}); }

double Page::text(std::string words, Mm at, const Type& type, Anchor anchor, double turn_deg) {
  words = fit_to_print(std::move(words), type.face);
  if (words.empty()) return 0;
  const double w = width(words, type);
  TextCommand command;
  command.text = std::move(words);
  command.at = at;
  command.size_mm = type.size_mm;
  command.face = type.face;
  command.ink = type.ink;
  command.halo_mm = type.halo_mm;
  command.anchor = anchor;
  command.turn_deg = turn_deg;
  add(std::move(command));
  return w;
}

std::string Page::fit_to_print(std::string words, Face face) {
  const bool plain_ascii = std::ranges::all_of(words, [](char c) { return c >= 0x20 && c < 0x7F; });
  if (plain_ascii) return words;
  words = units::plain(words, words.size());
  if (measure_.covers(words, face)) return words;
  if (std::ranges::find(drawing_.unreadable, words) == drawing_.unreadable.end())
    drawing_.unreadable.push_back(words);
  std::string out;
  for (const auto letter : units::letters(words)) {
    const std::string one(letter);
    out += measure_.covers(one, face) ? one : "·";
  }
  return out;
}

double Page::fitted(std::string words, Mm at, double max_mm, const Type& type, Anchor anchor,
                    double least) {
  Type t = type;
  const double w = width(words, type);
  if (w > max_mm) t.size_mm *= std::max(least, max_mm / w * 0.999);
  return text(cut(words, max_mm, t), at, t, anchor);
}

double Page::longest_word(const std::string& words, const Type& type) const {
  double most = 0;
  for (std::size_t from = 0; from < words.size();) {
    const auto to = std::min(words.find(' ', from), words.size());
    most = std::max(most, width(words.substr(from, to - from), type));
    from = to + 1;
  }
  return most;
}

double Page::width(const std::string& words, const Type& type) const {
  return measure_.width_mm(words, type.face, type.size_mm);
}

std::string Page::cut(const std::string& words, double max_mm, const Type& type) const {
  if (width(words, type) <= max_mm) return words;
  const auto all = units::letters(words);
  std::size_t low = 0, high = all.size();  // the most letters that fit with the ellipsis
  const auto head = [&](std::size_t n) {
    std::string s;
    for (std::size_t i = 0; i < n; ++i) s += all[i];
    while (!s.empty() && s.back() == ' ') s.pop_back();
    return s + ellipsis;
  };
  while (low + 1 < high) {
    const std::size_t mid = (low + high) / 2;
    (width(head(mid), type) <= max_mm ? low : high) = mid;
  }
  return low == 0 ? std::string() : head(low);
}

std::vector<std::vector<Page::Piece>> Page::wrap(const std::string& rich, double width_mm,
                                                 const Type& type, int max_lines) const {
  std::vector<Piece> pieces;
  Face face = type.face;
  std::string word;
  bool blank = false;
  const auto end_word = [&] {
    if (word.empty()) return;
    pieces.push_back({word, face, measure_.width_mm(word, face, type.size_mm), blank});
    word.clear();
    blank = false;
  };
  for (const char c : bound(rich)) {
    if (c == bold_on || c == figures_on || c == plain_on) {
      end_word();
      face = c == plain_on ? type.face : c == bold_on ? bold_of(type.face) : Face::figures_bold;
    } else if (c == ' ') {
      end_word();
      blank = true;
    } else {
      word += c;
    }
  }
  end_word();

  std::vector<std::vector<Piece>> lines(1);
  const double space = measure_.width_mm(" ", type.face, type.size_mm);
  double x = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    Piece p = pieces[i];
    // Pieces that hang together without a blank are wrapped together.
    double joined = p.width;
    for (std::size_t j = i + 1; j < pieces.size() && !pieces[j].blank_before; ++j) {
      joined += pieces[j].width;
    }
    const double before = lines.back().empty() || !p.blank_before ? 0 : space;
    if (!lines.back().empty() && p.blank_before && x + before + joined > width_mm) {
      if (static_cast<int>(lines.size()) >= max_lines) {
        Piece& last = lines.back().back();
        const Type t{last.face, type.size_mm, type.ink, 0};
        const double room = width_mm - (x - last.width);
        last.words = cut(last.words + " " + p.words + " " + p.words, room, t);
        last.width = measure_.width_mm(last.words, last.face, type.size_mm);
        return lines;
      }
      lines.emplace_back();
      x = 0;
      p.blank_before = false;
    } else {
      x += before;
    }
    if (p.width > width_mm - x) {
      p.words = cut(p.words, width_mm - x, {p.face, type.size_mm, type.ink, 0});
      p.width = measure_.width_mm(p.words, p.face, type.size_mm);
    }
    x += p.width;
    lines.back().push_back(std::move(p));
  }
  return lines;
}

int Page::lines_needed(const std::string& rich, double width_mm, const Type& type,
                       int max_lines) const {
  return static_cast<int>(wrap(rich, width_mm, type, max_lines).size());
}

double Page::paragraph(const std::string& rich, Mm at, double width_mm, const Type& type,
                       double leading_mm, int max_lines) {
  double y = at.y;
  for (const auto& line : wrap(rich, width_mm, type, max_lines)) {
    double x = at.x;
    // Neighbours in one face are drawn as one run, so that a line can be copied as a line.
    for (std::size_t i = 0; i < line.size();) {
      Type t = type;
      t.face = line[i].face;
      if (i > 0 && line[i].blank_before) x += width(" ", type);
      std::string run = line[i].words;
      for (++i; i < line.size() && line[i].face == t.face; ++i) {
        if (line[i].blank_before) run += ' ';
        run += line[i].words;
      }
      x += text(run, {x, y}, t);
    }
    y += leading_mm;
  }
  return y;
}

Drawing scaled(const Drawing& drawing, double k) {
  struct Scale {
    double k;
    void operator()(PathCommand& p) const {
      for (auto& ring : p.rings) {
        for (Mm& m : ring) m = {m.x * k, m.y * k};
      }
      p.width_mm *= k;
      for (double& d : p.dash_mm) d *= k;
    }
    void operator()(TextCommand& t) const {
      t.at = {t.at.x * k, t.at.y * k};
      t.size_mm *= k;
      t.halo_mm *= k;
    }
    void operator()(ImageCommand& i) const {
      i.at = {i.at.x * k, i.at.y * k};
      i.width_mm *= k;
      i.height_mm *= k;
    }
    void operator()(ClipCommand& c) const {
      c.at = {c.at.x * k, c.at.y * k};
      c.width_mm *= k;
      c.height_mm *= k;
    }
    void operator()(UnclipCommand&) const {}
  };
  Drawing out = drawing;
  out.width_mm *= k;
  out.height_mm *= k;
  for (Command& command : out.commands) std::visit(Scale{k}, command);
  return out;
}

std::vector<Mm> circle(Mm centre, double radius_mm) {
  constexpr int corners = 40;
  std::vector<Mm> ring;
  ring.reserve(corners);
  for (int i = 0; i < corners; ++i) {
    const double a = 2 * std::numbers::pi * i / corners;
    ring.push_back({centre.x + radius_mm * std::cos(a), centre.y + radius_mm * std::sin(a)});
  }
  return ring;
}

}  // namespace lodeway::sheet
