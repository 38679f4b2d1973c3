#include "lodeway/tasks/paper.hpp"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <optional>
#include <utility>

#include "lodeway/io/files/write_beside.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/io/pdf/write_pdf.hpp"
#include "lodeway/io/pdf/write_png.hpp"
#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/notes/escape_card.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/notes/lost_card.hpp"
#include "lodeway/tasks/paper_manifest.hpp"
#include "lodeway/tasks/say.hpp"
#include "lodeway/tasks/threads.hpp"

namespace lodeway::tasks {

namespace {

struct Paper {
  std::string name;  ///< without ending
  std::vector<sheet::Drawing> pages;
};

/// One piece about all legs, where that is no more ground than their own pieces together (windows
/// of neighbours overlap) and no more than `most_m2`: the planes of 300 km2 take some 150 MB.
std::optional<sight::Window> window_of_all(const std::vector<trip::PlannedLeg>& legs) {
  constexpr double most_m2 = 300e6;
  const auto area = [](const sight::Window& w) {
    return (w.east_m - w.west_m) * (w.north_m - w.south_m);
  };
  std::vector<earth::GridPoint> all;
  double together = 0;
  for (const auto& leg : legs) {
    all.insert(all.end(), leg.course.line.begin(), leg.course.line.end());
    together += area(trip::lost_window(leg.course.line));
  }
  if (all.empty()) return {};
  const auto whole = trip::lost_window(all);
  if (area(whole) > std::min(together, most_m2)) return {};
  return whole;
}

/// Of each leg what the lost can look at. Faults: cancelled.
Result<std::vector<trip::LostLeg>> lost_legs(const walking::Ground& ground, const trip::Plan& plan,
                                             const std::function<bool(double)>& go_on) {
  const auto& legs = plan.way.legs;
  Threads threads;
  const sight::Chances chances(plan.trip.request.party.chances);
  const walking::Cover cover(ground, plan.trip.request);
  std::vector<trip::LostLeg> out(legs.size());
  const auto whole = window_of_all(legs);
  const auto shared = whole ? sight::cue_planes(ground, cover, whole, threads) : sight::CuePlanes{};
  constexpr std::size_t at_a_time = 2;
  for (std::size_t first = 0; first < legs.size(); first += at_a_time) {
    if (!go_on(static_cast<double>(first) / static_cast<double>(legs.size())))
      return fail(FaultCode::cancelled, "stopped");
    threads.for_each_block(std::min(at_a_time, legs.size() - first), [&](std::size_t k) {
      numeric::Serial serial;
      const auto window = trip::lost_window(legs[first + k].course.line);
      const auto planes = whole ? sight::cropped(shared, window)
                                : sight::cue_planes(ground, cover, window, serial);
      out[first + k] = trip::lost_leg(plan, first + k, planes, chances);
    });
  }
  return out;
}

Result<std::vector<Paper>> draw_all(const walking::Ground& ground, const trip::Plan& plan,
                                    const PaperRequest& request,
                                    const std::function<bool(double)>& go_on) {
  const auto lost = lost_legs(ground, plan, go_on);
  if (!lost) return std::unexpected(lost.error());
  const auto measure = io::make_text_measure();
  if (!measure) return std::unexpected(measure.error());
  const auto& t = plan.trip;
  const auto places =
      sheet::cover_by_hand(plan.way, t.map_scale, t.paper, t.landscape, request.sheets);
  if (!places) return std::unexpected(places.error());
  auto sheets = sheet::draw_map_sheets(plan, ground, **measure, *places);
  std::vector<Paper> out;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const bool index = i > 0 && i + 1 == sheets.size();  // behind several sheets
    out.push_back(
        {index ? "sheet-index" : "sheet-" + std::to_string(i + 1), {std::move(sheets[i])}});
  }
  out.push_back({"card", sheet::draw_card(plan, **measure, {request.large_type})});
  out.push_back({"home-note", sheet::draw_home_note(plan, ground, **measure)});
  out.push_back({"escape-card", sheet::draw_escape_card(plan, **measure)});
  out.push_back({"lost-card", sheet::draw_lost_card(plan, *lost, **measure)});
  return out;
}

std::vector<std::string> unreadable(const std::vector<Paper>& papers) {
  std::vector<std::string> out;
  for (const auto& paper : papers) {
    for (const auto& page : paper.pages) {
      for (const auto& text : page.unreadable) {
        auto line = "no letters for: " + text + " (a dot stands for each; install a font for them)";
        if (std::ranges::find(out, line) == out.end()) out.push_back(std::move(line));
      }
    }
  }
  return out;
}

}  // namespace

Result<PaperFiles> write_paper(const walking::Ground& ground, const trip::Plan& plan,
                               const PaperRequest& request, Progress* progress) {
  const auto go_on = [&](double share) {
    return progress == nullptr || progress->go_on(share, "drawing the paper");
  };
  const auto stopped = [] { return fail(FaultCode::cancelled, "stopped"); };
  if (!go_on(0)) return stopped();
  constexpr double of_it = 0.5;  // of the work is looking at the legs
  const auto papers =
      draw_all(ground, plan, request, [&](double share) { return go_on(of_it * share); });
  if (!papers) return std::unexpected(papers.error());
  auto set = io::SetBeside::into(request.folder);
  if (!set) return std::unexpected(set.error());
  PaperFiles out;
  out.remarks = unreadable(*papers);
  const auto path = [&](const std::string& name) {
    out.files.push_back((std::filesystem::path(request.folder) / name).string());
    return (std::filesystem::path(set->temporary()) / name).string();
  };
  for (std::size_t i = 0; i < papers->size(); ++i) {
    const auto& paper = (*papers)[i];
    if (!go_on(of_it + (1 - of_it) * static_cast<double>(i + 1) /
                           static_cast<double>(papers->size() + 1)))
      return stopped();
    const auto written = io::write_pdf(paper.pages, path(paper.name + ".pdf"), plan.trip.date);
    if (!written) return std::unexpected(written.error());
    for (std::size_t k = 0; request.pictures && k < paper.pages.size(); ++k) {
      const auto number = paper.pages.size() > 1 ? "-" + std::to_string(k + 1) : std::string();
      const auto drawn = io::write_png(paper.pages[k], path(paper.name + number + ".png"), 150);
      if (!drawn) return std::unexpected(drawn.error());
    }
  }
  if (request.in_one) {
    std::vector<sheet::Drawing> pages;
    for (const auto& paper : *papers)
      pages.insert(pages.end(), paper.pages.begin(), paper.pages.end());
    const auto written = io::write_pdf(pages, path("everything.pdf"), plan.trip.date);
    if (!written) return std::unexpected(written.error());
  }
  for (const auto& [name, text] : {std::pair{"card.txt", sheet::card_text(plan)},
                                   std::pair{"card.csv", sheet::card_csv(plan)}}) {
    if (const auto written = io::write_beside(path(name), text); !written) {
      return std::unexpected(written.error());
    }
  }
  std::vector<std::string> names;
  for (const auto& file : out.files) names.push_back(std::filesystem::path(file).filename().string());
  const auto manifest = manifest_of(set->temporary(), names);
  if (!manifest) return std::unexpected(manifest.error());
  const auto listed = io::write_beside(
      (std::filesystem::path(set->temporary()) / manifest_name).string(), *manifest);
  if (!listed) return std::unexpected(listed.error());
  if (!go_on(1)) return stopped();
  const auto older = read_manifest(request.folder);
  if (const auto kept = set->keep(); !kept) return std::unexpected(kept.error());
  for (auto& line : remove_stale(request.folder, older, names))
    out.remarks.push_back(std::move(line));
  return out;
}

std::string paper_as_json(const trip::Plan& plan, const PaperFiles& paper) {
  const Json out{{"verdict", verdict_json(plan)},
                 {"files", paper.files},
                 {"remarks", paper.remarks},
                 {"warnings", warnings_json(plan)}};
  return out.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
