#pragma once
/// @file
/// Private to lib/sheet: the blocks of the sheet that show every degree.

#include <sectio/page/page.hpp>
#include <sectio/scale/comparison.hpp>

#include <optional>
#include <vector>

namespace sectio {

struct ComparedSystem;

/// A degree with its row; the period, where there is one, closes the table.
struct SheetRow {
    const ComparedDegree* degree = nullptr;
    const ComparedDegree* next = nullptr;
    std::size_t index = 0; ///< in Comparison::degrees, or after them
    long number = 1;       ///< from 1, the tonic; -1 for the degree below it
};
/// The degree 1/1.
inline const ComparedDegree& tonic_of(const Comparison& c) {
    return c.degrees[c.tuned.tonic_index()];
}
/// Index and number of a degree as programs and people count them from the tonic.
inline long index_from_tonic(const Comparison& c, std::size_t degree) {
    return static_cast<long>(degree) - static_cast<long>(c.tuned.tonic_index());
}
std::vector<SheetRow> rows_of(const Comparison& comparison);

/// The half width of a degree as a page takes it.
std::optional<page::HalfWidth> half_width(const ComparedDegree* degree);

/// The reference that reads back as this A4, by the note whose frequency is a finite decimal: "A4 =
/// 440 Hz", "C4 = 256 Hz".
std::string reference_text(const Pitch& a4);

/// True where step k of the division is the k-th key above the tonic: 12 steps of the octave from a
/// tonic that is a key itself.
bool steps_are_keys(const Comparison& comparison, const EqualDivision& division);

/// Number, name, interval, cents, next, key and deviation, then step and error of each division; an
/// object `period` for programs where there is one.
page::Table degree_table(const Comparison& comparison, const std::vector<ComparedSystem>& systems,
                         bool frequencies);
/// Largest and RMS error of each division and system.
page::Table summary_table(const Comparison& comparison, const std::vector<ComparedSystem>& systems);
/// The degrees to scale between the marks of the divisions and systems.
page::Ruler scale_ruler(const Comparison& comparison, const std::vector<ComparedSystem>& systems);

} // namespace sectio
