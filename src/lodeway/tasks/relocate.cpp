#include "lodeway/tasks/relocate.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "lodeway/earth/apart_references.hpp"
#include "lodeway/earth/place_text.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/raster/write_raster.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/tasks/detail/relocate_parts.hpp"
#include "lodeway/tasks/io_progress.hpp"
#include "lodeway/tasks/party_of_trip.hpp"
#include "lodeway/tasks/plan.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/trip/lost_leg.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/units/refusal_in.hpp"
#include "lodeway/units/text.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::tasks {

namespace {
using detail::Understood;
using sight::Cue;
using sight::CuePlanes;

constexpr double window_half_m = 3000;
constexpr double most_cells = 2.5e6;  ///< of a whole ground; larger cells beyond

double least_cell_of(const terrain::Frame& f) {
  const double area = static_cast<double>(f.size()) * f.cell_m * f.cell_m;
  return std::max(10.0, std::sqrt(area / most_cells));
}

Result<void> read_leg(const std::vector<walking::Leg>* legs, const trip::Trip* trip,
                      const Told& told, belief::Prior& prior,
                      std::optional<sight::Window>& window) {
  if (legs == nullptr || trip == nullptr)
    return fail(FaultCode::bad_input, "leg: expected a trip file, whose plan has legs");
  if (told.leg < 1 || static_cast<std::size_t>(told.leg) > legs->size()) {
    return fail(FaultCode::bad_input,
                fmt::format("leg: expected 1 to {}, got {}", legs->size(), told.leg));
  }
  const walking::Leg& leg = (*legs)[static_cast<std::size_t>(told.leg) - 1];
  auto course = trip::on_course(leg, trip->request.party);
  if (!told.leg_minutes.empty()) {
    char* end = nullptr;
    const double minutes = std::strtod(told.leg_minutes.c_str(), &end);
    if (end == told.leg_minutes.c_str() || *end != '\0' || !(minutes >= 1 && minutes <= 1440)) {
      return fail(FaultCode::bad_input,
                  fmt::format("leg-minutes: expected 1 to 1440 min, got \"{}\"", told.leg_minutes));
    }
    course.minutes = minutes;
  }
  window = trip::lost_window(leg.course.line);
  prior = std::move(course);
  return {};
}

/// Things told of, and the named tops and lakes nearest to where the party may be, which may be
/// asked about.
std::vector<std::int32_t> to_look_at(const CuePlanes& planes, const Understood& told,
                                     earth::GridPoint middle) {
  std::vector<std::int32_t> out;
  const auto add = [&](std::int32_t t) {
    if (std::ranges::find(out, t) == out.end()) out.push_back(t);
  };
  const auto far = [&](mapdata::Kind kind) {
    return sight::reach_m(kind, told.visibility, planes.kinds) > 300;
  };
  for (const auto& r : told.reports) {
    if (r.cue == Cue::sees_thing && far(planes.things[static_cast<std::size_t>(r.thing)].kind))
      add(r.thing);
    if (r.cue == Cue::sees_kind && far(r.kind)) {
      for (const std::int32_t t : sight::candidates_of(planes, r.kind)) add(t);
    }
  }
  std::vector<std::pair<double, std::int32_t>> near;
  for (std::size_t t = 0; t < planes.things.size(); ++t) {
    const auto& thing = planes.things[t];
    if (thing.name.empty() || !far(thing.kind)) continue;
    near.emplace_back(earth::grid_distance_m(middle, thing.at), static_cast<std::int32_t>(t));
  }
  std::ranges::sort(near);
  for (std::size_t k = 0; k < std::min<std::size_t>(near.size(), 8); ++k) {
    if (near[k].first < 6000) add(near[k].second);
  }
  return out;
}

std::string near_words(const CuePlanes& planes, earth::GridPoint at, units::Language in) {
  static constexpr std::array<const char*, 8> winds{"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
  const sight::Thing* best = nullptr;
  double least = 3000;
  for (const auto& thing : planes.things) {
    const double d = earth::grid_distance_m(at, thing.at);
    if (thing.name.empty() || d >= least) continue;
    least = d;
    best = &thing;
  }
  if (best == nullptr) return {};
  if (least < 5) return best->name;
  const double way = earth::grid_bearing(best->at, at).in_degrees();
  return trip::told(
      in, "{} m {} of {}",
      {std::round(least / 10) * 10,
       trip::told_in(in, winds[static_cast<std::size_t>(std::lround(way / 45)) % 8]), best->name});
}

void warn_of_heights(const CuePlanes& planes, const Understood& told,
                     std::vector<std::string>& out) {
  for (const auto& r : told.reports) {
    if (r.cue != Cue::height) continue;
    const double most = 3 * r.sigma;
    if (r.value < planes.lowest_m - most || r.value > planes.highest_m + most)
      out.push_back(trip::told(
          told.in,
          "height {} m: nowhere on this piece of ground is so {} (it lies between {} and {} m)",
          {r.value, trip::told_in(told.in, r.value < planes.lowest_m ? "low" : "high"),
           planes.lowest_m, planes.highest_m}));
  }
  std::size_t voids = 0;
  for (std::size_t i = 0; i < planes.height.size(); ++i) voids += !planes.known(i);
  const double share = static_cast<double>(voids) /
                       static_cast<double>(std::max<std::size_t>(1, planes.height.size()));
  if (share >= 0.005)
    out.push_back(trip::told(
        told.in, "{} in 100 of the ground here has no heights: nobody is looked for there",
        {std::max(1, static_cast<int>(std::lround(100 * share)))}));
}

void warn_of_misfits(const CuePlanes& planes, const Understood& told, const Relocation& answer,
                     const sight::Perception& perception, std::vector<std::string>& out) {
  if (answer.summary.parts.empty()) return;
  for (const auto& m : belief::misfits(planes, answer.summary.parts[0].best, told.reports,
                                       perception, told.visibility)) {
    const auto& r = told.reports[m.report];
    std::string by;
    if (r.cue == Cue::height) by = trip::told(told.in, " (off by {} m)", {std::abs(m.off)});
    if (r.cue == Cue::steepness || (r.has_direction && std::abs(m.off) > 0))
      by = trip::told(told.in, " (off by {}°)", {std::abs(m.off)});
    out.push_back(trip::told(told.in, "\"{}\" does not fit the likeliest place{}: check it",
                             {told.words[m.report], by}));
  }
}

/// Least squares from bearings to named things, where there are two or more.
void resect(const CuePlanes& planes, const Understood& told, const sight::Perception& perception,
            Relocation& answer) {
  std::vector<belief::Sighted> sighted;
  std::vector<std::size_t> of;
  for (std::size_t k = 0; k < told.reports.size(); ++k) {
    const auto& r = told.reports[k];
    if (r.cue != Cue::sees_thing || !r.seen || !r.has_direction || sighted.size() == 6) continue;
    const auto& thing = planes.things[static_cast<std::size_t>(r.thing)];
    belief::Sighted s{thing.at, r.direction, perception.sigma.bearing_deg};
    // tops near the one named, that it may have been taken for
    for (const auto& other : planes.things) {
      const double d = earth::grid_distance_m(other.at, thing.at);
      if (other.kind == thing.kind && d > 50 && d < 2500 && s.others.size() < 6)
        s.others.push_back(other.at);
    }
    sighted.push_back(std::move(s));
    of.push_back(k);
  }
  if (sighted.size() < 2) return;
  const auto in = told.in;
  const belief::Bias bias =
      sighted.size() >= 3 ? belief::Bias{belief::Bias::How::prior, 2} : belief::Bias{};
  const auto fix = belief::resect(sighted, bias);
  if (!fix) {
    answer.warnings.push_back(units::refusal_in(in, fix.error().what) +
                              trip::told(in, ": the bearings give no place by themselves"));
    return;
  }
  const auto axes = numeric::axes_of(fix->covariance);
  answer.resection = *fix;
  answer.resection_words = trip::told(
      in, "from the bearings alone: {}, within {} by {} m (95 in 100), longest towards {} grid",
      {earth::six_figure_reference(fix->at), 2.4477 * axes.major, 2.4477 * axes.minor,
       fmt::format("{:03.0f}", axes.azimuth * 57.29577951308232)});
  if (sighted.size() == 2) {
    const double cut = belief::cut_deg(sighted[0].bearing, sighted[1].bearing);
    if (cut < 30)
      answer.warnings.push_back(trip::told(
          in, "the two bearings cross at {}°: under 30° they fix a place poorly", {cut}));
    answer.resection_words += trip::told(in, "; nothing checks two bearings: take a third");
  }
  for (std::size_t i = 0; i < sighted.size(); ++i) {
    if (fix->behind[i])
      answer.warnings.push_back(
          trip::told(in,
                     "\"{}\": the bearings meet only behind your back: one of them is wrong or "
                     "the wrong thing",
                     {told.words[of[i]]}));
  }
  const auto said = belief::blunder(sighted, bias, *fix);
  if (!said) return;
  using Said = belief::Blunder::Said;
  if (said->said == Said::some)
    answer.warnings.push_back(trip::told(
        in, "the bearings do not meet: one of them is wrong, and they cannot say which"));
  if (said->said == Said::this_one)
    answer.warnings.push_back(trip::told(in, "\"{}\" does not meet the others: off by {}°",
                                         {told.words[of[said->which]], std::abs(said->off_deg)}));
  if (said->said == Said::other_thing) {
    const auto at = sighted[said->which].others[said->candidate];
    const auto other =
        std::ranges::find_if(planes.things, [&](const auto& t) { return t.at == at; });
    const std::string name = other != planes.things.end() && !other->name.empty()
                                 ? other->name
                                 : landmarks::thing(mapdata::Kind::summit, "", in);
    answer.warnings.push_back(
        trip::told(in, "\"{}\": it may be {} [{}] that was sighted; then the bearings meet",
                   {told.words[of[said->which]], name, earth::six_figure_reference(at)}));
  }
}

void say(const walking::Ground& ground, const CuePlanes& planes, const Understood& told,
         Relocation& answer) {
  const double on_map = 1 - answer.summary.elsewhere;
  std::vector<earth::GridPoint> bests;
  for (const auto& part : answer.summary.parts) {
    if (bests.size() >= 6 || part.share < 0.02 * on_map) break;
    bests.push_back(part.best);
  }
  const auto references = earth::apart_references(bests);
  for (std::size_t k = 0; k < bests.size(); ++k) {
    const auto& part = answer.summary.parts[k];
    answer.places.push_back({part, references[k],
                             terrain::height_at(ground.elevation, part.best),
                             near_words(planes, part.best, told.in)});
  }
  for (const auto& q : answer.questions) {
    answer.asks.push_back(detail::question_words(q, planes.things, told.in));
    std::vector<std::string> means;
    std::vector<Telling> tells;
    for (const auto& m : q.meanings) {
      means.push_back(detail::meaning_words(m, q, told.needle, told.in));
      tells.push_back(detail::telling_of(m, q, planes.things, told.needle));
    }
    answer.means.push_back(std::move(means));
    answer.tells.push_back(std::move(tells));
  }
  for (const auto& move : answer.moves.offered)
    answer.goes.push_back(trip::move_words(
        move, detail::on_the_needle(move.bearing, told.needle),
        trip::told(told.in, "{} m", {move.within_m}), told.in));
  if (answer.moves.offered.empty())
    answer.goes.push_back(trip::told(
        told.in,
        "No single move works from all the places that fit. Answer the next question, or stay "
        "where you are, together and sheltered."));
}
}  // namespace

RelocateGround ready_to_relocate(const walking::Ground& ground, const walking::Request& request,
                                 const sight::Chances& chances) {
  Threads threads;
  return {chances, sight::cue_planes(ground, walking::Cover(ground, request), {}, threads,
                                     least_cell_of(ground.elevation.frame()))};
}

Result<Relocation> relocate(const walking::Ground& ground, const trip::Trip* trip,
                            const std::vector<walking::Leg>* legs, const Told& told,
                            RelocateGround* ready, Progress* progress,
                            const sight::Chances& chances) {
  const auto go_on = [&](double share, const char* doing) {
    return progress == nullptr || progress->go_on(share, doing);
  };
  const auto stopped = [] { return fail(FaultCode::cancelled, "stopped; nothing was written"); };
  auto understood = detail::understand(ground, trip, sight::things_of(ground.map), told);
  if (!understood) return std::unexpected(understood.error());
  Relocation out;
  out.warnings = understood->warnings;
  belief::Prior prior = belief::Anywhere{};
  std::optional<sight::Window> window;
  if (understood->last) {
    out.last = understood->last->at;
    out.from = trip::told(understood->in, "last sure place {}", {told.last});
    if (ground.elevation.frame().contains(understood->last->at)) {
      prior = *understood->last;
      const double reach =
          understood->last->speed_kmh * 1000 / 60 * understood->last->minutes * 1.6 + 500;
      window = sight::window_about(understood->last->at, std::max(window_half_m, reach));
    } else {
      out.warnings.push_back(
          trip::told(understood->in,
                     "the last sure place lies outside this ground: it is left out, and the whole "
                     "ground looked at"));
    }
  }
  if (told.leg != 0) {
    if (const auto read = read_leg(legs, trip, told, prior, window); !read)
      return std::unexpected(read.error());
    out.from = trip::told(understood->in, "on leg {} of the plan", {told.leg});
  }
  if (!go_on(0.3, "reading the ground")) return stopped();
  Threads threads;
  CuePlanes planes;
  walking::Request request;
  if (trip != nullptr) request = trip->request;
  const double least_cell = window ? 10 : least_cell_of(ground.elevation.frame());
  if (ready == nullptr) {
    planes =
        sight::cue_planes(ground, walking::Cover(ground, request), window, threads, least_cell);
  }
  CuePlanes& look_over = ready != nullptr ? ready->planes : planes;
  const auto middle =
      window ? earth::GridPoint{0.5 * (window->west_m + window->east_m),
                                0.5 * (window->south_m + window->north_m)}
             : earth::GridPoint{0.5 * (look_over.frame.west_m + look_over.frame.east_m()),
                                0.5 * (look_over.frame.south_m() + look_over.frame.north_m)};
  const auto views = to_look_at(look_over, *understood, middle);
  sight::look_from(look_over, views, threads);
  if (ready != nullptr && window) planes = sight::cropped(ready->planes, *window);
  const CuePlanes& here = ready != nullptr && !window ? ready->planes : planes;
  if (!go_on(0.6, "weighing what was told")) return stopped();
  const auto perception = sight::perception_of(understood->skill);
  out.belief = belief::locate(here, prior, understood->reports, perception, understood->visibility);
  out.summary = belief::summary(out.belief, here);
  warn_of_heights(here, *understood, out.warnings);
  if (out.summary.elsewhere > 0.2)
    out.warnings.push_back(trip::told(
        understood->in,
        "what was told fits this piece of ground poorly: {} in 100 that you are elsewhere",
        {units::of_hundred(out.summary.elsewhere)}));
  warn_of_misfits(here, *understood, out, perception, out.warnings);
  resect(here, *understood, perception, out);
  belief::Asking asking;
  asking.altimeter = understood->altimeter;
  out.questions = belief::next_questions(out.belief, out.summary, here, understood->reports,
                                         perception, understood->visibility, asking);
  if (!go_on(0.8, "trying moves")) return stopped();
  out.moves = belief::common_moves(out.belief, here, ready != nullptr ? ready->chances : chances,
                                   understood->skill, understood->visibility);
  if (out.moves.standing_barred >= 0.005)
    out.warnings.insert(
        out.warnings.begin(),
        trip::told(
            understood->in,
            "DANGER: {} in 100 that you stand on ground to keep off already: look before you step",
            {std::max(1, static_cast<int>(std::lround(100 * out.moves.standing_barred)))}));
  out.reports = understood->reports;
  out.told = understood->words;
  out.norths = understood->needle.words;
  out.grid_magnetic_deg = understood->needle.magnetic_deg;
  out.visibility = understood->visibility;
  out.language = understood->in;
  say(ground, here, *understood, out);
  return out;
}

Result<Relocated> relocate(const RelocateRequest& request, Progress* progress) {
  Relocated out;
  auto& trip = out.trip;
  auto& legs = out.legs;
  sight::Changes changes;
  const bool is_trip = request.file.ends_with(".toml");
  if (is_trip && request.told.leg != 0) {
    PlanRequest plan;
    plan.trip_file = request.file;
    plan.ground_file = request.ground_file;
    auto planned = plan_trip(plan, progress);
    if (!planned) return std::unexpected(planned.error());
    trip = planned->plan.trip;
    legs = trip::plain(planned->plan.way).legs;
    out.ground = std::move(planned->ground);
    changes = trip->request.party.chances;
  } else {
    auto ground_file = is_trip ? request.ground_file : request.file;
    if (ground_file.empty()) {
      auto named = io::ground_of_trip(request.file);
      if (!named) return std::unexpected(named.error());
      ground_file = *std::move(named);
    }
    auto ground = io::open_ground(ground_file, io_progress(progress));
    if (!ground) return std::unexpected(ground.error());
    out.ground = *std::move(ground);
    if (is_trip) {
      const auto called = [&](const std::string& name) {
        return io::points_called(ground_file, name);
      };
      auto read = io::read_trip(request.file, walking::area_of(out.ground), called);
      if (!read) return std::unexpected(read.error());
      trip = *std::move(read);
      for (const auto& change : trip->kinds) out.ground.kinds.take(change);
      const auto taken = take_party_file(*trip, out.ground);
      if (!taken) return fail_in(request.file + ": party.file", taken.error());
      changes = trip->request.party.chances;
    }
  }
  const sight::Chances chances(changes);
  auto told = request.told;
  if (!trip && told.language.empty())
    told.language = request.readers == units::Language::german ? "de" : "en";
  auto answer = relocate(out.ground, trip ? &*trip : nullptr, legs.empty() ? nullptr : &legs, told,
                         nullptr, progress, chances);
  if (!answer) return std::unexpected(answer.error());
  out.answer = *std::move(answer);
  if (!request.raster.empty()) {
    terrain::Raster<float> share(out.answer.belief.frame);
    std::ranges::copy(out.answer.belief.share, share.cells().begin());
    if (auto done = io::write_geotiff(share, out.ground.grid, request.raster); !done)
      return std::unexpected(done.error());
  }
  if (!request.picture.empty()) {
    if (auto done = detail::draw_relocation(out.ground, out.answer, request.picture); !done)
      return std::unexpected(done.error());
  }
  return out;
}

}  // namespace lodeway::tasks
