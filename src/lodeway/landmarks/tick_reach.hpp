#pragma once
/// How far beside a way things are told as passed.

namespace lodeway::landmarks {

/// Metres; nothing farther is told, however far it is seen. *practice*.
inline constexpr double tick_reach_m = 150;

}  // namespace lodeway::landmarks
