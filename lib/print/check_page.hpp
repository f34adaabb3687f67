#pragma once
/// @file
/// Private to lib/print: what printers take for granted of a page that any program may have made.

#include <sectio/print/print.hpp>

namespace sectio::page {

/// @throws Error unfit_argument for rows that nobody makes, drawings and rulers whose
/// measures are no numbers, type or paper without size; digits_out_of_range
void check(const Page& page, const PrintOptions& options);

} // namespace sectio::page
