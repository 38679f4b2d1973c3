#pragma once
/// The trip's words and figures, under this folder's own name.
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::sheet {

using trip::angle_text, trip::bearing_sign, trip::bearing_text, trip::clock_text, trip::date_text, trip::decimal_text,
    trip::height_text, trip::hours_text, trip::length_text, trip::of_hundred, trip::say,
    trip::size_text, trip::thousands;
using trip::Say;

}  // namespace lodeway::sheet
