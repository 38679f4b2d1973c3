#include "lodeway/walkers/walked.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "lodeway/numeric/statistics.hpp"
#include "lodeway/walkers/detail/walker.hpp"

namespace lodeway::walkers {

namespace {
constexpr std::size_t block_parties = 100;
constexpr std::size_t most_trodden_blocks = 32;
constexpr double most_cells = 400000;

terrain::Frame trodden_frame(const Card& card, double cell) {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  constexpr double margin = 1000;
  for (const auto& leg : card.legs) {
    for (const GridPoint p : leg.leg.course.line) {
      west = std::min(west, p.east_m - margin);
      east = std::max(east, p.east_m + margin);
      south = std::min(south, p.north_m - margin);
      north = std::max(north, p.north_m + margin);
    }
  }
  while ((east - west) * (north - south) / (cell * cell) > most_cells) cell *= 2;
  west = std::floor(west / cell) * cell;
  north = std::ceil(north / cell) * cell;
  return {west, north, cell, static_cast<int>(std::ceil((north - south) / cell)),
          static_cast<int>(std::ceil((east - west) / cell))};
}

struct Quantiles {
  double p10 = 0, p50 = 0, p90 = 0;
};
Quantiles quantiles(std::vector<double>& values) {
  if (values.empty()) return {};
  std::ranges::sort(values);
  return {numeric::sorted_quantile(values, 0.1), numeric::sorted_quantile(values, 0.5),
          numeric::sorted_quantile(values, 0.9)};
}

/// What all parties brought home, in their order.
struct Book {
  std::vector<detail::Fate> fates;
  std::vector<detail::LegStory> legs;  ///< party after party
  std::vector<Stand> stands;           ///< party after party
};

void sum_legs(const Card& card, const Book& book, const std::vector<std::size_t>& who,
              Walked& out) {
  const std::size_t n = card.legs.size();
  for (std::size_t l = 0; l < n; ++l) {
    WalkedLeg& row = out.legs.emplace_back();
    row.predicted = card.legs[l].predicted;
    std::vector<double> minutes, lost_min, lost_m;
    for (const std::size_t i : who) {
      const auto& s = book.legs[i * n + l];
      if (!s.set_out) continue;
      ++row.set_out;
      row.on_course += s.on_course;
      row.keep_off += s.keep_off;
      row.kept += s.ended && s.kept;
      row.kept_on_course += s.ended && s.kept && s.on_course;
      row.in_the_end += s.ended && s.there;
      row.elsewhere += s.ended && !s.there;
      if (s.wrong) ++row.wrong[static_cast<std::size_t>(*s.wrong)];
      if (s.ended) minutes.push_back(static_cast<double>(s.minutes));
      if (s.lost_min > 0) {
        lost_min.push_back(static_cast<double>(s.lost_min));
        lost_m.push_back(static_cast<double>(s.lost_m));
      }
    }
    const auto spent = quantiles(minutes), lost = quantiles(lost_min), far = quantiles(lost_m);
    row.minutes_10 = spent.p10;
    row.minutes_50 = spent.p50;
    row.minutes_90 = spent.p90;
    row.lost_min_50 = lost.p50;
    row.lost_min_90 = lost.p90;
    row.lost_m_50 = far.p50;
    row.lost_m_90 = far.p90;
  }
}

void sum_day(const Book& book, const std::vector<std::size_t>& who, Walked& out) {
  std::vector<double> home, lost_min, unaware, far;
  for (const std::size_t i : who) {
    const auto& f = book.fates[i];
    ++out.ended[static_cast<std::size_t>(f.state)];
    out.kept_all += f.kept_all && f.state == State::through;
    out.lost += f.lost;
    out.never_noticed += f.lost && !f.noticed;
    out.benighted += f.benighted;
    out.keep_off += f.keep_off;
    out.off_ground += f.off_ground;
    home.push_back(is_home(f.state) ? f.end_min : never);
    if (!f.lost) continue;
    lost_min.push_back(f.lost_min);
    unaware.push_back(f.unaware_min);
    far.push_back(f.lost_m);
  }
  const auto lost = quantiles(lost_min), un = quantiles(unaware), away = quantiles(far);
  out.lost_min_50 = lost.p50;
  out.lost_min_90 = lost.p90;
  out.unaware_min_50 = un.p50;
  out.unaware_min_90 = un.p90;
  out.lost_m_50 = away.p50;
  out.lost_m_90 = away.p90;
  if (home.empty()) return;
  std::ranges::sort(home);
  const auto nth = [&](double p) {  // of all: infinite where so few come home
    return home[std::min(static_cast<std::size_t>(std::ceil(p * static_cast<double>(home.size()))),
                         home.size()) -
                1];
  };
  out.end_10 = nth(0.1);
  out.end_50 = nth(0.5);
  out.end_90 = nth(0.9);
}

/// One a party, in the order of `who`.
walking::WalkedDays days_of(const Card& card, const Book& book,
                            const std::vector<std::size_t>& who) {
  constexpr float not_there = std::numeric_limits<float>::quiet_NaN(),
                  not_home = std::numeric_limits<float>::infinity();
  const std::size_t legs = card.legs.size();
  walking::WalkedDays out;
  out.parties = who.size();
  out.ended.assign(legs * who.size(), not_there);
  for (std::size_t k = 0; k < who.size(); ++k) {
    const auto& fate = book.fates[who[k]];
    out.kept += fate.kept_all && fate.state == State::through;
    out.home.push_back(is_home(fate.state) ? static_cast<float>(fate.end_min - card.start_min)
                                           : not_home);
    float walked = 0;
    for (std::size_t l = 0; l < legs; ++l) {
      const auto& story = book.legs[who[k] * legs + l];
      if (!story.ended) continue;
      out.ended[l * who.size() + k] = story.ended_min;
      walked += story.minutes;
    }
    out.walked.push_back(walked);
  }
  return out;
}
}  // namespace

std::string_view wrong_words(Wrong wrong) {
  constexpr std::array<std::string_view, wrong_count> words{
      "walked past it",
      "turned the wrong way at the line",
      "did not know it for what it was",
      "took something else for it",
      "came off the line",
      "took a wrong branch",
      "went on past the end",
      "walked on a wrong bearing",
      "stopped because the ground seemed wrong",
      "did not find the line to follow"};
  return words[static_cast<std::size_t>(wrong)];
}

std::string_view state_words(State state) {
  constexpr std::array<std::string_view, state_count> words{"on the way",
                                                            "lost",
                                                            "going back",
                                                            "on an escape route",
                                                            "staying where they are",
                                                            "at the end",
                                                            "back at the start",
                                                            "out by an escape route"};
  return words[static_cast<std::size_t>(state)];
}

Result<Walked> walk(const World& world, const Card& card, const WalkRequest& request,
                    numeric::Parallel& parallel) {
  if (request.parties == 0)
    return fail(FaultCode::bad_input, "walkers: expected at least 1, got 0");
  if (request.parties > most_parties) {
    return fail(FaultCode::too_large,
                fmt::format("walkers: expected at most {}, got {}", most_parties, request.parties));
  }
  if (request.tracks > most_tracks) {
    return fail(FaultCode::too_large,
                fmt::format("tracks: expected at most {}, got {}", most_tracks, request.tracks));
  }
  if (request.at_min.size() > most_moments)
    return fail(FaultCode::too_large, fmt::format("moments: expected at most {}", most_moments));
  if (card.legs.empty()) return fail(FaultCode::bad_input, "way: expected at least one leg");
  for (std::size_t i = 0; i < card.legs.size(); ++i) {
    const auto& line = card.legs[i].leg.course.line;
    if (line.size() < 2 || !(mapdata::length_m(line) > 0)) {
      return fail(
          FaultCode::bad_input,
          fmt::format("leg {}: expected a line of two places or more that are apart", i + 1));
    }
  }
  const detail::Ready ready = detail::make_ready(world, card);
  const std::size_t n = request.parties, legs = card.legs.size(), moments = request.at_min.size();
  Walked out;
  out.asked = n;
  out.tracks.resize(std::min(request.tracks, n));
  Book book;
  book.fates.resize(n);
  book.legs.resize(n * legs);
  book.stands.resize(n * moments);
  const std::size_t blocks = (n + block_parties - 1) / block_parties;
  std::vector<std::uint8_t> done(blocks, 0);
  // blocks that share a count of cells run one after the other within one job
  const terrain::Frame frame =
      trodden_frame(card, std::max(world.ground().elevation.frame().cell_m, 10.0));
  const auto run_block = [&](std::size_t b, std::vector<std::uint32_t>* trodden) {
    for (std::size_t i = b * block_parties; i < std::min(n, (b + 1) * block_parties); ++i) {
      detail::Sink sink;
      sink.stands = {book.stands.data() + i * moments, moments};
      sink.legs = {book.legs.data() + i * legs, legs};
      sink.trodden = trodden;
      sink.frame = &frame;
      if (i < out.tracks.size()) sink.track = &out.tracks[i];
      book.fates[i] = detail::Walker(world, ready, request, i, sink).walk();
    }
    done[b] = 1;
  };
  const std::size_t jobs = request.trodden ? std::min(blocks, most_trodden_blocks) : blocks;
  std::vector<std::vector<std::uint32_t>> counts(request.trodden ? jobs : 0);
  parallel.for_each_block(jobs, [&](std::size_t j) {
    std::vector<std::uint32_t>* trodden = nullptr;
    if (request.trodden) {
      counts[j].assign(frame.size(), 0);
      trodden = &counts[j];
    }
    for (std::size_t b = j * blocks / jobs; b < (j + 1) * blocks / jobs; ++b) run_block(b, trodden);
  });
  std::vector<std::size_t> who;
  for (std::size_t b = 0; b < blocks; ++b) {
    if (done[b] == 0) continue;
    for (std::size_t i = b * block_parties; i < std::min(n, (b + 1) * block_parties); ++i)
      who.push_back(i);
  }
  out.walked = who.size();
  std::erase_if(out.tracks, [](const Track& t) { return t.moments.empty(); });
  sum_legs(card, book, who, out);
  sum_day(book, who, out);
  out.days = days_of(card, book, who);
  out.stands.resize(moments);
  for (std::size_t k = 0; k < moments; ++k) {
    out.stands[k].reserve(who.size());
    for (const std::size_t i : who) out.stands[k].push_back(book.stands[i * moments + k]);
  }
  if (request.trodden) {
    out.trodden = terrain::Raster<float>(frame);
    for (const auto& count : counts) {
      for (std::size_t c = 0; c < count.size(); ++c)
        out.trodden.cells()[c] += static_cast<float>(count[c]);
    }
    const auto all = static_cast<float>(std::max<std::size_t>(out.walked, 1));
    for (float& c : out.trodden.cells()) c /= all;
  }
  return out;
}

}  // namespace lodeway::walkers
