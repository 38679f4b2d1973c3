#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "lodeway/tasks/text_table.hpp"
#include "lodeway/tasks/walk.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/told.hpp"

namespace lodeway::tasks {

namespace {
using nlohmann::ordered_json;
using walkers::Branch;
using walkers::State;

constexpr std::array<const char*, walkers::wrong_count> wrong_keys{
    "missed",       "wrong_side", "not_known",     "mistaken", "left_line",
    "wrong_branch", "overshot",   "wrong_bearing", "doubted",  "no_line"};
constexpr std::array<const char*, walkers::state_count> state_keys{
    "on_the_way", "lost",    "going_back",    "escaping",
    "staying",    "through", "back_at_start", "at_haven"};
constexpr std::array<const char*, walkers::branch_count> branch_keys{"slow", "lost", "escaped",
                                                                     "turned_round"};

double share(std::size_t n, std::size_t of) {
  return of == 0 ? 0 : static_cast<double>(n) / static_cast<double>(of);
}
/// "74", "0.6": of 100 parties, whole from 10 on.
std::string hundred(double share, units::Language in) {
  const double h = 100 * share;
  return trip::decimal_text(h, h >= 10 || h == 0 ? 0 : 1, in);
}
std::string clock(double minutes, const trip::Daylight& day) {
  return minutes < walkers::never
             ? trip::clock_text(trip::Clock{std::lround(minutes)}, day)
             : "-";
}
ordered_json number(double v) {
  return v < walkers::never ? ordered_json(v) : ordered_json(nullptr);
}

std::string leg_name(const trip::Plan& plan, int leg) {
  const auto& l = plan.way.legs[static_cast<std::size_t>(leg)];
  return trip::told(plan.trip.language, "leg {} ({} to {})", {leg + 1, l.course.from, l.course.to});
}

std::string branch_words(const trip::Plan& plan, Branch b, int leg) {
  const auto in = plan.trip.language;
  switch (b) {
    case Branch::slow:
      return trip::told(in, "slow or held up, and on their way");
    case Branch::lost:
      return trip::told(in, "lost on {}", {leg_name(plan, leg)});
    case Branch::escaped:
      return trip::told(in, "on an escape route");
    case Branch::turned_round:
      return trip::told(in, "turned round, and on their way back");
  }
  return {};
}

std::string overdue_text(const trip::Plan& plan, const WalkedTrip& t) {
  const auto& o = t.overdue;
  if (o.walked == 0) return {};
  const auto in = plan.trip.language;
  const std::size_t out = o.walked - o.home;
  std::string text = trip::told(
      in, "\nAt {}: {} in 100 parties are home or out by an escape route, {} are not.\n",
      {clock(o.at_min, t.daylight), hundred(share(o.home, o.walked), in), hundred(share(out, o.walked), in)});
  if (out == 0) return text;
  text += trip::told(in, "Of those that are not:\n");
  for (const auto& b : o.branches) {
    if (b.share < 0.005) continue;
    text += fmt::format("{:>6} {}  {}\n", hundred(b.share, in), trip::told(in, "in 100"),
                        branch_words(plan, b.branch, b.leg));
  }
  if (o.keeping_still > 0)
    text += trip::told(in, "{} in 100 of them stay where they are.\n",
                       {hundred(share(o.keeping_still, out), in)});
  if (out < 100)
    text += trip::told(
        in, "Only {} parties are out: take the shares as rough, or walk more of them.\n", {out});
  text += trip::told(
      in,
      "Look first, in this order (what a look finds for each hectare). This is for police and\n"
      "rescue services, who decide; it does not say where anybody is. Nobody goes alone.\n");
  TextTable table({{trip::told(in, "area")},
                   {trip::told(in, "grid reference"), TextTable::Side::left},
                   {trip::told(in, "hectares")},
                   {trip::told(in, "in 100")},
                   {trip::told(in, "most of them"), TextTable::Side::left}});
  for (std::size_t k = 0; k < o.areas.size(); ++k) {
    const auto& a = o.areas[k];
    table.row({std::to_string(a.number), t.references[k], fmt::format("{:.0f}", a.hectares),
               hundred(a.share, in), branch_words(plan, a.branch, a.leg)});
  }
  table.row({"-", trip::told(in, "elsewhere"), "", hundred(o.elsewhere, in), ""});
  return text + table.text();
}

ordered_json leg_json(const walkers::WalkedLeg& l) {
  ordered_json wrong;
  for (std::size_t k = 0; k < wrong_keys.size(); ++k) wrong[wrong_keys[k]] = l.wrong[k];
  return {{"set_out", l.set_out},
          {"kept", l.kept},
          {"in_the_end", l.in_the_end},
          {"elsewhere", l.elsewhere},
          {"set_out_from_its_start", l.on_course},
          {"kept_from_its_start", l.kept_on_course},
          {"predicted", l.predicted},
          {"keep_off", l.keep_off},
          {"went_wrong", wrong},
          {"lost_min_50", l.lost_min_50},
          {"lost_min_90", l.lost_min_90},
          {"lost_m_50", l.lost_m_50},
          {"lost_m_90", l.lost_m_90},
          {"minutes_10", l.minutes_10},
          {"minutes_50", l.minutes_50},
          {"minutes_90", l.minutes_90}};
}

ordered_json overdue_json(const WalkedTrip& t) {
  const auto& o = t.overdue;
  ordered_json branches = ordered_json::array(), areas = ordered_json::array();
  for (const auto& b : o.branches)
    branches.push_back({{"branch", branch_keys[static_cast<std::size_t>(b.branch)]},
                        {"leg", b.leg < 0 ? ordered_json(nullptr) : ordered_json(b.leg + 1)},
                        {"parties", b.parties},
                        {"share", b.share}});
  for (std::size_t k = 0; k < o.areas.size(); ++k) {
    const auto& a = o.areas[k];
    areas.push_back({{"area", a.number},
                     {"grid_reference", t.references[k]},
                     {"east_m", a.middle.east_m},
                     {"north_m", a.middle.north_m},
                     {"hectares", a.hectares},
                     {"share", a.share},
                     {"share_per_hectare", a.per_hectare()},
                     {"leg", a.leg + 1},
                     {"branch", branch_keys[static_cast<std::size_t>(a.branch)]},
                     {"looked", a.looked}});
  }
  return {{"at", clock(o.at_min, t.daylight)},
          {"at_min", o.at_min},
          {"parties", o.walked},
          {"home", o.home},
          {"staying", o.keeping_still},
          {"branches", branches},
          {"look_first", areas},
          {"elsewhere", o.elsewhere},
          {"note", "of the model; police and rescue services decide where to look"}};
}

}  // namespace

namespace {
ordered_json walk_json(const WalkedTrip& t) {
  const auto& w = t.walked;
  ordered_json ended, legs = ordered_json::array();
  for (std::size_t k = 0; k < state_keys.size(); ++k) ended[state_keys[k]] = w.ended[k];
  for (const auto& l : w.legs) legs.push_back(leg_json(l));
  return {{"asked", w.asked},
          {"walked", w.walked},
          {"stopped", t.stopped},
          {"kept_all", w.kept_all},
          {"ended", ended},
          {"lost", w.lost},
          {"never_noticed", w.never_noticed},
          {"lost_min_50", w.lost_min_50},
          {"lost_min_90", w.lost_min_90},
          {"unaware_min_50", w.unaware_min_50},
          {"unaware_min_90", w.unaware_min_90},
          {"lost_m_50", w.lost_m_50},
          {"lost_m_90", w.lost_m_90},
          {"benighted", w.benighted},
          {"keep_off", w.keep_off},
          {"off_ground", w.off_ground},
          {"home_min_10", number(w.end_10)},
          {"home_min_50", number(w.end_50)},
          {"home_min_90", number(w.end_90)},
          {"legs", legs},
          {"overdue", overdue_json(t)}};
}
}  // namespace

std::string walk_as_json(const WalkedTrip& t) { return walk_json(t).dump(2) + "\n"; }

std::string with_walk(const std::string& json, const WalkedTrip& t) {
  auto j = ordered_json::parse(json);
  j["walked"] = walk_json(t);
  return j.dump(2) + "\n";
}

std::string walk_as_text(const trip::Plan& plan, const WalkedTrip& t) {
  const auto& w = t.walked;
  const auto in = plan.trip.language;
  const auto of = [&](std::size_t n) { return hundred(share(n, w.walked), in); };
  const auto far = [&](double m) { return trip::length_text(m, plan.trip.lengths); };
  const auto ended = [&](State s) { return of(w.ended[static_cast<std::size_t>(s)]); };
  std::string text = trip::told(
      in,
      "\nAnd when it goes wrong: parties with a true place and a believed one, never put back.\n");
  if (t.stopped)
    text += trip::told(in, "Stopped: {} of {} walked; all that follows is of those.\n",
                       {w.walked, w.asked});
  text += trip::told(
      in,
      "{} in 100 kept every leg at the first try; {} in 100 came to the end, {} took an escape\n"
      "route to safe ground, {} turned round and came back, {} stayed out.\n",
      {of(w.kept_all), ended(State::through), ended(State::at_haven), ended(State::back_at_start),
       ended(State::staying)});
  if (w.lost > 0) {
    text +=
        trip::told(in,
                   "{} in 100 were lost at some time: half of them {} min or less, 90 in 100 {} or "
                   "less, of which\n"
                   "{} and {} before they noticed; {} and {} from where they believed to "
                   "be. {} in 100 never noticed.\n",
                   {of(w.lost), w.lost_min_50, w.lost_min_90, w.unaware_min_50, w.unaware_min_90,
                    far(w.lost_m_50), far(w.lost_m_90), of(w.never_noticed)});
  }
  text += trip::told(
      in, "{} in 100 were still out after last light; {} set foot on ground to keep off.\n",
      {of(w.benighted), of(w.keep_off)});
  text += w.end_90 < walkers::never
              ? trip::told(in, "Home, rests in it: half of them by {}, 90 in 100 by {}.\n",
                           {clock(w.end_50, t.daylight), clock(w.end_90, t.daylight)})
              : trip::told(in, "Fewer than 90 in 100 came home by themselves.\n");
  if (w.off_ground > 0)
    text += trip::told(
        in, "{} in 100 strayed where no heights are known; there they walk as on the level.\n",
        {of(w.off_ground)});
  TextTable table({{trip::told(in, "leg")},
                   {trip::told(in, "first try, in 100")},
                   {trip::told(in, "in the end")},
                   {trip::told(in, "predicted")},
                   {trip::told(in, "lost, min (half, 90 in 100)")},
                   {trip::told(in, "most went wrong so"), TextTable::Side::left}});
  const auto tenth = [&](double share) {
    return trip::decimal_text(std::floor(1000 * share) / 10, 1, in);
  };
  for (std::size_t k = 0; k < w.legs.size(); ++k) {
    const auto& l = w.legs[k];
    const auto most = std::ranges::max_element(l.wrong);
    const auto why =
        *most == 0 ? std::string_view("-")
                   : walkers::wrong_words(static_cast<walkers::Wrong>(most - l.wrong.begin()));
    table.row({std::to_string(k + 1), tenth(share(l.kept, l.set_out)),
               tenth(share(l.in_the_end, l.set_out)), tenth(l.predicted),
               fmt::format("{:.0f} {:>12.0f}", l.lost_min_50, l.lost_min_90),
               std::string(trip::told_in(in, why))});
  }
  return text + "\n" + table.text() + overdue_text(plan, t);
}

}  // namespace lodeway::tasks
