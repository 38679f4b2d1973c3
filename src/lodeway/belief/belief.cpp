#include "lodeway/belief/belief.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lodeway/belief/detail/prior.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/sight/detail/densities.hpp"

namespace lodeway::belief {

namespace {
constexpr float nothing = -std::numeric_limits<float>::infinity();
constexpr float deep = 20;  ///< e^-20 of the best cell: no part of any area

/// How often a telling is given on this ground at all: its mean over some 3000 cells. What
/// elsewhere is weighed with, where nothing else is known of it.
double mean_likelihood(const CuePlanes& planes, const sight::Scorer& scorer) {
  const std::size_t n = planes.frame.size();
  const std::size_t step = std::max<std::size_t>(1, n / 3000) | 1U;
  double sum = 0;
  std::size_t count = 0;
  for (std::size_t i = step / 2; i < n; i += step) {
    if (!planes.known(i)) continue;
    sum += std::exp(static_cast<double>(scorer.at(i)));
    ++count;
  }
  return count > 0 ? sum / static_cast<double>(count) : 1e-12;
}

/// Shares from logarithms and the logarithm of elsewhere.
Belief normalised(const terrain::Frame& frame, std::vector<float> log_p, double log_elsewhere) {
  const float most = log_p.empty() ? nothing : *std::ranges::max_element(log_p);
  Belief out{frame, std::move(log_p), 1};
  if (!std::isfinite(most)) {  // voids only, or all of it beyond what a float holds
    std::ranges::fill(out.share, 0.0F);
    return out;
  }
  const double top = std::max(static_cast<double>(most), log_elsewhere);
  const auto top_f = static_cast<float>(top);
  double sum = 0;
  for (float& v : out.share) {
    v = v < most - deep ? 0.0F : std::exp(v - top_f);
    sum += static_cast<double>(v);
  }
  const double elsewhere = std::exp(log_elsewhere - top);
  const double all = sum + elsewhere;
  const auto scale = static_cast<float>(1 / all);
  for (float& v : out.share) v *= scale;
  out.elsewhere = elsewhere / all;
  return out;
}

struct Logs {
  std::vector<float> cells;
  double elsewhere = 0;
};
Logs logs_of(std::vector<float> share, double elsewhere) {
  float last = 0, last_log = nothing;  // of a prior that is alike all over each is the same
  for (float& v : share) {
    if (v != last) {
      last = v;
      last_log = v > 0 ? std::log(v) : nothing;
    }
    v = last_log;
  }
  return {std::move(share), std::log(std::max(elsewhere, 1e-12))};
}

Belief of_prior(const CuePlanes& planes, const Prior& prior) {
  Belief out{planes.frame, detail::prior_mass(planes, prior), 0};
  double sum = 0;
  for (const float m : out.share) sum += static_cast<double>(m);
  const bool anywhere = std::holds_alternative<Anywhere>(prior);
  // a prior that was cut by the window's edge leaves its rest to elsewhere
  const double cut = anywhere ? 0 : std::clamp(1 - sum, 0.0, 1.0);
  if (!(sum > 0)) {
    out.elsewhere = 1;
    return out;
  }
  out.elsewhere = elsewhere_before + (1 - elsewhere_before) * cut;
  const auto scale = static_cast<float>((1 - out.elsewhere) / sum);
  for (float& m : out.share) m *= scale;
  return out;
}

void weigh(const CuePlanes& planes, Logs& logs, std::span<const Report> reports,
           const Perception& perception, mapdata::Visibility visibility) {
  std::vector<sight::Scorer> cheap, dear;
  for (const Report& r : reports) {
    sight::Scorer scorer(planes, r, perception, visibility);
    logs.elsewhere += std::log(std::max(mean_likelihood(planes, scorer), 1e-12));
    (scorer.dear() ? dear : cheap).push_back(std::move(scorer));
  }
  constexpr std::size_t block = 4096;  // cells: their sums stay in the nearest cache
  const std::size_t n = logs.cells.size();
  for (std::size_t first = 0; first < n; first += block) {
    const std::size_t last = std::min(first + block, n);
    for (const auto& s : cheap) s.add(first, last, logs.cells.data(), nothing);
  }
  for (const auto& s : dear) {
    const float most = *std::ranges::max_element(logs.cells);
    s.add(0, n, logs.cells.data(), most - deep);
  }
}
}  // namespace

Belief before(const CuePlanes& planes, const Prior& prior) { return of_prior(planes, prior); }

Belief locate(const CuePlanes& planes, const Prior& prior, std::span<const Report> reports,
              const Perception& perception, mapdata::Visibility visibility) {
  return observe(of_prior(planes, prior), planes, reports, perception, visibility);
}

Belief observe(Belief belief, const CuePlanes& planes, std::span<const Report> reports,
               const Perception& perception, mapdata::Visibility visibility) {
  if (reports.empty() || belief.share.empty()) return belief;
  Logs logs = logs_of(std::move(belief.share), belief.elsewhere);
  weigh(planes, logs, reports, perception, visibility);
  return normalised(planes.frame, std::move(logs.cells), logs.elsewhere);
}

Belief moved(const Belief& belief, const CuePlanes& planes, units::GridBearing bearing,
             double length_m, double bearing_sd_deg, double length_cv) {
  Belief out{belief.frame, std::vector<float>(belief.share.size(), 0.0F), belief.elsewhere};
  // nine equally likely ways of going wrong, three each way: the middles of thirds
  constexpr double third = 1.0907;  // mean of a standard normal's upper third
  const auto cols = static_cast<std::size_t>(std::max(belief.frame.cols, 1));
  for (std::size_t i = 0; i < belief.share.size(); ++i) {
    if (!(belief.share[i] > 0)) continue;
    const GridPoint at =
        belief.frame.centre(static_cast<int>(i / cols), static_cast<int>(i % cols));
    for (const double a : {-third, 0.0, third}) {
      for (const double l : {-third, 0.0, third}) {
        const GridPoint to = earth::step(at, bearing + units::Angle::degrees(a * bearing_sd_deg),
                                         length_m * std::max(0.0, 1 + l * length_cv));
        const float part = belief.share[i] / 9;
        if (const auto cell = planes.cell(to)) {
          out.share[*cell] += part;
        } else {
          out.elsewhere += static_cast<double>(part);
        }
      }
    }
  }
  return out;
}

std::vector<Misfit> misfits(const CuePlanes& planes, GridPoint place,
                            std::span<const Report> reports, const Perception& perception,
                            mapdata::Visibility visibility) {
  std::vector<Misfit> out;
  const auto cell = planes.cell(place);
  if (!cell) return out;
  const sight::detail::Model m{planes, perception, visibility};
  for (std::size_t k = 0; k < reports.size(); ++k) {
    const Report& r = reports[k];
    const auto facts = sight::facts_at(planes, *cell, r, perception, visibility);
    const double f = (1 - perception.mix) * sight::detail::density(m, facts, r);
    const double u = std::max(perception.mix, 0.02) * sight::detail::nonsense(m, r);
    if (f >= u) continue;
    double off = 0;
    if (r.cue == sight::Cue::height) off = r.value - facts.height_m;
    if (r.cue == sight::Cue::steepness) off = r.value - facts.slope_deg;
    // a line that is not where it is said to be is off by no angle
    const bool elsewhere =
        (r.cue == sight::Cue::on_line || r.cue == sight::Cue::beside_line) &&
        (!facts.nearest || facts.nearest->distance_m > 2 * sight::on_line_sd_m(r.kind));
    if (r.has_direction && !elsewhere) {
      double is = facts.fall_deg;
      if (r.cue == sight::Cue::on_line && facts.nearest) is = facts.nearest->lie_deg;
      if (r.cue != sight::Cue::fall && r.cue != sight::Cue::on_line && !facts.in_view.empty())
        is = facts.in_view.front().bearing_deg;
      off = std::remainder(r.direction.in_degrees() - is, r.cue == sight::Cue::on_line ? 180 : 360);
    }
    out.push_back({k, std::log(std::max(f, 1e-300) / u), off});
  }
  return out;
}

}  // namespace lodeway::belief
