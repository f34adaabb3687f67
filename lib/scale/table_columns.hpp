#pragma once
/// @file
/// Private to lib/scale: what the columns of a table of pitches mean.

#include <sectio/base/csv.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// How the pitch column is to be read.
enum class PitchKind {
    measured, ///< a pitch or an interval with its unit
    cents,    ///< above any one zero
    hertz,
    commas,         ///< steps of 53 above any one zero
    written_commas, ///< the same as staff notation counts them, C4 being 265
    degrees,        ///< intervals of a scale that a sheet was printed of
    noted,          ///< a note, and in a column of its own how far off it is
};

/// Which columns there are.
struct Columns {
    std::size_t pitch = 0;
    PitchKind kind = PitchKind::cents;
    std::optional<std::size_t> deviation, weight, uncertainty, onset, index, label, reference,
        basis, note, tonic, period, stated_reference, signs, apart;
    bool timed_weight = false;        ///< the weight is a duration
    std::size_t most = 0;             ///< cells that a row may have
    std::vector<std::string> remarks; ///< on columns that are none of these
};

/// The columns that a header names. @throws Error table_no_pitch_column
Columns columns_of(const Row& header);

/// The columns of a table whose first row is data already: the pitch, and after it a weight.
/// Nothing where that row is a header.
std::optional<Columns> columns_without_header(const Row& first, char separator);

} // namespace sectio
