// What is written can be read back: scale, fonts, text, the same bytes twice. By poppler's tools.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <regex>
#include <sstream>

#include <gtest/gtest.h>

#include "lodeway/io/pdf/write_pdf.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/notes/escape_card.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "sheet/paper_support.hpp"
#include "support/support.hpp"

namespace lodeway::sheet {
namespace {

const auto day = std::chrono::year{2026} / 11 / 14;
constexpr double mm_a_point = 25.4 / 72;

std::string output_of(const std::string& command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  EXPECT_TRUE(pipe);
  std::string out;
  char buffer[4096];
  while (const auto n = std::fread(buffer, 1, sizeof buffer, pipe.get())) out.append(buffer, n);
  return out;
}

std::vector<Drawing> whole_set(units::Language language = units::Language::english) {
  const auto plan = full_plan(language);
  auto out = *draw_map_sheets(plan, fells(), measure());
  for (auto& side : draw_card(plan, measure())) out.push_back(std::move(side));
  for (auto& side : draw_home_note(plan, fells(), measure())) out.push_back(std::move(side));
  for (auto& side : draw_escape_card(plan, measure())) out.push_back(std::move(side));
  return out;
}

struct Word {
  double x0, y0, x1, y1;  // millimetres
  std::string text;
};

std::vector<Word> words_of(const std::string& pdf) {
  const auto html = output_of("pdftotext -bbox '" + pdf + "' -");
  const std::regex word(
      "xMin=\"([-0-9.]+)\" yMin=\"([-0-9.]+)\" xMax=\"([-0-9.]+)\" yMax=\"([-0-9.]+)\">([^<]*)<");
  std::vector<Word> out;
  for (std::sregex_iterator i(html.begin(), html.end(), word), end; i != end; ++i) {
    const auto at = [&](int k) {
      return std::stod((*i)[static_cast<std::size_t>(k)]) * mm_a_point;
    };
    out.push_back({at(1), at(2), at(3), at(4), (*i)[5]});
  }
  return out;
}

TEST(Pdf, OneKilometreOfGridIsFortyMillimetres) {
  const support::TemporaryFolder folder;
  const auto sheets = draw_map_sheets(full_plan(), fells(), measure());
  ASSERT_TRUE(sheets);
  const auto file = folder / "sheet.pdf";
  ASSERT_TRUE(io::write_pdf(std::span(sheets->data(), 1), file, day));
  std::vector<double> middles;  // of the eastings' figures, over their lines
  for (const auto& w : words_of(file)) {
    if ((w.text == "82" || w.text == "83" || w.text == "84") && w.y1 < 22)
      middles.push_back(0.5 * (w.x0 + w.x1));
  }
  ASSERT_EQ(middles.size(), 3U);
  std::ranges::sort(middles);
  EXPECT_NEAR(middles[1] - middles[0], 40.00, 0.02);
  EXPECT_NEAR(middles[2] - middles[1], 40.00, 0.02);
}

TEST(Pdf, FontsAreEmbeddedSubsetsAndTextCanBeFound) {
  const support::TemporaryFolder folder;
  const auto file = folder / "all.pdf";
  ASSERT_TRUE(io::write_pdf(whole_set(), file, day));
  std::istringstream lines(output_of("pdffonts '" + file + "'"));
  int fonts = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line.starts_with("name") || line.starts_with("---")) continue;
    ++fonts;
    EXPECT_EQ(line.find("Type 3"), std::string::npos) << line;
    EXPECT_EQ(line.find('+'), 6U) << line;  // ABCDEF+Name: a subset
    std::istringstream columns(line);
    std::vector<std::string> c;
    for (std::string word; columns >> word;) c.push_back(word);
    ASSERT_GE(c.size(), 7U);
    // From the right: object number and generation, unicode map, subset, embedded.
    EXPECT_EQ(c[c.size() - 3], "yes") << line;
    EXPECT_EQ(c[c.size() - 4], "yes") << line;
    EXPECT_EQ(c[c.size() - 5], "yes") << line;
  }
  EXPECT_GE(fonts, 5);
  const auto text = output_of("pdftotext -raw '" + file + "' -");
  for (const char* words :
       {"Harrik Pike", "Map to compass: add 2.3°", "Turn round if you are not at Kell Gap, end of leg 5, by",
        "Fallow Beck on your left", "Do not wait longer"})
    EXPECT_NE(text.find(words), std::string::npos) << words;
}

TEST(Pdf, NoWordOutsideThePagesClearEdge) {
  const support::TemporaryFolder folder;
  int n = 0;
  for (const auto& page : whole_set(units::Language::german)) {
    const auto file = folder / (std::to_string(n++) + ".pdf");
    ASSERT_TRUE(io::write_pdf(std::span(&page, 1), file, day));
    for (const auto& w : words_of(file)) {
      // The box of poppler is the font's, taller than the letters: 1 mm more above and below.
      EXPECT_TRUE(w.x0 > 3.9 && w.x1 < page.width_mm - 3.9 && w.y0 > 2.9 &&
                  w.y1 < page.height_mm - 2.9)
          << w.text << " " << w.x0 << " " << w.y0 << " " << w.x1 << " " << w.y1;
    }
  }
}

TEST(Pdf, SameBytesTwiceAndSmall) {
  const support::TemporaryFolder folder;
  ASSERT_TRUE(io::write_pdf(whole_set(), folder / "a.pdf", day));
  ASSERT_TRUE(io::write_pdf(whole_set(), folder / "b.pdf", day));
  EXPECT_EQ(support::read_text(folder / "a.pdf"), support::read_text(folder / "b.pdf"));
  const auto pages = whole_set();
  ASSERT_TRUE(io::write_pdf(std::span(pages.data(), 1), folder / "sheet.pdf", day));
  EXPECT_LT(std::filesystem::file_size(folder / "sheet.pdf"), 3'000'000U);
}

TEST(Pdf, RefusesWhatIsNoPage) {
  const support::TemporaryFolder folder;
  EXPECT_FALSE(io::write_pdf({}, folder / "a.pdf", day));
  for (const auto& [w, h] :
       {std::pair{0.0, 297.0}, {210.0, 0.0}, {-1.0, 1.0}, {1e9, 1.0}, {std::nan(""), 1.0}}) {
    Drawing none;
    none.width_mm = w;
    none.height_mm = h;
    EXPECT_FALSE(io::write_pdf(std::vector{none}, folder / "a.pdf", day));
    EXPECT_FALSE(io::write_png(none, folder / "a.png", 100));
  }
  EXPECT_FALSE(io::write_pdf(std::vector{Drawing{}}, folder / "no/such/a.pdf", day));
  EXPECT_FALSE(io::write_pdf(std::vector{Drawing{}}, "/dev/full/a.pdf", day));
  EXPECT_EQ(folder.count(), 0);
}

}  // namespace
}  // namespace lodeway::sheet
