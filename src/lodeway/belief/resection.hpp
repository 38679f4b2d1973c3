#pragma once
/// A place from bearings to known things, by least squares with a shared compass bias.
/// Method, with a worked example: docs/method/resection.md. Grid bearings, grid metres; over 20 km
/// the grid's own curvature of bearings (under 0.01 degrees in UTM) is left out.
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/numeric/covariance.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/units/bearing.hpp"

namespace lodeway::belief {

struct Sighted {
  earth::GridPoint mark;
  units::GridBearing bearing;  ///< from the party to the mark
  double sigma_deg = 2;
  /// Other things that may have been sighted in its place: neighbouring tops.
  std::vector<earth::GridPoint> others = {};
};

/// What is assumed of an error that all bearings share (a compass or declination wrongly allowed
/// for).
struct Bias {
  enum class How : unsigned char { none, prior, free } how = How::none;
  double sd_deg = 3;  ///< of `prior`
};

struct Resection {
  earth::GridPoint at;
  double bias_deg = 0;
  std::vector<double> residual_deg;   ///< bearing less what the place gives, bias taken off
  numeric::Covariance covariance;     ///< m2, x east, y north, at the solution
  double chi2 = 0;                    ///< with the bias's own term
  int redundancy = 0;                 ///< observations less unknowns
  std::vector<double> w;              ///< normalised residuals (Baarda); 0 where nothing checks it
  std::vector<double> redundancy_of;  ///< each bearing's own, 0 to 1
  std::vector<bool> behind;           ///< the solution lies behind this bearing
};

/// Gauss-Newton from the crossing that fits all bearings best. Accuracy: 1e-6 m of the least
/// squares place. Faults: bad_input for fewer than two bearings, more than six, two marks in one
/// place, two lines within 1 degree of parallel and no third, a sigma of 0 or below.
[[nodiscard]] Result<Resection> resect(std::span<const Sighted> sighted, const Bias& bias);

/// Which bearing is wrong, if one can be named. Source: Baarda 1968 (w-test), critical 3.29.
struct Blunder {
  enum class Said : unsigned char {
    none,         ///< all fit
    cannot_tell,  ///< two bearings: nothing checks them
    some,         ///< one of them is wrong, and three bearings cannot say which
    this_one,     ///< `which`: without it the others fit
    other_thing,  ///< `which` fits when `candidate` of its others was sighted
  } said = Said::none;
  std::size_t which = 0, candidate = 0;
  double off_deg = 0;               ///< by how much that bearing misses the place of the others
  std::optional<Resection> mended;  ///< without it, or with the other thing
};
/// Tries, for each bearing, the other things it may have been taken to before the angle is blamed,
/// then leaving each out. Chi-square limits at 0.01 (6.635, 9.210, 11.345, 13.277).
[[nodiscard]] Result<Blunder> blunder(std::span<const Sighted> sighted, const Bias& bias,
                                      const Resection& all);

/// Two bearings: root of the mean square distance, sigma sqrt(d1^2 + d2^2) / sin(cut), metres.
[[nodiscard]] double two_bearing_rms_m(double d1_m, double d2_m, double cut_deg, double sigma_deg);

/// Angle between the directions of two bearings as lines, 0 to 90 degrees.
[[nodiscard]] double cut_deg(units::GridBearing a, units::GridBearing b);

/// Three-point resection by Tienstra's formula, from the horizontal angles at P between the marks:
/// alpha B-P-C, beta C-P-A, gamma A-P-B, clockwise. Nothing on the circle through the marks
/// (danger circle). Accuracy: that of the angles; 1e-6 m of its formula.
[[nodiscard]] std::optional<earth::GridPoint> tienstra(earth::GridPoint a, earth::GridPoint b,
                                                       earth::GridPoint c, units::Angle alpha,
                                                       units::Angle beta, units::Angle gamma);

}  // namespace lodeway::belief
