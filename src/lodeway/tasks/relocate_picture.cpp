#include "lodeway/tasks/detail/relocate_parts.hpp"
#include "lodeway/tasks/map_picture.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::tasks::detail {

Result<void> draw_relocation(const walking::Ground& ground, const Relocation& answer,
                             const std::string& path) {
  const auto& b = answer.belief;
  const auto in = answer.language;
  // Under one another: each darker one lies within the lighter.
  const std::pair<double, double> areas[] = {{level_holding(b.share, 0.99), 0.22},
                                             {answer.summary.level90, 0.30},
                                             {answer.summary.level50, 0.42}};
  const auto over = [&](sheet::Page& page, sheet::Labels& labels, const sheet::MapFrame& frame) {
    for (const auto& [level, strength] : areas) {
      if (level <= 0) continue;
      draw_mask(
          page, frame, b.frame,
          [&](int r, int c) {
            return static_cast<double>(b.share[static_cast<std::size_t>(r) *
                                                   static_cast<std::size_t>(b.frame.cols) +
                                               static_cast<std::size_t>(c)]) >= level;
          },
          share_ink(strength));
    }
    if (answer.last) {
      const auto ring = sheet::circle(frame.on_page(*answer.last), 2.4);
      page.stroke(ring, {sheet::ink::paper, 1.6}, true);
      page.stroke(ring, {sheet::ink::haven, 0.8}, true);
    }
    for (std::size_t k = answer.places.size(); k-- > 0;)
      draw_numbered(page, labels, frame, answer.places[k].part.best, std::to_string(k + 1));
  };
  std::vector<KeyLine> key{{share_ink(0.68), trip::told(in, "50 in 100: you are here")},
                           {share_ink(0.45), trip::told(in, "90 in 100: here or darker")},
                           {share_ink(0.22), trip::told(in, "99 in 100: here or darker")}};
  if (answer.last)
    key.push_back({sheet::ink::haven, trip::told(in, "green ring: last sure place")});
  return draw_map_picture(ground, b.frame, path, over, key);
}

}  // namespace lodeway::tasks::detail
