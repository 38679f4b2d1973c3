#include "lodeway/trip/turn_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "lodeway/landmarks/likeness.hpp"
#include "lodeway/landmarks/words.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/norths.hpp"
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/long_leg.hpp"

namespace lodeway::trip {

namespace {

using mapdata::Kind;
using mapdata::Side;

constexpr double easily_taken_deg = 60;  // a wrong branch this near to the right one is told
constexpr double ticked_within_m = 40;   // as near as two tick-offs stand to each other

std::string needle(units::MagneticBearing b, const Trip& trip) {
  return bearing_text(b, trip.angles) + bearing_sign(trip.angles);
}

/// "sheepfold, 60 m at 000° from the end": what looks like the end.
std::string where_it_is(const LegNote& note, const Trip& trip, const units::Norths& norths) {
  return told(trip.language, "{}, {} at {} from the end",
              {note.what, length_text(note.away_m, trip.lengths),
               needle(units::to_magnetic(note.towards, norths), trip)});
}

std::string more_about(const LegNote& note, Language language) {
  return note.more == 1  ? told(language, "; 1 more about")
         : note.more > 1 ? told(language, "; {} more about", {note.more})
                         : std::string();
}

/// A side way that a tick-off tells of is no choice to be told again, where going on is plain.
bool to_be_told(const ForkAhead& fork, const PlannedLeg& leg) {
  const auto like = [&](Kind kind) {
    return landmarks::looks_alike(kind, leg.course.followed.kind) > 0;
  };
  return fork.turn != Turn::straight_on || fork.met ||
         std::ranges::any_of(fork.wrong,
                             [&](units::MagneticBearing wrong) {
                               return std::abs((wrong - fork.taken).in_degrees()) <
                                      easily_taken_deg;
                             }) ||
         std::ranges::none_of(leg.ticks, [&](const walking::Tick& t) {
           return std::abs(t.at_m - fork.at_m) <= ticked_within_m && like(t.kind);
         });
}

}  // namespace

std::string turn_words(Turn turn, Language language) {
  constexpr std::array words{Say::turn_straight_on, Say::turn_keep_left,  Say::turn_keep_right,
                             Say::turn_half_left,   Say::turn_half_right, Say::turn_left,
                             Say::turn_right,       Say::turn_sharp_left, Say::turn_sharp_right,
                             Say::turn_about,       Say::turn_leave,      Say::turn_leave_for_end,
                             Say::turn_bearing};
  return say(words[static_cast<std::size_t>(turn)], language);
}

std::string turn_name(Turn turn) { return turn_words(turn, Language::english); }

std::string fork_words(const ForkAhead& fork, const Trip& trip) {
  auto out = turn_words(fork.turn, trip.language) + ", " + needle(fork.taken, trip);
  const auto add = [&](Say how, const std::vector<units::MagneticBearing>& ways) {
    std::string all;
    for (const auto b : ways) all += (all.empty() ? "" : ", ") + needle(b, trip);
    if (!all.empty()) out += say(how, trip.language, {all});
  };
  add(Say::fork_not, fork.wrong);
  add(fork.beside_all_along ? Say::fork_beside : Say::fork_turns_off, fork.beside);
  return out;
}

std::vector<std::string> forks_told(const PlannedLeg& leg, const Trip& trip, std::size_t most) {
  std::vector<std::string> out;
  for (const auto& fork : leg.forks) {
    if (out.size() >= most) break;
    if (to_be_told(fork, leg))
      out.push_back(say(fork.met ? Say::fork_met : Say::fork_at, trip.language,
                        {length_text(fork.at_m, trip.lengths), fork_words(fork, trip)}));
  }
  return out;
}

std::string bend_words(const PlannedLeg& leg, const Trip& trip) {
  std::string out;
  for (const auto& bend : leg.bends)
    out += (out.empty() ? "" : ", ") + say(Say::bend_at, trip.language,
                                           {needle(bend.after, trip),
                                            length_text(bend.at_m, trip.lengths)});
  return out;
}

std::string ford_words(const FordAhead& ford, const Trip& trip) {
  constexpr double at_once_m = 3;
  const auto out = ford.at_m < at_once_m
                       ? say(Say::ford_at_start, trip.language, {ford.water})
                       : say(Say::ford_at, trip.language,
                             {length_text(ford.at_m, trip.lengths), ford.water});
  if (!ford.map_has_bridges) return out + say(Say::ford_no_bridges, trip.language);
  if (!ford.round || !ford.towards_bridge)
    return out + say(Say::ford_no_round, trip.language,
                     {length_text(round_within_m, trip.lengths)});
  return out + say(Say::ford_round, trip.language,
                   {ford.round->bridge, length_text(ford.round->away_m, trip.lengths),
                    needle(*ford.towards_bridge, trip),
                    std::to_string(std::lround(ford.round->minutes))});
}

std::string fords_words(const PlannedLeg& leg, const Trip& trip) {
  if (leg.fords.empty()) return {};
  const auto& worst = *std::ranges::max_element(leg.fords, {}, [](const FordAhead& ford) {
    return std::tuple(!ford.round, ford.kind == Kind::river, ford.round ? ford.round->minutes : 0);
  });
  std::string others;
  for (const auto& ford : leg.fords) {
    if (&ford == &worst) continue;
    others += (others.empty() ? "" : ", ") + length_text(ford.at_m, trip.lengths) + " " + ford.water;
  }
  auto out = ford_words(worst, trip);
  return others.empty() ? out : out + told(trip.language, "; also {}", {others});
}

std::string_view note_name(LegNote::About about) {
  constexpr std::array<std::string_view, 4> names{"attack_point", "turn", "long_leg", "taken_for"};
  return names[static_cast<std::size_t>(about)];
}

std::string like_words(const LegNote& note, const Trip& trip, const units::Norths& norths) {
  return where_it_is(note, trip, norths) + more_about(note, trip.language) + ".";
}

std::string note_words(const LegNote& note, const Trip& trip, const units::Norths& norths) {
  const auto l = trip.language;
  using What = walking::TurnReason::What;
  switch (note.about) {
    case LegNote::About::attack_point:
      return told(l, "Its end is the attack point for {}.", {note.what});
    case LegNote::About::long_leg:
      return told(l, "Long leg, {} min: halt every {} min, compare count and time.",
                  {note.minutes, note.minutes / std::ceil(note.minutes / walking::in_the_head_min)});
    case LegNote::About::taken_for:
      return where_it_is(note, trip, norths) + told(l, ", looks like it") + more_about(note, l) +
             ".";
    case LegNote::About::turn:
      break;
  }
  if (note.turn.what == What::longest_leg)
    return told(l, "Stop here and check count and time, for no leg on a bearing is longer than {}.",
                {length_text(trip.request.party.max_leg_m, trip.lengths)});
  if (note.turn.what == What::quicker)
    return told(l, "Turn here, for straight on takes {} min more.",
                {std::max(1.0, note.turn.minutes)});
  const std::string bar(told_in(l, walking::bar_words(note.turn.bar)));
  return told(l, "Turn here; straight on lies: {}.",
              {note.turn.name.empty() ? bar : bar + " (" + note.turn.name + ")"});
}

std::string beside_words(const PlannedLeg& leg, const std::string& remark, Language language) {
  std::string out;
  const auto add = [&](const std::string& words) {
    if (!words.empty()) out += (out.empty() ? "" : ", ") + words;
  };
  if (leg.flow != Flow::none)
    add(say(leg.flow == Flow::upstream ? Say::upstream : Say::downstream, language));
  if (leg.keeps != Side::none) {
    const auto kind = leg.course.followed.kind;
    const auto what = kind == Kind::wood_edge ? landmarks::thing(Kind::wood, "", language)
                      : kind == Kind::shore   ? landmarks::thing(Kind::lake, "", language)
                                              : leg.course.followed.name;
    add(say(leg.keeps == Side::left ? Say::side_left : Say::side_right, language, {what}));
  }
  if (remark != out) add(remark);
  return out;
}

}  // namespace lodeway::trip
