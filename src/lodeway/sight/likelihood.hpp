#pragma once
/// How likely a telling is, given a place, and tellings drawn from the same model.
/// Source: mixtures against readings that the map cannot explain: Fox, Burgard, Thrun & Cremers
/// 1998 (AAAI-98). Method, with a worked example: docs/method/seen.md
#include <optional>
#include <vector>

#include "lodeway/numeric/random.hpp"
#include "lodeway/sight/cue_planes.hpp"
#include "lodeway/sight/report.hpp"

namespace lodeway::sight {

namespace detail {
struct Model;
}

/// What can be told at one place, for one question (a kind of line, a thing).
struct Facts {
  double height_m = 0, slope_deg = 0, fall_deg = 0;
  Form form = Form::unknown;
  bool wood = false;
  std::optional<Nearest> nearest;  ///< of the kind asked for; nothing: out of its reach
  /// Things in question: chance that one who looks can see it, bearing, and how unsure that is.
  struct InView {
    double chance = 0, bearing_deg = 0, sigma_deg = 0;
  };
  std::vector<InView> in_view;
};

/// What `like` asks about (its cue, kind, thing) at a cell of the planes that is known.
[[nodiscard]] Facts facts_at(const CuePlanes& planes, std::size_t cell, const Report& like,
                             const Perception& perception, mapdata::Visibility visibility);

/// Density (of a metre, a degree) or probability of the telling, mixture in it, temper not.
/// Never 0 with mix above 0.
[[nodiscard]] double likelihood(const CuePlanes& planes, const Facts& facts, const Report& report,
                                const Perception& perception, mapdata::Visibility visibility);

/// Its logarithm, tempered (ground cues: times temper). -infinity outside the planes and on voids.
[[nodiscard]] double log_likelihood(const CuePlanes& planes, earth::GridPoint place,
                                    const Report& report, const Perception& perception,
                                    mapdata::Visibility visibility);

/// The same at a cell that is known.
[[nodiscard]] double log_likelihood_at(const CuePlanes& planes, std::size_t cell,
                                       const Report& report, const Perception& perception,
                                       mapdata::Visibility visibility);

/// A telling of `like` (cue, kind, thing) by one who stands at a known place, drawn from the very
/// model that `likelihood` is of: with mix and widen as given, so take plain_perception_of for
/// tellings as they are assumed. Nothing outside the planes and on voids.
[[nodiscard]] std::optional<Report> perceive(const CuePlanes& planes, earth::GridPoint place,
                                             const Report& like, const Perception& perception,
                                             mapdata::Visibility visibility,
                                             numeric::Random& random);

/// One telling made ready for a whole ground: tables over the bytes of the planes.
class Scorer {
 public:
  Scorer(const CuePlanes& planes, const Report& report, const Perception& perception,
         mapdata::Visibility visibility);
  /// log_likelihood of a known cell, within 0.02 of it (0.2 where a steep likelihood meets a
  /// plane's step).
  [[nodiscard]] float at(std::size_t cell) const;
  /// Adds it for the cells [first, last), whatever is known of them. Cells that are below `floor`
  /// already are passed over where this telling is dear (a bearing).
  void add(std::size_t first, std::size_t last, float* log_p, float floor) const;
  [[nodiscard]] bool dear() const { return dear_; }

 private:
  static constexpr double far_step_m = 8;
  [[nodiscard]] float bearing_at(std::size_t cell) const;
  template <class OfDensity>
  void lay_near(const detail::Model& m, const OfDensity& of_density);
  void lay_far();
  const CuePlanes* planes_;
  Report report_;
  Perception perception_;
  mapdata::Visibility visibility_;
  const NearPlane* near_ = nullptr;
  bool dear_ = false;
  float beyond_ = 0;  ///< nearest: out of its plane's reach
  std::vector<float> table_;
  struct Candidate {
    std::size_t thing = 0;
    double reach_m = 0;
  };
  std::vector<Candidate> candidates_;
  std::vector<float> far_air_, far_sigma_deg_;  ///< of the one thing, each far_step_m from it
  /// Outside of so many spreads of the bearing told only nonsense is left of it (under 2e-6 of it
  /// else, where tellings are nonsense once in 1000): its logarithm, 0 where that is not so; the cosine of that angle; the bearing told.
  static constexpr double beam = 7;
  float blank_ = 0;
  std::vector<float> far_edge_;
  double told_east_ = 0, told_north_ = 0;
};

/// P(told | true) of the eight forms, rows and columns in the order of Form without `unknown`.
/// *practice*.
[[nodiscard]] double form_told(Form told, Form is);
/// Chance that one on ground this steep says that it falls nowhere: normal cdf of (4 - slope) / 2
/// degrees. *practice*.
[[nodiscard]] double level_told(double slope_deg);
/// Spread of where the map draws a line and where one who says "on it" stands, by kind, metres:
/// roads and tracks 12, paths, walls and streams 20, faint paths and edges 30, crests and valley
/// floors 40. *practice*.
[[nodiscard]] double on_line_sd_m(mapdata::Kind kind);
/// The things that a telling of a kind may be of: at most 16 nearest to the middle of the planes.
[[nodiscard]] std::vector<std::int32_t> candidates_of(const CuePlanes& planes, mapdata::Kind kind);

}  // namespace lodeway::sight
