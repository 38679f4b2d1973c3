#pragma once
/// How long a leg is kept in the head, and from where on it is long: ways are cut so that none is
/// longer if that can be, and one that is says so.
namespace lodeway::walking {

/// So many minutes one thing is followed without a stop; *practice*.
inline constexpr double in_the_head_min = 30;
/// Minutes, and metres along the leg. Both *practice*.
inline constexpr double long_leg_min = 45, long_leg_m = 3500;

}  // namespace lodeway::walking
