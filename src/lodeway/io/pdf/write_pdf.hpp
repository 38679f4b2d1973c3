#pragma once
/// Drawings as a vector PDF in true millimetres.
#include <chrono>
#include <filesystem>
#include <span>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/draw/drawing.hpp"

namespace lodeway::io {

/// One page a drawing. Fonts are embedded as subsets, text can be searched and copied.
/// Bytes:     the same drawings and date give the same bytes on the same machine: no time stamp but
///            `created` is in the file (midnight UTC of that day).
/// Units:     millimetres; 1 mm is 72/25.4 points. Accuracy: 0.01 mm (Cairo 1.16 writes coordinates
///            in 1/256 point and better).
/// Files:     written beside `path` and renamed; after a fault `path` is as it was.
/// Faults:    bad_input (no drawing, a page of no size or above 5 m, a font missing), io_failed
///            (folder missing, disk full: the system's own words).
[[nodiscard]] Result<void> write_pdf(std::span<const sheet::Drawing> pages,
                                     const std::filesystem::path& path,
                                     std::chrono::year_month_day created);

}  // namespace lodeway::io
