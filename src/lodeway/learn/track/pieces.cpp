/// Pieces of some 500 m, each with what the time models say of it.
#include <cmath>

#include "lodeway/learn/track/moving.hpp"
#include "lodeway/terrain/profile.hpp"
#include "lodeway/walking/time_model.hpp"

namespace lodeway::learn::detail {

std::vector<WalkedPiece> cut_pieces(std::span<const Step> steps, const TrackRules& rules) {
  std::vector<WalkedPiece> out;
  std::vector<terrain::ProfilePoint> profile;
  double seconds = 0, ease = 0;
  const auto close = [&] {
    WalkedPiece piece;
    const auto whole = terrain::profile_of(profile);
    piece.length_m = whole.points.back().at_m;
    piece.climb_m = whole.ascent_m;
    piece.descent_m = whole.descent_m;
    piece.minutes = seconds / 60;
    piece.off_ease = ease / piece.length_m;
    for (int m = 0; m < time_model_count; ++m) {
      piece.model_minutes[static_cast<std::size_t>(m)] =
          walking::leg_minutes(static_cast<walking::TimeModel>(m), whole, true, 4.0, 1.0);
    }
    out.push_back(piece);
  };
  const auto begin = [&](double height) {
    profile.assign(1, {0, height});
    seconds = ease = 0;
  };
  for (const auto& s : steps) {
    if (!std::isfinite(s.height_from_m) || !std::isfinite(s.height_to_m)) {
      profile.clear();
      continue;
    }
    if (s.first || profile.empty()) begin(s.height_from_m);
    const double rise = s.height_to_m - s.height_from_m;
    profile.push_back({profile.back().at_m + s.length_m, s.height_to_m});
    seconds += s.seconds;
    ease += s.length_m * std::abs(rise / s.length_m + 0.05);
    if (profile.back().at_m < rules.piece_m) continue;
    close();
    begin(s.height_to_m);
  }
  return out;
}

}  // namespace lodeway::learn::detail
