#pragma once
/// @file
/// The legend of an annotated score, and the table of its written notes. Used by annotate().

#include <sectio/score/note_classes.hpp>

namespace sectio::score {

/// What the numbers are, by which tuning, by which reading: a few short lines.
std::string legend_text(const Annotation& annotation, const AnnotationOptions& options,
                        const std::vector<NoteClass>& classes);

/// Where a credit may stand: before the part list. Credits came with MusicXML 1.1; a score of 1.0
/// has its legend over the first measure. Source: MusicXML 2.0 DTD, score.mod, change notes.
std::optional<std::uint64_t> legend_in_header(const Score& score);

/// The legend as a credit at the foot of page 1, above what stands there already.
std::string legend_credit(const Score& score, const std::string& text);
/// The legend as words over the first measure.
std::string legend_direction(const std::string& text);

/// Rows by height within the octave; a note whose octaves all deviate alike has one row.
std::vector<TableRow> table_of(const std::vector<NoteClass>& classes);

} // namespace sectio::score
