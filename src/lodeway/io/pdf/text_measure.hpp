#pragma once
/// How wide a line of text is in the fonts that the PDF will carry.
#include <memory>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/draw/drawing.hpp"

namespace lodeway::io {

/// The measure for layout; the writers use the very same fonts.
/// Units:    millimetres. Accuracy: 0.002 mm a letter (Pango counts in 1/1024 of a millimetre).
/// Threads:  one measure a thread.
/// Faults:   bad_input when Noto Sans, Noto Serif or B612 is not installed; names the package.
[[nodiscard]] Result<std::unique_ptr<const sheet::TextMeasure>> make_text_measure();

}  // namespace lodeway::io
