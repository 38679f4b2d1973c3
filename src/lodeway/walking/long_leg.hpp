#pragma once
/// From where on a leg is long: ways are cut so that none is longer if that can be, and one that is
/// says so.
namespace lodeway::walking {

/// Minutes, and metres along the leg. Both *practice*.
inline constexpr double long_leg_min = 45, long_leg_m = 3500;

}  // namespace lodeway::walking
