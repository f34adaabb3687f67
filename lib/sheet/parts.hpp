#pragma once
/// @file
/// Private to lib/sheet: the pages that a sheet may have, one maker each. A new one is a function
/// here and a row in parts.cpp.

#include <sectio/page/page.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/sheet/sheet.hpp>

#include <string>
#include <vector>

namespace sectio {

using Blocks = std::vector<page::Block>;

/// The degrees as notes on staves.
Blocks staff_part(const Comparison& comparison, const SheetOptions& options);

/// Every degree to every other in cents, the nearest simple ratio, and the beats of each against
/// the drone. @throws Error as near_ratios()
Blocks matrix_part(const Comparison& comparison, const SheetOptions& options);

/// The note that a tuner shows for each degree, from each of twelve tonics, and how far off its
/// needle must stand.
Blocks tuner_part(const Comparison& comparison, const SheetOptions& options);

/// The divisions up to a bound that come nearest to the scale, beside those asked for.
/// @throws Error as ErrorTable
Blocks errors_part(const Comparison& comparison, const SheetOptions& options);

/// Every step of the first division asked for that is not the keys, and which degrees lie at it.
Blocks division_part(const Comparison& comparison, const SheetOptions& options);

/// The degrees of the scale and of the systems on one axis and in one table.
Blocks beside_part(const Comparison& comparison, const SheetOptions& options);

/// The chart of the instrument: strings, frets, and where each degree lies.
/// @throws Error chart_without_instrument unless every page was asked for
Blocks instrument_part(const Comparison& comparison, const SheetOptions& options);

struct SheetPart {
    std::string_view name;  ///< as --pages takes it
    std::string_view title; ///< of its page
    Blocks (*make)(const Comparison&, const SheetOptions&);
};

/// The part called so, or null for "ruler" and "table", which share the first page.
const SheetPart* find_part(std::string_view name);

/// Whether a sheet may have this page: the first page has two of its own.
bool is_sheet_page(std::string_view name);

} // namespace sectio
