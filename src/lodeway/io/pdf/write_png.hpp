#pragma once
/// A drawing as a raster picture: previews, and the picture tests.
#include <filesystem>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/draw/drawing.hpp"

namespace lodeway::io {

/// White ground, RGB. Sides are rounded to whole pixels.
/// Files:   as write_pdf.
/// Faults:  bad_input (dpi not above 0; a side above 20 000 pixels; no size), io_failed.
[[nodiscard]] Result<void> write_png(const sheet::Drawing& drawing,
                                     const std::filesystem::path& path, double dpi);

}  // namespace lodeway::io
