#include "lodeway/belief/questions.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include "lodeway/belief/detail/drafts.hpp"

namespace lodeway::belief {

namespace {
using detail::Asked;
using detail::Draft;
using detail::entropy_of;
using detail::Row;
using sight::Cue;

/// The part whose middle is nearest in its own radii; -1: none within three.
std::vector<std::int32_t> parts_of(const Summary& summary, const CuePlanes& p,
                                   std::span<const std::size_t> cells) {
  std::vector<std::int32_t> out;
  const auto cols = static_cast<std::size_t>(p.frame.cols);
  for (const std::size_t c : cells) {
    const auto at = p.frame.centre(static_cast<int>(c / cols), static_cast<int>(c % cols));
    std::int32_t best = -1;
    double least = 3;
    for (std::size_t k = 0; k < summary.parts.size(); ++k) {
      const auto& part = summary.parts[k];
      const double d =
          earth::grid_distance_m(at, part.middle) / std::max(part.radius_m, p.frame.cell_m);
      if (d < least) {
        least = d;
        best = static_cast<std::int32_t>(k);
      }
    }
    out.push_back(best);
  }
  return out;
}

std::vector<Meaning> meanings_of(const Asked& asked, const Draft& draft, const Summary& summary,
                                 std::span<const std::int32_t> part) {
  std::vector<Meaning> out;
  const auto n = static_cast<double>(part.size());
  for (std::size_t a = 0; a < asked.answers(); ++a) {
    std::vector<double> of_part(summary.parts.size(), 0.0);
    double all = 0;
    for (std::size_t k = 0; k < part.size(); ++k) {
      const double w = asked.row(k)[a];
      all += w;
      if (part[k] >= 0) of_part[static_cast<std::size_t>(part[k])] += w;
    }
    if (all < 0.05 * n) continue;
    Meaning meaning{draft.told(a), all / n, -1, 0};
    for (std::size_t k = 0; k < of_part.size(); ++k) {
      if (of_part[k] / all > meaning.share) {
        meaning.share = of_part[k] / all;
        meaning.part = static_cast<std::int32_t>(k);
      }
    }
    out.push_back(std::move(meaning));
  }
  std::ranges::stable_sort(out, std::greater{}, &Meaning::chance);
  return out;
}

bool told_already(std::span<const Report> told, const Report& ask) {
  return std::ranges::any_of(told, [&](const Report& r) {
    if (r.cue != ask.cue) return false;
    if (ask.cue == Cue::on_line) return r.kind == ask.kind;
    return ask.cue != Cue::sees_thing || r.thing == ask.thing;
  });
}
}  // namespace

double expected_bits(std::span<const double> places, std::span<const std::vector<double>> answers) {
  if (places.empty() || answers.empty()) return 0;
  Row mean(answers[0].size(), 0.0);
  double within = 0;
  for (std::size_t x = 0; x < places.size(); ++x) {
    for (std::size_t a = 0; a < mean.size(); ++a) mean[a] += places[x] * answers[x][a];
    within += places[x] * entropy_of(answers[x]);
  }
  return entropy_of(mean) - within;
}

std::vector<Question> next_questions(const Belief& belief, const Summary& summary,
                                     const CuePlanes& planes, std::span<const Report> told,
                                     const Perception& perception, mapdata::Visibility visibility,
                                     const Asking& asking) {
  const auto cells = draws(belief, asking.draws);
  if (cells.empty()) return {};
  Asked asked(planes, perception, visibility, cells);
  auto drafts = detail::looks(planes, visibility, cells, asking);
  std::erase_if(drafts, [&](const Draft& d) { return told_already(told, d.question.ask); });
  for (const Do act : {Do::walk_left, Do::walk_right, Do::walk_up, Do::walk_down}) {
    auto walk = detail::walk(act, asking, asked);
    if (walk.share_barred <= asking.most_kept_off) drafts.push_back(std::move(walk.draft));
  }
  for (Draft& d : drafts) {
    d.put(asked);
    d.question.bits = asked.bits();
  }
  std::ranges::stable_sort(drafts, std::greater{},
                           [](const Draft& d) { return d.question.bits_per_minute(); });
  if (drafts.size() > asking.most) drafts.resize(asking.most);
  const auto part = parts_of(summary, planes, cells);
  std::vector<Question> out;
  for (Draft& d : drafts) {
    d.put(asked);
    d.question.meanings = meanings_of(asked, d, summary, part);
    out.push_back(std::move(d.question));
  }
  return out;
}

}  // namespace lodeway::belief
