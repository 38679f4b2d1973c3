#include "lodeway/trip/verdict.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace lodeway::trip {

namespace {

Band band_of(Fails what) {
  switch (what) {
    case Fails::keep_off:
    case Fails::water_stops:
    case Fails::never_home:
    case Fails::dark:
    case Fails::dark_start:
    case Fails::back_too_late:
    case Fails::lost_leg:
      return Band::outside;
    case Fails::no_heights:
    case Fails::no_compass:
    case Fails::water_unknown:
      return Band::not_judged;
    case Fails::unsure_leg:
    case Fails::little_light:
    case Fails::wade:
      return Band::close_to;
  }
  return Band::outside;
}

class Judgement {
 public:
  void add(Fails what, int leg = -1, double value = 0, double limit = 0) {
    out_.reasons.push_back({band_of(what), what, leg, value, limit});
  }
  Verdict done() {
    const auto past = [](const Reason& r) { return std::abs(r.value - r.limit); };
    std::ranges::stable_sort(out_.reasons, [&](const Reason& a, const Reason& b) {
      if (a.band != b.band) return a.band > b.band;
      if (a.what != b.what) return a.what < b.what;
      if ((a.leg < 0) != (b.leg < 0)) return a.leg < 0;
      if (past(a) != past(b)) return past(a) > past(b);
      return a.leg < b.leg;
    });
    if (!out_.reasons.empty()) out_.band = out_.reasons.front().band;
    return std::move(out_);
  }

 private:
  Verdict out_;
};

void judge_leg(Judgement& out, const LegFacts& leg, int at, const Limits& limits) {
  const bool known = std::isfinite(leg.keep_off) && (!leg.kept || std::isfinite(*leg.kept));
  if (leg.no_heights || !known) out.add(Fails::no_heights, at);
  if (leg.water_stops) out.add(Fails::water_stops, at);
  if (leg.wades > 0) out.add(Fails::wade, at, leg.wades);
  if (!known || !leg.kept) return;
  if (*leg.kept < limits.least_kept)
    out.add(Fails::lost_leg, at, *leg.kept, limits.least_kept);
  else if (*leg.kept < limits.asked_kept)
    out.add(Fails::unsure_leg, at, *leg.kept, limits.asked_kept);
}

}  // namespace

Verdict verdict_of(const WayFacts& way, const Limits& limits) {
  Judgement out;
  if (way.keep_off > limits.most_keep_off) {
    out.add(Fails::keep_off, -1, way.keep_off, limits.most_keep_off);
    const auto harm = [](const LegFacts& leg) {
      return std::isfinite(leg.keep_off) ? leg.keep_off : 0;
    };
    const auto worst = std::ranges::max_element(way.legs, {}, harm);
    for (auto leg = way.legs.begin(); leg != way.legs.end(); ++leg) {
      if (leg == worst || harm(*leg) > limits.most_keep_off)
        out.add(Fails::keep_off, static_cast<int>(leg - way.legs.begin()), harm(*leg),
                limits.most_keep_off);
    }
  }
  if (way.never_home > limits.most_never_home)
    out.add(Fails::never_home, -1, way.never_home, limits.most_never_home);
  if (way.slow_to_dark_min && *way.slow_to_dark_min < 0)
    out.add(Fails::dark, -1, -*way.slow_to_dark_min);
  else if (way.slow_to_dark_min && *way.slow_to_dark_min < limits.light_margin_min)
    out.add(Fails::little_light, -1, *way.slow_to_dark_min, limits.light_margin_min);
  if (way.start_to_light_min && *way.start_to_light_min > 0)
    out.add(Fails::dark_start, -1, *way.start_to_light_min);
  if (way.turn_round_to_there_min && *way.turn_round_to_there_min > 0)
    out.add(Fails::back_too_late, -1, *way.turn_round_to_there_min);
  if (way.no_compass) out.add(Fails::no_compass);
  if (way.water_unknown) out.add(Fails::water_unknown);
  for (std::size_t i = 0; i < way.legs.size(); ++i)
    judge_leg(out, way.legs[i], static_cast<int>(i), limits);
  return out.done();
}

const char* band_name(Band band) {
  constexpr std::array names{"within", "close_to", "not_judged", "outside"};
  return names[static_cast<std::size_t>(band)];
}

const char* fails_name(Fails what) {
  constexpr std::array<const char*, fails_count> names{
      "keep_off",   "water_stops",   "never_home", "dark",       "dark_start", "back_too_late", "lost_leg", "no_heights",
      "no_compass", "water_unknown", "unsure_leg", "little_light",  "wade"};
  return names[static_cast<std::size_t>(what)];
}

}  // namespace lodeway::trip
